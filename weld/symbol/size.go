package symbol

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// Measure is what a size measures. The zero value is "not stated".
type Measure uint8

// The measures, with the letters that ISO 2553 puts before them.
const (
	Leg         Measure = iota + 1 // z: root to toe along a plate
	Throat                         // a: root to face of the inscribed triangle
	Penetration                    // s: how deep the weld goes; the weld size (E) of a groove in AWS A2.4
)

var measureWords = []word[Measure]{{Leg, "leg", nil}, {Throat, "throat", nil}, {Penetration, "penetration", nil}}

// String returns "leg", "throat" or "penetration".
func (m Measure) String() string { return nameOf(measureWords, "kind of size", m) }

// Letter returns the letter before the number: z, a or s.
func (m Measure) Letter() string {
	switch m {
	case Leg:
		return "z"
	case Throat:
		return "a"
	case Penetration:
		return "s"
	}
	return ""
}

// Size is a weld's size with what it measures; the zero value is none.
type Size struct {
	Is    Measure
	Value float64 // m
	// Second is the second leg of an unequal fillet, m; 0 for equal legs. Which
	// leg lies on which member is for a detail of the drawing.
	Second float64
	// Deep is the throat with deep penetration that ISO 2553 writes as s before
	// the throat a, m; 0 for none.
	Deep float64
}

// The ranges of sense. Common practice, no source.
var (
	legSense     = weld.LegSense()
	throatSense  = weld.Sense{What: "throat", Low: 0.3e-3, High: 60e-3, Unit: unit.Millimetres}
	depthSense   = weld.Sense{What: "penetration or depth", Low: 0.3e-3, High: 300e-3, Unit: unit.Millimetres}
	openingSense = weld.Sense{What: "root opening", Low: 0, High: 50e-3, Unit: unit.Millimetres}
	grooveSense  = weld.Sense{What: "groove angle", Low: 2 * unit.Deg, High: 180 * unit.Deg, Unit: unit.Degrees}
	plateSense   = weld.IncludedAngleSense()
)

// LegOf returns the leg along the plates, m, of an equal-leg fillet of a throat
// (m) between plates at an included angle (rad): z = a / cos(angle/2), at 90
// degrees a sqrt(2). Range: throat 0.3 to 60 mm, angle 30 to 150 degrees.
// Geometry, DERIVED; for 90 degrees read in workshop articles. In a skewed
// joint AWS measures the leg square to the other plate instead: see package
// section.
func LegOf(throat, angle float64) (float64, error) {
	if err := weld.CheckAll(throatSense.Of(throat), plateSense.Of(angle)); err != nil {
		return 0, senseError(err)
	}
	return throat / math.Cos(angle/2), nil
}

// ThroatOf returns the throat, m, of an equal-leg fillet of a leg along the
// plates (m) between plates at an included angle (rad): a = z cos(angle/2).
// Range: leg 0.5 to 60 mm, angle 30 to 150 degrees. Geometry, DERIVED.
func ThroatOf(leg, angle float64) (float64, error) {
	if err := weld.CheckAll(legSense.Of(leg), plateSense.Of(angle)); err != nil {
		return 0, senseError(err)
	}
	return leg * math.Cos(angle/2), nil
}

// senseError turns a value outside its range of sense into an Error.
func senseError(err error) *Error {
	return &Error{Name: OutOfSense, Found: err.Error(), Allowed: "the range named", Mend: "write the number that the drawing has, in mm or with its unit"}
}

// In returns the same fillet sizes in another measure, for plates at an
// included angle (rad; 0 for a square joint). Grooves stay as they are. Unequal
// legs and deep penetration have no single counterpart and are refused.
func (s Symbol) In(m Measure, angle float64) (Symbol, error) {
	if m != Leg && m != Throat {
		return Symbol{}, &Error{Name: WrongMeasure, Found: fmt.Sprintf("conversion into %v", m), Allowed: "leg, throat", Mend: "ask for one of them"}
	}
	if angle == 0 {
		angle = math.Pi / 2
	}
	for _, w := range []*Weld{&s.Arrow, &s.Other} {
		if w.Kind != Fillet || w.Size.Is == m {
			continue
		}
		if w.Size.Second != 0 || w.Size.Deep != 0 {
			return Symbol{}, &Error{Name: WrongMeasure, Found: "the size " + w.Size.String() + " has two figures, which no single " + m.String() + " replaces",
				Allowed: "equal legs, or a throat without s", Mend: "have the drawing changed, or give the size that counts"}
		}
		value, err := LegOf(w.Size.Value, angle)
		if m == Throat {
			value, err = ThroatOf(w.Size.Value, angle)
		}
		if err != nil {
			return Symbol{}, err
		}
		w.Size = Size{Is: m, Value: value}
	}
	return s, nil
}
