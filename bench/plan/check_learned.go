package plan

import (
	"fmt"
	"math"
	"slices"

	"seamwright/bench/finding"
	"seamwright/unit"
)

// checkLearned says which settings sets are planned with figures that gauge
// readings taught, and on what evidence.
func (m *maker) checkLearned() []finding.Finding {
	var found []finding.Finding
	for _, set := range m.job.Settings {
		s := m.job.Learned.Set(set.ID)
		if s == nil || s.Counted() == 0 || !slices.ContainsFunc(m.plan.Seams, func(seam Seam) bool {
			return slices.ContainsFunc(seam.Passes, func(p Pass) bool { return p.Size.Settings == set.ID })
		}) {
			continue
		}
		left := len(s.Readings) - s.Counted()
		text := fmt.Sprintf("settings set %s is planned with what %s taught: efficiency %s (%s before), face factor %.2f (%.2f before); a leg comes out within %s of the plan in two of three places",
			set.ID, readings(s.Counted()), percent(s.Belief.Efficiency), percent(s.Start.Efficiency), s.Belief.FaceFactor, s.Start.FaceFactor, percent(s.Belief.LegSpread()))
		if left > 0 {
			text += fmt.Sprintf("; %s left out as contradicting the rest", readings(left))
		}
		f := finding.New(finding.SettingsLearned, finding.AtField("learned"), text)
		found = append(found, f.Values(s.Belief.Efficiency/unit.Percent, s.Start.Efficiency/unit.Percent, "percent").From("gauge readings in "+m.job.Learned.File))
	}
	return found
}

// percent prints a share to a tenth.
func percent(x float64) string {
	return fmt.Sprintf("%.1f %%", math.Round(x*1000)/10)
}

func readings(n int) string {
	if n == 1 {
		return "1 gauge reading"
	}
	return fmt.Sprintf("%d gauge readings", n)
}
