package collision

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// blur is taken off every bound by balls and boxes, m: more than the rounding
// of poses and sizes at workshop scale.
const blur = 1e-12

// pairing is what the queries need of a pair.
type pairing struct {
	a, b       int
	big, small int     // the same two by the size of their balls
	radii      float64 // of both balls together, with blur, m
}

func newPairing(m *Model, p Pair) pairing {
	k := pairing{a: p.A, b: p.B, big: p.A, small: p.B}
	a, b := m.placed[p.A].hull.radius, m.placed[p.B].hull.radius
	if b > a {
		k.big, k.small = p.B, p.A
	}
	k.radii = a + b + blur
	return k
}

// apart returns a distance (m) that the pair's bodies keep at least, by their
// balls and, where these do not show that they keep enough (m), by their boxes.
// It may be negative.
func (m *Model) apart(s *Scratch, k *pairing, enough float64) float64 {
	v := s.centres[k.small].Sub(s.centres[k.big])
	d := math.Sqrt(v.Dot(v)) - k.radii
	if d >= enough {
		return d
	}
	return max(d, m.boxesApart(s, k, v, enough))
}

// boxesApart is apart by the boxes; v leads from the big one's middle to the
// small one's in the base, m.
func (m *Model) boxesApart(s *Scratch, k *pairing, v r3.Vec, enough float64) float64 {
	big, small := &m.crates[k.big], &m.crates[k.small]
	rb := &m.pose(s, k.big).R
	b := rb.T().Apply(v)
	bx, by, bz := math.Abs(b.X)-big.half.X, math.Abs(b.Y)-big.half.Y, math.Abs(b.Z)-big.half.Z
	d := length(bx, by, bz) - small.radius - blur // box to ball
	if d >= enough {
		return d
	}
	rs := &m.pose(s, k.small).R
	r := turnOf(rb, rs)
	d = max(d, length( // box to box, along the axes of the big one
		bx-(r[0]*small.half.X+r[1]*small.half.Y+r[2]*small.half.Z),
		by-(r[3]*small.half.X+r[4]*small.half.Y+r[5]*small.half.Z),
		bz-(r[6]*small.half.X+r[7]*small.half.Y+r[8]*small.half.Z))-blur)
	if d >= enough {
		return d
	}
	a := rs.T().Apply(v)
	ax, ay, az := math.Abs(a.X)-small.half.X, math.Abs(a.Y)-small.half.Y, math.Abs(a.Z)-small.half.Z
	return max(d, length(ax, ay, az)-big.radius-blur, length(
		ax-(r[0]*big.half.X+r[3]*big.half.Y+r[6]*big.half.Z),
		ay-(r[1]*big.half.X+r[4]*big.half.Y+r[7]*big.half.Z),
		az-(r[2]*big.half.X+r[5]*big.half.Y+r[8]*big.half.Z))-blur)
}

// turnOf returns the absolute values of the rotation between two frames.
func turnOf(a, b *se3.Rot) (r se3.Rot) {
	for i := range 3 {
		for j := range 3 {
			r[3*i+j] = math.Abs(a[i]*b[j] + a[3+i]*b[3+j] + a[6+i]*b[6+j])
		}
	}
	return r
}

// length returns the length of the vector of what is positive.
func length(x, y, z float64) float64 {
	x, y, z = max(0, x), max(0, y), max(0, z)
	return math.Sqrt(x*x + y*y + z*z)
}

// quick is what Clear needs of a pair at first.
type quick struct {
	radii            float64 // of both balls together, with blur, m
	big, small, pair int32
}

// verdict is what a look at boxes says of a pair.
type verdict int8

const (
	open verdict = iota // to be looked at closely
	clears
	touches
)

// boxes reports whether the boxes of a pair show that it keeps enough, m, or that
// it touches. It is boxesApart without roots.
func (m *Model) boxes(s *Scratch, k *quick, enough float64) verdict {
	big, small := &m.crates[k.big], &m.crates[k.small]
	v := s.centres[k.small].Sub(s.centres[k.big])
	enough += blur
	rb := &m.pose(s, int(k.big)).R
	bx := math.Abs(rb[0]*v.X+rb[3]*v.Y+rb[6]*v.Z) - big.half.X
	by := math.Abs(rb[1]*v.X+rb[4]*v.Y+rb[7]*v.Z) - big.half.Y
	bz := math.Abs(rb[2]*v.X+rb[5]*v.Y+rb[8]*v.Z) - big.half.Z
	if beyond(bx, by, bz, enough+small.radius) {
		return clears
	}
	if big.full && small.inner > 0 && !beyond(bx, by, bz, small.inner) {
		return touches
	}
	rs := &m.pose(s, int(k.small)).R
	r := turnOf(rb, rs)
	if beyond(
		bx-(r[0]*small.half.X+r[1]*small.half.Y+r[2]*small.half.Z),
		by-(r[3]*small.half.X+r[4]*small.half.Y+r[5]*small.half.Z),
		bz-(r[6]*small.half.X+r[7]*small.half.Y+r[8]*small.half.Z), enough) {
		return clears
	}
	ax := math.Abs(rs[0]*v.X+rs[3]*v.Y+rs[6]*v.Z) - small.half.X
	ay := math.Abs(rs[1]*v.X+rs[4]*v.Y+rs[7]*v.Z) - small.half.Y
	az := math.Abs(rs[2]*v.X+rs[5]*v.Y+rs[8]*v.Z) - small.half.Z
	if beyond(
		ax-(r[0]*big.half.X+r[3]*big.half.Y+r[6]*big.half.Z),
		ay-(r[1]*big.half.X+r[4]*big.half.Y+r[7]*big.half.Z),
		az-(r[2]*big.half.X+r[5]*big.half.Y+r[8]*big.half.Z), enough) {
		return clears
	}
	return open
}

// beyond reports whether the vector of what is positive is longer than d, m.
func beyond(x, y, z, d float64) bool {
	x, y, z = max(0, x), max(0, y), max(0, z)
	return x*x+y*y+z*z > d*d
}
