package motion

// Q stands in for kinematics.Q until that package compiles.
type Q [9]float64

// MaxJoints stands in for kinematics.MaxJoints.
const MaxJoints = 9
