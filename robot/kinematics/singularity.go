package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// Singularity says how far a posture is from each of the family's
// singularities, in radians from 0 (singular) to pi/2. The product of the three
// sines is, up to lengths, the determinant of the Jacobian.
//
// The wrist point is where axes 4, 5 and 6 meet (SphericalWrist) or where axes
// 5 and 6 meet (ThreeParallel).
type Singularity struct {
	// Shoulder is the angle by which the wrist point, seen from the point of
	// axis 1 nearest to axis 2, lies off the plane through axis 1 that is
	// parallel to axis 2.
	Shoulder float64 // rad
	// Elbow is the angle by which the two links of the planar part are off one
	// line, stretched or folded: from axis 2 over axis 3 to the wrist point
	// (SphericalWrist) or to axis 4 (ThreeParallel), seen along axis 2.
	Elbow float64 // rad
	// Wrist is the angle by which joint 5 is off the position in which axes 4,
	// 5 and 6 are parallel to one plane. For the usual wrist, with axis 5
	// square to both, this is the angle of axes 4 and 6 off parallel.
	Wrist float64 // rad
}

// Singularity returns how far posture q (rad) is from each singularity.
func (s *Solver) Singularity(q *Q) Singularity {
	a := &s.arm
	psi := a.sign3*q[2] + a.beta3 - a.beta2
	out := Singularity{Elbow: offLine(psi), Wrist: offLine(q[4] + a.off5)}
	var pose se3.Pose
	s.chain.Forward(q, &pose)
	p := a.aFromBase.Apply(pose.Apply(a.point))
	sin, cos := math.Sincos(q[0])
	x, y := cos*p.X+sin*p.Y, cos*p.Y-sin*p.X
	if rest := math.Hypot(y, p.Z); x != 0 || rest != 0 {
		out.Shoulder = math.Atan2(math.Abs(x), rest)
	}
	return out
}

// offLine returns the distance (rad, 0 to pi/2) of an angle from the nearest
// multiple of pi.
func offLine(angle float64) float64 { return math.Abs(math.Remainder(angle, math.Pi)) }
