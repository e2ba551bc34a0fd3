package plan

import (
	"strings"

	"seamwright/bench/finding"
	"seamwright/unit"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// items names the code of the findings that a procedure's items make; below is the code for a value under the range where it has its
// own, mend the remedy where the code's own is too wide.
var items = map[procedure.Item]struct {
	code, below finding.Code
	mend        string
}{
	procedure.ItemCurrent:         {code: finding.CurrentOutside},
	procedure.ItemVoltage:         {code: finding.VoltageOutside},
	procedure.ItemFeed:            {code: finding.FeedOutside},
	procedure.ItemTravelSpeed:     {code: finding.TravelAbove, below: finding.TravelBelow},
	procedure.ItemEnergy:          {code: finding.HeatAbove, below: finding.HeatBelow},
	procedure.ItemThickness:       {code: finding.ThicknessOutside},
	procedure.ItemContactDistance: {code: finding.DistanceOutside},
	procedure.ItemSinglePass:      {code: finding.SinglePassTooLarge},
	procedure.ItemWorkAngle:       {mend: "another work angle, or another procedure"},
	procedure.ItemTravelAngle:     {mend: "another travel angle, or another procedure"},
	procedure.ItemAmplitude:       {mend: "a narrower weave, more passes, or another procedure"},
	procedure.ItemFrequency:       {mend: "another frequency of the weave, or another procedure"},
	procedure.ItemDwell:           {mend: "another dwell of the weave, or another procedure"},
	procedure.ItemTechnique:       {mend: "weave or do not weave as the procedure says, or choose another procedure"},
	procedure.ItemPreheat:         {mend: "preheat as the procedure says, or another procedure"},
	procedure.ItemInterpass:       {mend: "wait or warm between passes as the procedure says, or another procedure"},
	procedure.ItemParentGroup:     {mend: "a procedure that is qualified for this material"},
	procedure.ItemPosition:        {code: finding.PositionOutside},
}

// outside says what the procedure forbids: a name or a number that is not on
// its list, or a number out of its range.
func (c *seamCheck) outside(v procedure.Verdict) {
	item := items[v.Item]
	code := item.code
	if code == "" {
		code = finding.ProcedureOther
	}
	var f finding.Finding
	if len(v.Allowed) > 0 {
		f = c.notListed(code, v)
	} else {
		f = c.outOfRange(code, v)
	}
	if item.mend != "" {
		f = f.Mend("%s", item.mend)
	}
	c.add(f.From(v.Source.String()))
}

// who is whose value is outside: the seam's, or that of the pass.
func (c *seamCheck) who(item procedure.Item) string {
	if ofSeam[item] {
		return c.doc.Name
	}
	return c.name
}

// outOfRange says which number is out of the procedure's range.
func (c *seamCheck) outOfRange(code finding.Code, v procedure.Verdict) finding.Finding {
	item, kind, spec := items[v.Item], v.Item.Kind(), &c.wps.Common
	limit, side := v.High, "above"
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
	f := c.newf(code, "%s: %s %s%s is %s the %s of procedure %s", c.who(v.Item), what, c.digits(kind, v.Measured, 4), note, side, c.digits(kind, limit, 4), c.ofRow(v))
	return f.Values(c.pair(kind, v.Measured, limit))
}

// notListed says what is not on a list of the procedure.
func (c *seamCheck) notListed(code finding.Code, v procedure.Verdict) finding.Finding {
	planned, allowed := v.Found, v.Allowed
	if v.Item == procedure.ItemWireDiameter { // the one list of numbers
		planned, allowed = c.digits(unit.Length, v.Measured, 4), c.wires(v)
	}
	return c.newf(code, "%s: %s %s is not in procedure %s, which has %s", c.who(v.Item), v.Item, planned, c.ofRow(v), strings.Join(allowed, ", "))
}

// wires are the wire diameters that a verdict allows.
func (w words) wires(v procedure.Verdict) []string {
	var out []string
	for _, d := range v.Wires {
		out = append(out, w.digits(unit.Length, d, 4))
	}
	return out
}

// ofRow names the procedure of a verdict, with the row that states the limit.
func (c *seamCheck) ofRow(v procedure.Verdict) string {
	if v.Source.Clause == "" {
		return c.wps.Common.ID
	}
	return c.wps.Common.ID + " (" + v.Source.Clause + ")"
}
