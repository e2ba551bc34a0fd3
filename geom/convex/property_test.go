package convex_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// exact is the tolerance of distances of solids of about a metre, m. Round
// solids whose sides are all but parallel are the worst: see reference_test.go
// for the rest.
const exact = 1e-8

// anySolid draws a solid of any kind, its sizes from a coarse grid, so that
// faces and rims meet, or free.
func anySolid(t *rapid.T) convex.Solid {
	grid := rapid.Bool().Draw(t, "sizes on grid")
	size := func(name string) float64 {
		if grid {
			return float64(rapid.IntRange(1, 4).Draw(t, name)) / 4
		}
		return math.Pow(10, rapid.Float64Range(-2.5, 0.3).Draw(t, name))
	}
	var s convex.Solid
	var err error
	switch convex.Kind(rapid.IntRange(0, 4).Draw(t, "kind")) {
	case convex.Box:
		s, err = convex.NewBox(r3.Vec{X: size("x"), Y: size("y"), Z: size("z")})
	case convex.Cylinder:
		s, err = convex.NewCylinder(size("radius"), size("length"))
	case convex.Sphere:
		s, err = convex.NewSphere(size("radius"))
	case convex.Capsule:
		s, err = convex.NewCapsule(size("radius"), size("length")*float64(rapid.IntRange(0, 1).Draw(t, "long")))
	case convex.Cone:
		foot, top := size("foot"), size("top")
		switch rapid.IntRange(0, 3).Draw(t, "point") {
		case 0:
			foot = 0
		case 1:
			top = 0
		}
		s, err = convex.NewCone(foot, top, size("length"))
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// anyPose draws a pose of quarter turns on a grid, one almost so, or any.
func anyPose(t *rapid.T) se3.Pose {
	small := 0.0
	switch rapid.IntRange(0, 2).Draw(t, "pose") {
	case 0:
		free := func(name string) float64 { return rapid.Float64Range(-2, 2).Draw(t, name) }
		return se3.Pose{
			R: se3.Exp(r3.Vec{X: free("turn x"), Y: free("turn y"), Z: free("turn z")}),
			P: r3.Vec{X: free("x"), Y: free("y"), Z: free("z")},
		}
	case 1:
		small = math.Pow(10, -float64(rapid.IntRange(3, 16).Draw(t, "small")))
	}
	quarter := func(name string) float64 { return float64(rapid.IntRange(0, 3).Draw(t, name)) * math.Pi / 2 }
	step := func(name string) float64 { return float64(rapid.IntRange(-8, 8).Draw(t, name)) / 8 }
	off := func(name string) float64 { return small * rapid.Float64Range(-1, 1).Draw(t, name) }
	return se3.Pose{
		R: se3.RotZ(quarter("z")).Mul(se3.RotX(quarter("x"))).Mul(se3.Exp(r3.Vec{X: off("turn x"), Y: off("turn y"), Z: off("turn z")})),
		P: r3.Vec{X: step("x") + off("x"), Y: step("y") + off("y"), Z: step("z") + off("z")},
	}
}

// outside returns how far a point of the solid's frame (m) is outside of it at
// least, by its definition: 0 in it.
func outside(s *convex.Solid, p r3.Vec) float64 {
	across, h := math.Hypot(p.X, p.Y), s.Length/2
	switch s.Kind {
	case convex.Box:
		return max(0, math.Abs(p.X)-s.Size.X/2, math.Abs(p.Y)-s.Size.Y/2, math.Abs(p.Z)-s.Size.Z/2)
	case convex.Sphere:
		return max(0, p.Norm()-s.Radius)
	case convex.Capsule:
		return max(0, math.Hypot(across, max(0, math.Abs(p.Z)-h))-s.Radius)
	case convex.Cone:
		wide := s.Radius + (s.TopRadius-s.Radius)*(p.Z+h)/s.Length
		return max(0, math.Abs(p.Z)-h, (across-wide)*s.Length/math.Hypot(s.Length, s.Radius-s.TopRadius))
	}
	return max(0, math.Abs(p.Z)-h, across-s.Radius)
}

// parted returns how far a plane square to n (unit, in a's frame) shows b to be
// beyond a, m.
func parted(a, b *convex.Solid, aFromB *se3.Pose, n r3.Vec) float64 {
	x := a.Support(n)
	y := aFromB.Apply(b.Support(aFromB.R.T().Apply(n.Neg())))
	return y.Sub(x).Dot(n)
}

// proven returns how far the best plane near that between the points of a gap
// shows the solids to be apart, m. The points of a least distance are known to
// the square root of rounding only, so the plane is turned until it shows most.
func proven(a, b *convex.Solid, aFromB *se3.Pose, gap convex.Gap) float64 {
	n := gap.B.Sub(gap.A).Unit()
	best := parted(a, b, aFromB, n)
	for step := 1e-6; step > 1e-10; { // rad
		x, gained := n.Orthogonal(), false
		for i := range 8 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 4)
			turned := n.AddScaled(step*cos, x).AddScaled(step*sin, n.Cross(x)).Unit()
			if d := parted(a, b, aFromB, turned); d > best {
				best, n, gained = d, turned, true
				break
			}
		}
		if !gained {
			step /= 2
		}
	}
	return best
}

// The answer is held against its own proof: points of both solids that are so
// far apart, and a plane beyond which one of them lies, so far from the other.
func TestDistanceIsProven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, pose := anySolid(t), anySolid(t), anyPose(t)
		gap := convex.Distance(&a, &b, &pose)
		if d := gap.A.Dist(gap.B); math.Abs(d-gap.Distance) > 1e-12 {
			t.Fatalf("points are %.17g apart, distance %.17g", d, gap.Distance)
		}
		if d := outside(&a, gap.A); d > 1e-12 {
			t.Fatalf("point %v is %g outside of a, distance %g", gap.A, d, gap.Distance)
		}
		if d := outside(&b, pose.Inv().Apply(gap.B)); d > 1e-12 {
			t.Fatalf("point %v is %g outside of b, distance %g", gap.B, d, gap.Distance)
		}
		if gap.Distance > exact {
			if d := proven(&a, &b, &pose, gap); d < gap.Distance-exact-1e-15/gap.Distance {
				t.Fatalf("distance %.17g, a plane shows %.17g", gap.Distance, d)
			}
		}
	})
}

func TestEveryQuestionHasTheSameAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, pose := anySolid(t), anySolid(t), anyPose(t)
		gap := convex.Distance(&a, &b, &pose)
		back := pose.Inv()
		if other := convex.Distance(&b, &a, &back); math.Abs(other.Distance-gap.Distance) > exact {
			t.Fatalf("the other way round %.17g, not %.17g", other.Distance, gap.Distance)
		}
		axis := r3.Vec{X: rapid.Float64Range(-1, 1).Draw(t, "axis x"), Y: rapid.Float64Range(-1, 1).Draw(t, "axis y"), Z: rapid.Float64Range(-1, 1).Draw(t, "axis z")}
		for _, limit := range []float64{0, 0.1, gap.Distance * 0.999, gap.Distance * 1.001, gap.Distance + 0.2} {
			if math.Abs(limit-gap.Distance) < exact {
				continue
			}
			under, near := convex.DistanceUnder(&a, &b, &pose, limit)
			if near != (gap.Distance < limit) || math.Abs(under.Distance-min(limit, gap.Distance)) > exact {
				t.Fatalf("under %g: %v %.17g, want %.17g", limit, near, under.Distance, gap.Distance)
			}
			want := gap.Distance >= limit && gap.Distance > 0
			if got := convex.Clears(&a, &b, &pose, limit); got != want {
				t.Fatalf("clears %g: %v at %.17g", limit, got, gap.Distance)
			}
			for range 2 { // the second time from where the first ended
				if got := convex.ClearsAlong(&a, &b, &pose, limit, &axis); got != want {
					t.Fatalf("clears %g along %v: %v at %.17g", limit, axis, got, gap.Distance)
				}
			}
		}
	})
}

func TestMovingBothChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, pose := anySolid(t), anySolid(t), anyPose(t)
		before := convex.Distance(&a, &b, &pose)
		// b is turned about its own axis, if it has one, and a about its own.
		turn := se3.Pose{R: se3.RotZ(rapid.Float64Range(-3, 3).Draw(t, "turn"))}
		moved := pose
		if b.Kind != convex.Box {
			moved = moved.Mul(turn)
		}
		if a.Kind != convex.Box {
			moved = turn.Mul(moved)
		}
		if after := convex.Distance(&a, &b, &moved); math.Abs(after.Distance-before.Distance) > exact {
			t.Fatalf("%.17g before, %.17g after", before.Distance, after.Distance)
		}
	})
}

// Moving a body by some way changes its distance by no more than that.
func TestDistanceFollowsMoves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, pose := anySolid(t), anySolid(t), anyPose(t)
		by := math.Pow(10, rapid.Float64Range(-9, 0).Draw(t, "by"))
		way := r3.Vec{X: rapid.Float64Range(-1, 1).Draw(t, "way x"), Y: rapid.Float64Range(-1, 1).Draw(t, "way y"), Z: rapid.Float64Range(-1, 1).Draw(t, "way z")}.Unit()
		moved := pose
		moved.P = moved.P.AddScaled(by, way)
		one, two := convex.Distance(&a, &b, &pose).Distance, convex.Distance(&a, &b, &moved).Distance
		if math.Abs(one-two) > by+exact {
			t.Fatalf("moved by %g: from %.17g to %.17g", by, one, two)
		}
	})
}

func TestDepthFreesAndIsShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, pose := anySolid(t), anySolid(t), anyPose(t)
		pose.P = pose.P.Scale(rapid.Float64Range(0, 1).Draw(t, "in"))
		depth, way := convex.Depth(&a, &b, &pose)
		if convex.Clears(&a, &b, &pose, 0) {
			if depth != 0 || way != (r3.Vec{}) {
				t.Fatalf("depth %g along %v of solids that are apart", depth, way)
			}
			return
		}
		if !(depth > 0) || math.Abs(way.Norm()-1) > 1e-12 {
			t.Fatalf("depth %g along %v of solids that touch", depth, way)
		}
		moved := pose
		moved.P = moved.P.AddScaled(depth, way)
		if !convex.Clears(&a, &b, &moved, 0) {
			t.Fatalf("moved by %g along %v they still touch", depth, way)
		}
		// No other way is shorter by more than is said.
		for i := range 400 {
			n := spread(i, 400)
			if other := -parted(&a, &b, &pose, n); other < depth*(1-convex.Slack)-1e-6-exact {
				t.Fatalf("depth %g along %v, but %g along %v", depth, way, other, n)
			}
		}
	})
}

// spread returns the i-th of n unit directions spread over the ball.
func spread(i, n int) r3.Vec {
	z := 1 - (2*float64(i)+1)/float64(n)
	sin, cos := math.Sincos(2.399963229728653 * float64(i)) // the golden angle, rad
	across := math.Sqrt(1 - z*z)
	return r3.Vec{X: across * cos, Y: across * sin, Z: z}
}

func TestSupportIsFarthest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t)
		n := spread(rapid.IntRange(0, 999).Draw(t, "direction"), 1000)
		if rapid.Bool().Draw(t, "along z") {
			n = r3.Vec{Z: math.Copysign(1, n.Z)}
		}
		far := s.Support(n)
		if d := outside(&s, far); d > 1e-12 {
			t.Fatalf("%v is %g outside", far, d)
		}
		// No point of the box that holds the solid is farther and in it.
		lo, hi := s.Bounds()
		at := func(name string) float64 { return rapid.Float64Range(0, 1).Draw(t, name) }
		for range 20 {
			p := r3.Vec{X: lo.X + (hi.X-lo.X)*at("x"), Y: lo.Y + (hi.Y-lo.Y)*at("y"), Z: lo.Z + (hi.Z-lo.Z)*at("z")}
			if outside(&s, p) == 0 && p.Dot(n) > far.Dot(n)+1e-12 {
				t.Fatalf("%v is farther along %v than %v", p, n, far)
			}
			if outside(&s, p) == 0 && p.Norm() > s.Outer()+1e-12 {
				t.Fatalf("%v is beyond %g", p, s.Outer())
			}
		}
		if x := s.Support(r3.Vec{X: 1}).X; math.Abs(x-hi.X) > 1e-12 {
			t.Fatalf("reaches %g along x, bounds say %g", x, hi.X)
		}
	})
}
