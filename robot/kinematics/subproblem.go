package kinematics

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// The subproblems of the closed forms: an angle about one axis from what it has
// to do to one vector. Numbers as in A. J. Elias and J. T. Wen, "Canonical
// Subproblems for Robot Inverse Kinematics" (2022), after B. Paden (1986) and
// W. Kahan (1983); from memory, checked by forward kinematics.

// planeTurn is subproblem 4: the angles t at which along . R(axis, t) v is a
// given number. They are middle + half and middle - half.
type planeTurn struct {
	middle, half float64 // rad; half is 0..pi
	sine         float64 // sine of half, dimensionless: 0 where both are the same
	free         bool    // any angle does
	lack         float64 // above 0: the number is out of range by this, in the unit of |along| |v|
	swing        float64 // how far the number can be from its mean, same unit
}

// blurred is the sine (dimensionless) that rounding of the number makes where
// both angles are the same: the square root of some 1e-14. What follows may hang
// on their being exactly so.
const blurred = 1e-7

// newPlaneTurn solves along . R(axis, t) v = number. slack is how little out of
// range still counts as the end of the range.
func newPlaneTurn(along, axis, v r3.Vec, number, slack float64) (p planeTurn) {
	fixed := along.Dot(axis) * axis.Dot(v)
	c, s := along.Dot(v)-fixed, along.Dot(axis.Cross(v))
	b := number - fixed
	p.swing = math.Hypot(c, s)
	p.middle = math.Atan2(s, c)
	over := math.Abs(b) - p.swing
	if over > slack {
		p.lack = over
		return p
	}
	if p.swing <= undetermined*along.Norm()*v.Norm() {
		p.free = true
		return p
	}
	h := math.Sqrt(max(-over, 0) * (p.swing + math.Abs(b)))
	if p.sine = h / p.swing; p.sine < blurred {
		p.sine, h = 0, 0
	}
	p.half = math.Atan2(h, b)
	return p
}

// ways returns how many angles there are.
func (p *planeTurn) ways() int {
	switch {
	case p.lack > 0:
		return 0
	case p.free || p.sine == 0:
		return 1
	}
	return 2
}

// angle returns way i (0 or 1), rad, or hold where any angle does.
func (p *planeTurn) angle(i int, hold float64) float64 {
	switch {
	case p.free:
		return hold
	case i == 0:
		return p.middle + p.half
	}
	return p.middle - p.half
}

// turnOnto is subproblem 1: the angle t at which R(axis, t) from points, seen
// along the axis, the way that to does. known is false where one of them points
// along the axis and nothing decides the angle.
func turnOnto(axis, from, to r3.Vec) (t float64, known bool) {
	s := axis.Dot(from.Cross(to))
	c := from.Dot(to) - from.Dot(axis)*to.Dot(axis)
	return math.Atan2(s, c), math.Hypot(s, c) > undetermined*from.Norm()*to.Norm()
}

// offTangent returns how far (rad, 0 to pi/2) v is, seen along the axis, from
// the line of along: zero where along . R(axis, t) v has its least or greatest
// value and the two ways of planeTurn meet.
func offTangent(along, axis, v r3.Vec) float64 {
	t, known := turnOnto(axis, along, v)
	if !known {
		return 0
	}
	return offLine(t)
}

// about carries a point by the turn t (rad) about l.
func (l line) about(t float64, p r3.Vec) r3.Vec {
	return se3.RotAxis(l.dir, t).Apply(p.Sub(l.at)).Add(l.at)
}
