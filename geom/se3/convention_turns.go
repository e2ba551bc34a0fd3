package se3

import "math"

// The product of three turns about moving axes i, j, k by a, b, c is
//
//	R = Ri(a) Rj(b) Rk(c)
//
// and that of turns about fixed axes has the factors in the other order, so
// fixed x-y-z by (a, b, c) is moving z-y-x by (c, b, a). Both are worked out as
// moving turns; the entries used below follow from multiplying out.

// encodeTurns writes the three angles of r in the convention's unit.
func (c Convention) encodeTurns(r Rot, dst []float64) Lock {
	axes := c.axes
	if !c.moving {
		axes[0], axes[2] = axes[2], axes[0]
	}
	// At a lock the last number is 0, save for moving turns about three axes,
	// where the first is: their row then reads backwards as the fixed one.
	three := axes[0] != axes[2]
	angles, slack := movingTurns(r, axes, !c.moving || three)
	lock := Lock{Magnify: max(1, 1/slack)}
	if slack < lockTolerance {
		lock = Lock{Rule: LastZero, Magnify: math.Inf(1)}
		if c.moving && three {
			lock.Rule = FirstZero
		}
	}
	if !c.moving {
		angles[0], angles[2] = angles[2], angles[0]
	}
	for n, a := range angles {
		dst[n] = c.fromRadians(halfOpen(a))
	}
	return lock
}

// movingTurns returns the angles (rad) of r about moving axes, and the cosine
// (three axes) or sine (two axes) of the middle one, which is 0 at the lock.
// There the outer (first) or the inner (last) angle is 0.
//
// The inner angle is read from what the outer one leaves of r, not from r, so
// the three together give r to full precision however near the lock is.
func movingTurns(r Rot, axes [3]axis, outerZero bool) (angles [3]float64, slack float64) {
	i, j := axes[0], axes[1]
	l := 3 - i - j // the axis that is neither
	e := 1.0       // +1 where i, j, l are right-handed
	if (j+3-i)%3 != 1 {
		e = -1
	}
	at := func(row, column axis) float64 { return r[3*row+column] }
	var a, b float64
	if axes[2] == l {
		slack = math.Hypot(at(i, i), at(i, j))
		a, b = math.Atan2(-e*at(j, l), at(l, l)), math.Atan2(e*at(i, l), slack)
	} else {
		slack = math.Hypot(at(i, j), at(i, l))
		a, b = math.Atan2(at(j, i), -e*at(l, i)), math.Atan2(slack, at(i, i))
	}
	if slack < lockTolerance {
		a = 0
		if !outerZero {
			return [3]float64{math.Atan2(e*at(l, j), at(j, j)), b, 0}, slack
		}
	}
	sin, cos := math.Sincos(a)
	left := func(column axis) float64 { return cos*at(j, column) + e*sin*at(l, column) } // row j of Ri(-a) r
	if axes[2] == l {
		return [3]float64{a, b, math.Atan2(e*left(i), left(j))}, slack
	}
	return [3]float64{a, b, math.Atan2(-e*left(l), left(j))}, slack
}

// decodeTurns returns the rotation of three angles in the convention's unit.
func (c Convention) decodeTurns(v []float64) Rot {
	var t [3]Rot
	for n, a := range c.axes {
		t[n] = turnAbout(a, c.toRadians(v[n]))
	}
	if c.moving {
		return t[0].Mul(t[1]).Mul(t[2])
	}
	return t[2].Mul(t[1]).Mul(t[0])
}

// turnAbout returns the rotation by angle (rad) about a coordinate axis.
func turnAbout(a axis, angle float64) Rot {
	switch a {
	case 0:
		return RotX(angle)
	case 1:
		return RotY(angle)
	}
	return RotZ(angle)
}

// halfOpen writes minus half a turn, within the noise of a product of three
// matrices, as plus half a turn, and -0 as 0, so that the same pose always
// prints the same. Angles are radians.
func halfOpen(angle float64) float64 {
	const noise = 1e-12
	if angle < noise-math.Pi {
		return math.Pi
	}
	return angle + 0
}
