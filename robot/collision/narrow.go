package collision

import (
	"math"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// gap returns the place where pair i is nearest if it is nearer than limit, m,
// with a and b in the base; otherwise the distance is the limit. At a pose that
// is not finite the distance is NaN.
func (m *Model) gap(s *Scratch, i int, limit float64) (near Near, found bool) {
	k := &m.pairings[i]
	at := &s.poses[k.a]
	pose := at.Inv().Mul(s.poses[k.b])
	a, b := &m.bodies[k.a].Shape, &m.bodies[k.b].Shape
	near.Pair = i
	switch {
	case a.tree == nil && b.tree == nil:
		g, ok := convex.DistanceUnder(&a.solid, &b.solid, &pose, limit)
		near.Distance, near.A, near.B, found = g.Distance, g.A, g.B, ok
	case a.tree == nil:
		g, ok := solidUnder(b, a, pose.Inv(), limit)
		near.Distance, near.A, near.B, found = g.Distance, pose.Apply(g.B), pose.Apply(g.A), ok
	case b.tree == nil:
		g, ok := solidUnder(a, b, pose, limit)
		near.Distance, near.A, near.B, found = g.Distance, g.A, g.B, ok
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
	pose := s.poses[k.a].Inv().Mul(s.poses[k.b])
	a, b := &m.bodies[k.a].Shape, &m.bodies[k.b].Shape
	switch {
	case a.tree == nil && b.tree == nil:
		return convex.ClearsAlong(&a.solid, &b.solid, &pose, margin, axis)
	case a.tree == nil:
		return clearsSolid(b, a, pose.Inv(), margin)
	case b.tree == nil:
		return clearsSolid(a, b, pose, margin)
	}
	return a.tree.Clears(b.tree, pose, margin)
}

// solidUnder returns the gap between a mesh and a solid, in the mesh's frame.
func solidUnder(mesh, solid *Shape, meshFromSolid se3.Pose, limit float64) (best convex.Gap, near bool) {
	best.Distance = limit
	solidFromMesh := meshFromSolid.Inv()
	for i := range mesh.tree.Len() {
		a, b, c := mesh.tree.Triangle(int32(i))
		t := convex.Triangle{A: solidFromMesh.Apply(a), B: solidFromMesh.Apply(b), C: solidFromMesh.Apply(c)}
		if g, ok := convex.DistanceTriangleUnder(&solid.solid, &t, best.Distance); ok {
			best, near = convex.Gap{Distance: g.Distance, A: meshFromSolid.Apply(g.B), B: meshFromSolid.Apply(g.A)}, true
		}
	}
	return best, near
}

// clearsSolid reports whether a mesh and a solid are apart by margin, m.
func clearsSolid(mesh, solid *Shape, meshFromSolid se3.Pose, margin float64) bool {
	_, near := solidUnder(mesh, solid, meshFromSolid, max(margin, math.Nextafter(convex.Touch, 1)))
	return !near
}
