package plan

import (
	"math"

	"seamwright/bench/finding"
	"seamwright/weld/procedure"
)

// Held is a pass held against its welding procedure.
type Held struct {
	Procedure *procedure.WPS
	Row       int // of the procedure's runs, from 0; -1 where it has none
	// Verdicts are on every item that the procedure can limit, in its order: at the
	// start of the pass, or at the first place along it that is outside.
	Verdicts []procedure.Verdict
}

// worsen puts a verdict in place of that on the same item.
func (h *Held) worsen(v procedure.Verdict) {
	for i := range h.Verdicts {
		if h.Verdicts[i].Item == v.Item {
			h.Verdicts[i] = v
		}
	}
}

// checkers are the rows of a job's procedures made ready for checking.
type checkers map[checkerKey]*procedure.Checker

type checkerKey struct {
	of  *procedure.WPS
	row int
}

// of returns the checker of a row of a procedure, -1 where it has none.
func (c checkers) of(w *procedure.WPS, row int) (*procedure.Checker, error) {
	key := checkerKey{w, row}
	if ready := c[key]; ready != nil {
		return ready, nil
	}
	ready, err := w.Checker(row)
	if err == nil {
		c[key] = ready
	}
	return ready, err
}

// procedure holds the pass against its procedure and turns every verdict that
// is not a pass into a finding; what could not be held is left for the notes of
// the whole procedure.
func (c *seamCheck) procedure() {
	w := c.job.ProcedureOf(c.doc)
	if w == nil {
		return // said once for the job
	}
	row, err := w.Row(c.which())
	if err != nil {
		f := c.newf(finding.ProcedureNoRow, "%s: %v", c.name, err)
		c.add(f.From(byProcedure(&w.Common)))
		return
	}
	checker, err := c.checkers.of(w, row)
	if err != nil {
		c.add(c.newf(finding.ProcedureOther, "%s: %v", c.name, err))
		return
	}
	verdicts, err := checker.Check(c.planned())
	if err != nil {
		c.add(c.newf(finding.ProcedureOther, "%s: %v", c.name, err))
		return
	}
	c.wps = w
	c.pass.Held = &Held{w, row, verdicts}
	for _, v := range verdicts {
		if v.State == procedure.Outside && !(ofSeam[v.Item] && c.saidOfSeam[v.Item]) {
			c.outside(v)
			c.saidOfSeam[v.Item] = true
		}
	}
	c.elsewhere(checker, verdicts)
}

// ofSeam are the items that are the same for every pass of a seam: what is wrong
// with them is said once.
var ofSeam = map[procedure.Item]bool{
	procedure.ItemJoint: true, procedure.ItemKind: true, procedure.ItemThickness: true, procedure.ItemPosition: true,
	procedure.ItemProgression: true, procedure.ItemParentGroup: true,
}

// elsewhere holds what changes along the seam against the procedure: the position,
// the work angle, and the travel angle at sharp corners, where the start has not
// failed in them already.
func (c *seamCheck) elsewhere(checker *procedure.Checker, atStart []procedure.Verdict) {
	failed := map[procedure.Item]bool{}
	for _, v := range atStart {
		failed[v.Item] = v.State == procedure.Outside
	}
	check := func(item procedure.Item, change func(*procedure.Planned)) (found bool) {
		planned := c.planned()
		change(&planned)
		verdicts, err := checker.Check(planned)
		if err != nil {
			return false // the same as at the start, where it was said
		}
		for _, v := range verdicts {
			if v.Item != item || v.State != procedure.Outside || failed[item] {
				continue
			}
			failed[item] = true
			c.pass.Held.worsen(v)
			if !(ofSeam[item] && c.saidOfSeam[item]) {
				c.outside(v)
				c.saidOfSeam[item], found = true, true
			}
		}
		return found
	}
	for _, l := range c.seam.Lies[1:] { // the first is that of the start
		check(procedure.ItemPosition, func(p *procedure.Planned) { p.Position = l.Position })
	}
	if aim := c.pass.Aim; aim.FromBisector && c.seam.OpensMost > c.seam.OpensLeast {
		for _, included := range []float64{c.seam.OpensLeast, c.seam.OpensMost} {
			work := math.Pi/2 - included/2 + aim.Work
			check(procedure.ItemWorkAngle, func(p *procedure.Planned) { p.WorkAngle = procedure.KnownAngle(work) })
		}
	}
	if c.pass.Profile == nil {
		return
	}
	for _, corner := range c.pass.Profile.Corners {
		if corner.Sharp < 0 {
			continue
		}
		for _, travel := range []float64{corner.TravelLeast, corner.TravelMost} {
			if check(procedure.ItemTravelAngle, func(p *procedure.Planned) { p.TravelAngle = procedure.KnownAngle(travel) }) {
				f := &c.found[len(c.found)-1]
				f.Where = c.at(c.doc.Name, c.pass.Number, corner.Bend.From)
				*f = f.Mend("turn the torch less before and behind that corner (corners: {turn: {before: ..., after: ...}}), or put the arc out there (corners: {arc: off})")
			}
		}
	}
}

// which says which pass of its weld the pass is.
func (c *seamCheck) which() procedure.Which {
	return procedure.Which{Number: c.pass.Number, Role: c.pass.Role}
}

// planned is the pass in the words of a procedure.
func (c *seamCheck) planned() procedure.Planned {
	s, pass := c.doc, c.pass
	set := c.set
	set.ContactDistance = pass.TipDistance(c.job.Torch.ContactTipDistance())
	planned := procedure.Planned{
		Family: c.job.Code, Run: c.which(), Settings: set, Travel: pass.Size.Travel,
		Joint: s.Joint, Kind: weldKind(s.Joint), Position: c.seam.Position,
		WorkAngle: procedure.KnownAngle(c.seam.Way.At(0).Frame.WorkOf(pass.Aim)), TravelAngle: procedure.KnownAngle(pass.Aim.Travel),
		WorkDeviation: procedure.KnownAngle(0), TravelDeviation: procedure.KnownAngle(0),
		PassLeg: pass.Size.AloneLeg, PassThroat: pass.Size.AloneThroat,
		Technique: procedure.Stringer, ParentGroup: c.job.Material.Group,
	}
	if r := pass.Room; r != nil && r.GaveWay {
		planned.WorkDeviation = procedure.KnownAngle(math.Abs(planned.WorkAngle.Rad - r.WishedWork))
		planned.TravelDeviation = procedure.KnownAngle(math.Abs(pass.Aim.Travel - r.WishedTravel))
	}
	if w := pass.Weave; w != nil {
		planned.Technique, planned.Amplitude, planned.Frequency = procedure.Weave, w.Amplitude, w.Frequency
		planned.DwellLeft, planned.DwellRight = w.DwellLeft, w.DwellRight
	}
	if h := &c.job.Heat; h.HasPreheat {
		planned.Preheat = procedure.KnownTemperature(h.Preheat)
	}
	if k := pass.Number - 1; k > 0 && c.seam.Passes[k-1].Heat.CoolKnown { // the arm stands until then
		planned.Interpass = procedure.KnownTemperature(c.ceiling.Temperature)
	}
	if s.BaseThickness > 0 && s.OtherThickness > 0 {
		planned.Thinner, planned.Thicker = min(s.BaseThickness, s.OtherThickness), max(s.BaseThickness, s.OtherThickness)
	}
	return planned
}
