package motion_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/motion"
)

// TestSevenPhasePublished: source and values are in testdata/rest_to_rest.json.
func TestSevenPhasePublished(t *testing.T) {
	text, err := os.ReadFile("testdata/rest_to_rest.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Cases []struct{ D, V, A, J, T float64 }
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 7 {
		t.Fatalf("got %d cases, want 7", len(file.Cases))
	}
	for _, c := range file.Cases {
		l, err := motion.NewSevenPhase(c.D, motion.LawLimits{Speed: c.V, Accel: c.A, Jerk: c.J})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "duration", l.Duration(), c.T, 1e-14*c.T)
	}
}

// sevenCases has one row for each set of phases that can be left out.
var sevenCases = []struct {
	name     string
	distance float64
	limits   motion.LawLimits
	left     [7]bool // phases that take time
}{
	{"all seven", 3, motion.LawLimits{Speed: 2.5, Accel: 8, Jerk: 60}, [7]bool{true, true, true, true, true, true, true}},
	{"no constant speed", 0.6, motion.LawLimits{Speed: 2.5, Accel: 8, Jerk: 60}, [7]bool{true, true, true, false, true, true, true}},
	{"no constant acceleration", 3, motion.LawLimits{Speed: 0.5, Accel: 8, Jerk: 60}, [7]bool{true, false, true, true, true, false, true}},
	{"neither", 1e-4, motion.LawLimits{Speed: 2.5, Accel: 8, Jerk: 60}, [7]bool{true, false, true, false, true, false, true}},
	{"unlimited jerk", 3, motion.LawLimits{Speed: 2.5, Accel: 8}, [7]bool{false, true, false, true, false, true, false}},
	{"unlimited jerk, short", 0.1, motion.LawLimits{Speed: 2.5, Accel: 8, Jerk: math.Inf(1)}, [7]bool{false, true, false, false, false, true, false}},
}

func TestSevenPhasePhases(t *testing.T) {
	for _, c := range sevenCases {
		t.Run(c.name, func(t *testing.T) {
			l, err := motion.NewSevenPhase(c.distance, c.limits)
			if err != nil {
				t.Fatal(err)
			}
			from := 0.0
			for i, to := range l.Ends() {
				if took := to-from > 1e-12; took != c.left[i] {
					t.Errorf("phase %d takes %g s", i+1, to-from)
				}
				from = to
			}
			checkLaw(t, l, c.distance, c.limits)
		})
	}
}

// TestSevenPhaseUnlimited: without a limit of jerk it is the trapezoid, of which
// TestTrapezoidReference has places worked by hand.
func TestSevenPhaseUnlimited(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		distance := rapid.Float64Range(1e-6, 10).Draw(t, "distance")
		limits := motion.LawLimits{Speed: rapid.Float64Range(1e-3, 5).Draw(t, "speed"), Accel: rapid.Float64Range(0.01, 50).Draw(t, "accel")}
		l, err := motion.NewSevenPhase(distance, limits)
		if err != nil {
			t.Fatal(err)
		}
		want := distance/limits.Speed + limits.Speed/limits.Accel
		if distance < limits.Speed*limits.Speed/limits.Accel {
			want = 2 * math.Sqrt(distance/limits.Accel)
		}
		near(t, "duration", l.Duration(), want, 1e-12*want)
		checkLaw(t, l, distance, limits)
	})
}

func TestSevenPhaseTrivial(t *testing.T) {
	l, err := motion.NewSevenPhase(0, motion.LawLimits{Speed: 1, Accel: 1, Jerk: 1})
	if err != nil {
		t.Fatal(err)
	}
	if s, v, a := l.At(0); l.Duration() != 0 || s != 0 || v != 0 || a != 0 || l.JerkAt(0) != 0 {
		t.Errorf("no distance: got duration %g and %g %g %g", l.Duration(), s, v, a)
	}
	for _, bad := range [][4]float64{{-1, 1, 1, 1}, {1, 0, 1, 1}, {1, 1, 0, 1}, {1, 1, 1, -1}, {1, 1, 1, math.NaN()}, {math.NaN(), 1, 1, 1}, {math.Inf(1), 1, 1, 1}, {1, 1, math.Inf(1), 1}, {1e300, 1e-300, 1, 1}} {
		if _, err := motion.NewSevenPhase(bad[0], motion.LawLimits{Speed: bad[1], Accel: bad[2], Jerk: bad[3]}); err == nil {
			t.Errorf("%v: no error", bad)
		}
	}
}

// TestSevenPhaseLimits: over all sizes of limits, which lie up to six powers of ten
// apart, place, speed and acceleration run on without a jump, belong together, keep
// their limits to rounding and end exactly, and the motion backwards is the same.
func TestSevenPhaseLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		power := func(what string, lo, hi float64) float64 {
			return math.Pow(10, rapid.Float64Range(lo, hi).Draw(t, what))
		}
		distance := power("distance", -6, 1.5)
		limits := motion.LawLimits{Speed: power("speed", -3, 1), Accel: power("accel", -2, 2), Jerk: power("jerk", -2, 4)}
		l, err := motion.NewSevenPhase(distance, limits)
		if err != nil {
			t.Fatal(err)
		}
		const rounding = 1e-9
		total := l.Duration()
		h := total / 400
		for i := range 401 {
			at := total * float64(i) / 400
			s, v, a := l.At(at)
			if v < 0 || v > limits.Speed*(1+rounding) || math.Abs(a) > limits.Accel*(1+rounding) || math.Abs(l.JerkAt(at)) > limits.Jerk {
				t.Fatalf("at %g of %g s: speed %g, acceleration %g, jerk %g beyond %+v", at, total, v, a, l.JerkAt(at), limits)
			}
			s2, v2, a2 := l.At(total - at)
			near(t, "mirrored place", s+s2, distance, rounding*distance)
			near(t, "mirrored speed", v, v2, rounding*limits.Speed)
			near(t, "mirrored acceleration", a, -a2, rounding*limits.Accel)
			if i == 400 {
				break
			}
			s3, v3, a3 := l.At(at + h)
			near(t, "acceleration runs on", a3, a, limits.Jerk*h*(1+rounding)+rounding*limits.Accel)
			near(t, "speed follows", v3-v, (a+a3)/2*h, limits.Jerk*h*h/4+rounding*limits.Speed)
			near(t, "place follows", s3-s, (v+v3)/2*h, limits.Accel*h*h/4+rounding*distance)
		}
		if s, v, a := l.At(total); s != distance || v != 0 || a != 0 {
			t.Fatalf("ends at %g with %g and %g", s, v, a)
		}
	})
}

// TestSevenPhaseIsFastest holds the duration against a bound that knows nothing of
// phases: the time cut into steps of constant jerk, the farthest place that speed,
// acceleration and jerk at the steps' ends allow (a linear programme, whose answer
// the barrier method brackets by its gap). In 0.98 of the duration that must fall
// short of the distance; in 1.04 of it, it must not.
func TestSevenPhaseIsFastest(t *testing.T) {
	for _, c := range sevenCases[:4] {
		t.Run(c.name, func(t *testing.T) {
			l, err := motion.NewSevenPhase(c.distance, c.limits)
			if err != nil {
				t.Fatal(err)
			}
			low, most := farthest(0.98*l.Duration(), c.limits)
			t.Logf("in 98 %% of the time %.4f to %.4f of the distance", low/c.distance, most/c.distance)
			if most >= c.distance {
				t.Errorf("in 98 %% of the time %.4f to %.4f of %.4f can be made", low, most, c.distance)
			}
			if low, _ := farthest(1.04*l.Duration(), c.limits); low < c.distance {
				t.Errorf("in 104 %% of the time no more than %.4f of %.4f", low, c.distance)
			}
		})
	}
}

// farthest brackets the farthest place that a motion from rest to rest reaches in a
// time (s) within limits at the ends of 48 steps; unit as of the limits.
func farthest(duration float64, limits motion.LawLimits) (low, high float64) {
	const n = 48 // accelerations at n-1 inner ends, by their share of the limit
	h := duration / n
	m := n - 1
	// rows: g.x <= c, with x the accelerations; speed at end k is the sum so far
	var rows [][]float64
	var c []float64
	row := func(limit float64, fill func(g []float64)) {
		for _, sign := range []float64{1, -1} {
			g := make([]float64, m)
			fill(g)
			for i := range g {
				g[i] *= sign / limit
			}
			rows, c = append(rows, g), append(c, 1)
		}
	}
	for k := range n {
		if k < m {
			row(limits.Accel, func(g []float64) { g[k] = 1 })
			row(limits.Speed, func(g []float64) {
				for i := 0; i < k; i++ {
					g[i] = h
				}
				g[k] = h / 2
			})
		}
		row(limits.Jerk, func(g []float64) {
			if k < m {
				g[k] = 1 / h
			}
			if k > 0 {
				g[k-1] -= 1 / h
			}
		})
	}
	// the last acceleration follows from standing still at the end: sum = 0
	free := m - 1
	objective := make([]float64, free)
	for i := range free {
		objective[i] = h * h * float64(m-1-i) // h^2 (n-1-i) less the last one's h^2
	}
	for _, g := range rows {
		for i := range free {
			g[i] -= g[m-1]
		}
	}
	x := make([]float64, free)
	scale := 0.0
	for _, o := range objective {
		scale += o * limits.Accel
	}
	mu := scale
	for range 30 {
		mu *= 0.6
		for range 3 {
			barrierStep(x, objective, rows, c, mu)
		}
	}
	for i := range x {
		low += objective[i] * x[i]
	}
	return low, low + 1.5*mu*float64(len(rows))
}

// barrierStep is one damped Newton step towards the largest objective.x + mu sum
// log(c - rows x).
func barrierStep(x, objective []float64, rows [][]float64, c []float64, mu float64) {
	n := len(x)
	slack := func(r int, x []float64) float64 {
		s := c[r]
		for i, v := range x {
			s -= rows[r][i] * v
		}
		return s
	}
	a, b := make([][]float64, n), make([]float64, n)
	for i := range a {
		a[i], b[i] = make([]float64, n), objective[i]
	}
	for r, g := range rows {
		s := slack(r, x)
		for i := range n {
			b[i] -= mu * g[i] / s
			for k := range n {
				a[i][k] += mu * g[i] * g[k] / (s * s)
			}
		}
	}
	for i := range n { // Gauss; a is positive definite
		for k := i + 1; k < n; k++ {
			f := a[k][i] / a[i][i]
			for j := i; j < n; j++ {
				a[k][j] -= f * a[i][j]
			}
			b[k] -= f * b[i]
		}
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			b[i] -= a[i][k] * b[k]
		}
		b[i] /= a[i][i]
	}
	y := make([]float64, n)
	for f := 1.0; f > 1e-12; f /= 2 {
		inside := true
		for i := range y {
			y[i] = x[i] + f*b[i]
		}
		for r := range rows {
			inside = inside && slack(r, y) > 0
		}
		if inside {
			copy(x, y)
			return
		}
	}
}

func BenchmarkSevenPhase(b *testing.B) {
	limits := motion.LawLimits{Speed: 2.5, Accel: 8, Jerk: 60}
	for b.Loop() {
		if _, err := motion.NewSevenPhase(0.2, limits); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSevenPhaseAt(b *testing.B) {
	l, err := motion.NewSevenPhase(3, motion.LawLimits{Speed: 2.5, Accel: 8, Jerk: 60})
	if err != nil {
		b.Fatal(err)
	}
	for i := 0; b.Loop(); i++ {
		l.At(float64(i%100) * 0.016)
	}
}
