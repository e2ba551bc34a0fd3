package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"
)

// ulps returns how many float64 steps apart two numbers of one sign are.
func ulps(a, b float64) float64 {
	return math.Abs(float64(int64(math.Float64bits(a)) - int64(math.Float64bits(b))))
}

// Package math is within 1 unit in the last place of the true value; so the
// sums below are too, plus 1.
func TestSincosAgainstPackageMath(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	values := []float64{0, math.Copysign(0, -1), 1e-300, 1e-9, math.Pi / 4, math.Pi / 2, math.Pi, -math.Pi, 2 * math.Pi, 99999, 1e5, 1e9, -1e9}
	for k := -40; k <= 40; k++ {
		values = append(values, float64(k)*math.Pi/4, float64(k)*math.Pi/4+1e-9)
	}
	for range 300_000 {
		values = append(values, (2*r.Float64()-1)*10)
	}
	for range 100_000 {
		values = append(values, (2*r.Float64()-1)*1e5)
	}
	for _, x := range values {
		s, c := sincos(x)
		ws, wc := math.Sincos(x)
		if math.Abs(s-ws) > 2.3e-16 || math.Abs(c-wc) > 2.3e-16 {
			t.Fatalf("sincos(%v) = %v, %v, want %v, %v", x, s, c, ws, wc)
		}
		// Near a zero the value itself must keep its digits.
		if math.Abs(x) < 10 && (math.Abs(ws) > 1e-12 && ulps(s, ws) > 2 || math.Abs(wc) > 1e-12 && ulps(c, wc) > 2) {
			t.Fatalf("sincos(%v) = %v, %v, want %v, %v: more than 2 units in the last place", x, s, c, ws, wc)
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if s, c := sincos(x); !math.IsNaN(s) || !math.IsNaN(c) {
			t.Errorf("sincos(%v) = %v, %v, want NaN", x, s, c)
		}
	}
}

func TestAtan2AgainstPackageMath(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	special := []float64{0, math.Copysign(0, -1), 1, -1, 0.4142135623730950, 0.4142135623730951, 1e-20, -1e-20, 1e-308, 5e-324, 1e300, math.MaxFloat64, math.Inf(1), math.Inf(-1), math.NaN()}
	check := func(y, x float64) {
		t.Helper()
		got, want := atan2(y, x), math.Atan2(y, x)
		same := got == want && math.Signbit(got) == math.Signbit(want) || math.IsNaN(got) && math.IsNaN(want)
		if !same && !(ulps(got, want) <= 2) {
			t.Fatalf("atan2(%v, %v) = %v, want %v", y, x, got, want)
		}
	}
	for _, y := range special {
		for _, x := range special {
			check(y, x)
		}
	}
	for range 500_000 {
		scale := math.Exp((2*r.Float64() - 1) * 20)
		check((2*r.Float64()-1)*scale, 2*r.Float64()-1)
	}
}
