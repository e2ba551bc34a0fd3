package deposit

import (
	"fmt"
	"math"

	"seamwright/weld"
)

// Shape is the section that the metal of one fillet fills.
type Shape struct {
	// Angle is the included angle between the plates, rad; pi/2 for a square tee.
	Angle float64
	// LegRatio is second leg over first leg, dimensionless; 1 for equal legs.
	LegRatio float64
	// Convexity is bead area over flat-face area, dimensionless: the planning
	// factor k, 1 for a flat face.
	Convexity float64
}

// SquareFillet returns the shape of an equal-leg fillet between plates at right
// angles with the dimensionless planning factor k.
func SquareFillet(k float64) Shape {
	return Shape{Angle: math.Pi / 2, LegRatio: 1, Convexity: k}
}

// Validate reports an angle outside 30 to 150 degrees, a ratio outside 1/3 to
// 3 or a convexity factor outside 0.8 to 2.
func (s Shape) Validate() error {
	if err := weld.CheckAll(angles.Of(s.Angle), ratios.Of(s.LegRatio), convexities.Of(s.Convexity)); err != nil {
		return fmt.Errorf("fillet shape: %w", err)
	}
	return nil
}

// perLegSquared returns area over the square of the first leg, dimensionless.
// Formula: triangle with two sides and the angle between, times k. Derived.
func (s Shape) perLegSquared() float64 {
	return s.Convexity * s.LegRatio * math.Sin(s.Angle) / 2
}

// Area returns the bead area in m2 of a fillet whose first leg is leg (m), or
// an error naming the range that the input leaves. Geometry of the triangle, times
// the planning factor.
func (s Shape) Area(leg float64) (float64, error) {
	if err := s.Validate(); err != nil {
		return 0, err
	}
	if err := legSpan.Check(leg); err != nil {
		return 0, err
	}
	return s.perLegSquared() * leg * leg, nil
}

// Leg returns the first leg in m of a fillet of the given bead area (m2), or
// an error naming the range that the input leaves. For a square fillet it is
// z = sqrt(2 A / k). Derived: the inverse of Area.
func (s Shape) Leg(area float64) (float64, error) {
	if err := s.Validate(); err != nil {
		return 0, err
	}
	if err := areaSpan.Check(area); err != nil {
		return 0, err
	}
	return math.Sqrt(area / s.perLegSquared()), nil
}
