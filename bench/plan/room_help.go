package plan

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// leanLeft is a lean and the clearance that it leaves, m.
type leanLeft struct {
	lean
	left float64
}

// most returns the lean within the tolerance that leaves most, the nearest of equals,
// and false where it leaves no more than the wished one.
func (c *roomCheck) most(wished lean, at int) (leanLeft, bool) {
	const better = 0.05e-3 // m, what is said of it
	best := leanLeft{wished, math.Inf(-1)}
	first := 0.0
	for i, to := range around(wished, c.allowed(wished), 2*leanStep) {
		a, _ := c.aimed(to)
		left := c.room.At(at, a, c.sway).Clearance
		if i == 0 {
			first = left
		}
		if left > best.left+1e-9 {
			best = leanLeft{to, left}
		}
	}
	a, _ := c.aimed(best.lean)
	best.left = c.room.Least(a, c.sway).Clearance
	return best, best.left > first+better
}

// What is tried to help a nozzle, beyond what may be chosen without asking.
const (
	distanceStep = 0.5e-3 // m
	distanceMost = 15e-3  // m, longer than planned
	workSpan     = 20 * math.Pi / 180
	helpStep     = 1 * math.Pi / 180
	slimStep     = 0.5e-3 // m, of diameter
	slimMost     = 0.4    // share of the diameter that a nozzle may lose
)

// ways lists what would leave the clearance that is wanted, each tried.
func (c *roomCheck) ways(wished lean, at int) []string {
	var list []string
	if text := c.longer(at); text != "" {
		list = append(list, text)
	}
	if text := c.turned(wished, at); text != "" {
		list = append(list, text)
	}
	if text := c.slimmer(at); text != "" {
		list = append(list, text)
	}
	return list
}

// longer is the least contact-tip distance that clears.
func (c *roomCheck) longer(at int) string {
	wanted, _ := c.wanted()
	nominal := c.job.Torch.ContactTipDistance()
	now := c.pass.TipDistance(nominal)
	for to := (math.Floor(now/distanceStep+1e-6) + 1) * distanceStep; to <= now+distanceMost; to += distanceStep {
		a := c.pass.Aim
		a.Distance += to - now
		if !c.room.Clears(a, c.sway, wanted-roomSlack, at) {
			continue
		}
		text := fmt.Sprintf("a contact-tip distance of %s in place of %s (torch: {distance: ...}); the same feed then makes less current", c.say(asSize, to), c.say(asSize, now))
		return text + c.byProcedure(func(w *limitsOf) bool { return w.distance.Contains(to) }, func(w *limitsOf) weld.Range { return w.distance })
	}
	return ""
}

// limitsOf are the ranges of a procedure that matter here.
type limitsOf struct{ distance, work, travel weld.Range }

// byProcedure says whether the procedure allows something that one of its ranges
// limits.
func (c *roomCheck) byProcedure(allows func(*limitsOf) bool, limit func(*limitsOf) weld.Range) string {
	if c.limits == nil {
		return ""
	}
	w := limitsOf{c.limits.ContactDistance, c.limits.WorkAngle, c.limits.TravelAngle}
	switch {
	case !limit(&w).Stated():
		return fmt.Sprintf(" (procedure %s does not limit it)", c.limits.ID)
	case allows(&w):
		return fmt.Sprintf(" (procedure %s allows it)", c.limits.ID)
	}
	return fmt.Sprintf(" (procedure %s does not allow it)", c.limits.ID)
}

// turned is the nearest lean that clears outside the tolerance, or the largest travel
// angle at which the nozzle just does not touch where none does.
func (c *roomCheck) turned(wished lean, at int) string {
	low, high := min(0, wished.travel), max(0, wished.travel)
	wide := leans{weld.Between(wished.work-workSpan, wished.work+workSpan), weld.Between(low, high)}
	wanted, stops := c.wanted()
	for _, to := range around(wished, wide, helpStep) {
		if a, _ := c.aimed(to); c.room.Clears(a, c.sway, wanted-roomSlack, at) {
			text := fmt.Sprintf("%s, %s from the wish (torch: {work: ..., travel: ...})", held(to), degrees(to.off(wished)))
			return text + c.byProcedure(
				func(w *limitsOf) bool { return w.work.Contains(to.work) && w.travel.Contains(to.travel) },
				func(w *limitsOf) weld.Range {
					if w.work.Stated() {
						return w.work
					}
					return w.travel
				})
		}
	}
	if a := c.room.Least(c.pass.Aim, c.sway); a.Clearance >= stops {
		return ""
	}
	for step := 0.0; step <= math.Abs(wished.travel)+1e-9; step += leanStep {
		to := lean{wished.work, math.Copysign(math.Abs(wished.travel)-step, wished.travel)}
		if a, _ := c.aimed(to); c.room.Clears(a, c.sway, stops, at) {
			return fmt.Sprintf("%s at most, which leaves less than is wanted (%s)", held(to), c.say(asSize, c.room.Least(a, c.sway).Clearance))
		}
	}
	return ""
}

// slimmer is the widest nozzle that clears.
func (c *roomCheck) slimmer(at int) string {
	wanted, _ := c.wanted()
	width := 2 * c.spec.Nozzle.Radius
	for d := (math.Ceil(width/slimStep-1e-6) - 1) * slimStep; d >= (1-slimMost)*width; d -= slimStep {
		n := c.spec.Nozzle
		n.Radius = d / 2
		room, err := c.room.With(n)
		if err != nil {
			return ""
		}
		if room.Clears(c.pass.Aim, c.sway, wanted-roomSlack, at) {
			return fmt.Sprintf("a nozzle of %s at its end in place of %s", c.digits(unit.Length, d, 3), c.digits(unit.Length, width, 3))
		}
	}
	return ""
}
