package plan

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/weld/seam"
)

// path builds the line that is welded.
func (b *seamBuilder) path(shape *seamShape) (curve.Curve, error) {
	at := b.points(b.seam.Points)
	var path curve.Curve
	var err error
	switch b.seam.Path {
	case job.PathArc, job.PathCircle:
		return b.round(shape, at)
	case job.PathPolyline:
		path, err = b.polyline(at)
	case job.PathSides:
		path, err = b.sides(shape)
	case job.PathSpline:
		path, err = b.spline(shape, at)
	default:
		path, err = b.line(shape, at)
	}
	if err != nil || !b.seam.Closed {
		return path, err
	}
	return b.closed(path)
}

// line fits a straight line.
func (b *seamBuilder) line(shape *seamShape, at []r3.Vec) (curve.Curve, error) {
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

// turnedBack is the turn of the way from point to point, rad, from which the
// points of a spline are taken to be out of order: no smooth line that is
// touched with sense turns by 120 deg between two touches. Common practice, no
// source.
const turnedBack = 120 * math.Pi / 180

// spline lays a smooth line through all points.
func (b *seamBuilder) spline(shape *seamShape, at []r3.Vec) (curve.Curve, error) {
	n := len(at)
	for i := range at {
		if !b.seam.Closed && (i == 0 || i == n-1) {
			continue
		}
		before, after := at[(i+n-1)%n], at[(i+1)%n]
		if at[i].Sub(before).Angle(after.Sub(at[i])) > turnedBack {
			shape.order = append(shape.order, b.seam.Points[i])
		}
	}
	return curve.NewSpline(curve.SplineRequest{Points: at, Closed: b.seam.Closed})
}

// closed begins a closed path where it shall begin and lets it run past its
// start.
func (b *seamBuilder) closed(path curve.Curve) (curve.Curve, error) {
	start, err := b.start(path)
	if err != nil {
		return nil, err
	}
	if path, err = curve.StartingAt(path, start); err != nil {
		return nil, err
	}
	return curve.WithOverlap(path, b.overlap())
}

// start returns the arc length (m) of a closed path at which it shall begin.
func (b *seamBuilder) start(path curve.Curve) (float64, error) {
	s := b.seam.StartAt
	if s.Point == "" {
		return s.By, nil
	}
	from := b.tips[s.Point].baseFromTip.P
	if b.seam.Path != job.PathPolyline {
		return math.Mod(path.Nearest(from)+s.By, path.Length()), nil
	}
	next := b.after(s.Point)
	side := next.Sub(from)
	if s.By > side.Norm() {
		return 0, fmt.Errorf("start_at: %.1f mm behind %q lies past the next corner, %.1f mm from it: name that corner", s.By*1e3, s.Point, side.Norm()*1e3)
	}
	return path.Nearest(from.AddScaled(s.By, side.Unit())), nil
}

// after returns the place (m) of the point that follows one on a closed path.
func (b *seamBuilder) after(label string) r3.Vec {
	labels := b.seam.Points
	for i := range labels {
		if labels[i] == label {
			return b.tips[labels[(i+1)%len(labels)]].baseFromTip.P
		}
	}
	return r3.Vec{} // the document was checked to have it
}
