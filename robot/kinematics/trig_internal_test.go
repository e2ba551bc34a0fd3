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

// angleOf sends one direction through directions.
func angleOf(y, x float64) float64 {
	var d directions
	i := d.add(y, x)
	d.angles()
	return d.angle(i)
}

func TestAnglesAgainstPackageMath(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	check := func(y, x float64) {
		t.Helper()
		got, want := angleOf(y, x), math.Atan2(y, x)
		if math.Signbit(got) != math.Signbit(want) || math.Abs(got-want) > 4.5e-16 || ulps(got, want) > 4 {
			t.Fatalf("angle of (%v, %v) = %v, want %v", x, y, got, want)
		}
	}
	zero := math.Copysign(0, -1)
	for _, y := range []float64{0, zero, 1e-300, -1e-300, 1e-20, -1e-20} {
		for _, x := range []float64{1, -1} {
			check(y, x)
			check(x, y)
		}
	}
	for k := range 64 { // where one known angle takes over from the next
		for _, off := range []float64{0, 1e-17, -1e-17, 1e-12, -1e-12} {
			s := (float64(k)+0.5)/64 + off
			check(s, math.Sqrt(1-s*s))
			check(math.Sqrt(1-s*s), -s)
		}
	}
	for range 500_000 {
		y, x := math.Sincos((2*r.Float64() - 1) * math.Pi)
		check(y, x)
		y, x = math.Sincos(math.Exp(-40 * r.Float64()))
		check(y, x)
		check(-x, y)
	}
}

// Directions that are a little off unit length, as rounding leaves them, turn
// into angles with less error than that; and nothing turns NaN into a number.
func TestAnglesOfDirectionsOffUnitLength(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 100_000 {
		y, x := math.Sincos((2*r.Float64() - 1) * math.Pi)
		off := (2*r.Float64() - 1) * 1e-6
		got, want := angleOf(y*(1+off), x*(1+off)), math.Atan2(y, x)
		if math.Abs(got-want) > 0.0115*math.Abs(off)+5e-16 {
			t.Fatalf("angle of %v times (%v, %v) = %v, want %v", 1+off, x, y, got, want)
		}
	}
	if v := angleOf(math.NaN(), 1); !math.IsNaN(v) {
		t.Errorf("angle of (1, NaN) = %v, want NaN", v)
	}
	if v := angleOf(0, math.NaN()); !math.IsNaN(v) {
		t.Errorf("angle of (NaN, 0) = %v, want NaN", v)
	}
}

// Every place holds its own direction.
func TestDirectionsKeepTheirPlaces(t *testing.T) {
	var d directions
	for i := range 32 - 1 {
		y, x := math.Sincos(float64(i) / 10)
		if at := d.add(y, x); at != uint8(i) {
			t.Fatalf("direction %d is at place %d", i, at)
		}
	}
	d.angles()
	for i := range 32 - 1 {
		if got, want := d.angle(uint8(i)), math.Remainder(float64(i)/10, 2*math.Pi); math.Abs(got-want) > 1e-15 {
			t.Errorf("angle at place %d = %v, want %v", i, got, want)
		}
	}
}
