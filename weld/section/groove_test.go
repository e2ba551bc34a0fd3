package section_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/weld"
	"seamwright/weld/section"
)

// preps are all preparations.
var preps = []section.Prep{section.Square, section.SingleV, section.DoubleV, section.SingleBevel, section.DoubleBevel,
	section.SingleU, section.DoubleU, section.SingleJ, section.DoubleJ, section.FlareV, section.FlareBevel}

// drawGroove draws a groove of one preparation over all of its range.
func drawGroove(t *rapid.T, p section.Prep) section.Groove {
	f := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	g := section.Groove{Prep: p, Thickness: f("thickness", 3, 60) * mm, Gap: f("gap", 0.2, 12) * mm}
	switch p {
	case section.Square:
	case section.FlareV, section.FlareBevel:
		g.Radius = g.Thickness * f("radius over fill", 1, 3)
	default:
		g.RootFace = g.Thickness * f("root face share", 0, 0.6)
	}
	depth := g.Thickness - g.RootFace
	if p.Double() {
		g.Back = depth * f("back share", 0.2, 0.8)
		depth = min(g.Back, depth-g.Back)
	}
	switch p {
	case section.SingleV, section.DoubleV:
		g.Angle = f("included", 20, 120) * deg
	case section.SingleBevel, section.DoubleBevel:
		g.Angle = f("bevel", 10, 60) * deg
	case section.SingleU, section.DoubleU, section.SingleJ, section.DoubleJ:
		g.Angle = f("wall", 0, 45) * deg
		most := min(30*mm, depth/(1-math.Sin(g.Angle)))
		if most < 1*mm {
			t.Skip("no root radius fits")
		}
		g.Radius = f("radius", 1, most/mm) * mm
	}
	out, err := section.NewGroove(g)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestGrooveAreaSweep compares the closed forms with the outline: by the
// shoelace sum, by integration of its widths, and by a clipping library.
func TestGrooveAreaSweep(t *testing.T) {
	for _, p := range preps {
		t.Run(p.String(), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				g := drawGroove(t, p)
				outline := g.Outline()
				if len(outline) != 1 {
					t.Fatalf("%d outlines with a gap", len(outline))
				}
				// The outline leaves an arc by 1 um at most.
				slack := 1e-6 * 8 * g.Radius
				if got := outline[0].Area(); math.Abs(got-g.Area()) > 1e-9*g.Area()+slack {
					t.Fatalf("outline %.9g mm2, closed form %.9g", got/mm2, g.Area()/mm2)
				}
				if got := scanned(outline...); math.Abs(got-g.Area()) > 5e-4*g.Area()+slack {
					t.Fatalf("integrated %.9g mm2, closed form %.9g", got/mm2, g.Area()/mm2)
				}
				if got := measured(t, outline[0]); math.Abs(got-g.Area()) > 1e-9*g.Area()+slack {
					t.Fatalf("library %.9g mm2, closed form %.9g", got/mm2, g.Area()/mm2)
				}
			})
		})
	}
}

// TestGrooveLayers: layers add up, and each is the integral of the widths.
func TestGrooveLayers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGroove(t, rapid.SampledFrom(preps).Draw(t, "prep"))
		y1 := rapid.Float64Range(0, 1).Draw(t, "y1") * g.Thickness
		y2 := y1 + rapid.Float64Range(0, 1).Draw(t, "y2")*(g.Thickness-y1)
		var sum float64
		for _, span := range [][2]float64{{0, y1}, {y1, y2}, {y2, g.Thickness}} {
			area, err := g.AreaBetween(span[0], span[1])
			if err != nil {
				t.Fatal(err)
			}
			sum += area
			const steps = 500
			var widths float64
			for i := range steps {
				w, err := g.Width(span[0] + (span[1]-span[0])*(float64(i)+0.5)/steps)
				if err != nil {
					t.Fatal(err)
				}
				widths += w * (span[1] - span[0]) / steps
			}
			if math.Abs(widths-area) > 5e-4*g.Area() {
				t.Fatalf("layer %v: %.9g mm2, widths give %.9g", span, area/mm2, widths/mm2)
			}
		}
		if math.Abs(sum-g.Area()) > 1e-12*g.Area() {
			t.Fatalf("layers %g mm2, groove %g", sum/mm2, g.Area()/mm2)
		}
	})
}

// TestGrooveMonotone: more gap, more thickness at the same root face, or a wider
// angle never need less metal; more root face never more.
func TestGrooveMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGroove(t, rapid.SampledFrom([]section.Prep{section.SingleV, section.SingleBevel, section.DoubleV, section.DoubleBevel}).Draw(t, "prep"))
		g.Back = 0 // shared equally
		area := func(change func(*section.Groove)) float64 {
			h := g
			change(&h)
			h, err := section.NewGroove(h)
			if err != nil {
				t.Skip("out of range")
			}
			return h.Area()
		}
		by := rapid.Float64Range(1.001, 1.2).Draw(t, "by")
		base := area(func(*section.Groove) {})
		for name, more := range map[string]float64{
			"gap":       area(func(h *section.Groove) { h.Gap *= by }),
			"thickness": area(func(h *section.Groove) { h.Thickness *= by }),
			"angle":     area(func(h *section.Groove) { h.Angle *= by }),
		} {
			if more < base {
				t.Fatalf("%s grown by %g: %g mm2 from %g", name, by, more/mm2, base/mm2)
			}
		}
		if less := area(func(h *section.Groove) { h.RootFace *= by }); less > base {
			t.Fatalf("root face grown: %g mm2 from %g", less/mm2, base/mm2)
		}
	})
}

// TestGrooveSymmetry: a V is twice a bevel of half its angle at no gap, a U twice
// a J, a double twice a single of half the thickness without root face.
func TestGrooveSymmetry(t *testing.T) {
	groove := must[section.Groove](t)
	area := func(g section.Groove) float64 { return groove(section.NewGroove(g)).Area() }
	for name, pair := range map[string][2]float64{
		"V and bevel": {area(section.Groove{Prep: section.SingleV, Thickness: 12 * mm, RootFace: 2 * mm, Angle: 60 * deg}),
			2 * area(section.Groove{Prep: section.SingleBevel, Thickness: 12 * mm, RootFace: 2 * mm, Angle: 30 * deg})},
		"U and J": {area(section.Groove{Prep: section.SingleU, Thickness: 30 * mm, RootFace: 3 * mm, Angle: 10 * deg, Radius: 6 * mm}),
			2 * area(section.Groove{Prep: section.SingleJ, Thickness: 30 * mm, RootFace: 3 * mm, Angle: 10 * deg, Radius: 6 * mm})},
		"double and single": {area(section.Groove{Prep: section.DoubleV, Thickness: 20 * mm, Gap: 3 * mm, Angle: 60 * deg}),
			2 * area(section.Groove{Prep: section.SingleV, Thickness: 10 * mm, Gap: 3 * mm, Angle: 60 * deg})},
		"flares": {area(section.Groove{Prep: section.FlareV, Thickness: 20 * mm, Radius: 20 * mm}),
			2 * area(section.Groove{Prep: section.FlareBevel, Thickness: 20 * mm, Radius: 20 * mm})},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-12*pair[1] {
			t.Errorf("%s: %g and %g mm2", name, pair[0]/mm2, pair[1]/mm2)
		}
	}
}

// TestClosedGroove: without a gap the sides are outlines of their own.
func TestClosedGroove(t *testing.T) {
	for _, row := range []struct {
		g     section.Groove
		sides int
	}{
		{section.Groove{Prep: section.SingleV, Thickness: 10 * mm, RootFace: 2 * mm, Angle: 60 * deg}, 1},
		{section.Groove{Prep: section.DoubleJ, Thickness: 40 * mm, RootFace: 2 * mm, Angle: 10 * deg, Radius: 6 * mm}, 2},
		{section.Groove{Prep: section.FlareBevel, Thickness: 10 * mm, Radius: 12 * mm}, 1},
	} {
		g, err := section.NewGroove(row.g)
		if err != nil {
			t.Fatal(err)
		}
		outlines := g.Outline()
		if len(outlines) != row.sides {
			t.Errorf("%v: %d outlines, want %d", g.Prep, len(outlines), row.sides)
		}
		sum := 0.0
		for _, p := range outlines {
			sum += measured(t, p)
		}
		if math.Abs(sum-g.Area()) > 1e-3*g.Area() || math.Abs(scanned(outlines...)-g.Area()) > 1e-3*g.Area() {
			t.Errorf("%v: outlines %g mm2, closed form %g", g.Prep, sum/mm2, g.Area()/mm2)
		}
	}
}

// TestCapOutline: the outline of a cap is the parabola of its area, and the
// round cap of the same height is larger by less than 3 %.
func TestCapOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGroove(t, section.SingleV)
		r := section.Reinforcement{Over: rapid.Float64Range(0, 6).Draw(t, "over") * mm}
		r.Height = rapid.Float64Range(0.05, 0.5).Draw(t, "height share") * min(g.Mouth()+r.Over, 30*mm)
		area, err := g.CapArea(r)
		if err != nil {
			t.Fatal(err)
		}
		outline, err := g.CapOutline(r)
		if err != nil {
			t.Fatal(err)
		}
		if got := measured(t, outline); math.Abs(got-area) > 3e-4*area {
			t.Fatalf("outline %g mm2, formula %g", got/mm2, area/mm2)
		}
		width := g.Mouth() + r.Over
		if r.Height < width/5 && width < 120*mm {
			if round, err := section.CapArea(width, r.Height); err != nil || round < area || round > 1.035*area {
				t.Fatalf("round cap %g mm2, parabola %g, %v", round/mm2, area/mm2, err)
			}
		}
	})
	g := must[section.Groove](t)(section.NewGroove(section.Groove{Prep: section.Square, Thickness: 4 * mm, Gap: 2 * mm}))
	if flush, err := g.CapOutline(section.Reinforcement{}); flush != nil || err != nil {
		t.Errorf("flush weld: %v, %v", flush, err)
	}
}

// TestGrooveRefusals: the words of each refusal, and its name.
func TestGrooveRefusals(t *testing.T) {
	v := section.Groove{Prep: section.SingleV, Thickness: 10 * mm, Gap: 3 * mm, RootFace: 2 * mm, Angle: 60 * deg}
	with := func(change func(*section.Groove)) func() error {
		return func() error {
			g := v
			change(&g)
			_, err := section.NewGroove(g)
			return err
		}
	}
	good := must[section.Groove](t)(section.NewGroove(v))
	square := section.Groove{Prep: section.Square, Thickness: 6 * mm, Gap: 2 * mm}
	flare := section.Groove{Prep: section.FlareBevel, Thickness: 8 * mm, Radius: 8 * mm}
	for _, row := range []struct {
		name string
		call func() error
		kind error
		says string
	}{
		{"no preparation", with(func(g *section.Groove) { g.Prep = 0 }), section.ErrNotStated,
			"groove: not stated: found preparation not stated, allowed square, single V, double V, single bevel, double bevel, single U, double U, single J, double J, flare V, flare bevel; say how the edges are prepared"},
		{"zero thickness", with(func(g *section.Groove) { g.Thickness = 0 }), section.ErrOutOfRange,
			"single V groove: outside the range: plate thickness 0 mm is outside 0.3 mm to 300 mm; check the value and its unit"},
		{"negative gap", with(func(g *section.Groove) { g.Gap = -1 * mm }), section.ErrOutOfRange,
			"single V groove: outside the range: gap -1 mm is outside 0 mm to 30 mm; check the value and its unit"},
		{"angle in degrees", with(func(g *section.Groove) { g.Angle = 60 }), section.ErrOutOfRange,
			"single V groove: outside the range: included angle of the V 3438 deg is outside 20 deg to 120 deg; check the value and its unit"},
		{"V too wide", with(func(g *section.Groove) { g.Angle = 121 * deg }), section.ErrOutOfRange,
			"single V groove: outside the range: included angle of the V 121 deg is outside 20 deg to 120 deg; check the value and its unit"},
		{"not a number", with(func(g *section.Groove) { g.RootFace = math.NaN() }), section.ErrOutOfRange,
			"single V groove: outside the range: root face that is not a finite number is outside 0 mm to 300 mm; check the value and its unit"},
		{"root face over thickness", with(func(g *section.Groove) { g.RootFace = 12 * mm }), section.ErrRootFace,
			"single V groove: root face over thickness: found 12 mm, allowed less than the thickness, 10 mm; measure the edge again, or name it a square groove"},
		{"root face equal to thickness", with(func(g *section.Groove) { g.RootFace = 10 * mm }), section.ErrRootFace,
			"single V groove: root face over thickness: found 10 mm, allowed less than the thickness, 10 mm; measure the edge again, or name it a square groove"},
		{"a radius on a V", with(func(g *section.Groove) { g.Radius = 6 * mm }), section.ErrNotOfThisPrep,
			"single V groove: measure not of this preparation: found a radius of 6 mm, allowed none; leave it out or name another preparation"},
		{"a back on a single", with(func(g *section.Groove) { g.Back = 3 * mm }), section.ErrNotOfThisPrep,
			"single V groove: measure not of this preparation: found a depth of the back of 3 mm, allowed none; leave it out or name another preparation"},
		{"back too deep", with(func(g *section.Groove) { g.Prep, g.Back = section.DoubleV, 8*mm }), section.ErrTwoSides,
			"double V groove: depths of two sides over thickness: found a back 8 mm deep, allowed less than thickness less root face, 8 mm; make the back shallower, or name a single preparation"},
		{"radius over depth", with(func(g *section.Groove) { g.Prep, g.Radius, g.Angle = section.SingleU, 12*mm, 8*deg }), section.ErrRootRadius,
			"single U groove: root radius over depth: found 12 mm, allowed up to 9.293 mm for a side 8 mm deep; choose a smaller radius or a V"},
		{"square and closed", func() error { g := square; g.Gap = 0; _, err := section.NewGroove(g); return err }, section.ErrNothingToFill,
			"square groove: nothing to fill: found a gap of 0 mm, allowed more than 0 mm; tell the gap, or prepare the edges; a closed square joint is sized by its cap and penetration"},
		{"an angle on a square", func() error { g := square; g.Angle = 60 * deg; _, err := section.NewGroove(g); return err }, section.ErrNotOfThisPrep,
			"square groove: measure not of this preparation: found an angle of 60 deg, allowed none; leave it out or name another preparation"},
		{"a root face on a square", func() error { g := square; g.RootFace = 2 * mm; _, err := section.NewGroove(g); return err }, section.ErrNotOfThisPrep,
			"square groove: measure not of this preparation: found a root face of 2 mm, allowed none; leave it out or name another preparation"},
		{"flare over flush", func() error { g := flare; g.Thickness = 9 * mm; _, err := section.NewGroove(g); return err }, section.ErrOutsideSection,
			"flare bevel groove: outside the section: found a fill 9 mm high, allowed up to the radius, 8 mm; a flare groove is flush at its radius; tell the rest as a cap"},
		{"layer above the plates", func() error { _, err := good.AreaBetween(4*mm, 11*mm); return err }, section.ErrOutsideSection,
			"single V groove: outside the section: found heights 4 mm to 11 mm, allowed 0 mm to the thickness, 10 mm, rising; give heights above the back face"},
		{"layer upside down", func() error { _, err := good.AreaBetween(4*mm, 3*mm); return err }, section.ErrOutsideSection,
			"single V groove: outside the section: found heights 4 mm to 3 mm, allowed 0 mm to the thickness, 10 mm, rising; give heights above the back face"},
		{"width below the plates", func() error { _, err := good.Width(-1 * mm); return err }, section.ErrOutsideSection,
			"single V groove: outside the section: found heights -1 mm to -1 mm, allowed 0 mm to the thickness, 10 mm, rising; give heights above the back face"},
		{"cap in metres", func() error { _, err := good.CapArea(section.Reinforcement{Height: 1.5}); return err }, section.ErrOutOfRange,
			"cap: outside the range: cap height 1500 mm is outside 0 mm to 15 mm; check the value and its unit"},
		{"negative cap", func() error { _, err := good.CapOutline(section.Reinforcement{Height: -1 * mm}); return err }, section.ErrOutOfRange,
			"cap: outside the range: cap height -1 mm is outside 0 mm to 15 mm; check the value and its unit"},
		{"needed with a bad cap", func() error { _, err := good.Needed(section.Reinforcement{Over: -1 * mm}); return err }, section.ErrOutOfRange,
			"single V groove: cap: outside the range: width of the cap beyond the mouth -1 mm is outside 0 mm to 20 mm; check the value and its unit"},
		{"penetration in metres", func() error { _, err := good.Penetration(2, 0); return err }, section.ErrOutOfRange,
			"penetration of a single V groove: outside the range: penetration beyond the preparation 2000 mm is outside 0 mm to 20 mm; check the value and its unit"},
		{"penetration of a flare", func() error {
			_, err := must[section.Groove](t)(section.NewGroove(flare)).Penetration(1*mm, 0)
			return err
		}, section.ErrNotOfThisPrep, "penetration of a flare bevel groove: measure not of this preparation: found flare bevel, allowed a groove with a root face; see FlareThroat"},
		{"throat by an ISO position", func() error { _, err := good.PartialThroat(weld.MAG, weld.PA); return err }, section.ErrMixedFamilies,
			"throat of a partial single V groove: families mixed: found position PA, allowed 1G, 2G, 3G, 4G; name the position as AWS does; the table is of that family"},
		{"throat of a process without a row", func() error { _, err := good.PartialThroat(weld.TungstenArc, weld.Flat1G); return err }, section.ErrNotOfThisCode,
			"throat of a partial single V groove: not of this code: found 141 tungsten arc, allowed wire processes and covered electrodes; open the table for other processes"},
		{"throat of a narrow V", func() error {
			g := good
			g.Angle = 50 * deg
			_, err := g.PartialThroat(weld.MAG, weld.Flat1G)
			return err
		}, section.ErrOutOfRange,
			"throat of a partial single V groove: outside the range: found an angle of 50 deg, allowed 60 deg and more; open the joint, or show the throat by a trial"},
		{"throat of a small flare", func() error {
			_, err := must[section.Groove](t)(section.NewGroove(flare)).FlareThroat(weld.MAG)
			return err
		}, section.ErrOutOfRange, "throat of a flare bevel groove: outside the range: found a radius of 8 mm, allowed 10 mm and more; count only a fillet laid over the flush fill"},
		{"flare throat of a V", func() error { _, err := good.FlareThroat(weld.MAG); return err }, section.ErrNotOfThisPrep,
			"throat of a single V groove: measure not of this preparation: found single V, allowed flare V, flare bevel; see PartialThroat"},
		{"another preparation's row", func() error { _, err := section.Typicals(section.Square)[0].Compare(good); return err }, section.ErrNotOfThisPrep,
			"typical preparation 1.2.2: measure not of this preparation: found single V, allowed square; compare with a row of the same preparation"},
		{"fit-up of another joint", func() error { _, _, err := section.FitUp(good, square); return err }, section.ErrNotOfThisPrep,
			"fit-up: measure not of this preparation: found square, allowed single V; measure the joint that is drawn"},
		{"misalignment of nothing", func() error { _, err := section.Misalignment(0); return err }, section.ErrOutOfRange,
			"misalignment: outside the range: plate thickness 0 mm is outside 0.3 mm to 300 mm; check the value and its unit"},
		{"gap level of another code", func() error { _, err := section.GapISO("II", 5*mm); return err }, section.ErrNotStated,
			`gap of a fillet: not stated: found quality level "II", allowed B, C, D; name the quality level of ISO 5817`},
		{"gap for a throat in millimetres", func() error { _, err := section.GapISO("C", 5); return err }, section.ErrOutOfRange,
			"gap of a fillet: outside the range: throat 5000 mm is outside 0.3 mm to 60 mm; check the value and its unit"},
		{"metal in a negative gap", func() error { _, err := section.GapMetal(6*mm, -1*mm); return err }, section.ErrOutOfRange,
			"metal in a gap: outside the range: gap -1 mm is outside 0 mm to 50 mm; check the value and its unit"},
		{"throat over leg", func() error { _, err := section.BothSizes(90*deg, 6*mm, 6*mm); return err }, section.ErrThroatOverLeg,
			"fillet: throat over leg: found throat 6 mm on leg 6 mm, allowed up to 4.243 mm at 90 deg; make the leg at least 8.485 mm, or ask which of the two is meant"},
		{"throat far under leg", func() error { _, err := section.BothSizes(90*deg, 12*mm, 3*mm); return err }, section.ErrThroatOverLeg,
			"fillet: throat over leg: found leg 12 mm for throat 3 mm, allowed a throat of 4.243 mm to 8.485 mm at 90 deg; ask which of the two is meant"},
		{"cap over a half circle", func() error {
			_, err := must[section.Fillet](t)(section.EqualLegs(90*deg, 6*mm)).Outline(5 * mm)
			return err
		}, section.ErrOutOfRange, "fillet: outside the range: found a cap 5 mm high, allowed up to half the face width, 4.243 mm, either way; measure again"},
		{"face through the root", func() error {
			_, err := must[section.Fillet](t)(section.EqualLegs(120*deg, 6*mm)).Outline(-4 * mm)
			return err
		}, section.ErrOutOfRange, "fillet: outside the range: found a face 4 mm hollow, allowed less than the throat, 3 mm; measure again"},
		{"factor under one", func() error {
			_, _, err := must[section.Fillet](t)(section.EqualLegs(90*deg, 6*mm)).WithFactor(0.9)
			return err
		}, section.ErrOutOfRange, "fillet: outside the range: convexity factor 0.9 is outside 1 to 2; check the value and its unit"},
		{"deep throat in metres", func() error {
			_, err := must[section.Fillet](t)(section.EqualLegs(90*deg, 6*mm)).DeepThroat(2)
			return err
		}, section.ErrOutOfRange, "deep throat: outside the range: penetration beyond the preparation 2000 mm is outside 0 mm to 20 mm; check the value and its unit"},
	} {
		t.Run(row.name, func(t *testing.T) {
			err := row.call()
			if err == nil || err.Error() != row.says {
				t.Errorf("error\n%v\nwant\n%v", err, row.says)
			}
			if !errors.Is(err, row.kind) {
				t.Errorf("%v is not named %q", err, row.kind)
			}
		})
	}
}

func TestParsePrep(t *testing.T) {
	for _, p := range preps {
		if got, err := section.ParsePrep(p.String()); err != nil || got != p {
			t.Errorf("%v: %v, %v", p, got, err)
		}
	}
	if got, err := section.ParsePrep("Flare-Bevel"); err != nil || got != section.FlareBevel {
		t.Errorf("Flare-Bevel: %v, %v", got, err)
	}
	want := `preparation "K": write one of square, single V, double V, single bevel, double bevel, single U, double U, single J, double J, flare V, flare bevel`
	if _, err := section.ParsePrep("K"); err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
	if got := section.Prep(99).String(); got != "preparation 99" {
		t.Errorf("unknown preparation prints %q", got)
	}
}

// FuzzParsePrep: whatever is read prints words that read the same.
func FuzzParsePrep(f *testing.F) {
	for _, p := range preps {
		f.Add(p.String())
	}
	f.Add("single_v")
	f.Add("K")
	f.Fuzz(func(t *testing.T, s string) {
		p, err := section.ParsePrep(s)
		if err != nil {
			return
		}
		if again, err := section.ParsePrep(p.String()); err != nil || again != p {
			t.Errorf("%q reads as %v, then %v, %v", s, p, again, err)
		}
	})
}

// ExampleGroove_AreaBetween cuts a V into layers.
func ExampleGroove_AreaBetween() {
	g, err := section.NewGroove(section.Groove{Prep: section.SingleV, Thickness: 12 * mm, Gap: 3 * mm, RootFace: 2 * mm, Angle: 60 * deg})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, layer := range [][2]float64{{0, 4 * mm}, {4 * mm, 8 * mm}, {8 * mm, 12 * mm}} {
		area, err := g.AreaBetween(layer[0], layer[1])
		fmt.Printf("%.2f mm2 %v\n", area/mm2, err)
	}
	// Output:
	// 14.31 mm2 <nil>
	// 30.48 mm2 <nil>
	// 48.95 mm2 <nil>
}
