package convex

import (
	"math"

	"seamwright/geom/r3"
)

// ending is why a search ended.
type ending uint8

const (
	settled ending = iota // at the nearest points
	parted                // by the limit or more
	within                // nearer than enough
	broken                // at a pose, a corner or a size that is not finite, or too large for squares
)

// closed is the largest share (dimensionless) of a distance between cores by
// which the plane found may fall short of the points found. A search that
// cannot come so near because of the rounding of coordinates ends where it
// stops gaining.
const closed = 1e-12

// simplex is the state of one search: up to four extreme points of the set of
// differences b - a, and the weights with which they add up to the point
// nearest to the origin.
type simplex struct {
	n       int
	w       [4]r3.Vec  // points of b - a, m
	x       [4]r3.Vec  // their parts on a's core, m
	l       [4]float64 // weights, dimensionless, which add up to 1
	overlap bool       // the origin is among the differences: the cores overlap
}

// points returns the nearest points of the two cores, m in a's frame.
func (s *simplex) points() (x, y r3.Vec) {
	var w r3.Vec
	for i := range s.n {
		x = x.AddScaled(s.l[i], s.x[i])
		w = w.AddScaled(s.l[i], s.w[i])
	}
	return x, x.Add(w)
}

// search finds the point of the differences of p nearest to the origin. It
// begins with the direction axis and leaves the last one there: if settled, and
// the cores do not overlap, the way from a's nearest point to b's. It ends early
// when a plane shows the cores to be limit (m) apart, or points that they are
// nearer than enough (m).
func (s *simplex) search(p *pair, axis *r3.Vec, limit, enough float64) ending {
	if !p.finite() {
		return broken
	}
	v, vv := *axis, math.Inf(1)
	if dd := v.Dot(v); !(dd > 1e-200 && dd < 1e200) { // squares leave float64
		if v = v.Unit(); !v.IsFinite() {
			v = r3.Vec{}
		}
		v = orElse(v, r3.Vec{Z: 1})
	}
	proven := math.Inf(-1)
	var next nearest
	for {
		x, w := p.support(v)
		vw := v.Dot(w)
		if vw > 0 && vw*vw >= limit*limit*v.Dot(v) {
			*axis = v
			return parted
		}
		if s.n > 0 && vv-vw <= closed*vv {
			break
		}
		s.w[s.n], s.x[s.n] = w, x
		next.vv = math.Inf(1)
		if s.reduce(&next) {
			s.overlap = true
			break
		}
		if !(next.vv < vv) {
			if s.n == 0 { // a size is no number
				return broken
			}
			low := vw / math.Sqrt(vv)
			if !(next.vv <= vv*(1+1e-15) && low > proven) {
				break
			}
			proven = low
		}
		s.keep(&next)
		v, vv = next.v, next.vv
		if vv <= Touch*Touch {
			s.overlap = true
			break
		}
		if vv < enough*enough {
			*axis = v
			return within
		}
	}
	*axis = v
	return settled
}

// nearest is the point of a simplex that is nearest to the origin of those looked
// at: on the corner, edge or face of n corners, in rising order, with these
// weights.
type nearest struct {
	v  r3.Vec
	vv float64 // v.v, m2
	n  int
	at [3]int
	l  [3]float64
}

// keep drops the corners that the nearest point does not need.
func (s *simplex) keep(k *nearest) {
	for i := range k.n {
		s.w[i], s.x[i], s.l[i] = s.w[k.at[i]], s.x[k.at[i]], k.l[i]
	}
	s.n = k.n
}

// reduce finds the point nearest to the origin of the corners 0 to s.n, of
// which the last is new, or that the origin is inside. Only what has the new
// corner is looked at: the nearest point of what was there before is farther.
func (s *simplex) reduce(best *nearest) (inside bool) {
	switch s.n {
	case 0:
		s.corner(0, best)
	case 1:
		s.edge(0, 1, best)
	case 2:
		s.face(0, 1, 2, best)
	default:
		return s.body(best)
	}
	return false
}

func (s *simplex) corner(i int, best *nearest) {
	v := s.w[i]
	if vv := v.Dot(v); vv < best.vv {
		best.v, best.vv, best.n, best.at[0], best.l[0] = v, vv, 1, i, 1
	}
}

// edge looks at the edge from i to the new corner j.
func (s *simplex) edge(i, j int, best *nearest) {
	a, b := s.w[j], s.w[i]
	d := b.Sub(a)
	t, dd := -a.Dot(d), d.Dot(d)
	switch {
	case !(t > 0):
		s.corner(j, best)
		return
	case t >= dd:
		s.corner(i, best)
		return
	}
	f := t / dd
	v := a.AddScaled(f, d)
	if vv := v.Dot(v); vv < best.vv {
		best.v, best.vv, best.n = v, vv, 2
		best.at[0], best.at[1] = i, j
		best.l[0], best.l[1] = f, 1-f
	}
}

// face looks at the face of i, j and the new corner k.
func (s *simplex) face(i, j, k int, best *nearest) {
	a := s.w[k]
	ab, ac := s.w[i].Sub(a), s.w[j].Sub(a)
	n := ab.Cross(ac)
	nn := n.Dot(n)
	f, g := ac.Cross(a).Dot(n)/nn, a.Cross(ab).Dot(n)/nn // no numbers for a face without area
	if !(f > 0 && g > 0 && f+g < 1) {
		s.edge(i, k, best)
		s.edge(j, k, best)
		return
	}
	// A point of the triangle, and the foot of the origin on its plane: the same
	// but for rounding. The foot has the better direction, unless the triangle is
	// so thin that it has none. One step of refinement makes up for a thin one.
	v, foot := a.AddScaled(f, ab).AddScaled(g, ac), n.Scale(a.Dot(n)/nn)
	fine := 1e-28 * a.Dot(a)
	off := foot.Sub(v)
	if off.Dot(off) > fine {
		f, g = f+off.Cross(ac).Dot(n)/nn, g+ab.Cross(off).Dot(n)/nn
		v = a.AddScaled(f, ab).AddScaled(g, ac)
		off = foot.Sub(v)
	}
	if off.Dot(off) <= fine {
		v = foot
	}
	if vv := v.Dot(v); vv < best.vv {
		best.v, best.vv, best.n = v, vv, 3
		best.at, best.l = [3]int{i, j, k}, [3]float64{f, g, 1 - f - g}
	}
}

// body is reduce for four corners.
func (s *simplex) body(best *nearest) (inside bool) {
	a := s.w[3]
	ab, ac, ad := s.w[0].Sub(a), s.w[1].Sub(a), s.w[2].Sub(a)
	nb, nc, nd := ac.Cross(ad), ad.Cross(ab), ab.Cross(ac) // of the faces opposite b, c, d
	det := nb.Dot(ab)
	f, g, h := -nb.Dot(a)/det, -nc.Dot(a)/det, -nd.Dot(a)/det
	if f > 0 && g > 0 && h > 0 && f+g+h < 1 {
		// Points of both cores, if they meet but for rounding. One step of
		// refinement makes up for a flat body.
		r := a.AddScaled(f, ab).AddScaled(g, ac).AddScaled(h, ad)
		f, g, h = f-nb.Dot(r)/det, g-nc.Dot(r)/det, h-nd.Dot(r)/det
		r = a.AddScaled(f, ab).AddScaled(g, ac).AddScaled(h, ad)
		if off := Touch + 1e-14*a.Norm(); r.Dot(r) <= off*off {
			s.l = [4]float64{f, g, h, 1 - f - g - h}
			s.n = 4
			return true
		}
		f, g, h = 0, 0, 0
	}
	if !(f > 0) {
		s.face(1, 2, 3, best)
	}
	if !(g > 0) {
		s.face(0, 2, 3, best)
	}
	if !(h > 0) {
		s.face(0, 1, 3, best)
	}
	return false
}
