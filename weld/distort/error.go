package distort

import (
	"fmt"
	"math"
	"strconv"

	"seamwright/unit"
	"seamwright/weld"
)

// InputError says which input of an estimate makes no sense, or lies outside
// the range for which its rule was published.
type InputError struct {
	What    string // the input, such as "plate thickness"
	Found   string // what was found, with its unit
	Allowed string // the range, with its unit
	Mend    string // what to do instead
}

// Error returns one sentence: what was found, what is allowed, how to mend it.
func (e *InputError) Error() string {
	return fmt.Sprintf("%s %s is outside %s; %s", e.What, e.Found, e.Allowed, e.Mend)
}

// span is a range of sense in SI and how to print it.
type span struct {
	what      string
	low, high float64
	scale     float64 // SI per printed unit
	unit      string
}

// The ranges of sense only catch slips of unit and of comma. Common practice,
// no source.
var (
	areas      = span{"area of the weld", 1 * unit.MM2, 5000 * unit.MM2, unit.MM2, "mm2"}
	plates     = span{"plate thickness", 0.5 * unit.MM, 300 * unit.MM, unit.MM, "mm"}
	gaps       = span{"root gap", 0, 30 * unit.MM, unit.MM, "mm"}
	legs       = span{"leg of the fillet", 1 * unit.MM, 60 * unit.MM, unit.MM, "mm"}
	widths     = span{"width of the flange", 5 * unit.MM, 5, unit.MM, "mm"}
	lengths    = span{"length", 1 * unit.MM, 100, 1, "m"}
	offsets    = span{"distance from the neutral axis", -10, 10, 1, "m"}
	inertias   = span{"second moment of area", 1e-13, 1, unit.MM2 * unit.MM2, "mm4"}
	sections   = span{"area of the part's section", 10 * unit.MM2, 1, unit.MM2, "mm2"}
	heatInputs = span{"heat input", 0.02 * unit.KJPerMM, 20 * unit.KJPerMM, unit.KJPerMM, "kJ/mm"}
	places     = span{"place along the part", -100, 100, 1, "m"}
)

// check returns an InputError for x (SI) outside the range or not a number.
func (s span) check(x float64) error {
	if weld.Between(s.low, s.high).Contains(x) {
		return nil
	}
	return &InputError{s.what, s.print(x), s.print(s.low) + " to " + s.print(s.high), "check the value and its unit"}
}

func (s span) print(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "that is not a finite number"
	}
	return strconv.FormatFloat(x/s.scale, 'g', 4, 64) + " " + s.unit
}

// valued is a range with a value (SI) to be checked by sensible.
type valued struct {
	span span
	x    float64
}

// of pairs the range with a value in SI.
func (s span) of(x float64) valued { return valued{s, x} }

// sensible returns the first complaint of its values, nil for none.
func sensible(values ...valued) error {
	for _, v := range values {
		if err := v.span.check(v.x); err != nil {
			return err
		}
	}
	return nil
}
