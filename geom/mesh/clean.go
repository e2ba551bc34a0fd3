package mesh

import (
	"cmp"
	"slices"
)

// doubled says what became of triangles with the same three vertices.
type doubled struct {
	dropped    int // triangles that stood there already
	backToBack int // pairs of opposite winding that were left
}

// withoutCollapsed returns m without the triangles that name a vertex twice,
// and how many those were. Nothing opens by it: their sides cancel.
func withoutCollapsed(m Mesh) (Mesh, int) {
	return keepOnly(m, func(t int) bool { return !collapsed(m.Triangles[t]) })
}

// withoutDoubles returns m without triangles that stand in it already. Of those
// with the same vertices and winding the first stays. Of two with opposite
// winding the later goes where an edge of theirs is used an odd number of times,
// that is where one too many was drawn. Elsewhere both stay: they are the two
// faces of a sheet, or two bodies that touch in a common face.
func withoutDoubles(m Mesh) (Mesh, doubled) {
	type key struct {
		v    [3]int32 // lowest first, as wound
		back bool     // the other two are in falling order
		t    int32
	}
	keys := make([]key, len(m.Triangles))
	for i, t := range m.Triangles {
		v := lowestFirst(t)
		k := key{v: v, t: int32(i)}
		if v[1] > v[2] {
			k.v[1], k.v[2], k.back = v[2], v[1], true
		}
		keys[i] = k
	}
	slices.SortFunc(keys, func(p, q key) int {
		return cmp.Or(slices.Compare(p.v[:], q.v[:]), cmp.Compare(p.t, q.t))
	})
	drop := make([]bool, len(m.Triangles))
	var opposite []int32 // later ones of back-to-back pairs
	var d doubled
	for i := 0; i < len(keys); {
		j, front, back := i, false, false
		for ; j < len(keys) && keys[j].v == keys[i].v; j++ {
			seen, other := &front, &back
			if keys[j].back {
				seen, other = &back, &front
			}
			switch {
			case *seen:
				drop[keys[j].t] = true
				d.dropped++
			case *other:
				opposite = append(opposite, keys[j].t)
			}
			*seen = true
		}
		i = j
	}
	if len(opposite) > 0 {
		d.dropped += dropOdd(m, drop, opposite)
	}
	for _, t := range opposite {
		if !drop[t] {
			d.backToBack++
		}
	}
	out, _ := keepOnly(m, func(t int) bool { return !drop[t] })
	return out, d
}

// dropOdd drops candidates with an edge that an odd number of triangles uses,
// and then those that it leaves with such an edge, and returns how many.
func dropOdd(m Mesh, drop []bool, candidates []int32) int {
	a := m.Adjacency()
	uses := make([]int, len(a.Edges))
	for side, e := range a.EdgeOf {
		if e >= 0 && !drop[side/3] {
			uses[e]++
		}
	}
	isCandidate := map[int32]bool{}
	for _, t := range candidates {
		isCandidate[t] = true
	}
	n := 0
	for queue := slices.Clone(candidates); len(queue) > 0; {
		t := queue[0]
		queue = queue[1:]
		if drop[t] {
			continue
		}
		e := a.EdgeOf[3*t : 3*t+3]
		if uses[e[0]]%2 == 0 && uses[e[1]]%2 == 0 && uses[e[2]]%2 == 0 {
			continue
		}
		drop[t] = true
		n++
		for _, edge := range e {
			uses[edge]--
			for _, s := range a.Sides(edge) {
				if isCandidate[s/3] && !drop[s/3] {
					queue = append(queue, s/3)
				}
			}
		}
	}
	return n
}

// lowestFirst turns a triangle in its own winding until its lowest vertex
// stands first.
func lowestFirst(t [3]int32) [3]int32 {
	switch {
	case t[1] < t[0] && t[1] < t[2]:
		return [3]int32{t[1], t[2], t[0]}
	case t[2] < t[0] && t[2] < t[1]:
		return [3]int32{t[2], t[0], t[1]}
	}
	return t
}

// keepOnly returns m with the triangles that keep is true for, and how many
// went.
func keepOnly(m Mesh, keep func(t int) bool) (Mesh, int) {
	out := Mesh{Vertices: m.Vertices, Triangles: make([][3]int32, 0, len(m.Triangles))}
	for i, t := range m.Triangles {
		if keep(i) {
			out.Triangles = append(out.Triangles, t)
		}
	}
	return out, len(m.Triangles) - len(out.Triangles)
}
