package bvh_test

import (
	"math"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// reference is an answer of another library: the torch at pose T in the
// part's frame, m.
type reference struct {
	ID       int
	T        [16]float64
	Collide  bool
	Distance float64
}

func (c *reference) pose() se3.Pose {
	t := &c.T
	return se3.Pose{
		R: se3.Rot{t[0], t[1], t[2], t[4], t[5], t[6], t[8], t[9], t[10]},
		P: r3.Vec{X: t[3], Y: t[7], Z: t[11]},
	}
}

// check asks every query about the case and returns the difference to the
// reference's distance, m. start is where a warm start begins.
func (c *reference) check(t *testing.T, part, torch *bvh.Tree, start bvh.Pair) float64 {
	t.Helper()
	pose := c.pose()
	gap := part.Distance(torch, pose)
	if hit := part.Overlaps(torch, pose); hit != c.Collide || hit != (gap.Distance == 0) {
		t.Errorf("case %d: overlaps %v, distance %g, want %v", c.ID, hit, gap.Distance, c.Collide)
	}
	off := math.Abs(gap.Distance - c.Distance)
	if off > 1e-12 {
		t.Errorf("case %d: distance %.17g, want %.17g", c.ID, gap.Distance, c.Distance)
	}
	checkWitness(t, part, torch, pose, gap)
	warm := part.DistanceFrom(torch, pose, start)
	if math.Abs(warm.Distance-c.Distance) > 1e-12 {
		t.Errorf("case %d: from %v distance %.17g, want %.17g", c.ID, start, warm.Distance, c.Distance)
	}
	back := torch.Distance(part, pose.Inv())
	if math.Abs(back.Distance-c.Distance) > 1e-12 {
		t.Errorf("case %d: the other way round %.17g, want %.17g", c.ID, back.Distance, c.Distance)
	}
	for _, limit := range []float64{0.005, 0.05} {
		under, near := part.DistanceUnder(torch, pose, limit, bvh.NoPair())
		if near != (c.Distance < limit) || math.Abs(under.Distance-min(c.Distance, limit)) > 1e-12 {
			t.Errorf("case %d: under %g: %v %.17g, want %.17g", c.ID, limit, near, under.Distance, c.Distance)
		}
		if clear := part.Clears(torch, pose, limit); clear != (c.Distance >= limit) {
			t.Errorf("case %d: clears %g: %v at %.17g", c.ID, limit, clear, c.Distance)
		}
	}
	return off
}

// checkWitness holds the nearest points to the distance and to their triangles.
func checkWitness(t failer, a, b *bvh.Tree, aFromB se3.Pose, gap bvh.Gap) {
	t.Helper()
	if d := gap.A.Dist(gap.B); math.Abs(d-gap.Distance) > 2*bvh.Touch {
		t.Fatalf("points are %.17g apart, distance %.17g", d, gap.Distance)
	}
	if d := off(a, gap.Pair.A, gap.A); d > 1e-11 {
		t.Fatalf("point on a is %g off triangle %d", d, gap.Pair.A)
	}
	if d := off(b, gap.Pair.B, aFromB.Inv().Apply(gap.B)); d > 1e-11 {
		t.Fatalf("point on b is %g off triangle %d", d, gap.Pair.B)
	}
}

// off returns how far a point is from triangle i of a tree, m.
func off(tree *bvh.Tree, i int32, p r3.Vec) float64 {
	a, b, c := tree.Triangle(i)
	least := math.Inf(1)
	for _, r := range subsets {
		if d, ok := nearestOfSpans([3]r3.Vec{p}, [3]r3.Vec{a, b, c}, subsets[0], r); ok {
			least = min(least, d)
		}
	}
	return least
}

// failer is what a test, a benchmark and a property test have in common.
type failer interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}
