package collision

import (
	"math"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
)

// Shape is a rigid form in its own frame: a triangle mesh. Shapes
// may be shared between bodies. The zero value is no shape.
type Shape struct {
	tree *bvh.Tree
	hull hull
}

// hull is what a shape is known by before it is looked at closely, in the
// shape's frame, m: a box along the axes, a ball about the box's middle, and a
// spine along the box's longest axis with the distance that the shape keeps
// within of it.
type hull struct {
	mid, half r3.Vec
	radius    float64
	spine     r3.Vec // from the middle to one end
	girth     float64
}

// OfTree returns the shape of a triangle mesh.
func OfTree(t *bvh.Tree) Shape {
	h := hullOfBox(t.Bounds())
	var radius, girth float64
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
	h.radius, h.girth = outwards(math.Sqrt(radius), h.radius), outwards(math.Sqrt(girth), h.girth)
	return Shape{tree: t, hull: h}
}

// outwards adds what rounding may have taken away, m, for a shape of a size.
func outwards(x, size float64) float64 { return x + 1e-14*size }

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

// known reports whether s was made by one of the constructors.
func (s *Shape) known() bool { return s.tree != nil }
