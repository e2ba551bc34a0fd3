package thermal

import (
	"fmt"

	"seamwright/unit"
)

// HeatPaths are the plates through which the heat of a run leaves, for method A
// of EN 1011-2.
type HeatPaths struct {
	// Thicknesses are those of the plates that meet, each averaged over 75 mm
	// from the weld, m: two for a butt joint, three for a tee, four for a cross.
	Thicknesses []float64
	// Opposite says that two opposite fillets are welded at the same time.
	Opposite bool
}

// CombinedThickness returns the combined thickness of the plates that meet, m:
// their sum, or half of it for two opposite fillets at the same time. Source:
// EN 1011-2 method A; the sum and the number of plates read in public code,
// the half from memory. Two to four plates of 0.5 to 300 mm each. The charts of method A are not in this package: read
// them in the standard.
func (p HeatPaths) CombinedThickness() (float64, error) {
	if n := len(p.Thicknesses); n < 2 || n > 4 {
		return 0, fmt.Errorf("combined thickness: %d plates are outside 2 to 4; give 2 for a butt joint, 3 for a tee, 4 for a cross", n)
	}
	sum := 0.0
	for _, t := range p.Thicknesses {
		if err := plateSpan.Check(t); err != nil {
			return 0, fmt.Errorf("combined thickness: %w", err)
		}
		sum += t
	}
	if p.Opposite {
		sum /= 2
	}
	return sum, nil
}

// preheatDistance is the least distance from the weld at which preheat is
// measured, m: 3 in.
const preheatDistance = 75 * unit.MM

// MeasureAt returns how far from the weld the preheat is to be reached, m, for
// the thickness of the thickest part (m): 75 mm or one thickness, the larger.
// AWS D1.1; the 75 mm read in workshop articles, the thickness from memory. Plates of
// 0.5 to 300 mm.
func MeasureAt(thickness float64) (float64, error) {
	if err := plateSpan.Check(thickness); err != nil {
		return 0, fmt.Errorf("place of the preheat: %w", err)
	}
	return max(preheatDistance, thickness), nil
}
