package scene

import (
	"seamwright/bench/job"
	"seamwright/geom/convex"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
)

// members puts in the typed plates and tubes. They stand in the base.
func (b *builder) members() error {
	for _, p := range b.job.Plates {
		if p.Shapeless {
			continue
		}
		x := p.Along.Unit()
		y := p.Across.Reject(x).Unit()
		z := x.Cross(y)
		if y == (r3.Vec{}) {
			return problem(p.At, quoted(p.Name)+", whose edges run the same way", "two edges square to each other", "check along and across")
		}
		middle := p.Corner.AddScaled(p.Length/2, x).AddScaled(p.Width/2, y).AddScaled(-p.Thickness/2, z)
		size := r3.Vec{X: p.Length, Y: p.Width, Z: p.Thickness}
		err := b.solid(p.Name, part, 0, se3.Pose{R: se3.RotColumns(x, y, z), P: middle}, p.At, func() (convex.Solid, error) { return convex.NewBox(size) })
		if err != nil {
			return err
		}
	}
	for i := range b.job.Tubes {
		if err := b.tube(&b.job.Tubes[i]); err != nil {
			return err
		}
	}
	return nil
}

// tube puts in a typed tube: filled, or with its bore where a seam lies inside.
func (b *builder) tube(t *job.TypedTube) error {
	if t.Shapeless {
		return nil
	}
	if t.Length == 0 {
		b.unlong = append(b.unlong, t.Name)
		return nil
	}
	z := t.Axis.Unit()
	x := z.Orthogonal()
	pose := se3.Pose{R: se3.RotColumns(x, z.Cross(x), z), P: t.Point.AddScaled(t.Length/2, z)}
	if !b.weldedInside(t.Name) {
		return b.solid(t.Name, part, 0, pose, t.At, func() (convex.Solid, error) { return convex.NewCylinder(t.Diameter/2, t.Length) })
	}
	const chord = 0.05e-3 // m: flats cut the outside by so much, and reach into the bore
	m, err := mesh.NewTube(t.Diameter/2+chord, t.Wall+chord, t.Length, chord)
	if err != nil {
		return problem(t.At, quoted(t.Name)+", sizes that make no tube", "a diameter, a wall and a length", err.Error())
	}
	shape, err := treeOf(m, t.At, t.Name)
	if err != nil {
		return err
	}
	b.add(t.Name, part, collision.Body{LinkFromBody: pose, Shape: shape})
	return nil
}

// weldedInside reports whether a seam goes round the inside of a typed tube.
func (b *builder) weldedInside(tube string) bool {
	for i := range b.job.Seams {
		s := &b.job.Seams[i]
		if s.Path == job.PathTubeOnPlate && s.TubeOnPlate.Tube == tube && s.TubeOnPlate.Wall == job.PlateTubeInside {
			return true
		}
	}
	return false
}

// shapes puts in the shapes that the document types or names.
func (b *builder) shapes() error {
	for i := range b.job.Shapes {
		if err := b.shape(&b.job.Shapes[i]); err != nil {
			return err
		}
	}
	return nil
}

// block is a box of a typed shape: its lower corner (m) in the shape's frame, and
// its size along x, y and z, m.
type block struct{ corner, size r3.Vec }

func (b *builder) shape(s *job.Shape) error {
	r, link := fixture, b.foot
	if s.Part {
		r = part
	}
	if s.OnPart {
		link = 0
	}
	put := func(at r3.Vec, made func() (convex.Solid, error)) error {
		return b.solid(s.Name, r, link, s.LinkFromShape.Mul(se3.Translation(at)), s.At, made)
	}
	upright := func(at r3.Vec, diameter, length float64) error {
		return put(at.Add(r3.Vec{Z: length / 2}), func() (convex.Solid, error) { return convex.NewCylinder(diameter/2, length) })
	}
	switch s.Kind {
	case job.ShapeMesh:
		shape, err := b.meshShape(s.Name, s.Mesh, r3.Vec{X: 1, Y: 1, Z: 1}, s.At)
		if err != nil {
			return err
		}
		b.add(s.Name, r, collision.Body{Link: link, LinkFromBody: s.LinkFromShape, Shape: shape})
		return nil
	case job.ShapeCylinder:
		return upright(r3.Vec{}, s.Diameter, s.Length)
	case job.ShapePost:
		if s.Diameter > 0 {
			return upright(r3.Vec{}, s.Diameter, s.Length)
		}
	case job.ShapeClamp:
		end := r3.Vec{X: s.Clamp.Reach, Z: s.Size.Z - s.Clamp.TipLength}
		if err := upright(end, s.Clamp.TipDiameter, s.Clamp.TipLength); err != nil {
			return err
		}
	}
	for _, x := range blocks(s) {
		err := put(x.corner.AddScaled(0.5, x.size), func() (convex.Solid, error) { return convex.NewBox(x.size) })
		if err != nil {
			return err
		}
	}
	return nil
}

// floor sizes, m: beyond the reach of any arm, and thicker than any step.
const (
	floorSide  = 40.0
	floorDepth = 1.0
)

// blocks returns the boxes of a typed shape.
func blocks(s *job.Shape) []block {
	size := s.Size
	foot := r3.Vec{X: -size.X / 2, Y: -size.Y / 2} // stands on the origin with its middle
	switch s.Kind {
	case job.ShapeBox:
		return []block{{r3.Vec{}, size}}
	case job.ShapePlate:
		return []block{{r3.Vec{Z: -size.Z}, size}}
	case job.ShapePost:
		return []block{{foot, size}}
	case job.ShapeFloor:
		return []block{{r3.Vec{X: -floorSide / 2, Y: -floorSide / 2, Z: -floorDepth}, r3.Vec{X: floorSide, Y: floorSide, Z: floorDepth}}}
	case job.ShapeClamp:
		c := s.Clamp
		bar := block{r3.Vec{X: foot.X, Y: -c.Bar / 2, Z: size.Z}, r3.Vec{X: c.Reach + c.TipDiameter/2 - foot.X, Y: c.Bar, Z: c.Bar}}
		return []block{{foot, size}, bar}
	case job.ShapeTable:
		out := []block{{foot.Add(r3.Vec{Z: -size.Z}), size}}
		if s.LegHeight > 0 {
			leg := r3.Vec{X: s.LegSide, Y: s.LegSide, Z: s.LegHeight}
			for _, sx := range [2]float64{-1, 1} {
				for _, sy := range [2]float64{-1, 1} {
					middle := r3.Vec{X: sx * (size.X - s.LegSide) / 2, Y: sy * (size.Y - s.LegSide) / 2, Z: -size.Z - s.LegHeight/2}
					out = append(out, block{middle.AddScaled(-0.5, leg), leg})
				}
			}
		}
		return out
	}
	return nil
}
