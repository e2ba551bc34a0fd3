package bvh

import (
	"math"

	"seamwright/geom/r3"
)

// Capsule holds all points within Radius (m) of the segment from P to Q (m, in
// the tree's frame). With P = Q it is a ball, with radius 0 a segment or point.
type Capsule struct {
	P, Q   r3.Vec
	Radius float64
}

// Spot is the place of a tree that is nearest to a capsule.
type Spot struct {
	Distance float64 // from the capsule's surface, m; 0 where it touches or crosses
	At       r3.Vec  // on the tree, m, in its frame
	Axis     r3.Vec  // on the capsule's segment, m, in the tree's frame
	Triangle int32   // index in the mesh
}

// Nearest returns the place of a tree nearest to a point, m in the tree's
// frame. For a point that is not finite the distance is NaN.
func (t *Tree) Nearest(p r3.Vec) Spot {
	spot, _ := t.NearestUnder(Capsule{P: p, Q: p}, math.Inf(1))
	return spot
}

// NearestUnder returns the place of a tree nearest to a capsule if it is nearer
// than limit, m. Otherwise near is false and spot.Distance is the limit, which
// the capsule is away at least. A capsule that is not finite, has a negative
// radius, or a limit that is no number gives the distance NaN.
func (t *Tree) NearestUnder(c Capsule, limit float64) (spot Spot, near bool) {
	if !c.P.IsFinite() || !c.Q.IsFinite() || !(c.Radius >= 0) || math.IsInf(c.Radius, 1) || math.IsNaN(limit) {
		return Spot{Distance: math.NaN(), Triangle: -1}, false
	}
	if !(limit > 0) {
		return Spot{Distance: limit, Triangle: -1}, false
	}
	s := newSearch(t, c.P, c.Q, limit+c.Radius)
	s.run(c.Radius)
	if s.spot.Triangle < 0 {
		return Spot{Distance: limit, Triangle: -1}, false
	}
	s.spot.Distance = s.best - c.Radius
	if !(s.spot.Distance > Touch) {
		s.spot.Distance = 0
	}
	s.spot.Triangle = t.given[s.spot.Triangle]
	return s.spot, true
}

// clearsCapsule reports whether a capsule is margin (m) or more away. It stops
// at the first triangle that is nearer.
func (t *Tree) clearsCapsule(c Capsule, margin float64) bool {
	s := newSearch(t, c.P, c.Q, margin+c.Radius)
	s.run(math.Nextafter(margin+c.Radius, 0))
	return s.spot.Triangle < 0
}

// run looks at all triangles that may be nearer to the segment than the best
// one, until one is found as near as enough, m.
func (s *search) run(enough float64) {
	t := s.tree
	for top := 1; top > 0 && s.best > enough; {
		top--
		if s.stack[top].away >= s.best {
			continue
		}
		n := &t.nodes[s.stack[top].node]
		if n.link < 0 {
			s.leaf(n)
			continue
		}
		far := turn{n.link, s.away(&t.nodes[n.link])}
		close := turn{n.link + 1, s.away(&t.nodes[n.link+1])}
		if far.away < close.away {
			far, close = close, far
		}
		s.stack[top], s.stack[top+1] = far, close
		top += 2
	}
}

// turn is a node still to be looked at, and how far it is away at least, m.
type turn struct {
	node int32
	away float64
}

// search is the state of one query for the place nearest to a segment.
type search struct {
	tree     *Tree
	p, q, u  r3.Vec // ends and q - p, m
	uu       float64
	mid, arm r3.Vec // of the segment, relative to the tree's mid: middle, half sizes
	slack    float64
	best     float64 // distances under this are looked for, m
	spot     Spot
	stack    [maxDepth + 2]turn
}

func newSearch(t *Tree, p, q r3.Vec, limit float64) search {
	u := q.Sub(p)
	s := search{tree: t, p: p, q: q, u: u, uu: u.Dot(u), best: limit, spot: Spot{Triangle: -1}}
	s.mid = p.Lerp(q, 0.5).Sub(t.mid)
	s.arm = r3.Vec{X: math.Abs(u.X) / 2, Y: math.Abs(u.Y) / 2, Z: math.Abs(u.Z) / 2}
	s.slack = 1e-12 * (t.size + s.mid.Norm() + s.arm.Norm())
	return s
}

// away returns how far the segment is from a node's box or ball at least, m.
func (s *search) away(n *node) float64 {
	c := r3.Vec{X: float64(n.cx), Y: float64(n.cy), Z: float64(n.cz)}
	d := s.mid.Sub(c)
	gap := r3.Vec{
		X: max(0, math.Abs(d.X)-s.arm.X-float64(n.hx)),
		Y: max(0, math.Abs(d.Y)-s.arm.Y-float64(n.hy)),
		Z: max(0, math.Abs(d.Z)-s.arm.Z-float64(n.hz)),
	}
	f := unit(s.uu/2-d.Dot(s.u), s.uu) // the centre's foot on the segment
	ball := d.AddScaled(f-0.5, s.u).Norm() - float64(n.r)
	return max(gap.Norm(), ball) - s.slack
}

// leaf compares the segment with the triangles of a leaf.
func (s *search) leaf(n *node) {
	first, end := n.leaf()
	for slot := first; slot < end; slot++ {
		t := &s.tree.tris[slot]
		hp, hq := t.n.Dot(s.p.Sub(t.a)), t.n.Dot(s.q.Sub(t.a))
		if h := min(math.Abs(hp), math.Abs(hq)); h >= s.best && (hp > 0) == (hq > 0) {
			continue // on one side, and too far from the plane
		}
		s.take(slot, s.p, nearest(t, s.p))
		if s.uu == 0 {
			continue
		}
		s.take(slot, s.q, nearest(t, s.q))
		if x, hit := pierce(t, s.p, s.q, hp, hq); hit {
			s.take(slot, x, x)
		}
		for _, e := range [3][2]*r3.Vec{{&t.a, &t.b}, {&t.b, &t.c}, {&t.c, &t.a}} {
			v := e[1].Sub(*e[0])
			f, g := segments(s.p, s.u, s.uu, *e[0], v, v.Dot(v))
			s.take(slot, s.p.AddScaled(f, s.u), e[0].AddScaled(g, v))
		}
	}
}

func (s *search) take(slot int32, axis, at r3.Vec) {
	if d := axis.Dist(at); d < s.best {
		s.best, s.spot = d, Spot{At: at, Axis: axis, Triangle: slot}
	}
}
