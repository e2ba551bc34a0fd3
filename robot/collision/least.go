package collision

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// Regime is the least distance wanted of each pair, m, in the order of Pairs.
// A pair with a negative number is not looked at.
type Regime []float64

// Wanted returns the regime that wants one distance, m, of every pair.
func (m *Model) Wanted(distance float64) Regime {
	r := make(Regime, len(m.pairs))
	for i := range r {
		r[i] = distance
	}
	return r
}

// Near is the place where two bodies are nearest.
type Near struct {
	Pair     int     // index in Pairs, -1 for none
	Distance float64 // between the surfaces, m; 0 where they touch or cross
	Wanted   float64 // m
	A, B     r3.Vec  // the nearest points of the pair's bodies, m, in the base frame
}

// Slack returns by how much the distance is more than wanted, m.
func (n Near) Slack() float64 { return n.Distance - n.Wanted }

// Clear reports whether the bodies are apart by what is wanted, and apart at
// all.
func (n Near) Clear() bool { return n.Distance > 0 && n.Distance >= n.Wanted }

// candidate is a pair that may be the nearest, and its slack at least, m.
type candidate struct {
	pair  int
	slack float64
}

// Least returns the pair of least slack at joint values q (rad or m), if its
// slack is under limit, m. Otherwise near is false and every pair has at least
// limit more than is wanted. Where several pairs have the same slack it is one
// of them. With values that are not finite the distance is NaN, of no pair. It
// panics where the regime has not one number for each pair.
func (m *Model) Least(s *Scratch, q *kinematics.Q, r Regime, limit float64) (least Near, near bool) {
	m.mustFit(r)
	if !m.frames.finite(q) {
		return Near{Pair: -1, Distance: math.NaN()}, true
	}
	m.place(s, q)
	return m.least(s, r, limit, nil)
}

// least is Least where the bodies are placed. Unless low is nil it writes there
// how much slack (m) each pair that is looked at has at least.
func (m *Model) least(s *Scratch, r Regime, limit float64, low []float64) (Near, bool) {
	m.follow(s)
	least := Near{Pair: -1}
	first := s.track.nearest(r)
	if first >= 0 {
		least, limit = m.lesser(s, first, r, least, limit, low)
	}
	s.list = s.list[:0]
	for i := range m.pairings {
		if r[i] < 0 || i == first {
			continue
		}
		k := &m.pairings[i]
		d := m.apart(s, k, limit+r[i])
		if d < limit+r[i] {
			d = max(d, s.track.known(i, k))
		}
		if d < limit+r[i] {
			s.list = append(s.list, candidate{i, d - r[i]})
		}
		if low != nil {
			low[i] = d - r[i]
		}
	}
	for len(s.list) > 0 {
		next := 0
		for i := range s.list {
			if s.list[i].slack < s.list[next].slack {
				next = i
			}
		}
		c := s.list[next]
		if c.slack >= limit {
			break
		}
		s.list[next] = s.list[len(s.list)-1]
		s.list = s.list[:len(s.list)-1]
		least, limit = m.lesser(s, c.pair, r, least, limit, low)
	}
	return least, least.Pair >= 0
}

// lesser returns the place where pair i is nearest and its slack if that is
// under limit, m, and otherwise what it was given. Unless low is nil it notes
// there how much slack the pair has at least.
func (m *Model) lesser(s *Scratch, i int, r Regime, least Near, limit float64, low []float64) (Near, float64) {
	k := &m.pairings[i]
	near, found := Near{Distance: s.track.known(i, k)}, false
	if near.Distance < limit+r[i] {
		near, found = m.gap(s, i, limit+r[i])
		s.track.learn(i, k, near.Distance, found)
	}
	near.Wanted = r[i]
	if low != nil {
		low[i] = near.Slack()
	}
	if found {
		return near, near.Slack()
	}
	return least, limit
}

// Clear reports whether at joint values q (rad or m) every pair is apart by
// what the regime wants, and apart at all. Values that are not finite are not
// clear. It panics where the regime has not one number for each pair.
func (m *Model) Clear(s *Scratch, q *kinematics.Q, r Regime) bool {
	m.mustFit(r)
	if !m.frames.finite(q) {
		return false
	}
	m.place(s, q)
	if s.hit >= 0 {
		if k := &m.order[s.hit]; r[k.pair] >= 0 && !m.quickClear(s, k, r[k.pair]) {
			return false
		}
	}
	for i := range m.order {
		k := &m.order[i]
		wanted, a, b := r[k.pair], &s.centres[k.big], &s.centres[k.small]
		x, y, z, reach := b.X-a.X, b.Y-a.Y, b.Z-a.Z, k.radii+wanted
		if x*x+y*y+z*z > reach*reach || wanted < 0 {
			continue
		}
		if !m.quickClear(s, k, wanted) {
			s.hit = i
			return false
		}
	}
	return true
}

// quickClear reports whether a pair is apart by wanted, m, and apart at all,
// without a look at its balls.
func (m *Model) quickClear(s *Scratch, k *quick, wanted float64) bool {
	switch m.boxes(s, k, wanted) {
	case clears:
		return true
	case touches:
		return false
	}
	return m.clears(s, &m.pairings[k.pair], wanted, &s.axes[k.pair])
}

// mustFit panics where a regime is not for this model.
func (m *Model) mustFit(r Regime) {
	if len(r) != len(m.pairings) {
		panic("collision: the regime has not one number for each pair of the model")
	}
}
