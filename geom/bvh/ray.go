package bvh

import (
	"math"

	"seamwright/geom/r3"
)

// Hit is the place where a ray first meets a tree.
type Hit struct {
	Distance float64 // from the ray's origin, m
	At       r3.Vec  // m, in the tree's frame
	Triangle int32   // index in the mesh
}

// Ray returns the first place within reach (m) where the ray from origin (m,
// in the tree's frame) along a direction of any length meets the tree, from
// either side. Rays do not slip between triangles that share an edge; a
// triangle seen edge-on is not hit, and where one is seen almost edge-on the
// place is uncertain by up to its extent along the ray. There is no hit along a direction of no
// length or for anything that is not finite, reach apart.
//
// Woop, Benthin and Wald, Watertight Ray/Triangle Intersection (2013), from
// memory.
func (t *Tree) Ray(origin, direction r3.Vec, reach float64) (hit Hit, ok bool) {
	direction = direction.Unit()
	if !origin.IsFinite() || !direction.IsFinite() || direction == (r3.Vec{}) || !(reach >= 0) {
		return Hit{}, false
	}
	b := newBeam(t, origin, direction)
	hit.Distance = reach
	var stack [maxDepth + 2]turn
	stack[0] = turn{0, b.enters(&t.nodes[0])}
	for top := 1; top > 0; {
		top--
		if !(stack[top].away <= hit.Distance) {
			continue
		}
		n := &t.nodes[stack[top].node]
		if n.link >= 0 {
			far := turn{n.link, b.enters(&t.nodes[n.link])}
			close := turn{n.link + 1, b.enters(&t.nodes[n.link+1])}
			if far.away < close.away {
				far, close = close, far
			}
			stack[top], stack[top+1] = far, close
			top += 2
			continue
		}
		first, end := n.leaf()
		for slot := first; slot < end; slot++ {
			if d, meets := b.meets(&t.tris[slot]); meets && (d < hit.Distance || !ok && d == hit.Distance) {
				hit, ok = Hit{Distance: d, Triangle: t.given[slot]}, true
			}
		}
	}
	if !ok {
		return Hit{}, false
	}
	hit.At = origin.AddScaled(hit.Distance, direction)
	return hit, true
}

// beam is a ray: its origin and unit direction, for the boxes relative to the
// tree's mid, for the triangles with the axes x, y square to it.
type beam struct {
	from, along r3.Vec // m; dimensionless
	x, y        r3.Vec
	start, inv  r3.Vec // origin relative to the tree's mid, m; 1/along
	slack       float64
}

func newBeam(t *Tree, origin, along r3.Vec) beam {
	x := along.Orthogonal()
	b := beam{from: origin, along: along, x: x, y: along.Cross(x), start: origin.Sub(t.mid)}
	b.inv = r3.Vec{X: 1 / along.X, Y: 1 / along.Y, Z: 1 / along.Z}
	b.slack = 1e-12 * (t.size + b.start.Norm())
	return b
}

// enters returns how far along the ray it enters a node's box at least, m;
// infinite if it does not.
func (b *beam) enters(n *node) float64 {
	in, out := 0.0, math.Inf(1)
	slab := func(centre, half float32, start, inv float64) {
		lo := (float64(centre) - float64(half) - b.slack - start) * inv
		hi := (float64(centre) + float64(half) + b.slack - start) * inv
		if lo > hi {
			lo, hi = hi, lo
		}
		// A ray that runs in a face gives 0 * Inf: no number, and no bound.
		if lo > in {
			in = lo
		}
		if hi < out {
			out = hi
		}
	}
	slab(n.cx, n.hx, b.start.X, b.inv.X)
	slab(n.cy, n.hy, b.start.Y, b.inv.Y)
	slab(n.cz, n.hz, b.start.Z, b.inv.Z)
	if in > out+b.slack {
		return math.Inf(1)
	}
	return in - b.slack
}

// meets returns the distance (m) along the ray at which it meets a triangle.
// A corner is taken to the same place whichever triangle it belongs to, so no
// ray passes between neighbours.
func (b *beam) meets(t *triangle) (float64, bool) {
	p, q, r := t.a.Sub(b.from), t.b.Sub(b.from), t.c.Sub(b.from)
	px, py, qx, qy, rx, ry := b.x.Dot(p), b.y.Dot(p), b.x.Dot(q), b.y.Dot(q), b.x.Dot(r), b.y.Dot(r)
	// Rounded products, so that a shared edge has opposite signs on its sides.
	u := float64(rx*qy) - float64(ry*qx)
	v := float64(px*ry) - float64(py*rx)
	w := float64(qx*py) - float64(qy*px)
	if (u < 0 || v < 0 || w < 0) && (u > 0 || v > 0 || w > 0) {
		return 0, false
	}
	det := u + v + w
	if det == 0 {
		return 0, false
	}
	d := (u*b.along.Dot(p) + v*b.along.Dot(q) + w*b.along.Dot(r)) / det
	return d, d >= 0
}
