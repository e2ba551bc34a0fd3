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

// Least returns the pair of least slack at joint values q (rad or m), if its
// slack is under limit, m. Otherwise near is false and every pair has at least
// limit more than is wanted. It panics where the regime has not one number for
// each pair.
func (m *Model) Least(s *Scratch, q *kinematics.Q, r Regime, limit float64) (least Near, near bool) {
	m.place(s, q)
	_ = r[:len(m.pairings)]
	least, best := Near{Pair: -1}, limit
	for i := range m.pairings {
		if r[i] < 0 {
			continue
		}
		if n, near := m.gap(s, i, best+r[i]); near {
			n.Wanted = r[i]
			least, best = n, n.Slack()
		}
	}
	return least, least.Pair >= 0
}

// Clear reports whether at joint values q (rad or m) every pair is apart by
// what the regime wants, and apart at all. Values that are not finite are not
// clear. It panics where the regime has not one number for each pair.
func (m *Model) Clear(s *Scratch, q *kinematics.Q, r Regime) bool {
	m.place(s, q)
	for i := range m.pairings {
		if k := &m.pairings[i]; r[i] >= 0 && !m.clears(s, k, r[i]) {
			return false
		}
	}
	return true
}

// gap returns the place where pair i is nearest if it is nearer than limit, m.
func (m *Model) gap(s *Scratch, i int, limit float64) (Near, bool) {
	k := &m.pairings[i]
	pose := s.poses[k.a].Inv().Mul(s.poses[k.b])
	a, b := &m.bodies[k.a].Shape, &m.bodies[k.b].Shape
	g, near := a.tree.DistanceUnder(b.tree, pose, limit, s.warm[i])
	if !near {
		return Near{Pair: -1, Distance: g.Distance}, math.IsNaN(g.Distance)
	}
	s.warm[i] = g.Pair
	return Near{Pair: i, Distance: g.Distance, A: s.poses[k.a].Apply(g.A), B: s.poses[k.a].Apply(g.B)}, true
}

// clears reports whether a pair is apart by at least margin, m.
func (m *Model) clears(s *Scratch, k *pairing, margin float64) bool {
	pose := s.poses[k.a].Inv().Mul(s.poses[k.b])
	return m.bodies[k.a].Shape.tree.Clears(m.bodies[k.b].Shape.tree, pose, margin)
}
