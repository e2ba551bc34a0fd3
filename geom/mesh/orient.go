package mesh

import (
	"math"

	"seamwright/geom/r3"
)

// winding says which triangles of a mesh would have to be turned over.
type winding struct {
	turn      []bool
	turned    int // how many
	insideOut int // closed shells wound one way all over, the wrong one
	twisted   int // shells without a consistent winding, left as drawn
	cavities  int // closed shells that face inwards inside another, left so
	undecided int // inward shells left as drawn: what lies around them was not found out
}

// maxAround bounds the triangles looked at to find what shells lie inside
// others; a search over this many takes about a second.
const maxAround = 20_000_000

// orient finds the triangles to turn over so that each shell is wound one way
// and faces outwards. A closed shell that mostly faces inwards is a cavity, and
// stays one, where it lies inside an odd number of other closed shells. An open
// shell has no outside: the winding of the larger area stays.
func orient(m Mesh, shells []shell, against []bool) winding {
	w := winding{turn: make([]bool, len(m.Triangles))}
	budget := maxAround
	for i := range shells {
		s := &shells[i]
		if s.twisted {
			w.twisted++
			continue
		}
		var with, other float64
		for _, t := range s.triangles {
			if against[t] {
				other += m.triangleArea(int(t))
			} else {
				with += m.triangleArea(int(t))
			}
		}
		keepFirst := with >= other // as the larger area is drawn
		if outward, known := s.outward(m, against); known && outward != keepFirst {
			depth, ok := depthOf(m, shells, i, &budget)
			switch {
			case !ok:
				w.undecided++
			case depth%2 == 1:
				w.cavities++
			default:
				keepFirst = outward
			}
		}
		w.note(s, against, keepFirst)
	}
	return w
}

// note marks the triangles of a shell that are to be turned: those wound
// against the first, or else those wound with it.
func (w *winding) note(s *shell, against []bool, keepFirst bool) {
	n := 0
	for _, t := range s.triangles {
		if against[t] == keepFirst {
			w.turn[t] = true
			n++
		}
	}
	w.turned += n
	if n == len(s.triangles) {
		w.insideOut++
	}
}

// outward reports whether a shell faces outwards when all its triangles are
// wound as its first, and whether that is known: open and flat shells have no
// outside.
func (s *shell) outward(m Mesh, against []bool) (outward, known bool) {
	if !s.closed {
		return false, false
	}
	o := s.box.Centre()
	var volume float64
	for _, t := range s.triangles {
		a, b, c := m.Corners(int(t))
		v := a.Sub(o).Dot(b.Sub(o).Cross(c.Sub(o))) / 6
		if against[t] {
			v = -v
		}
		volume += v
	}
	size := s.box.Size().Norm()
	return volume > 0, math.Abs(volume) > flatVolume*size*size*size
}

// depthOf returns how many other closed shells hold shell i. The first corner
// of the shell stands for all of it, which is right for shells that do not cut
// each other. It is not known once the budget of triangles is used up, nor
// where no ray is clear of edges.
func depthOf(m Mesh, shells []shell, i int, budget *int) (depth int, known bool) {
	p := m.Vertices[m.Triangles[shells[i].triangles[0]][0]]
	for j := range shells {
		s := &shells[j]
		if j == i || !s.closed || !s.box.Contains(shells[i].box) {
			continue
		}
		if *budget -= len(s.triangles); *budget < 0 {
			return 0, false
		}
		inside, sure := s.holds(m, p)
		if !sure {
			return 0, false
		}
		if inside {
			depth++
		}
	}
	return depth, true
}

// holds reports whether the point p, in metres, lies inside a closed shell,
// however its triangles are wound: whether a ray from p meets it an odd number
// of times. A ray that passes close to an edge says nothing, and another is
// tried; sure is false when none of them does.
func (s *shell) holds(m Mesh, p r3.Vec) (inside, sure bool) {
	for _, d := range rays {
		n := 0
		sure = true
		for _, t := range s.triangles {
			a, b, c := m.Corners(int(t))
			hit, clear := rayHits(p, d, a, b, c)
			if sure = clear; !sure {
				break
			}
			if hit {
				n++
			}
		}
		if sure {
			return n%2 == 1, true
		}
	}
	return false, false
}

// rays are directions (dimensionless) that no edge of a drawn part is likely to
// lie along.
var rays = [...]r3.Vec{
	{X: 0.5773, Y: 0.2113, Z: 0.7887},
	{X: -0.3391, Y: 0.8117, Z: 0.4755},
	{X: 0.8419, Y: -0.4003, Z: -0.3617},
	{X: -0.1709, Y: -0.6211, Z: 0.7649},
}

// rayHits reports whether the ray from p along d meets the triangle, and
// whether that is clear: no edge nearer to the ray than a millionth of the
// triangle, and no corner of it on p.
func rayHits(p, d, a, b, c r3.Vec) (hit, clear bool) {
	a, b, c = a.Sub(p), b.Sub(p), c.Sub(p)
	u := d.Dot(c.Cross(b))
	v := d.Dot(a.Cross(c))
	w := d.Dot(b.Cross(a))
	scale := math.Max(math.Abs(u), math.Max(math.Abs(v), math.Abs(w)))
	near := 1e-6 * scale
	switch {
	case scale == 0:
		return false, false
	case (u > near || v > near || w > near) && (u < -near || v < -near || w < -near):
		return false, true // the line passes by
	case math.Abs(u) <= near || math.Abs(v) <= near || math.Abs(w) <= near:
		return false, false
	}
	t := (u*d.Dot(a) + v*d.Dot(b) + w*d.Dot(c)) / (u + v + w)
	return t > 0, true
}
