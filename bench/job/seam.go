package job

import (
	"maps"
	"strings"

	"seamwright/geom/se3"
	"seamwright/unit"
	"seamwright/weld"
)

// seamDraft is a seam while it is read: names are not looked up yet and
// directions stand in the frame of the points.
type seamDraft struct {
	seam              Seam
	name              ref
	path              pathDraft
	copies            copiesDraft
	stitches          stitchesDraft
	passes            passesDraft
	symbolic          symbolDraft
	taught, through   []ref
	base, other       plateDraft
	settings          ref
	procedure         ref
	approach, retreat ref
	read              node
}

func jointForm(dst *weld.JointType) single {
	return parsed(dst, []string{"tee", "lap", "inside corner", "outside corner", "butt", "edge"}, errless(weld.ParseJointType))
}

// copy returns a seam that begins as d, the defaults.
func (d *seamDraft) copy() seamDraft {
	c := *d
	c.seam.Fields = maps.Clone(d.seam.Fields)
	return c
}

// shared lists the fields that a seam and the defaults have in common.
func (d *seamDraft) shared() []field {
	s := &d.seam
	return []field{
		may("thickness", record{example: "{base: 8 mm, upright: 6 mm}", fields: []field{
			may("base", quantity(unit.Length, &s.BaseThickness, thickness, "8 mm")),
			may("upright", quantity(unit.Length, &s.OtherThickness, thickness, "6 mm")),
		}}),
		may("gap", gapForm(s)),
		may("settings", named(&d.settings, "11")),
		may("procedure", named(&d.procedure, "WPS-012")),
		may("torch", aimForm(&s.Aim)),
		may("approach", leaveForm(&s.Approach, &d.approach, "W1 in")),
		may("retreat", leaveForm(&s.Retreat, &d.retreat, "W1 out")),
	}
}

// gapForm reads the gap, or one at the start and one at the end.
func gapForm(s *Seam) either {
	one := quantity(unit.Length, &s.Gap, gap, "0.5 mm")
	take := one.take
	one.take = func(text string) *wrong {
		w := take(text)
		s.GapStart, s.GapEnd = s.Gap, s.Gap
		return w
	}
	return either{word: one, group: record{example: "{start: 3 mm, end: 4.5 mm}", allowed: "{start: 3 mm, end: 4.5 mm}", fields: []field{
		need("start", quantity(unit.Length, &s.GapStart, gap, "3 mm")),
		need("end", quantity(unit.Length, &s.GapEnd, gap, "4.5 mm")),
	}, check: func(*Problems, node, bool) { s.Gap = max(s.GapStart, s.GapEnd) }}}
}

// defaultsForm is the table of the section "defaults".
func (d *seamDraft) defaultsForm() record {
	return record{at: &d.seam.At, fields: d.shared(), example: "{gap: 0 mm}", check: func(_ *Problems, n node, _ bool) {
		d.seam.Fields = map[string]Place{}
		gather(n, "", d.seam.Fields)
	}}
}

// form is the table of one seam.
func (d *seamDraft) form() form {
	s := &d.seam
	points := func(dst *[]ref, low int, example string) form {
		return manyOf(dst, low, maxPath, "points", func(r *ref) form { return named(r, "W1 start") }).like(example)
	}
	fields := []field{
		need("name", named(&d.name, "W1")),
		need("joint", jointForm(&s.Joint)),
	}
	fields = append(fields, d.path.fields(s)...)
	fields = append(fields,
		may("taught", points(&d.taught, 1, "[W1 start, W1 end]")),
		may("through", points(&d.through, 1, "[over the clamp]")),
		may("base", d.base.form(&s.Base, []PlateKind{PlateLevel, PlateUp, PlateDown}, false)),
		may("upright", d.other.form(&s.Other, []PlateKind{PlateLeft, PlateRight, PlateTubeOutside, PlateTubeInside}, true)),
		may("weld", weldForm(&s.Weld)))
	fields = append(append(fields, d.symbolic.fields(&s.Symbol)...),
		may("passes", d.passes.form(&s.Passes)),
		may("weave", weaveForm(&s.Weave)),
		may("speed", quantity(unit.Speed, &s.Speed, weldSpeed, "6.8 mm/s")))
	return record{at: &s.At, example: "{name: W1, joint: tee, line: [W1 start, W1 end], base: level, upright: left, weld: {leg: 5 mm}, settings: 11, torch: {travel: push 10 deg}}",
		fields: append(append(append(fields, d.copies.fields(s)...), d.stitches.fields(s)...), d.shared()...), one: [][]string{texts(pathKinds), {"weld", "symbol"}},
		check: func(ps *Problems, n node, _ bool) {
			d.read = n
			if s.Fields == nil {
				s.Fields = map[string]Place{}
			}
			gather(n, "", s.Fields)
			s.Name = d.name.text
			d.symbol(ps)
			d.rules(ps)
			d.groove(ps)
		}}
}

// gather notes the place of every field below n by its path from there.
func gather(n node, path string, into map[string]Place) {
	for _, e := range n.fields {
		p := join(path, e.name)
		into[p] = e.value.at
		gather(e.value, p, into)
	}
}

func weldForm(w *Weld) record {
	sizes := []string{"leg", "legs", "throat", "area", "groove"}
	return record{at: &w.At, one: [][]string{sizes},
		allowed: "leg, legs, throat, area or groove with its size", mend: "say which the drawing means, for example {leg: 5 mm}", example: "{leg: 5 mm}",
		fields: []field{
			may("leg", quantity(unit.Length, &w.LegBase, weldSize, "5 mm")),
			may("legs", record{example: "{base: 6 mm, upright: 9 mm}", fields: []field{
				need("base", quantity(unit.Length, &w.LegBase, weldSize, "6 mm")),
				need("upright", quantity(unit.Length, &w.LegOther, weldSize, "9 mm")),
			}}),
			may("throat", quantity(unit.Length, &w.Throat, weldSize, "3.5 mm")),
			may("area", quantity(unit.Area, &w.Area, weldArea, "22 mm2")),
			may("groove", grooveForm(&w.Groove)),
		},
		check: func(_ *Problems, n node, _ bool) {
			for _, kind := range sizes {
				if n.has(kind) {
					w.Kind = SizeKind(kind)
				}
			}
			if w.Kind == SizeLeg {
				w.LegOther = w.LegBase
			}
		}}
}

// names looks up every name that the seam uses itself; those of the defaults
// are looked up there.
func (d *seamDraft) names(ps *Problems, points, ids, procedures known) {
	points.check(ps, d.copies.point)
	for _, list := range [][]ref{d.path.names(), d.taught, d.through, d.base.touched, d.other.touched} {
		for _, r := range list {
			points.check(ps, r)
		}
	}
	for _, r := range []ref{d.approach, d.retreat} {
		if d.own(r) {
			points.checkLeave(ps, r)
		}
	}
	if d.own(d.settings) {
		ids.check(ps, d.settings)
	}
	if d.own(d.procedure) {
		procedures.checkSome(ps, d.procedure)
	}
	for _, r := range d.passes.refs() {
		ids.check(ps, r)
	}
}

// own says whether a name was written in this section itself.
func (d *seamDraft) own(r ref) bool {
	return strings.HasPrefix(r.at.Field, d.seam.At.Field+".")
}

// finish completes the seam from what the document says elsewhere. The path
// stands in the frame of the points or of the members.
func (d *seamDraft) finish(air Air, baseFromMeasured, baseFromMembers se3.Pose) {
	baseFromPath := baseFromMeasured
	if d.seam.Path.ofMembers() {
		baseFromPath = baseFromMembers
	}
	s := &d.seam
	s.Settings, s.Taught, s.Through = d.settings.text, labels(d.taught), labels(d.through)
	d.path.met.finish(s, baseFromMembers)
	d.copies.finish(s, baseFromPath)
	d.passes.finish(&s.Passes)
	s.StartAt.Point, s.Plane.Points = d.path.startAt.text, labels(d.path.plane.touched)
	if s.Plane.Kind == FlatDirection {
		s.Plane.Direction = baseFromMeasured.Dir(s.Plane.Direction).Unit()
	}
	for _, l := range []struct {
		leave *Leave
		label ref
	}{{&s.Approach, d.approach}, {&s.Retreat, d.retreat}} {
		l.leave.Point = l.label.text
		if l.leave.Point == "" && l.leave.Out == 0 {
			l.leave.Out = air.Out
		}
	}
	for _, p := range []struct {
		plate *Plate
		read  plateDraft
	}{{&s.Base, d.base}, {&s.Other, d.other}} {
		p.plate.Points = labels(p.read.touched)
		if p.plate.Kind == PlateDirection {
			p.plate.Direction = baseFromMeasured.Dir(p.plate.Direction).Unit()
		}
	}
}

// labels returns the names of the points referred to, nil for none.
func labels(refs []ref) []string {
	var out []string
	for _, r := range refs {
		out = append(out, r.text)
	}
	return out
}
