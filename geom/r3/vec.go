// Package r3 holds points and directions of three-dimensional space.
//
// A Vec is a position in metres or a dimensionless direction, right-handed,
// in whatever frame its name says (see docs/conventions.md). Values are
// comparable and small; methods take and return values, in the style
// a.Sub(b).Cross(c), and never allocate.
package r3

import "math"

// Vec is a position (m), a displacement (m) or a direction (dimensionless).
// The zero value is the origin.
type Vec struct{ X, Y, Z float64 }

// Add returns a + b, in the unit of its operands.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a - b, in the unit of its operands.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Scale returns s*a; s is dimensionless.
func (a Vec) Scale(s float64) Vec { return Vec{s * a.X, s * a.Y, s * a.Z} }

// AddScaled returns a + s*b; s carries the unit of a over that of b, such as
// metres along a dimensionless direction b.
func (a Vec) AddScaled(s float64, b Vec) Vec {
	return Vec{a.X + s*b.X, a.Y + s*b.Y, a.Z + s*b.Z}
}

// Neg returns -a.
func (a Vec) Neg() Vec { return Vec{-a.X, -a.Y, -a.Z} }

// Dot returns the scalar product, in the product of the operands' units.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross returns the right-handed vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Norm returns the length of a, in the unit of a.
func (a Vec) Norm() float64 { return math.Sqrt(a.Dot(a)) }

// Dist returns the distance between two positions, in metres.
func (a Vec) Dist(b Vec) float64 { return a.Sub(b).Norm() }

// Unit returns a divided by its length. The zero vector has no direction and
// comes back as the zero vector: callers that cannot exclude it must look.
func (a Vec) Unit() Vec {
	n := a.Norm()
	switch { // squares of very short and very long vectors leave float64
	case n < 1e-140:
		a = a.Scale(1e280)
		n = a.Norm()
	case n > 1e140:
		a = a.Scale(1e-280)
		n = a.Norm()
	}
	if n == 0 {
		return Vec{}
	}
	return a.Scale(1 / n)
}

// Reject returns the part of a that is square to the unit direction n.
func (a Vec) Reject(n Vec) Vec { return a.AddScaled(-a.Dot(n), n) }

// Angle returns the angle between two non-zero vectors, in radians from 0 to
// pi. It keeps full precision at 0 and at pi, where acos of the scalar
// product loses half the digits.
func (a Vec) Angle(b Vec) float64 { return math.Atan2(a.Cross(b).Norm(), a.Dot(b)) }

// Lerp returns the point at the dimensionless fraction f from a (0) to b (1).
func (a Vec) Lerp(b Vec, f float64) Vec { return a.AddScaled(f, b.Sub(a)) }

// Orthogonal returns some unit direction square to the non-zero vector a, the
// same one for the same a.
func (a Vec) Orthogonal() Vec {
	ax, ay, az := math.Abs(a.X), math.Abs(a.Y), math.Abs(a.Z)
	switch {
	case ax <= ay && ax <= az:
		return a.Cross(Vec{X: 1}).Unit()
	case ay <= az:
		return a.Cross(Vec{Y: 1}).Unit()
	}
	return a.Cross(Vec{Z: 1}).Unit()
}

// IsFinite reports whether no component is NaN or infinite.
func (a Vec) IsFinite() bool {
	return a.Sub(a) == Vec{} // NaN - NaN and Inf - Inf are NaN, which equals nothing
}
