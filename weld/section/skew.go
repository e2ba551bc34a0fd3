package section

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// SkewTreatment is what AWS D1.1 asks of a fillet by its included angle. The
// zero value is "not stated".
type SkewTreatment uint8

// The treatments.
const (
	AsSquare    SkewTreatment = iota + 1 // 80 to 100 degrees: sizes as for 90
	ComputeLeg                           // 60 to 80 and 100 to 135 degrees: leg from the throat
	AddZLoss                             // 30 to 60 degrees: throat plus the Z loss
	NotStandard                          // outside 30 to 135 degrees: no fillet by the code
)

// String returns what to do.
func (t SkewTreatment) String() string {
	switch t {
	case AsSquare:
		return "size as for a square joint"
	case ComputeLeg:
		return "compute the leg from the throat"
	case AddZLoss:
		return "add the Z loss to the throat"
	case NotStandard:
		return "no fillet by the code"
	}
	return "treatment not stated"
}

// SkewRule is the treatment with its figures.
type SkewRule struct {
	Treatment SkewTreatment
	ZLoss     weld.Figure // m; source set only where the treatment is AddZLoss
	Source    weld.Source
}

// Skew returns what AWS D1.1 asks of a fillet at an included angle (rad).
// D1.1:2010 2.4.2.6 (read), limits 60 to 135 degrees (read in a trade article).
// The Z loss, for gas-metal arc in flat and horizontal position, is 0 from 45
// to 60 degrees and 6 mm from 30 to 45 (from memory, low confidence: open the
// code before use); other positions are not prequalified.
func Skew(angle float64) (SkewRule, error) {
	if err := angleSense.Check(angle); err != nil {
		return SkewRule{}, fmt.Errorf("skewed fillet: %w", err)
	}
	r := SkewRule{Source: weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "AWS D1.1", Edition: "2010", Clause: "2.4.2.6"}}
	within := func(low, high float64) bool { return weld.Between(low*unit.Deg, high*unit.Deg).Contains(angle) }
	switch {
	case within(80, 100):
		r.Treatment = AsSquare
	case within(60, 135):
		r.Treatment = ComputeLeg
	case within(30, 60):
		r.Treatment = AddZLoss
		r.ZLoss.Source = weld.Source{Mark: weld.Memory, Family: weld.AWS, Code: "AWS D1.1", Clause: "Z loss table",
			Note: "flat and horizontal only, low confidence: open the code before use"}
		if !within(45, 60) {
			r.ZLoss.Value = 6e-3
		}
	default:
		r.Treatment = NotStandard
	}
	return r, nil
}
