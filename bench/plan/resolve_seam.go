package plan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// seamBuilder turns one seam of the document into geometry in the base frame.
type seamBuilder struct {
	job  *job.Job
	seam *job.Seam
	tips tips
	up   r3.Vec

	corners []r3.Vec // m, the places of the path's corners in order of travel
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
	// copied: it is a copy or a later part of a seam, whose points and plates were
	// looked at with the first.
	copied bool
	// held are the points that were taught for this seam.
	held []heldPoint
	// stitching is that of a seam which is a stitch, nil for others.
	stitching *Stitching
	// again: it is the first of what is left of a seam that stopped; torn: a part of
	// it is welded already.
	again, torn bool
	// whole is the length, m, of the seam that it was cut from.
	whole float64
	// shares say how the turn of the torch is shared out at the path's sharp
	// corners, one for each in order along the path (see seam.NewWay).
	shares []seam.Share
}

// resolveSeams builds every seam, or says everything that stands in the way.
func resolveSeams(j *job.Job, c *cell.Cell, all tips) ([]seamShape, error) {
	shapes := make([]seamShape, 0, len(j.Seams))
	var bad []job.Problem
	for i := range j.Seams {
		b := seamBuilder{job: j, seam: &j.Seams[i], tips: all, up: all.up(c, &j.Seams[i])}
		made, err := b.all(i)
		if err != nil {
			bad = append(bad, faults(&j.Seams[i], err)...)
		}
		shapes = append(shapes, made...)
	}
	if len(bad) > 0 {
		return nil, &job.Problems{List: bad}
	}
	inOrder(shapes, j.Order)
	return shapes, nil
}

// inOrder puts the seams into the order of welding that the document names; those
// that it does not name, of a job with some of its seams alone, come last. Stitches
// stay together.
func inOrder(shapes []seamShape, order []string) {
	place := map[string]int{}
	for i, name := range order {
		place[name] = i - len(order)
	}
	slices.SortStableFunc(shapes, func(a, b seamShape) int { return place[a.drawn()] - place[b.drawn()] })
}

// faults are what an error says about a seam.
func faults(s *job.Seam, err error) []job.Problem {
	if said := (*job.Problems)(nil); errors.As(err, &said) {
		return said.List
	}
	return []job.Problem{{
		Place: s.At, Found: fmt.Sprintf("seam %q whose points and plates do not make a joint", s.Name),
		Allowed: "points and plates that fit together", Mend: unprefixed.Replace(err.Error()),
	}}
}

// unprefixed takes away the names of the packages that geometry's errors carry;
// they say nothing to who reads the document.
var unprefixed = strings.NewReplacer("seam: ", "", "curve: ", "", "fit: ", "")

// all makes every seam that seam i of the document stands for.
func (b *seamBuilder) all(i int) ([]seamShape, error) {
	shape, err := b.build()
	if err != nil {
		return nil, err
	}
	shape.doc, shape.index = b.thick(), i
	shape.spin, shape.spun = taughtSpin(shape.doc, shape.geometry, b.tips)
	shape.held, shape.whole = heldPoints(shape.doc), shape.geometry.Length()-b.overlap()
	return b.copies(shape)
}

func (b *seamBuilder) build() (seamShape, error) {
	var shape seamShape
	spec, err := b.spec(&shape)
	if err != nil {
		return shape, err
	}
	if shape.geometry, err = seam.New(spec); err != nil {
		return shape, err
	}
	shape.shares = b.shares(shape.geometry)
	_, err = seam.NewWay(shape.geometry, shape.shares...)
	return shape, err
}

// spec builds path and plates.
func (b *seamBuilder) spec(shape *seamShape) (seam.Spec, error) {
	switch b.seam.Path {
	case job.PathMeeting, job.PathTubeOnPlate, job.PathSaddle:
		return b.met()
	}
	path, err := b.path(shape)
	if err != nil {
		return seam.Spec{}, err
	}
	base, other, err := b.plates(path)
	if err != nil {
		return seam.Spec{}, err
	}
	spec := seam.Spec{Path: path, Joint: b.seam.Joint, Base: base.Face, Keep: base.Keep}
	if other.Face != nil {
		spec.Other = other.Face
	}
	return spec, nil
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

// weldKind is fillet for joints that a fillet joins.
func weldKind(t weld.JointType) weld.WeldKind {
	switch t {
	case weld.Butt, weld.Edge:
		return weld.Groove
	}
	return weld.Fillet
}
