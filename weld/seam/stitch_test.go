package seam_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

func drawStitches(t *rapid.T) seam.StitchRequest {
	l := rapid.Float64Range(20, 100).Draw(t, "length") * millimetre
	gap := rapid.Float64Range(10, 200).Draw(t, "gap") * millimetre
	r := seam.StitchRequest{
		Length: rapid.Float64Range(150, 3000).Draw(t, "seam") * millimetre,
		Ends:   rapid.SampledFrom([]symbol.EndRule{symbol.EndsWelded, symbol.PitchKept}).Draw(t, "ends"),
		Closed: rapid.Bool().Draw(t, "closed"),
	}
	if rapid.Bool().Draw(t, "aws") {
		r.Family, r.Run = weld.AWS, symbol.Run{Length: l, Spacing: l + gap, SpacingIs: symbol.Pitch}
	} else {
		r.Family, r.Run = weld.ISO, symbol.Run{Length: l, Spacing: gap, SpacingIs: symbol.ClearGap}
	}
	return r
}

// TestStitchesSweep: stitches follow each other evenly on the seam, are as long as
// drawn, and their gaps are never wider than drawn; ends are welded where the rule
// says so, and one stitch fewer would leave wider gaps.
func TestStitchesSweep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawStitches(t)
		s, err := seam.NewStitches(r)
		if err != nil {
			if errors.Is(err, seam.ErrSeamTooShort) {
				t.Skip("stitches at both ends, or round the seam, would run into each other")
			}
			t.Fatal(err)
		}
		n := len(s.Near)
		for i, w := range s.Near {
			if math.Abs(w.Length()-r.Run.Length) > 1e-12 || w.From < 0 || w.To > r.Length+1e-6 {
				t.Fatalf("stitch %d: %+v", i+1, w)
			}
			if i > 0 && (math.Abs(w.From-s.Near[i-1].From-s.Pitch) > 1e-9 || w.From-s.Near[i-1].To > r.Run.Gap()+1e-6) {
				t.Fatalf("stitch %d at %g mm behind one at %g", i+1, w.From/millimetre, s.Near[i-1].From/millimetre)
			}
		}
		switch drawn, end := r.Run.Pitch(), s.Near[n-1].To; {
		case r.Closed:
			if gap := r.Length - end; gap > r.Run.Gap()+1e-6 || float64(n-1)*drawn >= r.Length {
				t.Fatalf("gap %g mm over the start, %d stitches", gap/millimetre, n)
			}
		case r.Ends == symbol.EndsWelded && n > 1:
			if math.Abs(end-r.Length) > 1e-9 || float64(n-2)*drawn+r.Run.Length >= r.Length+1e-6 {
				t.Fatalf("%d stitches end at %g mm", n, end/millimetre)
			}
		case r.Ends == symbol.PitchKept:
			if s.Bare >= drawn || math.Abs(end+s.Bare-r.Length) > 1e-6 {
				t.Fatalf("%g mm bare", s.Bare/millimetre)
			}
		}
	})
}

// TestFarSide: chain is the same on both sides; staggered starts half a pitch later
// and keeps the end rule, or lies in the middle of the gaps.
func TestFarSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawStitches(t)
		r.Closed = false
		r.Pattern = symbol.Chain
		chain, err := seam.NewStitches(r)
		if err != nil {
			if errors.Is(err, seam.ErrSeamTooShort) {
				t.Skip("stitches at both ends would run into each other")
			}
			t.Fatal(err)
		}
		for i, w := range chain.Near {
			if len(chain.Far) != len(chain.Near) || chain.Far[i] != w {
				t.Fatalf("chain: %v and %v", chain.Near, chain.Far)
			}
		}
		if len(chain.Near) < 2 {
			t.Skip("nothing to stagger")
		}
		r.Pattern, r.Far = symbol.Staggered, symbol.InGaps
		s, err := seam.NewStitches(r)
		if err != nil || len(s.Far) != len(s.Near)-1 {
			t.Fatalf("%d in the gaps of %d, %v", len(s.Far), len(s.Near), err)
		}
		for i, w := range s.Far {
			if mid := (s.Near[i].To + s.Near[i+1].From) / 2; math.Abs((w.From+w.To)/2-mid) > 1e-9 {
				t.Fatalf("far stitch %d at %+v, gap centre %g", i+1, w, mid)
			}
		}
		r.Far = symbol.FarEnds
		s, err = seam.NewStitches(r)
		if err != nil {
			if errors.Is(err, seam.ErrSeamTooShort) {
				t.Skip("no room behind the offset")
			}
			t.Fatal(err)
		}
		last := s.Far[len(s.Far)-1]
		if math.Abs(s.Far[0].From-s.Pitch/2) > 1e-9 || last.To > r.Length+1e-6 || s.FarPitch > r.Run.Pitch()+1e-6 {
			t.Fatalf("far side %v, pitch %g", s.Far, s.FarPitch)
		}
		if r.Ends == symbol.EndsWelded && len(s.Far) > 1 && math.Abs(last.To-r.Length) > 1e-9 {
			t.Fatalf("far side ends at %g mm of %g", last.To/millimetre, r.Length/millimetre)
		}
	})
}

// TestStitchesTrivial: a seam of one stitch, a number of elements, a closed seam.
func TestStitchesTrivial(t *testing.T) {
	one := stitches(t, seam.StitchRequest{Run: aws(60, 150), Family: weld.AWS, Length: 60 * millimetre})
	if len(one.Near) != 1 || one.Pitch != 0 || one.Bare != 0 || one.Gap() != 0 {
		t.Errorf("one stitch on its own length: %+v", one)
	}
	single := stitches(t, seam.StitchRequest{Run: iso(1, 60, 90), Family: weld.ISO, Length: 200 * millimetre})
	if len(single.Near) != 1 || math.Abs(single.Bare/millimetre-140) > 1e-9 {
		t.Errorf("one element: %+v", single)
	}
	told := stitches(t, seam.StitchRequest{Run: iso(9, 60, 90), Family: weld.ISO, Length: 1.2})
	if len(told.Near) != 9 || math.Abs(told.Pitch/millimetre-142.5) > 1e-9 {
		t.Errorf("nine elements, ends welded: %d at %g mm", len(told.Near), told.Pitch/millimetre)
	}
	kept := stitches(t, seam.StitchRequest{Run: iso(5, 60, 90), Family: weld.ISO, Length: 1.2, Ends: symbol.PitchKept})
	if len(kept.Near) != 5 || math.Abs(kept.Bare/millimetre-540) > 1e-9 {
		t.Errorf("five elements, pitch kept: %d, %g mm bare", len(kept.Near), kept.Bare/millimetre)
	}
	round := stitches(t, seam.StitchRequest{Run: aws(50, 100), Family: weld.AWS, Length: 950 * millimetre, Closed: true, Pattern: symbol.Staggered})
	if len(round.Near) != 10 || math.Abs(round.Pitch/millimetre-95) > 1e-9 || len(round.Far) != 10 || math.Abs(round.Offset/millimetre-47.5) > 1e-9 {
		t.Errorf("closed: %+v", round)
	}
	if got := symbol.EndsWelded.String() + ", " + symbol.PitchKept.String(); got != "ends welded, pitch kept" {
		t.Error(got)
	}
}

// TestRestart: where the arc stopped decides what is left.
func TestRestart(t *testing.T) {
	row := []seam.Stretch{{From: 0, To: 0.06}, {From: 0.15, To: 0.21}, {From: 0.30, To: 0.36}}
	for _, tt := range []struct {
		name string
		stop float64 // mm
		want *seam.Restart
		left int
	}{
		{"at the start", 0, nil, 3},
		{"just after it", 3, &seam.Restart{Strike: 15 * millimetre, Turn: 0, End: 60 * millimetre}, 2},
		{"in the middle", 30, &seam.Restart{Strike: 42 * millimetre, Turn: 20 * millimetre, End: 60 * millimetre}, 2},
		{"near the end of a stitch", 58, &seam.Restart{Strike: 60 * millimetre, Turn: 48 * millimetre, End: 60 * millimetre}, 2},
		{"at the end of a stitch", 60, nil, 2},
		{"in a gap", 100, nil, 2},
		{"in the last", 330, &seam.Restart{Strike: 342 * millimetre, Turn: 320 * millimetre, End: 360 * millimetre}, 0},
		{"at the very end", 360, nil, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, rest, err := seam.RestartIn(row, tt.stop*millimetre, seam.TieIn{})
			if err != nil || len(rest) != tt.left || (got == nil) != (tt.want == nil) {
				t.Fatalf("%v, %d left, %v", got, len(rest), err)
			}
			if got != nil && (math.Abs(got.Strike-tt.want.Strike) > 1e-12 || math.Abs(got.Turn-tt.want.Turn) > 1e-12 || got.End != tt.want.End) {
				t.Errorf("%+v, want %+v", *got, *tt.want)
			}
		})
	}
	own, _, err := seam.RestartIn(row, 0.03, seam.TieIn{Ahead: 15 * millimetre, Overlap: 5 * millimetre})
	if err != nil || math.Abs(own.Strike/millimetre-45) > 1e-9 || math.Abs(own.Turn/millimetre-25) > 1e-9 {
		t.Errorf("%+v, %v", own, err)
	}
}

// TestStitchRefusals: the words of each refusal, and its name.
func TestStitchRefusals(t *testing.T) {
	good := seam.StitchRequest{Run: aws(60, 150), Family: weld.AWS, Length: 1.2, Pattern: symbol.Staggered}
	with := func(change func(*seam.StitchRequest)) func() error {
		return func() error {
			r := good
			change(&r)
			_, err := seam.NewStitches(r)
			return err
		}
	}
	restart := func(row []seam.Stretch, stop float64, tie seam.TieIn) func() error {
		return func() error { _, _, err := seam.RestartIn(row, stop, tie); return err }
	}
	row := []seam.Stretch{{From: 0, To: 0.06}, {From: 0.15, To: 0.21}}
	for _, tt := range []struct {
		name string
		call func() error
		kind error
		says string
	}{
		{"no spacing", with(func(r *seam.StitchRequest) { r.Run = symbol.Run{Length: 0.06} }), seam.ErrStitch,
			"stitches: no stitches: found a weld without a spacing, allowed length and pitch (AWS), or length and clear gap (ISO); say which system the drawing uses and give the spacing, or weld it through"},
		{"zero length", with(func(r *seam.StitchRequest) { r.Run.Length = 0 }), section.ErrOutOfRange,
			"stitches: outside the range: length of a stitch 0 mm is outside 5 mm to 1e+04 mm; check the value and its unit"},
		{"negative pitch", with(func(r *seam.StitchRequest) { r.Run.Spacing = -0.15 }), section.ErrOutOfRange,
			"stitches: outside the range: pitch -150 mm is outside 1 mm to 2e+04 mm; check the value and its unit"},
		{"seam in millimetres", with(func(r *seam.StitchRequest) { r.Length = 1200 }), section.ErrOutOfRange,
			"stitches: outside the range: length of the seam 1.2e+06 mm is outside 5 mm to 1e+05 mm; check the value and its unit"},
		{"pitch under length", with(func(r *seam.StitchRequest) { r.Run.Spacing = 0.05 }), seam.ErrPitchUnderLength,
			"stitches: pitch under length: found pitch 50 mm for stitches of 60 mm, allowed a pitch above the length; ask whether the number is a clear gap, as ISO gives it"},
		{"pitch in an ISO symbol", with(func(r *seam.StitchRequest) { r.Family = weld.ISO }), section.ErrMixedFamilies,
			"stitches: families mixed: found a pitch in a symbol of ISO, allowed the pitch for AWS, the clear gap for ISO; ask the office which system the drawing uses"},
		{"gap in an AWS symbol", with(func(r *seam.StitchRequest) { r.Run = iso(0, 60, 90) }), section.ErrMixedFamilies,
			"stitches: families mixed: found a clear gap in a symbol of AWS, allowed the pitch for AWS, the clear gap for ISO; ask the office which system the drawing uses"},
		{"no family", with(func(r *seam.StitchRequest) { r.Family = 0 }), section.ErrMixedFamilies,
			"stitches: families mixed: found code family not stated, allowed ISO, AWS; say which system the drawing uses: pitch and clear gap differ by the length of a stitch"},
		{"seam shorter than a stitch", with(func(r *seam.StitchRequest) { r.Length = 0.05 }), seam.ErrSeamTooShort,
			"stitches: seam too short: found 50 mm of seam, allowed a stitch of 60 mm at least; check the length of the seam, or weld it through"},
		{"one stitch staggered", with(func(r *seam.StitchRequest) { r.Length = 0.06 }), seam.ErrSeamTooShort,
			"stitches: far side: seam too short: found one stitch on the near side, allowed two or more, to stagger between; write chain, or make the pitch shorter"},
		{"no room behind the offset", with(func(r *seam.StitchRequest) { r.Length = 0.17 }), seam.ErrSeamTooShort,
			"stitches: far side: seam too short: found 2 stitches of 60 mm, allowed a gap between them on 115 mm of seam; weld it through, or keep the pitch and leave the end bare"},
		{"stitches at both ends run into each other", with(func(r *seam.StitchRequest) { r.Length = 0.1 }), seam.ErrSeamTooShort,
			"stitches: seam too short: found 2 stitches of 60 mm, allowed a gap between them on 100 mm of seam; weld it through, or keep the pitch and leave the end bare"},
		{"too many elements", with(func(r *seam.StitchRequest) { r.Family, r.Run, r.Ends = weld.ISO, iso(9, 60, 100), symbol.PitchKept }), seam.ErrSeamTooShort,
			"stitches: seam too short: found 9 elements over 1340 mm, allowed up to the seam, 1200 mm; check the number of elements and the length of the seam"},
		{"too few elements", with(func(r *seam.StitchRequest) { r.Family, r.Run = weld.ISO, iso(6, 60, 90) }), seam.ErrTooFewElements,
			"stitches: too few elements: found 6 elements with gaps of 168 mm, allowed gaps up to 90 mm; weld more elements, or keep the pitch and leave the end bare"},
		{"elements that touch round a tube", with(func(r *seam.StitchRequest) {
			r.Family, r.Run, r.Closed, r.Length = weld.ISO, iso(4, 60, 90), true, 0.2
		}), seam.ErrSeamTooShort,
			"stitches: seam too short: found 4 stitches of 60 mm, allowed a gap between them on 200 mm of seam; weld it through, or keep the pitch and leave the end bare"},
		{"negative elements", with(func(r *seam.StitchRequest) { r.Family, r.Run = weld.ISO, iso(-1, 60, 90) }), section.ErrOutOfRange,
			"stitches: outside the range: found -1 elements, allowed 0 to 10000; check the symbol"},
		{"unknown pattern", with(func(r *seam.StitchRequest) { r.Pattern = 9 }), section.ErrOutOfRange,
			"stitches: outside the range: found pattern 9, allowed chain, staggered, or none for one side; say how the sides lie to each other"},
		{"limits of no family", func() error { _, err := seam.LimitsOfStitches(0, 5*millimetre, 6*millimetre); return err }, section.ErrOutOfRange,
			"limits of stitches: outside the range: minimum length: code family not stated; say ISO or AWS"},
		{"limits of no plate", func() error { _, err := seam.LimitsOfStitches(weld.AWS, 5*millimetre, 0); return err }, section.ErrOutOfRange,
			"limits of stitches: outside the range: plate thickness 0 mm is outside 0.3 mm to 300 mm; check the value and its unit"},
		{"restart of nothing", restart(nil, 0, seam.TieIn{}), seam.ErrStitch,
			"restart: no stitches: found no stretches, allowed one or more; give the stretches of the seam"},
		{"restart of a heap", restart([]seam.Stretch{row[1], row[0]}, 0.2, seam.TieIn{}), section.ErrOutOfRange,
			"restart: outside the range: found stretch 2 from 0 mm to 60 mm, allowed stretches that rise and follow each other; order them along the seam"},
		{"restart behind the seam", restart(row, 0.3, seam.TieIn{}), section.ErrOutOfRange,
			"restart: outside the range: found a stop at 300 mm, allowed 0 mm to 210 mm, where the arc is on; give the arc length along this seam"},
		{"restart with a long strike", restart(row, 0.03, seam.TieIn{Ahead: 0.1}), section.ErrOutOfRange,
			"restart: outside the range: tie-in 100 mm is outside 0 mm to 50 mm; check the value and its unit"},
		{"restart with a negative overlap", restart(row, 0.03, seam.TieIn{Overlap: -1 * millimetre}), section.ErrOutOfRange,
			"restart: outside the range: tie-in -1 mm is outside 0 mm to 50 mm; check the value and its unit"},
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
}

// TestShortStitchIsABreach says so in words.
func TestShortStitchIsABreach(t *testing.T) {
	s := stitches(t, seam.StitchRequest{Run: aws(30, 100), Family: weld.AWS, Length: 1})
	limits, err := seam.LimitsOfStitches(weld.AWS, 5*millimetre, 10*millimetre)
	if err != nil {
		t.Fatal(err)
	}
	got := s.Against(limits)
	want := section.Difference{What: "length of a stitch", Found: "30 mm", Allowed: "at least 38 mm", Mend: "ask for longer stitches"}
	if len(got) != 1 || got[0].Difference != want {
		t.Errorf("%v, want %v", got, want)
	}
}

func BenchmarkStitches(b *testing.B) {
	r := seam.StitchRequest{Run: aws(60, 150), Family: weld.AWS, Length: 1.2, Pattern: symbol.Staggered}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := seam.NewStitches(r); err != nil {
			b.Fatal(err)
		}
	}
}
