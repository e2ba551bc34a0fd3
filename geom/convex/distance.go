package convex

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Gap is the place where two solids are nearest.
type Gap struct {
	Distance float64 // m; 0 where the solids touch or overlap
	A, B     r3.Vec  // the nearest points of a and of b, m, both in a's frame; where solids overlap a point of both
}

// Distance returns the least distance between two solids at a pose. Where
// several pairs of points are equally near it is one of them. At a pose that is
// not finite the distance is NaN.
func Distance(a, b *Solid, aFromB *se3.Pose) Gap {
	gap, _ := DistanceUnder(a, b, aFromB, math.Inf(1))
	return gap
}

// DistanceUnder returns the least distance between two solids if it is under
// limit, m. Otherwise near is false and gap.Distance is the limit, which the
// solids are apart at least, without points. The smaller the limit, the sooner
// that is known. At a pose that is not finite, or with a limit that is no
// number, the distance is NaN.
func DistanceUnder(a, b *Solid, aFromB *se3.Pose, limit float64) (gap Gap, near bool) {
	p := newPair(a, b, aFromB)
	axis := p.guess()
	return p.gap(&axis, limit)
}

// Clears reports whether two solids are apart by at least margin, m. It ends as
// soon as a plane shows that they are, or two points that they are not. A margin
// of Touch or less asks whether they neither touch nor overlap. At a pose that
// is not finite, or with a margin that is no number, the answer is false.
func Clears(a, b *Solid, aFromB *se3.Pose, margin float64) bool {
	p := newPair(a, b, aFromB)
	axis := p.guess()
	return p.clears(&axis, margin)
}

// ClearsAlong is Clears for a pose near one that was asked before: it begins
// with axis, a direction from a to b (of any length, in a's frame), and leaves
// there the one it ended with. Where a plane square to axis still parts the
// solids the answer takes a single step. The zero vector makes it begin afresh;
// the answer is the same from any.
func ClearsAlong(a, b *Solid, aFromB *se3.Pose, margin float64, axis *r3.Vec) bool {
	p := newPair(a, b, aFromB)
	if *axis == (r3.Vec{}) {
		*axis = p.guess()
	}
	return p.clears(axis, margin)
}

// Triangle holds three corners, m in the frame of the solid it is held
// against. They may fall together.
type Triangle struct{ A, B, C r3.Vec }

// DistanceTriangleUnder is DistanceUnder between a solid and a triangle in the
// solid's frame, limit in metres; gap.B lies on the triangle.
func DistanceTriangleUnder(a *Solid, t *Triangle, limit float64) (gap Gap, near bool) {
	p := pair{a: a, tri: t, rounding: a.round()}
	axis := p.guess()
	return p.gap(&axis, limit)
}

// pair is two convex sets: a, and b at a pose or, if tri is not nil, a triangle.
type pair struct {
	a, b     *Solid
	pose     *se3.Pose // aFromB
	tri      *Triangle // in a's frame
	rounding float64   // by which the solids are larger than their cores, together, m
}

func newPair(a, b *Solid, aFromB *se3.Pose) pair {
	return pair{a: a, b: b, pose: aFromB, rounding: a.round() + b.round()}
}

// finite reports whether all coordinates are numbers whose squares are finite too.
func (p *pair) finite() bool {
	var sum float64
	if p.tri != nil {
		sum = p.tri.A.Dot(p.tri.A) + p.tri.B.Dot(p.tri.B) + p.tri.C.Dot(p.tri.C)
	} else {
		r, o := &p.pose.R, &p.pose.P
		sum = r[0] + r[1] + r[2] + r[3] + r[4] + r[5] + r[6] + r[7] + r[8] + (o.X*o.X + o.Y*o.Y + o.Z*o.Z)
	}
	sum += p.rounding
	return sum-sum == 0
}

// support returns the points of the cores that are extreme in the direction v
// from a to b: x of a farthest along it, and w = y - x with y of b farthest
// against it. m, in a's frame.
func (p *pair) support(v r3.Vec) (x, w r3.Vec) {
	x = p.a.core(v)
	if p.tri != nil {
		return x, p.tri.core(v).Sub(x)
	}
	r := &p.pose.R
	back := r3.Vec{
		X: -(r[0]*v.X + r[3]*v.Y + r[6]*v.Z),
		Y: -(r[1]*v.X + r[4]*v.Y + r[7]*v.Z),
		Z: -(r[2]*v.X + r[5]*v.Y + r[8]*v.Z),
	}
	y := p.b.core(back)
	return x, r3.Vec{
		X: r[0]*y.X + r[1]*y.Y + r[2]*y.Z + (p.pose.P.X - x.X),
		Y: r[3]*y.X + r[4]*y.Y + r[5]*y.Z + (p.pose.P.Y - x.Y),
		Z: r[6]*y.X + r[7]*y.Y + r[8]*y.Z + (p.pose.P.Z - x.Z),
	}
}

// core returns the corner that is farthest against v.
func (t *Triangle) core(v r3.Vec) r3.Vec {
	a, b, c := v.Dot(t.A), v.Dot(t.B), v.Dot(t.C)
	switch {
	case a <= b && a <= c:
		return t.A
	case b <= c:
		return t.B
	}
	return t.C
}

// guess returns a direction from a to b, of any length but not 0: from the
// box that holds the one to the middle of the other, by whichever box is
// nearer, which is that of the larger solid as a rule.
func (p *pair) guess() r3.Vec {
	if p.tri != nil {
		m := p.tri.A.Add(p.tri.B).Add(p.tri.C).Scale(1.0 / 3)
		return orElse(outside(m, p.a.half()), m)
	}
	fromA := outside(p.pose.P, p.a.half())
	back := p.pose.R.T().Apply(p.pose.P) // the way from a's middle to b's, in b's frame
	fromB := outside(back, p.b.half())
	aa, bb := fromA.Dot(fromA), fromB.Dot(fromB)
	if bb > 0 && (bb < aa || aa == 0) {
		return p.pose.R.Apply(fromB)
	}
	return orElse(fromA, p.pose.P)
}

// outside returns the way to p from the nearest point of the box of half sizes
// h about the origin.
func outside(p, h r3.Vec) r3.Vec {
	return r3.Vec{X: beyond(p.X, h.X), Y: beyond(p.Y, h.Y), Z: beyond(p.Z, h.Z)}
}

func beyond(x, h float64) float64 {
	switch {
	case x > h:
		return x - h
	case x < -h:
		return x + h
	}
	return 0
}

func orElse(v, other r3.Vec) r3.Vec {
	switch {
	case v != r3.Vec{}:
		return v
	case other != r3.Vec{}:
		return other
	}
	return r3.Vec{Z: 1}
}

// gap is DistanceUnder, beginning with the direction axis and leaving there the
// one from a to b in which the search ended.
func (p *pair) gap(axis *r3.Vec, limit float64) (Gap, bool) {
	if !(limit > 0) {
		return Gap{Distance: limit}, false
	}
	var s simplex
	switch s.search(p, axis, limit+p.rounding, 0) {
	case parted:
		return Gap{Distance: limit}, false
	case broken:
		return Gap{Distance: math.NaN()}, false
	}
	x, y := s.points()
	core := x.Dist(y)
	if s.overlap {
		core = 0
	}
	d := core - p.rounding
	if !(d > Touch) { // some point between the cores is in both solids
		m := x
		if p.rounding > 0 {
			m = x.Lerp(y, p.a.round()/p.rounding)
		}
		return Gap{A: m, B: m}, true
	}
	if d >= limit {
		return Gap{Distance: limit}, false
	}
	n := axis.Unit()
	return Gap{d, x.AddScaled(p.a.round(), n), y.AddScaled(p.a.round()-p.rounding, n)}, true
}

// clears is Clears, with axis as in gap.
func (p *pair) clears(axis *r3.Vec, margin float64) bool {
	if math.IsNaN(margin) {
		return false
	}
	margin = max(margin, math.Nextafter(Touch, 1)) + p.rounding
	var s simplex
	switch s.search(p, axis, margin, margin) {
	case parted:
		return true
	case within, broken:
		return false
	}
	return !s.overlap && axis.Norm() >= margin
}
