package symbol_test

import (
	"strings"
	"testing"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/symbol"
)

// TestReading: what is said of a symbol, line by line. Figures are DERIVED: 5 x 1.414
// = 7.07, 6 x 0.7071 = 4.24, at 60 degrees 5/cos 30 = 5.77; 150 - 60 = 90, 150 + 60
// = 210, 6 x 210 - 150 = 1110.
func TestReading(t *testing.T) {
	const below = "AWS A2.4: one line; what hangs below it is on the arrow side, what stands above it on the other side"
	const solid = "ISO 2553 system A: solid and dashed line; what stands on the solid line is on the arrow side, on the dashed line on the other side"
	for _, row := range []struct {
		text string
		in   symbol.Context
		want []string
	}{
		{"AWS: 6 fillet, both sides, 60-150, staggered", symbol.Context{}, []string{below,
			"both sides: fillet, leg 6 mm (throat 4.24 mm at 90 degrees between the plates); a fillet's figure without a letter is its leg by this standard",
			"  stitches of 60 mm at a pitch of 150 mm, centre to centre: 90 mm clear between them; as many as the joint's length gives",
			"  by ISO 2553 the same 150 mm would be the clear gap: a pitch of 210 mm, less weld",
			"staggered: the stitches of one side lie opposite the gaps of the other; the numbers count for each side"}},
		{"ISO-A: a5 arrow side, 60-150; z6 other side", symbol.Context{}, []string{solid,
			"arrow side: fillet, throat 5 mm (leg 7.07 mm at 90 degrees between the plates)",
			"  stitches of 60 mm with 150 mm clear between them: a pitch of 210 mm, centre to centre; the number that ISO 2553 writes before the length is missing, so as many as the joint's length gives",
			"  by AWS A2.4 the same 150 mm would be the pitch: 90 mm clear between stitches, more weld",
			"other side: fillet, leg 6 mm (throat 4.24 mm at 90 degrees between the plates)",
			"  the full length of the joint"}},
		{"ISO-A: a5 arrow side, 6 x 60 (150), all round", symbol.Context{Angle: 60 * unit.Deg}, []string{solid,
			"arrow side: fillet, throat 5 mm (leg 5.77 mm at 60 degrees between the plates)",
			"  stitches of 60 mm with 150 mm clear between them: a pitch of 210 mm, centre to centre; 6 of them, reaching over 1110 mm",
			"  by AWS A2.4 the same 150 mm would be the pitch: 90 mm clear between stitches, more weld",
			"all round: the weld runs round the whole joint and closes"}},
		{"ISO-A: a5 arrow side, 6 x 60 (40)", symbol.Context{}, []string{solid,
			"arrow side: fillet, throat 5 mm (leg 7.07 mm at 90 degrees between the plates)",
			"  stitches of 60 mm with 40 mm clear between them: a pitch of 100 mm, centre to centre; 6 of them, reaching over 560 mm",
			"  by AWS A2.4 the same 40 mm would be the pitch, which stitches of 60 mm cannot have"}},
		{`AWS: bevel 3/8 in (1/2 in) arrow side, root 1/8 in, angle 45, contour flat, finish G, broken arrow, field, tail "GMAW/WPS-7"`, symbol.Context{Units: unit.InchPound}, []string{below,
			"arrow side: bevel groove, penetration 0.5 in, prepared 0.375 in deep, root opening 0.125 in, groove angle 45 degrees",
			"  the full length of the joint",
			"  face flat, ground",
			"field weld: welded on site, not in the shop",
			"broken arrow: it points to the member that is prepared",
			"tail: process 135 MAG", `tail: says "WPS-7"`}},
		{"V other side", symbol.Context{}, []string{"system not stated: it can be read, but neither drawn nor converted",
			"other side: V groove, complete penetration, for no size is stated, root opening not stated, groove angle not stated",
			"  the full length of the joint"}},
	} {
		if got := parse(t, row.text).Reading(row.in); strings.Join(got, "\n") != strings.Join(row.want, "\n") {
			t.Errorf("%s:\ngot\n%s\nwant\n%s", row.text, strings.Join(got, "\n"), strings.Join(row.want, "\n"))
		}
	}
}

// TestAllows: GMAW of AWS is 131, 135 and 138 of ISO 4063 (from memory).
func TestAllows(t *testing.T) {
	for _, row := range []struct {
		text    string
		process weld.Process
		want    bool
	}{
		{"ISO-A: a5 arrow side", weld.MetalCored, true},
		{`ISO-A: a5 arrow side, tail "135"`, weld.MAG, true},
		{`ISO-A: a5 arrow side, tail "135"`, weld.MetalCored, false},
		{`AWS: 6 arrow side, tail "GMAW"`, weld.MetalCored, true},
		{`AWS: 6 arrow side, tail "GMAW"`, weld.FluxCored, false},
	} {
		if got := parse(t, row.text).Allows(row.process); got != row.want {
			t.Errorf("%s: %v allowed %v, want %v", row.text, row.process, got, row.want)
		}
	}
}
