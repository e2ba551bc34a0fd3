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
		what: "the leg", as: asSize, typed: s.Typed, needs: s.Travel,
		made: leg, wanted: made.Leg1, slack: legSlack, over: legOver, more: leg*leg/(made.Leg1*made.Leg1) - 1,
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
	what         string
	as           manner
	typed, needs float64 // m/s
	// made and wanted are sizes (m or m2); slack and over how much less and more
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
	if f, bad := z.weldSpeedSense(t.typed, where, name); bad {
		found = append(found, f)
	}
	at := fmt.Sprintf("%s: at the typed %s %s is %s", name, z.say(asTyped, t.typed), t.what, z.say(t.as, t.made))
	wanted, needs := z.say(t.as, t.wanted), z.say(asTyped, t.needs)
	switch {
	case t.made < t.wanted-t.slack:
		f := finding.Newf(finding.FilletUndersize, where, "%s; %s needs %s", at, wanted, needs)
		found = append(found, f.Values(z.pair(t.as.kind, t.made, t.wanted)).Mend("weld at %s, or leave the speed out", needs))
	case t.made > t.wanted+t.slack:
		f := finding.Newf(finding.FilletOversize, where, "%s, with %.0f %% more metal than %s needs", at, t.more*100, wanted)
		if t.made <= t.wanted+t.over {
			f = f.As(finding.Note)
		}
		found = append(found, f.Values(z.pair(t.as.kind, t.made, t.wanted+t.over)).Mend("weld at %s, or leave the speed out", needs))
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
