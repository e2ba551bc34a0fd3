package mesh

import (
	"cmp"
	"slices"
)

// removeNeedles removes triangles that have three corners but no area, in
// place, and returns how many. A needle with a neighbour across its longest
// side closes the gap between that side and the two short ones, so that it
// cannot just go: the neighbour is cut in two at the needle's middle corner
// instead. One that shares no edge with anything goes. The others stay.
//
// A round works on triangles that no other change of the round touched; the
// caller goes on until nothing changes.
func removeNeedles(m *Mesh) int {
	var needles []int32
	for i := range m.Triangles {
		if height(m.Corners(i)) <= degenerateHeight {
			needles = append(needles, int32(i))
		}
	}
	if len(needles) == 0 {
		return 0
	}
	a := m.Adjacency()
	busy := map[int32]bool{} // triangles changed in this round
	made := map[Edge]bool{}  // edges made in this round
	gone := map[int32]bool{}
	n := 0
	for _, t := range needles {
		if busy[t] {
			continue
		}
		if m.alone(a, t) {
			gone[t] = true
			n++
			continue
		}
		if m.splitBeside(a, t, busy, made) {
			n++
		}
	}
	if len(gone) > 0 {
		*m, _ = keepOnly(*m, func(t int) bool { return !gone[int32(t)] })
	}
	return n
}

// alone reports whether no other triangle has an edge of t.
func (m Mesh) alone(a Adjacency, t int32) bool {
	for k := range int32(3) {
		if len(a.Sides(a.EdgeOf[3*t+k])) > 1 {
			return false
		}
	}
	return true
}

// splitBeside cuts the neighbour across the longest side of the needle t in two
// at the needle's other corner, and puts the second half in the needle's
// place. It does nothing, and says so, where there is no such neighbour, where
// a half would have no area itself, or where the new edge exists already.
func (m Mesh) splitBeside(a Adjacency, t int32, busy map[int32]bool, made map[Edge]bool) bool {
	side := m.longestSide(t)
	other := a.Across(side)
	if other < 0 || busy[other/3] {
		return false
	}
	from, to := m.ends(side)
	middle := m.Triangles[t][(side%3+2)%3]
	far := m.Triangles[other/3][(other%3+2)%3]
	cut := Edge{min(middle, far), max(middle, far)}
	if middle == far || made[cut] || a.has(cut) {
		return false
	}
	first, second := m.Triangles[other/3], m.Triangles[other/3]
	for k := range 3 {
		if first[k] == from {
			first[k] = middle
		}
		if second[k] == to {
			second[k] = middle
		}
	}
	v := m.Vertices
	if height(v[first[0]], v[first[1]], v[first[2]]) <= degenerateHeight ||
		height(v[second[0]], v[second[1]], v[second[2]]) <= degenerateHeight {
		return false
	}
	made[cut], busy[t], busy[other/3] = true, true, true
	m.Triangles[other/3], m.Triangles[t] = first, second
	return true
}

// longestSide returns the longest side of a triangle, the first of equals.
func (m Mesh) longestSide(t int32) int32 {
	best, length := 3*t, -1.0
	for s := 3 * t; s < 3*t+3; s++ {
		from, to := m.ends(s)
		if d := m.Vertices[from].Dist(m.Vertices[to]); d > length {
			best, length = s, d
		}
	}
	return best
}

// find returns the number of an edge, and whether there is one between these
// vertices.
func (a Adjacency) find(e Edge) (int, bool) {
	return slices.BinarySearchFunc(a.Edges, e, func(p, q Edge) int {
		return cmp.Or(cmp.Compare(p.A, q.A), cmp.Compare(p.B, q.B))
	})
}

// has reports whether two vertices are joined by an edge.
func (a Adjacency) has(e Edge) bool {
	_, found := a.find(e)
	return found
}
