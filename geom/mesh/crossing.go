package mesh

import (
	"math"

	"seamwright/geom/r3"
)

// Crossings is what a search for triangles that cut through each other found.
type Crossings struct {
	Pairs   int    // pairs of triangles that cut each other
	First   r3.Vec // a place where the first pair does, m
	Tested  int    // pairs of triangles looked at
	Bounded bool   // the search stopped at its bound: there may be more
}

// maxPairs is how many pairs of triangles a check looks at unless told
// otherwise: about two seconds.
const maxPairs = 20_000_000

// cutDepth is how far, in m, triangles must reach through each other to count:
// coordinates of parts some metres long, rounded to single precision, are off
// by up to half a micrometre, and touching plates must not count.
const cutDepth = 1e-6

// findCrossings counts the pairs of triangles that cut through each other,
// looking at no more than limit pairs.
func findCrossings(m Mesh, limit int) Crossings {
	var out Crossings
	normals := make([]r3.Vec, len(m.Triangles))
	var solid []int32 // triangles with a plane
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		if height(a, b, c) > degenerateHeight {
			normals[i] = b.Sub(a).Cross(c.Sub(a)).Unit()
			solid = append(solid, int32(i))
		}
	}
	newTree(m, solid).selfPairs(func(p, q []int32) bool {
		same := &p[0] == &q[0]
		for i, s := range p {
			from := 0
			if same {
				from = i + 1
			}
			for _, t := range q[from:] {
				if out.Tested >= limit {
					out.Bounded = true
					return false
				}
				out.Tested++
				at, cut := m.cut(s, t, normals)
				if !cut {
					continue
				}
				if out.Pairs == 0 {
					out.First = at
				}
				out.Pairs++
			}
		}
		return true
	})
	return out
}

// cut reports whether two triangles cut through each other, and where: each
// has corners on both sides of the other's plane, and the pieces that they cut
// out of the line common to both planes overlap, all by more than cutDepth.
// This is the interval test of T. Moeller, A fast triangle-triangle
// intersection test (1997), from memory. Triangles that lie in one plane, or
// touch, do not cut.
func (m Mesh) cut(s, t int32, normals []r3.Vec) (at r3.Vec, cut bool) {
	p := [3]r3.Vec{}
	q := [3]r3.Vec{}
	p[0], p[1], p[2] = m.Corners(int(s))
	q[0], q[1], q[2] = m.Corners(int(t))
	p1, p2, ok := pierced(p, q[0], normals[t])
	if !ok {
		return at, false
	}
	q1, q2, ok := pierced(q, p[0], normals[s])
	if !ok {
		return at, false
	}
	line := p2.Sub(p1)
	if other := q2.Sub(q1); other.Norm() > line.Norm() {
		line = other
	}
	line = line.Unit()
	a, b := p1.Dot(line), p2.Dot(line)
	c, d := q1.Dot(line), q2.Dot(line)
	low := math.Max(math.Min(a, b), math.Min(c, d))
	high := math.Min(math.Max(a, b), math.Max(c, d))
	return p1.AddScaled((low+high)/2-a, line), high-low > cutDepth
}

// pierced returns the ends of the piece that a triangle cuts out of the plane
// through o, if it has corners further than cutDepth to both sides of it.
// Corners nearer than that count as in the plane.
func pierced(p [3]r3.Vec, o, normal r3.Vec) (from, to r3.Vec, ok bool) {
	var d [3]float64
	above, below := false, false
	for i := range p {
		d[i] = p[i].Sub(o).Dot(normal)
		switch {
		case d[i] > cutDepth:
			above = true
		case d[i] < -cutDepth:
			below = true
		default:
			d[i] = 0
		}
	}
	if !above || !below {
		return from, to, false
	}
	var ends [2]r3.Vec
	n := 0
	for i := range p {
		j := (i + 1) % 3
		switch {
		case d[i] == 0:
			ends[n] = p[i]
			n++
		case d[i] < 0 && d[j] > 0, d[i] > 0 && d[j] < 0:
			ends[n] = p[i].Lerp(p[j], d[i]/(d[i]-d[j]))
			n++
		}
	}
	return ends[0], ends[1], true
}

// height returns the smallest height of a triangle, m: twice its area over its
// longest side, 0 where all corners are one.
func height(a, b, c r3.Vec) float64 {
	longest := math.Max(a.Dist(b), math.Max(b.Dist(c), c.Dist(a)))
	if longest == 0 {
		return 0
	}
	return b.Sub(a).Cross(c.Sub(a)).Norm() / longest
}

const (
	// degenerateHeight is the height, in m, below which a triangle has no area:
	// a nanometre is far below any shape and far above rounding.
	degenerateHeight = 1e-9
	// sliverShare is height over longest side (dimensionless) below which a
	// triangle counts as a sliver: its normal is hard to trust.
	sliverShare = 1e-3
)
