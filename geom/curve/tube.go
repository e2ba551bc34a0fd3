package curve

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Tube is a round wall about an axis: the point (m) lies on the axis, which is
// a direction of any length; the radius is that of the wall that is met.
type Tube struct {
	Point, Axis r3.Vec
	Radius      float64 // m
}

// MinCross is the least angle (rad) at which surfaces are taken to meet in a
// curve: 5 deg between two planes, between a plane and a tube's axis, and
// between the axes of two tubes. Below it the place of the curve depends more
// on the last typed digit than on the part (common practice, no source).
const MinCross = 5 * math.Pi / 180

// check refuses a tube that is none; what names it.
func (t Tube) check(what string) error {
	switch {
	case !t.Point.IsFinite() || !t.Axis.IsFinite() || t.Axis.Unit() == (r3.Vec{}):
		return fmt.Errorf("curve: %s through %v along %v: a point and a direction in finite numbers are needed", what, t.Point, t.Axis)
	case !(t.Radius >= minRadius) || math.IsInf(t.Radius, 1):
		return fmt.Errorf("curve: %s has a radius of %.3g m: at least %g m is needed", what, t.Radius, minRadius)
	}
	return nil
}

// checkSweep refuses angles (rad) that are not one walk round or a part of one.
func checkSweep(start, sweep, radius float64) error {
	const slack = 1e-9 // rad: a full turn typed in degrees
	if math.IsNaN(start) || math.IsInf(start, 0) || !(math.Abs(sweep) <= 2*math.Pi+slack) || !(math.Abs(sweep)*radius >= MinLength) {
		return fmt.Errorf("curve: walk round a tube from %.6g rad by %.6g rad: a start in finite numbers and up to a full turn either way are possible; an overlap is laid on afterwards", start, sweep)
	}
	return nil
}

// fullTurn reports whether a sweep (rad) closes the curve.
func fullTurn(sweep float64) bool { return math.Abs(sweep) > 2*math.Pi-1e-9 }

// around returns the rising parameters (rad) from start by sweep, a full turn
// made exact, and whether they are walked backwards.
func around(start, sweep float64) (from, to float64, back bool) {
	if fullTurn(sweep) {
		sweep = math.Copysign(2*math.Pi, sweep)
	}
	if sweep < 0 {
		return start + sweep, start, true
	}
	return start, start + sweep, false
}
