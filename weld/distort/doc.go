// Package distort estimates how welding shrinks and bends a part, and proposes
// an order of seams that bends it less.
//
// Everything here is a rule of thumb. It gives the right direction and is
// usually right within a factor of two; nobody predicts a distortion exactly
// from a few numbers, and published rules differ by as much. So an Estimate
// shows every rule that applies beside the range that they span, and an Order
// says why each seam comes when it does. The qualified procedure and whoever
// knows the part decide.
//
// Units are SI: m, m2, m4, rad, J/m. Heat input is with the thermal efficiency
// k, the heat that reaches the plate. Steel throughout.
package distort
