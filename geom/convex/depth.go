package convex

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Slack is how much longer than the shortest way the depth may be: this share
// of it (dimensionless).
const Slack = 1e-3

// free is added to a depth, so that solids moved by it do not touch by rounding, m.
const free = 4 * Touch

// Depth returns how far, in metres, and in which unit direction of a's frame b
// has to be moved to be free of a: 0 and no direction for solids that do not
// touch. Moving b so far frees it, without turning it; the shortest such way is
// shorter by Slack of it and a micrometre at most. At a pose that is not finite
// the depth is NaN.
//
// The method is the expanding polytope of van den Bergen (2001; from memory),
// begun with the directions of both solids' axes.
func Depth(a, b *Solid, aFromB *se3.Pose) (depth float64, direction r3.Vec) {
	p := newPair(a, b, aFromB)
	axis := p.guess()
	var s simplex
	switch s.search(&p, &axis, p.rounding+2*Touch, 0) {
	case broken:
		return math.NaN(), r3.Vec{}
	case parted:
		return 0, r3.Vec{}
	}
	core := axis.Norm()
	switch {
	case s.overlap:
		core = 0
	case core-p.rounding > Touch:
		return 0, r3.Vec{}
	}
	e := expansion{pair: &p, upper: math.Inf(1)}
	if axis = axis.Unit(); axis != (r3.Vec{}) {
		e.probe(axis.Neg())
	}
	if e.upper > 1e-9-core { // else the way between the cores' nearest points does
		e.axes()
		e.expand()
	}
	return max(0, e.upper+p.rounding) + free, e.direction
}

// expansion is a convex hull of points of b - a that grows about the origin
// until its nearest face is as far as the set reaches.
type expansion struct {
	pair      *pair
	upper     float64 // the least depth found, m
	direction r3.Vec  // in which b moves by it
	n, faces  int
	w         [maxCorners]r3.Vec // m
	face      [2 * maxCorners]face
}

// maxCorners is more than twice what any pair of solids has been seen to need.
const maxCorners = 256

// face is a triangle of the hull.
type face struct {
	at   [3]int16 // corners, counter-clockwise from outside
	n    r3.Vec   // unit, outwards
	away float64  // height of its plane over the origin along n, m
	seen bool     // from the point that is being added
}

// probe returns the point of b - a that is farthest along a unit direction.
// Moving b against the direction by the point's height frees it.
func (e *expansion) probe(n r3.Vec) r3.Vec {
	_, w := e.pair.support(n.Neg())
	if h := w.Dot(n); h < e.upper {
		e.upper, e.direction = h, n.Neg()
	}
	return w
}

// axes probes along both solids' axes and what is square to two of them.
func (e *expansion) axes() {
	r := &e.pair.pose.R
	mine := [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}
	yours := [3]r3.Vec{r.X(), r.Y(), r.Z()}
	both := func(n r3.Vec) {
		if n = n.Unit(); n != (r3.Vec{}) {
			e.probe(n)
			e.probe(n.Neg())
		}
	}
	for i, m := range mine {
		both(m)
		both(yours[i])
		for _, y := range yours {
			both(m.Cross(y))
		}
	}
}

// expand grows the hull until no way can be shorter by Slack. The set may be
// flat; then what the axes gave is as short as can be, or nearly 0.
func (e *expansion) expand() {
	if !e.begin() {
		return
	}
	for {
		near := 0
		for i := 1; i < e.faces; i++ {
			if e.face[i].away < e.face[near].away {
				near = i
			}
		}
		f := e.face[near]
		if e.upper-f.away <= Slack*e.upper+1e-6 {
			return
		}
		w := e.probe(f.n)
		if w.Dot(f.n)-f.away <= Touch || !e.add(w, near) {
			return
		}
	}
}

// begin makes the hull a tetrahedron of points far from each other; false if
// the set is flat.
func (e *expansion) begin() bool {
	skew := [...]r3.Vec{{X: 0.6, Y: 0.48, Z: 0.64}, {X: -0.64, Y: 0.6, Z: 0.48}, {X: 0.48, Y: -0.64, Z: 0.6}}
	a := e.probe(skew[0])
	b := a
	for _, d := range skew {
		for range 2 {
			if w := e.probe(d); w.Dist(a) > b.Dist(a) {
				b = w
			}
			d = d.Neg()
		}
	}
	ab := b.Sub(a)
	c, ok := e.farthest(a, ab.Orthogonal(), ab.Cross(ab.Orthogonal()).Unit(), func(w r3.Vec) float64 { return w.Sub(a).Cross(ab.Unit()).Norm() })
	if !ok {
		return false
	}
	n := ab.Cross(c.Sub(a)).Unit()
	d, ok := e.farthest(a, n, n, func(w r3.Vec) float64 { return math.Abs(w.Sub(a).Dot(n)) })
	if !ok {
		return false
	}
	if d.Sub(a).Dot(n) > 0 {
		b, c = c, b // now d lies behind a, b, c
	}
	e.w[0], e.w[1], e.w[2], e.w[3] = a, b, c, d
	e.n = 4
	return e.side(0, 1, 2) && e.side(0, 3, 1) && e.side(1, 3, 2) && e.side(2, 3, 0)
}

// farthest returns the point that off says is farthest, among those extreme
// along two directions and against them; false if none is off by more than
// rounding.
func (e *expansion) farthest(a, one, two r3.Vec, off func(r3.Vec) float64) (best r3.Vec, ok bool) {
	most := 1e-9 * (1e-3 + a.Norm())
	for _, d := range [4]r3.Vec{one, one.Neg(), two, two.Neg()} {
		if w := e.probe(d); off(w) > most {
			best, most, ok = w, off(w), true
		}
	}
	return best, ok
}

// side adds a face of three corners, counter-clockwise from outside; false
// where there is no room. A face without area is never the nearest.
func (e *expansion) side(i, j, k int) bool {
	if e.faces == len(e.face) {
		return false
	}
	a := e.w[i]
	f := face{at: [3]int16{int16(i), int16(j), int16(k)}, n: e.w[j].Sub(a).Cross(e.w[k].Sub(a)).Unit(), away: math.Inf(1)}
	if f.n != (r3.Vec{}) {
		f.away = f.n.Dot(a)
	}
	e.face[e.faces] = f
	e.faces++
	return true
}

// add puts a point that sees a face into the hull: the faces it sees, all that
// hang together with that one, go, and faces to it close the hole.
func (e *expansion) add(w r3.Vec, seen int) bool {
	if e.n == len(e.w) {
		return false
	}
	e.w[e.n] = w
	e.n++
	var rim [2 * maxCorners][2]int16
	edges := 0
	e.face[seen].seen = true
	for again := true; again; {
		again, edges = false, 0
		for i := range e.faces {
			if !e.face[i].seen {
				continue
			}
			for k := range 3 {
				from, to := e.face[i].at[k], e.face[i].at[(k+1)%3]
				f := e.beside(from, to)
				switch {
				case f == nil:
					return false // rounding has torn the hull
				case f.seen:
				case f.n.Dot(w)-f.away > 0:
					f.seen, again = true, true
				case edges < len(rim):
					rim[edges] = [2]int16{from, to}
					edges++
				}
			}
		}
	}
	kept := 0
	for i := range e.faces {
		if !e.face[i].seen {
			e.face[kept] = e.face[i]
			kept++
		}
	}
	e.faces = kept
	for _, r := range rim[:edges] {
		if !e.side(int(r[0]), int(r[1]), e.n-1) {
			return false
		}
	}
	return true
}

// beside returns the face on the other side of an edge; nil if there is none.
func (e *expansion) beside(from, to int16) *face {
	for i := range e.faces {
		f := &e.face[i]
		if f.at[0] == to && f.at[1] == from || f.at[1] == to && f.at[2] == from || f.at[2] == to && f.at[0] == from {
			return f
		}
	}
	return nil
}
