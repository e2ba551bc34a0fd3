package seam_test

import (
	"errors"
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/weave"
)

func woven(t testing.TB, w weave.Weave) weave.Weave {
	t.Helper()
	out, err := weave.New(w)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestWeaveAcross: square to travel; with no turn of the plane square to the torch
// too; to the left seen along the travel with the torch up.
func TestWeaveAcross(t *testing.T) {
	f := teeAlongX(t).At(0.1)
	aim := seam.Aim{Work: 45 * degree, Travel: 10 * degree}
	w := woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2})
	body := f.Encode(aim).R.Z().Neg()
	across := f.WeaveAcross(w, aim)
	if math.Abs(across.Dot(f.T)) > 1e-12 || math.Abs(across.Dot(body)) > 1e-12 || math.Abs(across.Norm()-1) > 1e-12 {
		t.Errorf("across %v, torch %v", across, body)
	}
	// Travel along X, torch up between Y and Z: left is up x travel, out along the
	// base plate.
	if want := (r3.Vec{Y: 1, Z: -1}).Unit(); across.Dist(want) > 1e-12 {
		t.Errorf("left is %v, want %v", across, want)
	}
	lifted := f.WeaveAcross(woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2, Plane: 30 * degree}), aim)
	if math.Abs(lifted.Dot(f.T)) > 1e-12 || math.Abs(lifted.Dot(f.M.Add(f.B).Unit())-0.5) > 1e-12 {
		t.Errorf("turned by 30 deg: %v", lifted)
	}
	at := w.Period() / 8 // half way to the left edge
	if got := f.Woven(w, aim, at).Origin.Sub(f.Origin); got.Dist(across.Scale(1e-3)) > 1e-12 {
		t.Errorf("shifted by %v, want 1 mm along %v", got, across)
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
	good := weave.Weave{Amplitude: 3e-3, Frequency: 2, DwellLeft: 0.05, DwellRight: 0.05}
	if got, err := seam.WeaveAgainst(woven(t, good), use); err != nil || len(got) != 0 {
		t.Errorf("usual weave: %v, %v", got, err)
	}
	for _, row := range []struct {
		name   string
		change func(*weave.Weave, *seam.WeaveUse)
		want   section.Difference
		mark   weld.Mark
	}{
		{"wide", func(w *weave.Weave, u *seam.WeaveUse) { w.Amplitude, u.Bead = 4e-3, 0 },
			section.Difference{What: "weave amplitude", Found: "4 mm", Allowed: "0.5 mm to 3 mm", Mend: "change the amplitude, or lay stringer beads"}, weld.Memory},
		{"fast", func(w *weave.Weave, _ *seam.WeaveUse) { w.Frequency = 6 },
			section.Difference{What: "weave frequency", Found: "6 Hz", Allowed: "1 Hz to 5 Hz", Mend: "change the frequency"}, weld.Memory},
		{"long dwell", func(w *weave.Weave, u *seam.WeaveUse) { w.Frequency, w.DwellLeft, u.Wire = 1.9, 0.21, 1.2e-3 },
			section.Difference{What: "dwell at the left edge", Found: "0.21 s", Allowed: "at most 0.2 s", Mend: "shorten the dwell"}, weld.Memory},
		{"short dwell uphill", func(w *weave.Weave, u *seam.WeaveUse) { w.DwellLeft, w.DwellRight, u.Position = 0.1, 0.08, weld.PF },
			section.Difference{What: "dwell at the right edge", Found: "0.08 s", Allowed: "0.1 s to 0.5 s", Mend: "dwell at the toes so that they do not undercut, without burning"}, weld.Memory},
		{"dwell in the middle", func(w *weave.Weave, _ *seam.WeaveUse) { w.DwellCentre = 0.05 },
			section.Difference{What: "dwell in the middle", Found: "0.05 s", Allowed: "at most 0 s", Mend: "go straight across"}, weld.Memory},
		{"long advance", func(_ *weave.Weave, u *seam.WeaveUse) { u.Travel = 4.1e-3 },
			section.Difference{What: "advance in a cycle", Found: "2.05 mm", Allowed: "at most 2 mm", Mend: "raise the frequency or travel slower"}, weld.CommonPractice},
		{"wider than the nozzle", func(_ *weave.Weave, u *seam.WeaveUse) { u.Bead = 11e-3 },
			section.Difference{What: "width of bead and weave", Found: "17 mm", Allowed: "at most 16 mm", Mend: "lower the amplitude, or lay beads side by side"}, weld.Memory},
	} {
		t.Run(row.name, func(t *testing.T) {
			w, u := good, use
			row.change(&w, &u)
			got, err := seam.WeaveAgainst(woven(t, w), u)
			if err != nil || len(got) != 1 || got[0].Difference != row.want || got[0].Source.Mark != row.mark {
				t.Errorf("%+v, %v; want %+v (%v)", got, err, row.want, row.mark)
			}
		})
	}
	vertical := use
	vertical.Position = weld.Vertical3G
	if got, err := seam.WeaveAgainst(woven(t, weave.Weave{Amplitude: 3e-3, Frequency: 1.9, DwellLeft: 0.2, DwellRight: 0.2}), vertical); err != nil || len(got) != 0 {
		t.Errorf("3G: %v, %v", got, err)
	}
}

func TestWeaveAgainstWithoutAWire(t *testing.T) {
	_, err := seam.WeaveAgainst(woven(t, weave.Weave{Amplitude: 2e-3, Frequency: 2}), seam.WeaveUse{Travel: 5e-3})
	const says = "weave: outside the range: wire diameter 0 mm is outside 0.5 mm to 4 mm; check the value and its unit"
	if !errors.Is(err, section.ErrOutOfRange) || err.Error() != says {
		t.Errorf("error\n%v\nwant\n%v", err, says)
	}
}
