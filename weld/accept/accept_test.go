package accept_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/accept"
)

// TestSentences: what a verdict says.
func TestSentences(t *testing.T) {
	leg8 := accept.Weld{Kind: weld.Fillet, Size: 8 * mm, SizeIs: weld.Leg, Thickness: 12 * mm, Length: 500 * mm, GirderEnd: 200 * mm}
	coarse := gauge(accept.Throat, 4.3)
	coarse.Step = 0.5 * mm
	for _, row := range []struct {
		name string
		got  accept.Verdict
		want string
	}{
		{"inside", verdict(t, iso("2023", accept.B), throat5, "undercut", over(gauge(accept.Undercut, 0.2), 120, 0)),
			"undercut: accepted, 0.2 mm against 0.4 mm at 120 mm (h <= 0.05 t, max 0.5 mm); ISO 5817:2023 Table 1, 5011, level B, as a public extract has it (read)"},
		{"near", verdict(t, iso("2023", accept.B), throat5, "undercut", gauge(accept.Undercut, 0.3)),
			"undercut: accepted, 0.3 mm against 0.4 mm (h <= 0.05 t, max 0.5 mm); within one step of the gauge, 0.1 mm, of the limit; ISO 5817:2023 Table 1, 5011, level B, as a public extract has it (read)"},
		{"near on the wrong side", verdict(t, iso("2023", accept.B), throat5, "undercut", gauge(accept.Undercut, 0.5)),
			"undercut: rejected, 0.5 mm against 0.4 mm (h <= 0.05 t, max 0.5 mm); within one step of the gauge, 0.1 mm, of the limit; ISO 5817:2023 Table 1, 5011, level B, as a public extract has it (read)"},
		{"coarse gauge", verdict(t, iso("2023", accept.C), throat5, "insufficient throat", over(coarse, 100, 20)),
			"insufficient throat: undecided, 0.7 mm against 0.8 mm at 100 mm (h <= 0.3 mm + 0.1 a, max 1 mm, short ones only); throat 4.3 mm of 5 mm; a finer gauge, for the reading lies within half a step, 0.25 mm, of the limit; ISO 5817:2023 Table 1, 5213, level C, as a public extract has it (read)"},
		{"short throat", verdict(t, iso("2023", accept.C), throat5, "insufficient throat", over(gauge(accept.Throat, 4.3), 100, 20)),
			"insufficient throat: accepted, 0.7 mm against 0.8 mm at 100 mm (h <= 0.3 mm + 0.1 a, max 1 mm, short ones only); throat 4.3 mm of 5 mm, 20 mm in the worst 100 mm, 25 mm permitted; within one step of the gauge, 0.1 mm, of the limit; ISO 5817:2023 Table 1, 5213, level C, as a public extract has it (read)"},
		{"throat as drawn where none may be small", verdict(t, iso("2023", accept.B), throat5, "insufficient throat", gauge(accept.Throat, 5)),
			"insufficient throat: undecided, 0 mm (not permitted); throat 5 mm of 5 mm; a finer gauge, for the reading lies within half a step, 0.05 mm, of the limit; ISO 5817:2023 Table 1, 5213, level B, as a public extract has it (read)"},
		{"throat well above it", verdict(t, iso("2023", accept.B), throat5, "insufficient throat", gauge(accept.Throat, 6)),
			"insufficient throat: accepted, 0 mm (not permitted); throat 6 mm of 5 mm; ISO 5817:2023 Table 1, 5213, level B, as a public extract has it (read)"},
		{"long throat", verdict(t, iso("2023", accept.C), throat5, "insufficient throat", over(gauge(accept.Throat, 4.5), 100, 26)),
			"insufficient throat: rejected, 0.5 mm against 0.8 mm at 100 mm (h <= 0.3 mm + 0.1 a, max 1 mm, short ones only); throat 4.5 mm of 5 mm, 26 mm in the worst 100 mm, 25 mm permitted; ISO 5817:2023 Table 1, 5213, level C, as a public extract has it (read)"},
		{"throat of unknown extent", verdict(t, iso("2023", accept.C), throat5, "insufficient throat", gauge(accept.Throat, 4.5)),
			"insufficient throat: undecided, 0.5 mm against 0.8 mm (h <= 0.3 mm + 0.1 a, max 1 mm, short ones only); throat 4.5 mm of 5 mm; the weld's length and the length over which it runs, for only short ones are permitted; ISO 5817:2023 Table 1, 5213, level C, as a public extract has it (read)"},
		{"throat from legs", verdict(t, iso("2023", accept.B), throat5, "insufficient throat", gauge(accept.LegBase, 6), gauge(accept.LegOther, 8)),
			"insufficient throat: rejected, 0.7574 mm (not permitted); throat 4.243 mm from the smaller leg, of 5 mm; ISO 5817:2023 Table 1, 5213, level B, as a public extract has it (read)"},
		{"edition from memory", verdict(t, iso("2023", accept.C), throat5, "end crater pipe", gauge(accept.CraterDepth, 1)),
			"end crater pipe: rejected, 1 mm against 0.8 mm (h <= 0.1 t, max 1 mm); ISO 5817:2023 Table 1, 2025, level C, text of 2014: open the edition (from memory)"},
		{"not read", verdict(t, iso("2014", accept.C), throat5, "crack"),
			"crack: not read (not permitted); ISO 5817:2014 Table 1, 100, level C, as a public extract has it (read)"},
		{"crack seen", verdict(t, iso("2014", accept.D), throat5, "crack", accept.Reading{Measure: accept.Crack, Value: 3 * mm}),
			"crack: rejected, 3 mm (not permitted); ISO 5817:2014 Table 1, 100, level D, as a public extract has it (read)"},
		{"no crack seen", verdict(t, iso("2014", accept.D), throat5, "crack", accept.Reading{Measure: accept.Crack}),
			"crack: accepted, 0 mm (not permitted); ISO 5817:2014 Table 1, 100, level D, as a public extract has it (read)"},
		{"toe angle", verdict(t, iso("2014", accept.C), throat5, "incorrect weld toe", accept.Reading{Measure: accept.ToeAngle, Value: 95 * unit.Deg, Step: 1 * unit.Deg}),
			"incorrect weld toe: rejected, 95 deg against 100 deg (at least 100 deg); ISO 5817:2014 Table 1, 505, level C, as a public extract has it (read)"},
		{"spatter", verdict(t, iso("2014", accept.B), throat5, "spatter", accept.Reading{Measure: accept.Spatter, Value: 40 * mm}),
			"spatter: undecided, 40 mm (by application); what the application allows; ISO 5817:2014 Table 1, 602, level B, as a public extract has it (read)"},
		{"permitted", verdict(t, iso("2023", accept.D), throat5, "excessive throat", gauge(accept.Throat, 9)),
			"excessive throat: accepted, 4 mm (permitted); throat 9 mm of 5 mm; ISO 5817:2023 Table 1, 5214, level D, text of 2014: open the edition (from memory)"},
		{"girder end", verdict(t, aws, leg8, "undersize", over(gauge(accept.LegBase, 7), 180, 30)),
			"undersize: rejected, 1 mm against 3 mm at 180 mm (leg 8 mm, at least 5 mm, on 10 % of the length at most); leg on the base plate 7 mm, small on 6 % of the length, at the end of a girder's weld, where none is allowed over 200 mm; AWS D1.1:2020 Table 8.1, item 6 (read)"},
		{"undersize of unknown extent", verdict(t, aws, leg8, "undersize", gauge(accept.LegBase, 7)),
			"undersize: undecided, 1 mm against 3 mm (leg 8 mm, at least 5 mm, on 10 % of the length at most); leg on the base plate 7 mm; the weld's length and the length over which the leg is small; AWS D1.1:2020 Table 8.1, item 6 (read)"},
		{"deep undercut of unknown extent", verdict(t, aws, leg8, "undercut", gauge(accept.Undercut, 1.4)),
			"undercut: undecided, 1.4 mm against 2 mm (h <= 1 mm, or 2 mm over 50 mm in any 300 mm); the length over which it is deeper than 1 mm; AWS D1.1:2020 Table 8.1, item 7 (read)"},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := row.got.String(); got != row.want {
				t.Errorf("got  %s\nwant %s", got, row.want)
			}
		})
	}
}

// TestD11Items: the other items of Table 8.1 and their loads.
func TestD11Items(t *testing.T) {
	fillet := accept.Weld{Kind: weld.Fillet, Size: 6 * mm, SizeIs: weld.Leg, Thickness: 12 * mm, Length: 500 * mm}
	thick, across, groove := fillet, fillet, accept.Weld{Kind: weld.Groove, Thickness: 12 * mm, Length: 500 * mm}
	thick.Thickness, across.AcrossTension = 25*mm, true
	cyclic := aws
	cyclic.Load = accept.Cyclic
	for _, row := range []struct {
		name string
		got  accept.Verdict
		want accept.State
	}{
		{"convexity 1.9 on a face of 8", verdict(t, aws, fillet, "convexity", gauge(accept.Convexity, 1.9), gauge(accept.FaceWidth, 8)), accept.Accepted},
		{"convexity 2 on a face of 8", verdict(t, aws, fillet, "convexity", gauge(accept.Convexity, 2), gauge(accept.FaceWidth, 8)), accept.Undecided},
		{"convexity 2.1 on a face of 8", verdict(t, aws, fillet, "convexity", gauge(accept.Convexity, 2.1), gauge(accept.FaceWidth, 8)), accept.Rejected},
		{"convexity 2.1 on the face of the legs", verdict(t, aws, fillet, "convexity", gauge(accept.Convexity, 2.1), gauge(accept.LegBase, 6), gauge(accept.LegOther, 6)), accept.Accepted},
		{"reinforcement 2.9", verdict(t, aws, groove, "groove reinforcement", gauge(accept.Excess, 2.9)), accept.Accepted},
		{"reinforcement 3.1", verdict(t, aws, groove, "groove reinforcement", gauge(accept.Excess, 3.1)), accept.Rejected},
		{"overlap", verdict(t, aws, fillet, "overlap", gauge(accept.Overlap, 0.2)), accept.Rejected},
		{"leg 6 at 3.6", verdict(t, aws, fillet, "undersize", over(gauge(accept.LegBase, 3.6), 0, 10)), accept.Accepted},
		{"leg 6 at 3.5", verdict(t, aws, fillet, "undersize", over(gauge(accept.LegBase, 3.5), 0, 10)), accept.Undecided},
		{"leg 6 at 3.4", verdict(t, aws, fillet, "undersize", over(gauge(accept.LegBase, 3.4), 0, 10)), accept.Rejected},
		{"undercut 1.9 on thick plate", verdict(t, aws, thick, "undercut", gauge(accept.Undercut, 1.9)), accept.Accepted},
		{"undercut 1 over 40", verdict(t, aws, fillet, "undercut", over(gauge(accept.Undercut, 1), 0, 40)), accept.Accepted},
		{"undercut 1 over 60", verdict(t, aws, fillet, "undercut", over(gauge(accept.Undercut, 1), 0, 60)), accept.Undecided},
		{"undercut 1 over no known length", verdict(t, aws, fillet, "undercut", gauge(accept.Undercut, 1)), accept.Undecided},
		{"undercut 0.9 over no known length", verdict(t, aws, fillet, "undercut", gauge(accept.Undercut, 0.9)), accept.Accepted},
		{"undercut 2 over 10", verdict(t, aws, fillet, "undercut", over(gauge(accept.Undercut, 2), 0, 10)), accept.Undecided},
		{"undercut 0.4 across tension, cyclic", verdict(t, cyclic, across, "undercut", gauge(accept.Undercut, 0.4)), accept.Rejected},
		{"a coarse gauge and a fine one", verdict(t, cyclic, across, "undercut", accept.Reading{Measure: accept.Undercut, Value: 0.5 * mm, Step: 1 * mm}, gauge(accept.Undercut, 0.4)), accept.Rejected},
		{"undercut 0.9, cyclic", verdict(t, cyclic, fillet, "undercut", gauge(accept.Undercut, 0.9)), accept.Accepted},
		{"undercut 1.5 for a little, cyclic", verdict(t, cyclic, fillet, "undercut", over(gauge(accept.Undercut, 1.5), 0, 10)), accept.Rejected},
		{"pores 9.9 in 25", verdict(t, aws, fillet, "pores in 25 mm", gauge(accept.PoreSum25, 9.9)), accept.Accepted},
		{"pores 21 in 300", verdict(t, aws, fillet, "pores in 300 mm", gauge(accept.PoreSum300, 21)), accept.Rejected},
		{"pore 2.4, cyclic", verdict(t, cyclic, fillet, "surface pore", gauge(accept.SurfacePore, 2.4)), accept.Accepted},
		{"two pores 90 apart, cyclic", verdict(t, cyclic, fillet, "surface pore", over(gauge(accept.SurfacePore, 1), 0, 0), over(gauge(accept.SurfacePore, 1), 90, 0)), accept.Rejected},
		{"two pores somewhere, cyclic", verdict(t, cyclic, fillet, "surface pore", gauge(accept.SurfacePore, 1), gauge(accept.SurfacePore, 1)), accept.Undecided},
		{"pore of a groove, cyclic", verdict(t, cyclic, groove, "surface pore", gauge(accept.SurfacePore, 1)), accept.Undecided},
		{"unfilled crater", verdict(t, aws, fillet, "unfilled crater", accept.Reading{Measure: accept.UnfilledCrater, Value: 4 * mm}), accept.Rejected},
	} {
		if row.got.State != row.want {
			t.Errorf("%s: %v, want %v", row.name, row.got, row.want)
		}
	}
}

// TestLengths: length and pitch against the drawing, common practice, no source.
func TestLengths(t *testing.T) {
	stitched := throat5
	stitched.Element, stitched.Pitch = 50*mm, 150*mm
	unknown := throat5
	unknown.Length = 0
	for _, row := range []struct {
		name string
		got  accept.Verdict
		want string
	}{
		{"stitch", verdict(t, iso("2014", accept.C), stitched, "length", gauge(accept.ElementLength, 46)), "length: accepted, 4 mm against 5 mm (within 5 mm of the drawing); 46 mm read, 50 mm drawn; shop tolerance of weld lengths, the drawing's own governs (common practice, no source)"},
		{"pitch", verdict(t, iso("2014", accept.C), stitched, "pitch", gauge(accept.ElementPitch, 161)), "pitch: rejected, 11 mm against 10 mm (within 10 mm of the drawing); 161 mm read, 150 mm drawn; shop tolerance of weld lengths, the drawing's own governs (common practice, no source)"},
		{"continuous", verdict(t, iso("2014", accept.C), throat5, "length", gauge(accept.ElementLength, 406)), "length: rejected, 6 mm against 5 mm (within 5 mm of the drawing); 406 mm read, 400 mm drawn; shop tolerance of weld lengths, the drawing's own governs (common practice, no source)"},
		{"length not drawn", verdict(t, iso("2014", accept.C), unknown, "length", gauge(accept.ElementLength, 400)), "length: undecided, 400 mm (within 5 mm of the drawing); the length of the drawing; shop tolerance of weld lengths, the drawing's own governs (common practice, no source)"},
	} {
		if got := row.got.String(); got != row.want {
			t.Errorf("%s: got  %s\nwant %s", row.name, got, row.want)
		}
	}
	four := accept.Standard{Code: accept.ISO5817, Edition: "2023", Execution: accept.EXC4}
	if v := verdict(t, four, throat5, "undercut"); !strings.Contains(v.Source.Note, "EXC4 asks for more than level B") {
		t.Errorf("EXC4: %v", v)
	}
}

// TestSilenceIsNoPass: without readings nothing passes.
func TestSilenceIsNoPass(t *testing.T) {
	for _, s := range []accept.Standard{iso("2014", accept.D), iso("2023", accept.B), aws, {Code: accept.ISO5817, Edition: "2014", Execution: accept.EXC2}} {
		w := throat5
		if s.Code == accept.D11 {
			w.SizeIs = weld.Leg
		}
		got, err := accept.Judge(s, w, nil)
		if err != nil || len(got) < 8 || accept.Passed(got) {
			t.Errorf("%v: %d verdicts, %v, passed %v", s, len(got), err, accept.Passed(got))
		}
		for _, v := range got {
			if v.State != accept.NotRead || v.Source.Mark == 0 || v.Source.Code == "" {
				t.Errorf("%v", v)
			}
		}
	}
	if accept.Passed(nil) {
		t.Error("no verdicts pass")
	}
	unequal := throat5
	unequal.UnequalLegs = true
	got, err := accept.Judge(iso("2014", accept.C), unequal, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range got {
		if v.Ref == "512" || v.Ref == "502" {
			t.Errorf("%s is judged on a fillet whose legs are called unequal", v.Name)
		}
	}
}

func TestRefusals(t *testing.T) {
	fillet := throat5
	leg := throat5
	leg.SizeIs = weld.Leg
	groove := accept.Weld{Kind: weld.Groove, Thickness: 8 * mm}
	no := func(change func(*accept.Weld)) accept.Weld { w := throat5; change(&w); return w }
	for _, row := range []struct {
		name     string
		std      accept.Standard
		weld     accept.Weld
		readings []accept.Reading
		says     string
	}{
		{accept.UnknownCode, accept.Standard{Edition: "2014"}, fillet, nil, "code 0; allowed: ISO 5817, AWS D1.1; name the code of the contract"},
		{accept.UnknownEdition, iso("2003", accept.C), fillet, nil, "ISO 5817:2003; allowed: 2014, 2023; name the edition of the contract; if it is another one, judge by the document itself"},
		{accept.UnknownEdition, accept.Standard{Code: accept.D11}, leg, nil, "AWS D1.1:; allowed: 2000, 2004, 2020, 2025; name the edition of the contract; if it is another one, judge by the document itself"},
		{accept.NoLevel, accept.Standard{Code: accept.ISO5817, Edition: "2014"}, fillet, nil, "level not stated; allowed: D, C, B, or an execution class; take the level from the drawing"},
		{accept.NoLevel, accept.Standard{Code: accept.ISO5817, Edition: "2014", Level: accept.B, Execution: accept.EXC2}, fillet, nil, "level B and EXC2; allowed: one of them; keep the one that the drawing calls"},
		{accept.NoLevel, accept.Standard{Code: accept.ISO5817, Edition: "2014", Execution: 9}, fillet, nil, "execution class not stated; allowed: EXC1 to EXC4; take the class from the drawing"},
		{accept.MixedCodes, accept.Standard{Code: accept.D11, Edition: "2020", Level: accept.C}, leg, nil, "a level of ISO 5817 for AWS D1.1; allowed: the load, static or cyclic; leave the level out, or name ISO 5817"},
		{accept.MixedCodes, accept.Standard{Code: accept.ISO5817, Edition: "2014", Level: accept.C, Load: accept.Cyclic}, fillet, nil, "a load of AWS D1.1 for ISO 5817; allowed: a level or an execution class; leave the load out, or name AWS D1.1"},
		{accept.MixedCodes, aws, fillet, nil, "a throat as the size of a fillet to AWS D1.1; allowed: the leg; give the leg that the drawing calls"},
		{accept.MixedCodes, aws, leg, []accept.Reading{gauge(accept.Throat, 4)}, "a throat reading for AWS D1.1, which judges fillets by the leg; allowed: both legs; read the legs; a concave face is for the inspector"},
		{accept.NoKind, iso("2014", accept.C), accept.Weld{}, nil, "weld kind not stated; allowed: fillet, groove; say which weld it is"},
		{accept.NoSize, iso("2014", accept.C), no(func(w *accept.Weld) { w.SizeIs = 0 }), nil, "a size that is size kind not stated; allowed: leg, throat; ask what the drawing means"},
		{accept.NoThickness, iso("2014", accept.C), no(func(w *accept.Weld) { w.Thickness = 0 }), nil, "no plate thickness; allowed: the thickness of the plate, the thinner where they differ; measure it"},
		{accept.OutOfSense, iso("2014", accept.C), no(func(w *accept.Weld) { w.Size = 5 }), nil, "size 5000 mm is outside 0.3 mm to 60 mm; check the value and its unit; allowed: the range named; give the number of the drawing"},
		{accept.OutOfSense, iso("2014", accept.C), fillet, []accept.Reading{gauge(accept.Undercut, -1)}, "undercut: reading -1 mm is outside 0 mm to 150 mm; check the value and its unit; allowed: the range named; read again"},
		{accept.OutOfSense, iso("2014", accept.C), fillet, []accept.Reading{{Measure: accept.Undercut, Value: math.NaN(), Step: 1e-4}}, "undercut: reading that is not a finite number is outside 0 mm to 150 mm; check the value and its unit; allowed: the range named; read again"},
		{accept.NoStep, iso("2014", accept.C), fillet, []accept.Reading{{Measure: accept.Undercut, Value: 1e-4}}, "undercut: step of the gauge 0 mm is outside 0.01 mm to 2 mm; check the value and its unit; allowed: the step of the gauge, which bounds every reading; give it, such as 0.5 mm"},
		{accept.UnknownMeasure, iso("2014", accept.C), fillet, []accept.Reading{{Measure: 99}}, "measure 99; allowed: the measures of this package; say what was read"},
		{accept.NotForKind, iso("2014", accept.C), groove, []accept.Reading{gauge(accept.LegBase, 5)}, "leg on the base plate of a groove weld; allowed: it on a fillet weld; check which weld was read"},
		{accept.NotForKind, iso("2014", accept.C), fillet, []accept.Reading{gauge(accept.ElementPitch, 150)}, "a pitch of a continuous weld; allowed: it on stitches; give the pitch of the drawing, or leave the reading out"},
		{accept.OutsideWeld, iso("2014", accept.C), fillet, []accept.Reading{over(gauge(accept.Undercut, 0.1), 390, 20)}, "undercut at 390 mm over 20 mm; allowed: places from 0 to 400 mm; measure from the weld start"},
		{accept.ReadTwice, iso("2014", accept.C), fillet, []accept.Reading{gauge(accept.Throat, 5), gauge(accept.Throat, 5.2)}, "two readings of the throat at one place; allowed: one for each place; give their places, or the worse one"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := accept.Judge(row.std, row.weld, row.readings)
			var e *accept.Error
			if !errors.As(err, &e) || got != nil {
				t.Fatalf("%d verdicts, %v; want an *Error", len(got), err)
			}
			if want := "acceptance: " + row.name + ": " + row.says; err.Error() != want {
				t.Errorf("got  %s\nwant %s", err, want)
			}
		})
	}
}

// drawFillet draws a fillet and readings of it.
func drawFillet(t *rapid.T) (accept.Weld, []accept.Reading) {
	w := accept.Weld{Kind: weld.Fillet, SizeIs: weld.Throat, Length: 400 * mm,
		Size:      rapid.Float64Range(2, 12).Draw(t, "a") * mm,
		Thickness: rapid.Float64Range(1, 30).Draw(t, "t") * mm}
	var readings []accept.Reading
	for _, m := range []accept.Measure{accept.Throat, accept.LegBase, accept.LegOther, accept.Convexity, accept.Undercut, accept.Overlap, accept.SurfacePore, accept.CraterDepth, accept.Misalignment, accept.RootGap} {
		readings = append(readings, over(gauge(m, rapid.Float64Range(0, 12).Draw(t, m.String())), 100, rapid.Float64Range(1, 60).Draw(t, "extent")))
	}
	return w, readings
}

// TestLevelsAreOrdered: what a stricter level accepts, a milder one accepts.
func TestLevelsAreOrdered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, readings := drawFillet(t)
		edition := rapid.SampledFrom(accept.ISO5817.Editions()).Draw(t, "edition")
		var byLevel [3][]accept.Verdict
		for i, l := range []accept.Level{accept.D, accept.C, accept.B} {
			var err error
			if byLevel[i], err = accept.Judge(iso(edition, l), w, readings); err != nil {
				t.Fatal(err)
			}
		}
		for i := range byLevel[0] {
			for strict := 1; strict < 3; strict++ {
				mild, hard := byLevel[strict-1][i], byLevel[strict][i]
				if mild.Ref != hard.Ref || hard.State == accept.Accepted && mild.State != accept.Accepted {
					t.Fatalf("%v\nbut %v", hard, mild)
				}
			}
		}
	})
}

// TestHalfAStepDecidesNothing: a verdict stands exactly where the gauge, off by
// half of its step either way, would not turn it; Near reaches a whole step.
func TestHalfAStepDecidesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, step := rapid.Float64Range(0.01, 2).Draw(t, "h")*mm, rapid.SampledFrom([]float64{0.05, 0.1, 0.5}).Draw(t, "step")*mm
		got, err := accept.Judge(iso("2023", accept.C), throat5, []accept.Reading{{Measure: accept.Undercut, Value: h, Step: step}})
		if err != nil {
			t.Fatal(err)
		}
		const limit = 0.5 * mm // t 8 mm: 0.1 t, at most 0.5 mm
		off := math.Abs(h - limit)
		for _, v := range got {
			if v.Ref != "5011" || math.Abs(off-step) < 1e-8 || math.Abs(off-step/2) < 1e-8 {
				continue
			}
			want := accept.Undecided
			switch {
			case h+step/2 < limit:
				want = accept.Accepted
			case h-step/2 > limit:
				want = accept.Rejected
			}
			if v.Near != (off < step) || v.State != want {
				t.Fatalf("%g mm, step %g mm: %v", h/mm, step/mm, v)
			}
		}
	})
}

// TestEditions: the editions differ in one limit only, and each row has a mark.
func TestEditions(t *testing.T) {
	old, new := accept.Rows("2014"), accept.Rows("2023")
	if len(old) != len(new) || accept.Rows("2003") != nil {
		t.Fatalf("%d and %d rows", len(old), len(new))
	}
	var differ []string
	for i, r := range old {
		for _, l := range []accept.Level{accept.D, accept.C, accept.B} {
			if r.At(l) != new[i].At(l) {
				differ = append(differ, r.Ref+" "+l.String())
			}
			for edition, row := range map[string]accept.Row{"2014": r, "2023": new[i]} {
				if src := row.Source(edition, l); src.Mark != weld.Read && src.Mark != weld.Memory || src.Edition != edition {
					t.Errorf("%s %v: source %v", r.Ref, l, src)
				}
			}
		}
	}
	if strings.Join(differ, ",") != "504 C" {
		t.Errorf("the editions differ in %q, want 504 C", differ)
	}
}

func BenchmarkJudge(b *testing.B) {
	readings := []accept.Reading{gauge(accept.LegBase, 7), gauge(accept.LegOther, 7.2), gauge(accept.Undercut, 0.2), gauge(accept.Convexity, 1), {Measure: accept.Crack}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := accept.Judge(iso("2023", accept.C), throat5, readings); err != nil {
			b.Fatal(err)
		}
	}
}
