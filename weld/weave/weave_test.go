package weave_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/weld/section"
	"seamwright/weld/weave"
)

const (
	degree     = math.Pi / 180
	millimetre = 1e-3 // m
)

func woven(t testing.TB, w weave.Weave) weave.Weave {
	t.Helper()
	out, err := weave.New(w)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func number(t testing.TB) func(float64, error) float64 {
	return func(x float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// Rows V081 and V082 of the project's table of check values and their neighbours,
// geometry, DERIVED: path over seam, advance, lateral speed.
func TestWeaveReference(t *testing.T) {
	num := number(t)
	// lambda = v/f, so 4 mm at 8 mm/s and 2 Hz.
	triangle := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2})
	sine := woven(t, weave.Weave{Shape: weave.Sine, Amplitude: 2e-3, Frequency: 2})
	wide := woven(t, weave.Weave{Amplitude: 3e-3, Frequency: 2})
	dwelling := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2, DwellLeft: 0.1, DwellRight: 0.1})
	slow := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 1.2})
	mean, _ := dwelling.LateralSpeed()
	_, peak := sine.LateralSpeed()
	for _, row := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"V081 triangle A2 lambda 4", "geometry, DERIVED", num(triangle.PathRatio(8e-3)), 2.2361, 0.001},
		{"V082 sine A2 lambda 4", "geometry, DERIVED", num(sine.PathRatio(8e-3)), 2.3049, 0.001},
		{"triangle A3 lambda 3", "geometry, DERIVED", num(wide.PathRatio(6e-3)), 4.123, 0.001},
		{"advance v6 f2, mm", "v/f, DERIVED", triangle.Advance(6e-3) / millimetre, 3, 1e-9},
		{"scenario: advance v2.21 f1.2, mm", "invented scenario, v/f DERIVED", slow.Advance(2.21e-3) / millimetre, 1.84, 0.005},
		{"lateral A2 f2 dwell 0.1, mm/s", "4 A f/(1 - 2 t f), DERIVED", mean / millimetre, 26.7, 0.05},
		{"peak of a sine A2 f2, mm/s", "2 pi A f, DERIVED", peak / millimetre, 2 * math.Pi * 2 * 2, 1e-9},
		{"acceleration of a sine A2 f2, m/s2", "4 pi^2 A f^2, DERIVED", num(sine.LateralAcceleration(0)), 4 * math.Pi * math.Pi * 2e-3 * 4, 1e-12},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %.6g, want %g +- %g (%s)", row.got, row.want, row.tol, row.source)
			}
		})
	}
}

func drawWeave(t *rapid.T) weave.Weave {
	f := rapid.Float64Range(0.3, 8).Draw(t, "frequency")
	dwell := func(name string) float64 { return rapid.Float64Range(0, 0.2).Draw(t, name) / f }
	w, err := weave.New(weave.Weave{
		Shape:     rapid.SampledFrom([]weave.Shape{weave.Triangle, weave.Sine}).Draw(t, "shape"),
		Amplitude: rapid.Float64Range(0.2, 10).Draw(t, "amplitude") * millimetre, Frequency: f,
		DwellLeft: dwell("left"), DwellCentre: dwell("centre"), DwellRight: dwell("right"),
		Plane: rapid.Float64Range(-1, 1).Draw(t, "plane"),
	})
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestWeaveSweep walks a cycle in small steps: the offset stays within the amplitude
// and reaches it on both sides, never jumps, comes back after a cycle; the highest
// speed and the length of the path are those of the closed forms.
func TestWeaveSweep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWeave(t)
		v := rapid.Float64Range(1, 20).Draw(t, "travel") * millimetre
		const steps = 20000
		dt := w.Period() / steps
		var left, right, peak, path float64
		last := 0.0
		for i := 1; i <= steps; i++ {
			x := w.Offset(float64(i) * dt)
			left, right = max(left, x), min(right, x)
			peak = max(peak, math.Abs(x-last)/dt)
			path += math.Hypot(x-last, v*dt)
			last = x
		}
		if math.Abs(left-w.Amplitude) > 1e-3*w.Amplitude || math.Abs(right+w.Amplitude) > 1e-3*w.Amplitude || left > w.Amplitude*(1+1e-12) {
			t.Fatalf("from %g to %g, amplitude %g", right, left, w.Amplitude)
		}
		if math.Abs(last) > 1e-9*w.Amplitude {
			t.Fatalf("%g mm off after a cycle", last/millimetre)
		}
		if _, want := w.LateralSpeed(); math.Abs(peak-want) > 1e-2*want {
			t.Fatalf("peak speed %g, want %g", peak, want)
		}
		ratio, err := w.PathRatio(v)
		if err != nil || math.Abs(path/w.Advance(v)-ratio) > 1e-3*ratio {
			t.Fatalf("walked %g, closed form %g, %v", path/w.Advance(v), ratio, err)
		}
		if speed, err := w.WireSpeed(v); err != nil || math.Abs(speed-ratio*v) > 1e-12 {
			t.Fatalf("wire speed %g, %v", speed, err)
		}
		s := rapid.Float64Range(0, 1).Draw(t, "arc")
		if got, want := w.OffsetAt(s, v), w.Offset(s/v); got != want {
			t.Fatalf("at %g m: %g, by time %g", s, got, want)
		}
	})
}

// TestWeaveTurns: between the turns the wire goes one way or stands, and a triangle
// goes steadily.
func TestWeaveTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWeave(t)
		turns := append(w.Turns(), w.Period())
		for i := 1; i < len(turns); i++ {
			from, to := turns[i-1], turns[i]
			if to-from < 1e-9 {
				continue
			}
			// Just inside, so that rounding does not reach into the next part.
			a, m, b := w.Offset(from+1e-6*(to-from)), w.Offset((from+to)/2), w.Offset(to-1e-6*(to-from))
			if (m-a)*(b-m) < -1e-15 {
				t.Fatalf("turns between %g and %g s: %g, %g, %g", from, to, a, m, b)
			}
			if w.Shape == weave.Triangle && math.Abs((a+b)/2-m) > 1e-6*w.Amplitude {
				t.Fatalf("unsteady between %g and %g s: %g, %g, %g", from, to, a, m, b)
			}
		}
	})
	plain := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2})
	if got := plain.Turns(); len(got) != 4 {
		t.Errorf("turns without dwells %v, want 0, left edge, middle, right edge", got)
	}
}

// TestWeaveStarts: before and at the start the wire is in the middle, and goes left
// first.
func TestWeaveStarts(t *testing.T) {
	w := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2, DwellCentre: 0.02})
	if w.Offset(-1) != 0 || w.Offset(0) != 0 || w.Offset(math.NaN()) != 0 || w.Offset(0.01) <= 0 {
		t.Errorf("offsets %g, %g, %g, %g", w.Offset(-1), w.Offset(0), w.Offset(math.NaN()), w.Offset(0.01))
	}
}

// TestWeaveRounded: a turn rounded over a length is a stop from v over it.
func TestWeaveRounded(t *testing.T) {
	w := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2})
	if rounded := number(t)(w.LateralAcceleration(0.5e-3)); math.Abs(rounded-0.256) > 1e-9 {
		t.Errorf("triangle of 16 mm/s rounded over 0.5 mm: %g m/s2, want v^2/(2 d) = 0.256", rounded)
	}
}

// TestWeaveMirror: swapping the dwells of the edges mirrors the weave half a cycle
// later.
func TestWeaveMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWeave(t)
		m := w
		m.DwellLeft, m.DwellRight = w.DwellRight, w.DwellLeft
		// From the start of the right half: two quarters, left dwell, middle.
		half := (w.Period()-w.DwellLeft-w.DwellRight-2*w.DwellCentre)/2 + w.DwellLeft + w.DwellCentre
		time := rapid.Float64Range(0, 3).Draw(t, "time") * w.Period()
		_, peak := w.LateralSpeed()
		if got, want := w.Offset(half+time), -m.Offset(time); math.Abs(got-want) > 1e-9*w.Amplitude+1e-9*peak {
			t.Fatalf("%g, mirrored %g", got, want)
		}
	})
}

func TestWeaveRefusals(t *testing.T) {
	with := func(change func(*weave.Weave)) func() error {
		return func() error {
			w := weave.Weave{Amplitude: 2e-3, Frequency: 2}
			change(&w)
			_, err := weave.New(w)
			return err
		}
	}
	good := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2})
	for _, tt := range []struct {
		name string
		call func() error
		kind error
		says string
	}{
		{"no amplitude", with(func(w *weave.Weave) { w.Amplitude = 0 }), section.ErrOutOfRange,
			"weave: outside the range: weave amplitude 0 mm is outside 0.1 mm to 20 mm; check the value and its unit"},
		{"negative frequency", with(func(w *weave.Weave) { w.Frequency = -2 }), section.ErrOutOfRange,
			"weave: outside the range: weave frequency -2 Hz is outside 0.05 Hz to 20 Hz; check the value and its unit"},
		{"negative dwell", with(func(w *weave.Weave) { w.DwellCentre = -0.1 }), section.ErrOutOfRange,
			"weave: outside the range: weave dwell -0.1 s is outside 0 s to 5 s; check the value and its unit"},
		{"plane over", with(func(w *weave.Weave) { w.Plane = 100 * degree }), section.ErrOutOfRange,
			"weave: outside the range: turn of the weave plane 100 deg is outside -90 deg to 90 deg; check the value and its unit"},
		{"all dwell", with(func(w *weave.Weave) { w.DwellLeft, w.DwellRight = 0.25, 0.25 }), weave.ErrNoTimeToMove,
			"weave: no time to move: found dwells of 0.5 s, allowed less than the cycle, 0.5 s; shorten the dwells or lower the frequency"},
		{"unknown shape", with(func(w *weave.Weave) { w.Shape = 7 }), section.ErrOutOfRange,
			"weave: outside the range: found shape 7, allowed triangle, sine; name the shape"},
		{"path of no travel", func() error { _, err := good.PathRatio(0); return err }, section.ErrOutOfRange,
			"weave: outside the range: travel speed 0 mm/s is outside 0.2 mm/s to 100 mm/s; check the value and its unit"},
		{"sharp turn", func() error { _, err := good.LateralAcceleration(0); return err }, section.ErrOutOfRange,
			"weave: outside the range: found turns rounded over 0 mm, allowed above 0 mm and up to the amplitude, 2 mm; tell how much of the edge the arm may round off, or weave a sine"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			err := tt.call()
			if err == nil || err.Error() != tt.says {
				t.Errorf("error\n%v\nwant\n%v", err, tt.says)
			}
			if !errors.Is(err, tt.kind) {
				t.Errorf("%v is not named %q", err, tt.kind)
			}
		})
	}
	for _, s := range []weave.Shape{weave.Triangle, weave.Sine} {
		if got, err := weave.ParseShape(" " + s.String()); err != nil || got != s {
			t.Errorf("%v: %v, %v", s, got, err)
		}
	}
	if _, err := weave.ParseShape("moon"); err == nil || err.Error() != `weave "moon": write triangle or sine` {
		t.Errorf("moon: %v", err)
	}
}

// FuzzParseWeaveShape: whatever is read prints a word that reads the same.
func FuzzParseWeaveShape(f *testing.F) {
	f.Add("triangle")
	f.Add(" Sine")
	f.Add("moon")
	f.Fuzz(func(t *testing.T, s string) {
		shape, err := weave.ParseShape(s)
		if err != nil {
			return
		}
		if again, err := weave.ParseShape(shape.String()); err != nil || again != shape {
			t.Errorf("%q reads as %v, then %v, %v", s, shape, again, err)
		}
	})
}

func BenchmarkWeaveOffset(b *testing.B) {
	w := woven(b, weave.Weave{Shape: weave.Sine, Amplitude: 2e-3, Frequency: 2, DwellLeft: 0.05, DwellRight: 0.05})
	b.ReportAllocs()
	sum := 0.0
	i := 0
	for b.Loop() {
		sum += w.Offset(float64(i) * 1e-3)
		i++
	}
	if math.IsNaN(sum) {
		b.Fatal("not a number")
	}
}
