package plan

import (
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/unit"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// procedure holds the pass against the procedure and turns every verdict that
// is not a pass into a finding.
func (c *seamCheck) procedure() {
	if c.job.Procedure == nil {
		return // said once for the job
	}
	verdicts, err := c.job.Procedure.Check(c.planned())
	if err != nil {
		c.add(c.newf(finding.ProcedureOther, "%s: %v", c.name, err))
		return
	}
	var silent, unknown []string
	for _, v := range verdicts {
		switch v.State {
		case procedure.Outside:
			c.outside(v)
		case procedure.NotStated:
			silent = append(silent, string(v.Item))
		case procedure.NotKnown:
			unknown = append(unknown, string(v.Item))
		}
	}
	c.notHeld(silent, unknown)
	c.elsewhere(verdicts)
}

// elsewhere holds what changes along the seam against the procedure: the position,
// the work angle, and the travel angle at sharp corners, where the start has not
// failed in them already.
func (c *seamCheck) elsewhere(atStart []procedure.Verdict) {
	failed := map[procedure.Item]bool{}
	for _, v := range atStart {
		failed[v.Item] = v.State == procedure.Outside
	}
	check := func(item procedure.Item, change func(*procedure.Planned)) (found bool) {
		planned := c.planned()
		change(&planned)
		verdicts, err := c.job.Procedure.Check(planned)
		if err != nil {
			return false // the same as at the start, where it was said
		}
		for _, v := range verdicts {
			if v.Item == item && v.State == procedure.Outside && !failed[item] {
				c.outside(v)
				failed[item], found = true, true
			}
		}
		return found
	}
	for _, l := range c.seam.Lies {
		check(procedure.ItemPosition, func(p *procedure.Planned) { p.Position = l.Position })
	}
	if aim := c.pass.Aim; aim.FromBisector {
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

// planned is the pass in the words of a procedure.
func (c *seamCheck) planned() procedure.Planned {
	s, pass := c.doc, c.pass
	set := c.set
	set.ContactDistance = pass.TipDistance(c.job.Torch.ContactTipDistance())
	planned := procedure.Planned{
		Family: c.job.Code, Settings: set, Travel: pass.Size.Travel,
		Joint: s.Joint, Kind: weldKind(s.Joint), Position: c.seam.Position,
		WorkAngle: procedure.KnownAngle(c.seam.Way.At(0).Frame.WorkOf(pass.Aim)), TravelAngle: procedure.KnownAngle(pass.Aim.Travel),
		WorkDeviation: procedure.KnownAngle(0), TravelDeviation: procedure.KnownAngle(0),
		PassLeg: pass.Size.AloneLeg, PassThroat: pass.Size.AloneThroat,
	}
	if s.BaseThickness > 0 && s.OtherThickness > 0 {
		planned.Thinner, planned.Thicker = min(s.BaseThickness, s.OtherThickness), max(s.BaseThickness, s.OtherThickness)
	}
	return planned
}

// notHeld says what was not held against the procedure and why.
func (c *seamCheck) notHeld(silent, unknown []string) {
	name, id := c.name, c.job.Procedure.ID
	if len(silent) > 0 {
		c.add(c.newf(finding.ProcedureSilent, "%s: procedure %s states no limit for %s; %s not checked", name, id, strings.Join(silent, ", "), thatWere(silent)))
	}
	if len(unknown) > 0 {
		f := c.newf(finding.ProcedureSilent, "%s: procedure %s limits %s, and the job does not say what is planned; %s not checked", name, id, strings.Join(unknown, ", "), thatWere(unknown))
		c.add(f.Mend("add them to the settings set or the seam"))
	}
}

// thatWere refers to the items of a list just named.
func thatWere(items []string) string {
	if len(items) == 1 {
		return "that was"
	}
	return "these were"
}

// items names the code and the quantity of the findings that a procedure's
// items make; below is the code for a value under the range where it has its
// own.
var items = map[procedure.Item]struct {
	code, below finding.Code
	kind        unit.Kind
}{
	procedure.ItemCurrent:         {finding.CurrentOutside, "", unit.Current},
	procedure.ItemVoltage:         {finding.VoltageOutside, "", unit.Voltage},
	procedure.ItemFeed:            {finding.FeedOutside, "", unit.WireFeed},
	procedure.ItemTravelSpeed:     {finding.TravelAbove, finding.TravelBelow, unit.Speed},
	procedure.ItemEnergy:          {finding.HeatAbove, finding.HeatBelow, unit.EnergyPerLength},
	procedure.ItemThickness:       {finding.ThicknessOutside, "", unit.Length},
	procedure.ItemContactDistance: {finding.DistanceOutside, "", unit.Length},
	procedure.ItemSinglePass:      {finding.SinglePassTooLarge, "", unit.Length},
	procedure.ItemGasFlow:         {finding.ProcedureOther, "", unit.GasFlow},
	procedure.ItemWorkAngle:       {finding.ProcedureOther, "", unit.Angle},
	procedure.ItemTravelAngle:     {finding.ProcedureOther, "", unit.Angle},
	procedure.ItemPosition:        {code: finding.PositionOutside},
}

// outside says what the procedure forbids: a name or a number that is not on
// its list, or a number out of its range.
func (c *seamCheck) outside(v procedure.Verdict) {
	if len(v.Allowed) > 0 {
		c.notListed(v)
		return
	}
	item, spec := items[v.Item], c.job.Procedure
	code, limit, side := item.code, v.High, "above"
	if v.HasLow && v.Measured < v.Low {
		limit, side = v.Low, "below"
		if item.below != "" {
			code = item.below
		}
	}
	what, note := string(v.Item), v.Note
	if v.Item == procedure.ItemEnergy {
		what, note, _ = strings.Cut(v.Note, ", ")
		if spec.EnergyIs == thermal.ArcEnergy {
			code = finding.EnergyOutside
		}
	}
	if note != "" {
		note = " (" + note + ")"
	}
	f := c.newf(code, "%s: %s %s%s is %s the %s of procedure %s", c.name, what, c.digits(item.kind, v.Measured, 4), note, side, c.digits(item.kind, limit, 4), spec.ID)
	c.add(f.Values(c.pair(item.kind, v.Measured, limit)).From(v.Source.String()))
}

// notListed says what is not on a list of the procedure.
func (c *seamCheck) notListed(v procedure.Verdict) {
	spec, code := c.job.Procedure, finding.ProcedureOther
	if item, ok := items[v.Item]; ok {
		code = item.code
	}
	planned, allowed := v.Found, v.Allowed
	if v.Item == procedure.ItemWireDiameter { // the one list of numbers
		planned, allowed = c.digits(unit.Length, v.Measured, 4), nil
		for _, d := range spec.WireDiameters {
			allowed = append(allowed, c.digits(unit.Length, d, 4))
		}
	}
	f := c.newf(code, "%s: %s %s is not in procedure %s, which has %s", c.name, v.Item, planned, spec.ID, strings.Join(allowed, ", "))
	c.add(f.From(v.Source.String()))
}
