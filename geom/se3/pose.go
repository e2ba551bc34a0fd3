// Package se3 holds rotations, poses and twists of rigid bodies, and every
// orientation convention in which people write rotations down.
//
// A transform is named aFromB: it takes coordinates in frame b to coordinates
// in frame a, so products cancel,
//
//	worldFromTip = worldFromBase.Mul(baseFromTip)
//
// and the columns of its rotation are b's axes seen from a. Matrices are
// row-major, angles radians, positions metres, positive rotation follows the
// right hand. Quaternions are (w, x, y, z) with w >= 0.
package se3

import "seamwright/geom/r3"

// Pose is a position and an orientation: the transform aFromB of the frames
// that its variable names. P is in metres. The zero value is not a pose; use
// Identity.
type Pose struct {
	R Rot
	P r3.Vec
}

// Identity returns the pose of a frame in itself.
func Identity() Pose { return Pose{R: RotIdentity()} }

// Translation returns the pose with axes parallel to its parent's and its
// origin at p, in metres.
func Translation(p r3.Vec) Pose { return Pose{R: RotIdentity(), P: p} }

// Mul returns aFromC for p = aFromB and q = bFromC.
func (p Pose) Mul(q Pose) Pose {
	return Pose{R: p.R.Mul(q.R), P: p.R.Apply(q.P).Add(p.P)}
}

// Inv returns bFromA for p = aFromB.
func (p Pose) Inv() Pose {
	rt := p.R.T()
	return Pose{R: rt, P: rt.Apply(p.P).Neg()}
}

// Apply takes a point from b's coordinates to a's, both in metres.
func (p Pose) Apply(v r3.Vec) r3.Vec { return p.R.Apply(v).Add(p.P) }

// Dir takes a direction from b's coordinates to a's.
func (p Pose) Dir(v r3.Vec) r3.Vec { return p.R.Apply(v) }

// Lerp returns the pose at the dimensionless fraction f from p (0) to q (1):
// the origin on the straight line, the orientation turned at a steady rate
// about one axis. This is what a linear move does.
func (p Pose) Lerp(q Pose, f float64) Pose {
	return Pose{R: p.R.Slerp(q.R, f), P: p.P.Lerp(q.P, f)}
}

// Twist is a rigid body's velocity: Linear (m/s) of the frame's origin and
// Angular (rad/s), both expressed in the parent frame, or the displacement
// (m, rad) that such a velocity makes in one second.
type Twist struct {
	Linear  r3.Vec
	Angular r3.Vec
}

// Minus returns the displacement that carries q to p: the difference of the
// origins in metres and the rotation vector of p.R * q.R^T in radians, both in
// the parent frame.
func (p Pose) Minus(q Pose) Twist {
	return Twist{Linear: p.P.Sub(q.P), Angular: p.R.Mul(q.R.T()).Log()}
}
