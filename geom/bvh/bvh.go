// Package bvh answers how far triangle meshes are from each other, from
// points and from lines, by trees of bounding boxes.
//
// A Tree is built once from vertices and triangles and never changes; a moving
// body is the same tree at another pose. Queries between two trees take
// aFromB, the pose of b's frame in a's, and answer in a's frame. They change
// nothing, so any number may run at the same time, they allocate nothing, and
// the same inputs give the same answer.
//
// A tree is a surface, not a solid: a body wholly inside another reads as far
// as the distance between their skins. Degenerate triangles count as the
// segment or point that is left of them.
//
// The method: boxes parallel to each mesh's own axes, split by the surface-area
// heuristic (Goldsmith and Salmon 1987; MacDonald and Booth 1990; from memory)
// with binned centroids, compared in both frames and along the direction of
// the nearest pair known so far, which is one more separating axis for
// everything that is looked at later.
package bvh

import (
	"errors"
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Touch is the distance, in metres, at and below which surfaces count as
// touching: the rounding of coordinates at workshop size. A smaller distance
// is reported as 0.
const Touch = 1e-12

// Reach is the largest size of a coordinate, in metres, that a tree takes.
const Reach = 1e6

// maxTriangles keeps a leaf's first triangle and its count in 31 bits.
const maxTriangles = 1 << 28

// Tree is a hierarchy of boxes over the triangles of one mesh, in that mesh's
// frame. Use New; the zero value is not a tree.
type Tree struct {
	mid     r3.Vec     // origin of the boxes, m
	size    float64    // no vertex is farther than this from mid, m
	nodes   []node     // nodes[0] is the root, nodes[1] unused, then pairs of children
	tris    []triangle // in the order of the leaves
	given   []int32    // given[slot] is the index in the caller's slice
	slot    []int32    // the inverse of given
	samples []sample   // corners spread over the mesh, where a search may start
	shut    shut       // whether it is closed
}

// node is a box: centre and half sizes, relative to the tree's mid, in single
// precision rounded outwards, and the radius about the centre that holds all
// below it. It fills half a cache line, and the two children of a node are
// neighbours.
type node struct {
	cx, cy, cz float32
	hx, hy, hz float32
	r          float32
	link       int32 // index of the first child, or ^(first slot * leafSize + count - 1)
}

// leaf returns the slots from first up to end that a leaf holds.
func (n *node) leaf() (first, end int32) {
	v := ^n.link
	return v / leafSize, v/leafSize + v%leafSize + 1
}

// triangle holds three corners and their unit normal, which is zero where the
// triangle is so thin that it counts as a segment.
type triangle struct{ a, b, c, n r3.Vec }

// sample is a corner of the triangle in a slot.
type sample struct {
	at   r3.Vec
	slot int32
}

// New builds the tree of a mesh: vertices in metres, triangles as indices into
// them. The slices are not kept. It refuses a mesh without triangles, an index
// outside the vertices, and a used vertex that is not finite or lies beyond
// Reach.
func New(vertices []r3.Vec, triangles [][3]int32) (*Tree, error) {
	if len(triangles) == 0 {
		return nil, errors.New("a mesh without triangles has no surface: give at least one triangle")
	}
	if len(triangles) > maxTriangles {
		return nil, fmt.Errorf("a mesh of %d triangles is over the limit of %d: split it", len(triangles), maxTriangles)
	}
	lo := r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	hi := lo.Neg()
	for i, corners := range triangles {
		for _, v := range corners {
			if v < 0 || int(v) >= len(vertices) {
				return nil, fmt.Errorf("triangle %d names vertex %d, but there are %d vertices, counted from 0", i, v, len(vertices))
			}
			p := vertices[v]
			if !(math.Abs(p.X) <= Reach && math.Abs(p.Y) <= Reach && math.Abs(p.Z) <= Reach) {
				return nil, fmt.Errorf("vertex %d is at (%g, %g, %g) m: coordinates are finite and at most %g m", v, p.X, p.Y, p.Z, float64(Reach))
			}
			lo = r3.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y), Z: min(lo.Z, p.Z)}
			hi = r3.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y), Z: max(hi.Z, p.Z)}
		}
	}
	t := &Tree{mid: lo.Lerp(hi, 0.5)}
	t.size = hi.Dist(t.mid)
	t.grow(vertices, triangles)
	t.samples = t.spread()
	return t, nil
}

// Len returns the number of triangles.
func (t *Tree) Len() int { return len(t.tris) }

// Triangle returns the corners of triangle i of the mesh, in metres in the
// tree's frame.
func (t *Tree) Triangle(i int32) (a, b, c r3.Vec) {
	tri := &t.tris[t.slot[i]]
	return tri.a, tri.b, tri.c
}

// Bounds returns the lowest and the highest corner, in metres, of a box in the
// tree's frame that holds the mesh; it may be wider by rounding to single
// precision.
func (t *Tree) Bounds() (lo, hi r3.Vec) {
	n := &t.nodes[0]
	c := r3.Vec{X: float64(n.cx), Y: float64(n.cy), Z: float64(n.cz)}.Add(t.mid)
	h := r3.Vec{X: float64(n.hx), Y: float64(n.hy), Z: float64(n.hz)}
	return c.Sub(h), c.Add(h)
}

// newTriangle finds the normal from the longest edge and what of the next is
// square to it, so that the plane misses no corner by more than the rounding
// of coordinates, however thin the triangle.
func newTriangle(a, b, c r3.Vec) triangle {
	t := triangle{a: a, b: b, c: c}
	long, next := b.Sub(a), c.Sub(b)
	ll := long.Dot(long)
	if d := c.Sub(b); d.Dot(d) > ll {
		long, next, ll = d, a.Sub(c), d.Dot(d)
	}
	if d := a.Sub(c); d.Dot(d) > ll {
		long, next, ll = d, b.Sub(a), d.Dot(d)
	}
	u := long.Unit()
	height := next.Reject(u).Reject(u) // once would leave the rounding of the length
	switch hh := height.Dot(height); {
	case hh > 1e-6*ll: // stout: keeps the axes of an upright plate free of rounding
		t.n = long.Cross(next).Unit()
	case hh > thin*thin*ll:
		t.n = u.Cross(height).Unit()
	}
	return t
}

// thin is the ratio of height to length up to which a triangle counts as a
// segment.
const thin = 1e-12
