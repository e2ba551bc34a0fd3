package job

import (
	"maps"
	"strings"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
	"seamwright/weld"
)

// seamDraft is a seam while it is read: names are not looked up yet and
// directions stand in the frame of the points.
type seamDraft struct {
	seam              Seam
	name              ref
	line, arc, circle []ref
	base, other       plateDraft
	settings          ref
	approach, retreat ref
	read              node
}

var jointWords = []string{"tee", "lap", "inside corner", "outside corner", "butt", "edge"}

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
		may("gap", quantity(unit.Length, &s.Gap, gap, "0.5 mm")),
		may("settings", named(&d.settings, "11")),
		may("torch", aimForm(&s.Aim)),
		may("approach", leaveForm(&s.Approach, &d.approach, "W1 in")),
		may("retreat", leaveForm(&s.Retreat, &d.retreat, "W1 out")),
	}
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
	label := func(r *ref) form { return named(r, "W1 start") }
	fields := []field{
		need("name", named(&d.name, "W1")),
		need("joint", parsed(&s.Joint, jointWords, errless(weld.ParseJointType))),
		may("line", many[ref]{&d.line, 2, 0, "points", label}),
		may("arc", many[ref]{&d.arc, 3, 0, "points", label}),
		may("circle", many[ref]{&d.circle, 3, 0, "points", label}),
		may("radius", quantity(unit.Length, &s.Radius, radius, "40 mm")),
		may("overlap", quantity(unit.Length, &s.Overlap, overlap, "15 mm")),
		need("base", d.base.form(&s.Base, []PlateKind{PlateLevel, PlateUp, PlateDown}, false)),
		may("upright", d.other.form(&s.Other, []PlateKind{PlateLeft, PlateRight, PlateTubeOutside, PlateTubeInside}, true)),
		need("weld", weldForm(&s.Weld)),
		may("speed", quantity(unit.Speed, &s.Speed, weldSpeed, "6.8 mm/s")),
	}
	return record{at: &s.At, fields: append(fields, d.shared()...), one: [][]string{{"line", "arc", "circle"}},
		check: func(ps *Problems, n node, _ bool) {
			d.read = n
			if s.Fields == nil {
				s.Fields = map[string]Place{}
			}
			gather(n, "", s.Fields)
			s.Name = d.name.text
			d.rules(ps)
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
	sizes := []string{"leg", "legs", "throat", "area"}
	return record{at: &w.At, one: [][]string{sizes},
		allowed: "leg, legs, throat or area with its size", mend: "say which the drawing means, for example {leg: 5 mm}", example: "{leg: 5 mm}",
		fields: []field{
			may("leg", quantity(unit.Length, &w.LegBase, weldSize, "5 mm")),
			may("legs", record{example: "{base: 6 mm, upright: 9 mm}", fields: []field{
				need("base", quantity(unit.Length, &w.LegBase, weldSize, "6 mm")),
				need("upright", quantity(unit.Length, &w.LegOther, weldSize, "9 mm")),
			}}),
			may("throat", quantity(unit.Length, &w.Throat, weldSize, "3.5 mm")),
			may("area", quantity(unit.Area, &w.Area, weldArea, "22 mm2")),
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

func aimForm(a *Aim) record {
	return record{example: "{travel: push 10 deg}", fields: []field{
		may("work", quantity(unit.Angle, &a.Work, workAngle, "45 deg")),
		may("travel", travelForm(&a.Travel)),
		may("spin", spinForm(a)),
		may("offset", quantity(unit.Length, &a.Offset, aimOffset, "0 mm")),
		may("distance", quantity(unit.Length, &a.Distance, tipDistance, "15 mm")),
		may("tolerance", quantity(unit.Angle, &a.Tolerance, tolerance, "5 deg")),
	}, check: func(_ *Problems, n node, _ bool) { a.WorkStated = a.WorkStated || n.has("work") }}
}

// travelForm reads "push 10 deg", "drag 5 deg" or "0 deg".
func travelForm(dst *float64) single {
	var size float64
	angle := quantity(unit.Angle, &size, travelAngle, "push 10 deg")
	angle.allowed = `push or drag with an angle of 0 to 60 deg, or "0 deg"`
	angle.json["description"] = angle.allowed
	bare := angle.take
	angle.take = func(s string) *wrong {
		s = strings.TrimSpace(s)
		sign, rest := 1.0, s
		if after, push := strings.CutPrefix(s, "push "); push {
			rest = after
		} else if after, drag := strings.CutPrefix(s, "drag "); drag {
			sign, rest = -1, after
		}
		if strings.HasPrefix(rest, "-") || strings.HasPrefix(rest, "+") {
			return &wrong{found: quote(s) + ", an angle with a sign", mend: "say push (wire points along the travel) or drag (it points back at the weld)"}
		}
		if w := bare(rest); w != nil {
			return w
		}
		if rest == s && size != 0 {
			return &wrong{found: quote(s) + ", which does not say which way", mend: "say push (wire points along the travel) or drag (it points back at the weld)"}
		}
		*dst = sign*size + 0 // no minus zero
		return nil
	}
	return angle
}

// spinForm reads "as taught", "free" or an angle.
func spinForm(a *Aim) single {
	angle := quantity(unit.Angle, &a.SpinAngle, wholeTurn, "as taught")
	angle.allowed = "as taught, free or an angle such as 30 deg"
	angle.json["description"] = angle.allowed
	take := angle.take
	angle.take = func(s string) *wrong {
		switch wish := SpinWish(strings.TrimSpace(s)); wish {
		case SpinTaught, SpinFree:
			a.Spin, a.SpinAngle = wish, 0
			return nil
		}
		a.Spin = SpinFixed
		return take(s)
	}
	return angle
}

// leaveForm reads a point's label or {out: length}.
func leaveForm(l *Leave, label *ref, example string) either {
	word := text(&label.text, example)
	word.allowed = "a point's label"
	take := word.take
	word.take = func(s string) *wrong {
		l.Out = 0
		return take(s)
	}
	return either{word: word, group: record{at: &label.at,
		allowed: "{out: 60 mm}", example: "{out: 60 mm}",
		fields: []field{need("out", quantity(unit.Length, &l.Out, wayOut, "60 mm"))},
		check:  func(*Problems, node, bool) { label.text = "" },
	}}
}

// plateDraft is what a plate refers to.
type plateDraft struct {
	touched   []ref
	direction []float64
}

// form is the table of a plate: one of the words, or a group that says how its
// face was measured; angles only where the plate may stand on a side.
func (d *plateDraft) form(p *Plate, words []PlateKind, sides bool) either {
	var with string
	word := oneOf(&p.Kind, words...)
	g := record{at: &p.At, fields: []field{
		may("direction", many[float64]{&d.direction, 3, 3, "numbers", func(x *float64) form {
			return number(x, span{-maxNumber, maxNumber}, "0")
		}}),
		may("touched", many[ref]{&d.touched, 2, 3, "touched points", func(r *ref) form { return named(r, "P1") }}),
		may("with", oneOf(&with, "vertical")),
	}, one: [][]string{{"direction", "touched"}}, allowed: "{direction: [0, 0, 1]} or {touched: [P1, P2, P3]}"}
	if sides {
		g.fields = append(g.fields,
			may("left", quantity(unit.Angle, &p.Angle, plateAngle, "70 deg")),
			may("right", quantity(unit.Angle, &p.Angle, plateAngle, "110 deg")))
		g.one = [][]string{{"direction", "touched", "left", "right"}}
		g.allowed += " or {left: 70 deg}"
	}
	g.check = func(ps *Problems, n node, clean bool) {
		p.Kind = measuredKind(n)
		if clean {
			d.check(ps, n, p)
		}
	}
	return either{word, g}
}

// measuredKind returns how a plate given as a group is known.
func measuredKind(n node) PlateKind {
	switch {
	case n.has("direction"):
		return PlateDirection
	case n.has("left"):
		return PlateAngleLeft
	case n.has("right"):
		return PlateAngleRight
	case n.has("with"):
		return PlateTouchedVertical
	}
	return PlateTouched
}

// check looks at a direction's length and at the count of touched points.
func (d *plateDraft) check(ps *Problems, n node, p *Plate) {
	if p.Kind == PlateDirection {
		v, _ := n.get("direction")
		p.Direction = r3.Vec{X: d.direction[0], Y: d.direction[1], Z: d.direction[2]}
		const short = 1e-6 // of what people write, far below any direction meant
		if p.Direction.Norm() < short {
			ps.add(v.at, "a direction without length", "three numbers that are not all 0", "write the direction in which the plate's face looks, such as [0, 0, 1]")
		}
	}
	with, hasWith := n.get("with")
	touched, hasTouched := n.get("touched")
	switch {
	case hasWith && !hasTouched:
		ps.add(with.at, with.found()+" without touched points", "with: vertical beside two touched points", "delete with")
	case hasWith && len(d.touched) != 2:
		ps.add(touched.at, "3 touched points of a vertical plate", "2 touched points with vertical, or 3 alone", "delete one point, or with: vertical")
	case hasTouched && !hasWith && len(d.touched) != 3:
		ps.add(touched.at, "2 touched points", "3 touched points, or 2 of a plate that is plumb", "add a point, or with: vertical")
	}
}

// names looks up every name that the seam uses itself; those of the defaults
// are looked up there.
func (d *seamDraft) names(ps *Problems, labels, ids known) {
	for _, list := range [][]ref{d.line, d.arc, d.circle, d.base.touched, d.other.touched} {
		for _, r := range list {
			labels.check(ps, r)
		}
	}
	for _, r := range []ref{d.approach, d.retreat} {
		if d.own(r) {
			labels.check(ps, r)
		}
	}
	if d.own(d.settings) {
		ids.check(ps, d.settings)
	}
}

// own says whether a name was written in this section itself.
func (d *seamDraft) own(r ref) bool {
	return strings.HasPrefix(r.at.Field, d.seam.At.Field+".")
}

// finish completes the seam from what the document says elsewhere.
func (d *seamDraft) finish(air Air, baseFromMeasured se3.Pose) {
	s := &d.seam
	s.Settings = d.settings.text
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
		p.plate.Points = nil
		for _, r := range p.read.touched {
			p.plate.Points = append(p.plate.Points, r.text)
		}
		if p.plate.Kind == PlateDirection {
			p.plate.Direction = baseFromMeasured.Dir(p.plate.Direction).Unit()
		}
	}
}
