package mesh

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Weld returns m with vertices merged that lie within the tolerance, in metres,
// of each other, and how many were merged into another. Tolerance 0 merges
// equal positions only. Vertices are taken in their order: each goes to the
// nearest one kept so far (the earlier of two as near), or is kept itself. So
// none moves by more than the tolerance, those kept are further apart than it,
// and welding again changes nothing. Triangles keep their number and order;
// those that lost a corner name a vertex twice. The error says that the
// tolerance is negative, not finite or too small for the size of the mesh.
func Weld(m Mesh, tolerance float64) (Mesh, int, error) {
	if err := m.Validate(); err != nil {
		return Mesh{}, 0, err
	}
	if !(tolerance >= 0 && tolerance <= maxCoordinate) {
		return Mesh{}, 0, fmt.Errorf("mesh: weld tolerance: found %g m; allowed: 0 m or more, finite; to mend: 1e-6 m suits most files", tolerance)
	}
	if tolerance == 0 {
		kept, to := weldEqual(m.Vertices)
		return reindexed(kept, m.Triangles, to), len(m.Vertices) - len(kept), nil
	}
	box := EmptyBox()
	for _, v := range m.Vertices {
		box = box.Include(v)
	}
	if s := box.Size(); max(s.X, s.Y, s.Z)/tolerance > maxCells {
		return Mesh{}, 0, fmt.Errorf("mesh: weld tolerance: found %g m for a mesh of %g m; allowed: 0 m, or at least %g m; to mend: use 0 m for equal vertices only",
			tolerance, max(s.X, s.Y, s.Z), max(s.X, s.Y, s.Z)/maxCells)
	}
	kept, to := weldNear(m.Vertices, box.Min, tolerance)
	return reindexed(kept, m.Triangles, to), len(m.Vertices) - len(kept), nil
}

// maxCells bounds how many tolerances a mesh may be long, so that a place in
// tolerances keeps four digits behind the point.
const maxCells = 1 << 39

func reindexed(vertices []r3.Vec, triangles [][3]int32, to []int32) Mesh {
	out := Mesh{vertices, make([][3]int32, len(triangles))}
	for i, t := range triangles {
		out.Triangles[i] = [3]int32{to[t[0]], to[t[1]], to[t[2]]}
	}
	return out
}

// weldEqual returns the distinct positions in order of first use and where
// each vertex went.
func weldEqual(vertices []r3.Vec) (kept []r3.Vec, to []int32) {
	var w Welder
	w.Grow(len(vertices))
	to = make([]int32, len(vertices))
	for i, v := range vertices {
		to[i] = w.Index(v)
	}
	return w.vertices, to
}

// Welder numbers distinct positions. It is a hash table with open addressing;
// negative zero equals zero. The zero value holds none.
type Welder struct {
	vertices []r3.Vec
	slots    []int32 // index into vertices plus 1; 0 is free; a power of two long
}

// Index returns the number of the position v among the distinct ones, in order
// of their first use from 0.
func (w *Welder) Index(v r3.Vec) int32 {
	if 2*len(w.vertices) >= len(w.slots) {
		w.Grow(len(w.vertices) + 1)
	}
	v = r3.Vec{X: v.X + 0, Y: v.Y + 0, Z: v.Z + 0} // -0 + 0 is 0
	mask := uint64(len(w.slots) - 1)
	for s := hash3(math.Float64bits(v.X), math.Float64bits(v.Y), math.Float64bits(v.Z)) & mask; ; s = (s + 1) & mask {
		switch k := w.slots[s]; {
		case k == 0:
			w.vertices = append(w.vertices, v)
			w.slots[s] = int32(len(w.vertices))
			return int32(len(w.vertices)) - 1
		case w.vertices[k-1] == v:
			return k - 1
		}
	}
}

// Grow makes room for n positions at once.
func (w *Welder) Grow(n int) {
	size := 64
	for size < 3*n {
		size *= 2
	}
	w.slots = make([]int32, size)
	mask := uint64(size - 1)
	for i, v := range w.vertices {
		s := hash3(math.Float64bits(v.X), math.Float64bits(v.Y), math.Float64bits(v.Z)) & mask
		for w.slots[s] != 0 {
			s = (s + 1) & mask
		}
		w.slots[s] = int32(i) + 1
	}
}

// hash3 mixes three words: odd multipliers and folded halves, as the finaliser
// of MurmurHash3 does (from memory). Any mix would be right, only slower.
func hash3(a, b, c uint64) uint64 {
	h := a*0x9e3779b97f4a7c15 ^ b*0xc2b2ae3d27d4eb4f ^ c*0x165667b19e3779f9
	h ^= h >> 32
	h *= 0xff51afd7ed558ccd
	return h ^ h>>29
}

// cell is a cube of the grid that weldNear searches in.
type cell struct{ x, y, z int64 }

// grid holds kept vertices by cell. Cells are four times as wide as the
// tolerance, so that what is near lies in eight of them at most and mostly in
// fewer, and each holds only as many vertices as fit in at that distance.
type grid struct {
	origin    r3.Vec
	tolerance float64
	last      map[cell]int32 // last kept vertex of a cell plus 1
	before    []int32        // the kept vertex before it in its cell, plus 1
	kept      []r3.Vec
}

// cellOf returns the cell of a point shifted by the given number of
// tolerances along every axis.
func (g *grid) cellOf(v r3.Vec, shift float64) cell {
	at := func(x float64) int64 { return int64(math.Floor((x/g.tolerance + shift) / 4)) }
	d := v.Sub(g.origin)
	return cell{at(d.X), at(d.Y), at(d.Z)}
}

// nearest returns the kept vertex nearest to v within the tolerance, the
// earliest of several, or -1. The search is a thousandth wider than the
// tolerance, more than the rounding of cells takes away.
func (g *grid) nearest(v r3.Vec) int32 {
	low, high := g.cellOf(v, -1.001), g.cellOf(v, 1.001)
	best, near := int32(-1), g.tolerance
	for x := low.x; x <= high.x; x++ {
		for y := low.y; y <= high.y; y++ {
			for z := low.z; z <= high.z; z++ {
				for k := g.last[cell{x, y, z}]; k != 0; k = g.before[k-1] {
					d := g.kept[k-1].Dist(v)
					if d < near || d == near && (best < 0 || k-1 < best) {
						best, near = k-1, d
					}
				}
			}
		}
	}
	return best
}

// weldNear returns the kept vertices and where each vertex went.
func weldNear(vertices []r3.Vec, origin r3.Vec, tolerance float64) (kept []r3.Vec, to []int32) {
	g := grid{origin: origin, tolerance: tolerance, last: make(map[cell]int32, len(vertices)/4)}
	to = make([]int32, len(vertices))
	for i, v := range vertices {
		k := g.nearest(v)
		if k < 0 {
			k = int32(len(g.kept))
			home := g.cellOf(v, 0)
			g.kept = append(g.kept, v)
			g.before = append(g.before, g.last[home])
			g.last[home] = k + 1
		}
		to[i] = k
	}
	return g.kept, to
}

// used returns m without the vertices that no triangle names, in their order,
// and how many went.
func used(m Mesh) (Mesh, int) {
	to := make([]int32, len(m.Vertices))
	for _, t := range m.Triangles {
		to[t[0]], to[t[1]], to[t[2]] = 1, 1, 1
	}
	var kept []r3.Vec
	for i, u := range to {
		if u != 0 {
			to[i] = int32(len(kept))
			kept = append(kept, m.Vertices[i])
		}
	}
	return reindexed(kept, m.Triangles, to), len(m.Vertices) - len(kept)
}
