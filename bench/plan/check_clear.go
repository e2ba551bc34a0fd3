package plan

import (
	"context"
	"math"

	"seamwright/bench/finding"
	"seamwright/unit"
)

// AirMove is one way through the air, from where the arm stood to a pass or home.
type AirMove struct {
	// Seam and Pass are where it leads, empty and 0 for home.
	Seam string
	Pass int
	// Clear holds the least slack of each kind on it.
	Clear []Clearance
}

// clear holds the whole run against the clearances that are wanted, sample by
// sample, and says where it has less: of each pass the least of each kind, and of
// each way through the air.
func (m *maker) clear(ctx context.Context) error {
	if len(m.plan.Trace) == 0 {
		return nil
	}
	stretches := partsOfTrace(m.plan.Trace)
	all, err := m.clearances(ctx, stretches)
	if err != nil {
		return err
	}
	for i := range stretches {
		s, list := &stretches[i], all[i]
		switch {
		case s.home:
			m.plan.Air = append(m.plan.Air, AirMove{Clear: list})
			m.tooNearInAir(s, list, finding.AtPoint("", m.job.Home), m.job.Home)
		case s.phase == inAir:
			seam, pass := &m.plan.Seams[s.at.seam], m.pass(s.at)
			m.plan.Air = append(m.plan.Air, AirMove{Seam: seam.Name, Pass: pass.Number, Clear: list})
			m.tooNearInAir(s, list, finding.AtSeam(seam.Name), seam.PassName(pass))
		default:
			m.pass(s.at).Clear = Lesser(m.pass(s.at).Clear, list)
		}
	}
	for _, at := range m.passes() {
		m.tooNearOnPass(at)
	}
	return nil
}

// clearSlack is what a clearance may lack by rounding, m.
const clearSlack = 1e-6

// lacks reports whether a clearance is less than is wanted.
func (c *Clearance) lacks() bool { return c.Least == 0 || c.Slack() < -clearSlack }

// tooNearOnPass says what comes too near along a pass.
func (m *maker) tooNearOnPass(at passAt) {
	seam, pass := &m.plan.Seams[at.seam], m.pass(at)
	for k := range pass.Clear {
		c := &pass.Clear[k]
		if !c.lacks() {
			continue
		}
		where, place := finding.AtSeam(seam.Name), " on approach or retreat"
		if !math.IsNaN(c.Along) {
			where, place = m.at(seam.Name, pass.Number, c.Along), " at "+m.tape(c.Along)
		}
		m.moved = append(m.moved, m.tooNear(c, where, seam.PassName(pass)+place))
	}
}

// tooNearInAir says what comes too near on a way through the air. What is as near
// only where the way begins or ends is a matter of the approach or the retreat,
// which leave no more room.
func (m *maker) tooNearInAir(s *stretchOfRun, list []Clearance, where finding.Place, to string) {
	from, until := m.plan.Trace[s.from].T, m.plan.Trace[s.to-1].T
	for k := range list {
		c := &list[k]
		if !c.lacks() {
			continue
		}
		f := m.tooNear(c, where, "on the way to "+to)
		if c.Least > 0 && math.Min(c.Time-from, until-c.Time) < traceAir {
			f = f.As(finding.Caution).Mend("draw approach and retreat further out, if the arm then still has them")
		}
		m.moved = append(m.moved, f)
	}
}

// tooNear says that two bodies are nearer than is wanted.
func (m *maker) tooNear(c *Clearance, where finding.Place, what string) finding.Finding {
	if c.Least == 0 {
		return finding.Newf(finding.Collision, where, "%s: %s touches %s", what, c.Of, c.To)
	}
	f := finding.Newf(finding.ClearanceBelow, where, "%s: %s is %s from %s; wanted are %s", what, c.Of, m.say(asSize, c.Least), c.To, m.say(asSize, c.Wanted))
	return f.Values(m.pair(unit.Length, c.Least, c.Wanted))
}
