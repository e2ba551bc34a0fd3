package section

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// The ranges of sense. Common practice, no source.
var (
	angleSense  = weld.IncludedAngleSense()
	legSense    = weld.LegSense()
	throatSense = weld.Sense{What: "throat", Low: 0.3e-3, High: 60e-3, Unit: unit.Millimetres}
	plateSense  = weld.Sense{What: "plate thickness", Low: 0.3e-3, High: 300e-3, Unit: unit.Millimetres}
)

// Fillet is a fillet weld's flat-faced section. Build it with New or
// EqualLegs, which check it.
type Fillet struct {
	Angle      float64 // included angle between the plates at the root, rad
	Leg1, Leg2 float64 // legs, root to toe along each plate, m
}

// New returns a checked fillet for an included angle (rad, 30 to 150 degrees)
// and two legs (m, 0.5 to 60 mm), or an error naming the range that one leaves.
func New(angle, leg1, leg2 float64) (Fillet, error) {
	if err := weld.CheckAll(angleSense.Of(angle), legSense.Of(leg1), legSense.Of(leg2)); err != nil {
		return Fillet{}, fmt.Errorf("fillet: %w", err)
	}
	return Fillet{angle, leg1, leg2}, nil
}

// EqualLegs returns a checked fillet with both legs the same (m) for an
// included angle (rad).
func EqualLegs(angle, leg float64) (Fillet, error) { return New(angle, leg, leg) }

// FromThroat returns the equal-leg fillet of a throat (m) for an included
// angle (rad): s = a / cos(angle/2), at 90 degrees z = a sqrt(2). Derived.
func FromThroat(angle, throat float64) (Fillet, error) {
	if err := weld.CheckAll(angleSense.Of(angle), throatSense.Of(throat)); err != nil {
		return Fillet{}, fmt.Errorf("fillet: %w", err)
	}
	return EqualLegs(angle, throat/math.Cos(angle/2))
}

// FaceWidth returns the width of the flat face, toe to toe, m: the law of
// cosines.
func (f Fillet) FaceWidth() float64 {
	d := f.Leg1 - f.Leg2
	s := math.Sin(f.Angle / 2)
	return math.Sqrt(d*d + 4*f.Leg1*f.Leg2*s*s)
}

// Area returns the area under the flat face, m2: half of s1 s2 sin(angle).
func (f Fillet) Area() float64 { return f.Leg1 * f.Leg2 * math.Sin(f.Angle) / 2 }

// TrueThroat returns the shortest distance from root to face, m: the height
// s1 s2 sin(angle) / face width, or the shorter leg where that height would
// meet the face's line beyond its toe. Derived.
func (f Fillet) TrueThroat() float64 {
	short, long := min(f.Leg1, f.Leg2), max(f.Leg1, f.Leg2)
	if long*math.Cos(f.Angle) >= short {
		return short
	}
	return 2 * f.Area() / f.FaceWidth()
}

// DesignThroat returns the throat that counts in design, m: the height of the
// largest isosceles triangle that fits, min(s1, s2) cos(angle/2). ISO 2553 and
// EN 1993-1-8, from memory; the gauge rule that a fillet is its smaller leg was
// read in workshop articles.
func (f Fillet) DesignThroat() float64 { return min(f.Leg1, f.Leg2) * math.Cos(f.Angle/2) }

// SkewedLeg returns the leg as AWS measures it in a skewed joint, m: from the
// toe on one plate square to the other plate, for the smaller leg. W = s
// sin(angle). Idea AWS D1.1 annex on skewed joints (read in a trade article),
// relation derived.
func (f Fillet) SkewedLeg() float64 { return min(f.Leg1, f.Leg2) * math.Sin(f.Angle) }

// LegFactor returns by how much the AWS leg of a skewed joint must exceed that
// of a square one for the same throat, dimensionless: sin(angle/2)/sin(45 deg),
// for an included angle in rad, 30 to 150 degrees. It reproduces the table of the AWS D1.1 annex
// (0.71 at 60, 1.08 at 100, 1.23 at 120, 1.31 at 135 degrees; from memory).
func LegFactor(angle float64) (float64, error) {
	if err := angleSense.Check(angle); err != nil {
		return 0, fmt.Errorf("leg factor: %w", err)
	}
	return math.Sin(angle/2) / math.Sin(math.Pi/4), nil
}

// BisectingWorkAngle returns the work angle of a torch that bisects the plates,
// rad from the normal of the non-butting member (AWS A3.0), for an included
// angle in rad, 30 to 150 degrees: 90 degrees less half of it. Derived.
func BisectingWorkAngle(angle float64) (float64, error) {
	if err := angleSense.Check(angle); err != nil {
		return 0, fmt.Errorf("bisecting work angle: %w", err)
	}
	return math.Pi/2 - angle/2, nil
}
