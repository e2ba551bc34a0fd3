package weld

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/unit"
)

// Range is a closed interval whose ends are each optional, in the unit stated
// by the field that holds it. The zero value states nothing, which is not the
// same as allowing everything: see Stated.
type Range struct {
	Low, High       float64 // in the unit of the field that holds the range; read only when the flag is set
	HasLow, HasHigh bool
}

// Between returns the range from low to high, both in the unit of the field
// that will hold it.
func Between(low, high float64) Range {
	return Range{Low: low, High: high, HasLow: true, HasHigh: true}
}

// AtLeast returns the range from low upward, in the unit of its field.
func AtLeast(low float64) Range { return Range{Low: low, HasLow: true} }

// AtMost returns the range up to high, in the unit of its field.
func AtMost(high float64) Range { return Range{High: high, HasHigh: true} }

// Around returns nominal*(1-down) to nominal*(1+up), nominal in the unit of the
// field that will hold the range; down and up are dimensionless shares such as
// 0.07 for 7 %.
func Around(nominal, down, up float64) Range {
	return Between(nominal*(1-down), nominal*(1+up))
}

// Stated reports whether at least one end is given.
func (r Range) Stated() bool { return r.HasLow || r.HasHigh }

// rangeSlack is the share of an end by which a value may pass it and still be
// inside, dimensionless. It only absorbs rounding, so that 225 A lies inside
// 250 A less 10 % on every machine.
const rangeSlack = 1e-9

// Contains reports whether x, in the unit of the range, passes neither stated
// end by more than a billionth of that end. NaN is contained in nothing.
func (r Range) Contains(x float64) bool {
	return !math.IsNaN(x) &&
		(!r.HasLow || x >= r.Low-rangeSlack*math.Abs(r.Low)) &&
		(!r.HasHigh || x <= r.High+rangeSlack*math.Abs(r.High))
}

// Validate reports ends that are not finite numbers or stand in the wrong order.
func (r Range) Validate() error {
	for _, end := range []struct {
		has   bool
		value float64
		name  string
	}{{r.HasLow, r.Low, "low"}, {r.HasHigh, r.High, "high"}} {
		if end.has && (math.IsNaN(end.value) || math.IsInf(end.value, 0)) {
			return fmt.Errorf("the %s end of the range is %g; give a finite number or leave the end out", end.name, end.value)
		}
	}
	if r.HasLow && r.HasHigh && r.Low > r.High {
		return fmt.Errorf("the range runs from %g down to %g; swap its ends", r.Low, r.High)
	}
	return nil
}

// shownDigits is how many significant digits a limit has before a reader: limits
// are stated with two or three.
const shownDigits = 4

// Show prints a quantity (SI, degC for temperatures) in the unit of a reader's
// system with 4 significant digits at most: "18.5 mm".
func Show(x float64, k unit.Kind, s unit.System) string {
	u, _ := k.Preferred(s)
	return strconv.FormatFloat(u.Value(x), 'g', shownDigits, 64) + " " + u.String()
}

// In prints the range of a quantity in the unit of a reader's system, as in "12 to
// 18 mm", "at least 20 degC"; nothing for one that states nothing.
func (r Range) In(k unit.Kind, s unit.System) string {
	low, high := Show(r.Low, k, s), Show(r.High, k, s)
	switch {
	case r.HasLow && r.HasHigh:
		number, _, _ := strings.Cut(low, " ")
		return number + " to " + high
	case r.HasLow:
		return "at least " + low
	case r.HasHigh:
		return "at most " + high
	}
	return ""
}
