package bvh

import (
	"math"

	"seamwright/geom/r3"
)

// closure is what a mesh's edges say of it.
type closure uint8

const (
	open     closure = iota // an edge has no partner: there is no inside
	even                    // every edge has partners: inside is where a way out crosses an odd number of triangles
	oriented                // every edge runs as often one way as the other: inside is what is wound round
)

// closure finds the partners of all edges. Corners at the same place are one.
func (t *Tree) closure() closure {
	places := newPlaces(len(t.tris))
	runs := newRuns(len(t.tris))
	for i := range t.tris {
		tri := &t.tris[i]
		a, b, c := places.number(tri.a), places.number(tri.b), places.number(tri.c)
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

// places numbers positions: a hash table with open addressing, a power of two long.
type places struct {
	at   []r3.Vec
	slot []int32 // number plus 1; 0 is free
}

// newPlaces makes room for the corners of so many triangles, if they share them as
// in a closed mesh; it grows if not.
func newPlaces(triangles int) places {
	return places{at: make([]r3.Vec, 0, triangles/2+4), slot: make([]int32, room(triangles))}
}

// room returns a power of two of at least twice n.
func room(n int) int {
	size := 16
	for size < 2*n {
		size *= 2
	}
	return size
}

func (p *places) number(v r3.Vec) int32 {
	if 3*len(p.at) >= 2*len(p.slot) {
		p.grow()
	}
	v = r3.Vec{X: v.X + 0, Y: v.Y + 0, Z: v.Z + 0} // -0 + 0 is 0
	mask := uint64(len(p.slot) - 1)
	for s := hash(math.Float64bits(v.X), math.Float64bits(v.Y), math.Float64bits(v.Z)) & mask; ; s = (s + 1) & mask {
		switch k := p.slot[s]; {
		case k == 0:
			p.at = append(p.at, v)
			p.slot[s] = int32(len(p.at))
			return int32(len(p.at)) - 1
		case p.at[k-1] == v:
			return k - 1
		}
	}
}

func (p *places) grow() {
	p.slot = make([]int32, 2*len(p.slot))
	mask := uint64(len(p.slot) - 1)
	for i, v := range p.at {
		s := hash(math.Float64bits(v.X), math.Float64bits(v.Y), math.Float64bits(v.Z)) & mask
		for p.slot[s] != 0 {
			s = (s + 1) & mask
		}
		p.slot[s] = int32(i) + 1
	}
}

// run is an edge: how often triangles run along it from its lower corner to its
// higher less how often the other way. lower = higher is a free place.
type run struct{ lower, higher, net int32 }

// runs is a hash table of edges with open addressing, a power of two long.
type runs []run

// newRuns makes room for the edges of so many triangles: with three each, if none
// has a partner, it is three quarters full.
func newRuns(triangles int) runs { return make(runs, room(2*triangles)) }

func (r runs) add(from, to int32) {
	way := int32(1)
	if from > to {
		from, to, way = to, from, -1
	}
	mask := uint64(len(r) - 1)
	for s := hash(uint64(from), uint64(to), 0) & mask; ; s = (s + 1) & mask {
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

// hash mixes three words. Any mix would be right, only slower.
func hash(a, b, c uint64) uint64 {
	h := a*0x9e3779b97f4a7c15 ^ b*0xc2b2ae3d27d4eb4f ^ c*0x165667b19e3779f9
	h ^= h >> 32
	h *= 0xff51afd7ed558ccd
	return h ^ h>>29
}
