package se3

import (
	"math"

	"seamwright/geom/r3"
)

// Rot is a proper rotation matrix in row-major order: r[3*i+j] is row i,
// column j. The zero value is not a rotation; use RotIdentity.
type Rot [9]float64

// RotIdentity returns the rotation that turns nothing.
func RotIdentity() Rot { return Rot{1, 0, 0, 0, 1, 0, 0, 0, 1} }

// RotX returns the rotation by angle (rad) about X.
func RotX(angle float64) Rot {
	s, c := math.Sincos(angle)
	return Rot{1, 0, 0, 0, c, -s, 0, s, c}
}

// RotY returns the rotation by angle (rad) about Y.
func RotY(angle float64) Rot {
	s, c := math.Sincos(angle)
	return Rot{c, 0, s, 0, 1, 0, -s, 0, c}
}

// RotZ returns the rotation by angle (rad) about Z.
func RotZ(angle float64) Rot {
	s, c := math.Sincos(angle)
	return Rot{c, -s, 0, s, c, 0, 0, 0, 1}
}

// RotAxis returns the rotation by angle (rad) about the unit direction axis.
// Formula: O. Rodrigues (1840).
func RotAxis(axis r3.Vec, angle float64) Rot {
	s, c := math.Sincos(angle)
	v := 1 - c
	x, y, z := axis.X, axis.Y, axis.Z
	return Rot{
		c + x*x*v, x*y*v - z*s, x*z*v + y*s,
		y*x*v + z*s, c + y*y*v, y*z*v - x*s,
		z*x*v - y*s, z*y*v + x*s, c + z*z*v,
	}
}

// RotColumns returns the rotation whose columns are the axes x, y and z, unit
// directions square to each other and right-handed.
func RotColumns(x, y, z r3.Vec) Rot {
	return Rot{x.X, y.X, z.X, x.Y, y.Y, z.Y, x.Z, y.Z, z.Z}
}

// Between returns the smallest rotation that carries the unit direction from
// to the unit direction to. For opposite directions the axis is free; it is
// then from.Orthogonal().
func Between(from, to r3.Vec) Rot {
	axis := from.Cross(to)
	n := axis.Norm()
	if n == 0 {
		if from.Dot(to) > 0 {
			return RotIdentity()
		}
		return RotAxis(from.Orthogonal(), math.Pi)
	}
	return RotAxis(axis.Scale(1/n), math.Atan2(n, from.Dot(to)))
}

// X returns the first column: the turned frame's x axis in the parent frame.
func (r Rot) X() r3.Vec { return r3.Vec{X: r[0], Y: r[3], Z: r[6]} }

// Y returns the second column: the turned frame's y axis in the parent frame.
func (r Rot) Y() r3.Vec { return r3.Vec{X: r[1], Y: r[4], Z: r[7]} }

// Z returns the third column: the turned frame's z axis in the parent frame.
func (r Rot) Z() r3.Vec { return r3.Vec{X: r[2], Y: r[5], Z: r[8]} }

// Apply turns v from the turned frame's coordinates into the parent's.
func (r Rot) Apply(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: r[0]*v.X + r[1]*v.Y + r[2]*v.Z,
		Y: r[3]*v.X + r[4]*v.Y + r[5]*v.Z,
		Z: r[6]*v.X + r[7]*v.Y + r[8]*v.Z,
	}
}

// Mul returns the product r*s.
func (r Rot) Mul(s Rot) Rot {
	return Rot{
		r[0]*s[0] + r[1]*s[3] + r[2]*s[6], r[0]*s[1] + r[1]*s[4] + r[2]*s[7], r[0]*s[2] + r[1]*s[5] + r[2]*s[8],
		r[3]*s[0] + r[4]*s[3] + r[5]*s[6], r[3]*s[1] + r[4]*s[4] + r[5]*s[7], r[3]*s[2] + r[4]*s[5] + r[5]*s[8],
		r[6]*s[0] + r[7]*s[3] + r[8]*s[6], r[6]*s[1] + r[7]*s[4] + r[8]*s[7], r[6]*s[2] + r[7]*s[5] + r[8]*s[8],
	}
}

// T returns the transpose, which is the inverse.
func (r Rot) T() Rot { return Rot{r[0], r[3], r[6], r[1], r[4], r[7], r[2], r[5], r[8]} }

// Angle returns the size of the rotation, in radians from 0 to pi.
func (r Rot) Angle() float64 {
	skew := r3.Vec{X: r[7] - r[5], Y: r[2] - r[6], Z: r[3] - r[1]}
	return math.Atan2(skew.Norm(), r[0]+r[4]+r[8]-1)
}

// AngleTo returns the angle of the rotation that carries r to s, in radians
// from 0 to pi.
func (r Rot) AngleTo(s Rot) float64 { return r.T().Mul(s).Angle() }

// Log returns the rotation vector: the axis times the angle, radians, length 0
// to pi. At exactly pi the sign of the axis is free; it is then the one that
// the quaternion with w = 0 has.
func (r Rot) Log() r3.Vec {
	q := r.Quat()
	v := r3.Vec{X: q.X, Y: q.Y, Z: q.Z}
	n := v.Norm()
	if n == 0 {
		return r3.Vec{}
	}
	return v.Scale(2 * math.Atan2(n, q.W) / n)
}

// Exp returns the rotation about v by |v| radians.
func Exp(v r3.Vec) Rot {
	n := v.Norm()
	if n == 0 {
		return RotIdentity()
	}
	return RotAxis(v.Unit(), n)
}

// Slerp returns the orientation at the dimensionless fraction f on the
// shortest turn from r (0) to s (1), at a steady rate about one axis.
func (r Rot) Slerp(s Rot, f float64) Rot {
	return r.Mul(Exp(r.T().Mul(s).Log().Scale(f)))
}

// Orthonormal returns the proper rotation nearest to r in the least-squares
// sense, for matrices that were rounded when written down. It fails (false)
// where r is not within a tenth of a rotation, entry by entry.
func (r Rot) Orthonormal() (Rot, bool) {
	// Newton's iteration for the polar factor, X <- (X + X^-T)/2:
	// Higham, Functions of Matrices (2008), section 8.3. From memory.
	x := r
	for range 20 {
		c := Rot{
			x[4]*x[8] - x[5]*x[7], x[5]*x[6] - x[3]*x[8], x[3]*x[7] - x[4]*x[6],
			x[2]*x[7] - x[1]*x[8], x[0]*x[8] - x[2]*x[6], x[1]*x[6] - x[0]*x[7],
			x[1]*x[5] - x[2]*x[4], x[2]*x[3] - x[0]*x[5], x[0]*x[4] - x[1]*x[3],
		}
		det := x[0]*c[0] + x[1]*c[1] + x[2]*c[2]
		if !(det > 0.5) {
			return r, false
		}
		var step float64
		for i := range x {
			next := (x[i] + c[i]/det) / 2
			step = max(step, math.Abs(next-x[i]))
			x[i] = next
		}
		if step < 1e-15 {
			break
		}
	}
	for i := range x {
		if !(math.Abs(x[i]-r[i]) < 0.1) {
			return r, false
		}
	}
	return x, true
}
