package symbol_test

import (
	"math"
	"testing"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

// TestReferenceValues are the check values that concern symbols; source and
// mark stand in each row.
func TestReferenceValues(t *testing.T) {
	leg := func(a, angle float64) float64 {
		t.Helper()
		z, err := symbol.LegOf(a*unit.MM, angle*unit.Deg)
		if err != nil {
			t.Fatal(err)
		}
		return z / unit.MM
	}
	throat := func(z, angle float64) float64 {
		t.Helper()
		a, err := symbol.ThroatOf(z*unit.MM, angle*unit.Deg)
		if err != nil {
			t.Fatal(err)
		}
		return a / unit.MM
	}
	over := func(text string, joint float64) symbol.Stretch {
		t.Helper()
		out, err := parse(t, text).Arrow.Run.Over(joint)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	stitches := over("AWS A2.4: z6 arrow side, 50 pitch 100", 1)
	same := over("ISO 2553-A: z6 arrow side, 10 x 50 (50)", 1)
	for _, row := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"V015 intermittent 50-100 on 1000 mm, segments", "A2.4 centre to centre, workshop articles, READ, DERIVED", float64(stitches.Elements), 10, 0},
		{"V015 the same, weld length in mm", "A2.4 centre to centre, workshop articles, READ, DERIVED", stitches.Weld / unit.MM, 500, 1e-9},
		{"ISO 10 x 50 (50) is the same weld, segments", "ISO 2553, MEMORY", float64(same.Elements), 10, 0},
		{"ISO 10 x 50 (50) is the same weld, mm", "ISO 2553, MEMORY", same.Weld / unit.MM, 500, 1e-9},
		{"both reach over, mm", "9 pitches and one element, DERIVED", stitches.Extent / unit.MM, 950, 1e-9},
		{"V016 a5 to z, 90 deg", "workshop articles, READ", leg(5, 90), 7.071, 0.01},
		{"V020 throat of z6", "workshop articles, READ", throat(6, 90), 4.2426, 0.001},
		{"a8.5 to z", "shop check value, DERIVED", leg(8.5, 90), 12.02, 0.005},
		{"z8.5 to a", "shop check value, DERIVED", throat(8.5, 90), 6.01, 0.005},
		{"a4 to z", "a page on A2.4:2020 Annex F has 5.7, READ", leg(4, 90), 5.7, 0.05},
		{"V023 throat at 120 deg, 6 mm along the plates", "geometry, DERIVED", throat(6, 120), 3.000, 0.001},
		{"throat at 60 deg, 6 mm along the plates", "geometry, DERIVED", throat(6, 60), 5.196, 0.001},
		{"leg at 120 deg for a4.243", "geometry, DERIVED", leg(4.243, 120), 8.486, 0.001},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %.6g, want %g +- %g (%s)", row.got, row.want, row.tol, row.source)
			}
		})
	}
}

// TestAgreesWithSection: package section draws the triangle by another route.
func TestAgreesWithSection(t *testing.T) {
	for angle := 30.0; angle <= 150; angle += 7.5 {
		f, err := section.EqualLegs(angle*unit.Deg, 6e-3)
		if err != nil {
			t.Fatal(err)
		}
		a, err := symbol.ThroatOf(6e-3, angle*unit.Deg)
		if err != nil || math.Abs(a-f.DesignThroat()) > 1e-15 {
			t.Errorf("%g deg: throat %g, %v; section has %g", angle, a, err, f.DesignThroat())
		}
	}
}

// TestSides are the sides of the reference line, by READ pages: AWS A2.4 and
// system B have the arrow side below the line, system A on the solid line.
func TestSides(t *testing.T) {
	for _, row := range []struct {
		system symbol.System
		family weld.CodeFamily
	}{{symbol.ISO2553A, weld.ISO}, {symbol.ISO2553B, weld.ISO}, {symbol.AWSA24, weld.AWS}, {0, 0}} {
		if got := row.system.Family(); got != row.family {
			t.Errorf("%v: %v, want %v", row.system, got, row.family)
		}
		if src := row.system.Source(); src.Mark != weld.Memory {
			t.Errorf("%v: drawing rules marked %v, want from memory", row.system, src.Mark)
		}
	}
}
