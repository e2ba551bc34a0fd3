package bvh

import "seamwright/geom/mesh"

// closure is what a mesh's edges say of it.
type closure uint8

const (
	open     closure = iota // an edge has no partner: there is no inside
	even                    // every edge has partners: inside is where a way out crosses an odd number of triangles
	oriented                // every edge runs as often one way as the other: inside is what is wound round
)

// closure finds the partners of all edges. Corners at the same place are one.
func (t *Tree) closure() closure {
	var places mesh.Welder
	places.Grow(len(t.tris)/2 + 4) // as many as a closed mesh has
	runs := newRuns(len(t.tris))
	for i := range t.tris {
		tri := &t.tris[i]
		a, b, c := places.Index(tri.a), places.Index(tri.b), places.Index(tri.c)
		if a == b || b == c || c == a {
			continue // no surface: its edges cancel
		}
		runs.add(a, b)
		runs.add(b, c)
		runs.add(c, a)
	}
	is := oriented
	for _, r := range runs {
		switch {
		case r.net == 0:
		case r.net%2 == 0: // net and sum are odd or even together
			is = even
		default:
			return open
		}
	}
	return is
}

// run is an edge: how often triangles run along it from its lower corner to its
// higher less how often the other way. lower = higher is a free place.
type run struct{ lower, higher, net int32 }

// runs is a hash table of edges with open addressing, a power of two long.
type runs []run

// newRuns makes room for the edges of so many triangles: with three each, if none
// has a partner, it is three quarters full.
func newRuns(triangles int) runs {
	size := 16
	for size < 4*triangles {
		size *= 2
	}
	return make(runs, size)
}

func (r runs) add(from, to int32) {
	way := int32(1)
	if from > to {
		from, to, way = to, from, -1
	}
	mask := uint64(len(r) - 1)
	h := (uint64(from)<<32 | uint64(to)) * 0x9e3779b97f4a7c15 // any mix would be right, only slower
	for s := (h ^ h>>32) & mask; ; s = (s + 1) & mask {
		switch e := &r[s]; {
		case e.lower == e.higher:
			*e = run{from, to, way}
			return
		case e.lower == from && e.higher == to:
			e.net += way
			return
		}
	}
}
