package section

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// Fit is a fillet's size and fit-up, for the gap rule.
type Fit struct {
	Leg       float64 // leg called for, m
	Gap       float64 // root opening measured, m, 0 or more
	Thickness float64 // thinner part, m
	Backing   bool    // suitable backing is used
}

// GapResult is what a gap does to a fillet.
type GapResult struct {
	Allowed bool
	Leg     float64 // leg to weld, m; the leg called for where not Allowed
	Growth  float64 // added to each leg, m
	Limit   float64 // widest gap allowed for this fit, m
	Source  weld.Source
}

// The gap limits of AWS D1.1:2020 7.21.1, m.
const (
	gapFree  = 2e-3  // up to here no change (1/16 in)
	gapMost  = 5e-3  // up to here the legs grow by the gap (3/16 in)
	gapThick = 8e-3  // up to here for thick parts with backing (5/16 in)
	gapPlate = 75e-3 // what counts as thick (3 in)
)

var gapSense = weld.Sense{What: "gap", Low: 0, High: 50e-3, Unit: unit.Millimetres}

// Gap applies AWS D1.1:2020 7.21.1 (read in a data file that quotes the clause)
// to a fillet of the AWS family: a gap up to 2 mm changes nothing, up to 5 mm
// both legs grow by the gap, up to 8 mm the same for parts of 75 mm and more
// with backing; more is not allowed. A gap that is not allowed is a result, not
// an error; input outside the range of sense is an error. ISO limits the gap of
// a fillet by its quality level instead (ISO 5817, imperfection 617).
func Gap(f Fit) (GapResult, error) {
	if err := weld.CheckAll(legSense.Of(f.Leg), gapSense.Of(f.Gap), plateSense.Of(f.Thickness)); err != nil {
		return GapResult{}, fmt.Errorf("gap rule: %w", err)
	}
	out := GapResult{Leg: f.Leg, Limit: gapMost, Source: weld.Source{Mark: weld.Read, Family: weld.AWS,
		Code: "AWS D1.1", Edition: "2020", Clause: "7.21.1", Note: "quoted by an inspection data file"}}
	if f.Thickness >= gapPlate && f.Backing {
		out.Limit = gapThick
	}
	switch allowed := weld.AtMost(out.Limit).Contains(f.Gap); {
	case !allowed:
	case weld.AtMost(gapFree).Contains(f.Gap):
		out.Allowed = true
	default:
		out.Allowed, out.Growth = true, f.Gap
		out.Leg = f.Leg + f.Gap
	}
	return out, nil
}
