package scene

import (
	"math"

	"seamwright/bench/job"
	"seamwright/geom/convex"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
)

// torch puts in nozzle, neck and body.
func (b *builder) torch() error {
	t := &b.job.Torch
	if t.Shape != nil {
		return b.drawnTorch(t)
	}
	if err := b.nozzle(t); err != nil {
		return err
	}
	tip := b.cell.FlangeFromTip
	back := t.StickOut + t.NozzleLength // from the tip to the nozzle's back end, m
	bend, found := b.bend()
	wire := tip.R.Z()
	along := tip.P.Sub(bend).Dot(wire) // from the bend to the tip, m
	neck := func(from, to r3.Vec) error {
		return b.rod(job.WordNeck, t.NeckDiameter/2, from, to, job.WordNeck, job.WordTorch)
	}
	if !found { // straight from the flange to the nozzle
		return neck(r3.Vec{}, tip.P.AddScaled(-back, wire))
	}
	if along > back {
		if err := neck(bend, tip.P.AddScaled(-back, wire)); err != nil {
			return err
		}
		if wire.Dist(r3.Vec{Z: 1}) > straight { // what the two cylinders leave open outside the bend
			err := b.solid(job.WordNeck, torchBody, b.last, se3.Translation(bend), t.At,
				func() (convex.Solid, error) { return convex.NewSphere(t.NeckDiameter / 2) }, job.WordTorch)
			if err != nil {
				return err
			}
		}
	}
	return b.rod(job.WordBody, t.BodyDiameter/2, r3.Vec{X: bend.X, Y: bend.Y}, bend, job.WordBody, job.WordTorch)
}

// straight is the bend under which a torch has none, rad.
const straight = 1e-6

// nozzle puts in the nozzle: a cylinder, and a cone where it narrows.
func (b *builder) nozzle(t *job.Torch) error {
	put := func(from, to float64, made func(length float64) (convex.Solid, error)) error {
		if to <= from {
			return nil
		}
		tipFromSolid := se3.Translation(r3.Vec{Z: -t.StickOut - (from+to)/2})
		return b.solid(job.WordNozzle, nozzle, b.last, b.cell.FlangeFromTip.Mul(tipFromSolid), t.At,
			func() (convex.Solid, error) { return made(to - from) }, job.WordTorch)
	}
	radius := t.NozzleDiameter / 2
	err := put(0, t.TaperOver, func(length float64) (convex.Solid, error) { return convex.NewCone(radius, t.TaperEnd/2, length) })
	if err != nil {
		return err
	}
	return put(t.TaperOver, t.NozzleLength, func(length float64) (convex.Solid, error) { return convex.NewCylinder(radius, length) })
}

// bend returns where neck and body of the torch meet, in the flange's frame, m;
// found is false where no such place lies between flange and nozzle.
func (b *builder) bend() (bend r3.Vec, found bool) {
	t, tip := &b.job.Torch, b.cell.FlangeFromTip
	wire := tip.R.Z()
	if t.Measured {
		return r3.Vec{X: t.Sideways[0], Y: t.Sideways[1], Z: t.Body}, t.Body > 0
	}
	nozzleBack := tip.P.AddScaled(-t.StickOut-t.NozzleLength, wire)
	across := math.Hypot(wire.X, wire.Y)
	if across < straight { // the body lies behind the nozzle
		return nozzleBack, nozzleBack.Z > 0
	}
	// The wire's line passes nearest to the flange's axis where the two are nearest
	// seen along the axis.
	s := (tip.P.X*wire.X + tip.P.Y*wire.Y) / (across * across)
	bend = tip.P.AddScaled(-s, wire)
	return bend, bend.Z > 0 && s > t.StickOut
}

// rod puts in a round bar of the torch between two places of the flange's frame,
// m; none where they are one.
func (b *builder) rod(name string, radius float64, from, to r3.Vec, words ...string) error {
	d := to.Sub(from)
	length := d.Norm()
	const nothing = 1e-6 // m
	if length < nothing {
		return nil
	}
	z := d.Unit()
	x := z.Orthogonal()
	pose := se3.Pose{R: se3.RotColumns(x, z.Cross(x), z), P: from.Lerp(to, 0.5)}
	return b.solid(name, torchBody, b.last, pose, b.job.Torch.At,
		func() (convex.Solid, error) { return convex.NewCylinder(radius, length) }, words...)
}

// drawnTorch puts in the torch as its file has it, cut across the wire at the
// nozzle's two ends: beyond is the wire, behind the torch's body.
func (b *builder) drawnTorch(t *job.Torch) error {
	d := t.Shape
	flangeFromTip := b.cell.FlangeFromTip
	flangeFromShape := flangeFromTip.Mul(d.LinkFromShape)
	if d.OnFlange {
		flangeFromShape = d.LinkFromShape
	}
	sound, r, err := mend(job.WordTorch, d.MeshFile, d.MeshFile.Mesh, t.At)
	if err != nil {
		return err
	}
	b.report(r, func() mesh.Report { return look(sound) })
	tipFromShape := flangeFromTip.Inv().Mul(flangeFromShape)
	inTip := sound.Transformed(mesh.Affine{X: tipFromShape.R.X(), Y: tipFromShape.R.Y(), Z: tipFromShape.R.Z(), T: tipFromShape.P})
	rest, wire := cutAcross(inTip, -t.StickOut)
	behind, front := cutAcross(rest, -t.StickOut-t.NozzleLength)
	b.said(wire, front)
	for _, piece := range []struct {
		shape mesh.Mesh
		name  string
		role  role
		words []string
	}{
		{front, job.WordNozzle, nozzle, []string{job.WordTorch}},
		{behind, job.WordBody, torchBody, []string{job.WordTorch, job.WordNeck}},
	} {
		if len(piece.shape.Triangles) == 0 {
			continue
		}
		shape, err := treeOf(piece.shape, t.At, d.File)
		if err != nil {
			return err
		}
		b.add(piece.name, piece.role, collision.Body{Link: b.last, LinkFromBody: flangeFromTip, Shape: shape}, piece.words...)
	}
	return nil
}

// said keeps what was made of a drawn torch, for a finding.
func (b *builder) said(wire, front mesh.Mesh) {
	if len(wire.Triangles) > 0 {
		b.splitTorch = append(b.splitTorch, "what lies beyond the nozzle's end is taken for the wire and left out")
	}
	if len(front.Triangles) == 0 {
		b.splitTorch = append(b.splitTorch, "nothing lies where the nozzle should be: the drawing is not placed as the torch is")
	}
}

// cable puts in the space that the cable may take.
func (b *builder) cable() error {
	for _, c := range b.job.Torch.Cable {
		link, err := collision.LinkNamed(b.cell.Chain, c.Link)
		if err != nil {
			return problem(c.At, quoted(c.Link)+", which does not hang on the arm", "a link of the arm from base to flange, or one that these carry", err.Error())
		}
		d := c.To.Sub(c.From)
		z := r3.Vec{Z: 1}
		if d.Norm() > 0 {
			z = d.Unit()
		}
		x := z.Orthogonal()
		pose := se3.Pose{R: se3.RotColumns(x, z.Cross(x), z), P: c.From.Lerp(c.To, 0.5)}
		made := func() (convex.Solid, error) { return convex.NewCapsule(c.Radius(), d.Norm()) }
		if err := b.solid(job.WordCable, cable, link, pose, c.At, made); err != nil {
			return err
		}
	}
	return nil
}
