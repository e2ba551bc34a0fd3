package collision

import (
	"math"

	"seamwright/geom/bvh"
	"seamwright/geom/convex"
	"seamwright/geom/r3"
)

// Shape is a rigid form in its own frame: a triangle mesh or a convex solid.
// Shapes may be shared between bodies. The zero value is no shape.
type Shape struct {
	tree  *bvh.Tree
	solid convex.Solid // where tree is nil
	hull  hull
	made  bool
}

// hull is what a shape is known by before it is looked at closely, in the
// shape's frame, m: a box along the axes, a ball about the box's middle, and a
// spine along one of its axes with the distance from it within which the shape
// keeps.
type hull struct {
	mid, half r3.Vec
	radius    float64
	spine     r3.Vec // from the middle to one end
	girth     float64
}

// OfTree returns the shape of a triangle mesh, which must not be nil.
func OfTree(t *bvh.Tree) Shape {
	h := hullOfBox(t.Bounds())
	var radius, girth float64 // squared
	axis := h.spine.Unit()
	for i := range t.Len() {
		a, b, c := t.Triangle(int32(i))
		for _, p := range [3]r3.Vec{a, b, c} {
			d := p.Sub(h.mid)
			radius = max(radius, d.Dot(d))
			d = d.Reject(axis)
			girth = max(girth, d.Dot(d))
		}
	}
	h.radius, h.girth = math.Sqrt(radius), math.Sqrt(girth)
	return Shape{tree: t, hull: h, made: true}
}

// OfSolid returns the shape of a convex solid. The solid is filled: what is
// wholly inside it overlaps it.
func OfSolid(s convex.Solid) Shape {
	h := hullOfBox(s.Bounds())
	h.radius = s.Outer()
	switch s.Kind {
	case convex.Cylinder, convex.Capsule:
		h.spine, h.girth = r3.Vec{Z: s.Length / 2}, s.Radius
	case convex.Cone:
		h.spine, h.girth = r3.Vec{Z: s.Length / 2}, max(s.Radius, s.TopRadius)
	case convex.Sphere:
		h.spine, h.girth = r3.Vec{}, s.Radius
	}
	return Shape{solid: s, hull: h, made: true}
}

// hullOfBox returns the hull of a box from its lowest to its highest corner.
func hullOfBox(lo, hi r3.Vec) hull {
	half := hi.Sub(lo).Scale(0.5)
	h := hull{mid: lo.Lerp(hi, 0.5), half: half, radius: half.Norm()}
	switch {
	case half.X >= half.Y && half.X >= half.Z:
		h.spine, h.girth = r3.Vec{X: half.X}, math.Hypot(half.Y, half.Z)
	case half.Y >= half.Z:
		h.spine, h.girth = r3.Vec{Y: half.Y}, math.Hypot(half.X, half.Z)
	default:
		h.spine, h.girth = r3.Vec{Z: half.Z}, math.Hypot(half.X, half.Y)
	}
	return h
}

// crate returns what is known of a shape at a first look.
func (s *Shape) crate() crate {
	h := s.hull.half
	c := crate{half: h, radius: s.hull.radius}
	if s.tree != nil {
		return c // a surface: nothing is known to be in it
	}
	switch s.solid.Kind {
	case convex.Box:
		c.full = true
		c.inner = min(h.X, h.Y, h.Z)
	case convex.Cylinder:
		c.inner = min(s.solid.Radius, s.solid.Length/2)
	case convex.Sphere, convex.Capsule:
		c.inner = s.solid.Radius
	}
	c.inner = max(0, c.inner-blur)
	return c
}
