package plan

import (
	"fmt"

	"seamwright/bench/finding"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

// grooved lays a groove in passes.
func (z sizing) grooved(aim seam.Aim) (sized, error) {
	var out sized
	drawn := &z.seam.Weld.Groove
	g, err := z.asFitted(&out)
	if err != nil {
		return out, err
	}
	most, err := z.most()
	if err != nil {
		return out, err
	}
	wish := &z.seam.Passes
	r := section.GroovePasses{Groove: g, Cap: drawn.Cap, MaxArea: most.area, MaxWidth: wish.MostWidth}
	if r.RootArea, err = z.toldArea(&wish.Root); err != nil {
		return out, fmt.Errorf("root pass: %w", err)
	}
	if r.CapArea, err = z.toldArea(&wish.Cap); err != nil {
		return out, fmt.Errorf("cap pass: %w", err)
	}
	fill, err := z.toldArea(&wish.Fill)
	if err != nil {
		return out, fmt.Errorf("fill pass: %w", err)
	}
	if fill > 0 {
		r.MaxArea = fill
	}
	plan, err := section.PlanGroove(r)
	if err != nil {
		return out, err
	}
	if drawn.Right {
		plan = plan.Mirrored()
	}
	if err := z.lay(&out, plan, aim, func(*Size) {}); err != nil {
		return out, err
	}
	out.found = append(out.found, z.told(fmt.Sprintf("the %v groove in %s plate", g.Prep, z.say(asSize, g.Thickness)), &out, most))
	z.filled(&out)
	return out, z.tapers(&out, r)
}

// tapers says what the passes would be at the narrower end of a groove whose gap
// opens along the seam; it is planned for the wider.
func (z sizing) tapers(out *sized, wide section.GroovePasses) error {
	narrow := wide
	narrow.Groove.Gap = min(z.seam.GapStart, z.seam.GapEnd)
	if z.seam.Gap == 0 || narrow.Groove.Gap == wide.Groove.Gap {
		return nil
	}
	least, err := section.PlanGroove(narrow)
	if err != nil {
		return fmt.Errorf("at the narrower end of the gap: %w", err)
	}
	text := fmt.Sprintf("%s: the gap goes from %s to %s, and the metal of the section with it from %s to %s", z.seam.Name,
		z.say(asSize, z.seam.GapStart), z.say(asSize, z.seam.GapEnd), z.say(asArea, least.Needed), z.say(asArea, out.section.Needed))
	if k := firstFill(out.passes); k >= 0 && len(least.Passes) == len(out.section.Passes) {
		one := z
		one.settings = settingsOf(z.job, out.passes[k].Size.Settings)
		size, _, err := one.passSize(least.Passes[k].Area, &z.seam.Passes.Fill)
		if err != nil {
			return err
		}
		text += fmt.Sprintf("; planned for the wider end, where a fill pass runs at %s with %s; at the narrower end it would run at %s",
			z.say(asTyped, out.passes[k].Size.Travel), z.digits(unit.EnergyPerLength, out.passes[k].Size.HeatInput, 3), z.say(asTyped, size.Travel))
	} else {
		text += "; planned for the wider end"
	}
	f := finding.New(finding.GapOpens, finding.AtSeam(z.seam.Name), text)
	out.found = append(out.found, f.Values(z.pair(unit.Length, z.seam.Gap, narrow.Groove.Gap)))
	return nil
}

// firstFill is the place of the first fill pass, -1 for none.
func firstFill(passes []Pass) int {
	for k := range passes {
		if passes[k].Role == section.FillPass {
			return k
		}
	}
	return -1
}

// asFitted is the groove with the gap as it was measured, where it was.
func (z sizing) asFitted(out *sized) (section.Groove, error) {
	drawn := z.seam.Weld.Groove.Section
	if z.seam.Gap == 0 {
		return drawn, nil
	}
	measured := drawn
	measured.Gap = z.seam.Gap
	measured, err := section.NewGroove(measured)
	if err != nil {
		return drawn, err
	}
	off, source, err := section.FitUp(drawn, measured)
	if err != nil {
		return drawn, err
	}
	for _, d := range off {
		f := finding.Newf(finding.GrooveFitUp, finding.AtSeam(z.seam.Name), "%s: %s %s, %s is allowed; the passes are planned for the groove as measured", z.seam.Name, d.What, d.Found, d.Allowed)
		out.found = append(out.found, f.Values(z.pair(unit.Length, measured.Gap, drawn.Gap)).Mend("%s", d.Mend).From(source.String()))
	}
	return measured, nil
}

// filled holds the finished section against the code's thickness of passes and
// the plates' face.
func (z sizing) filled(out *sized) {
	name, where := z.seam.Name, finding.AtSeam(z.seam.Name)
	if z.job.Code == weld.AWS {
		limits, err := section.CodePassLimits(z.settings.Process, z.position.AWS)
		if err != nil {
			f := finding.Newf(finding.SinglePassTooLarge, where, "%s: no figure is known for how thick a pass may be in position %v; it was not checked", name, z.position.AWS)
			out.found = append(out.found, f.As(finding.Note).Mend("ask the welding coordinator"))
		}
		for _, o := range out.section.Against(limits) {
			if err == nil {
				f := finding.Newf(finding.SinglePassTooLarge, where, "%s pass %d: %s %s, %s is allowed", name, o.Pass, o.What, o.Found, o.Allowed)
				out.found = append(out.found, f.Mend("%s", o.Mend).From(limits.Source.String()))
			}
		}
	}
	if low := out.section.Low; low < -legSlack {
		f := finding.Newf(finding.FilletUndersize, where, "%s: the last layer leaves a valley %s below the plates' face", name, z.say(asSize, -low))
		out.found = append(out.found, f.Values(z.pair(unit.Length, low, 0)).Mend("lay more in the cap: cap: {height: ...} of the groove"))
	}
}
