package bvh

import (
	"math"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// SolidSpot is the place where a tree and a solid are nearest.
type SolidSpot struct {
	Distance float64 // m; 0 where they touch or cross
	At       r3.Vec  // on the tree, m, in its frame
	On       r3.Vec  // of the solid, m, in the tree's frame; equal to At where the distance is 0
	Triangle int32   // on which At lies: its index in the mesh
}

// SolidUnder returns the place of a tree nearest to a solid at a pose if it is
// nearer than limit, m. Otherwise near is false and spot.Distance is the limit,
// which they are apart at least. The solid is filled, the tree is a surface:
// what of it lies in the solid touches it, and a solid wholly inside a closed
// mesh is as far from it as from its skin (see Contains). At a pose that is not
// finite, or with a limit that is no number, the distance is NaN.
func (t *Tree) SolidUnder(s *convex.Solid, treeFromSolid se3.Pose, limit float64) (spot SolidSpot, near bool) {
	return t.SolidUnderFrom(s, treeFromSolid, limit, -1)
}

// SolidUnderFrom is SolidUnder for a pose near one whose answer is known: start
// is that answer's Triangle. A good start saves time, the distance (m) is the
// same to rounding from any; one that the tree does not have makes it begin
// afresh.
func (t *Tree) SolidUnderFrom(s *convex.Solid, treeFromSolid se3.Pose, limit float64, start int32) (spot SolidSpot, near bool) {
	if !finite(treeFromSolid) || math.IsNaN(limit) {
		return SolidSpot{Distance: math.NaN(), Triangle: -1}, false
	}
	if c, ok := capsuleOf(s, &treeFromSolid); ok {
		at, near := t.NearestUnder(c, limit)
		spot = SolidSpot{Distance: at.Distance, At: at.At, On: at.At, Triangle: at.Triangle}
		if near && at.Distance > 0 {
			spot.On = at.Axis.AddScaled(c.Radius, at.At.Sub(at.Axis).Unit())
		}
		return spot, near
	}
	var p press
	p.start(t, s, treeFromSolid, limit)
	if start >= 0 && int(start) < len(t.slot) {
		p.try(t.slot[start])
	} else if limit > min(t.size, float64(p.box.r))/10 {
		p.seed()
	}
	p.run(false)
	if !p.found {
		return SolidSpot{Distance: limit, Triangle: -1}, false
	}
	p.spot.Triangle = t.given[p.spot.Triangle]
	return p.spot, true
}

// ClearsSolid reports whether a tree and a solid at a pose are apart by at least
// margin, m. It stops at the first triangle that is nearer. A margin of Touch or
// less asks whether they neither touch nor cross. At a pose that is not finite,
// or with a margin that is no number, the answer is false.
func (t *Tree) ClearsSolid(s *convex.Solid, treeFromSolid se3.Pose, margin float64) bool {
	if !finite(treeFromSolid) || math.IsNaN(margin) {
		return false
	}
	margin = max(margin, math.Nextafter(Touch, 1))
	if c, ok := capsuleOf(s, &treeFromSolid); ok {
		return t.clearsCapsule(c, margin)
	}
	var p press
	p.start(t, s, treeFromSolid, margin)
	p.run(true)
	return !p.found
}

// capsuleOf returns a ball or a capsule at a pose; ok is false for other solids.
func capsuleOf(s *convex.Solid, treeFromSolid *se3.Pose) (c Capsule, ok bool) {
	c = Capsule{P: treeFromSolid.P, Q: treeFromSolid.P, Radius: s.Radius}
	switch s.Kind {
	case convex.Sphere:
		return c, true
	case convex.Capsule:
		c.P = c.P.AddScaled(-s.Length/2, treeFromSolid.R.Z())
		c.Q = c.Q.AddScaled(s.Length/2, treeFromSolid.R.Z())
		return c, true
	}
	return c, false
}

// press is the state of one query between a tree and a solid: a walk through
// the tree beside the one box that holds the solid. It lives on the stack.
type press struct {
	walk
	solid  *convex.Solid
	box    node // of the solid, in its frame
	spot   SolidSpot
	bottom float64 // the least height of the solid along walk.along, m
}

// start prepares a query for distances under limit, m.
func (p *press) start(t *Tree, s *convex.Solid, treeFromSolid se3.Pose, limit float64) {
	outer := s.Outer()
	p.place(t, treeFromSolid, ball{size: outer}, limit)
	_, h := s.Bounds()
	p.solid = s
	p.box = node{hx: above(h.X), hy: above(h.Y), hz: above(h.Z), r: above(outer)}
}

// seed tries the triangle with a corner near the middle of the solid.
func (p *press) seed() {
	if slot, _, ok := p.a.nearCorner(p.pose.P, math.Inf(1)); ok {
		p.try(slot)
	}
}

// run looks at all triangles that may be nearer than the limit, or, if any is
// enough, until it has found one.
func (p *press) run(any bool) {
	if p.found && (any || p.best == 0) {
		return
	}
	var stack [maxDepth + 2]visit
	key, _, near := p.bound(&p.a.nodes[0], &p.box)
	if !near {
		return
	}
	stack[0] = visit{key: key}
	for top := 1; top > 0; {
		top--
		at := stack[top]
		for at.key < p.limit*p.limit {
			n := &p.a.nodes[at.a]
			if n.link < 0 {
				p.leaf(n)
				if p.found && (any || p.best == 0) {
					return
				}
				break
			}
			first, second := visit{a: n.link}, visit{a: n.link + 1}
			key, centres, one := p.bound(&p.a.nodes[first.a], &p.box)
			other, others, two := p.bound(&p.a.nodes[second.a], &p.box)
			first.key, second.key = key, other
			if !one && !two {
				break
			}
			if one && two {
				if other < key || other == key && others < centres {
					first, second = second, first
				}
				stack[top] = second
				top++
			} else if two {
				first = second
			}
			at = first
		}
	}
}

// leaf compares the solid with the triangles of a leaf: first their extents
// along the direction looked along, then themselves.
func (p *press) leaf(n *node) {
	first, end := n.leaf()
	for slot := first; slot < end; slot++ {
		t := &p.a.tris[slot]
		if p.bottom-max(p.along.Dot(t.a), p.along.Dot(t.b), p.along.Dot(t.c)) > p.best {
			continue
		}
		p.try(slot)
	}
}

// try compares the solid with the triangle in a slot.
func (p *press) try(slot int32) {
	t := &p.a.tris[slot]
	r, o := &p.pose.R, p.pose.P
	in := func(q r3.Vec) r3.Vec { // the solid's frame
		q = q.Sub(o)
		return r3.Vec{X: r[0]*q.X + r[3]*q.Y + r[6]*q.Z, Y: r[1]*q.X + r[4]*q.Y + r[7]*q.Z, Z: r[2]*q.X + r[5]*q.Y + r[8]*q.Z}
	}
	moved := convex.Triangle{A: in(t.a), B: in(t.b), C: in(t.c)}
	gap, near := convex.DistanceTriangleUnder(p.solid, &moved, p.best)
	if !near {
		return
	}
	p.found = true
	p.spot = SolidSpot{Distance: gap.Distance, At: p.pose.Apply(gap.B), On: p.pose.Apply(gap.A), Triangle: slot}
	if gap.Distance == 0 {
		p.spot.On = p.spot.At
	}
	p.under(gap.Distance)
	p.look(p.spot.At, p.spot.On)
	p.bottom = p.along.Dot(o.Add(p.pose.R.Apply(p.solid.Support(p.back.Neg()))))
}
