package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// Singularity says how far a posture is from each of the family's
// singularities, in radians from 0 (singular) to pi/2. The product of the three
// sines is, up to lengths, the determinant of the Jacobian.
//
// The fields below are worded for SphericalWrist and ThreeParallel. For the
// other closed forms each is the angle of one joint from where its two ways
// meet: Wrist is the same, Elbow is joint 3's and Shoulder is that of joint 2
// (WristMeet12, WristParallel12) or joint 1 (WristMeet23). The mirror images
// are looked at from the flange, with Wrist and Shoulder exchanged: Wrist is
// still about the outer joints, Shoulder about the inner ones.
//
// For General all three are one angle, arcsin(min(1, sqrt(2) sigma)), where
// sigma is the least singular value of the Jacobian with shifts counted in
// units of a length of the arm (the root mean square lever of its joints). Two
// axes of rotation at a small angle to each other, and nothing else amiss,
// give just that angle; other singularities only something in proportion.
//
// For a chain of more than six joints the angles are those of the six that are
// solved for, with the free ones where q has them. Where these six can then not
// move the flange every way, whatever they do, the angles are zero.
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

// Singularity returns how far posture q (rad or m) is from each singularity.
func (s *Solver) Singularity(q *Q) Singularity {
	if s.redundant != nil {
		return s.redundant.singularity(q)
	}
	if s.back != nil {
		six := backwards([6]float64(q[:6]))
		var turned Q
		copy(turned[:], six[:])
		out := s.angles(s.back, &turned)
		out.Shoulder, out.Wrist = out.Wrist, out.Shoulder
		return out
	}
	return s.angles(s.chain, q)
}

// angles is Singularity for the family of which the solver's is the mirror
// image, or for its own.
func (s *Solver) angles(c *Chain, q *Q) Singularity {
	switch {
	case s.general != nil:
		angle := gainAngle(c.leastGain(q, s.general.length))
		return Singularity{Shoulder: angle, Elbow: angle, Wrist: angle}
	case s.decoupled != nil:
		return s.decoupled.singularity(q)
	}
	a := &s.arm
	psi := a.sign3*q[2] + a.beta3 - a.beta2
	out := Singularity{Elbow: offLine(psi), Wrist: offLine(q[4] + a.off5)}
	var pose se3.Pose
	c.Forward(q, &pose)
	p := a.aFromBase.Apply(pose.Apply(a.point))
	sin, cos := math.Sincos(q[0])
	x, y := cos*p.X+sin*p.Y, cos*p.Y-sin*p.X
	if rest := math.Hypot(y, p.Z); x != 0 || rest != 0 {
		out.Shoulder = math.Atan2(math.Abs(x), rest)
	}
	return out
}

// gainAngle turns the least singular value (dimensionless) into the angle (rad)
// of two unit axes whose sum and difference have it: the difference of two
// directions at the angle a is 2 sin(a/2), its singular value that / sqrt(2).
func gainAngle(gain float64) float64 { return math.Asin(min(1, math.Sqrt2*gain)) }

// offLine returns the distance (rad, 0 to pi/2) of an angle from the nearest
// multiple of pi.
func offLine(angle float64) float64 { return math.Abs(math.Remainder(angle, math.Pi)) }
