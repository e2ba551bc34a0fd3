package se3

import (
	"fmt"
	"math"
	"strings"

	"seamwright/geom/r3"
)

// unitTolerance is how far from 1 the length of a quaternion, an axis or a
// direction may be. Rounding to three decimals moves each number by up to
// 0.0005 and the length of four numbers by up to 0.001; this is twice that.
const unitTolerance = 0.002

// matrixTolerance is how far from a rotation a matrix may be (root of the sum
// of the nine squared differences to the nearest one). Rounding to three
// decimals gives up to 0.0015; this is twice that.
const matrixTolerance = 0.003

// down is the direction of a wire that points straight down, and toolDown the
// orientation from which spin is measured there: tool z down, tool x along the
// frame's x, so tool y is against the frame's y.
var (
	down     = r3.Vec{Z: -1}
	toolDown = Rot{1, 0, 0, 0, -1, 0, 0, 0, -1}
)

// Encode writes r = frameFromTool into the first Len numbers of dst, in the
// convention's own unit, and returns how many. Angles of turns lie above -180
// and up to 180 degrees, the middle one from -90 to 90 (three axes) or from 0 to
// 180 (two axes); a rotation vector is up to 180 degrees long; a quaternion has
// w >= 0. The lock says whether other numbers would do as well and how these
// were chosen. It panics where dst is shorter than Len; the zero Convention
// writes nothing.
func (c Convention) Encode(r Rot, dst []float64) (n int, lock Lock) {
	lock = Lock{Magnify: 1}
	switch c.form {
	case turns:
		return 3, c.encodeTurns(r, dst[:3])
	case quaternion:
		q, rule := halfTurnSign(r.Quat())
		numbers := [4]float64{q.W, q.X, q.Y, q.Z}
		if c.second {
			numbers = [4]float64{q.X, q.Y, q.Z, q.W}
		}
		lock.Rule = rule
		return copy(dst[:4], numbers[:]), lock
	case rotationVector:
		v, angle, rule := axisOf(r)
		if rule == AxisZ {
			rule = Unique // the vector is zero whatever the axis
		} else {
			lock.Magnify = angle / 2 / math.Sin(angle/2)
		}
		v = v.Scale(c.fromRadians(angle))
		lock.Rule = rule
		return copy(dst[:3], []float64{v.X, v.Y, v.Z}), lock
	case axisAngle:
		v, angle, rule := axisOf(r)
		lock.Rule = rule
		return copy(dst[:4], []float64{v.X, v.Y, v.Z, c.fromRadians(angle)}), lock
	case matrix:
		if c.second {
			r = r.T()
		}
		return copy(dst[:9], r[:]), lock
	case toolSpin:
		return 4, c.encodeToolSpin(r, dst[:4])
	}
	return 0, lock
}

// halfTurnSign settles the sign of a quaternion whose w is zero but for noise.
func halfTurnSign(q Quat) (Quat, Rule) {
	if q.W >= lockTolerance {
		return q, Unique
	}
	q.W = 0
	for _, part := range [3]float64{q.X, q.Y, q.Z} {
		if math.Abs(part) < lockTolerance {
			continue
		}
		if part < 0 {
			q.X, q.Y, q.Z = 0-q.X, 0-q.Y, 0-q.Z
		}
		break
	}
	return q, PositiveSign
}

// axisOf returns the unit axis and the angle (rad, 0 to pi) of r.
func axisOf(r Rot) (r3.Vec, float64, Rule) {
	q, rule := halfTurnSign(r.Quat())
	v := r3.Vec{X: q.X, Y: q.Y, Z: q.Z}
	n := v.Norm()
	if n == 0 {
		return r3.Vec{Z: 1}, 0, AxisZ
	}
	return v.Unit(), 2 * math.Atan2(n, q.W), rule
}

// encodeToolSpin writes the tool's z and the spin about it.
func (c Convention) encodeToolSpin(r Rot, dst []float64) Lock {
	d := r.Z()
	level := math.Hypot(d.X, d.Y)
	lift := 1 - d.Z // 2 cos^2(t/2) for the angle t from straight down
	if d.Z > 0 {
		lift = level * level / (1 + d.Z) // the same without cancellation
	}
	lock := Lock{Magnify: max(1, math.Sqrt(2/lift))}
	if level < lockTolerance && d.Z > 0 {
		d = r3.Vec{Z: 1}
		lock = Lock{Rule: HalfTurnY, Magnify: math.Inf(1)}
	}
	s := spinZero(d).T().Mul(r)
	dst[0], dst[1], dst[2] = d.X+0, d.Y+0, d.Z+0
	dst[3] = c.fromRadians(halfOpen(math.Atan2(s[3], s[0])))
	return lock
}

// spinZero returns the orientation with tool z along the unit direction d and
// spin 0: straight down carried to d by the smallest rotation. For straight up
// that is a half turn about some level axis; it is then the frame's Y.
func spinZero(d r3.Vec) Rot {
	if d.X == 0 && d.Y == 0 && d.Z > 0 {
		return Rot{-1, 0, 0, 0, -1, 0, 0, 0, 1}
	}
	return Between(down, d).Mul(toolDown)
}

// Decode returns the rotation frameFromTool of a row of numbers in the
// convention's own unit. Numbers that were rounded to three decimals or more
// are taken and brought back to unit length or to the nearest rotation. Refused
// are a wrong count, a number that is not finite, an angle of more than one
// full turn (degrees written where radians are due), a quaternion, axis or
// direction that is not of unit length, and a matrix that is not a rotation;
// the result beside an error is the identity.
func (c Convention) Decode(v []float64) (Rot, error) {
	if c.form == noForm {
		return RotIdentity(), fmt.Errorf("no orientation convention was named: allowed are %s", allowedWords)
	}
	if err := c.checkNumbers(v); err != nil {
		return RotIdentity(), err
	}
	switch c.form {
	case quaternion:
		return c.decodeQuaternion(v)
	case rotationVector:
		return Exp(r3.Vec{X: c.toRadians(v[0]), Y: c.toRadians(v[1]), Z: c.toRadians(v[2])}), nil
	case axisAngle:
		if v[0] == 0 && v[1] == 0 && v[2] == 0 && v[3] == 0 {
			return RotIdentity(), nil // no turn needs no axis
		}
		u, err := c.unitVector(v, "axis")
		if err != nil {
			return RotIdentity(), err
		}
		return RotAxis(u, c.toRadians(v[3])), nil
	case matrix:
		return c.decodeMatrix(v)
	case toolSpin:
		d, err := c.unitVector(v, "tool direction")
		if err != nil {
			return RotIdentity(), err
		}
		return spinZero(d).Mul(RotZ(c.toRadians(v[3]))), nil
	}
	return c.decodeTurns(v), nil
}

// checkNumbers looks at the count, at finiteness and at the size of angles.
func (c Convention) checkNumbers(v []float64) error {
	names, units := c.Names(), c.Units()
	if len(v) != len(names) {
		return fmt.Errorf("%v takes %d numbers (%s), found %d", c, len(names), strings.Join(names, ", "), len(v))
	}
	const rounding = 0.001 // of a full turn written with few decimals, deg or rad
	turn := c.fromRadians(2 * math.Pi)
	for i, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("%v: %q is %v: write a finite number", c, names[i], x)
		}
		if units[i] != "" && math.Abs(x) > turn+rounding {
			return fmt.Errorf("%v: %q is %v %s, more than one full turn (%.4g %s): check whether the numbers are in degrees or in radians",
				c, names[i], x, units[i], turn, units[i])
		}
	}
	return nil
}

func (c Convention) decodeQuaternion(v []float64) (Rot, error) {
	q := Quat{W: v[0], X: v[1], Y: v[2], Z: v[3]}
	if c.second {
		q = Quat{W: v[3], X: v[0], Y: v[1], Z: v[2]}
	}
	if n := q.Norm(); math.Abs(n-1) > unitTolerance {
		return RotIdentity(), c.lengthError("quaternion", n)
	}
	return q.normal().Rot(), nil
}

// unitVector reads the first three numbers as a direction.
func (c Convention) unitVector(v []float64, what string) (r3.Vec, error) {
	u := r3.Vec{X: v[0], Y: v[1], Z: v[2]}
	if n := u.Norm(); math.Abs(n-1) > unitTolerance {
		return r3.Vec{Z: 1}, c.lengthError(what, n)
	}
	return u.Unit(), nil
}

func (c Convention) lengthError(what string, n float64) error {
	return fmt.Errorf("%v: the %s has length %.4g, allowed is 1 within %v: check the order and the decimals of the numbers",
		c, what, n, unitTolerance)
}

func (c Convention) decodeMatrix(v []float64) (Rot, error) {
	r := Rot(v)
	if c.second {
		r = r.T()
	}
	if det := r.X().Cross(r.Y()).Dot(r.Z()); det < 0 {
		return RotIdentity(), fmt.Errorf("%v: the determinant is %.4g, allowed is 1: the axes are left-handed, check their order and signs", c, det)
	}
	near, ok := r.Orthonormal()
	var sum float64
	for i := range r {
		sum += (near[i] - r[i]) * (near[i] - r[i])
	}
	if !ok || math.Sqrt(sum) > matrixTolerance {
		return RotIdentity(), fmt.Errorf("%v: the nine numbers are not a rotation within the rounding of three decimals: axes must have length 1 and be square to each other", c)
	}
	return near, nil
}

// fromRadians takes an angle in rad to the convention's unit.
func (c Convention) fromRadians(angle float64) float64 {
	if c.degrees {
		return angle * (180 / math.Pi)
	}
	return angle
}

// toRadians takes an angle in the convention's unit to rad.
func (c Convention) toRadians(angle float64) float64 {
	if c.degrees {
		return angle * (math.Pi / 180)
	}
	return angle
}
