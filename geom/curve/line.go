package curve

import (
	"fmt"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Line is a straight piece. Make one with NewLine; the zero value is no line.
type Line struct {
	from, dir r3.Vec
	length    float64
}

// NewLine returns the line from one point to another, in metres. It fails for
// points that are not finite or closer than MinLength.
func NewLine(from, to r3.Vec) (Line, error) {
	if !from.IsFinite() || !to.IsFinite() {
		return Line{}, fmt.Errorf("curve: line from %v to %v: a coordinate is not a finite number", from, to)
	}
	d := to.Sub(from)
	n := d.Norm()
	if !(n >= MinLength) {
		return Line{}, fmt.Errorf("curve: line from %v to %v is %.3g m long: it needs two points at least %g m apart", from, to, n, MinLength)
	}
	return Line{from: from, dir: d.Scale(1 / n), length: n}, nil
}

// Start returns the first point, in metres.
func (l Line) Start() r3.Vec { return l.from }

// End returns the last point, in metres.
func (l Line) End() r3.Vec { return l.from.AddScaled(l.length, l.dir) }

// Dir returns the unit direction of travel.
func (l Line) Dir() r3.Vec { return l.dir }

// Length returns the length, in metres.
func (l Line) Length() float64 { return l.length }

// At returns the point (m) and the unit direction at arc length s (m).
func (l Line) At(s float64) (p, tangent r3.Vec) { return l.from.AddScaled(s, l.dir), l.dir }

// Nearest returns the arc length (m) of the point nearest to p (m).
func (l Line) Nearest(p r3.Vec) float64 {
	return min(max(p.Sub(l.from).Dot(l.dir), 0), l.length)
}

func (l Line) trim(from, to float64) Curve {
	return Line{from: l.from.AddScaled(from, l.dir), dir: l.dir, length: to - from}
}

func (l Line) reversed() Curve { return Line{from: l.End(), dir: l.dir.Neg(), length: l.length} }

func (l Line) moved(bFromA se3.Pose) Curve {
	return Line{from: bFromA.Apply(l.from), dir: bFromA.Dir(l.dir), length: l.length}
}
