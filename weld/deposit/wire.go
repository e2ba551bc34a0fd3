package deposit

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// WireSize is a wire as it is sold.
type WireSize struct {
	Name     string  // as on the spool, such as "1.0 mm" or "0.045 in"
	Diameter float64 // true diameter, m
	// Twin is the size of the other system that people take for the same, empty
	// for none: 0.045 in is 1.143 mm, and taking it for 1.2 mm overstates the
	// metal by 10 %.
	Twin string
}

// wireSizes runs from thin to thick. Metric sizes ISO 544, inch sizes AWS
// A5.18, both from memory; twins as the trade pairs them (common practice, no
// source).
var wireSizes = []WireSize{
	{"0.023 in", 0.023 * unit.Inch, "0.6 mm"},
	{"0.6 mm", 0.6e-3, "0.023 in"},
	{"0.030 in", 0.030 * unit.Inch, "0.8 mm"},
	{"0.8 mm", 0.8e-3, "0.030 in"},
	{"0.035 in", 0.035 * unit.Inch, "0.9 mm"},
	{"0.9 mm", 0.9e-3, "0.035 in"},
	{"1.0 mm", 1.0e-3, "0.040 in"},
	{"0.040 in", 0.040 * unit.Inch, "1.0 mm"},
	{"0.045 in", 0.045 * unit.Inch, "1.2 mm"},
	{"1.2 mm", 1.2e-3, "0.045 in"},
	{"0.052 in", 0.052 * unit.Inch, "1.4 mm"},
	{"1.4 mm", 1.4e-3, "0.052 in"},
	{"1/16 in", unit.Inch / 16, "1.6 mm"},
	{"1.6 mm", 1.6e-3, "1/16 in"},
}

// WireSizes returns the sizes in use, from thin to thick.
func WireSizes() []WireSize { return append([]WireSize(nil), wireSizes...) }

// sameSize is how far a stated diameter may be from a size and still be that
// size, m: below half the step from 0.035 in (0.889 mm) to 0.9 mm.
const sameSize = 5e-6

// FindWire returns the size of a diameter (m), or an error that names the
// nearest one.
func FindWire(diameter float64) (WireSize, error) {
	best := wireSizes[0]
	for _, w := range wireSizes {
		if math.Abs(w.Diameter-diameter) < math.Abs(best.Diameter-diameter) {
			best = w
		}
	}
	if !(math.Abs(best.Diameter-diameter) <= sameSize) {
		return WireSize{}, fmt.Errorf("%.4g mm is no wire size; the nearest is %s (%.4g mm)", diameter/unit.MM, best.Name, best.Diameter/unit.MM)
	}
	return best, nil
}

// twin returns the size that people take for the same, and whether it is listed.
func (w WireSize) twin() (WireSize, bool) {
	for _, t := range wireSizes {
		if t.Name == w.Twin {
			return t, true
		}
	}
	return WireSize{}, false
}

// TwinError returns by how much metal would be overstated (positive) or
// understated if the wire were its twin of the other system, as a share,
// dimensionless, with the source; 0 for a wire without a twin in the list.
func (w WireSize) TwinError() weld.Figure {
	f := weld.Figure{Source: weld.Source{Mark: weld.Derived, Code: "ratio of wire areas"}}
	if t, ok := w.twin(); ok {
		f.Value = WireArea(t.Diameter)/WireArea(w.Diameter) - 1
	}
	return f
}
