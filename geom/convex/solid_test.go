package convex_test

import (
	"math"
	"testing"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

func TestSizesThatAreRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	second := func(_ convex.Solid, err error) error { return err }
	rows := []struct {
		name string
		err  error
		want string
	}{
		{"flat box", second(convex.NewBox(r3.Vec{X: 1, Y: 0, Z: 1})), "box: found a size along y of 0 m; allowed: more than 0 m, at most 1e+06 m; to mend: give a positive length"},
		{"endless box", second(convex.NewBox(r3.Vec{X: 1, Y: 1, Z: inf})), "box: found a size along z of +Inf m; allowed: more than 0 m, at most 1e+06 m; to mend: give a positive length"},
		{"cylinder inside out", second(convex.NewCylinder(-0.1, 1)), "cylinder: found a radius of -0.1 m; allowed: more than 0 m, at most 1e+06 m; to mend: give a positive length"},
		{"cylinder without length", second(convex.NewCylinder(0.1, 0)), "cylinder: found a length of 0 m; allowed: more than 0 m, at most 1e+06 m; to mend: give a positive length"},
		{"ball of no number", second(convex.NewSphere(nan)), "sphere: found a radius of NaN m; allowed: more than 0 m, at most 1e+06 m; to mend: give a positive length"},
		{"capsule too short", second(convex.NewCapsule(0.1, -1)), "capsule: found a length of -1 m; allowed: 0 to 1e+06 m; to mend: use 0 for a ball"},
		{"cone of no width", second(convex.NewCone(0, 0, 1)), "cone: found a larger radius of 0 m; allowed: more than 0 m, at most 1e+06 m; to mend: give a positive length"},
		{"cone inside out", second(convex.NewCone(0.1, -0.1, 1)), "cone: found a radius of -0.1 m; allowed: 0 m or more; to mend: use 0 for a point"},
		{"cone of no number", second(convex.NewCone(nan, 0.1, 1)), "cone: found a larger radius of NaN m; allowed: more than 0 m, at most 1e+06 m; to mend: give a positive length"},
		{"ball", second(convex.NewCapsule(0.1, 0)), ""},
		{"pointed cone", second(convex.NewCone(0, 0.1, 1)), ""},
	}
	for _, row := range rows {
		if got := text(row.err); got != row.want {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}

func text(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func TestKindsAreWords(t *testing.T) {
	for kind, want := range map[convex.Kind]string{convex.Box: "box", convex.Cylinder: "cylinder", convex.Sphere: "sphere", convex.Capsule: "capsule", convex.Cone: "cone", 9: "kind 9"} {
		if kind.String() != want {
			t.Errorf("%d is %q, want %q", uint8(kind), kind, want)
		}
	}
}

// every kind, about as large as a forearm.
var every = []convex.Solid{
	{Kind: convex.Box, Size: r3.Vec{X: 0.6, Y: 0.1, Z: 0.08}},
	{Kind: convex.Cylinder, Radius: 0.05, Length: 0.2},
	{Kind: convex.Sphere, Radius: 0.1},
	{Kind: convex.Capsule, Radius: 0.05, Length: 0.2},
	{Kind: convex.Cone, Radius: 0.05, TopRadius: 0.02, Length: 0.1},
}

func TestPosesAndLimitsThatAreNoNumbers(t *testing.T) {
	nan := math.NaN()
	for i := range every {
		here := se3.Translation(r3.Vec{X: 2})
		spoilt := every[i]
		spoilt.Size.X, spoilt.Radius = nan, nan
		if d := convex.Distance(&spoilt, &every[0], &here).Distance; !math.IsNaN(d) || convex.Clears(&spoilt, &every[0], &here, 0) {
			t.Errorf("%v of no size: distance %g, or reads as clear", spoilt.Kind, d)
		}
		for j := range every {
			a, b := &every[i], &every[j]
			for _, x := range []float64{nan, math.Inf(1), math.Inf(-1)} {
				pose := se3.Translation(r3.Vec{Y: x})
				axis := r3.Vec{X: 1}
				depth, _ := convex.Depth(a, b, &pose)
				if d := convex.Distance(a, b, &pose).Distance; !math.IsNaN(d) || !math.IsNaN(depth) ||
					convex.Clears(a, b, &pose, 0) || convex.ClearsAlong(a, b, &pose, 0, &axis) {
					t.Errorf("%v, %v at %v: distance %g, depth %g, or reads as clear", a.Kind, b.Kind, x, d, depth)
				}
			}
			far := se3.Translation(r3.Vec{Y: 9})
			if gap, near := convex.DistanceUnder(a, b, &far, nan); near || !math.IsNaN(gap.Distance) || convex.Clears(a, b, &far, nan) {
				t.Errorf("%v, %v, limit NaN: %v, or reads as clear", a.Kind, b.Kind, gap)
			}
			for _, from := range []r3.Vec{{X: nan}, {Y: math.Inf(1)}, {Z: 1e-300}, {X: 1e300}, {}} {
				if axis := from; !convex.ClearsAlong(a, b, &far, 1, &axis) {
					t.Errorf("%v, %v from %v: not clear", a.Kind, b.Kind, from)
				}
			}
			here := se3.Identity()
			if gap := convex.Distance(a, b, &here); gap.Distance != 0 || convex.Clears(a, b, &here, 0) {
				t.Errorf("%v in %v: %v, or reads as clear", b.Kind, a.Kind, gap)
			}
		}
	}
}

// 1452 is the case of an arm in which a search that gave up after some number of
// steps read a hit: a cylinder of the arm beside a box, 2 mm away at least. Here
// is its like: long flat faces, all but parallel, and a rim that creeps along.
func TestSlowSearchesEndInProof(t *testing.T) {
	long := convex.Solid{Kind: convex.Cylinder, Radius: 0.04, Length: 0.6}
	floor := convex.Solid{Kind: convex.Box, Size: r3.Vec{X: 4, Y: 4, Z: 0.1}}
	for _, tilt := range []float64{0, 1e-12, 1e-9, 1e-6, 1e-3, 0.1} {
		for _, gap := range []float64{2e-3, 1e-4, 1e-6, 1e-8} {
			sin, cos := math.Sincos(tilt)
			up := 0.05 + gap + 0.3*sin + 0.04*cos // of the middle: the lower rim is gap over the floor
			pose := se3.Pose{R: se3.RotX(math.Pi/2 + tilt), P: r3.Vec{X: 0.7, Y: -0.3, Z: up}}
			if got := convex.Distance(&floor, &long, &pose).Distance; math.Abs(got-gap) > 1e-9 {
				t.Errorf("tilt %g: %.17g, want %g", tilt, got, gap)
			}
			if !convex.Clears(&floor, &long, &pose, gap-1e-9) || convex.Clears(&floor, &long, &pose, gap+1e-9) {
				t.Errorf("tilt %g, gap %g: clears is wrong", tilt, gap)
			}
		}
	}
}

func TestNoQueryAllocates(t *testing.T) {
	apart, in := se3.Translation(r3.Vec{X: 1.1, Y: 0.2}), se3.Translation(r3.Vec{X: 0.01, Y: 0.02})
	triangle := convex.Triangle{A: r3.Vec{X: 1}, B: r3.Vec{X: 1, Y: 1}, C: r3.Vec{X: 1, Z: 1}}
	for i := range every {
		for j := range every {
			a, b := &every[i], &every[j]
			wrong := 0
			if n := testing.AllocsPerRun(20, func() {
				axis := r3.Vec{X: 1}
				depth, _ := convex.Depth(a, b, &in)
				gap, near := convex.DistanceTriangleUnder(a, &triangle, 2)
				if !convex.Clears(a, b, &apart, 0.1) || !convex.ClearsAlong(a, b, &apart, 0.1, &axis) ||
					convex.Distance(a, b, &apart).Distance < 0.1 || depth == 0 || !near || gap.Distance == 0 {
					wrong++
				}
			}); n != 0 || wrong > 0 {
				t.Errorf("%v, %v: %v allocations, wrong %d", a.Kind, b.Kind, n, wrong)
			}
		}
	}
}
