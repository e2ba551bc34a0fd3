package job

import (
	"fmt"

	"seamwright/unit"
)

// maxTouched bounds the points touched on one plate.
const maxTouched = 12

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
		may("direction", directionForm(&d.direction)),
		may("touched", manyOf(&d.touched, 2, maxTouched, "touched points", func(r *ref) form { return named(r, "P1") }).like("[P1, P2, P3]")),
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
		p.Direction = direction(ps, v, d.direction, "write the direction in which the plate's face looks, such as [0, 0, 1]")
	}
	with, hasWith := n.get("with")
	touched, hasTouched := n.get("touched")
	const free, plumb = 3, 2 // points that fix a plate; a vertical one
	switch count := len(d.touched); {
	case hasWith && !hasTouched:
		ps.add(with.at, with.found()+" without touched points", "with: vertical beside two touched points or more", "delete with")
	case hasTouched && !hasWith && count < free:
		ps.add(touched.at, counted(count, "touched point"), fmt.Sprintf("%d to %d touched points, or %d to %d with: vertical", free, maxTouched, plumb, maxTouched),
			"touch one more point, not in line with these; where the plate is vertical, write with: vertical beside them")
	}
}
