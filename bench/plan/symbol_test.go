package plan_test

import (
	"math"
	"testing"

	"seamwright/bench/finding"
)

// TestSymbolOfTheFlat: the figures "60-150" of the worked case's symbol on its flat of
// 1200 mm, 6 mm thick, through the document. By AWS A2.4: 9 stitches at 142.5 mm, 540
// mm. By ISO 2553: 6 at 210 mm, 360 mm, and the 150 mm clear are over 24 times 6, 144
// mm (READ in an inspection firm's summary of AWS D1.1) and over 12 times 6, 72 mm
// (EN 1993-1-8, from memory).
func TestSymbolOfTheFlat(t *testing.T) {
	for _, row := range []struct {
		name, code, text   string
		stitches           int
		pitch, welded, gap float64 // mm; gap: limit of a finding, 0 for none
		spacing            string
	}{
		{"AWS by the job's code", "aws", "5 fillet, both sides, 60-150, staggered", 9, 142.5, 540, 0,
			"W1: stitches of 60 mm at a pitch of 150 mm by AWS A2.4: on one side 9 of them, 540 mm of weld; by ISO 2553 the same figures leave 150 mm clear: 6 of them, 360 mm of weld"},
		{"ISO by the job's code", "iso", "z5 fillet, both sides, 60-150, staggered", 6, 210, 360, 72,
			"W1: stitches of 60 mm with 150 mm clear between them by ISO 2553-A: on one side 6 of them, 360 mm of weld; by AWS A2.4 the same figures are a pitch of 150 mm: 9 of them, 540 mm of weld"},
		{"misread in an AWS job", "aws", "ISO-A: z5 fillet, both sides, 60-150, staggered", 6, 210, 360, 144, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := worked(t, "s5")
			f.edit(t, "code: iso", "code: "+row.code)
			f.edit(t, "weld: {leg: 5 mm}", "symbol: '"+row.text+"'\n    side: arrow")
			p := planOf(t, f)
			if len(p.Stitched) != 1 {
				t.Fatalf("%d stitched seams", len(p.Stitched))
			}
			st := p.Stitched[0]
			if len(st.Stretches) != row.stitches || math.Abs(st.Pitch/mm-row.pitch) > 0.01 || math.Abs(st.Welded()/mm-row.welded) > 1e-6 {
				t.Errorf("%d stitches at %g mm, %g mm; want %d at %g, %g", len(st.Stretches), st.Pitch/mm, st.Welded()/mm, row.stitches, row.pitch, row.welded)
			}
			if wide := withCode(p, finding.StitchGap); (len(wide) == 1) != (row.gap > 0) || len(wide) == 1 && math.Abs(wide[0].Limit-row.gap) > 1e-9 {
				t.Errorf("clear gap: %v, want a limit of %g", wide, row.gap)
			}
			if row.spacing == "" {
				only(t, p, finding.SymbolOtherCode)
				only(t, p, finding.StitchSystem)
			} else if got := only(t, p, finding.SymbolSpacing).Message; got != row.spacing {
				t.Errorf("got  %s\nwant %s", got, row.spacing)
			}
			only(t, p, finding.SymbolOtherSide)
		})
	}
}

// TestSymbolSidesThatMatch: two seams of one symbol, and a seam with its image, have
// both sides.
func TestSymbolSidesThatMatch(t *testing.T) {
	for _, row := range []struct{ name, more string }{
		{"two seams", "\n    side: arrow"},
		{"a seam and its image", "\n    side: both\n    mirror: {name: W1 left, at: [0 mm, 0 mm, 0 mm], normal: [0, 1, 0]}"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			e := called("z5 both sides", row.more)
			f.edit(t, e[0], e[1])
			if row.name == "two seams" {
				f["job.yaml"] += "  - {name: W2, joint: tee, line: [W1 start, W1 end], base: level, upright: left, symbol: z5 both sides, side: other, settings: 11, thickness: {base: 8 mm, upright: 6 mm}, torch: {work: 45 deg, travel: push 10 deg, spin: free}}\n"
			}
			if found := withCode(planOf(t, f), finding.SymbolOtherSide); len(found) > 0 {
				t.Errorf("got %s", list(found))
			}
		})
	}
}

// TestSymbolThatFits: a symbol that is planned as it stands brings no finding of its
// own but the note on what its tail says.
func TestSymbolThatFits(t *testing.T) {
	f := good(t)
	e := called(`z5 arrow side, length 252, tail "135/PB/WPS 07"`, "")
	f.edit(t, e[0], e[1])
	p := planOf(t, f)
	for _, code := range []finding.Code{finding.SymbolOtherSide, finding.SymbolAllRound, finding.SymbolLength, finding.SymbolTail, finding.SymbolOpen, finding.SymbolOtherCode, finding.SymbolSpacing, finding.SymbolByHand} {
		if found := withCode(p, code); len(found) > 0 {
			t.Errorf("got %s", list(found))
		}
	}
}
