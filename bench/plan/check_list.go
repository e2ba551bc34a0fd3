package plan

import (
	"fmt"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
)

// Limits of the desk check of a taught list. All common practice, no source.
const (
	samePlace = 0.05e-3 // m
	homeAgain = 0.5e-3  // m
)

// listCheck walks a taught list once and says what would go wrong.
type listCheck struct {
	words
	job   *job.Job
	tips  tips
	found []finding.Finding

	litBy *job.Point // the point at which the arc was switched on, nil: off
}

// checkList is the desk check of the moves that were taught with the points.
func checkList(j *job.Job, all tips) []finding.Finding {
	if !j.Listed {
		return nil
	}
	c := listCheck{words: wordsOf(j), job: j, tips: all}
	c.home()
	for i := range j.Points {
		c.point(i)
	}
	if c.litBy != nil {
		c.stop(finding.ArcLeftOn, c.litBy, "arc on at %s is never switched off", name(c.litBy))
	}
	return c.found
}

// name is how a message speaks of a listed point.
func name(p *job.Point) string { return fmt.Sprintf("point %q (line %d)", p.Label, p.At.Line) }

func (c *listCheck) stop(code finding.Code, p *job.Point, format string, args ...any) {
	c.found = append(c.found, finding.New(code, finding.AtPoint("", p.Label), fmt.Sprintf(format, args...)))
}

func (c *listCheck) home() {
	first, last := &c.job.Points[0], &c.job.Points[len(c.job.Points)-1]
	for _, end := range []struct {
		does string
		at   *job.Point
	}{{"begins", first}, {"ends", last}} {
		if !c.isHome(end.at) {
			c.stop(finding.HomeNotFirstLast, end.at, "the list %s at %s, not at home %q", end.does, name(end.at), c.job.Home)
		}
	}
}

func (c *listCheck) isHome(p *job.Point) bool {
	return p.Label == c.job.Home || c.tips[p.Label].baseFromTip.P.Dist(c.tips[c.job.Home].baseFromTip.P) < homeAgain
}

// point checks row i: the move to the point first, then what happens there.
func (c *listCheck) point(i int) {
	p := &c.job.Points[i]
	lit := c.litBy != nil
	switch {
	case !lit || p.Move != job.MoveJoint:
	case c.offComes(i):
		c.stop(finding.ArcOnJointMove, p, "%s is reached by a joint move while the arc of %s is on", name(p), name(c.litBy))
	default:
		c.stop(finding.ArcLeftOn, p, "arc on at %s is never switched off before the joint move at %s", name(c.litBy), name(p))
		c.litBy, lit = nil, false // said once
	}
	c.speed(p, lit)
	if p.Blend > 0 && (lit && p.Arc == job.ArcOff || p.Arc == job.ArcOn) {
		c.stop(finding.BlendOnWeldEnd, p, "%s has a blend radius of %s where the arc switches %s", name(p), c.say(asPlace, p.Blend), p.Arc)
	}
	switch p.Arc {
	case job.ArcOn:
		if lit {
			c.stop(finding.ArcOnTwice, p, "arc on at %s while the arc of %s is still on", name(p), name(c.litBy))
		}
		c.litBy = p
		c.settings(p)
	case job.ArcOff:
		if !lit {
			c.stop(finding.ArcOffWithoutOn, p, "arc off at %s, where no arc is on", name(p))
		}
		c.litBy = nil
	}
}

// offComes reports whether the arc is switched off at row i or later, before it
// is switched on again: then a joint move at row i is the wrong kind of move,
// otherwise the arc off is missing.
func (c *listCheck) offComes(i int) bool {
	for _, p := range c.job.Points[i:] {
		if p.Arc != job.ArcSame {
			return p.Arc == job.ArcOff
		}
	}
	return false
}

// settings holds the set that the list names where it lights the arc against
// that of the seam which starts there.
func (c *listCheck) settings(p *job.Point) {
	if p.Settings == "" {
		return
	}
	for i := range c.job.Seams {
		s := &c.job.Seams[i]
		if p.Settings == s.Settings || !startsAt(s, p.Label) {
			continue
		}
		f := finding.Newf(finding.ListSettingsMismatch, finding.AtPoint(s.Name, p.Label), "%s: the list lights the arc at %s with settings set %s, the seam has %s", s.Name, name(p), p.Settings, s.Settings)
		c.found = append(c.found, f)
	}
}

func (c *listCheck) speed(p *job.Point, lit bool) {
	if p.Speed == 0 || p.Move == job.MoveJoint {
		return
	}
	if lit {
		if f, bad := c.weldSpeedSense(p.Speed, finding.AtPoint("", p.Label), name(p)); bad {
			c.found = append(c.found, f)
		}
		return
	}
	if most := c.job.Air.TipSpeed; p.Speed > most*(1+1e-9) {
		f := finding.Newf(finding.AirSpeedAboveSite, finding.AtPoint("", p.Label), "%s is reached at %s in a linear move; this job allows %s", name(p), c.say(asAir, p.Speed), c.say(asAir, most))
		c.found = append(c.found, f.Values(c.pair(unit.Speed, p.Speed, most)))
	}
}

// weldSpeedSense holds a weld speed (m/s) against what is ever welded at, and
// names the unit that was likely meant. A speed that is only unusual is a
// caution, and only where another unit would make it usual.
func (w words) weldSpeedSense(v float64, where finding.Place, who string) (finding.Finding, bool) {
	limit := weld.TravelSpeedMost
	if v < weld.TravelSpeedLeast {
		limit = weld.TravelSpeedLeast
	}
	own, other := w.ownFirst(fmt.Sprintf("%.3g mm/s", v/unit.MMPerS), fmt.Sprintf("%.3g in/min", v/unit.InPerMin))
	f := finding.Newf(finding.WeldSpeedOutOfSense, where, "%s welds at %s (%s)", who, own, other)
	f = f.Values(w.pair(unit.Speed, v, limit))
	meant := weld.SuggestTravelSpeed(v, w.unit(unit.Speed))
	if len(meant) > 0 {
		f = f.Mend("%s", meant[0].Text)
	}
	outside := v < weld.TravelSpeedLeast || v > weld.TravelSpeedMost
	if !outside {
		f = f.As(finding.Caution)
	}
	return f, outside || len(meant) > 0
}

// startsAt reports whether a seam was taught to start at the point of a label.
func startsAt(s *job.Seam, label string) bool {
	taught := audited(s)
	return len(s.Points) > 0 && label == s.Points[0] || len(taught) > 0 && label == taught[0]
}
