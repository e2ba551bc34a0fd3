package seam_test

import (
	"math"
	"testing"

	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

const millimetre = 1e-3 // m

// aws and iso are stitch symbols in mm.
func aws(length, pitch float64) symbol.Run {
	return symbol.Run{Length: length * millimetre, Spacing: pitch * millimetre, SpacingIs: symbol.Pitch}
}

func iso(n int, length, gap float64) symbol.Run {
	return symbol.Run{Length: length * millimetre, Elements: n, Spacing: gap * millimetre, SpacingIs: symbol.ClearGap}
}

func stitches(t testing.TB, r seam.StitchRequest) seam.Stitches {
	t.Helper()
	s, err := seam.NewStitches(r)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Row V015 of the project's table of check values: 50-100 on 1000 mm is 10
// segments, 500 mm (workshop articles on AWS A2.4, centre to centre, READ; count
// DERIVED). ISO 10 x 50 (50) is the same weld.
func TestStitchCountReference(t *testing.T) {
	for name, r := range map[string]seam.StitchRequest{
		"V015 AWS 50-100":       {Run: aws(50, 100), Family: weld.AWS, Length: 1, Ends: symbol.PitchKept},
		"ISO 10 x 50 (50)":      {Run: iso(10, 50, 50), Family: weld.ISO, Length: 1, Ends: symbol.PitchKept},
		"ISO 50 (50), no count": {Run: iso(0, 50, 50), Family: weld.ISO, Length: 1, Ends: symbol.PitchKept},
	} {
		s := stitches(t, r)
		if len(s.Near) != 10 || math.Abs(s.Weld()/millimetre-500) > 1e-9 || math.Abs(s.Pitch/millimetre-100) > 1e-9 {
			t.Errorf("%s: %d stitches, %g mm, pitch %g mm", name, len(s.Near), s.Weld()/millimetre, s.Pitch/millimetre)
		}
		for i, w := range s.Near {
			if math.Abs(w.From/millimetre-100*float64(i)) > 1e-9 || math.Abs(w.Length()/millimetre-50) > 1e-9 {
				t.Errorf("%s: stitch %d at %g mm, %g long", name, i+1, w.From/millimetre, w.Length()/millimetre)
			}
		}
	}
}

// Rows V017, V018 and V019: 38 mm (D1.1:2010 and an inspection firm's summary,
// READ), four legs (D1.1:2010 2.4.2.3, READ), six throats (EN 1993-1-8 as coded,
// READ); clear gap 24 t and 300 mm (inspection firm's summary, READ); 12 t and 200
// mm (EN 1993-1-8 4.3.2.2, MEMORY).
func TestStitchLimitsReference(t *testing.T) {
	for _, row := range []struct {
		name       string
		family     weld.CodeFamily
		size, t    float64 // mm
		least, gap float64 // mm
		mark       weld.Mark
	}{
		{"V017 segment of a 5 mm leg", weld.AWS, 5, 6, 38, 144, weld.Read},
		{"V018 four legs of 8 are under 38", weld.AWS, 8, 10, 38, 240, weld.Read},
		{"four legs of 12", weld.AWS, 12, 20, 48, 300, weld.Read},
		{"V019 six throats of 6", weld.ISO, 6, 10, 36, 120, weld.Memory},
		{"30 mm at least", weld.ISO, 3, 20, 30, 200, weld.Memory},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := seam.LimitsOfStitches(row.family, row.size*millimetre, row.t*millimetre)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got.Least.Value/millimetre-row.least) > 1e-9 || math.Abs(got.Gap.Range.High/millimetre-row.gap) > 1e-9 {
				t.Errorf("least %g mm, gap %g mm, want %g, %g", got.Least.Value/millimetre, got.Gap.Range.High/millimetre, row.least, row.gap)
			}
			if got.Least.Source.Mark != weld.Read || got.Gap.Source.Mark != row.mark || got.Gap.Source.Family != row.family || got.Least.Source.Family != row.family {
				t.Errorf("sources %v and %v", got.Least.Source, got.Gap.Source)
			}
		})
	}
}

// TestStitchScenario: the invented flat of 1200 mm, fillet 5, 60-150 staggered,
// American system.
func TestStitchScenario(t *testing.T) {
	r := seam.StitchRequest{Run: aws(60, 150), Family: weld.AWS, Length: 1.2, Pattern: symbol.Staggered}
	kept := r
	kept.Ends, kept.Pattern = symbol.PitchKept, 0
	s := stitches(t, kept)
	if len(s.Near) != 8 || math.Abs(s.Near[7].To/millimetre-1110) > 1e-9 || math.Abs(s.Bare/millimetre-90) > 1e-9 {
		t.Errorf("pitch kept: %d stitches to %g mm, %g bare; want 8 to 1110, 90", len(s.Near), s.Near[len(s.Near)-1].To/millimetre, s.Bare/millimetre)
	}
	s = stitches(t, r)
	if len(s.Near) != 9 || math.Abs(s.Pitch/millimetre-142.5) > 1e-9 || s.Bare != 0 || math.Abs(s.Near[8].To/millimetre-1200) > 1e-9 {
		t.Errorf("ends welded: %d stitches at %g mm", len(s.Near), s.Pitch/millimetre)
	}
	// Side 2: offset 71.25 and its own end rule, 540 mm as side 1.
	if len(s.Far) != 9 || math.Abs(s.Offset/millimetre-71.25) > 1e-9 || math.Abs(s.Far[0].From/millimetre-71.25) > 1e-9 || math.Abs(s.Far[8].To/millimetre-1200) > 1e-9 {
		t.Errorf("side 2: %d stitches, offset %g mm, to %g", len(s.Far), s.Offset/millimetre, s.Far[len(s.Far)-1].To/millimetre)
	}
	if math.Abs(s.Weld()/millimetre-1080) > 1e-6 || s.FarPitch > 0.150 {
		t.Errorf("weld %g mm, pitch of side 2 %g mm", s.Weld()/millimetre, s.FarPitch/millimetre)
	}
	// 131 s of arc for both at 8.2 mm/s.
	if arc, err := deposit.ArcTime(s.Weld(), 8.2*millimetre); err != nil || math.Abs(arc-131.5) > 0.7 {
		t.Errorf("arc time %g s, %v", arc, err)
	}
	limits, err := seam.LimitsOfStitches(weld.AWS, 5*millimetre, 6*millimetre)
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Against(limits); len(got) != 0 {
		t.Errorf("breaches %v", got)
	}
	// Read as a clear gap: pitch 210, 6 stitches, 360 mm, one third missing, and a
	// gap of 150 over 24 t = 144.
	both := seam.BothReadings(kept, 60*millimetre, 150*millimetre)
	if both[0].Family != weld.AWS || both[0].Fault != nil || len(both[0].Stitches.Near) != 8 {
		t.Errorf("as a pitch: %+v", both[0])
	}
	gap := both[1]
	if gap.Family != weld.ISO || gap.Fault != nil || len(gap.Stitches.Near) != 6 || math.Abs(gap.Stitches.Weld()/millimetre-360) > 1e-9 || math.Abs(gap.Stitches.Pitch/millimetre-210) > 1e-9 {
		t.Errorf("as a gap: %+v", gap)
	}
	breaches := gap.Stitches.Against(limits)
	want := section.Difference{What: "clear gap", Found: "150 mm", Allowed: "at most 144 mm", Mend: "ask for a shorter pitch; was a pitch read as a gap?"}
	if len(breaches) != 1 || breaches[0].Difference != want || breaches[0].Source.Mark != weld.Read {
		t.Errorf("breaches %+v, want %+v", breaches, want)
	}
}

// TestRestartReference: 12 mm ahead, back into the crater (workshop articles, READ),
// turn at the stop less the overlap (common practice, no source).
func TestRestartReference(t *testing.T) {
	r, rest, err := seam.RestartIn([]seam.Stretch{{From: 0, To: 0.25}}, 0.1, seam.TieIn{})
	if err != nil || r == nil || len(rest) != 0 {
		t.Fatalf("%v, %v, %v", r, rest, err)
	}
	if math.Abs(r.Strike/millimetre-112) > 1e-9 || math.Abs(r.Turn/millimetre-90) > 1e-9 || r.End != 0.25 || math.Abs(r.Back()/millimetre-22) > 1e-9 {
		t.Errorf("%+v, back %g mm", *r, r.Back()/millimetre)
	}
}
