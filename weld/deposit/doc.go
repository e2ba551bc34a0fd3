// Package deposit balances metal: wire that goes in against bead that comes
// out, and the time, mass, leg, travel and feed that follow from it; what that
// uses and costs; and what the gauge teaches about a settings set afterwards.
//
// Units are SI throughout: wire diameter m, feed and travel m/s, area m2, flow
// m3/s, mass kg, efficiency and factors dimensionless. The balance itself is
// exact; what is uncertain is the efficiency (a few percent) and the shape of
// the face (the convexity factor). Predicted current is the weak part: +-20 %.
//
//	melt, err := deposit.NewMelt(1.0e-3, 9.0/60, 0.96)
//	shape := deposit.Shape{Angle: math.Pi / 2, LegRatio: 1, Convexity: 1.1}
//	v, err := melt.TravelForLeg(shape, 5e-3) // 8.2 mm/s
package deposit
