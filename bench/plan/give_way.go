package plan

import (
	"context"
	"math"

	"seamwright/bench/finding"
	"seamwright/unit"
	"seamwright/weld/seam"
)

// givenWay is what a pass gave up for its clearances.
type givenWay uint8

const (
	gaveNothing givenWay = iota
	gaveAngles           // inside the tolerance
	gaveRoom             // bodies stay apart, but by less than is wanted
	gaveAll              // it is not clear at all
)

// giveWay plans a pass that cannot be run with every clearance that is wanted, but
// could be without: with the nearest torch angles inside the seam's tolerance that
// have them; else with less room, or with none, which then is told where the run
// is held against what is wanted. The search returned is the one that made the
// motion; where the pass has none, one that looked at no clearance.
func (m *maker) giveWay(ctx context.Context, at passAt) (*postureSearch, givenWay, error) {
	blind, fallback := m.searchOf(at), *m.pass(at)
	blind.clear = nil
	if err := blind.withLeaves(ctx, &fallback, blind.track.in, blind.track.out); err != nil || fallback.Motion == nil {
		return blind, gaveNothing, err // a matter of reach
	}
	tolerance := m.shapes[at.seam].doc.Aim.Tolerance
	for _, share := range reliefs() {
		s, ok, err := m.tryAngles(ctx, at, share[0]*tolerance, share[1]*tolerance)
		if err != nil || ok {
			return s, gaveAngles, err
		}
	}
	apart := m.searchOf(at)
	apart.clear.keep(keepsApart)
	if err := apart.withLeaves(ctx, m.pass(at), apart.track.in, apart.track.out); err != nil || m.pass(at).Motion != nil {
		return apart, gaveRoom, err
	}
	*m.pass(at) = fallback
	return blind, gaveAll, nil
}

// tryAngles plans a pass with its work and travel angle changed, rad, and keeps
// the change where it can be run so.
func (m *maker) tryAngles(ctx context.Context, at passAt, work, travel float64) (*postureSearch, bool, error) {
	s := m.searchOf(at)
	s.track.aim.Work += work
	s.track.aim.Travel += travel
	if !m.roomed[at.seam][at.pass].has(s.track.aim) {
		return nil, false, nil
	}
	in, out := m.leaves(&m.shapes[at.seam], s.track)
	pass := *m.pass(at)
	if err := s.withLeaves(ctx, &pass, in, out); err != nil || pass.Motion == nil {
		return nil, false, err
	}
	spin := pass.Aim.Spin
	pass.Aim = s.track.aim
	pass.Aim.Spin = spin
	*m.pass(at) = pass
	m.roomed[at.seam][at.pass].again()
	return s, true, nil
}

// gaveFindings say what a pass gave up for its clearances; wanted is the aim that
// it had. What it lacks of them is told where the run is held against them.
func (m *maker) gaveFindings(at passAt, gave givenWay, wanted seam.Aim) []finding.Finding {
	if gave != gaveAngles {
		return nil
	}
	s, pass := &m.plan.Seams[at.seam], m.pass(at)
	frame := s.Way.At(0).Frame
	before, after := frame.WorkOf(wanted), frame.WorkOf(pass.Aim)
	f := finding.Newf(finding.AnglesGaveWay, finding.AtSeam(s.Name), "%s: work %.1f deg with %s in place of %.1f deg with %s: nearer to what was asked for, the torch has less room than is wanted",
		s.PassName(pass), after*deg, leaning(pass.Aim.Travel), before*deg, leaning(wanted.Travel))
	off := max(math.Abs(after-before), math.Abs(pass.Aim.Travel-wanted.Travel))
	return []finding.Finding{f.Values(m.pair(unit.Angle, off, m.shapes[at.seam].doc.Aim.Tolerance))}
}
