package bvh

import (
	"math"

	"seamwright/geom/r3"
)

// contact is the nearest pair of points of two triangles, in one frame.
type contact struct {
	d    float64 // m
	p, q r3.Vec  // on the first and on the second, m
}

// between returns the nearest points of two triangles in one frame if they
// are closer than limit (m). Otherwise ok is false and p and q are some points
// between which the triangles are apart by limit, if any were looked at.
//
// Nearest points are two edges', or a corner and a face on whose one side the
// whole other triangle lies, or the triangles cross, and then an edge of one
// runs through the face of the other. The early exits are those of Larsen,
// Gottschalk, Lin and Manocha 1999 (UNC TR99-018; from memory).
func between(a, b *triangle, limit float64) (c contact, ok bool) {
	if a.n == (r3.Vec{}) || b.n == (r3.Vec{}) {
		return betweenThin(a, b, limit)
	}
	// Heights of b's corners over the plane of a, and the other way round.
	b0, b1, b2 := a.n.Dot(b.a.Sub(a.a)), a.n.Dot(b.b.Sub(a.a)), a.n.Dot(b.c.Sub(a.a))
	apart := false // by more than rounding
	if sameSide(b0, b1, b2) {
		h, p := lowest(b, b0, b1, b2)
		if math.Abs(h) >= limit {
			return contact{q: a.n.Scale(h)}, false
		}
		if foot := p.AddScaled(-h, a.n); inside(a, foot) {
			return contact{math.Abs(h), foot, p}, true
		}
		apart = math.Abs(h) > Touch
	}
	a0, a1, a2 := b.n.Dot(a.a.Sub(b.a)), b.n.Dot(a.b.Sub(b.a)), b.n.Dot(a.c.Sub(b.a))
	if sameSide(a0, a1, a2) {
		h, p := lowest(a, a0, a1, a2)
		if math.Abs(h) >= limit {
			return contact{q: b.n.Scale(-h)}, false
		}
		if foot := p.AddScaled(-h, b.n); inside(b, foot) {
			return contact{math.Abs(h), p, foot}, true
		}
		apart = apart || math.Abs(h) > Touch
	}
	if !apart {
		if x, hit := crossing(a, b, a0, a1, a2, b0, b1, b2); hit {
			return contact{0, x, x}, limit > 0
		}
	}
	return betweenEdges(a, b, limit)
}

func sameSide(x, y, z float64) bool {
	return x >= 0 && y >= 0 && z >= 0 || x <= 0 && y <= 0 && z <= 0
}

// lowest returns the corner nearest to the plane over which the corners of t
// have the heights x, y and z, all of one sign, and its height, m.
func lowest(t *triangle, x, y, z float64) (float64, r3.Vec) {
	h, p := x, t.a
	if math.Abs(y) < math.Abs(h) {
		h, p = y, t.b
	}
	if math.Abs(z) < math.Abs(h) {
		h, p = z, t.c
	}
	return h, p
}

// inside reports whether the point x of t's plane is in t or on its edge. It is
// not in a triangle that has lost its area to rounding at some pose.
func inside(t *triangle, x r3.Vec) bool {
	u := t.n.Dot(t.b.Sub(t.a).Cross(x.Sub(t.a)))
	v := t.n.Dot(t.c.Sub(t.b).Cross(x.Sub(t.b)))
	w := t.n.Dot(t.a.Sub(t.c).Cross(x.Sub(t.c)))
	return u >= 0 && v >= 0 && w >= 0 && u+v+w > 0
}

// crossing looks for an edge of one triangle through the face of the other.
// a0 to a2 are the heights of a's corners over b's plane, b0 to b2 those of
// b's over a's, m.
func crossing(a, b *triangle, a0, a1, a2, b0, b1, b2 float64) (r3.Vec, bool) {
	if x, hit := pierce(b, a.a, a.b, a0, a1); hit {
		return x, true
	}
	if x, hit := pierce(b, a.b, a.c, a1, a2); hit {
		return x, true
	}
	if x, hit := pierce(b, a.c, a.a, a2, a0); hit {
		return x, true
	}
	if x, hit := pierce(a, b.a, b.b, b0, b1); hit {
		return x, true
	}
	if x, hit := pierce(a, b.b, b.c, b1, b2); hit {
		return x, true
	}
	return pierce(a, b.c, b.a, b2, b0)
}

// pierce returns where the segment from p to q, at the heights hp and hq (m)
// over the plane of t, runs through t.
func pierce(t *triangle, p, q r3.Vec, hp, hq float64) (r3.Vec, bool) {
	if hp > 0 && hq > 0 || hp < 0 && hq < 0 {
		return r3.Vec{}, false
	}
	if hp != 0 { // then they differ
		p = p.Lerp(q, hp/(hp-hq))
	}
	return p, inside(t, p)
}

// betweenEdges is between for triangles of which no corner's foot on the other
// and no crossing gives the answer.
func betweenEdges(a, b *triangle, limit float64) (best contact, ok bool) {
	pa := [3]r3.Vec{a.a, a.b, a.c}
	pb := [3]r3.Vec{b.a, b.b, b.c}
	eb := [3]r3.Vec{b.b.Sub(b.a), b.c.Sub(b.b), b.a.Sub(b.c)}
	bb := [3]float64{eb[0].Dot(eb[0]), eb[1].Dot(eb[1]), eb[2].Dot(eb[2])}
	least := limit * limit
	for i, p := range pa {
		u := pa[(i+1)%3].Sub(p)
		uu := u.Dot(u)
		thirdA := pa[(i+2)%3]
		for j, q := range pb {
			s, t := segments(p, u, uu, q, eb[j], bb[j])
			x, y := p.AddScaled(s, u), q.AddScaled(t, eb[j])
			v := y.Sub(x)
			vv := v.Dot(v)
			// How far the third corners stand out of the slab between x and y.
			outA, outB := thirdA.Sub(x).Dot(v), pb[(j+2)%3].Sub(y).Dot(v)
			if outA <= 0 && outB >= 0 { // not at all: nothing is nearer
				if vv < least || ok {
					return contact{math.Sqrt(vv), x, y}, true
				}
				return contact{0, x, y}, false
			}
			if gap := vv - max(outA, 0) + min(outB, 0); gap > 0 && gap*gap >= least*vv {
				if ok {
					return best, true
				}
				return contact{0, x, y}, false // all points are apart by gap/|v| or more
			}
			if vv < least {
				least, best, ok = vv, contact{math.Sqrt(vv), x, y}, true
			}
		}
	}
	return best, ok
}

// betweenThin is between for triangles of which one is no more than a segment.
func betweenThin(a, b *triangle, limit float64) (best contact, ok bool) {
	best.d = limit
	take := func(p, q r3.Vec) {
		if d := p.Dist(q); d < best.d {
			best, ok = contact{d, p, q}, true
		}
	}
	pa := [3]r3.Vec{a.a, a.b, a.c}
	pb := [3]r3.Vec{b.a, b.b, b.c}
	for i, p := range pa {
		u := pa[(i+1)%3].Sub(p)
		for j, q := range pb {
			v := pb[(j+1)%3].Sub(q)
			s, t := segments(p, u, u.Dot(u), q, v, v.Dot(v))
			take(p.AddScaled(s, u), q.AddScaled(t, v))
		}
	}
	for i := range 3 {
		take(pa[i], nearest(b, pa[i]))
		take(nearest(a, pb[i]), pb[i])
		for _, c := range [2]struct {
			t    *triangle
			p, q r3.Vec
		}{{b, pa[i], pa[(i+1)%3]}, {a, pb[i], pb[(i+1)%3]}} {
			if x, hit := pierce(c.t, c.p, c.q, c.t.n.Dot(c.p.Sub(c.t.a)), c.t.n.Dot(c.q.Sub(c.t.a))); hit {
				take(x, x)
			}
		}
	}
	return best, ok
}
