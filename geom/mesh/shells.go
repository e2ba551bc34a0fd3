package mesh

import (
	"cmp"
	"slices"

	"seamwright/geom/r3"
)

// shell is a set of triangles joined across edges, as Adjacency.Across has it.
type shell struct {
	triangles []int32 // in order of discovery; the first has the lowest number
	closed    bool    // every edge is used an even number of times by it
	twisted   bool    // no winding is the same all over, as on a Moebius band
	box       Box
}

// findShells returns the shells of m in order of their first triangle, and the
// winding of every triangle against its shell's first: true where the two
// differ. Triangles that name a vertex twice belong to none.
func findShells(m Mesh, a Adjacency) (shells []shell, against []bool) {
	of := make([]int32, len(m.Triangles))
	for i := range of {
		of[i] = -1
	}
	against = make([]bool, len(m.Triangles))
	order := make([]int32, 0, len(m.Triangles))
	for seed := range m.Triangles {
		if of[seed] >= 0 || a.EdgeOf[3*seed] < 0 {
			continue
		}
		number := int32(len(shells))
		s := shell{box: EmptyBox()}
		begin := len(order)
		of[seed] = number
		order = append(order, int32(seed))
		for i := begin; i < len(order); i++ {
			t := order[i]
			s.box = s.box.Union(m.triangleBox(int(t)))
			for k := range int32(3) {
				other := a.Across(3*t + k)
				if other < 0 {
					continue
				}
				differs := against[t] != m.sameWay(3*t+k, other)
				switch u := other / 3; {
				case of[u] < 0:
					of[u], against[u] = number, differs
					order = append(order, u)
				case against[u] != differs:
					s.twisted = true
				}
			}
		}
		s.triangles = order[begin:len(order):len(order)]
		s.closed = true
		shells = append(shells, s)
	}
	openShells(a, of, shells)
	return shells, against
}

// sameWay reports whether two sides of one edge run in the same direction,
// which they must not.
func (m Mesh) sameWay(s, t int32) bool {
	from, _ := m.ends(s)
	other, _ := m.ends(t)
	return from == other
}

// openShells marks the shells that use some edge an odd number of times.
func openShells(a Adjacency, of []int32, shells []shell) {
	var at []int32
	for e := range a.Edges {
		sides := a.Sides(int32(e))
		if len(sides) == 2 {
			continue // both of one shell
		}
		at = at[:0]
		for _, s := range sides {
			at = append(at, of[s/3])
		}
		slices.Sort(at)
		for i := 0; i < len(at); {
			j := i
			for j < len(at) && at[j] == at[i] {
				j++
			}
			if (j-i)%2 == 1 {
				shells[at[i]].closed = false
			}
			i = j
		}
	}
}

// border is a line of edges that only one triangle has: a hole where it comes
// back to its start. Vertices are in order, none twice.
type border struct {
	vertices []int32
	closed   bool // the last vertex joins the first
}

// borders returns the edges with a single triangle, chained. Where more than
// two such edges meet at a vertex, loops are cut there, so that none crosses
// itself.
func borders(m Mesh, a Adjacency) []border {
	type half struct{ at, edge int32 }
	var halves []half
	for e, edge := range a.Edges {
		if len(a.Sides(int32(e))) == 1 {
			halves = append(halves, half{edge.A, int32(e)}, half{edge.B, int32(e)})
		}
	}
	slices.SortFunc(halves, func(p, q half) int { return cmp.Or(cmp.Compare(p.at, q.at), cmp.Compare(p.edge, q.edge)) })
	gone := map[int32]bool{}  // edges walked
	first := map[int32]int{}  // first half of each vertex that may be left to walk
	onPath := map[int32]int{} // place of a vertex on the path
	for i := len(halves) - 1; i >= 0; i-- {
		first[halves[i].at] = i
	}
	var out []border
	for _, start := range halves {
		path := []int32{start.at}
		clear(onPath)
		onPath[start.at] = 0
		for {
			here := path[len(path)-1]
			i := first[here]
			for i < len(halves) && halves[i].at == here && gone[halves[i].edge] {
				i++
			}
			first[here] = i
			if i == len(halves) || halves[i].at != here {
				break
			}
			gone[halves[i].edge] = true
			e := a.Edges[halves[i].edge]
			next := e.A + e.B - here
			if p, met := onPath[next]; met {
				out = append(out, border{slices.Clone(path[p:]), true})
				for _, v := range path[p+1:] {
					delete(onPath, v)
				}
				path = path[:p+1]
				continue
			}
			onPath[next] = len(path)
			path = append(path, next)
		}
		if len(path) > 1 {
			out = append(out, border{slices.Clone(path), false})
		}
	}
	return out
}

// length returns the length of a border, m, and the middle of its edges.
func (b border) length(m Mesh) (length float64, middle r3.Vec) {
	n := len(b.vertices)
	last := n
	if !b.closed {
		last = n - 1
	}
	for i := range last {
		p, q := m.Vertices[b.vertices[i]], m.Vertices[b.vertices[(i+1)%n]]
		d := p.Dist(q)
		length += d
		middle = middle.AddScaled(d, p.Lerp(q, 0.5))
	}
	if length > 0 {
		middle = middle.Scale(1 / length)
	}
	return length, middle
}
