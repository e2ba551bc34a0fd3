package job

import (
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// TypedPlate is a rectangular plate typed from the drawing's sizes, in the arm's
// base frame. Its front looks along Along x Across; the thickness lies behind
// it.
type TypedPlate struct {
	Name string
	// Corner is the corner of the front from which both edges run, m; Along and
	// Across are directions.
	Corner, Along, Across r3.Vec
	// Length runs along Along, Width along Across, m; Thickness, m.
	Length, Width, Thickness float64
	// Shapeless: it is no body to keep clear of; one of the shapes stands for it.
	Shapeless bool
	At        Place
}

// TypedTube is a round tube typed from the drawing's sizes, in the arm's base
// frame. Point lies on its axis, m; Axis points along the tube, away from what
// it stands on. Diameter is the outside one and Wall the thickness, m.
type TypedTube struct {
	Name           string
	Point, Axis    r3.Vec
	Diameter, Wall float64
	// Length is how far the tube reaches from Point along Axis, m, 0: not said.
	Length float64
	// Shapeless is that of a TypedPlate.
	Shapeless bool
	At        Place
}

// Inner is the inside radius of the tube, m.
func (t TypedTube) Inner() float64 { return t.Diameter/2 - t.Wall }

// membersDraft is the section "members" while it is read.
type membersDraft struct {
	frame  FrameName
	plates []plateSizes
	tubes  []tubeSizes
	read   node
}

type plateSizes struct {
	plate         TypedPlate
	name          ref
	at            []float64
	along, across []float64
}

type tubeSizes struct {
	tube TypedTube
	name ref
	at   []float64
	axis []float64
}

// maxMembers bounds the plates, and the tubes, of a document.
const maxMembers = 1000

// form is the table of the section "members".
func (d *membersDraft) form() record {
	return record{example: "{measured_in: part, plates: [...]}", allowed: "measured_in, plates and tubes", fields: []field{
		need("measured_in", oneOf(&d.frame, FrameBase, FrameWorld, FramePart)),
		may("plates", manyOf(&d.plates, 1, maxMembers, "plates", (*plateSizes).form)),
		may("tubes", manyOf(&d.tubes, 1, maxMembers, "tubes", (*tubeSizes).form)),
	}, check: func(_ *Problems, n node, _ bool) { d.read = n }}
}

func (p *plateSizes) form() form {
	return record{at: &p.plate.At,
		example: "{name: sole, corner: [0 mm, 0 mm, 0 mm], along: [1, 0, 0], across: [0, 1, 0], length: 400 mm, width: 200 mm, thickness: 12 mm}",
		fields: []field{
			need("name", named(&p.name, "sole")),
			need("corner", lengths(&p.at, 3, anyLength)),
			need("along", directionForm(&p.along)),
			need("across", directionForm(&p.across)),
			need("length", quantity(unit.Length, &p.plate.Length, memberSize, "400 mm")),
			need("width", quantity(unit.Length, &p.plate.Width, memberSize, "200 mm")),
			need("thickness", quantity(unit.Length, &p.plate.Thickness, thickness, "12 mm")),
			may("shape", noShape(&p.plate.Shapeless)),
		}, check: func(ps *Problems, n node, clean bool) {
			p.plate.Name = p.name.text
			if !clean {
				return
			}
			along, _ := n.get("along")
			across, _ := n.get("across")
			p.plate.Corner = vec(p.at)
			p.plate.Along = direction(ps, along, p.along, "write the direction in which the length runs, such as [1, 0, 0]")
			p.plate.Across = direction(ps, across, p.across, "write the direction in which the width runs, such as [0, 1, 0]")
		}}
}

func (t *tubeSizes) form() form {
	return record{at: &t.tube.At,
		example: "{name: post, at: [0 mm, 0 mm, 0 mm], axis: [0, 0, 1], diameter: 60.3 mm, wall: 4 mm}",
		fields: []field{
			need("name", named(&t.name, "post")),
			need("at", lengths(&t.at, 3, anyLength)),
			need("axis", directionForm(&t.axis)),
			need("diameter", quantity(unit.Length, &t.tube.Diameter, memberSize, "60.3 mm")),
			need("wall", quantity(unit.Length, &t.tube.Wall, thickness, "4 mm")),
			may("length", quantity(unit.Length, &t.tube.Length, memberSize, "400 mm")),
			may("shape", noShape(&t.tube.Shapeless)),
		}, check: func(ps *Problems, n node, clean bool) {
			t.tube.Name = t.name.text
			if !clean {
				return
			}
			axis, _ := n.get("axis")
			t.tube.Point = vec(t.at)
			t.tube.Axis = direction(ps, axis, t.axis, "write the direction of the tube, such as [0, 0, 1]")
			if wall, _ := n.get("wall"); t.tube.Inner() <= 0 {
				ps.add(wall.at, wall.found()+", which leaves no bore", "a wall under half the diameter", "check wall and outside diameter")
			}
		}}
}

// noShape is the form of the word that keeps a member from being a body.
func noShape(dst *bool) single {
	return parsed(dst, []string{"none"}, func(s string) (bool, bool) { return true, s == "none" })
}

// vec returns three numbers as a vector.
func vec(v []float64) r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

// names returns the plates' and the tubes' names and reports those that stand
// twice.
func (d *membersDraft) names(ps *Problems) (plates, tubes known) {
	var p, t []string
	seen := map[string]bool{}
	once := func(r ref) string {
		if seen[r.text] && r.text != "" {
			ps.add(r.at, quote(r.text)+" again", "a name of its own for each plate and tube", "rename one of the two")
		}
		seen[r.text] = true
		return r.text
	}
	for _, x := range d.plates {
		p = append(p, once(x.name))
	}
	for _, x := range d.tubes {
		t = append(t, once(x.name))
	}
	return known{"plate of members", p, set(p), false}, known{"tube of members", t, set(t), false}
}

func set(names []string) map[string]bool {
	has := map[string]bool{}
	for _, name := range names {
		has[name] = true
	}
	return has
}

// resolve carries the members into the base.
func (d *membersDraft) resolve(baseFromMembers se3.Pose, j *Job) {
	for _, p := range d.plates {
		t := p.plate
		t.Corner, t.Along, t.Across = baseFromMembers.Apply(t.Corner), baseFromMembers.Dir(t.Along), baseFromMembers.Dir(t.Across)
		j.Plates = append(j.Plates, t)
	}
	for _, x := range d.tubes {
		t := x.tube
		t.Point, t.Axis = baseFromMembers.Apply(t.Point), baseFromMembers.Dir(t.Axis)
		j.Tubes = append(j.Tubes, t)
	}
}

// baseFrom returns the frame of the members in the base. On a turning table the
// drawing's sizes are those of the part that it carries.
func (d *membersDraft) baseFrom(ps *Problems, c chain, cell Cell) se3.Pose {
	if c.turns {
		if at, given := d.read.get("measured_in"); given && d.frame != FramePart {
			ps.add(at.at, at.found()+" where a turning table carries the part", "part: sizes of the drawing turn with the table", "say measured_in: part, and count the places from arm.part_link")
		}
		return se3.Identity()
	}
	return footFrom(ps, d.frame, d.read, c, cell)
}
