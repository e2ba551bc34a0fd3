package section

import (
	"fmt"
	"math"

	"seamwright/weld"
)

// Sized is a fillet told by both of its measures, as a macro or a drawing tells
// it: equal legs and a throat that is less than what a flat face would have when
// the face is concave.
type Sized struct {
	Fillet
	Throat    float64 // a, m
	Concavity float64 // depth of the face below flat, m; 0 for a flat face
}

// BothSizes returns the fillet of equal legs (m) and a throat (m) for an included
// angle (rad). A throat over leg cos(angle/2) is refused: such a weld is convex,
// and convexity is not throat. A throat under 1/2 of that is refused too: nobody
// means such a face. Derived.
func BothSizes(angle, leg, throat float64) (Sized, error) {
	f, err := EqualLegs(angle, leg)
	if err != nil {
		return Sized{}, err
	}
	if err := inRange("fillet", throatSense.Of(throat)); err != nil {
		return Sized{}, err
	}
	flat := f.DesignThroat()
	// Drawings round: a throat may be over by half of the last digit, 0.05 mm.
	const rounding = 0.05e-3
	switch {
	case throat > flat+rounding:
		return Sized{}, fmt.Errorf("fillet: %w", InputError{ErrThroatOverLeg, fmt.Sprintf("throat %s on leg %s", millimetres(throat), millimetres(leg)),
			"up to " + millimetres(flat) + " at " + degrees(angle), "make the leg at least " + millimetres(throat/math.Cos(angle/2)) + ", or ask which of the two is meant"})
	case throat < flat/2:
		return Sized{}, fmt.Errorf("fillet: %w", InputError{ErrThroatOverLeg, fmt.Sprintf("leg %s for throat %s", millimetres(leg), millimetres(throat)),
			"a throat of " + millimetres(flat/2) + " to " + millimetres(flat) + " at " + degrees(angle), "ask which of the two is meant"})
	}
	return Sized{Fillet: f, Throat: min(throat, flat), Concavity: max(0, flat-throat)}, nil
}

// Area returns the area under the concave face, m2: the triangle less a circular
// segment as deep as the concavity. Derived.
func (s Sized) Area() (float64, error) {
	dip, err := CapArea(s.FaceWidth(), s.Concavity)
	if err != nil {
		return 0, err
	}
	return s.Fillet.Area() - dip, nil
}

// mostConvex is the largest cap height over face width, dimensionless: a half
// circle.
const mostConvex = 0.5

// Outline returns the section with a round cap of a height (m) over the face,
// negative for a concave one: root, toe on the base plate, face, toe on the
// other plate. It follows the face within 1 um. A cap over a half circle, or a
// concave face that cuts the root, is refused.
func (f Fillet) Outline(height float64) (Polygon, error) {
	width := f.FaceWidth()
	if !(math.Abs(height) <= mostConvex*width) {
		return nil, fmt.Errorf("fillet: %w", InputError{ErrOutOfRange, "a cap " + millimetres(height) + " high", "up to half the face width, " + millimetres(mostConvex*width) + ", either way", "measure again"})
	}
	if -height >= f.TrueThroat() {
		return nil, fmt.Errorf("fillet: %w", InputError{ErrOutOfRange, "a face " + millimetres(-height) + " hollow", "less than the throat, " + millimetres(f.TrueThroat()), "measure again"})
	}
	toe1, toe2 := f.toes()
	turn := 4 * math.Atan(2*height/width)
	radius := width / (2 * math.Abs(math.Sin(turn/2)))
	return bulge(Polygon{{}}, toe1, toe2, turn, arcSteps(radius, math.Abs(turn))), nil
}

// toes returns the toe on the base plate and the toe on the other plate, m.
func (f Fillet) toes() (base, other Point) {
	sin, cos := math.Sincos(f.Angle)
	return Point{f.Leg1, 0}, Point{f.Leg2 * cos, f.Leg2 * sin}
}

// capFor returns the height (m) of the round cap of an area (m2) over a face of a
// width (m): the inverse of CapArea, by bisection, within 1e-12 of the width.
// Areas over the half circle return half the width.
func capFor(width, area float64) float64 {
	low, high := 0.0, mostConvex*width
	for high-low > 1e-12*width {
		mid := (low + high) / 2
		if got, err := CapArea(width, mid); err != nil || got > area {
			high = mid
		} else {
			low = mid
		}
	}
	return low
}

// WithFactor returns the outline of the fillet whose area is a planning factor k
// (dimensionless, 1 to 2) times the flat area, and the height of its cap, m. Geometry.
func (f Fillet) WithFactor(k float64) (Polygon, float64, error) {
	if err := inRange("fillet", weld.Sense{What: "convexity factor", Low: 1, High: 2}.Of(k)); err != nil {
		return nil, 0, err
	}
	height := capFor(f.FaceWidth(), (k-1)*f.Area())
	out, err := f.Outline(height)
	return out, height, err
}
