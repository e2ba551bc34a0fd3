package curve

import (
	"math"

	"seamwright/geom/r3"
)

// nearestParts is how many parts of an interval of the table are searched for
// a nearest point of their own: each turns by a fortieth of a radian at most.
const nearestParts = 4

// Nearest returns the arc length (m) of the point nearest to p (m).
//
// Intervals of the table that cannot hold it, by the lengths of their arcs, are
// skipped; in the others every part over which (point - p) . tangent rises
// through zero is searched by halving and secants.
func (c Smooth) Nearest(p r3.Vec) float64 {
	lo, hi := c.from, c.from+c.length
	bestT := c.toTable(0)
	best := c.distTo(bestT, p)
	if d := c.distTo(c.toTable(c.length), p); d < best {
		best, bestT = d, c.toTable(c.length)
	}
	first, last := c.interval(lo), c.interval(hi)
	for i := first; i <= last; i++ { // a good best lets most intervals be skipped
		if s := c.table[i].s; s > lo && s < hi {
			if d := c.distTo(s, p); d < best {
				best, bestT = d, s
			}
		}
	}
	for i := first; i <= last; i++ {
		a, b := max(lo, c.table[i].s), min(hi, c.table[i+1].s)
		if b <= a {
			continue
		}
		ua, ub := c.param(a), c.param(b)
		pa, _ := c.shape.at(ua)
		pb, _ := c.shape.at(ub)
		if (pa.Dist(p)+pb.Dist(p)-(b-a))/2 >= best {
			continue
		}
		if u, d := c.nearestIn(ua, ub, p); d < best {
			best, bestT = d, c.table[i].s+arcLength(c.shape, c.table[i].u, u)
		}
	}
	return min(max(c.fromTable(bestT), 0), c.length)
}

// distTo returns the distance (m) of p from the point at the table's arc length
// t (m).
func (c Smooth) distTo(t float64, p r3.Vec) float64 {
	q, _ := c.shape.at(c.param(t))
	return q.Dist(p)
}

// nearestIn returns the parameter between a and b, both within one interval, of
// the inner point nearest to p (m), and its distance (m); +Inf without one.
func (c Smooth) nearestIn(a, b float64, p r3.Vec) (u, dist float64) {
	dist = math.Inf(1)
	ua, fa := a, c.along(a, p)
	for k := 1; k <= nearestParts; k++ {
		ub := a + (b-a)*float64(k)/nearestParts
		fb := c.along(ub, p)
		if fa < 0 && fb >= 0 {
			root := c.root(ua, ub, fa, fb, p)
			if q, _ := c.shape.at(root); q.Dist(p) < dist {
				u, dist = root, q.Dist(p)
			}
		}
		ua, fa = ub, fb
	}
	return u, dist
}

// along returns (point - p) . derivative at u, m2 per unit: half the slope of
// the squared distance.
func (c Smooth) along(u float64, p r3.Vec) float64 {
	q, d := c.shape.at(u)
	return q.Sub(p).Dot(d)
}

// root returns where along passes zero between a, where it is fa < 0, and b,
// where it is fb >= 0: secants, kept inside and alternated with halving.
func (c Smooth) root(a, b, fa, fb float64, p r3.Vec) float64 {
	least := 1e-15 * (math.Abs(a) + math.Abs(b))
	for i := 0; i < 60 && b-a > least; i++ {
		u := (a + b) / 2
		if i%3 != 2 {
			u = a - fa*(b-a)/(fb-fa)
		}
		f := c.along(u, p)
		if f < 0 {
			a, fa = u, f
		} else {
			b, fb = u, f
		}
	}
	if -fa < fb {
		return a
	}
	return b
}
