package se3

import (
	"math"

	"seamwright/geom/r3"
)

// Quat is a unit quaternion, dimensionless, scalar part W first. Q and -Q are
// the same rotation; functions of this package return the one with W >= 0 and,
// where W is 0, with the first non-zero of X, Y, Z positive.
type Quat struct{ W, X, Y, Z float64 }

// Quat returns the rotation as a unit quaternion with W >= 0. It divides by
// the largest of the four numbers, so no digits are lost anywhere.
// Formula: S. W. Shepperd, J. Guidance and Control 1(3), 1978.
func (r Rot) Quat() Quat {
	t := r[0] + r[4] + r[8]
	var q Quat
	switch {
	case t >= r[0] && t >= r[4] && t >= r[8]:
		q = Quat{1 + t, r[7] - r[5], r[2] - r[6], r[3] - r[1]}
	case r[0] >= r[4] && r[0] >= r[8]:
		q = Quat{r[7] - r[5], 1 + r[0] - r[4] - r[8], r[1] + r[3], r[2] + r[6]}
	case r[4] >= r[8]:
		q = Quat{r[2] - r[6], r[1] + r[3], 1 - r[0] + r[4] - r[8], r[5] + r[7]}
	default:
		q = Quat{r[3] - r[1], r[2] + r[6], r[5] + r[7], 1 - r[0] - r[4] + r[8]}
	}
	return q.normal()
}

// normal returns q at unit length with the sign that the type promises.
func (q Quat) normal() Quat {
	s := 1 / q.Norm()
	if q.W < 0 || q.W == 0 && (q.X < 0 || q.X == 0 && (q.Y < 0 || q.Y == 0 && q.Z < 0)) {
		s = -s
	}
	return Quat{s*q.W + 0, s*q.X + 0, s*q.Y + 0, s*q.Z + 0} // + 0 turns -0 into 0
}

// Norm returns the length of the four numbers, dimensionless, 1 for a rotation.
func (q Quat) Norm() float64 { return math.Sqrt(q.W*q.W + q.X*q.X + q.Y*q.Y + q.Z*q.Z) }

// Rot returns the rotation of a unit quaternion.
func (q Quat) Rot() Rot {
	w, x, y, z := q.W, q.X, q.Y, q.Z
	return Rot{
		1 - 2*(y*y+z*z), 2 * (x*y - w*z), 2 * (x*z + w*y),
		2 * (x*y + w*z), 1 - 2*(x*x+z*z), 2 * (y*z - w*x),
		2 * (x*z - w*y), 2 * (y*z + w*x), 1 - 2*(x*x+y*y),
	}
}

// Axis returns the rotation's unit axis and its angle in radians, 0 to pi. The
// rotation that turns nothing has axis Z and angle 0.
func (r Rot) Axis() (axis r3.Vec, angle float64) {
	v := r.Log()
	n := v.Norm()
	if n == 0 {
		return r3.Vec{Z: 1}, 0
	}
	return v.Unit(), n
}
