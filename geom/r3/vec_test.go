package r3_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
)

// anyVec draws a vector of the size of a workshop, metres.
func anyVec() *rapid.Generator[r3.Vec] {
	return rapid.Custom(func(t *rapid.T) r3.Vec {
		part := rapid.Float64Range(-10, 10)
		return r3.Vec{X: part.Draw(t, "x"), Y: part.Draw(t, "y"), Z: part.Draw(t, "z")}
	})
}

// near reports whether a and b agree to rounding of numbers up to a thousand.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*max(1, math.Abs(a), math.Abs(b)) }

func nearVec(a, b r3.Vec) bool { return near(a.X, b.X) && near(a.Y, b.Y) && near(a.Z, b.Z) }

func TestAlgebraByHand(t *testing.T) {
	a, b := r3.Vec{X: 1, Y: 2, Z: 3}, r3.Vec{X: -4, Y: 5, Z: 0.5}
	rows := []struct {
		name      string
		got, want r3.Vec
	}{
		{"Add", a.Add(b), r3.Vec{X: -3, Y: 7, Z: 3.5}},
		{"Sub", a.Sub(b), r3.Vec{X: 5, Y: -3, Z: 2.5}},
		{"Scale", a.Scale(-2), r3.Vec{X: -2, Y: -4, Z: -6}},
		{"AddScaled", a.AddScaled(2, b), r3.Vec{X: -7, Y: 12, Z: 4}},
		{"Neg", a.Neg(), r3.Vec{X: -1, Y: -2, Z: -3}},
		{"Cross", a.Cross(b), r3.Vec{X: -14, Y: -12.5, Z: 13}},
		{"x cross y is z", r3.Vec{X: 1}.Cross(r3.Vec{Y: 1}), r3.Vec{Z: 1}},
		{"Unit", r3.Vec{X: 3, Z: -4}.Unit(), r3.Vec{X: 0.6, Z: -0.8}},
		{"Unit of nothing", r3.Vec{}.Unit(), r3.Vec{}},
		{"Reject", a.Reject(r3.Vec{Y: 1}), r3.Vec{X: 1, Z: 3}},
		{"Lerp 0", a.Lerp(b, 0), a},
		{"Lerp 1", a.Lerp(b, 1), b},
		{"Lerp half", a.Lerp(b, 0.5), r3.Vec{X: -1.5, Y: 3.5, Z: 1.75}},
	}
	for _, row := range rows {
		if !nearVec(row.got, row.want) {
			t.Errorf("%s: got %v, want %v", row.name, row.got, row.want)
		}
	}
	if got := a.Dot(b); got != 7.5 {
		t.Errorf("Dot: got %v, want 7.5", got)
	}
	if got := (r3.Vec{X: 2, Y: 3, Z: 6}).Norm(); got != 7 {
		t.Errorf("Norm: got %v, want 7", got)
	}
	if got := a.Dist(a.Add(r3.Vec{X: 2, Y: -3, Z: 6})); !near(got, 7) {
		t.Errorf("Dist: got %v, want 7", got)
	}
}

func TestAngleKeepsItsDigits(t *testing.T) {
	for _, angle := range []float64{0, 1e-12, 1e-8, 0.3, math.Pi / 2, 3, math.Pi - 1e-8, math.Pi} {
		sin, cos := math.Sincos(angle)
		got := r3.Vec{X: 2}.Angle(r3.Vec{X: 5 * cos, Y: 5 * sin})
		if math.Abs(got-angle) > 1e-15 {
			t.Errorf("got %v, want %v", got, angle)
		}
	}
}

func TestUnitOfAnyLength(t *testing.T) {
	want := r3.Vec{X: 0.6, Y: -0.8}
	for _, length := range []float64{5e-310, 1e-200, 1e-156, 1e-9, 1, 1e12, 1e200, 1e308} {
		if got := want.Scale(length).Unit(); got.Dist(want) > 1e-12 {
			t.Errorf("length %v: got %v, want %v", length, got, want)
		}
	}
}

func TestCrossIsSquareToBoth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyVec().Draw(t, "a"), anyVec().Draw(t, "b")
		c := a.Cross(b)
		if !near(c.Dot(a)/1e3, 0) || !near(c.Dot(b)/1e3, 0) {
			t.Fatalf("%v is not square to %v and %v", c, a, b)
		}
		if lagrange := a.Dot(a)*b.Dot(b) - a.Dot(b)*a.Dot(b); math.Abs(c.Dot(c)-lagrange) > 1e-9 {
			t.Fatalf("|a x b|^2 = %v, want %v (Lagrange's identity)", c.Dot(c), lagrange)
		}
	})
}

func TestOrthogonalIsAUnitSquareToItsVector(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyVec().Draw(t, "a")
		if a.Norm() < 1e-9 {
			t.Skip("no direction")
		}
		o := a.Orthogonal()
		if !near(o.Norm(), 1) || !near(o.Dot(a.Unit()), 0) {
			t.Fatalf("%v: length %v, along %v", o, o.Norm(), o.Dot(a.Unit()))
		}
		if part := a.Reject(o); !nearVec(part, a) {
			t.Fatalf("rejecting a square direction changed %v into %v", a, part)
		}
	})
}

func TestIsFinite(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	rows := []struct {
		v    r3.Vec
		want bool
	}{
		{r3.Vec{}, true},
		{r3.Vec{X: math.MaxFloat64, Y: math.MaxFloat64}, true}, // their sum is infinite, they are not
		{r3.Vec{X: nan}, false}, {r3.Vec{Y: nan}, false}, {r3.Vec{Z: nan}, false},
		{r3.Vec{X: inf}, false}, {r3.Vec{Y: -inf}, false}, {r3.Vec{Z: inf}, false},
		{r3.Vec{X: inf, Y: -inf}, false},
	}
	for _, row := range rows {
		if got := row.v.IsFinite(); got != row.want {
			t.Errorf("%v: got %v, want %v", row.v, got, row.want)
		}
	}
}
