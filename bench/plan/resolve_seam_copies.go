package plan

import (
	"fmt"
	"slices"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// copies makes of one shape all the seams that the document asks for: the seam cut
// into its parts or stitches, its copies, and the mirror images of all these. Points
// and plates are looked at with the first.
func (b *seamBuilder) copies(whole seamShape) ([]seamShape, error) {
	places, err := b.places()
	if err != nil {
		return nil, err
	}
	var mirror curve.Mirror
	if m := &b.seam.Mirror; m.Name != "" {
		if mirror, err = curve.NewMirror(b.place(m.Point, m.At), m.Normal); err != nil {
			return nil, fmt.Errorf("mirror: %w", err)
		}
	}
	var all []seamShape
	skipped := b.seam.Restart.At > 0
	for h, hand := range b.seam.Hands() {
		for k, newFromOld := range places {
			name := b.seam.CopyName(hand, k)
			stopped := skipped && name == b.seam.Restart.Seam
			if skipped = skipped && !stopped; skipped {
				continue // welded before the one that stopped
			}
			pieces, err := b.pieces(&whole, name, h > 0, stopped)
			if err != nil {
				return nil, err
			}
			for _, piece := range pieces {
				if k > 0 {
					piece = b.moved(piece, newFromOld)
				}
				if h > 0 {
					piece = b.mirrored(piece, mirror)
				}
				all = append(all, piece)
			}
		}
	}
	if len(all) == 0 {
		return nil, problem(b.seam.Restart.Place, "a weld that stopped at its end", "a place before the end of what is welded", "delete the seam, or the restart to weld it again")
	}
	all[0].order, all[0].residual, all[0].copied = whole.order, whole.residual, false
	return all, nil
}

// places are the poses that carry a seam to its copies, the first leaving it
// where it is.
func (b *seamBuilder) places() ([]se3.Pose, error) {
	switch r := &b.seam.Repeat; {
	case r.Count == 0:
		return []se3.Pose{se3.Identity()}, nil
	case r.About:
		return seam.RepeatAround(r.At, r.Axis, r.Every, r.Count)
	default:
		return seam.RepeatAlong(r.Step, r.Count)
	}
}

// pieces cuts a shape where its weld is begun anew; stopped says that it is to be
// taken up again.
func (b *seamBuilder) pieces(whole *seamShape, name string, far, stopped bool) ([]seamShape, error) {
	list, stitching, err := b.cuts(whole, name, far)
	if err != nil {
		return nil, err
	}
	if stopped {
		if list, err = b.left(list); err != nil {
			return nil, err
		}
	}
	way, err := seam.NewWay(whole.geometry, whole.shares...)
	if err != nil {
		return nil, err // it was made once already
	}
	var pieces []seamShape
	for i, c := range list {
		piece, err := whole.part(c, b.job.Air.Out)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.name, err)
		}
		piece.doc.Name, piece.held, piece.stitching = c.name, heldOn(whole, &way, list, i, b.tips), stitching
		if i == 0 {
			piece.doc.Through, piece.again, piece.torn = whole.doc.Through, stopped, c.torn
		}
		if stitching != nil {
			stitching.Seams = append(stitching.Seams, c.name)
		}
		pieces = append(pieces, piece)
	}
	return pieces, nil
}

// heldOn are the points taught for a seam that lie on one of its cuts, each as what
// it is there. A point between two stitches is held with the next one, and told on
// the whole seam; one that lies before a restart is not held.
func heldOn(whole *seamShape, way *seam.Way, list []cut, i int, all tips) []heldPoint {
	c := list[i]
	var held []heldPoint
	for _, h := range whole.held {
		along := whole.geometry.Path().Nearest(all[h.label].baseFromTip.P)
		switch h.role {
		case RoleApproach, RoleRetreat:
			if h.role == RoleApproach && c.begins || h.role == RoleRetreat && c.ends {
				held = append(held, h)
			}
			continue
		}
		on := func(c cut) bool { return along >= c.From && along <= c.To }
		next := slices.IndexFunc(list, func(c cut) bool { return c.From > along })
		switch {
		case on(c):
			held = append(held, h)
		case next == i && (i > 0 || list[0].begins) && !slices.ContainsFunc(list, on), next < 0 && i == len(list)-1:
			h.on, h.from = way, c.From
			held = append(held, h)
		}
	}
	return held
}

// moved is a shape at another place; the points taught for it stay behind, but
// for approach and retreat, which go along.
func (b *seamBuilder) moved(shape seamShape, newFromOld se3.Pose) seamShape {
	shape.geometry = shape.geometry.Moved(newFromOld)
	return b.copied(shape, func(p se3.Pose) se3.Pose { return newFromOld.Mul(p) })
}

// mirrored is the shape of the other hand.
func (b *seamBuilder) mirrored(shape seamShape, m curve.Mirror) seamShape {
	shape.geometry = shape.geometry.Mirrored(m)
	shape.spin = -shape.spin
	shape = b.copied(shape, func(p se3.Pose) se3.Pose { return se3.Pose{R: p.R, P: m.Point(p.P)} })
	aim := &shape.doc.Aim
	aim.SpinAngle = -aim.SpinAngle
	if j := shape.doc.Joint; j == weld.Butt || j == weld.Edge {
		aim.Work, aim.Offset = -aim.Work, -aim.Offset
	}
	return shape
}

// copied gives a shape a document seam of its own, without the taught points of
// the first, and carries its ends.
func (b *seamBuilder) copied(shape seamShape, carry func(se3.Pose) se3.Pose) seamShape {
	doc := *shape.doc
	doc.Through, doc.Taught = nil, nil
	shape.held, shape.order, shape.residual, shape.copied = nil, nil, 0, true
	for _, l := range []*job.Leave{&doc.Approach, &doc.Retreat} {
		if l.Point == "" {
			continue
		}
		old := b.tips[l.Point]
		label := fmt.Sprintf("%s (copy %d)", l.Point, len(b.tips))
		b.tips[label] = tip{baseFromTip: carry(old.baseFromTip)}
		l.Point = label
	}
	shape.doc = &doc
	return shape
}
