package bvh

import (
	"math"
	"sync"

	"seamwright/geom/r3"
)

// shut is the closure of a tree, found when it is first asked for.
type shut struct {
	once sync.Once
	is   closure
}

// Contains reports whether a point, m in the tree's frame, is inside a closed
// mesh. The answer is not known (false) where an edge of the mesh has no
// partner with the same corners, for a point on the surface to rounding, and
// for one that is not finite. Where shells overlap and face outwards the inside
// is that of all together; a shell turned inwards makes a hollow.
//
// Rays are sent in several directions; one that grazes an edge or a triangle
// edge-on is worth nothing, and two that do not must agree.
func (t *Tree) Contains(p r3.Vec) (inside, known bool) {
	t.shut.once.Do(func() { t.shut.is = t.closure() })
	if t.shut.is == open || !p.IsFinite() {
		return false, false
	}
	in, out := 0, 0
	for _, along := range rays {
		wound, count, clean := t.crossings(p, along.Unit())
		switch {
		case !clean:
			continue
		case t.shut.is == oriented && wound != 0, t.shut.is == even && count%2 != 0:
			in++
		default:
			out++
		}
		if in == 2 || out == 2 {
			return in == 2, true
		}
	}
	return false, false
}

// rays are directions in no simple ratio to each other or to the axes.
var rays = [...]r3.Vec{
	{X: 0.5773, Y: 0.3819, Z: 0.7217}, {X: -0.2113, Y: 0.8641, Z: 0.4571}, {X: 0.3467, Y: -0.6197, Z: 0.7043},
	{X: -0.7919, Y: -0.1523, Z: 0.5915}, {X: 0.1231, Y: 0.2749, Z: -0.9537}, {X: 0.9103, Y: -0.3301, Z: -0.2503},
	{X: -0.4447, Y: 0.6661, Z: -0.5987}, {X: -0.5501, Y: -0.7309, Z: -0.4049},
}

// crossings returns how often the ray from p (m) along a unit direction leaves
// the mesh more than it enters it, and how many triangles it crosses; clean is
// false if one of them is met so near an edge, so nearly edge-on or so near p that
// rounding decides.
func (t *Tree) crossings(p, along r3.Vec) (wound, count int, clean bool) {
	b := newBeam(t, p, along)
	fine := 1e-12 * (t.size + b.start.Norm()) // rounding of coordinates, m
	var stack [maxDepth + 2]int32
	for top := 1; top > 0; {
		top--
		n := &t.nodes[stack[top]]
		if math.IsInf(b.enters(n), 1) {
			continue
		}
		if n.link >= 0 {
			stack[top], stack[top+1] = n.link, n.link+1
			top += 2
			continue
		}
		first, end := n.leaf()
		for slot := first; slot < end; slot++ {
			switch b.crosses(&t.tris[slot], fine) {
			case grazes:
				return 0, 0, false
			case leaves:
				wound++
				count++
			case enters:
				wound--
				count++
			}
		}
	}
	return wound, count, true
}

// passage is how a ray goes through a triangle.
type passage uint8

const (
	misses passage = iota
	grazes
	leaves // along the normal
	enters // against it
)

// crosses returns how the beam goes through a triangle; nearer than fine (m) to
// an edge, or to the beam's origin, it grazes.
func (b *beam) crosses(t *triangle, fine float64) passage {
	p, q, r := t.a.Sub(b.from), t.b.Sub(b.from), t.c.Sub(b.from)
	px, py, qx, qy, rx, ry := b.x.Dot(p), b.y.Dot(p), b.x.Dot(q), b.y.Dot(q), b.x.Dot(r), b.y.Dot(r)
	u, v, w := rx*qy-ry*qx, px*ry-py*rx, qx*py-qy*px
	// A place nearer to an edge than fine gives less than its length times fine.
	one, two, three := math.Hypot(qx-rx, qy-ry), math.Hypot(rx-px, ry-py), math.Hypot(px-qx, py-qy)
	eu, ev, ew := fine*(one+fine), fine*(two+fine), fine*(three+fine)
	if (u < -eu || v < -ev || w < -ew) && (u > eu || v > ev || w > ew) {
		return misses
	}
	dp, dq, dr := b.along.Dot(p), b.along.Dot(q), b.along.Dot(r)
	first, last := min(dp, dq, dr), max(dp, dq, dr)
	if last < -fine {
		return misses
	}
	if math.Abs(u) <= eu || math.Abs(v) <= ev || math.Abs(w) <= ew {
		return grazes
	}
	det := u + v + w
	if !(first > fine) { // the triangle's plane may lie behind
		d := (u*dp + v*dq + w*dr) / det
		if math.Abs(d) <= fine*(1+3*max(one, two, three)*(last-first)/math.Abs(det)) {
			return grazes
		}
		if d < 0 {
			return misses
		}
	}
	if det < 0 { // counter-clockwise as seen from ahead: the normal points along
		return leaves
	}
	return enters
}
