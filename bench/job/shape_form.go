package job

import (
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// maxShapes bounds the shapes of a document.
const maxShapes = 500

// shapesDraft is the list "shapes" while it is read.
type shapesDraft struct{ list []shapeDraft }

// shapeDraft is one shape while it is read.
type shapeDraft struct {
	shape  Shape
	name   ref
	is     string
	frame  FrameName
	pose   se3.Pose
	at     []float64
	mesh   meshDraft
	size   []float64
	height float64 // of the floor in the world, m
	read   node
}

func (d *shapesDraft) form() form {
	return manyOf(&d.list, 1, maxShapes, "shapes", (*shapeDraft).form)
}

// shapeKinds are the kinds, of which each shape has one.
var shapeKinds = []ShapeKind{ShapeMesh, ShapeBox, ShapePlate, ShapeCylinder, ShapePost, ShapeClamp, ShapeTable, ShapeFloor}

// form is the table of one shape.
func (d *shapeDraft) form() form {
	d.pose = se3.Identity()
	s := &d.shape
	return record{at: &s.At,
		example: "{name: stop block, box: {size: [60 mm, 40 mm, 80 mm]}, measured_in: base, at: [500 mm, 200 mm, 0 mm]}",
		fields: []field{
			need("name", named(&d.name, "stop block")),
			may("is", oneOf(&d.is, "fixture", "part")),
			may("measured_in", oneOf(&d.frame, FrameBase, FrameWorld, FramePart)),
			may("at", lengths(&d.at, 3, anyLength)),
			may("pose", poseForm(&d.pose)),
			may(string(ShapeMesh), record{example: "{file: cradle.stl, unit: mm}", fields: d.mesh.fields(),
				check: func(ps *Problems, n node, _ bool) { d.mesh.check(ps, n) }}),
			may(string(ShapeBox), d.boxForm()),
			may(string(ShapePlate), d.plateForm()),
			may(string(ShapeCylinder), d.roundForm("length")),
			may(string(ShapePost), d.postForm()),
			may(string(ShapeClamp), d.clampForm()),
			may(string(ShapeTable), d.tableForm()),
			may(string(ShapeFloor), record{fields: []field{need("height", quantity(unit.Length, &d.height, anyLength, "0 mm"))}}),
		},
		one:   [][]string{texts(shapeKinds)},
		check: d.check,
	}
}

// side is the form of a side of a shape, m.
func side(name string, dst *float64, example string) field {
	return need(name, quantity(unit.Length, dst, shapeSize, example))
}

// sizes is the form of three sides, m.
func sizes(dst *[]float64) form {
	return manyOf(dst, 3, 3, "lengths", func(x *float64) form { return quantity(unit.Length, x, shapeSize, "60 mm") })
}

func (d *shapeDraft) boxForm() record {
	return record{fields: []field{need("size", sizes(&d.size))}, check: d.sized}
}

// sized takes three sides that were read together.
func (d *shapeDraft) sized(_ *Problems, _ node, clean bool) {
	if clean {
		d.shape.Size = vec(d.size)
	}
}

func (d *shapeDraft) plateForm() record {
	s := &d.shape.Size
	return record{fields: []field{side("length", &s.X, "400 mm"), side("width", &s.Y, "200 mm"),
		need("thickness", quantity(unit.Length, &s.Z, thickness, "12 mm"))}}
}

func (d *shapeDraft) roundForm(length string) record {
	return record{fields: []field{side("diameter", &d.shape.Diameter, "80 mm"), side(length, &d.shape.Length, "300 mm")}}
}

// postForm is the form of a round or a square post.
func (d *shapeDraft) postForm() record {
	s := &d.shape
	var across float64
	return record{fields: []field{
		may("diameter", quantity(unit.Length, &s.Diameter, shapeSize, "80 mm")),
		may("side", quantity(unit.Length, &across, shapeSize, "80 mm")),
		side("height", &s.Length, "900 mm"),
	}, one: [][]string{{"diameter", "side"}}, check: func(_ *Problems, n node, _ bool) {
		if n.has("side") {
			s.Size, s.Length = r3.Vec{X: across, Y: across, Z: s.Length}, 0
		}
	}}
}

func (d *shapeDraft) clampForm() record {
	c := &d.shape.Clamp
	return record{
		example: "{foot: [60 mm, 40 mm, 90 mm], bar: 25 mm, reach: 120 mm, tip: {diameter: 20 mm, length: 30 mm}}",
		fields: []field{
			need("foot", sizes(&d.size)),
			side("bar", &c.Bar, "25 mm"),
			side("reach", &c.Reach, "120 mm"),
			need("tip", record{fields: []field{side("diameter", &c.TipDiameter, "20 mm"), side("length", &c.TipLength, "30 mm")}}),
		}, check: d.sized}
}

func (d *shapeDraft) tableForm() record {
	s := &d.shape
	return record{
		example: "{length: 1200 mm, width: 800 mm, thickness: 30 mm}",
		fields: []field{
			side("length", &s.Size.X, "1200 mm"),
			side("width", &s.Size.Y, "800 mm"),
			need("thickness", quantity(unit.Length, &s.Size.Z, thickness, "30 mm")),
			may("legs", record{fields: []field{side("side", &s.LegSide, "80 mm"), side("height", &s.LegHeight, "700 mm")}}),
		}}
}

// check settles the kind and looks at what must stand beside it.
func (d *shapeDraft) check(ps *Problems, n node, _ bool) {
	s := &d.shape
	s.Name, d.read, s.Part = d.name.text, n, d.is == "part"
	for _, k := range shapeKinds {
		if n.has(string(k)) {
			s.Kind = k
		}
	}
	placed, posed := n.has("at"), n.has("pose")
	if s.Kind == ShapeFloor {
		for _, name := range []string{"measured_in", "at", "pose", "is"} {
			if v, given := n.get(name); given {
				ps.add(v.at, v.found()+" beside a floor", "the floor's height alone: it is level in the world", "delete "+name)
			}
		}
		return
	}
	if !n.means("measured_in") {
		ps.add(n.at.sub("measured_in"), "nothing", "base, world or part", "add measured_in: the frame in which the shape's place was measured")
	}
	if placed && posed {
		ps.add(n.at, "at and pose", "one of them: at for a shape that is not turned, pose for one that is", "keep the one that is meant")
	}
	if len(d.at) == 3 && !posed {
		d.pose = se3.Translation(vec(d.at))
	}
}

// resolve carries the shapes to the links that carry them.
func (d *shapesDraft) resolve(ps *Problems, c chain, j *Job) {
	taken := d.taken(j)
	for i := range d.list {
		x := &d.list[i]
		if x.name.text != "" {
			if what, twice := taken[x.name.text]; twice {
				ps.add(x.name.at, quote(x.name.text)+", which is the name of "+what, "a name of its own for each shape", "rename the shape")
			}
			taken[x.name.text] = "another shape"
		}
		j.Shapes = append(j.Shapes, x.placed(ps, c, j.Cell))
	}
}

// taken are the names that a shape may not have, and what has them.
func (d *shapesDraft) taken(j *Job) map[string]string {
	taken := map[string]string{}
	for _, w := range BodyWords() {
		taken[w] = "a part of arm or torch"
	}
	if j.Arm.Robot != nil {
		for _, name := range linkNames(j.Arm.Robot) {
			taken[name] = "a link of the arm"
		}
	}
	for _, p := range j.Plates {
		taken[p.Name] = "a plate of members"
	}
	for _, t := range j.Tubes {
		taken[t.Name] = "a tube of members"
	}
	return taken
}

// placed returns the shape with its pose in the link that carries it.
func (d *shapeDraft) placed(ps *Problems, c chain, cell Cell) Shape {
	s := d.shape
	if s.Kind == ShapeFloor {
		s.LinkFromShape = floorUnder(cell.WorldFromBase, d.height)
		return s
	}
	s.OnPart = d.frame == FramePart
	s.LinkFromShape = d.pose
	if s.OnPart && c.turns {
		return s
	}
	if at, given := d.read.get("is"); given && c.turns && s.Part {
		ps.add(at.at, "a shape of the part that is measured in "+string(d.frame)+", where a turning table carries the part",
			"part: the part's shapes turn with the table", "say measured_in: part, and count the place from arm.part_link")
		return s
	}
	s.LinkFromShape = footFrom(ps, d.frame, d.read, c, cell).Mul(d.pose)
	return s
}

// floorUnder returns the frame of a floor in the foot: under the foot's origin,
// at height in the world (m), level there.
func floorUnder(worldFromFoot se3.Pose, height float64) se3.Pose {
	worldFromFloor := se3.Translation(r3.Vec{X: worldFromFoot.P.X, Y: worldFromFoot.P.Y, Z: height})
	return worldFromFoot.Inv().Mul(worldFromFloor)
}
