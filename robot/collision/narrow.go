package collision

import (
	"seamwright/geom/convex"
	"seamwright/geom/r3"
)

// gap returns the place where pair i is nearest if it is nearer than limit, m,
// with a and b in the base; otherwise the distance is the limit.
func (m *Model) gap(s *Scratch, i int, limit float64) (near Near, found bool) {
	k := &m.pairings[i]
	at := m.pose(s, k.a)
	pose := at.Inv().Mul(*m.pose(s, k.b))
	a, b := &m.bodies[k.a].Shape, &m.bodies[k.b].Shape
	near.Pair = i
	switch {
	case a.tree == nil && b.tree == nil:
		g, ok := convex.DistanceUnder(&a.solid, &b.solid, &pose, limit)
		near.Distance, near.A, near.B, found = g.Distance, g.A, g.B, ok
	case a.tree == nil:
		g, ok := b.tree.SolidUnderFrom(&a.solid, pose.Inv(), limit, s.warm[i].B)
		if near.Distance, near.A, near.B, found = g.Distance, pose.Apply(g.On), pose.Apply(g.At), ok; ok {
			s.warm[i].B = g.Triangle
		}
	case b.tree == nil:
		g, ok := a.tree.SolidUnderFrom(&b.solid, pose, limit, s.warm[i].A)
		if near.Distance, near.A, near.B, found = g.Distance, g.At, g.On, ok; ok {
			s.warm[i].A = g.Triangle
		}
	default:
		g, ok := a.tree.DistanceUnder(b.tree, pose, limit, s.warm[i])
		if near.Distance, near.A, near.B, found = g.Distance, g.A, g.B, ok; ok {
			s.warm[i] = g.Pair
		}
	}
	near.A, near.B = at.Apply(near.A), at.Apply(near.B)
	return near, found
}

// clears reports whether a pair is apart by at least margin, m, and apart at
// all. axis is a direction from a to b in a's frame in which the search starts
// and ends where both are solids; the zero vector starts afresh.
func (m *Model) clears(s *Scratch, k *pairing, margin float64, axis *r3.Vec) bool {
	pose := m.pose(s, k.a).Inv().Mul(*m.pose(s, k.b))
	a, b := &m.bodies[k.a].Shape, &m.bodies[k.b].Shape
	switch {
	case a.tree == nil && b.tree == nil:
		return convex.ClearsAlong(&a.solid, &b.solid, &pose, margin, axis)
	case a.tree == nil:
		return b.tree.ClearsSolid(&a.solid, pose.Inv(), margin)
	case b.tree == nil:
		return a.tree.ClearsSolid(&b.solid, pose, margin)
	}
	return a.tree.Clears(b.tree, pose, margin)
}
