package symbol_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/symbol"
)

func parse(t *testing.T, text string) symbol.Symbol {
	t.Helper()
	s, err := symbol.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// read are texts that are read, with their printed form where it differs.
var read = []struct{ name, text, printed string }{
	{"throat", "a5 arrow side", ""},
	{"leg, other words", "Z6  Both  Sides", "z6 both sides"},
	{"fillet said", "fillet z6 other side", "z6 other side"},
	{"clear gap", "ISO 2553-A: a5 arrow side, 3 x 50 (100)", ""},
	{"staggered", "ISO 2553-B: a5 both sides, 3 x 50 (100), staggered", ""},
	{"chain is what stands without a sign", "ISO-A: a5 both sides, 3x50(100)", "ISO 2553-A: a5 both sides, 3 x 50 (100), chain"},
	{"pitch", "AWS: z6 arrow side, 50 pitch 100", "AWS A2.4: z6 arrow side, 50 pitch 100"},
	{"inches", `AWS A2.4: z 1/4 in both sides, 2 in pitch 5 in, staggered`, "AWS A2.4: z6.35 both sides, 50.8 pitch 127, staggered"},
	{"unequal legs", "z6x9 arrow side", ""},
	{"deep penetration", "s8a6 arrow side", ""},
	{"two welds", "a5 arrow side, length 300; z6 other side, contour convex", ""},
	{"two welds in the other order", "z6 other side, contour convex; a5 arrow side, length 300", "a5 arrow side, length 300; z6 other side, contour convex"},
	{"all of it", `ISO 2553-A: a5 both sides, 3 x 50 (100), contour concave, staggered, all round, field, tail "135/ISO 5817-C/PB/ISO 14341-A-G 42 4 M21 3Si1/WPS-012"`, ""},
	{"site for field, around for round", "a5 arrow side, site, all around", "a5 arrow side, all round, field"},
	{"complete penetration", "V arrow side, root 2, angle 60 deg", "V arrow side, root 2, angle 60"},
	{"depth and size", "AWS A2.4: V s10 arrow side, depth 8, root 0, angle 60, contour flat, finish G", ""},
	{"flush for flat", "square other side, contour flush", "square other side, contour flat"},
	{"bevel with broken arrow", "bevel arrow side, angle 45, broken arrow", ""},
	{"broken arrow with a fillet on the other side", "AWS: bevel 8(10) arrow side, angle 45, root 2, broken arrow; 6 other side", "AWS A2.4: bevel s10 arrow side, depth 8, root 2, angle 45; z6 other side, broken arrow"},
	{"J and U", "J arrow side; U other side", ""},
	{"flares", "flare bevel arrow side; flare-V other side", "flare-bevel arrow side; flare-V other side"},
	{"root face", "ISO 2553-A: V with root face s10 arrow side; bevel with root face other side", ""},
	{"toes", "ISO 2553-B: a5 arrow side, contour toes blended", ""},
	{"process by letters", `AWS: z6 arrow side, tail "GMAW/2F"`, `AWS A2.4: z6 arrow side, tail "135/2F"`},
	{"kind behind the size, side by itself", "A5 fillet, arrow side, contour flat", "a5 arrow side, contour flat"},
	{"side by itself behind a kind", "V, both sides; angle 60", "V both sides, angle 60"},
	{"AWS leg without a letter", "AWS: fillet 5, both sides, 60-150, staggered", "AWS A2.4: z5 both sides, 60 pitch 150, staggered"},
	{"AWS unequal legs without a letter", "AWS: 6x9 other side", "AWS A2.4: z6x9 other side"},
	{"AWS inches", "AWS: 1/4 in arrow side, 2-5 in", "AWS A2.4: z6.35 arrow side, 50.8 pitch 127"},
	{"AWS depth and weld size as drawn", "AWS: V 8(10) arrow side, root 0", "AWS A2.4: V s10 arrow side, depth 8, root 0"},
	{"AWS depth alone", "AWS: bevel 8, arrow side", "AWS A2.4: bevel arrow side, depth 8"},
	{"AWS weld size alone", "AWS: (10) U, arrow side", "AWS A2.4: U s10 arrow side"},
	{"the same figures by ISO", "ISO-A: z5 both sides, 60-150, staggered", "ISO 2553-A: z5 both sides, 60 (150), staggered"},
	{"numbered, with a dash", "ISO-B: a5 arrow side, 3x60–150 mm", "ISO 2553-B: a5 arrow side, 3 x 60 (150)"},
	{"comma in the tail", `a5 arrow side, tail "see note 3, sheet 2"`, ""},
}

func TestParse(t *testing.T) {
	for _, row := range read {
		t.Run(row.name, func(t *testing.T) {
			want := row.printed
			if want == "" {
				want = row.text
			}
			s := parse(t, row.text)
			if got := s.String(); got != want {
				t.Fatalf("got  %s\nwant %s", got, want)
			}
			if again := parse(t, want); again != s {
				t.Errorf("read again: %+v\nwas %+v", again, s)
			}
		})
	}
}

// TestParseValues looks at the data behind one text.
func TestParseValues(t *testing.T) {
	got := parse(t, `ISO 2553-A: s8a6 arrow side, 3 x 50 (100); V s10 other side, root 2, angle 60, field, tail "135/ISO 5817-B/PA"`)
	want := symbol.Symbol{
		System: symbol.ISO2553A, Field: true,
		Arrow: symbol.Weld{Kind: symbol.Fillet, Size: symbol.Size{Is: symbol.Throat, Value: 6e-3, Deep: 8e-3},
			Run: symbol.Run{Length: 50e-3, Elements: 3, Spacing: 0.1, SpacingIs: symbol.ClearGap}},
		Other: symbol.Weld{Kind: symbol.V, Size: symbol.Size{Is: symbol.Penetration, Value: 10e-3},
			Root: symbol.Opening{Width: 2e-3, Stated: true}, Angle: 60 * unit.Deg},
		Tail: symbol.Tail{Process: weld.MAG, Level: "ISO 5817-B", Position: weld.PA},
	}
	if got != want {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	if got.Side() != symbol.BothSides || got.Symmetric() || len(got.Welds()) != 2 {
		t.Errorf("side %v, symmetric %v, %d welds", got.Side(), got.Symmetric(), len(got.Welds()))
	}
}

// TestRefusals: every refusal in its exact words.
func TestRefusals(t *testing.T) {
	for _, row := range []struct {
		name, text string
		column     int
		says       string
	}{
		{symbol.BareSize, "6 arrow side", 1, `bare size: the size "6" has no letter; allowed: z for a leg, a for a throat, s for a penetration; ask what the drawing means and write z6 or a6; by AWS A2.4 it is the leg: write AWS: in front if the drawing is of that system`},
		{symbol.BareSize, "ISO-A: 6 both sides", 8, `bare size: the size "6" has no letter; allowed: z for a leg, a for a throat, s for a penetration; ask what the drawing means and write z6 or a6`},
		{symbol.BareSize, "ISO-A: fillet 6, both sides", 15, `bare size: the size "6" has no letter; allowed: z for a leg, a for a throat, s for a penetration; ask what the drawing means and write z6 or a6`},
		{symbol.BareSize, "ISO-B: V 8 arrow side", 10, `bare size: the size "8" has no letter; allowed: z for a leg, a for a throat, s for a penetration; ask what the drawing means and write s8`},
		{symbol.BareSize, "V (10) arrow side", 3, `bare size: the size "(10)" has no letter; allowed: z for a leg, a for a throat, s for a penetration; ask what the drawing means and write s10; by AWS A2.4 it is the depth of preparation, in brackets the weld size: write AWS: in front if the drawing is of that system`},
		{symbol.TwoSizes, "a8 z6 arrow side", 1, `two sizes: a throat of 8 over a leg of 6; allowed: one size; a throat is below its leg; ask which of the two the drawing has`},
		{symbol.TwoSizes, "z7 a5 fillet, arrow side", 1, `two sizes: a throat of 5 and a leg of 7; allowed: one size; write the one that the drawing has; the other follows from the angle between the plates`},
		{symbol.OutOfSense, "a0 arrow side", 1, `size out of sense: throat 0 mm is outside 0.3 mm to 60 mm; check the value and its unit; allowed: the range named; write the number that the drawing has, in mm or with its unit`},
		{symbol.BadNumber, "a-5 arrow side", 1, `not a number: size "-5"; allowed: a number in mm or with its unit; write it like 50 or 2 in`},
		{symbol.UnknownSide, "a5 fillet, 60-150", 1, `no side: "a5 fillet" without its side; allowed: arrow side, other side, both sides; write the side behind it, such as "a5 fillet arrow side"`},
		{symbol.UnknownSide, "a5 arrow side, a4", 16, `no side: "a4" without its side; allowed: arrow side, other side, both sides; write the side behind it, such as "a4 arrow side"`},
		{symbol.NoSystem, "z5 both sides, 60-150, staggered", 16, `system not stated: "60-150", whose second number is a pitch by AWS A2.4 and a clear gap by ISO 2553; allowed: ISO 2553-A, ISO 2553-B, AWS A2.4; name the system of the drawing in front, or write 60 pitch 150 or 60 (150)`},
		{symbol.PitchTooSmall, "AWS: 6 arrow side, 60-50", 20, `pitch not above length: length 60, pitch 50; allowed: a pitch above the length; swap the two, or leave the pitch out if the weld is continuous; pitch is centre to centre`},
		{symbol.SaidTwice, "AWS: V 8(10) arrow side, depth 8", 26, `said twice: a second depth; allowed: one; keep the one that the drawing has`},
		{symbol.UnknownSide, "a5", 1, `no side: "a5" without its side; allowed: arrow side, other side, both sides; write the side behind it, such as "a5 arrow side"`},
		{symbol.UnknownSide, "", 1, `no side: "" without its side; allowed: arrow side, other side, both sides; write the side behind it, such as "a5 arrow side"`},
		{symbol.UnknownPart, "staggered, contour flat", 12, `unknown part: "contour flat" before any weld; allowed: a size or weld with its side first; begin with a weld, such as "a5 arrow side"`},
		{symbol.UnknownPart, "a5 arrow side, purple", 16, `unknown part: "purple"; allowed: "3 x 50 (100)" with the clear gap, "50 pitch 100" centre to centre, or "length 300"; write the length so, or take the part out`},
		{symbol.UnknownPart, "AWS: z6 arrow side, 50-100-2", 21, `unknown part: "50-100-2"; allowed: "3 x 50 (100)" with the clear gap, "50 pitch 100" centre to centre, or "length 300"; write the length so, or take the part out`},
		{symbol.UnknownPart, "a5 arrow side, 3 x 50 (100", 16, `unknown part: "3 x 50 (100" without its closing bracket; allowed: "3 x 50 (100)" with the clear gap, "50 pitch 100" centre to centre, or "length 300"; write the length so, or take the part out`},
		{symbol.UnknownPart, "a5 arrow side, -3 x 50 (100)", 16, `unknown part: "-3" elements; allowed: "3 x 50 (100)" with the clear gap, "50 pitch 100" centre to centre, or "length 300"; write the length so, or take the part out`},
		{symbol.UnknownSystem, "DIN: a5 arrow side", 1, `unknown system: system "DIN"; allowed: ISO 2553-A, ISO 2553-B, AWS A2.4; write one of them, or leave the system out`},
		{symbol.UnknownSystem, "ISO: a5 arrow side", 1, `unknown system: system "ISO"; allowed: ISO 2553-A, ISO 2553-B, AWS A2.4; say whether the drawing is of system A (solid and dashed line) or B (one line)`},
		{symbol.UnknownKind, "plug arrow side", 1, `unknown weld: "plug"; allowed: fillet, square, V, bevel, U, J, flare-V, flare-bevel, V with root face, bevel with root face; or a size with z, a or s; write the weld or the size`},
		{symbol.SideTwice, "a5 arrow side; a4 arrow side", 16, `side given twice: a second weld on the arrow side; allowed: one weld a side; write a symbol for each operation, nearest the arrow first`},
		{symbol.SaidTwice, "a5 arrow side, length 300, 3 x 50 (100)", 28, `said twice: a second length and spacing; allowed: one; keep the one that the drawing has`},
		{symbol.SaidTwice, "a5 arrow side, field, site", 23, `said twice: a second field; allowed: one; keep the one that the drawing has`},
		{symbol.NoWeld, "ISO 2553-A: field", 0, `no weld: neither side has a weld; allowed: a weld on the arrow side, the other side or both; write the weld and its side`},
		{symbol.NoSize, "fillet arrow side", 1, `no size: a fillet without a size; allowed: z for a leg, a for a throat; write the size, such as z6 or a5`},
		{symbol.WrongMeasure, "s8 arrow side", 1, `wrong kind of size: the fillet s8; allowed: z for a leg, a for a throat, s before a; write the leg or throat; for a groove, write which`},
		{symbol.WrongMeasure, "V a8 arrow side", 1, `wrong kind of size: the size a8 of a V weld; allowed: s for a penetration, or none for complete penetration; write s, or take the weld for a fillet`},
		{symbol.WrongMeasure, "a5x6 arrow side", 1, `wrong kind of size: two figures in a5x6; allowed: two legs, such as z6x9; write legs, or one throat`},
		{symbol.WrongMeasure, "s5a6 arrow side", 1, `wrong kind of size: s5a6, whose penetration is not above its throat; allowed: s above a; swap the two or take s off`},
		{symbol.OutOfSense, "z500 arrow side", 1, `size out of sense: leg 500 mm is outside 0.5 mm to 60 mm; check the value and its unit; allowed: the range named; write the number that the drawing has, in mm or with its unit`},
		{symbol.BadNumber, "z1/4 arrow side", 1, `not a number: size "1/4"; allowed: a number in mm or with its unit; write it like 50 or 2 in`},
		{symbol.OutOfSense, "V arrow side, angle 200", 15, `size out of sense: groove angle 200 deg is outside 2 deg to 180 deg; check the value and its unit; allowed: the range named; write the number that the drawing has, in mm or with its unit`},
		{symbol.BadNumber, "a5 arrow side, length long", 16, `not a number: length and spacing "long"; allowed: a number in mm or with its unit; write it like 50 or 2 in`},
		{symbol.BadRun, "z6 arrow side, 3 x 50 pitch 100", 16, `length and spacing: a pitch with a number of elements; allowed: length and pitch; the joint's length gives the number; write 50 pitch 100, or the clear gap: 3 x 50 (50)`},
		{symbol.BadRun, "z6 arrow side, 20000 x 50 (50)", 16, `length and spacing: 20000 elements; allowed: 1 to 10000; count them again`},
		{symbol.PitchTooSmall, "AWS: z6 arrow side, 100 pitch 50", 21, `pitch not above length: length 100, pitch 50; allowed: a pitch above the length; swap the two, or leave the pitch out if the weld is continuous; pitch is centre to centre`},
		{symbol.PitchTooSmall, "z6 arrow side, 50 pitch 50", 16, `pitch not above length: length 50, pitch 50; allowed: a pitch above the length; swap the two, or leave the pitch out if the weld is continuous; pitch is centre to centre`},
		{symbol.MixedCodes, "AWS: a5 arrow side", 6, `mixed code families: the throat a5 in a symbol of AWS A2.4, which sizes fillets by the leg; allowed: z for a leg; convert the throat into a leg, or name the system of the drawing`},
		{symbol.MixedCodes, "AWS: z6 arrow side, 3 x 50 (50)", 21, `mixed code families: a clear gap in a symbol of AWS A2.4, which gives the pitch; allowed: length and pitch, centre to centre; write 50 pitch 100`},
		{symbol.MixedCodes, "ISO-A: z6 arrow side, 50 pitch 100", 23, `mixed code families: a pitch in a symbol of ISO 2553-A, which gives the clear gap; allowed: n x l (e); write the number of elements, their length and the gap: n x 50 (50)`},
		{symbol.MixedCodes, "AWS: z6 arrow side, contour toes blended", 21, `mixed code families: blended toes, a symbol of ISO 2553, in one of AWS A2.4; allowed: flat, convex, concave; write the toes in the tail`},
		{symbol.MixedCodes, "ISO-B: z6 arrow side, contour flat, finish G", 37, `mixed code families: a finish letter of AWS A2.4 in a symbol of ISO 2553-B; allowed: a contour; write the finish in the tail`},
		{symbol.MixedCodes, "ISO-B: V arrow side, depth 8", 22, `mixed code families: a depth of preparation in a symbol of ISO 2553-B; allowed: s for the penetration; write the penetration, and the depth in the tail or a detail`},
		{symbol.MixedCodes, "AWS: V with root face arrow side", 6, `mixed code families: V with root face in a symbol of AWS A2.4; allowed: V or bevel with a depth of preparation; write V or bevel and the depth`},
		{symbol.MixedCodes, `ISO-A: a5 arrow side, tail "2F"`, 23, `mixed code families: position 2F in a symbol of ISO 2553-A; allowed: a position in the words of its own code; write the position so, or leave it out`},
		{symbol.MixedCodes, `AWS: z6 arrow side, tail "ISO 5817-C"`, 21, `mixed code families: level ISO 5817-C in a symbol of AWS A2.4; allowed: the acceptance of its own code; leave the level out, or name the system of the drawing`},
		{symbol.BadPattern, "a5 arrow side, 3 x 50 (100), staggered", 30, `chain or staggered: staggered with stitches not on both sides; allowed: it with stitches on both sides; write both sides, or leave it out`},
		{symbol.BadPattern, "a5 arrow side, 3 x 50 (100); a5 other side, 3 x 50 (80), staggered", 58, `chain or staggered: staggered with pitches 150 and 130; allowed: one pitch; give both sides one pitch, or write chain`},
		{symbol.BadContour, "a5 arrow side, contour wavy", 16, `unknown contour: contour "wavy"; allowed: flat, convex, concave, toes blended; write one of them`},
		{symbol.BadFinish, "z6 arrow side, contour flat, finish X", 30, `finish: finish "X"; allowed: C, G, M, R, H, U; write one letter of AWS A2.4`},
		{symbol.BadFinish, "z6 arrow side, finish G", 16, `finish: a finish without a contour; allowed: a finish behind flat, convex or concave; write the contour too`},
		{symbol.NotForKind, "a5 arrow side, root 2", 16, `not for this weld: depth, root or angle of a fillet; allowed: them on a groove; leave them out, or write the groove`},
		{symbol.NotForKind, "square arrow side, angle 60", 20, `not for this weld: a groove angle of a square weld; allowed: an angle on V, bevel, U or J; leave the angle out`},
		{symbol.NotForKind, "a5 arrow side, broken arrow", 16, `not for this weld: a broken arrow to a fillet weld; allowed: bevel, J, flare-bevel, which prepare one member; leave the break out`},
		{symbol.BadTail, `a5 arrow side, tail "135`, 21, `tail: a quotation mark without its partner; allowed: tail "..."; close the quotation`},
		{symbol.BadTail, `a5 arrow side, tail 135`, 16, `tail: tail 135; allowed: tail "..."; put the tail into one pair of quotation marks`},
		{symbol.BadTail, `a5 arrow side, tail "135/136"`, 16, `tail: a second entry of its kind, 136; allowed: one process, level, position, filler and note; keep one of each`},
		{symbol.BadTail, `a5 arrow side, tail "135//PB"`, 16, `tail: an empty entry in the tail; allowed: process/level/position/filler/note; leave the stroke out with the entry`},
	} {
		t.Run(row.name+" "+row.text, func(t *testing.T) {
			s, err := symbol.Parse(row.text)
			var e *symbol.Error
			if !errors.As(err, &e) || s != (symbol.Symbol{}) {
				t.Fatalf("got %+v, %v; want an *Error", s, err)
			}
			where := "weld symbol: "
			if e.Text != "" {
				where = fmt.Sprintf("weld symbol %q: ", e.Text)
			}
			if row.column > 0 {
				where = fmt.Sprintf("weld symbol %q, column %d: ", e.Text, row.column)
				if e.Text == "" {
					where = fmt.Sprintf("weld symbol, column %d: ", row.column)
				}
			}
			if want := where + row.says; err.Error() != want || e.Name != row.name {
				t.Errorf("got  %s\nwant %s", err, want)
			}
		})
	}
	long := strings.Repeat("a5 arrow side, ", 20)
	if _, err := symbol.Parse(long); err == nil || !strings.Contains(err.Error(), "text too long: 299 bytes; allowed: 200 bytes; write one symbol at a time") {
		t.Errorf("error %v", err)
	}
}

// TestValidateData: data that no text gives is refused too.
func TestValidateData(t *testing.T) {
	good := parse(t, "a5 both sides, 3 x 50 (100), staggered")
	for _, row := range []struct {
		name   string
		change func(*symbol.Symbol)
		says   string
	}{
		{"pattern missing", func(s *symbol.Symbol) { s.Pattern = 0 }, "chain or staggered: stitches on both sides; allowed: chain, staggered; say which"},
		{"spacing of no kind", func(s *symbol.Symbol) { s.Arrow.Run.SpacingIs = 0 }, `length and spacing: part of a length and spacing; allowed: a length; or length, spacing and what the spacing is; write "length 300", "3 x 50 (100)" or "50 pitch 100"`},
		{"contour beyond the list", func(s *symbol.Symbol) { s.Arrow.Contour = 9 }, "unknown contour: contour 9; allowed: flat, convex, concave, toes blended; use one of them"},
		{"stroke in a note", func(s *symbol.Symbol) { s.Tail.Note = "a/b" }, `tail: "a/b"; allowed: entries without strokes and quotation marks; write it in other words`},
	} {
		s := good
		row.change(&s)
		if err := s.Validate(); err == nil || err.Error() != "weld symbol: "+row.says {
			t.Errorf("%s: %v\nwant %s", row.name, err, row.says)
		}
	}
	if err := good.Validate(); err != nil {
		t.Error(err)
	}
}

func TestStretchRefusals(t *testing.T) {
	r := parse(t, "a5 arrow side, 10 x 50 (100)").Arrow.Run
	if _, err := r.Over(1); err == nil || err.Error() != "weld symbol: does not fit the seam: the weld reaches over 1400 mm of a joint of 1000 mm; allowed: no more than the joint; check the joint's length, the number of elements and the spacing" {
		t.Errorf("got %v", err)
	}
	if _, err := r.Over(0); err == nil || !strings.Contains(err.Error(), "length of the joint 0 m is outside") {
		t.Errorf("got %v", err)
	}
	if got, err := (symbol.Run{}).Over(0.4); err != nil || got != (symbol.Stretch{Elements: 1, Weld: 0.4, Extent: 0.4}) {
		t.Errorf("continuous: %+v, %v", got, err)
	}
	if got, err := (symbol.Run{Length: 0.3}).Over(0.4); err != nil || got.Weld != 0.3 || got.Elements != 1 {
		t.Errorf("one length: %+v, %v", got, err)
	}
}

// drawSymbol makes a valid symbol.
func drawSymbol(t *rapid.T) symbol.Symbol {
	system := rapid.SampledFrom([]symbol.System{0, symbol.ISO2553A, symbol.ISO2553B, symbol.AWSA24}).Draw(t, "system")
	tenth := func(low, high int, name string) float64 {
		return unit.Millimetres.SI(float64(rapid.IntRange(low, high).Draw(t, name)) / 10)
	}
	weldOf := func(name string) symbol.Weld {
		w := symbol.Weld{Kind: rapid.SampledFrom([]symbol.Kind{symbol.Fillet, symbol.V, symbol.Bevel, symbol.Square, symbol.J}).Draw(t, name)}
		if w.Kind == symbol.Fillet {
			w.Size = symbol.Size{Is: symbol.Leg, Value: tenth(10, 200, "leg")}
			if system != symbol.AWSA24 && rapid.Bool().Draw(t, "throat") {
				w.Size.Is = symbol.Throat
			}
		} else if rapid.Bool().Draw(t, "partial") {
			w.Size = symbol.Size{Is: symbol.Penetration, Value: tenth(20, 400, "s")}
		}
		if rapid.Bool().Draw(t, "stitched") {
			w.Run = symbol.Run{Length: tenth(200, 1000, "l"), Elements: rapid.IntRange(1, 20).Draw(t, "n"), Spacing: tenth(200, 3000, "e"), SpacingIs: symbol.ClearGap}
			if system == symbol.AWSA24 {
				w.Run = symbol.Run{Length: w.Run.Length, Spacing: w.Run.Spacing + 0.1, SpacingIs: symbol.Pitch}
			}
		}
		w.Contour = symbol.Contour(rapid.IntRange(0, 3).Draw(t, "contour"))
		return w
	}
	s := symbol.Symbol{System: system, AllRound: rapid.Bool().Draw(t, "round"), Field: rapid.Bool().Draw(t, "field")}
	side := rapid.SampledFrom([]symbol.Side{symbol.ArrowSide, symbol.OtherSide, symbol.BothSides}).Draw(t, "side")
	if side != symbol.OtherSide {
		s.Arrow = weldOf("arrow")
	}
	if side != symbol.ArrowSide {
		s.Other = weldOf("other")
	}
	if s.Arrow.Run.Stitched() && s.Other.Run.Stitched() {
		s.Pattern = symbol.Chain
	}
	return s
}

// TestRoundTrip: print and read give the same data back.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSymbol(t)
		if err := s.Validate(); err != nil {
			t.Fatal(err)
		}
		again, err := symbol.Parse(s.String())
		if err != nil {
			t.Fatal(err)
		}
		if again.String() != s.String() {
			t.Fatalf("read %s\nfrom %s", again, s)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, row := range read {
		f.Add(row.text)
	}
	for _, text := range []string{"", ":", ";", `tail "`, "3 x x 50 (1)", "z6x arrow side", "s arrow side", "a5 arrow side, 1 x 1e300 (1)", "é both sides", "V  side both sides"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := symbol.Parse(text)
		if err != nil {
			var e *symbol.Error
			if !errors.As(err, &e) || e.Name == "" || e.Found == "" || e.Allowed == "" || e.Mend == "" {
				t.Fatalf("%q: error %v says too little", text, err)
			}
			return
		}
		printed := s.String()
		again, err := symbol.Parse(printed)
		if err != nil {
			t.Fatalf("%q printed as %q is not read: %v", text, printed, err)
		}
		if again.String() != printed {
			t.Fatalf("%q printed as %q, then as %q", text, printed, again)
		}
		if s.System != 0 {
			if svg, err := s.SVG(unit.Metric); err != nil || !strings.HasSuffix(svg, "</svg>\n") {
				t.Fatalf("%q is not drawn: %v", text, err)
			}
		}
	})
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := symbol.Parse(`ISO 2553-A: a5 both sides, 3 x 50 (100), staggered, tail "135/ISO 5817-C"`); err != nil {
			b.Fatal(err)
		}
	}
}
