package curve

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Arc is a piece of a circle, of any sweep: beyond a full turn it runs on over
// its own start, as a weld all round with its overlap does. Make one with
// NewArc, NewCircle or ArcThrough; the zero value is no arc.
type Arc struct {
	centre r3.Vec
	axis   r3.Vec // unit; travel is right-handed about it
	x, y   r3.Vec // unit, in the plane: to the start, and a quarter turn on
	radius float64
	sweep  float64 // rad, > 0
}

// minRadius, in metres, keeps 1/radius and the directions honest.
const minRadius = 1e-5

// ArcRequest says where an arc lies. Centre and Start are metres, Axis is any
// vector along the circle's axis, Sweep is the angle walked in radians: right-
// handed about Axis where positive, left-handed where negative.
type ArcRequest struct {
	Centre, Axis, Start r3.Vec
	Sweep               float64 // rad
}

// NewArc returns the arc described by r. It fails for numbers that are not
// finite, an axis of no length, a start that does not lie square beside the
// centre (within JoinTolerance), a radius under 0.01 mm and a length under
// MinLength.
func NewArc(r ArcRequest) (Arc, error) {
	if !r.Centre.IsFinite() || !r.Axis.IsFinite() || !r.Start.IsFinite() || math.IsNaN(r.Sweep) || math.IsInf(r.Sweep, 0) {
		return Arc{}, fmt.Errorf("curve: arc %+v: a number is not finite", r)
	}
	axis := r.Axis.Unit()
	if axis == (r3.Vec{}) {
		return Arc{}, fmt.Errorf("curve: arc about %v: the axis has no direction", r.Centre)
	}
	if r.Sweep < 0 {
		axis = axis.Neg()
	}
	out := r.Start.Sub(r.Centre)
	if off := out.Dot(axis); math.Abs(off) > JoinTolerance {
		return Arc{}, fmt.Errorf("curve: arc start %v lies %.3g m along the axis from the centre %v: centre and start must lie in one plane square to the axis", r.Start, off, r.Centre)
	}
	x := out.Reject(axis)
	radius := x.Norm()
	if !(radius >= minRadius) {
		return Arc{}, fmt.Errorf("curve: arc about %v has a radius of %.3g m: at least %g m is needed", r.Centre, radius, minRadius)
	}
	sweep := math.Abs(r.Sweep)
	if !(sweep*radius >= MinLength) {
		return Arc{}, fmt.Errorf("curve: arc about %v sweeps %.3g rad, %.3g m: at least %g m is needed", r.Centre, r.Sweep, sweep*radius, MinLength)
	}
	x = x.Scale(1 / radius)
	return Arc{centre: r.Centre, axis: axis, x: x, y: axis.Cross(x), radius: radius, sweep: sweep}, nil
}

// NewCircle returns the full circle about centre (m) that begins at start (m),
// runs right-handed about axis and goes on past its start by overlap (m, 0 or
// more). It fails where NewArc does and for an overlap below 0.
func NewCircle(centre, axis, start r3.Vec, overlap float64) (Arc, error) {
	if !(overlap >= 0) {
		return Arc{}, fmt.Errorf("curve: circle with an overlap of %.3g m: 0 or more is needed", overlap)
	}
	a, err := NewArc(ArcRequest{Centre: centre, Axis: axis, Start: start, Sweep: 2 * math.Pi})
	if err != nil {
		return Arc{}, err
	}
	a.sweep += overlap / a.radius
	return a, nil
}

// minBend is the smallest distance (m) of the middle point from the chord for
// which three points are taken as an arc at all: below it the numbers were
// rounded from a straight line (positions are typed to 0.1 mm).
const minBend = 1e-4

// ArcThrough returns the arc from a over b to c, in metres. It fails for points
// that are not finite, coincide or lie on one line: b must stand off the chord
// by more than 0.1 mm.
// Formula: circumcentre from two edge vectors, elementary geometry.
func ArcThrough(a, b, c r3.Vec) (Arc, error) {
	if !a.IsFinite() || !b.IsFinite() || !c.IsFinite() {
		return Arc{}, fmt.Errorf("curve: arc through %v, %v, %v: a coordinate is not a finite number", a, b, c)
	}
	u, v := b.Sub(a), c.Sub(a)
	n := u.Cross(v)
	longest := max(u.Norm(), v.Norm(), c.Dist(b))
	if !(n.Norm() > minBend*longest) {
		return Arc{}, fmt.Errorf("curve: arc through %v, %v, %v: the points lie on one line within %g m; take the middle point further round, or use a line", a, b, c, minBend)
	}
	w := v.Scale(u.Dot(u)).Sub(u.Scale(v.Dot(v)))
	out := n.Cross(w).Scale(-1 / (2 * n.Dot(n)))
	centre := a.Add(out)
	axis := n.Unit()
	x := out.Neg().Unit()
	y := axis.Cross(x)
	to := c.Sub(centre)
	sweep := math.Atan2(to.Dot(y), to.Dot(x))
	if sweep <= 0 {
		sweep += 2 * math.Pi
	}
	return NewArc(ArcRequest{Centre: centre, Axis: axis, Start: a, Sweep: sweep})
}

// Centre returns the circle's centre, in metres.
func (a Arc) Centre() r3.Vec { return a.centre }

// Axis returns the unit direction about which travel is right-handed.
func (a Arc) Axis() r3.Vec { return a.axis }

// Radius returns the circle's radius, in metres.
func (a Arc) Radius() float64 { return a.radius }

// Sweep returns the angle walked, in radians, above 0; more than 2 pi where the
// arc overlaps its start.
func (a Arc) Sweep() float64 { return a.sweep }

// Length returns the length, in metres.
func (a Arc) Length() float64 { return a.radius * a.sweep }

// At returns the point (m) and the unit tangent at arc length s (m).
func (a Arc) At(s float64) (p, tangent r3.Vec) {
	sin, cos := math.Sincos(s / a.radius)
	p = a.centre.AddScaled(a.radius*cos, a.x).AddScaled(a.radius*sin, a.y)
	return p, a.y.Scale(cos).AddScaled(-sin, a.x)
}

// Nearest returns the arc length (m) of the point nearest to p (m); 0 for a
// point on the axis, which is equally far from all.
func (a Arc) Nearest(p r3.Vec) float64 {
	d := p.Sub(a.centre)
	turn := math.Atan2(d.Dot(a.y), d.Dot(a.x))
	if turn < 0 {
		turn += 2 * math.Pi
	}
	switch {
	case turn <= a.sweep:
	case turn-a.sweep < 2*math.Pi-turn: // past the end: which end is nearer round
		turn = a.sweep
	default:
		turn = 0
	}
	return a.radius * turn
}

func (a Arc) trim(from, to float64) Curve {
	p, tangent := a.At(from)
	b := a
	b.x, b.y = p.Sub(a.centre).Unit(), tangent
	b.sweep = (to - from) / a.radius
	return b
}

func (a Arc) reversed() Curve {
	p, tangent := a.At(a.Length())
	b := a
	b.axis, b.x, b.y = a.axis.Neg(), p.Sub(a.centre).Unit(), tangent.Neg()
	return b
}

func (a Arc) moved(bFromA se3.Pose) Curve {
	b := a
	b.centre = bFromA.Apply(a.centre)
	b.axis, b.x, b.y = bFromA.Dir(a.axis), bFromA.Dir(a.x), bFromA.Dir(a.y)
	return b
}
