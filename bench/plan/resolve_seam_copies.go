package plan

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// copies makes of one shape all the seams that the document asks for: its parts,
// their copies, the mirror images of all these, in the order of Seam.Names.
func (b *seamBuilder) copies(shape seamShape) ([]seamShape, error) {
	parts, err := b.parts(shape)
	if err != nil {
		return nil, err
	}
	places, err := b.places()
	if err != nil {
		return nil, err
	}
	var all []seamShape
	for k, newFromOld := range places {
		for _, part := range parts {
			if k > 0 {
				part = b.moved(part, newFromOld)
			}
			all = append(all, part)
		}
	}
	if b.seam.Mirror.Name != "" {
		m := &b.seam.Mirror
		mirror, err := curve.NewMirror(b.place(m.Point, m.At), m.Normal)
		if err != nil {
			return nil, fmt.Errorf("mirror: %w", err)
		}
		for _, shape := range all[:len(all):len(all)] {
			all = append(all, b.mirrored(shape, mirror))
		}
	}
	for i, name := range b.seam.Names() {
		all[i].doc.Name = name
	}
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

// parts cuts a shape where its weld is begun anew.
func (b *seamBuilder) parts(whole seamShape) ([]seamShape, error) {
	split := &b.seam.Split
	if len(split.At) == 0 {
		return []seamShape{whole}, nil
	}
	length := whole.geometry.Length()
	parts := make([]seamShape, len(split.At)+1)
	from := 0.0
	for i := range parts {
		to := length
		if i < len(split.At) {
			to = split.At[i]
		}
		if to > length || from < 0 || to-from < seamLeast {
			return nil, fmt.Errorf("split: a part from %.1f to %.1f mm of a seam of %.1f mm: places lie on the seam, and a part is at least %.0f mm long", from*1e3, to*1e3, length*1e3, seamLeast*1e3)
		}
		part, err := whole.part(from, to, b.job.Air.Out)
		if err != nil {
			return nil, fmt.Errorf("split: %w", err)
		}
		part.held = heldOn(whole, from, to, b.tips)
		parts[i] = part
		from = to - split.TieIn
	}
	return parts, nil
}

// heldOn are the points taught for a seam that lie on the part from one arc
// length to another, m: each as what it is there.
func heldOn(whole seamShape, from, to float64, all tips) []heldPoint {
	var list []heldPoint
	for _, h := range whole.held {
		along := whole.geometry.Path().Nearest(all[h.label].baseFromTip.P)
		switch {
		case h.role == RoleApproach && from > 0, h.role == RoleRetreat && to < whole.geometry.Length(), along < from || along > to:
			continue
		}
		list = append(list, h)
	}
	return list
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
