package section

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

var (
	faceSense = weld.Sense{What: "face width", Low: 0.5e-3, High: 120e-3, Unit: unit.Millimetres}
	capSense  = weld.Sense{What: "cap height", Low: 0, High: 60e-3, Unit: unit.Millimetres}
)

// CapArea returns the area in m2 of a round cap of a given height (m) over a
// face of a given width (m). The height is at most half the width, where the
// cap is a half circle.
//
// Circular segment with R = (f^2/4 + h^2)/(2h) and angle theta = 4 atan(2h/f):
// A = R^2 (theta - sin theta)/2. Derived.
func CapArea(face, height float64) (float64, error) {
	if err := weld.CheckAll(faceSense.Of(face), capSense.Of(height)); err != nil {
		return 0, fmt.Errorf("cap: %w", err)
	}
	f, h := face, height
	if h > f/2 {
		return 0, fmt.Errorf("cap: height %.4g mm is above half the face width, %.4g mm; measure again", h/unit.MM, f/2/unit.MM)
	}
	// Below this ratio theta - sin(theta) loses digits; the series is then
	// exact to 1e-11, its next term being of the order (2h/f)^4.
	const flat = 1e-3
	if h < flat*f {
		return 2.0 / 3 * f * h * (1 + 0.8*(h/f)*(h/f)), nil
	}
	R := (f*f/4 + h*h) / (2 * h)
	theta := 4 * math.Atan(2*h/f)
	return R * R / 2 * (theta - math.Sin(theta)), nil
}

// ConvexityFactor returns bead area over flat-face area, dimensionless, for a
// round cap of the given height (m) on the fillet, in the range of CapArea. Geometry.
func (f Fillet) ConvexityFactor(height float64) (float64, error) {
	c, err := CapArea(f.FaceWidth(), height)
	if err != nil {
		return 0, err
	}
	return 1 + c/f.Area(), nil
}

// Convexity returns the planning factor k, dimensionless, for welds not yet
// measured: 1.1 spray and pulsed, 1.2 short-circuit, globular and not stated;
// usual 1.10 to 1.25. From memory; a ship-welding reference (read) uses 1.2.
func Convexity(t weld.Transfer) weld.Figure {
	k := weld.Figure{Value: 1.2, Usual: weld.Between(1.10, 1.25), Source: weld.Source{
		Mark: weld.Memory, Code: "planning factor for fillet convexity", Note: "a ship-welding reference uses 1.2"}}
	if t == weld.Spray || t == weld.Pulsed {
		k.Value = 1.1
	}
	return k
}
