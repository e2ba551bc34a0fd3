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
// which they are apart at least. The distance is the least but for Blur. The
// solid is filled, the tree is a surface: what of it lies in the solid touches
// it, and a solid wholly inside a closed mesh is as far from it as from its skin
// (see Contains). At a pose or of a size that is not finite, or with a limit that
// is no number, the distance is NaN.
func (t *Tree) SolidUnder(s *convex.Solid, treeFromSolid se3.Pose, limit float64) (spot SolidSpot, near bool) {
	return t.SolidUnderFrom(s, treeFromSolid, limit, -1)
}

// SolidUnderFrom is SolidUnder for a pose near one whose answer is known: start
// is that answer's Triangle. A good start saves time, the distance (m) is the
// same to rounding from any; one that the tree does not have makes it begin
// afresh.
func (t *Tree) SolidUnderFrom(s *convex.Solid, treeFromSolid se3.Pose, limit float64, start int32) (spot SolidSpot, near bool) {
	if !placed(s, treeFromSolid) || math.IsNaN(limit) {
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
// less asks whether they neither touch nor cross. At a pose or of a size that is
// not finite, or with a margin that is no number, the answer is false.
func (t *Tree) ClearsSolid(s *convex.Solid, treeFromSolid se3.Pose, margin float64) bool {
	if !placed(s, treeFromSolid) || math.IsNaN(margin) {
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

// placed reports whether the pose and the sizes of a solid are finite.
func placed(s *convex.Solid, treeFromSolid se3.Pose) bool {
	size := s.Outer()
	return finite(treeFromSolid) && size-size == 0
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
	solid *convex.Solid
	box   node // of the solid, in its frame
	spot  SolidSpot
	blur  float64 // by how much a place must be nearer to count, m
	// sides are directions from which much was told apart: that of the nearest place
	// first, and planes of the tree, which take turns.
	sides [3]side
	turn  int
}

// Blur is by how much, m and for each metre of the tree's size, a place must be
// nearer to a solid than another to be told apart from it. Without it every
// triangle of a plate would be looked at, since all lie at the same height.
const Blur = 1e-7

// start prepares a query for distances under limit, m.
func (p *press) start(t *Tree, s *convex.Solid, treeFromSolid se3.Pose, limit float64) {
	outer := s.Outer()
	p.place(t, treeFromSolid, ball{size: outer}, limit)
	_, h := s.Bounds()
	p.solid, p.blur = s, Blur*max(1, t.size)
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
			key, centres, one := p.nearer(&p.a.nodes[first.a])
			other, others, two := p.nearer(&p.a.nodes[second.a])
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

// side is a direction along which the solid lies above what is left aside.
type side struct {
	up     r3.Vec  // unit direction in the tree's frame; 0: none
	bottom float64 // the least height of the solid along it, m
	middle float64 // the height of the tree's middle, m
}

// sideOf returns the side of a direction.
func (p *press) sideOf(up r3.Vec) side {
	down := p.inSolid(up).Neg()
	return side{up, up.Dot(p.pose.P) - down.Dot(p.solid.Support(down)), up.Dot(p.a.mid)}
}

// inSolid turns a vector of the tree's frame into the solid's.
func (p *press) inSolid(v r3.Vec) r3.Vec { return p.pose.R.T().Apply(v) }

// above reports whether the solid is above a box of the tree by at least d, m.
func (s *side) above(n *node, d float64) bool {
	x, y, z := s.up.X, s.up.Y, s.up.Z
	top := s.middle + x*float64(n.cx) + y*float64(n.cy) + z*float64(n.cz) +
		math.Abs(x)*float64(n.hx) + math.Abs(y)*float64(n.hy) + math.Abs(z)*float64(n.hz)
	return s.bottom-top >= d
}

// over reports whether the solid is above a triangle by at least d, m.
func (s *side) over(t *triangle, d float64) bool {
	return s.bottom-max(s.up.Dot(t.a), s.up.Dot(t.b), s.up.Dot(t.c)) >= d
}

// nearer bounds the distance from below as bound does; near is false where the box
// lies wholly below the solid, seen from one of the sides that are known.
func (p *press) nearer(n *node) (key, centres float32, near bool) {
	if p.best > 0 {
		for i := range p.sides {
			if s := &p.sides[i]; s.up != (r3.Vec{}) && s.above(n, p.best) {
				return 0, 0, false
			}
		}
	}
	return p.bound(n, &p.box)
}

// leaf compares the solid with the triangles of a leaf: first from the sides that
// are known, then by their own planes, then themselves.
func (p *press) leaf(n *node) {
	first, end := n.leaf()
next:
	for slot := first; slot < end; slot++ {
		t := &p.a.tris[slot]
		if p.best > 0 {
			for i := range p.sides {
				if s := &p.sides[i]; s.up != (r3.Vec{}) && s.over(t, p.best) {
					continue next
				}
			}
			if p.overPlane(t) {
				continue
			}
		}
		p.try(slot)
	}
}

// overPlane reports whether the solid is above the plane of a triangle by what is
// looked for, and if so keeps the side: a plate has many triangles in one plane.
func (p *press) overPlane(t *triangle) bool {
	if t.n == (r3.Vec{}) {
		return false
	}
	up := t.n
	if up.Dot(p.pose.P.Sub(t.a)) < 0 {
		up = up.Neg()
	}
	s := p.sideOf(up)
	if !s.over(t, p.best) {
		return false
	}
	p.sides[1+p.turn%(len(p.sides)-1)] = s
	p.turn++
	return true
}

// try compares the solid with the triangle in a slot.
func (p *press) try(slot int32) {
	t := &p.a.tris[slot]
	o := p.pose.P
	moved := convex.Triangle{A: p.inSolid(t.a.Sub(o)), B: p.inSolid(t.b.Sub(o)), C: p.inSolid(t.c.Sub(o))}
	gap, near := convex.DistanceTriangleUnder(p.solid, &moved, p.best)
	if !near {
		return
	}
	p.found = true
	p.spot = SolidSpot{Distance: gap.Distance, At: p.pose.Apply(gap.B), On: p.pose.Apply(gap.A), Triangle: slot}
	if gap.Distance == 0 {
		p.spot.On = p.spot.At
	}
	if near := gap.Distance - p.blur; near > 0 {
		p.under(near)
	} else {
		p.under(gap.Distance) // another may touch
	}
	p.look(p.spot.At, p.spot.On)
	if gap.Distance > 0 {
		p.sides[0] = p.sideOf(p.along)
	}
}
