package mesh

import (
	"cmp"
	"math"
	"slices"

	"seamwright/geom/r3"
)

// tree is a binary tree of boxes over triangles, good enough to find which of
// them lie close to each other: triangles sorted along a space-filling curve
// and halved. Distances between bodies want a better one.
type tree struct {
	order []int32 // triangles along the curve
	boxes []Box   // of the node with the same number; children of i are 2i+1 and 2i+2
}

// leafSize is how many triangles a leaf of the tree holds at most.
const leafSize = 4

// newTree builds the tree over the given triangles of m.
func newTree(m Mesh, triangles []int32) tree {
	type place struct {
		code     uint64
		triangle int32
	}
	box := EmptyBox()
	for _, t := range triangles {
		box = box.Union(m.triangleBox(int(t)))
	}
	places := make([]place, len(triangles))
	for i, t := range triangles {
		places[i] = place{curve(box, m.triangleBox(int(t)).Centre()), t}
	}
	slices.SortFunc(places, func(p, q place) int {
		return cmp.Or(cmp.Compare(p.code, q.code), cmp.Compare(p.triangle, q.triangle))
	})
	t := tree{order: make([]int32, len(places))}
	for i, p := range places {
		t.order[i] = p.triangle
	}
	nodes := 1
	for n := len(places); n > leafSize; n = (n + 1) / 2 {
		nodes = 2*nodes + 1
	}
	t.boxes = make([]Box, nodes)
	t.fill(m, 0, 0, len(places))
	return t
}

func (t *tree) fill(m Mesh, node, low, high int) Box {
	if 2*node+1 >= len(t.boxes) {
		b := EmptyBox()
		for _, i := range t.order[low:high] {
			b = b.Union(m.triangleBox(int(i)))
		}
		t.boxes[node] = b
		return b
	}
	mid := (low + high) / 2
	t.boxes[node] = t.fill(m, 2*node+1, low, mid).Union(t.fill(m, 2*node+2, mid, high))
	return t.boxes[node]
}

// curve returns the place of a point of the box on a Morton curve: the bits of
// its three coordinates in turn, 21 of each.
func curve(b Box, v r3.Vec) uint64 {
	size := b.Size()
	return spread(v.X-b.Min.X, size.X) | spread(v.Y-b.Min.Y, size.Y)<<1 | spread(v.Z-b.Min.Z, size.Z)<<2
}

// spread puts the 21 bits of x as a share of size three places apart.
func spread(x, size float64) uint64 {
	if size <= 0 {
		return 0
	}
	b := uint64(math.Min(math.Max(x/size, 0), 1) * (1<<21 - 1))
	b = (b | b<<32) & 0x1f00000000ffff
	b = (b | b<<16) & 0x1f0000ff0000ff
	b = (b | b<<8) & 0x100f00f00f00f00f
	b = (b | b<<4) & 0x10c30c30c30c30c3
	return (b | b<<2) & 0x1249249249249249
}

// selfPairs calls each for all pairs of leaves whose boxes meet, a leaf with
// itself included, until each returns false.
func (t tree) selfPairs(each func(p, q []int32) bool) {
	if len(t.order) > 0 {
		t.pairs(span{0, 0, len(t.order)}, span{0, 0, len(t.order)}, each)
	}
}

// span is a node and the part of the order below it.
type span struct{ node, low, high int }

func (t tree) pairs(p, q span, each func(p, q []int32) bool) bool {
	if p.node != q.node && !t.boxes[p.node].Meets(t.boxes[q.node]) {
		return true
	}
	if 2*p.node+1 >= len(t.boxes) { // all leaves lie on one level, and so do p and q
		return each(t.order[p.low:p.high], t.order[q.low:q.high])
	}
	p1, p2 := p.halves()
	q1, q2 := q.halves()
	if p.node == q.node {
		return t.pairs(p1, p1, each) && t.pairs(p2, p2, each) && t.pairs(p1, p2, each)
	}
	return t.pairs(p1, q1, each) && t.pairs(p1, q2, each) && t.pairs(p2, q1, each) && t.pairs(p2, q2, each)
}

func (s span) halves() (span, span) {
	mid := (s.low + s.high) / 2
	return span{2*s.node + 1, s.low, mid}, span{2*s.node + 2, mid, s.high}
}
