package plan

import (
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
)

// size holds what the drawing asks against the rules of size.
func (c *seamCheck) size() {
	if c.doc.Weld.Fillet() {
		c.minimum()
		c.lapEdge()
	}
}

// passed holds the pass against the sense of its settings set, what one pass may
// lay, and the procedure.
func (c *seamCheck) passed() {
	c.settings()
	if c.doc.Weld.Fillet() && len(c.seam.Passes) == 1 {
		c.singlePass()
	}
	c.procedure()
}

// Sense of a gas flow, m3/s: 8 to 25 L/min. Common practice, no source.
const (
	gasLeast = 8 * unit.LPerMin
	gasMost  = 25 * unit.LPerMin
)

// craterLeast is the least crater fill, s: shops use 0.3 to 1.5 s. Common
// practice, no source.
const craterLeast = 0.3

// settings holds the settings set against the torch and against sense.
func (c *seamCheck) settings() {
	name, set := c.name, c.set
	if wire := c.job.Torch.WireDiameter; wire > 0 && math.Abs(wire-set.WireDiameter) > 1e-6 {
		f := c.newf(finding.WireDiffersToolPt, "%s: settings set %s is for %s wire, the tool point was found with %s", name, set.ID, c.digits(unit.Length, set.WireDiameter, 3), c.digits(unit.Length, wire, 3))
		c.add(f.Values(c.pair(unit.Length, set.WireDiameter, wire)))
	}
	if set.Phases.CraterFill == 0 {
		f := c.newf(finding.CraterFillMissing, "%s: settings set %s has no crater time", name, set.ID)
		c.add(f.Values(c.pair(unit.Time, 0, craterLeast)))
	}
	if set.GasFlow > 0 && (set.GasFlow < gasLeast || set.GasFlow > gasMost) {
		c.gasFlow()
	}
	if c.job.Code == weld.AWS && set.Transfer == weld.ShortCircuit {
		c.add(c.newf(finding.ShortCircuitStructure, "%s: settings set %s is short-circuit transfer", name, set.ID))
	}
}

// gasFlow says that a gas flow is out of sense, and asks whether cubic feet per
// hour were typed as litres per minute.
func (c *seamCheck) gasFlow() {
	flow := c.set.GasFlow
	lpm := flow / unit.LPerMin
	own, other := c.ownFirst(fmt.Sprintf("%.0f L/min", lpm), fmt.Sprintf("%.0f cubic feet per hour", flow/unit.CFH))
	f := c.newf(finding.GasFlowSuspect, "%s: settings set %s has %s of gas, which is %s", c.name, c.set.ID, own, other)
	if meant := lpm * unit.CFH; meant >= gasLeast && meant <= gasMost {
		f = f.Mend("did you mean %.0f cubic feet per hour (%.1f L/min)?", lpm, meant/unit.LPerMin)
	}
	c.add(f.Values(c.pair(unit.GasFlow, flow, min(max(flow, gasLeast), gasMost))))
}

// limit is a limit of size as the job's own units have it, m: tables that print
// millimetres and inches round them apart.
func (w words) limit(l section.SizeLimit) float64 {
	if w.system == unit.InchPound && l.Inch > 0 {
		return l.Inch
	}
	return l.Size
}

// minimum holds the drawn fillet against the least for its plates.
func (c *seamCheck) minimum() {
	s := c.doc
	if s.BaseThickness == 0 || s.OtherThickness == 0 {
		c.unstatedThickness()
		return
	}
	limits, err := section.MinSizes(section.Plates{
		Family: c.job.Code, Process: c.set.Process,
		Thinner: min(s.BaseThickness, s.OtherThickness), Thicker: max(s.BaseThickness, s.OtherThickness),
	})
	if err != nil {
		c.add(c.newf(finding.FilletBelowMinimum, "%s: the rule cannot be read: %v", s.Name, err))
		return
	}
	drawn, err := section.New(c.pass.Size.Included, c.pass.Size.DrawnLegBase, c.pass.Size.DrawnLegOther)
	if err != nil {
		return // sizing has refused it already
	}
	for _, limit := range limits {
		has, least := min(drawn.Leg1, drawn.Leg2), c.limit(limit)
		if limit.Kind == weld.Throat {
			has = drawn.DesignThroat()
		}
		if !limit.Allows(has) {
			f := c.newf(finding.FilletBelowMinimum, "%s: %v %s where the plates ask for at least %s", s.Name, limit.Kind, c.say(asSize, has), c.say(asSize, least))
			c.add(f.Values(c.pair(unit.Length, has, least)).From(limit.Source.String()))
		}
	}
}

// unstatedThickness says which rules of size could not be applied.
func (c *seamCheck) unstatedThickness() {
	s := c.doc
	missing := "of base plate and upright"
	switch {
	case s.BaseThickness > 0:
		missing = "of the upright"
	case s.OtherThickness > 0:
		missing = "of the base plate"
	}
	rules := "the least size was not checked"
	if s.Joint == weld.Lap && s.OtherThickness == 0 {
		rules = "least size and the most that the edge holds were not checked"
	}
	example, _ := c.ownFirst("{base: 8 mm, upright: 6 mm}", "{base: 3/8 in, upright: 1/4 in}")
	f := c.newf(finding.FilletBelowMinimum, "%s: the thickness %s is not stated; %s", s.Name, missing, rules)
	c.add(f.As(finding.Note).Mend("add thickness: %s with the plates' own numbers", example))
}

// lapEdge holds the leg on the edge of a lap joint against what the edge holds.
func (c *seamCheck) lapEdge() {
	s, leg := c.doc, c.pass.Size.DrawnLegOther
	if s.Joint != weld.Lap || s.OtherThickness == 0 {
		return
	}
	edge, err := section.MaxLapEdge(s.OtherThickness)
	if err != nil {
		c.add(c.newf(finding.FilletAboveEdge, "%s: the rule cannot be read: %v", s.Name, err))
		return
	}
	if most := edge.Size; leg > most+1e-9 {
		f := c.newf(finding.FilletAboveEdge, "%s: leg %s on the edge of a %s plate, which holds %s at most", s.Name, c.say(asSize, leg), c.say(asSize, s.OtherThickness), c.say(asSize, most))
		c.add(f.Values(c.pair(unit.Length, leg, most)).From(edge.Source.String()))
	}
}

// singlePass applies the code's limit where the procedure states none.
func (c *seamCheck) singlePass() {
	if w := c.job.ProcedureOf(c.doc); w != nil && w.Common.SinglePass.Stated() {
		return
	}
	for _, l := range c.seam.Lies {
		if c.singlePassIn(l.Position) {
			return
		}
	}
}

// singlePassIn holds the pass against what is laid in one position, and reports
// whether it had something to say.
func (c *seamCheck) singlePassIn(position weld.Position) bool {
	name := c.name
	leg := max(c.pass.Size.LegBase, c.pass.Size.LegOther)
	var limit float64
	var source weld.Source
	severity := finding.Stop
	if c.job.Code == weld.AWS {
		most, err := section.MaxSinglePass(c.set.Process, position.AWS)
		if err != nil {
			c.unknownSinglePass(leg, position)
			return true
		}
		limit, source = most.Size, most.Source
	} else {
		most, err := section.PracticalSinglePass(position.ISO)
		if err != nil {
			c.unknownSinglePass(leg, position)
			return true
		}
		limit, source, severity = most.Value, most.Source, finding.Caution
	}
	if leg <= limit+1e-9 {
		return false
	}
	f := c.newf(finding.SinglePassTooLarge, "%s: leg %s in one pass; in position %v one pass lays %s at most", name, c.say(asSize, leg), position.Name(c.job.Code), c.say(asSize, limit))
	c.add(f.Values(c.pair(unit.Length, leg, limit)).From(source.String()).As(severity))
	return true
}

// unknownSinglePass says that no limit is known for this process and position.
func (c *seamCheck) unknownSinglePass(leg float64, position weld.Position) {
	f := c.newf(finding.SinglePassTooLarge, "%s: no figure is known for what one pass lays in position %v; leg %s in one pass was not checked", c.name, position.Name(c.job.Code), c.say(asSize, leg))
	c.add(f.As(finding.Note).Mend("ask the welding coordinator"))
}
