package plan

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// seamBuilder turns one seam of the document into geometry in the base frame.
type seamBuilder struct {
	seam *job.Seam
	cell *cell.Cell
	tips tips
	up   r3.Vec
}

// seamShape is one seam to be welded: the plan's seams are made from the shapes,
// one from each and in their order. One seam of the document may make several.
type seamShape struct {
	// doc is the document's seam as it holds for this one: in its name, its
	// torch and its taught points it may differ from the document's own, whose
	// place in the job's list is index.
	doc      *job.Seam
	index    int
	geometry *seam.Seam
	residual float64  // m, largest distance of a point from the path
	worst    string   // label of the point with the largest residual
	order    []string // labels of the points that are out of order
	// radius is the fitted radius, m, of an arc or circle; fitted without the
	// drawing's radius, so that the two can be held against each other.
	radius float64
	// spin is the spin that was taught, rad; spun says that one was.
	spin float64
	spun bool
	// held are the points that were taught for this seam.
	held []heldPoint
	// shares say how the turn of the torch is shared out at the path's sharp
	// corners, one for each in order along the path (see seam.NewWay).
	shares []seam.Share
}

// resolveSeams builds every seam, or says everything that stands in the way.
func resolveSeams(j *job.Job, c *cell.Cell, all tips) ([]seamShape, error) {
	shapes := make([]seamShape, 0, len(j.Seams))
	var bad []job.Problem
	for i := range j.Seams {
		b := seamBuilder{seam: &j.Seams[i], cell: c, tips: all, up: all.up(c, &j.Seams[i])}
		shape, err := b.build()
		if err != nil {
			bad = append(bad, job.Problem{
				Place: j.Seams[i].At, Found: fmt.Sprintf("seam %q whose points and plates do not make a joint", j.Seams[i].Name),
				Allowed: "points and plates that fit together", Mend: err.Error(),
			})
		}
		shape.doc, shape.index = &j.Seams[i], i
		if err == nil {
			shape.spin, shape.spun = taughtSpin(shape.doc, shape.geometry, all)
			shape.held = heldPoints(shape.doc)
		}
		shapes = append(shapes, shape)
	}
	if len(bad) > 0 {
		return nil, &job.Problems{List: bad}
	}
	return shapes, nil
}

func (b *seamBuilder) build() (seamShape, error) {
	var shape seamShape
	path, err := b.path(&shape)
	if err != nil {
		return shape, err
	}
	base, other, err := b.plates(path)
	if err != nil {
		return shape, err
	}
	spec := seam.Spec{Path: path, Joint: b.seam.Joint, Base: base.Face, Keep: base.Keep}
	if other.Face != nil {
		spec.Other = other.Face
	}
	if shape.geometry, err = seam.New(spec); err != nil {
		return shape, err
	}
	_, err = seam.NewWay(shape.geometry, shape.shares...)
	return shape, err
}

func (b *seamBuilder) points(labels []string) []r3.Vec {
	at := make([]r3.Vec, len(labels))
	for i, label := range labels {
		at[i] = b.tips[label].baseFromTip.P
	}
	return at
}

// torchPoses are the torch poses taught at the seam: the evidence for which
// side of a plate is the welded one. Touches without an orientation are none.
func (b *seamBuilder) torchPoses() []se3.Pose {
	labels := append([]string{b.seam.Approach.Point, b.seam.Retreat.Point}, audited(b.seam)...)
	var poses []se3.Pose
	for _, label := range labels {
		if t, ok := b.tips[label]; ok && t.turned() {
			poses = append(poses, t.baseFromTip)
		}
	}
	return poses
}

func (b *seamBuilder) path(shape *seamShape) (curve.Curve, error) {
	at := b.points(b.seam.Points)
	if b.seam.Path == job.PathLine {
		line, err := fit.Line(at, seam.HandTouch)
		if err != nil {
			return nil, err
		}
		shape.residual, shape.worst = line.Max, b.seam.Points[line.Worst]
		for _, i := range line.OutOfOrder {
			shape.order = append(shape.order, b.seam.Points[i])
		}
		return curve.NewLine(line.From, line.To)
	}
	return b.round(shape, at)
}

// round fits an arc or a circle. Where the base plate's normal is known
// without the path it is the circle's axis: three hand-guided points on a
// small tube would tilt the circle by degrees.
func (b *seamBuilder) round(shape *seamShape, at []r3.Vec) (curve.Curve, error) {
	req := fit.CircleRequest{Points: at, Sigma: seam.HandTouch}
	if axis, ok := b.knownAxis(); ok {
		req.Axis = axis
	}
	free, err := fit.Circle(req)
	if err != nil {
		return nil, err
	}
	shape.radius = free.Radius
	circle := free
	if b.seam.Radius > 0 {
		req.Radius = b.seam.Radius
		if circle, err = fit.Circle(req); err != nil {
			return nil, err
		}
	}
	shape.residual, shape.worst = circle.Max, b.seam.Points[circle.Worst]
	for _, i := range circle.OutOfOrder {
		shape.order = append(shape.order, b.seam.Points[i])
	}
	if b.seam.Path == job.PathCircle {
		return curve.NewCircle(circle.Centre, circle.Axis, circle.Start, b.seam.Overlap)
	}
	return curve.NewArc(curve.ArcRequest{Centre: circle.Centre, Axis: circle.Axis, Start: circle.Start, Sweep: circle.Sweep})
}

// knownAxis returns the base plate's normal where the plate alone gives it.
func (b *seamBuilder) knownAxis() (r3.Vec, bool) {
	switch b.seam.Base.Kind {
	case job.PlateUp, job.PlateLevel:
		return b.up, true
	case job.PlateDown:
		return b.up.Neg(), true
	case job.PlateDirection:
		return b.seam.Base.Direction, true
	case job.PlateTouched:
		plane, err := fit.Plane(b.points(b.seam.Base.Points), seam.HandTouch)
		return plane.Normal, err == nil
	}
	return r3.Vec{}, false
}

func (b *seamBuilder) plates(path curve.Curve) (base, other seam.Known, err error) {
	base, err = b.basePlate(path)
	if err != nil {
		return base, other, fmt.Errorf("base plate: %w", err)
	}
	other, err = b.otherPlate(path, base)
	if err != nil {
		return base, other, fmt.Errorf("upright: %w", err)
	}
	return base, other, nil
}

func (b *seamBuilder) basePlate(path curve.Curve) (seam.Known, error) {
	p := &b.seam.Base
	switch p.Kind {
	case job.PlateUp:
		return seam.Up(path, b.up)
	case job.PlateDown:
		return seam.Down(path, b.up)
	case job.PlateLevel:
		return seam.Level(path, b.up)
	}
	return b.measured(p)
}

// measured tells a plate from directions or touches, which serve for either
// plate.
func (b *seamBuilder) measured(p *job.Plate) (seam.Known, error) {
	torch := seam.TowardTorch(b.torchPoses()...)
	switch p.Kind {
	case job.PlateDirection:
		return seam.Direction(p.Direction, nil)
	case job.PlateTouched:
		return seam.Touched(b.points(p.Points), seam.HandTouch, torch)
	case job.PlateTouchedVertical:
		return seam.TouchedVertical(b.points(p.Points), b.up, seam.HandTouch, torch)
	}
	return seam.Known{}, fmt.Errorf("%q does not tell this plate", p.Kind)
}

func (b *seamBuilder) otherPlate(path curve.Curve, base seam.Known) (seam.Known, error) {
	p := &b.seam.Other
	switch p.Kind {
	case job.PlateUnstated:
		return seam.Known{}, nil
	case job.PlateLeft:
		return seam.Stands(base.Face, seam.Left, math.Pi/2)
	case job.PlateRight:
		return seam.Stands(base.Face, seam.Right, math.Pi/2)
	case job.PlateAngleLeft:
		return seam.Stands(base.Face, seam.Left, p.Angle)
	case job.PlateAngleRight:
		return seam.Stands(base.Face, seam.Right, p.Angle)
	case job.PlateTubeOutside, job.PlateTubeInside:
		return b.tube(path, base)
	}
	return b.measured(p)
}

func (b *seamBuilder) tube(path curve.Curve, base seam.Known) (seam.Known, error) {
	arc, ok := path.(curve.Arc)
	if !ok {
		return seam.Known{}, fmt.Errorf("a tube wall needs an arc or a circle, and this seam is a line")
	}
	wall := seam.Outside
	if b.seam.Other.Kind == job.PlateTubeInside {
		wall = seam.Inside
	}
	p, t := path.At(0)
	_, other, err := seam.TubeOnPlate(arc, wall, seam.TowardSide(base.Face.Normal(p, t), "the base plate's face"))
	return other, err
}

// weldKind is fillet for joints that a fillet joins.
func weldKind(t weld.JointType) weld.WeldKind {
	switch t {
	case weld.Butt, weld.Edge:
		return weld.Groove
	}
	return weld.Fillet
}
