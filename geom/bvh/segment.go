package bvh

import "seamwright/geom/r3"

// segments returns the dimensionless fractions s along p + s*u and t along
// q + t*v, both 0 to 1, of the nearest points of two segments; uu and vv are
// the squared lengths (m2). A segment may be a point.
//
// Ericson, Real-Time Collision Detection (2005), section 5.1.9, from memory,
// but for nearly parallel segments, where the determinant is taken from vector
// products because its two products cancel.
func segments(p, u r3.Vec, uu float64, q, v r3.Vec, vv float64) (s, t float64) {
	w := q.Sub(p)
	uv, uw, vw := u.Dot(v), u.Dot(w), v.Dot(w)
	det, num := uu*vv-uv*uv, uw*vv-vw*uv
	if det < 1e-6*(uu*vv) {
		n := u.Cross(v)
		det, num = n.Dot(n), n.Dot(w.Cross(v))
	}
	if num > 0 { // else s is 0
		s = 1
		if num < det {
			s = num / det
		}
	}
	switch t = s*uv - vw; {
	case !(t > 0):
		return unit(uw, uu), 0
	case t >= vv:
		return unit(uw+uv, uu), 1
	}
	return s, t / vv
}

// unit returns num/den held between 0 and 1; 0 where den is 0.
func unit(num, den float64) float64 {
	switch {
	case !(num > 0):
		return 0
	case num >= den:
		return 1
	}
	return num / den
}

// nearest returns the point of a triangle nearest to p, m in the triangle's
// frame.
func nearest(t *triangle, p r3.Vec) r3.Vec {
	if foot := p.AddScaled(-t.n.Dot(p.Sub(t.a)), t.n); inside(t, foot) {
		return foot
	}
	return nearestOnEdges(t, p)
}

// nearestOnEdges returns the point of a triangle's edges nearest to p, m.
func nearestOnEdges(t *triangle, p r3.Vec) r3.Vec {
	var best r3.Vec
	least := -1.0
	for _, e := range [3][2]r3.Vec{{t.a, t.b}, {t.b, t.c}, {t.c, t.a}} {
		u := e[1].Sub(e[0])
		x := e[0].AddScaled(unit(p.Sub(e[0]).Dot(u), u.Dot(u)), u)
		d := p.Sub(x)
		if dd := d.Dot(d); least < 0 || dd < least {
			least, best = dd, x
		}
	}
	return best
}
