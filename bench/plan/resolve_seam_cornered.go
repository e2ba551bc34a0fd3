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

// polyline joins points by straight lines, round or sharp in the corners. A
// point is where the lines beside it meet, whatever the corner's radius.
func (b *seamBuilder) polyline(at []r3.Vec) (curve.Curve, error) {
	if b.seam.Closed {
		at = append(at, at[0])
	}
	radii := make([]float64, len(at))
	for i := range at[1:] {
		if c := i + 1; c < len(at)-1 || b.seam.Closed {
			radii[c] = b.corner(i).Radius
			b.corners = append(b.corners, at[c])
		}
	}
	radii[0] = radii[len(radii)-1]
	return curve.RoundedEach(radii, at...)
}

// corner returns what the document says of a corner, counted from 0 in the
// order in which the path comes to them.
func (b *seamBuilder) corner(i int) job.Corner {
	switch c := b.seam.Corners; len(c) {
	case 0:
		return job.Corner{}
	case 1:
		return c[0]
	default:
		return c[i]
	}
}

// sides fits a straight line to the points touched on each side and joins the
// lines where neighbours come nearest to each other.
func (b *seamBuilder) sides(shape *seamShape) (curve.Curve, error) {
	lines := make([]fit.LineFit, len(b.seam.Sides))
	for i, labels := range b.seam.Sides {
		line, err := fit.Line(b.points(labels), seam.HandTouch)
		if err != nil {
			return nil, fmt.Errorf("side %d: %w", i+1, err)
		}
		for _, k := range line.OutOfOrder {
			shape.order = append(shape.order, labels[k])
		}
		lines[i] = line
	}
	at, err := b.sideEnds(lines)
	if err != nil {
		return nil, err
	}
	b.offSides(shape, at)
	if b.seam.Closed {
		at = at[:len(at)-1]
	}
	return b.polyline(at)
}

// sideEnds returns where the sides begin and end, one place more than sides: of
// a closed path the last is the first once more.
func (b *seamBuilder) sideEnds(lines []fit.LineFit) ([]r3.Vec, error) {
	n := len(lines)
	at := make([]r3.Vec, n+1)
	at[0], at[n] = lines[0].From, lines[n-1].To
	for i := range n {
		if i == n-1 && !b.seam.Closed {
			break
		}
		corner, err := meet(lines[i], lines[(i+1)%n])
		if err != nil {
			return nil, fmt.Errorf("sides %d and %d: %w", i+1, (i+1)%n+1, err)
		}
		at[i+1] = corner
	}
	if b.seam.Closed {
		at[0] = at[n]
	}
	for i, line := range lines {
		if at[i+1].Sub(at[i]).Dot(line.Dir) <= 0 {
			return nil, fmt.Errorf("side %d runs against its points between the corners with its neighbours: list points and sides in the order of travel", i+1)
		}
	}
	return at, nil
}

// meet returns the place, m, halfway between two lines where they come nearest
// to each other. Elementary geometry.
func meet(a, b fit.LineFit) (r3.Vec, error) {
	cross := a.Dir.Cross(b.Dir)
	if math.Asin(min(1, cross.Norm())) < curve.MinCross {
		return r3.Vec{}, fmt.Errorf("they turn by %.1f deg only, and meet nowhere in particular: make them one side, or name the corner's point in a polyline", a.Dir.Angle(b.Dir)*deg)
	}
	between := b.From.Sub(a.From)
	sin2 := cross.Dot(cross)
	p := a.From.AddScaled(between.Cross(b.Dir).Dot(cross)/sin2, a.Dir)
	q := b.From.AddScaled(between.Cross(a.Dir).Dot(cross)/sin2, b.Dir)
	return p.Lerp(q, 0.5), nil
}

// offSides notes how far the touched points lie off the sides between their
// corners.
func (b *seamBuilder) offSides(shape *seamShape, at []r3.Vec) {
	for i, labels := range b.seam.Sides {
		dir := at[i+1].Sub(at[i]).Unit()
		for k, p := range b.points(labels) {
			if off := p.Sub(at[i]).Reject(dir).Norm(); off > shape.residual {
				shape.residual, shape.worst = off, labels[k]
			}
		}
	}
}
