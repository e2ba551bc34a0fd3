package symbol_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld/symbol"
)

func TestConvert(t *testing.T) {
	for _, row := range []struct {
		name, from string
		to         symbol.Conversion
		want       string
		notes      []string
	}{
		{"a5 to a leg", "ISO 2553-A: a5 arrow side", symbol.Conversion{To: symbol.AWSA24}, "AWS A2.4: z7.071 arrow side",
			[]string{"a5 became z7.071 at 90 degrees between the plates"}},
		{"skewed", "ISO 2553-A: a3 arrow side", symbol.Conversion{To: symbol.AWSA24, Angle: 120 * unit.Deg}, "AWS A2.4: z6 arrow side",
			[]string{"a3 became z6 at 120 degrees between the plates", "the leg lies along the plate; AWS D1.1 measures that of a skewed joint square to the other plate, 5.196 mm"}},
		{"gap to pitch", "ISO 2553-A: z6 both sides, 10 x 50 (50), staggered", symbol.Conversion{To: symbol.AWSA24}, "AWS A2.4: z6 both sides, 50 pitch 100, staggered",
			[]string{"10 x 50 (50) became 50 pitch 100; A2.4 does not number the elements: dimension the 950 mm that they reach over"}},
		{"pitch to gap", "AWS A2.4: z6 arrow side, 50 pitch 100", symbol.Conversion{To: symbol.ISO2553A, Joint: 1}, "ISO 2553-A: z6 arrow side, 10 x 50 (50)",
			[]string{"50 pitch 100 became 10 x 50 (50) on a joint of 1000 mm"}},
		{"A to B changes the drawing only", "ISO 2553-A: a5 arrow side, 3 x 50 (100)", symbol.Conversion{To: symbol.ISO2553B}, "ISO 2553-B: a5 arrow side, 3 x 50 (100)", nil},
		{"system not stated", "z6 arrow side", symbol.Conversion{To: symbol.AWSA24}, "AWS A2.4: z6 arrow side", nil},
		{"what A2.4 has no sign for", `ISO 2553-B: s8a6 arrow side, contour toes blended, tail "135/ISO 5817-C/PB"`, symbol.Conversion{To: symbol.AWSA24},
			`AWS A2.4: z8.485 arrow side, tail "135/deep penetration s8 + toes blended"`,
			[]string{"a6 became z8.485 at 90 degrees between the plates", "position PB left out: the two codes name positions differently",
				"level ISO 5817-C left out: it belongs to ISO; name the acceptance of the AWS code", `the tail now says "deep penetration s8 + toes blended"`}},
		{"what ISO has no sign for", `AWS A2.4: V s10 arrow side, depth 8, contour flat, finish G, tail "GMAW/1G/WPS-1"`, symbol.Conversion{To: symbol.ISO2553A},
			`ISO 2553-A: V s10 arrow side, contour flat, tail "135/WPS-1 + finish G + depth of preparation 8"`,
			[]string{"position 1G left out: the two codes name positions differently", `the tail now says "WPS-1 + finish G + depth of preparation 8"`}},
		{"root face", "ISO 2553-A: V with root face arrow side", symbol.Conversion{To: symbol.AWSA24}, "AWS A2.4: V arrow side",
			[]string{"V with root face became V; add the depth of preparation"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := parse(t, row.from).Convert(row.to)
			if err != nil {
				t.Fatal(err)
			}
			if got.Symbol.String() != row.want {
				t.Errorf("got  %s\nwant %s", got.Symbol, row.want)
			}
			if strings.Join(got.Notes, "|") != strings.Join(row.notes, "|") {
				t.Errorf("notes %q\nwant  %q", got.Notes, row.notes)
			}
		})
	}
}

func TestConvertRefusals(t *testing.T) {
	for _, row := range []struct {
		name, from string
		to         symbol.Conversion
		says       string
	}{
		{"into nothing", "a5 arrow side", symbol.Conversion{}, "system not stated: no system to convert into; allowed: ISO 2553-A, ISO 2553-B, AWS A2.4; name one"},
		{"pitch without the joint", "AWS A2.4: z6 arrow side, 50 pitch 100", symbol.Conversion{To: symbol.ISO2553A},
			"length and spacing: a pitch without the length of the joint; allowed: the length, which gives the number of elements; measure the joint"},
		{"joint shorter than an element", "AWS A2.4: z6 arrow side, 50 pitch 100", symbol.Conversion{To: symbol.ISO2553A, Joint: 0.03}, "does not fit the seam"},
		{"flat plates", "a5 arrow side", symbol.Conversion{To: symbol.AWSA24, Angle: math.Pi}, "included angle 180 deg is outside 30 deg to 150 deg"},
	} {
		_, err := parse(t, row.from).Convert(row.to)
		if err == nil || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%s: %v\nwant %s", row.name, err, row.says)
		}
	}
	if _, err := parse(t, "z6x9 arrow side").In(symbol.Throat, 0); err == nil ||
		err.Error() != "weld symbol: wrong kind of size: the size z6x9 has two figures, which no single throat replaces; allowed: equal legs, or a throat without s; have the drawing changed, or give the size that counts" {
		t.Errorf("unequal legs: %v", err)
	}
	if _, err := parse(t, "z6 arrow side").In(symbol.Penetration, 0); err == nil || !strings.Contains(err.Error(), "conversion into penetration; allowed: leg, throat") {
		t.Errorf("into penetration: %v", err)
	}
}

// TestConvertThereAndBack: an ISO symbol comes back from AWS with the same
// stitches and, measured as a throat, the same size.
func TestConvertThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSymbol(t)
		if s.System != symbol.ISO2553A {
			return
		}
		angle := rapid.Float64Range(60, 135).Draw(t, "angle") * unit.Deg
		joint := 0.0
		for _, w := range s.Welds() {
			joint = max(joint, float64(w.Run.Elements)*w.Run.Pitch())
		}
		there, err := s.Convert(symbol.Conversion{To: symbol.AWSA24, Angle: angle})
		if err != nil {
			if strings.Contains(err.Error(), symbol.OutOfSense) {
				return // a throat whose leg is beyond any fillet
			}
			t.Fatal(err)
		}
		if joint == 0 {
			joint = 1
		}
		for _, w := range there.Symbol.Welds() {
			if w.Size.Is == symbol.Throat || w.Run.SpacingIs == symbol.ClearGap {
				t.Fatalf("ISO left in %s", there.Symbol)
			}
		}
		back, err := there.Symbol.Convert(symbol.Conversion{To: symbol.ISO2553A, Joint: joint})
		if err != nil {
			t.Fatal(err)
		}
		again, err := back.Symbol.In(symbol.Throat, angle)
		if err != nil {
			t.Fatal(err)
		}
		first, err := s.In(symbol.Throat, angle)
		if err != nil {
			t.Fatal(err)
		}
		for i, w := range first.Welds() {
			b := again.Welds()[i]
			if math.Abs(w.Size.Value-b.Size.Value) > 1e-12 || math.Abs(w.Run.Spacing-b.Run.Spacing) > 1e-12 {
				t.Fatalf("%v came back as %v", w, b)
			}
			longest := float64(w.Run.Elements) * w.Run.Pitch()
			if longest == joint && w.Run.Elements != b.Run.Elements {
				t.Fatalf("%d elements came back as %d", w.Run.Elements, b.Run.Elements)
			}
		}
	})
}
