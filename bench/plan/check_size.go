package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// checkSize holds the pass of a seam against the rules of size, the sense of
// its settings set and the procedure.
func checkSize(j *job.Job, s *job.Seam, p *Seam, pass *Pass) []finding.Finding {
	set := settingsOf(j, s.Settings)
	found := checkSettings(j, s, set)
	if s.Weld.Kind != job.SizeArea {
		found = append(found, checkFillet(j, s, p, pass, set)...)
	}
	return append(found, checkProcedure(j, s, p, pass, set)...)
}

// Sense of a gas flow, m3/s: 8 to 25 L/min. Common practice, no source.
const (
	gasLeast = 8 * unit.LPerMin
	gasMost  = 25 * unit.LPerMin
)

func checkSettings(j *job.Job, s *job.Seam, set procedure.Settings) []finding.Finding {
	where := finding.AtSeam(s.Name)
	var found []finding.Finding
	if j.Torch.WireDiameter > 0 && math.Abs(j.Torch.WireDiameter-set.WireDiameter) > 1e-6 {
		f := finding.Newf(finding.WireDiffersToolPt, where, "%s: settings set %s is for %.3g mm wire, the tool point was found with %.3g mm", s.Name, set.ID, set.WireDiameter*1e3, j.Torch.WireDiameter*1e3)
		found = append(found, f.Values(set.WireDiameter*1e3, j.Torch.WireDiameter*1e3, "mm"))
	}
	if set.Phases.CraterFill == 0 {
		found = append(found, finding.Newf(finding.CraterFillMissing, where, "%s: settings set %s has no crater time", s.Name, set.ID).Values(0, 0.3, "s"))
	}
	if set.GasFlow > 0 && (set.GasFlow < gasLeast || set.GasFlow > gasMost) {
		lpm := set.GasFlow / unit.LPerMin
		f := finding.Newf(finding.GasFlowSuspect, where, "%s: settings set %s has %.0f L/min of gas, which is %.0f cubic feet per hour", s.Name, set.ID, lpm, set.GasFlow/unit.CFH)
		if asCFH := lpm * unit.CFH / unit.LPerMin; asCFH >= gasLeast/unit.LPerMin && asCFH <= gasMost/unit.LPerMin {
			f = f.Mend("did you mean %.0f cubic feet per hour (%.1f L/min)?", lpm, asCFH)
		}
		limit := gasMost
		if set.GasFlow < gasLeast {
			limit = gasLeast
		}
		found = append(found, f.Values(lpm, limit/unit.LPerMin, "L/min"))
	}
	if j.Code == weld.AWS && set.Transfer == weld.ShortCircuit {
		found = append(found, finding.Newf(finding.ShortCircuitStructure, where, "%s: settings set %s is short-circuit transfer", s.Name, set.ID))
	}
	return found
}

func checkFillet(j *job.Job, s *job.Seam, p *Seam, pass *Pass, set procedure.Settings) []finding.Finding {
	var found []finding.Finding
	found = append(found, checkMinimum(j, s, pass, set)...)
	where := finding.AtSeam(s.Name)
	if s.Joint == weld.Lap && s.OtherThickness > 0 {
		edge, err := section.MaxLapEdge(s.OtherThickness)
		if err == nil && pass.Size.DrawnLegOther > edge.Size+1e-9 {
			f := finding.Newf(finding.FilletAboveEdge, where, "%s: leg %.1f mm on the edge of a %.1f mm plate, which holds %.1f mm at most", s.Name, pass.Size.DrawnLegOther*1e3, s.OtherThickness*1e3, edge.Size*1e3)
			found = append(found, f.Values(pass.Size.DrawnLegOther*1e3, edge.Size*1e3, "mm").From(edge.Source.String()))
		}
	}
	return append(found, checkSinglePass(j, s, p, pass, set)...)
}

func checkMinimum(j *job.Job, s *job.Seam, pass *Pass, set procedure.Settings) []finding.Finding {
	if s.BaseThickness == 0 || s.OtherThickness == 0 {
		return []finding.Finding{unstatedThickness(s)}
	}
	limits, err := section.MinSizes(section.Plates{
		Family: j.Code, Process: set.Process,
		Thinner: min(s.BaseThickness, s.OtherThickness), Thicker: max(s.BaseThickness, s.OtherThickness),
	})
	if err != nil {
		return []finding.Finding{finding.New(finding.FilletBelowMinimum, finding.AtSeam(s.Name), fmt.Sprintf("%s: the rule cannot be read: %v", s.Name, err))}
	}
	drawn, err := section.New(pass.Size.Included, pass.Size.DrawnLegBase, pass.Size.DrawnLegOther)
	if err != nil {
		return nil // sizing has refused it already
	}
	var found []finding.Finding
	for _, limit := range limits {
		has := min(drawn.Leg1, drawn.Leg2)
		if limit.Kind == weld.Throat {
			has = drawn.DesignThroat()
		}
		if !limit.Allows(has) {
			f := finding.Newf(finding.FilletBelowMinimum, finding.AtSeam(s.Name), "%s: %v %.1f mm where the plates ask for at least %.1f mm", s.Name, limit.Kind, has*1e3, limit.Size*1e3)
			found = append(found, f.Values(has*1e3, limit.Size*1e3, "mm").From(limit.Source.String()))
		}
	}
	return found
}

// unstatedThickness says which rules of size could not be applied.
func unstatedThickness(s *job.Seam) finding.Finding {
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
	f := finding.Newf(finding.FilletBelowMinimum, finding.AtSeam(s.Name), "%s: the thickness %s is not stated; %s", s.Name, missing, rules)
	return f.As(finding.Note).Mend("add thickness: {base: 8 mm, upright: 6 mm} with the plates' own numbers")
}

// checkSinglePass applies the code's limit where the procedure states none.
func checkSinglePass(j *job.Job, s *job.Seam, p *Seam, pass *Pass, set procedure.Settings) []finding.Finding {
	if j.Procedure != nil && j.Procedure.SinglePass.Stated() {
		return nil
	}
	leg := max(pass.Size.LegBase, pass.Size.LegOther)
	limit, source := 0.0, ""
	severity := finding.Stop
	if j.Code == weld.AWS {
		most, err := section.MaxSinglePass(set.Process, p.Position.AWS)
		if err != nil {
			return nil
		}
		limit, source = most.Size, most.Source.String()
	} else {
		most, err := section.PracticalSinglePass(p.Position.ISO)
		if err != nil { // a position without a figure
			f := finding.Newf(finding.SinglePassTooLarge, finding.AtSeam(s.Name), "%s: no figure is known for what one pass lays in position %v; leg %.1f mm in one pass was not checked", s.Name, p.Position.ISO, leg*1e3)
			return []finding.Finding{f.As(finding.Note).Mend("ask the welding coordinator")}
		}
		limit, source, severity = most.Value, most.Source.String(), finding.Caution
	}
	if leg <= limit+1e-9 {
		return nil
	}
	f := finding.Newf(finding.SinglePassTooLarge, finding.AtSeam(s.Name), "%s: leg %.1f mm in one pass; in position %v one pass lays %.1f mm at most", s.Name, leg*1e3, p.Position.Name(j.Code), limit*1e3)
	return []finding.Finding{f.Values(leg*1e3, limit*1e3, "mm").From(source).As(severity)}
}

// checkProcedure holds the pass against the procedure and turns every verdict
// that is not a pass into a finding.
func checkProcedure(j *job.Job, s *job.Seam, p *Seam, pass *Pass, set procedure.Settings) []finding.Finding {
	if j.Procedure == nil {
		return nil // said once for the job
	}
	set.ContactDistance = j.Torch.ContactTipDistance() + pass.Aim.Distance
	planned := procedure.Planned{
		Family: j.Code, Settings: set, Travel: pass.Size.Travel,
		Joint: s.Joint, Kind: weldKind(s.Joint), Position: p.Position,
		WorkAngle: procedure.KnownAngle(pass.Aim.Work), TravelAngle: procedure.KnownAngle(pass.Aim.Travel),
		WorkDeviation: procedure.KnownAngle(0), TravelDeviation: procedure.KnownAngle(0),
		PassLeg: max(pass.Size.LegBase, pass.Size.LegOther), PassThroat: pass.Size.Throat,
	}
	if s.BaseThickness > 0 && s.OtherThickness > 0 {
		planned.Thinner, planned.Thicker = min(s.BaseThickness, s.OtherThickness), max(s.BaseThickness, s.OtherThickness)
	}
	verdicts, err := j.Procedure.Check(planned)
	if err != nil {
		return []finding.Finding{finding.New(finding.ProcedureOther, finding.AtSeam(s.Name), fmt.Sprintf("%s: %v", s.Name, err))}
	}
	var found []finding.Finding
	var silent, unknown []string
	for _, v := range verdicts {
		switch v.State {
		case procedure.Outside:
			found = append(found, outside(s.Name, j.Procedure, v))
		case procedure.NotStated:
			silent = append(silent, string(v.Item))
		case procedure.NotKnown:
			unknown = append(unknown, string(v.Item))
		}
	}
	return append(found, notHeld(s.Name, j.Procedure, silent, unknown)...)
}

// notHeld says what was not held against the procedure and why.
func notHeld(seam string, spec *procedure.Spec, silent, unknown []string) []finding.Finding {
	var found []finding.Finding
	if len(silent) > 0 {
		f := finding.Newf(finding.ProcedureSilent, finding.AtSeam(seam), "%s: procedure %s states no limit for %s; these were not checked", seam, spec.ID, strings.Join(silent, ", "))
		found = append(found, f)
	}
	if len(unknown) > 0 {
		f := finding.Newf(finding.ProcedureSilent, finding.AtSeam(seam), "%s: procedure %s limits %s, and the job does not say what is planned; these were not checked", seam, spec.ID, strings.Join(unknown, ", "))
		found = append(found, f.Mend("add them to the settings set or the seam"))
	}
	return found
}

// items names the code and the unit of the findings that a procedure's items
// make; below is the code for a value under the range where it has its own.
var items = map[procedure.Item]struct {
	code, below finding.Code
	unit        string
	si          float64 // SI value of one unit
}{
	procedure.ItemCurrent:         {finding.CurrentOutside, "", "A", 1},
	procedure.ItemVoltage:         {finding.VoltageOutside, "", "V", 1},
	procedure.ItemFeed:            {finding.FeedOutside, "", "m/min", unit.MPerMin},
	procedure.ItemTravelSpeed:     {finding.TravelAbove, finding.TravelBelow, "mm/s", unit.MMPerS},
	procedure.ItemEnergy:          {finding.HeatAbove, finding.HeatBelow, "kJ/mm", unit.KJPerMM},
	procedure.ItemThickness:       {finding.ThicknessOutside, "", "mm", unit.MM},
	procedure.ItemContactDistance: {finding.DistanceOutside, "", "mm", unit.MM},
	procedure.ItemSinglePass:      {finding.SinglePassTooLarge, "", "mm", unit.MM},
	procedure.ItemGasFlow:         {finding.ProcedureOther, "", "L/min", unit.LPerMin},
	procedure.ItemWorkAngle:       {finding.ProcedureOther, "", "deg", unit.Deg},
	procedure.ItemTravelAngle:     {finding.ProcedureOther, "", "deg", unit.Deg},
	procedure.ItemPosition:        {finding.PositionOutside, "", "", 0},
}

// outside says what the procedure forbids.
func outside(seam string, spec *procedure.Spec, v procedure.Verdict) finding.Finding {
	item, ok := items[v.Item]
	if !ok {
		item.code = finding.ProcedureOther
	}
	where := finding.AtSeam(seam)
	if len(v.Allowed) > 0 {
		planned := v.Found
		if planned == "" {
			planned = fmt.Sprintf("%.4g mm", v.Measured*1e3) // the wire's diameter, the one number with a list
		}
		f := finding.Newf(item.code, where, "%s: %s %s is not in procedure %s, which has %s", seam, v.Item, planned, spec.ID, strings.Join(v.Allowed, ", "))
		return f.From(v.Source.String())
	}
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
	f := finding.Newf(code, where, "%s: %s %.4g %s%s is %s the %.4g %s of procedure %s", seam, what, v.Measured/item.si, item.unit, note, side, limit/item.si, item.unit, spec.ID)
	return f.Values(v.Measured/item.si, limit/item.si, item.unit).From(v.Source.String())
}
