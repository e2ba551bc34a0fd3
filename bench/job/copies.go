package job

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// DefaultTieIn is how far a second start laps over the first's end, m: 12 mm,
// the distance ahead of the crater at which a weld is struck again (weld.md
// section 13 of the project's notes: 10 to 15 mm, READ, secondary).
const DefaultTieIn = 12 * unit.MM

// Mirror makes the seam of the other hand: the mirror image in the plane through
// At, m, or through the point of that label, square to Normal; arm base frame.
// Name is the image's, "" where the seam has none.
type Mirror struct {
	Name       string
	At, Normal r3.Vec
	Point      string
}

// Repeat makes Count seams of one, itself counted: each Step (m, arm base frame)
// further, or, where About, turned by Every (rad) further about the Axis through
// At (m, arm base frame). A Count of 0 repeats nothing.
type Repeat struct {
	Count    int
	Step     r3.Vec
	About    bool
	At, Axis r3.Vec
	Every    float64
}

// Split says where a seam is begun anew: At are arc lengths, m, rising; each new
// start lies TieIn, m, before the end of the part before it.
type Split struct {
	At    []float64
	TieIn float64
}

// copiesDraft is what makes several seams of one, while it is read.
type copiesDraft struct {
	name, point           ref
	mirrorAt, normal      []float64
	step, aboutAt, aboutN []float64
	count                 float64
	split                 Place
}

// fields lists what makes several seams of one.
func (d *copiesDraft) fields(s *Seam) []field {
	return []field{
		may("mirror", record{example: "{name: W1 left, point: middle, normal: [0, 1, 0]}", one: [][]string{{"at", "point"}}, fields: []field{
			need("name", named(&d.name, "W1 left")),
			may("at", lengths(&d.mirrorAt, 3, anyLength)),
			may("point", named(&d.point, "middle")),
			need("normal", directionForm(&d.normal)),
		}, check: func(ps *Problems, n node, clean bool) {
			if !clean {
				return
			}
			normal, _ := n.get("normal")
			s.Mirror.Normal = direction(ps, normal, d.normal, "write the direction square to the plane of the mirror, such as [0, 1, 0]")
			if len(d.mirrorAt) == 3 {
				s.Mirror.At = vec(d.mirrorAt)
			}
		}}),
		may("repeat", record{example: "{count: 4, step: [0 mm, 120 mm, 0 mm]}", one: [][]string{{"step", "every"}}, fields: []field{
			need("count", number(&d.count, span{2, 1000}, "4")),
			may("step", lengths(&d.step, 3, anyLength).like("[0 mm, 120 mm, 0 mm]")),
			may("every", quantity(unit.Angle, &s.Repeat.Every, wholeTurn, "60 deg")),
			may("about", record{example: "{at: [0 mm, 0 mm, 0 mm], axis: [0, 0, 1]}", fields: []field{
				need("at", lengths(&d.aboutAt, 3, anyLength)),
				need("axis", directionForm(&d.aboutN)),
			}}),
		}, check: func(ps *Problems, n node, clean bool) { d.repeat(ps, n, clean, &s.Repeat) }}),
		may("split", record{at: &d.split, example: "{at: 345 mm}", fields: []field{
			need("at", oneOrMany[float64]{manyOf(&s.Split.At, 1, 100, "places", func(x *float64) form {
				return quantity(unit.Length, x, splitAt, "345 mm")
			})}),
			may("tie_in", quantity(unit.Length, &s.Split.TieIn, overlap, "12 mm")),
		}, check: func(ps *Problems, n node, clean bool) {
			if clean {
				s.Split.check(ps, n)
			}
		}}),
	}
}

// check refuses places that leave no seam between one start and the next.
func (s Split) check(ps *Problems, n node) {
	mm := func(length float64) string { return unit.Exact(length, unit.Millimetres) }
	before := 0.0
	for i, place := range s.At {
		if place-before > s.TieIn {
			before = place
			continue
		}
		found := fmt.Sprintf("%s behind %s", mm(place), mm(before))
		if i == 0 {
			found = mm(place) + " behind the seam's start"
		}
		at, _ := n.get("at")
		ps.add(at.at, found, "places in the order of travel, each further than tie_in, "+mm(s.TieIn)+", behind the one before", "order them, take one away or shorten tie_in")
		return
	}
}

func (d *copiesDraft) repeat(ps *Problems, n node, clean bool, r *Repeat) {
	if !clean {
		return
	}
	about, hasAbout := n.get("about")
	every, hasEvery := n.get("every")
	switch count, _ := n.get("count"); {
	case d.count != math.Trunc(d.count):
		ps.add(count.at, count.found(), "a whole number", "write how many seams there are, the first counted")
	case hasEvery && !hasAbout:
		ps.add(every.at, every.found()+" without an axis", "about beside every", "add about: {at: [0 mm, 0 mm, 0 mm], axis: [0, 0, 1]}")
	case !hasEvery && hasAbout:
		ps.add(about.at, about.found()+" beside a step", "about beside every", "delete about, or give every instead of step")
	case hasEvery && r.Every == 0:
		ps.add(every.at, every.found(), "an angle that is not 0", "write by how much each is turned further")
	case !hasEvery && vec(d.step) == (r3.Vec{}):
		step, _ := n.get("step")
		ps.add(step.at, "a step of no length", "three lengths that are not all 0", "write how far the next one is, such as [0 mm, 120 mm, 0 mm]")
	default:
		r.Count = int(d.count)
		if r.About = hasEvery; !r.About {
			r.Step = vec(d.step)
			return
		}
		axis, _ := about.get("axis")
		r.At, r.Axis = vec(d.aboutAt), direction(ps, axis, d.aboutN, "write the direction of the axis, such as [0, 0, 1]")
	}
}

// finish carries what was read into the base.
func (d *copiesDraft) finish(s *Seam, baseFromMeasured se3.Pose) {
	m, r := &s.Mirror, &s.Repeat
	m.Name, m.Point = d.name.text, d.point.text
	if m.Name != "" {
		m.At, m.Normal = baseFromMeasured.Apply(m.At), baseFromMeasured.Dir(m.Normal)
	}
	if r.Count > 0 {
		r.Step, r.At, r.Axis = baseFromMeasured.Dir(r.Step), baseFromMeasured.Apply(r.At), baseFromMeasured.Dir(r.Axis)
	}
	if d.split == (Place{}) {
		s.Split = Split{}
	}
}

// once reports the names of the seam's parts and copies that another seam has.
func (d *seamDraft) once(ps *Problems, seen map[string]Place) {
	s := &d.seam
	if s.Mirror.Name == s.Name && s.Name != "" {
		ps.add(d.copies.name.at, quote(s.Name)+", the name of the seam that it mirrors", "a name of its own for each seam", "rename one of the two")
	}
	at := func(name string) Place {
		switch {
		case name == s.Name:
			return d.name.at
		case name == s.Mirror.Name:
			return d.copies.name.at
		}
		return s.At
	}
	for _, name := range append([]string{s.Name}, s.Names()...) {
		before, twice := seen[name]
		if twice && before != at(name) && name != "" {
			ps.add(at(name), fmt.Sprintf("%s again, first on line %d", quote(name), before.Line), "a name of its own for each seam", "rename one of the two")
		}
		seen[name] = at(name)
	}
}

// Names lists what the seams are called that are made of this one, in the order
// of welding: part by part of the seam itself, its copies, the mirror image and
// its copies. Stitches are not counted here: how many there are follows from the
// length of the seam.
func (s *Seam) Names() []string {
	var names []string
	for _, name := range s.copyNames() {
		for p := range len(s.Split.At) + 1 {
			names = append(names, s.PartName(name, p))
		}
	}
	return names
}

// Hands are the names of the seam and of its mirror image, where it has one.
func (s *Seam) Hands() []string {
	if s.Mirror.Name == "" {
		return []string{s.Name}
	}
	return []string{s.Name, s.Mirror.Name}
}

// CopyName is what a copy, from 0, of a seam or its image is called.
func (s *Seam) CopyName(hand string, copied int) string {
	if copied == 0 {
		return hand
	}
	return fmt.Sprintf("%s %d", hand, copied+1)
}

// PartName is what a part, from 0, of a seam or copy is called.
func (s *Seam) PartName(name string, part int) string {
	if len(s.Split.At) == 0 {
		return name
	}
	return fmt.Sprintf("%s part %d", name, part+1)
}
