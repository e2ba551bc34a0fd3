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
	return out, nil
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
