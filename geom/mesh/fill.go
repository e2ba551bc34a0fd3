package mesh

import (
	"math"

	"seamwright/geom/r3"
)

// flatness is how far, in m, the border of a hole may lie from its middle plane
// to be filled: what single precision leaves of a flat face metres long.
const flatness = 2e-6

// maxFilled bounds the corners of a hole that is filled: cutting ears takes time
// with the square of them and more.
const maxFilled = 1000

// fillHoles closes, in place, flat holes of at most the perimeter (m) with
// triangles between the vertices they have, and returns how many holes and
// with how many triangles. A hole stays where its border crosses itself or is
// the outer border of a flat sheet, where another border lies in the same plane
// beside or inside it, as at the end of a tube, where triangles would have no
// area, or where an edge across it exists already.
func fillHoles(m *Mesh, perimeter float64) (holes, triangles int) {
	if perimeter == 0 {
		return 0, 0
	}
	a := m.Adjacency()
	made := map[Edge]bool{}
	all := borders(*m, a)
	boxes := make([]Box, len(all))
	for i, b := range all {
		boxes[i] = EmptyBox()
		for _, v := range b.vertices {
			boxes[i] = boxes[i].Include(m.Vertices[v])
		}
	}
	for i, b := range all {
		if length, _ := b.length(*m); !b.closed || length > perimeter || len(b.vertices) > maxFilled || b.hasCompany(*m, all, boxes, i) {
			continue
		}
		lid, ok := b.lid(*m, a, made)
		if !ok {
			continue
		}
		m.Triangles = append(m.Triangles, lid...)
		holes++
		triangles += len(lid)
	}
	return holes, triangles
}

// hasCompany reports whether another border comes near the plane of border i
// where their boxes meet.
func (b border) hasCompany(m Mesh, all []border, boxes []Box, i int) bool {
	normal, middle, _ := newell(b.positions(m))
	for j, other := range all {
		if j == i || !boxes[i].Meets(boxes[j]) {
			continue
		}
		for _, v := range other.vertices {
			if math.Abs(m.Vertices[v].Sub(middle).Dot(normal)) <= flatness {
				return true
			}
		}
	}
	return false
}

func (b border) positions(m Mesh) []r3.Vec {
	out := make([]r3.Vec, len(b.vertices))
	for i, v := range b.vertices {
		out[i] = m.Vertices[v]
	}
	return out
}

// lid returns triangles that fill the loop, wound to fit those beside it.
func (b border) lid(m Mesh, a Adjacency, made map[Edge]bool) ([][3]int32, bool) {
	n := len(b.vertices)
	corners := b.positions(m)
	cut, offFlat, err := Triangulate(corners)
	if err != nil || offFlat > flatness || b.aroundSheet(m, a, corners) {
		return nil, false
	}
	var inner []Edge
	for i, t := range cut {
		for k := range 3 {
			p, q := t[k], t[(k+1)%3]
			if d := (int(q) - int(p) + n) % n; d == 1 || d == n-1 {
				continue // along the border
			}
			e := Edge{min(b.vertices[p], b.vertices[q]), max(b.vertices[p], b.vertices[q])}
			if made[e] || a.has(e) {
				return nil, false
			}
			inner = append(inner, e)
		}
		if height(corners[t[0]], corners[t[1]], corners[t[2]]) <= degenerateHeight {
			return nil, false
		}
		cut[i] = [3]int32{b.vertices[t[0]], b.vertices[t[1]], b.vertices[t[2]]}
	}
	for _, e := range inner {
		made[e] = true
	}
	if b.alongTriangles(m, a) {
		for i := range cut {
			turnOver(&cut[i])
		}
	}
	return cut, true
}

// aroundSheet reports whether a triangle beside the loop lies flat inside it.
func (b border) aroundSheet(m Mesh, a Adjacency, corners []r3.Vec) bool {
	normal, _, _ := newell(corners)
	for i, v := range b.vertices {
		next := (i + 1) % len(corners)
		e, _ := a.find(Edge{min(v, b.vertices[next]), max(v, b.vertices[next])})
		s := a.Sides(int32(e))[0]
		third := m.Vertices[m.Triangles[s/3][(s%3+2)%3]].Sub(corners[i])
		inward := normal.Cross(corners[next].Sub(corners[i]))
		if math.Abs(third.Dot(normal)) <= flatness && third.Dot(inward) > 0 {
			return true
		}
	}
	return false
}

// alongTriangles reports whether more triangles beside the loop run along its
// direction than against it, so that what fills it must run the other way.
func (b border) alongTriangles(m Mesh, a Adjacency) bool {
	along := 0
	for i, v := range b.vertices {
		next := b.vertices[(i+1)%len(b.vertices)]
		e, _ := a.find(Edge{min(v, next), max(v, next)})
		if from, _ := m.ends(a.Sides(int32(e))[0]); from == v {
			along++
		} else {
			along--
		}
	}
	return along > 0
}
