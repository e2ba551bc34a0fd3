package distort

import (
	"math"

	"seamwright/weld"
)

// Rule is what one published rule says. Its value is in the unit of the
// function that returns it.
type Rule struct {
	Name   string  // such as "heat input (Okerblom)"
	Value  float64 // m, or rad for an angle
	Source weld.Source
}

// Estimate is a distortion by every rule that applies. Whoever returns it
// states the unit, m or rad, and which way is positive.
type Estimate struct {
	Rules []Rule
	Range weld.Range // from the smallest to the largest of the rules, m or rad
}

// estimate returns the rules with the range that they span.
func estimate(rules ...Rule) Estimate {
	low, high := math.Inf(1), math.Inf(-1)
	for _, r := range rules {
		low, high = min(low, r.Value), max(high, r.Value)
	}
	return Estimate{Rules: rules, Range: weld.Between(low, high)}
}

// The constants of Okerblom's rules for steel, as a public code file for
// welding of ships has them, READ.
const (
	expansion    = 1.2e-5 // alpha, 1/K
	heatCapacity = 4.7e6  // c gamma, heat capacity per volume, J/(m3 K)
	elasticity   = 2e11   // E, Pa
	forceShare   = 0.3354 // of alpha q E/(c gamma) that stays as force, dimensionless
)

var okerblom = weld.Source{Mark: weld.Read, Code: "N. Okerblom", Note: "as a public code file for welding of ships has it"}

// pull returns the force with which a weld of a heat input (J/m) goes on
// pulling along its line, N: F = 0.3354 alpha q E/(c gamma).
func pull(heatInput float64) float64 {
	return forceShare * expansion * heatInput * elasticity / heatCapacity
}
