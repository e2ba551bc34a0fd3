package scene

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/job"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// The boxes of every typed form, by hand from docs/clearance.md.
func TestBlocks(t *testing.T) {
	v := func(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }
	for _, c := range []struct {
		name  string
		shape job.Shape
		want  []block // lower corner, size
	}{
		{"box", job.Shape{Kind: job.ShapeBox, Size: v(1, 2, 3)}, []block{{v(0, 0, 0), v(1, 2, 3)}}},
		{"plate", job.Shape{Kind: job.ShapePlate, Size: v(4, 2, 0.5)}, []block{{v(0, 0, -0.5), v(4, 2, 0.5)}}},
		{"square post", job.Shape{Kind: job.ShapePost, Size: v(0.2, 0.2, 3)}, []block{{v(-0.1, -0.1, 0), v(0.2, 0.2, 3)}}},
		{"floor", job.Shape{Kind: job.ShapeFloor}, []block{{v(-20, -20, -1), v(40, 40, 1)}}},
		{"clamp", job.Shape{Kind: job.ShapeClamp, Size: v(0.6, 0.4, 1), Clamp: job.Clamp{Bar: 0.2, Reach: 2, TipDiameter: 0.3, TipLength: 0.5}},
			[]block{{v(-0.3, -0.2, 0), v(0.6, 0.4, 1)}, {v(-0.3, -0.1, 1), v(2.45, 0.2, 0.2)}}}, // from the foot's back to the tip's front
		{"table", job.Shape{Kind: job.ShapeTable, Size: v(4, 2, 0.5), LegSide: 0.2, LegHeight: 3}, []block{{v(-2, -1, -0.5), v(4, 2, 0.5)},
			{v(-2, -1, -3.5), v(0.2, 0.2, 3)}, {v(-2, 0.8, -3.5), v(0.2, 0.2, 3)}, {v(1.8, -1, -3.5), v(0.2, 0.2, 3)}, {v(1.8, 0.8, -3.5), v(0.2, 0.2, 3)}}},
		{"table without legs", job.Shape{Kind: job.ShapeTable, Size: v(4, 2, 0.5)}, []block{{v(-2, -1, -0.5), v(4, 2, 0.5)}}},
	} {
		got := blocks(&c.shape)
		if !slices.EqualFunc(got, c.want, func(a, b block) bool { return a.corner.Dist(b.corner)+a.size.Dist(b.size) < 1e-12 }) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

// A mesh that is cut keeps its area, and each part stays on its side.
func TestCutKeepsArea(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		radius := rapid.Float64Range(0.005, 0.05).Draw(r, "radius")
		length := rapid.Float64Range(0.01, 0.3).Draw(r, "length")
		m, err := mesh.NewCylinder(radius, length, radius/20)
		if err != nil {
			r.Fatal(err)
		}
		at := rapid.Float64Range(-0.6, 0.6).Draw(r, "share") * length
		below, above := cutAcross(m, at)
		if d := below.Area() + above.Area() - m.Area(); math.Abs(d) > 1e-12 {
			r.Fatalf("area changed by %g m2", d)
		}
		const rounding = 1e-15 // m
		for _, v := range below.Vertices {
			if v.Z > at+rounding {
				r.Fatalf("%v is above %v", v, at)
			}
		}
		for _, v := range above.Vertices {
			if v.Z < at-rounding {
				r.Fatalf("%v is below %v", v, at)
			}
		}
		if inside := math.Abs(at) < length/2; math.Abs(at) != length/2 && inside != (len(below.Triangles) > 0 && len(above.Triangles) > 0) {
			r.Fatalf("cut at %v of %v: %d and %d triangles", at, length, len(below.Triangles), len(above.Triangles))
		}
	})
}

// Faces and edges that lie in the plane of the cut belong to one side, or none.
func TestCutOnAFace(t *testing.T) {
	m, err := mesh.NewBox(r3.Vec{X: 2, Y: 2, Z: 2})
	if err != nil {
		t.Fatal(err)
	}
	below, above := cutAcross(m, 1)
	if len(above.Triangles) != 0 || len(below.Triangles) != 12 {
		t.Errorf("%d and %d triangles", len(below.Triangles), len(above.Triangles))
	}
}
