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
	a, b  int
	radii float64 // of both balls together, with blur, m
}

func newPairing(m *Model, p Pair) pairing {
	a, b := &m.bodies[p.A], &m.bodies[p.B]
	return pairing{a: p.A, b: p.B, radii: a.Shape.hull.radius + b.Shape.hull.radius + blur}
}

// apart returns a distance (m) that the pair's bodies keep at least, by their
// balls and, where these do not show that they keep enough (m), by their boxes.
// It may be negative.
func (m *Model) apart(s *Scratch, k *pairing, enough float64) float64 {
	v := s.centres[k.b].Sub(s.centres[k.a])
	d := math.Sqrt(v.Dot(v)) - k.radii
	if d >= enough {
		return d
	}
	return max(d, m.boxesApart(s, k, v, enough))
}

// boxesApart is apart by the boxes; v leads from a's middle to b's in the base,
// m.
func (m *Model) boxesApart(s *Scratch, k *pairing, v r3.Vec, enough float64) float64 {
	ra, rb := &m.pose(s, k.a).R, &m.pose(s, k.b).R
	ha, hb := m.placed[k.a].hull, m.placed[k.b].hull
	// In a's axes: box of a to ball of b; then the same in b's.
	ax := math.Abs(ra[0]*v.X+ra[3]*v.Y+ra[6]*v.Z) - ha.half.X
	ay := math.Abs(ra[1]*v.X+ra[4]*v.Y+ra[7]*v.Z) - ha.half.Y
	az := math.Abs(ra[2]*v.X+ra[5]*v.Y+ra[8]*v.Z) - ha.half.Z
	d := length(ax, ay, az) - hb.radius - blur
	if d >= enough {
		return d
	}
	bx := math.Abs(rb[0]*v.X+rb[3]*v.Y+rb[6]*v.Z) - hb.half.X
	by := math.Abs(rb[1]*v.X+rb[4]*v.Y+rb[7]*v.Z) - hb.half.Y
	bz := math.Abs(rb[2]*v.X+rb[5]*v.Y+rb[8]*v.Z) - hb.half.Z
	d = max(d, length(bx, by, bz)-ha.radius-blur)
	if d >= enough {
		return d
	}
	// Box to box in the axes of each.
	r := turnOf(ra, rb)
	d = max(d, length(
		ax-(r[0]*hb.half.X+r[1]*hb.half.Y+r[2]*hb.half.Z),
		ay-(r[3]*hb.half.X+r[4]*hb.half.Y+r[5]*hb.half.Z),
		az-(r[6]*hb.half.X+r[7]*hb.half.Y+r[8]*hb.half.Z))-blur)
	if d >= enough {
		return d
	}
	return max(d, length(
		bx-(r[0]*ha.half.X+r[3]*ha.half.Y+r[6]*ha.half.Z),
		by-(r[1]*ha.half.X+r[4]*ha.half.Y+r[7]*ha.half.Z),
		bz-(r[2]*ha.half.X+r[5]*ha.half.Y+r[8]*ha.half.Z))-blur)
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
	radii      float64 // of both balls together, with blur, m
	a, b, pair int32
}

// boxesClear reports whether the boxes of a pair show that it keeps enough, m;
// v leads from a's middle to b's in the base, m. It is boxesApart without roots.
func (m *Model) boxesClear(s *Scratch, k *quick, v r3.Vec, enough float64) bool {
	ra, rb := &m.pose(s, int(k.a)).R, &m.pose(s, int(k.b)).R
	ha, hb := m.placed[k.a].hull, m.placed[k.b].hull
	enough += blur
	ax := math.Abs(ra[0]*v.X+ra[3]*v.Y+ra[6]*v.Z) - ha.half.X
	ay := math.Abs(ra[1]*v.X+ra[4]*v.Y+ra[7]*v.Z) - ha.half.Y
	az := math.Abs(ra[2]*v.X+ra[5]*v.Y+ra[8]*v.Z) - ha.half.Z
	if beyond(ax, ay, az, enough+hb.radius) {
		return true
	}
	bx := math.Abs(rb[0]*v.X+rb[3]*v.Y+rb[6]*v.Z) - hb.half.X
	by := math.Abs(rb[1]*v.X+rb[4]*v.Y+rb[7]*v.Z) - hb.half.Y
	bz := math.Abs(rb[2]*v.X+rb[5]*v.Y+rb[8]*v.Z) - hb.half.Z
	if beyond(bx, by, bz, enough+ha.radius) {
		return true
	}
	r := turnOf(ra, rb)
	return beyond(
		ax-(r[0]*hb.half.X+r[1]*hb.half.Y+r[2]*hb.half.Z),
		ay-(r[3]*hb.half.X+r[4]*hb.half.Y+r[5]*hb.half.Z),
		az-(r[6]*hb.half.X+r[7]*hb.half.Y+r[8]*hb.half.Z), enough) || beyond(
		bx-(r[0]*ha.half.X+r[3]*ha.half.Y+r[6]*ha.half.Z),
		by-(r[1]*ha.half.X+r[4]*ha.half.Y+r[7]*ha.half.Z),
		bz-(r[2]*ha.half.X+r[5]*ha.half.Y+r[8]*ha.half.Z), enough)
}

// beyond reports whether the vector of what is positive is longer than d, m.
func beyond(x, y, z, d float64) bool {
	x, y, z = max(0, x), max(0, y), max(0, z)
	return x*x+y*y+z*z > d*d
}
