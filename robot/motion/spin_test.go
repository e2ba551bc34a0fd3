package motion_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/motion"
)

const deg = math.Pi / 180

func profile(t rapid.TB, at, spin []float64) motion.SpinProfile {
	t.Helper()
	p, err := motion.NewSpinProfile(at, spin)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestSpinProfileConstant(t *testing.T) {
	for _, p := range []motion.SpinProfile{profile(t, []float64{0}, []float64{0.3}), profile(t, []float64{0, 1, 2}, []float64{0.3, 0.3, 0.3})} {
		for _, s := range []float64{-1, 0, 0.7, 2, 3} {
			spin, slope := p.At(s)
			near(t, "spin", spin, 0.3, 0)
			near(t, "slope", slope, 0, 0)
		}
		if !p.Constant() {
			t.Error("not constant")
		}
	}
}

// TestSpinProfileLine: a straight run of spins is reproduced (Hermite cubics
// contain lines), also across the half turn.
func TestSpinProfileLine(t *testing.T) {
	p := profile(t, []float64{0, 1, 2, 4}, []float64{170 * deg, 175 * deg, -180 * deg, -170 * deg})
	for _, s := range []float64{0, 0.5, 1.7, 3.9, 4} {
		spin, _ := p.At(s)
		near(t, "spin", spin, (170+5*s)*deg, 1e-12)
	}
}

func TestSpinProfileMonotoneAndSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "n")
		var at, spin []float64
		s, v := 0.0, 0.0
		for range n {
			at, spin = append(at, s), append(spin, v)
			s += rapid.Float64Range(0.01, 1).Draw(t, "step")
			v += float64(rapid.IntRange(-3, 3).Draw(t, "turn")) * 10 * deg
		}
		p := profile(t, at, spin)
		const h = 1e-6
		for i := range n {
			got, _ := p.At(at[i])
			near(t, "through its knot", got, spin[i], 1e-12)
			if i == 0 {
				continue
			}
			step := at[i] - at[i-1]
			low, high := min(spin[i-1], spin[i]), max(spin[i-1], spin[i])
			sign := spin[i] - spin[i-1]
			for k := range 50 {
				x := at[i-1] + step*(float64(k)+0.5)/50
				v, slope := p.At(x)
				if v < low-1e-12 || v > high+1e-12 || slope*sign < -1e-9 {
					t.Fatalf("between knots %d and %d: spin %g, slope %g", i-1, i, v, slope)
				}
				a, _ := p.At(x - h*step)
				b, _ := p.At(x + h*step)
				near(t, "slope", slope, (b-a)/(2*h*step), 1e-6*max(1, math.Abs(slope)))
			}
			if i < n-1 {
				eps := 1e-9 * min(step, at[i+1]-at[i])
				_, left := p.At(at[i] - eps)
				_, right := p.At(at[i] + eps)
				near(t, "slope across the knot", left, right, 1e-7*max(1, math.Abs(sign)/step, math.Abs(spin[i+1]-spin[i])/(at[i+1]-at[i])))
			}
		}
	})
}

// straight reports whether the line between knots i and k stays within tol.
func straight(at, u []float64, i, k int, tol float64) bool {
	for m := i; m <= k; m++ {
		if math.Abs(u[i]+(u[k]-u[i])*(at[m]-at[i])/(at[k]-at[i])-u[m]) > tol+1e-9 {
			return false
		}
	}
	return true
}

func TestSpinKnotsFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 10).Draw(t, "n")
		var at, u []float64
		s, v := 0.0, 0.0
		for range n {
			at, u = append(at, s), append(u, v)
			s += rapid.Float64Range(0.5, 2).Draw(t, "step")
			v += float64(rapid.IntRange(-1, 1).Draw(t, "turn")) * 10 * deg
		}
		tol := rapid.Float64Range(0, 12).Draw(t, "tolerance") * deg
		knots, err := motion.SpinKnots(at, u, tol)
		if err != nil {
			t.Fatal(err)
		}
		if knots[0].Station != 0 || knots[len(knots)-1].Station != n-1 {
			t.Fatalf("ends are missing: %v", knots)
		}
		for i := 1; i < len(knots); i++ {
			if !straight(at, u, knots[i-1].Station, knots[i].Station, tol) {
				t.Fatalf("%v: beyond the tolerance after knot %d", knots, i-1)
			}
		}
		fewest := n
		for set := range 1 << n { // every choice of stations
			if set&1 == 0 || set>>(n-1)&1 == 0 {
				continue
			}
			count, last, ok := 0, 0, true
			for i := 0; i < n && ok; i++ {
				if set>>i&1 == 1 {
					ok = i == 0 || straight(at, u, last, i, tol-2e-9)
					last = i
					count++
				}
			}
			if ok {
				fewest = min(fewest, count)
			}
		}
		if len(knots) > fewest {
			t.Fatalf("%d knots, %d are enough", len(knots), fewest)
		}
	})
}

func TestSmoothSpin(t *testing.T) {
	at := []float64{0, 0.1, 0.2, 0.3, 0.4}
	spin := []float64{0, 10 * deg, 20 * deg, 30 * deg, 30 * deg}
	p, err := motion.SmoothSpin(at, spin, []motion.SpinReach{{Spin: -90 * deg, Whole: true}, {Spin: 20 * deg, Whole: true}, {Spin: 18 * deg}}, deg)
	if err != nil || !p.Constant() {
		t.Fatalf("%v: not constant", err)
	}
	got, _ := p.At(0.25)
	near(t, "nearest constant", got, 20*deg, 0)
	p, err = motion.SmoothSpin(at, spin, nil, deg)
	if err != nil || p.Constant() {
		t.Fatalf("%v: constant", err)
	}
	for i, s := range at {
		got, _ := p.At(s)
		near(t, "spin", got, spin[i], 1.001*deg)
	}
}

func TestSpinRefuses(t *testing.T) {
	for name, c := range map[string][2][]float64{
		"none":   {nil, nil},
		"count":  {{0, 1}, {0}},
		"order":  {{0, 0}, {0, 0}},
		"finite": {{0, 1}, {0, math.NaN()}},
	} {
		if _, err := motion.NewSpinProfile(c[0], c[1]); err == nil {
			t.Errorf("%s: no error from NewSpinProfile", name)
		}
		if _, err := motion.SpinKnots(c[0], c[1], 0.1); err == nil {
			t.Errorf("%s: no error from SpinKnots", name)
		}
	}
	if _, err := motion.SpinKnots([]float64{0}, []float64{0}, -1); err == nil {
		t.Error("negative tolerance: no error")
	}
}
