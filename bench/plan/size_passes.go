package plan

import (
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

// sized is a seam as it is laid: its passes in the order of welding, and the
// section that they fill, nil where a single pass does it.
type sized struct {
	passes  []Pass
	section *section.Plan
	found   []finding.Finding
}

// all sizes every pass of the seam, aim being the torch that the document asks
// for.
func (z sizing) all(aim seam.Aim) (sized, error) {
	w, wish := z.seam.Weld, &z.seam.Passes
	if w.Kind == job.SizeGroove {
		return z.grooved(aim)
	}
	if w.Fillet() && !wish.One && z.seam.Speed == 0 {
		out, several, err := z.filletPasses(aim)
		if err != nil || several {
			return out, err
		}
	}
	z.settings = settingsOf(z.job, wishedSet(z.seam, wish.Root))
	size, found, err := z.size()
	return sized{passes: []Pass{{Number: 1, Aim: aim, Size: size, Weave: weaveOf(z.seam, &wish.Root)}}, found: found}, err
}

// wishedSet is the settings set of the passes of a role.
func wishedSet(s *job.Seam, w job.PassWish) string {
	if w.Settings != "" {
		return w.Settings
	}
	return s.Settings
}

// filletPasses lays a fillet in passes where one does not do.
func (z sizing) filletPasses(aim seam.Aim) (out sized, several bool, err error) {
	drawn, err := z.drawn()
	if err != nil {
		return out, false, err
	}
	made, found, err := z.withGap(drawn)
	if err != nil {
		return out, false, err
	}
	root := settingsOf(z.job, wishedSet(z.seam, z.seam.Passes.Root))
	convexity := root.PlanningFactor().Value
	most, err := z.most()
	if err != nil {
		return out, false, err
	}
	if max(made.Leg1, made.Leg2) <= most.one*(1+sameSize) {
		return out, false, nil
	}
	plan, err := section.PlanFillet(section.FilletPasses{
		Fillet: made, Convexity: convexity, MaxArea: most.area, MaxLeg: most.leg, MaxWidth: z.seam.Passes.MostWidth,
		OtherFirst: z.otherBelow(),
	})
	if err != nil {
		return out, false, fmt.Errorf("%w; or say passes: one, or passes: {most: ...}", err)
	}
	out.found = found
	err = z.lay(&out, plan, aim, func(s *Size) { s.DrawnLegBase, s.DrawnLegOther = drawn.Leg1, drawn.Leg2 })
	if err != nil {
		return out, true, err
	}
	out.found = append(out.found, z.told(fmt.Sprintf("leg %s", z.say(asSize, made.Leg1)), &out, most))
	if plan.Throat < drawn.DesignThroat()-legSlack {
		f := finding.Newf(finding.FilletUndersize, finding.AtSeam(z.seam.Name), "%s: the face of the last pass comes to a throat of %s, %s is drawn", z.seam.Name, z.say(asSize, plan.Throat), z.say(asSize, drawn.DesignThroat()))
		out.found = append(out.found, f.Values(z.pair(unit.Length, plan.Throat, drawn.DesignThroat())).Mend("raise the convexity of the settings set, or let a pass lay less: passes: {most: {area: ...}}"))
	}
	return out, true, nil
}

// sameSize is by how much a size may be over its limit and still be it, as a
// share: rounding.
const sameSize = 1e-9

// otherBelow reports whether the other plate is the lower shelf, on which a layer
// begins: its face looks up more than the base plate's.
func (z sizing) otherBelow() bool {
	const clearly = 0.1 // of the vertical
	f := z.start
	sin, cos := math.Sincos(f.Included)
	other := f.B.Scale(sin).AddScaled(-cos, f.M)
	return z.up.Dot(other) > z.up.Dot(f.M)+clearly
}

// lay makes passes of a plan of the section, sizes each, and gives each its torch.
// drawn writes what the drawing asks into a size.
func (z sizing) lay(out *sized, plan section.Plan, aim seam.Aim, drawn func(*Size)) error {
	out.section = &plan
	back := 0
	for i := range plan.Passes {
		q := &plan.Passes[i]
		if q.Back {
			back++
			continue
		}
		wish := z.seam.Passes.Of(q.Role)
		one := z
		one.settings = settingsOf(z.job, wishedSet(z.seam, *wish))
		size, found, err := one.passSize(q.Area, wish)
		if err != nil {
			return fmt.Errorf("pass %d (%v): %w", i+1, q.Role, err)
		}
		drawn(&size)
		pass := Pass{Number: len(out.passes) + 1, Role: q.Role, Layer: q.Layer, Aim: aim, Size: size, Weave: weaveOf(z.seam, wish)}
		if err := pass.aimIn(plan, i, wish); err != nil {
			return fmt.Errorf("pass %d (%v): %w", i+1, q.Role, err)
		}
		out.found = append(out.found, found...)
		out.passes = append(out.passes, pass)
	}
	if back > 0 {
		f := finding.Newf(finding.BackNotPlanned, finding.AtSeam(z.seam.Name), "%s: %d of %d passes are laid from the back of the joint; this run welds the front only", z.seam.Name, back, len(plan.Passes))
		out.found = append(out.found, f.Values(float64(back), 0, "passes"))
	}
	return nil
}

// passSize is what one pass of a given area is made with.
func (z sizing) passSize(area float64, wish *job.PassWish) (Size, []finding.Finding, error) {
	melt, err := z.settings.Melt()
	if err != nil {
		return Size{}, nil, err
	}
	s := z.fixed(melt)
	s.Area = area
	if s.Travel, err = melt.TravelForArea(area); err != nil {
		return s, nil, err
	}
	s.ArcTime = z.length / s.Travel
	if z.seam.Weld.Fillet() {
		shape := z.settings.Shape(z.start.Included, 1)
		if s.AloneLeg, err = shape.Leg(area); err != nil {
			return s, nil, err
		}
		s.AloneThroat = s.AloneLeg * math.Cos(z.start.Included/2)
	}
	var found []finding.Finding
	if wish.Speed > 0 {
		s.Typed = wish.Speed
		if f, bad := z.weldSpeedSense(wish.Speed, finding.AtSeam(z.seam.Name), z.seam.Name); bad {
			found = append(found, f)
		}
	}
	heat, err := z.heat(&s)
	return s, append(found, heat...), err
}

// aimIn turns and shifts the torch of the document, which is that of the root, to
// pass i of a plan as it lies in the section.
func (p *Pass) aimIn(plan section.Plan, i int, wish *job.PassWish) error {
	q := &plan.Passes[i]
	if wish.TravelStated {
		p.Aim.Travel = wish.Travel
	}
	shift, err := plan.Shift(i, p.Aim.Travel)
	if err != nil {
		return err
	}
	p.Aim.Work += q.Work - plan.Passes[0].Work
	if wish.WorkStated {
		p.Aim.Work, p.Aim.FromBisector = wish.Work, false
	}
	if i > 0 {
		p.Aim.Offset = 0 // the document's is for the root
	}
	p.Aim.Offset += shift.Offset
	p.Aim.Distance += shift.Distance
	p.Aim.Ahead, p.Above = shift.Ahead, shift.Distance
	return nil
}

// told says how the weld is laid and why not in one pass.
func (z sizing) told(what string, out *sized, most most) finding.Finding {
	name := z.seam.Name
	text := fmt.Sprintf("%s: %s is laid in %d passes", name, what, len(out.section.Passes))
	melt, err := z.settings.Melt()
	if err == nil {
		if travel, err := melt.TravelForArea(out.section.Needed); err == nil {
			text += fmt.Sprintf("; in one it would be %s of metal at %s", z.say(asArea, out.section.Needed), z.say(asSpeed, travel))
			if heat, err := z.heatAt(travel); err == nil {
				text += " with " + z.digits(unit.EnergyPerLength, heat, 3)
			}
		}
	}
	return finding.New(finding.SeveralPasses, finding.AtSeam(name), text+"; "+most.why).From(most.source)
}

// heatAt is the heat input at a travel speed (m/s), J/m, of the quantity that the
// job's family counts.
func (z sizing) heatAt(travel float64) (float64, error) {
	energy, err := z.settings.ArcEnergy(travel)
	if err != nil {
		return 0, err
	}
	return z.heatIs().FromArcEnergy(energy.PerLength, z.settings.Process)
}
