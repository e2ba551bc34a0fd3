package seam_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

func weave(t testing.TB, w seam.Weave) seam.Weave {
	t.Helper()
	out, err := seam.NewWeave(w)
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
	triangle := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 2})
	sine := weave(t, seam.Weave{Shape: seam.Sine, Amplitude: 2e-3, Frequency: 2})
	wide := weave(t, seam.Weave{Amplitude: 3e-3, Frequency: 2})
	dwelling := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 2, DwellLeft: 0.1, DwellRight: 0.1})
	slow := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 1.2})
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

func drawWeave(t *rapid.T) seam.Weave {
	f := rapid.Float64Range(0.3, 8).Draw(t, "frequency")
	dwell := func(name string) float64 { return rapid.Float64Range(0, 0.2).Draw(t, name) / f }
	w, err := seam.NewWeave(seam.Weave{
		Shape:     rapid.SampledFrom([]seam.WeaveShape{seam.Triangle, seam.Sine}).Draw(t, "shape"),
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
			if w.Shape == seam.Triangle && math.Abs((a+b)/2-m) > 1e-6*w.Amplitude {
				t.Fatalf("unsteady between %g and %g s: %g, %g, %g", from, to, a, m, b)
			}
		}
	})
	plain := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 2})
	if got := plain.Turns(); len(got) != 4 {
		t.Errorf("turns without dwells %v, want 0, left edge, middle, right edge", got)
	}
}

// TestWeaveStarts: before and at the start the wire is in the middle, and goes left
// first.
func TestWeaveStarts(t *testing.T) {
	w := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 2, DwellCentre: 0.02})
	if w.Offset(-1) != 0 || w.Offset(0) != 0 || w.Offset(math.NaN()) != 0 || w.Offset(0.01) <= 0 {
		t.Errorf("offsets %g, %g, %g, %g", w.Offset(-1), w.Offset(0), w.Offset(math.NaN()), w.Offset(0.01))
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

// TestWeaveAcross: square to travel; with no turn of the plane square to the torch
// too; to the left seen along the travel with the torch up.
func TestWeaveAcross(t *testing.T) {
	f := teeAlongX(t).At(0.1)
	aim := seam.Aim{Work: 45 * degree, Travel: 10 * degree}
	w := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 2})
	body := f.Encode(aim).R.Z().Neg()
	across := w.Across(f, aim)
	if math.Abs(across.Dot(f.T)) > 1e-12 || math.Abs(across.Dot(body)) > 1e-12 || math.Abs(across.Norm()-1) > 1e-12 {
		t.Errorf("across %v, torch %v", across, body)
	}
	// Travel along X, torch up between Y and Z: left is up x travel, out along the
	// base plate.
	if want := (r3.Vec{Y: 1, Z: -1}).Unit(); across.Dist(want) > 1e-12 {
		t.Errorf("left is %v, want %v", across, want)
	}
	lifted := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 2, Plane: 30 * degree}).Across(f, aim)
	if math.Abs(lifted.Dot(f.T)) > 1e-12 || math.Abs(lifted.Dot(f.M.Add(f.B).Unit())-0.5) > 1e-12 {
		t.Errorf("turned by 30 deg: %v", lifted)
	}
	at := w.Period() / 8 // half way to the left edge
	if got := w.Shifted(f, aim, at).Origin.Sub(f.Origin); got.Dist(across.Scale(1e-3)) > 1e-12 {
		t.Errorf("shifted by %v, want 1 mm along %v", got, across)
	}
	if rounded := number(t)(w.LateralAcceleration(0.5e-3)); math.Abs(rounded-0.256) > 1e-9 {
		t.Errorf("triangle of 16 mm/s rounded over 0.5 mm: %g m/s2, want v^2/(2 d) = 0.256", rounded)
	}
}

// TestWeaveOfAPass: the shift of a planned pass, encoded in a seam's frame further
// along by Ahead, puts the wire tip on the pass's aim.
func TestWeaveOfAPass(t *testing.T) {
	fillet, err := section.FromThroat(90*degree, 8.5e-3)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := section.PlanFillet(section.FilletPasses{Fillet: fillet, Convexity: 1.1, MaxArea: 30e-6, MaxLeg: 10e-3})
	if err != nil {
		t.Fatal(err)
	}
	s := teeAlongX(t)
	for i, pass := range plan.Passes {
		shift, err := plan.Shift(i, 5*degree)
		if err != nil {
			t.Fatal(err)
		}
		at := s.At(0.1 + shift.Ahead)
		tip := at.Encode(seam.Aim{Work: pass.Work, Travel: 5 * degree, Offset: shift.Offset, Distance: shift.Distance}).P
		root := s.At(0.1)
		want := root.Origin.AddScaled(pass.Aim.X, root.B).AddScaled(pass.Aim.Y, root.M)
		if tip.Dist(want) > 1e-12 {
			t.Errorf("pass %d: tip at %v, want %v", i+1, tip, want)
		}
	}
}

// TestWeaveAgainst: what is usual passes, and each limit speaks in words.
func TestWeaveAgainst(t *testing.T) {
	use := seam.WeaveUse{Travel: 3.8e-3, Wire: 1.0e-3, Bead: 9e-3, Position: weld.PA}
	good := seam.Weave{Amplitude: 3e-3, Frequency: 2, DwellLeft: 0.05, DwellRight: 0.05}
	if got, err := weave(t, good).Against(use); err != nil || len(got) != 0 {
		t.Errorf("usual weave: %v, %v", got, err)
	}
	for _, row := range []struct {
		name   string
		change func(*seam.Weave, *seam.WeaveUse)
		want   section.Difference
		mark   weld.Mark
	}{
		{"wide", func(w *seam.Weave, u *seam.WeaveUse) { w.Amplitude, u.Bead = 4e-3, 0 },
			section.Difference{What: "weave amplitude", Found: "4 mm", Allowed: "0.5 mm to 3 mm", Mend: "change the amplitude, or lay stringer beads"}, weld.Memory},
		{"fast", func(w *seam.Weave, _ *seam.WeaveUse) { w.Frequency = 6 },
			section.Difference{What: "weave frequency", Found: "6 Hz", Allowed: "1 Hz to 5 Hz", Mend: "change the frequency"}, weld.Memory},
		{"long dwell", func(w *seam.Weave, u *seam.WeaveUse) { w.Frequency, w.DwellLeft, u.Wire = 1.9, 0.21, 1.2e-3 },
			section.Difference{What: "dwell at the left edge", Found: "0.21 s", Allowed: "at most 0.2 s", Mend: "shorten the dwell"}, weld.Memory},
		{"short dwell uphill", func(w *seam.Weave, u *seam.WeaveUse) { w.DwellLeft, w.DwellRight, u.Position = 0.1, 0.08, weld.PF },
			section.Difference{What: "dwell at the right edge", Found: "0.08 s", Allowed: "0.1 s to 0.5 s", Mend: "dwell at the toes so that they do not undercut, without burning"}, weld.Memory},
		{"dwell in the middle", func(w *seam.Weave, _ *seam.WeaveUse) { w.DwellCentre = 0.05 },
			section.Difference{What: "dwell in the middle", Found: "0.05 s", Allowed: "at most 0 s", Mend: "go straight across"}, weld.Memory},
		{"long advance", func(_ *seam.Weave, u *seam.WeaveUse) { u.Travel = 4.1e-3 },
			section.Difference{What: "advance in a cycle", Found: "2.05 mm", Allowed: "at most 2 mm", Mend: "raise the frequency or travel slower"}, weld.CommonPractice},
		{"wider than the nozzle", func(_ *seam.Weave, u *seam.WeaveUse) { u.Bead = 11e-3 },
			section.Difference{What: "width of bead and weave", Found: "17 mm", Allowed: "at most 16 mm", Mend: "lower the amplitude, or lay beads side by side"}, weld.Memory},
	} {
		t.Run(row.name, func(t *testing.T) {
			w, u := good, use
			row.change(&w, &u)
			got, err := weave(t, w).Against(u)
			if err != nil || len(got) != 1 || got[0].Difference != row.want || got[0].Source.Mark != row.mark {
				t.Errorf("%+v, %v; want %+v (%v)", got, err, row.want, row.mark)
			}
		})
	}
	vertical := use
	vertical.Position = weld.Vertical3G
	if got, err := weave(t, seam.Weave{Amplitude: 3e-3, Frequency: 1.9, DwellLeft: 0.2, DwellRight: 0.2}).Against(vertical); err != nil || len(got) != 0 {
		t.Errorf("3G: %v, %v", got, err)
	}
}

func TestWeaveRefusals(t *testing.T) {
	with := func(change func(*seam.Weave)) func() error {
		return func() error {
			w := seam.Weave{Amplitude: 2e-3, Frequency: 2}
			change(&w)
			_, err := seam.NewWeave(w)
			return err
		}
	}
	good := weave(t, seam.Weave{Amplitude: 2e-3, Frequency: 2})
	for _, tt := range []struct {
		name string
		call func() error
		kind error
		says string
	}{
		{"no amplitude", with(func(w *seam.Weave) { w.Amplitude = 0 }), section.ErrOutOfRange,
			"weave: outside the range: weave amplitude 0 mm is outside 0.1 mm to 20 mm; check the value and its unit"},
		{"negative frequency", with(func(w *seam.Weave) { w.Frequency = -2 }), section.ErrOutOfRange,
			"weave: outside the range: weave frequency -2 Hz is outside 0.05 Hz to 20 Hz; check the value and its unit"},
		{"negative dwell", with(func(w *seam.Weave) { w.DwellCentre = -0.1 }), section.ErrOutOfRange,
			"weave: outside the range: weave dwell -0.1 s is outside 0 s to 5 s; check the value and its unit"},
		{"plane over", with(func(w *seam.Weave) { w.Plane = 100 * degree }), section.ErrOutOfRange,
			"weave: outside the range: turn of the weave plane 100 deg is outside -90 deg to 90 deg; check the value and its unit"},
		{"all dwell", with(func(w *seam.Weave) { w.DwellLeft, w.DwellRight = 0.25, 0.25 }), seam.ErrNoTimeToMove,
			"weave: no time to move: found dwells of 0.5 s, allowed less than the cycle, 0.5 s; shorten the dwells or lower the frequency"},
		{"unknown shape", with(func(w *seam.Weave) { w.Shape = 7 }), section.ErrOutOfRange,
			"weave: outside the range: found shape 7, allowed triangle, sine; name the shape"},
		{"path of no travel", func() error { _, err := good.PathRatio(0); return err }, section.ErrOutOfRange,
			"weave: outside the range: travel speed 0 mm/s is outside 0.2 mm/s to 100 mm/s; check the value and its unit"},
		{"sharp turn", func() error { _, err := good.LateralAcceleration(0); return err }, section.ErrOutOfRange,
			"weave: outside the range: found turns rounded over 0 mm, allowed above 0 mm and up to the amplitude, 2 mm; tell how much of the edge the arm may round off, or weave a sine"},
		{"limits without a wire", func() error { _, err := good.Against(seam.WeaveUse{Travel: 5e-3}); return err }, section.ErrOutOfRange,
			"weave: outside the range: wire diameter 0 mm is outside 0.5 mm to 4 mm; check the value and its unit"},
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
	for _, s := range []seam.WeaveShape{seam.Triangle, seam.Sine} {
		if got, err := seam.ParseWeaveShape(" " + s.String()); err != nil || got != s {
			t.Errorf("%v: %v, %v", s, got, err)
		}
	}
	if _, err := seam.ParseWeaveShape("moon"); err == nil || err.Error() != `weave "moon": write triangle or sine` {
		t.Errorf("moon: %v", err)
	}
}

// FuzzParseWeaveShape: whatever is read prints a word that reads the same.
func FuzzParseWeaveShape(f *testing.F) {
	f.Add("triangle")
	f.Add(" Sine")
	f.Add("moon")
	f.Fuzz(func(t *testing.T, s string) {
		shape, err := seam.ParseWeaveShape(s)
		if err != nil {
			return
		}
		if again, err := seam.ParseWeaveShape(shape.String()); err != nil || again != shape {
			t.Errorf("%q reads as %v, then %v, %v", s, shape, again, err)
		}
	})
}

func BenchmarkWeaveOffset(b *testing.B) {
	w := weave(b, seam.Weave{Shape: seam.Sine, Amplitude: 2e-3, Frequency: 2, DwellLeft: 0.05, DwellRight: 0.05})
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
