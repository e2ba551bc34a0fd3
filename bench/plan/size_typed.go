package plan

import (
	"fmt"

	"seamwright/bench/finding"
	"seamwright/weld/deposit"
	"seamwright/weld/section"
)

// typed holds a speed that was typed against the one the size needs.
func (z sizing) typed(s *Size, melt deposit.Melt, shape deposit.Shape, made section.Fillet) ([]finding.Finding, error) {
	leg, err := melt.Leg(shape, s.Typed)
	if err != nil {
		return nil, err
	}
	s.TypedLeg = leg
	found := z.typedSize(typedSize{
		typed: s.Typed, needs: s.Travel, what: "the leg", unit: "mm", made: leg * 1e3, wanted: made.Leg1 * 1e3,
		slack: legSlack * 1e3, over: legOver * 1e3, more: leg*leg/(made.Leg1*made.Leg1) - 1,
	})
	// What is welded is what the typed speed gives.
	ratio := leg / made.Leg1
	welded, err := section.New(made.Angle, leg, made.Leg2*ratio)
	if err != nil {
		return found, err
	}
	s.LegBase, s.LegOther, s.Throat = welded.Leg1, welded.Leg2, welded.DesignThroat()
	s.Area *= ratio * ratio
	return found, nil
}

// typedSize is the size that a typed speed gives beside the one that is wanted.
type typedSize struct {
	typed, needs float64 // m/s
	what, unit   string
	// made and wanted are sizes in unit; slack and over how much less and more
	// is let pass.
	made, wanted, slack, over float64
	more                      float64 // metal beyond what is wanted, as a share of it
}

// typedSize says whether a typed speed makes sense and gives the size: too
// little is a stop, a clear excess a caution, an excess within the tolerance a
// note of what it costs.
func (z sizing) typedSize(t typedSize) []finding.Finding {
	name, where := z.seam.Name, finding.AtSeam(z.seam.Name)
	var found []finding.Finding
	if f, bad := weldSpeedSense(t.typed, where, name); bad {
		found = append(found, f)
	}
	mend := fmt.Sprintf("weld at %.2f mm/s, or leave the speed out", t.needs*1e3)
	switch {
	case t.made < t.wanted-t.slack:
		f := finding.Newf(finding.FilletUndersize, where, "%s: at the typed %.2f mm/s %s is %.1f %s; %.1f %s needs %.2f mm/s", name, t.typed*1e3, t.what, t.made, t.unit, t.wanted, t.unit, t.needs*1e3)
		found = append(found, f.Values(t.made, t.wanted, t.unit).Mend("%s", mend))
	case t.made > t.wanted+t.slack:
		f := finding.Newf(finding.FilletOversize, where, "%s: at the typed %.2f mm/s %s is %.1f %s, with %.0f %% more metal than %.1f %s needs", name, t.typed*1e3, t.what, t.made, t.unit, t.more*100, t.wanted, t.unit)
		if t.made <= t.wanted+t.over {
			f = f.As(finding.Note)
		}
		found = append(found, f.Values(t.made, t.wanted+t.over, t.unit).Mend("%s", mend))
	}
	return found
}

// Tolerances of a size: a leg +1/-0 mm, with 0.05 mm for speeds typed to two
// digits; an area +20/-0 %, with 2 % for the same. Common practice, no source.
const (
	legSlack  = 0.05e-3 // m
	legOver   = 1e-3    // m
	areaSlack = 0.02    // of the area wanted, dimensionless
	areaOver  = 0.20    // of the area wanted, dimensionless
)
