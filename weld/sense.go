package weld

import (
	"fmt"
	"math"
	"strconv"

	"seamwright/unit"
)

// Sense is a range outside which an input is taken for a slip of unit or comma
// and refused, never computed with. It is wider than any procedure.
type Sense struct {
	What      string    // what is measured, such as "travel speed"
	Low, High float64   // ends in SI, or in the unit that What names
	Unit      unit.Unit // unit for messages; zero prints bare numbers
}

// Check reports a value outside the range, or NaN, saying what was found and
// what is allowed. The value is in SI (m, rad, s, m/s...) as the ends are.
func (s Sense) Check(x float64) error {
	if Between(s.Low, s.High).Contains(x) {
		return nil
	}
	return fmt.Errorf("%s %s is outside %s to %s; check the value and its unit",
		s.What, s.print(x), s.print(s.Low), s.print(s.High))
}

// print shows a value (SI) in the unit of the range.
func (s Sense) print(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "that is not a finite number"
	}
	if s.Unit == 0 {
		return strconv.FormatFloat(x, 'g', 4, 64)
	}
	return strconv.FormatFloat(s.Unit.Value(x), 'g', 4, 64) + " " + s.Unit.String()
}

// Of pairs the range with a value, in SI (m, rad, s, m/s...) as the ends are, to
// be checked by CheckAll.
func (s Sense) Of(x float64) Sensed { return Sensed{s, x} }

// Sensed is a value beside its range of sense.
type Sensed struct {
	Sense Sense
	Value float64 // SI, or in the unit that Sense.What names
}

// CheckAll returns the first complaint of its values, nil for none.
func CheckAll(values ...Sensed) error {
	for _, v := range values {
		if err := v.Sense.Check(v.Value); err != nil {
			return err
		}
	}
	return nil
}
