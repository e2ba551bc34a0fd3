package kinematics

// Family is a class of six-joint arms by the geometry of their axes.
type Family uint8

// The families that NewSolver recognises. Those whose name begins with
// Shoulder, and ThreeParallelOuter, are the mirror images, flange for base, of
// the ones before them.
const (
	SphericalWrist Family = iota + 1 // axes 4, 5, 6 meet in a point, axes 2 and 3 parallel
	ThreeParallel                    // axes 2, 3, 4 parallel, axes 5 and 6 meet in a point

	WristMeet12     // axes 4, 5, 6 meet in a point, axes 1 and 2 meet
	WristMeet23     // axes 4, 5, 6 meet in a point, axes 2 and 3 meet
	WristParallel12 // axes 4, 5, 6 meet in a point, axes 1 and 2 parallel

	SphericalShoulder  // axes 1, 2, 3 meet in a point, axes 4 and 5 parallel
	ThreeParallelOuter // axes 3, 4, 5 parallel, axes 1 and 2 meet in a point
	ShoulderMeet56     // axes 1, 2, 3 meet in a point, axes 5 and 6 meet
	ShoulderMeet45     // axes 1, 2, 3 meet in a point, axes 4 and 5 meet
	ShoulderParallel56 // axes 1, 2, 3 meet in a point, axes 5 and 6 parallel

	General // any other six joints, sliding ones too, that can move the flange every way
)

// String returns the family in words.
func (f Family) String() string {
	switch f {
	case SphericalWrist:
		return "spherical wrist, axes 2 and 3 parallel"
	case ThreeParallel:
		return "axes 2, 3 and 4 parallel, axes 5 and 6 intersecting"
	case WristMeet12:
		return "spherical wrist, axes 1 and 2 intersecting"
	case WristMeet23:
		return "spherical wrist, axes 2 and 3 intersecting"
	case WristParallel12:
		return "spherical wrist, axes 1 and 2 parallel"
	case SphericalShoulder:
		return "spherical shoulder, axes 4 and 5 parallel"
	case ThreeParallelOuter:
		return "axes 3, 4 and 5 parallel, axes 1 and 2 intersecting"
	case ShoulderMeet56:
		return "spherical shoulder, axes 5 and 6 intersecting"
	case ShoulderMeet45:
		return "spherical shoulder, axes 4 and 5 intersecting"
	case ShoulderParallel56:
		return "spherical shoulder, axes 5 and 6 parallel"
	case General:
		return "general arm"
	}
	return "unknown"
}

// ClosedForm reports whether the family's postures follow from formulas; those
// of General come from following known postures to the pose.
func (f Family) ClosedForm() bool { return f >= SphericalWrist && f < General }

// mirrored returns the family that f is the mirror image of, or f itself and
// false.
func (f Family) mirrored() (Family, bool) {
	if f >= SphericalShoulder && f <= ShoulderParallel56 {
		return f - SphericalShoulder + SphericalWrist, true
	}
	return f, false
}
