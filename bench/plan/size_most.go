package plan

import (
	"errors"
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/section"
)

// most is the most that one pass of several may lay: the leg of a fillet (m) and
// its metal (m2); why says in words what limits them, source who. A fillet of a leg
// of one (m) is laid in one pass.
type most struct {
	leg, area, one float64
	why, source    string
}

// legMost is the leg of one pass where nothing limits it, m: the largest that a
// section is planned for.
const legMost = 50 * unit.MM

// justOver is by how much a leg may be over what shops usually lay in one pass and
// still be laid so, m: two passes would be thinner than any. Own judgement.
const justOver = 1 * unit.MM

// areaMost is the most metal of one pass that any plan takes, m2: beyond it the
// pool is no bead any more. Common practice, no source.
const areaMost = 150 * unit.MM2

// most finds the most that one pass of the seam may lay, over all roles: as
// typed, by the procedure, else by the code or usual practice.
func (z sizing) most() (most, error) {
	m := most{leg: legMost, one: legMost, area: areaMost}
	wish := &z.seam.Passes
	if z.seam.Weld.Fillet() {
		z.mostLeg(&m)
	}
	for _, role := range []section.Role{section.RootPass, section.FillPass, section.CapPass} {
		w := wish.Of(role)
		if w.Area > 0 || w.Speed > 0 {
			continue // told, not shared out
		}
		one := z
		one.settings = settingsOf(z.job, wishedSet(z.seam, *w))
		if err := one.mostAreaOf(role, &m); err != nil {
			return m, err
		}
	}
	if wish.MostLeg > 0 {
		m.leg, m.one = wish.MostLeg, wish.MostLeg
		m.why, m.source = fmt.Sprintf("one pass lays a leg of %s at most", z.say(asSize, wish.MostLeg)), typedMost
	}
	if wish.MostArea > 0 {
		m.area, m.one = wish.MostArea, z.legOf(wish.MostArea)
		m.why, m.source = fmt.Sprintf("one pass lays %s at most", z.say(asArea, wish.MostArea)), typedMost
	}
	return m, nil
}

const typedMost = "as typed in passes"

// mostLeg takes in the largest leg of one pass.
func (z sizing) mostLeg(m *most) {
	if w := z.job.ProcedureOf(z.seam); w != nil && w.Common.SinglePass.HasHigh {
		spec := &w.Common
		m.leg = spec.SinglePass.High
		if spec.SinglePassIs == weld.Throat {
			m.leg /= math.Cos(z.start.Included / 2)
		}
		m.one = m.leg
		m.why = fmt.Sprintf("procedure %s lets one pass lay a leg of %s", spec.ID, z.say(asSize, m.leg))
		m.source = byProcedure(spec)
		return
	}
	if z.job.Code == weld.AWS {
		l, err := section.MaxSinglePass(z.settings.Process, z.position.AWS)
		if err != nil {
			return // said with the pass: no figure is known
		}
		m.leg, m.one, m.source = l.Size, l.Size, l.Source.String()
	} else {
		l, err := section.PracticalSinglePass(z.position.ISO)
		if err != nil {
			return
		}
		m.leg, m.one, m.source = l.Value, l.Value+justOver, l.Source.String()
	}
	m.why = fmt.Sprintf("in position %v one pass lays a leg of %s at most", z.position.Name(z.job.Code), z.say(asSize, m.leg))
}

// mostAreaOf takes in the metal of every row of the procedure that a pass of the
// role may come under.
func (z sizing) mostAreaOf(role section.Role, m *most) error {
	w := z.job.ProcedureOf(z.seam)
	if w == nil {
		return nil
	}
	for _, spec := range w.ForRole(role) {
		if err := z.mostArea(&spec, m); err != nil {
			return err
		}
	}
	return nil
}

// mostArea takes in the metal that the set lays at the slowest speed that the
// procedure's travel and heat allow.
func (z sizing) mostArea(spec *procedure.Spec, m *most) error {
	slowest, why := 0.0, ""
	if spec.Travel.HasLow {
		slowest, why = spec.Travel.Low, "the slowest travel"
	}
	if spec.Energy.HasHigh {
		v, err := z.travelForHeat(spec)
		if err != nil && !errors.Is(err, procedure.ErrEnergyUnknown) {
			return err
		}
		if v > slowest {
			slowest, why = v, "the heat"
		}
	}
	if slowest == 0 {
		return nil
	}
	melt, err := z.settings.Melt()
	if err != nil {
		return err
	}
	area, err := melt.BeadArea(slowest)
	if err != nil {
		return nil // a limit outside the range of sense limits nothing that can be welded
	}
	if area < m.area {
		m.area, m.source = area, byProcedure(spec)
		m.why = fmt.Sprintf("at %s that procedure %s allows, %s, settings set %s lays %s", why, spec.ID, z.say(asSpeed, slowest), z.settings.ID, z.say(asArea, area))
	}
	return nil
}

// travelForHeat is the travel speed (m/s) at which the set brings the most heat
// that the procedure allows.
func (z sizing) travelForHeat(spec *procedure.Spec) (float64, error) {
	const at = 5 * unit.MMPerS // any: heat falls with the speed
	energy, err := z.settings.ArcEnergy(at)
	if err != nil {
		return 0, err
	}
	heat, err := spec.EnergyIs.FromArcEnergy(energy.PerLength, z.settings.Process)
	return at * heat / spec.Energy.High, err
}

// byProcedure names a procedure as the source of a limit.
func byProcedure(s *procedure.Spec) string {
	if s.Revision == "" {
		return "welding procedure " + s.ID
	}
	return "welding procedure " + s.ID + " revision " + s.Revision
}

// legOf is the leg of a fillet of a metal (m2), m; 0 where it makes none.
func (z sizing) legOf(area float64) float64 {
	leg, err := z.settings.Shape(z.start.Included, 1).Leg(area)
	if err != nil {
		return 0
	}
	return leg
}

// toldArea is what a pass of a role lays, m2: as typed, or what its set lays at the
// typed speed; 0 where neither is told.
func (z sizing) toldArea(w *job.PassWish) (float64, error) {
	if w.Area > 0 || w.Speed == 0 {
		return w.Area, nil
	}
	melt, err := settingsOf(z.job, wishedSet(z.seam, *w)).Melt()
	if err != nil {
		return 0, err
	}
	return melt.BeadArea(w.Speed)
}
