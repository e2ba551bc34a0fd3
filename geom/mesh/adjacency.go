package mesh

import (
	"cmp"
	"slices"
)

// Edge is a line between two vertices that triangles share; A < B.
type Edge struct{ A, B int32 }

// Adjacency is which triangles meet at which edge. A side is a triangle's edge
// as the triangle goes along it: side 3t+k runs from corner k of triangle t to
// the next. Triangles that name a vertex twice have no sides here.
type Adjacency struct {
	// Edges are all edges, by their vertices.
	Edges []Edge
	// EdgeOf is the edge of each side, three a triangle; -1 for triangles that
	// name a vertex twice.
	EdgeOf []int32
	first  []int32 // where the sides of each edge start in sides; one more at the end
	sides  []int32
	mates  []int32 // of each side, as findMates says
}

// Adjacency returns which triangles meet at which edge. Vertices are told apart
// by their index: weld first.
func (m Mesh) Adjacency() Adjacency {
	a := Adjacency{EdgeOf: make([]int32, 3*len(m.Triangles))}
	// Sides are sorted by their lower vertex through counting, then by their
	// upper one and by their number within each short run.
	start := make([]int32, len(m.Vertices)+1)
	total := 0
	for t := range m.Triangles {
		if collapsed(m.Triangles[t]) {
			continue
		}
		for k := range 3 {
			start[m.side(int32(3*t+k)).A]++
			total++
		}
	}
	sum := int32(0)
	for v, n := range start {
		start[v] = sum
		sum += n
	}
	type entry struct{ upper, side int32 }
	entries := make([]entry, total)
	next := slices.Clone(start)
	for t := range m.Triangles {
		if collapsed(m.Triangles[t]) {
			a.EdgeOf[3*t], a.EdgeOf[3*t+1], a.EdgeOf[3*t+2] = -1, -1, -1
			continue
		}
		for k := range 3 {
			e := m.side(int32(3*t + k))
			entries[next[e.A]] = entry{e.B, int32(3*t + k)}
			next[e.A]++
		}
	}
	a.sides = make([]int32, 0, total)
	a.Edges = make([]Edge, 0, total/2)
	for v := range m.Vertices {
		run := entries[start[v]:next[v]]
		slices.SortFunc(run, func(p, q entry) int {
			if c := cmp.Compare(p.upper, q.upper); c != 0 {
				return c
			}
			return cmp.Compare(p.side, q.side)
		})
		for i, e := range run {
			if i == 0 || e.upper != run[i-1].upper {
				a.Edges = append(a.Edges, Edge{int32(v), e.upper})
				a.first = append(a.first, int32(len(a.sides)))
			}
			a.EdgeOf[e.side] = int32(len(a.Edges)) - 1
			a.sides = append(a.sides, e.side)
		}
	}
	a.first = append(a.first, int32(len(a.sides)))
	a.mates = m.findMates(a)
	return a
}

// Sides returns the sides that run along edge e, in order of their number. The
// slice belongs to a.
func (a Adjacency) Sides(e int32) []int32 { return a.sides[a.first[e]:a.first[e+1]] }

// Across returns the side that continues the surface across the edge of this
// one, or -1: where two triangles share an edge, and where bodies touch in one
// and it is plain which triangles belong together.
func (a Adjacency) Across(side int32) int32 { return a.mates[side] }

// side returns the edge of a side, lower vertex first.
func (m Mesh) side(side int32) Edge {
	from, to := m.ends(side)
	return Edge{min(from, to), max(from, to)}
}

// ends returns the vertices of a side in the direction of its triangle.
func (m Mesh) ends(side int32) (from, to int32) {
	t, k := m.Triangles[side/3], side%3
	return t[k], t[(k+1)%3]
}

// collapsed reports whether a triangle names a vertex twice.
func collapsed(t [3]int32) bool { return t[0] == t[1] || t[1] == t[2] || t[2] == t[0] }
