package bvh_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

func TestCapsuleAgainstAllTriangles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyMesh(t, 20)
		tree := m.tree(t)
		grid := rapid.Bool().Draw(t, "capsule on grid")
		c := bvh.Capsule{P: point(t, grid), Q: point(t, grid), Radius: rapid.Float64Range(0, 0.2).Draw(t, "radius")}
		if rapid.Bool().Draw(t, "ball") {
			c.Q = c.P
		}
		axis := math.Inf(1)
		for i := range m.triangles {
			axis = min(axis, simplexes([3]r3.Vec{c.P, c.Q, c.Q}, m.corners(i)))
		}
		want := max(0, axis-c.Radius)
		spot, near := tree.NearestUnder(c, math.Inf(1))
		if !near || math.Abs(spot.Distance-want) > tolerance {
			t.Fatalf("%v %.17g, all triangles %.17g", near, spot.Distance, want)
		}
		if d := off(tree, spot.Triangle, spot.At); d > 1e-11 {
			t.Fatalf("%g off triangle %d", d, spot.Triangle)
		}
		length := c.P.Dist(c.Q)
		if around := spot.Axis.Dist(c.P) + spot.Axis.Dist(c.Q); math.Abs(around-length) > 1e-9 {
			t.Fatalf("axis point %v off the segment", spot.Axis)
		}
		if d := spot.Axis.Dist(spot.At) - c.Radius; math.Abs(max(0, d)-want) > tolerance {
			t.Fatalf("points are %.17g apart, want %.17g", d, want)
		}
		for _, limit := range []float64{0.05, want * 0.999, want*1.001 + 1e-6} {
			under, near := tree.NearestUnder(c, limit)
			if near != (want < limit) && math.Abs(want-limit) > tolerance {
				t.Fatalf("under %g: %v at %.17g", limit, near, want)
			}
			if near && math.Abs(under.Distance-want) > tolerance || !near && under.Distance != limit {
				t.Fatalf("under %g: %.17g, want %.17g", limit, under.Distance, want)
			}
		}
	})
}

func box(t *testing.T, size r3.Vec) *bvh.Tree {
	t.Helper()
	tree, err := bvh.NewBox(size)
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

func TestCapsulesAtABox(t *testing.T) {
	tree := box(t, r3.Vec{X: 2, Y: 4, Z: 6})
	at := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	rows := []struct {
		name string
		c    bvh.Capsule
		want float64
	}{
		{"point over a face", bvh.Capsule{P: at(3, 0, 0), Q: at(3, 0, 0)}, 2},
		{"point off a corner", bvh.Capsule{P: at(2, 3, 4), Q: at(2, 3, 4)}, math.Sqrt(3)},
		{"point on a face", bvh.Capsule{P: at(1, 0.5, 0.5), Q: at(1, 0.5, 0.5)}, 0},
		{"point inside", bvh.Capsule{P: at(0.25, 0, 0), Q: at(0.25, 0, 0)}, 0.75},
		{"ball", bvh.Capsule{P: at(3, 0, 0), Q: at(3, 0, 0), Radius: 0.5}, 1.5},
		{"ball that crosses", bvh.Capsule{P: at(1.25, 0, 0), Q: at(1.25, 0, 0), Radius: 0.5}, 0},
		{"along a face", bvh.Capsule{P: at(1.5, -9, 0), Q: at(1.5, 9, 0), Radius: 0.25}, 0.25},
		{"along an edge", bvh.Capsule{P: at(2, 3, -9), Q: at(2, 3, 9), Radius: 1}, math.Sqrt2 - 1},
		{"through", bvh.Capsule{P: at(-9, 0.1, 0.2), Q: at(9, 0.3, 0.1)}, 0},
		{"end towards a face", bvh.Capsule{P: at(9, 0, 0), Q: at(2, 1, 1), Radius: 0.1}, 0.9},
	}
	for _, row := range rows {
		spot, near := tree.NearestUnder(row.c, math.Inf(1))
		if !near || math.Abs(spot.Distance-row.want) > 1e-12 {
			t.Errorf("%s: %v %.17g, want %.17g", row.name, near, spot.Distance, row.want)
		}
	}
	if got := tree.Nearest(at(0, 5, 1)); got.Distance != 3 || got.At != at(0, 2, 1) {
		t.Errorf("nearest to a point: %v", got)
	}
}

func TestCapsulesThatAreNoNumbers(t *testing.T) {
	tree := box(t, r3.Vec{X: 1, Y: 1, Z: 1})
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []bvh.Capsule{{P: r3.Vec{X: nan}}, {Q: r3.Vec{Y: inf}}, {Radius: nan}, {Radius: -1}, {Radius: inf}} {
		if spot, near := tree.NearestUnder(c, inf); near || !math.IsNaN(spot.Distance) {
			t.Errorf("%v: %v %v", c, near, spot)
		}
	}
	if spot, near := tree.NearestUnder(bvh.Capsule{}, nan); near || !math.IsNaN(spot.Distance) {
		t.Errorf("limit NaN: %v %v", near, spot)
	}
	if _, near := tree.NearestUnder(bvh.Capsule{}, 0); near {
		t.Error("nearer than 0")
	}
}

func TestBoxIsClosedAndRefusesBadSizes(t *testing.T) {
	tree := box(t, r3.Vec{X: 2, Y: 4, Z: 6})
	var volume float64 // m3, by the divergence theorem: outward normals make it positive
	for i := range tree.Len() {
		a, b, c := tree.Triangle(int32(i))
		volume += a.Dot(b.Cross(c)) / 6
	}
	if math.Abs(volume-48) > 1e-12 {
		t.Errorf("volume %v, want 48", volume)
	}
	lo, hi := tree.Bounds()
	if lo.Dist(r3.Vec{X: -1, Y: -2, Z: -3}) > 1e-5 || hi.Dist(r3.Vec{X: 1, Y: 2, Z: 3}) > 1e-5 || lo.X > -1 || hi.Z < 3 {
		t.Errorf("bounds %v %v", lo, hi)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), 3e6} {
		if _, err := bvh.NewBox(r3.Vec{X: x, Y: 1, Z: 1}); err == nil {
			t.Errorf("a box of %v m", x)
		}
	}
}

func TestRayAgainstAllTriangles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := anyMesh(t, 20)
		tree := m.tree(t)
		grid := rapid.Bool().Draw(t, "ray on grid")
		origin, towards := point(t, grid), point(t, grid).Sub(point(t, grid))
		if towards.Norm() < 1e-3 {
			t.Skip("no direction")
		}
		const reach = 8
		hit, ok := tree.Ray(origin, towards, reach)
		// The ray as a thin segment: a hit is at no distance, and the first.
		end := origin.AddScaled(reach, towards.Unit())
		if ok {
			a, b, c := tree.Triangle(hit.Triangle)
			seen := math.Abs(b.Sub(a).Cross(c.Sub(a)).Dot(towards.Unit())) // twice the area, m2
			if d := off(tree, hit.Triangle, hit.At); d > 1e-9 && seen > 1e-6 {
				t.Fatalf("%v is %g off triangle %d", hit, d, hit.Triangle)
			}
			if d := origin.AddScaled(hit.Distance, towards.Unit()).Dist(hit.At); d > 1e-12 {
				t.Fatalf("%v is %g off the ray", hit, d)
			}
			end = origin.AddScaled(max(0, hit.Distance-1e-6), towards.Unit())
		}
		// No triangle is properly crossed before: both ends away from its plane,
		// the crossing well inside.
		for i := range m.triangles {
			c := m.corners(i)
			n := c[1].Sub(c[0]).Cross(c[2].Sub(c[0]))
			if n.Norm() < 1e-6 {
				continue
			}
			ha, hb := n.Dot(origin.Sub(c[0])), n.Dot(end.Sub(c[0]))
			if math.Min(math.Abs(ha), math.Abs(hb)) < 1e-9 || (ha > 0) == (hb > 0) {
				continue
			}
			x := origin.Lerp(end, ha/(ha-hb))
			inside := true
			for k := range c {
				inside = inside && n.Dot(c[(k+1)%3].Sub(c[k]).Cross(x.Sub(c[k]))) > 1e-9
			}
			if inside {
				t.Fatalf("%v %v: triangle %d is crossed before, at %v", ok, hit, i, x)
			}
		}
	})
}

func TestRaysAtABox(t *testing.T) {
	tree := box(t, r3.Vec{X: 2, Y: 4, Z: 6})
	rows := []struct {
		name      string
		from, dir r3.Vec
		reach     float64
		ok        bool
		want      float64
	}{
		{"at a face", r3.Vec{X: 5}, r3.Vec{X: -3}, 9, true, 4},
		{"along the diagonal of a face", r3.Vec{X: 5, Y: 0, Z: 0}, r3.Vec{X: -1}, 4, true, 4},
		{"out of reach", r3.Vec{X: 5}, r3.Vec{X: -1}, 3.9, false, 0},
		{"away", r3.Vec{X: 5}, r3.Vec{X: 1}, math.Inf(1), false, 0},
		{"from inside", r3.Vec{}, r3.Vec{Z: 1}, math.Inf(1), true, 3},
		{"past an edge", r3.Vec{X: 5, Y: 2.001}, r3.Vec{X: -1}, 9, false, 0},
		{"no direction", r3.Vec{}, r3.Vec{}, 9, false, 0},
		{"no number", r3.Vec{X: math.NaN()}, r3.Vec{X: 1}, 9, false, 0},
		{"reach no number", r3.Vec{}, r3.Vec{X: 1}, math.NaN(), false, 0},
	}
	for _, row := range rows {
		hit, ok := tree.Ray(row.from, row.dir, row.reach)
		if ok != row.ok || math.Abs(hit.Distance-row.want) > 1e-12 {
			t.Errorf("%s: %v %v, want %v %v", row.name, ok, hit, row.ok, row.want)
		}
	}
}

// Every ray from inside a closed surface meets it, above all at its edges and
// corners.
func TestRaysDoNotSlipThroughEdges(t *testing.T) {
	tree := cube(1).tree(t)
	rapid.Check(t, func(t *rapid.T) {
		from := r3.Vec{X: rapid.Float64Range(-0.9, 0.9).Draw(t, "x"), Y: rapid.Float64Range(-0.9, 0.9).Draw(t, "y")}
		a, b, c := tree.Triangle(int32(rapid.IntRange(0, 11).Draw(t, "triangle")))
		f := rapid.Float64Range(0, 1).Draw(t, "along")
		at := [3]r3.Vec{a.Lerp(b, f), b.Lerp(c, f), c.Lerp(a, f)}[rapid.IntRange(0, 2).Draw(t, "edge")]
		if _, ok := tree.Ray(from, at.Sub(from), 9); !ok {
			t.Fatalf("from %v past %v", from, at)
		}
	})
}

func TestNoQueryOfOneTreeAllocates(t *testing.T) {
	tree := box(t, r3.Vec{X: 1, Y: 1, Z: 1})
	pose := se3.Translation(r3.Vec{X: 3})
	if n := testing.AllocsPerRun(100, func() {
		tree.Nearest(pose.P)
		tree.NearestUnder(bvh.Capsule{P: pose.P, Radius: 0.1}, 0.5)
		tree.Ray(pose.P, r3.Vec{X: -1}, 9)
	}); n != 0 {
		t.Errorf("%v allocations", n)
	}
}
