package se3_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

func anyPose() *rapid.Generator[se3.Pose] {
	return rapid.Custom(func(t *rapid.T) se3.Pose {
		part := rapid.Float64Range(-3, 3) // m
		return se3.Pose{
			R: anyRot().Draw(t, "R"),
			P: r3.Vec{X: part.Draw(t, "x"), Y: part.Draw(t, "y"), Z: part.Draw(t, "z")},
		}
	})
}

// posesApart returns the larger of the distance (m) and of the matrix entries'
// difference.
func posesApart(p, q se3.Pose) float64 { return max(p.P.Dist(q.P), apart(p.R, q.R)) }

// A cart stands at (2, 1, 0) and is turned by 90 deg to the left; its tool is
// 0.5 m ahead of it and 1 m up. By hand: ahead of the cart is world +Y.
func TestPoseByHand(t *testing.T) {
	worldFromCart := se3.Pose{R: se3.RotZ(math.Pi / 2), P: r3.Vec{X: 2, Y: 1}}
	cartFromTool := se3.Translation(r3.Vec{X: 0.5, Z: 1})
	worldFromTool := worldFromCart.Mul(cartFromTool)
	if want := (r3.Vec{X: 2, Y: 1.5, Z: 1}); worldFromTool.P.Dist(want) > 1e-15 {
		t.Errorf("tool at %v, want %v", worldFromTool.P, want)
	}
	if want := (r3.Vec{Y: 1}); worldFromTool.Dir(r3.Vec{X: 1}).Dist(want) > 1e-15 {
		t.Errorf("tool x along %v, want %v", worldFromTool.Dir(r3.Vec{X: 1}), want)
	}
	if got, want := worldFromTool.Apply(r3.Vec{X: 0.1}), (r3.Vec{X: 2, Y: 1.6, Z: 1}); got.Dist(want) > 1e-15 {
		t.Errorf("point at %v, want %v", got, want)
	}
}

func TestPoseGroup(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		aFromB, bFromC := anyPose().Draw(t, "aFromB"), anyPose().Draw(t, "bFromC")
		point := r3.Vec{X: 0.3, Y: -0.7, Z: 1.1}
		aFromC := aFromB.Mul(bFromC)
		if d := aFromC.Apply(point).Dist(aFromB.Apply(bFromC.Apply(point))); !(d <= 1e-13) {
			t.Fatalf("the product carries a point %v m away", d)
		}
		if d := posesApart(aFromB.Mul(aFromB.Inv()), se3.Identity()); !(d <= 1e-13) {
			t.Fatalf("p p^-1 is %v off the identity", d)
		}
		if d := posesApart(aFromB.Inv().Mul(aFromC), bFromC); !(d <= 1e-13) {
			t.Fatalf("p^-1 (p q) is %v off q", d)
		}
	})
}

func TestPoseLerp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := anyPose().Draw(t, "p"), anyPose().Draw(t, "q")
		if d := posesApart(p.Lerp(q, 0), p); !(d <= 1e-12) {
			t.Fatalf("at 0 it is %v off p", d)
		}
		if d := posesApart(p.Lerp(q, 1), q); !(d <= 1e-12) {
			t.Fatalf("at 1 it is %v off q", d)
		}
		half := p.Lerp(q, 0.5)
		if d := math.Abs(half.P.Dist(p.P) - half.P.Dist(q.P)); !(d <= 1e-12) {
			t.Fatalf("the middle is %v m nearer to one end", d)
		}
		if d := posesApart(p.Lerp(p, 0.3), p); !(d <= 1e-12) {
			t.Fatalf("between p and p it is %v off p", d)
		}
	})
}

// Minus says how to get from q to p: along its linear part and about its
// angular part, in the parent frame.
func TestPoseMinus(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := anyPose().Draw(t, "p"), anyPose().Draw(t, "q")
		step := p.Minus(q)
		back := se3.Pose{R: se3.Exp(step.Angular).Mul(q.R), P: q.P.Add(step.Linear)}
		if d := posesApart(back, p); !(d <= 1e-13) {
			t.Fatalf("q and the step give a pose %v off p", d)
		}
		if same := p.Minus(p); same.Linear != (r3.Vec{}) || same.Angular.Norm() > 1e-15 {
			t.Fatalf("p - p = %v, want 0", same)
		}
	})
}

func BenchmarkConventionEncode(b *testing.B) {
	r := leaning()
	var row [9]float64
	for _, c := range se3.Conventions() {
		switch c.String() {
		case "fixed x-y-z degrees", "quaternion w first", "tool direction and spin degrees":
			b.Run(c.String(), func(b *testing.B) {
				b.ReportAllocs()
				for range b.N {
					c.Encode(r, row[:])
				}
			})
		}
	}
}
