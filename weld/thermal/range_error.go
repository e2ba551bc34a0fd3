package thermal

import (
	"fmt"
	"math"
	"strconv"

	"seamwright/weld"
)

// RangeError says that an input lies outside the range in which a formula was
// published, or in which its answer means something. The formula gives no
// answer there.
type RangeError struct {
	What    string // the input, such as "plate thickness"
	Found   string // what was found, with its unit
	Allowed string // the range, with its unit
	Mend    string // what to do instead
}

// Error returns one sentence: what was found, what is allowed, how to mend it.
func (e *RangeError) Error() string {
	return fmt.Sprintf("%s %s is outside %s; %s", e.What, e.Found, e.Allowed, e.Mend)
}

// FamilyError says that a method of one code family was asked to answer for a
// job or a steel of another.
type FamilyError struct {
	Method string          // such as "the preheat table of AWS D1.1"
	Of     weld.CodeFamily // the family of the method
	Found  weld.CodeFamily // the family asked for; 0 when nobody said
	What   string          // what is of the family found, such as "the job"
}

// Error returns one sentence: what was found, what is allowed, how to mend it.
func (e *FamilyError) Error() string {
	if e.Found == 0 {
		return fmt.Sprintf("%s belongs to the %v family and the family of %s is not stated; say %v, or take a method of the other family",
			e.Method, e.Of, e.What, e.Of)
	}
	return fmt.Sprintf("%s belongs to the %v family and %s is of the %v family; codes are never mixed in one answer: take a method of the %v family",
		e.Method, e.Of, e.What, e.Found, e.Found)
}

// validity is a range in which a formula holds, in SI, and how to print it.
type validity struct {
	what      string
	low, high float64
	scale     float64 // SI per printed unit
	unit      string
	mend      string
}

// check returns a RangeError for x (SI) outside the range or not a number.
func (v validity) check(x float64) error {
	if weld.Between(v.low, v.high).Contains(x) {
		return nil
	}
	return &RangeError{v.what, v.print(x), v.print(v.low) + " to " + v.print(v.high), v.mend}
}

// print shows an SI value in the unit of the range.
func (v validity) print(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "that is not a finite number"
	}
	digits := strconv.FormatFloat(x/v.scale, 'g', 4, 64)
	if v.unit == "" {
		return digits
	}
	return digits + " " + v.unit
}

// measured pairs a range with a value (SI) to be checked by within.
type measured struct {
	validity validity
	x        float64
}

// of pairs the range with a value in SI.
func (v validity) of(x float64) measured { return measured{v, x} }

// within returns the first complaint of its values, nil for none.
func within(values ...measured) error {
	for _, m := range values {
		if err := m.validity.check(m.x); err != nil {
			return err
		}
	}
	return nil
}
