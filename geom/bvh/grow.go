package bvh

import (
	"math"

	"seamwright/geom/r3"
)

const leafSize = 4 // triangles in a leaf at most

// box holds bounds in single precision, rounded outwards.
type box struct{ lo, hi [3]float32 }

func (b *box) add(o *box) {
	if o.lo[0] < b.lo[0] {
		b.lo[0] = o.lo[0]
	}
	if o.hi[0] > b.hi[0] {
		b.hi[0] = o.hi[0]
	}
	if o.lo[1] < b.lo[1] {
		b.lo[1] = o.lo[1]
	}
	if o.hi[1] > b.hi[1] {
		b.hi[1] = o.hi[1]
	}
	if o.lo[2] < b.lo[2] {
		b.lo[2] = o.lo[2]
	}
	if o.hi[2] > b.hi[2] {
		b.hi[2] = o.hi[2]
	}
}

// area returns half the surface, m2.
func (b *box) area() float32 {
	x, y, z := b.hi[0]-b.lo[0], b.hi[1]-b.lo[1], b.hi[2]-b.lo[2]
	return x*y + y*z + z*x
}

func emptyBox() box {
	inf := float32(math.Inf(1))
	return box{[3]float32{inf, inf, inf}, [3]float32{-inf, -inf, -inf}}
}

// item is a triangle while the tree is built.
type item struct {
	box
	given int32
}

// grower builds one tree.
type grower struct {
	tree      *Tree
	vertices  []r3.Vec
	triangles [][3]int32
	items     []item
}

func (t *Tree) grow(vertices []r3.Vec, triangles [][3]int32) {
	g := &grower{tree: t, vertices: vertices, triangles: triangles, items: make([]item, len(triangles))}
	for i, corners := range triangles {
		it := item{box: emptyBox(), given: int32(i)}
		for _, v := range corners {
			p := vertices[v].Sub(t.mid)
			for k, x := range [3]float64{p.X, p.Y, p.Z} {
				it.lo[k] = min(it.lo[k], below(x))
				it.hi[k] = max(it.hi[k], -below(-x))
			}
		}
		g.items[i] = it
	}
	t.nodes = make([]node, 2, 2+len(triangles))
	t.tris = make([]triangle, len(triangles))
	t.given = make([]int32, len(triangles))
	t.slot = make([]int32, len(triangles))
	g.build(0, 0, len(triangles), 0)
}

// below returns a single-precision number at or under x.
func below(x float64) float32 {
	f := float32(x)
	if float64(f) > x {
		f = math.Nextafter32(f, float32(math.Inf(-1)))
	}
	return f
}

// build makes node id of the items from first up to end and returns its box.
func (g *grower) build(id, first, end, depth int) box {
	if end-first <= leafSize {
		return g.leaf(id, first, end)
	}
	cut := g.split(first, end, depth)
	nodes := &g.tree.nodes
	child := len(*nodes)
	*nodes = append(*nodes, node{}, node{})
	b := g.build(child, first, cut, depth+1)
	right := g.build(child+1, cut, end, depth+1)
	b.add(&right)
	n := newNode(&b)
	n.link = int32(child)
	n.r = min(n.r, g.radius(&n, first, end))
	(*nodes)[id] = n
	return b
}

func (g *grower) leaf(id, first, end int) box {
	t := g.tree
	b := emptyBox()
	for i := first; i < end; i++ {
		it := &g.items[i]
		b.add(&it.box)
		v := g.triangles[it.given]
		t.tris[i] = newTriangle(g.vertices[v[0]], g.vertices[v[1]], g.vertices[v[2]])
		t.given[i], t.slot[it.given] = it.given, int32(i)
	}
	n := newNode(&b)
	n.link = ^int32(first*leafSize + end - first - 1)
	n.r = min(n.r, g.radius(&n, first, end))
	t.nodes[id] = n
	return b
}

// radius returns how far the triangles in the slots from first up to end reach
// from a node's centre, m.
func (g *grower) radius(n *node, first, end int) float32 {
	c := r3.Vec{X: float64(n.cx), Y: float64(n.cy), Z: float64(n.cz)}.Add(g.tree.mid)
	var rr float64
	for i := first; i < end; i++ {
		t := &g.tree.tris[i]
		a, b, c := t.a.Sub(c), t.b.Sub(c), t.c.Sub(c)
		rr = max(rr, a.Dot(a), b.Dot(b), c.Dot(c))
	}
	return above(math.Sqrt(rr))
}

// above returns a single-precision number over x by a margin that covers the
// rounding of how x was computed.
func above(x float64) float32 { return float32(x*(1+1e-6)) + math.SmallestNonzeroFloat32 }

// newNode returns centre, half sizes and half diagonal of a box.
func newNode(b *box) node {
	var c, h [3]float32
	for k := range 3 {
		c[k] = b.lo[k] + (b.hi[k]-b.lo[k])/2
		h[k] = above(max(float64(b.hi[k])-float64(c[k]), float64(c[k])-float64(b.lo[k])))
	}
	diagonal := r3.Vec{X: float64(h[0]), Y: float64(h[1]), Z: float64(h[2])}.Norm()
	return node{cx: c[0], cy: c[1], cz: c[2], hx: h[0], hy: h[1], hz: h[2], r: above(diagonal)}
}
