package scene

import (
	"seamwright/bench/job"
	"seamwright/geom/convex"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// armShape is a shape on a link of the arm's file.
type armShape struct {
	linkFromShape se3.Pose
	geometry      urdf.Geometry
}

// arm puts in the links of the arm and of its table.
func (b *builder) arm() error {
	a := &b.job.Arm
	chain := b.cell.Chain
	moved := moves(chain)
	table := b.cell.TableJoints()
	for i, l := range chain.Links(&kinematics.Q{}, nil) {
		switch l.Link {
		case a.BaseLink:
			b.foot = i
		case a.FlangeLink:
			b.last = i
		}
		r := armLink
		if moved[i] < table {
			r = tableLink
		}
		for _, s := range armShapes(a.Robot.Link(l.Link), a.Shapes) {
			if err := b.armShape(l.Link, r, i, s); err != nil {
				return err
			}
		}
	}
	return nil
}

// armShapes returns the shapes of a link that count.
func armShapes(l *urdf.Link, which job.ArmShapes) (out []armShape) {
	switch which {
	case job.ShapesCollision:
		for _, c := range l.Collisions {
			out = append(out, armShape{c.Origin, c.Geometry})
		}
	case job.ShapesVisual:
		for _, v := range l.Visuals {
			out = append(out, armShape{v.Origin, v.Geometry})
		}
	}
	return out
}

func (b *builder) armShape(link string, r role, index int, s armShape) error {
	at := b.job.Arm.At
	solid := func(made func() (convex.Solid, error)) error {
		return b.solid(link, r, index, s.linkFromShape, at, made, job.WordArm)
	}
	g := &s.geometry
	switch g.Kind {
	case urdf.Box:
		return solid(func() (convex.Solid, error) { return convex.NewBox(g.Size) })
	case urdf.Cylinder:
		return solid(func() (convex.Solid, error) { return convex.NewCylinder(g.Radius, g.Length) })
	case urdf.Sphere:
		return solid(func() (convex.Solid, error) { return convex.NewSphere(g.Radius) })
	}
	shape, err := b.meshShape(link, b.job.Arm.Meshes[g.Mesh.File], g.Mesh.Scale, at)
	if err != nil {
		return err
	}
	b.add(link, r, collision.Body{Link: index, LinkFromBody: s.linkFromShape, Shape: shape}, job.WordArm)
	return nil
}
