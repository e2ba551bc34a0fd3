package weld_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
)

// TestPositionsReference is a table of positions by hand from the limits of AWS
// A3.0 (position diagrams) and ISO 6947:2011 Tables 1 and 2. The limits are from
// memory, except the vertical groove row (inclination 15 to 80, rotation 80 to
// 280), read in AWS D3.6 Fig. 5.1: rows 4, 5, 20, 21. It covers check values
// V006 to V013 of the project's reference page.
func TestPositionsReference(t *testing.T) {
	const none = -1 // tilt undefined
	for _, row := range []struct {
		name      string
		kind      weld.WeldKind
		travel    r3.Vec
		face      r3.Vec
		incl      float64 // deg
		tilt      float64 // deg
		aws, iso  string
		tolerance float64 // deg
	}{
		{"1 groove flat", weld.Groove, r3.Vec{X: 1}, r3.Vec{Z: 1}, 0, 0, "1G", "PA", 1e-9},
		{"2 groove face to the side (V006)", weld.Groove, r3.Vec{X: 1}, r3.Vec{Y: 1}, 0, 90, "2G", "PC", 1e-9},
		{"3 groove face down", weld.Groove, r3.Vec{X: 1}, r3.Vec{Z: -1}, 0, 180, "4G", "PE", 1e-9},
		{"4 groove upright, up", weld.Groove, r3.Vec{Z: 1}, r3.Vec{Y: 1}, 90, none, "3G", "PF", 1e-9},
		{"5 groove upright, down", weld.Groove, r3.Vec{Z: -1}, r3.Vec{Y: 1}, 90, none, "3G", "PG", 1e-9},
		{"6 fillet flat", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Z: 1}, 0, 0, "1F", "PA", 1e-9},
		{"7 fillet horizontal (V007)", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: .70711, Z: .70711}, 0, 45, "2F", "PB", 1e-9},
		{"8 fillet face vertical (V008)", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: 1}, 0, 90, "4F", "PC", 1e-9},
		{"9 fillet horizontal-overhead", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: .70711, Z: -.70711}, 0, 135, "4F", "PD", 1e-9},
		{"10 fillet overhead", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Z: -1}, 0, 180, "4F", "PE", 1e-9},
		{"11 fillet upright, up", weld.Fillet, r3.Vec{Z: 1}, r3.Vec{X: .70711, Y: .70711}, 90, none, "3F", "PF", 1e-9},
		{"12 fillet upright, down", weld.Fillet, r3.Vec{Z: -1}, r3.Vec{X: .70711, Y: .70711}, 90, none, "3F", "PG", 1e-9},
		{"13 fillet axis at 10 (V013)", weld.Fillet, r3.Vec{X: .98481, Z: .17365}, r3.Vec{Y: .70711, Z: .70711}, 10, 45.44, "2F", "PB", 0.01},
		{"14 fillet axis at 20 (V009)", weld.Fillet, r3.Vec{X: .93969, Z: .34202}, r3.Vec{Y: .70711, Z: .70711}, 20, 46.78, "3F", "PF", 0.01},
		{"15 fillet face at 25", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: .42262, Z: .90631}, 0, 25, "1F", "PA", 0.01},
		{"16 fillet face at 35", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: .57358, Z: .81915}, 0, 35, "2F", "PB", 0.01},
		{"17 fillet face at 60", weld.Fillet, r3.Vec{X: 1}, r3.Vec{Y: .86603, Z: .5}, 0, 60, "4F", "PC", 0.01},
		{"18 groove face at 95", weld.Groove, r3.Vec{X: 1}, r3.Vec{Y: .99619, Z: -.08716}, 0, 95, "2G", "PC", 0.01},
		{"19 groove face at 105 (V012)", weld.Groove, r3.Vec{X: 1}, r3.Vec{Y: .96593, Z: -.25882}, 0, 105, "4G", "PE", 0.01},
		{"20 groove climbing at 45 (V010)", weld.Groove, r3.Vec{X: .70711, Z: .70711}, r3.Vec{X: -.70711, Z: .70711}, 45, 0, "3G", "PF", 0.01},
		{"21 groove falling at 45 (V011)", weld.Groove, r3.Vec{X: .70711, Z: -.70711}, r3.Vec{X: .70711, Z: .70711}, 45, 0, "3G", "PG", 0.01},
		{"22 fillet axis at 85", weld.Fillet, r3.Vec{X: .08716, Z: .99619}, r3.Vec{Y: 1}, 85, 90, "3F", "PF", 0.01},
		{"23 fillet climbing at 30, face vertical", weld.Fillet, r3.Vec{X: .86603, Z: .5}, r3.Vec{Y: 1}, 30, 90, "4F", "PF", 0.01},
		{"24 fillet climbing at 30, face down", weld.Fillet, r3.Vec{X: .86603, Z: .5}, r3.Vec{X: .5, Z: -.86603}, 30, 180, "4F", "PE", 0.01},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := classify(t, row.kind, row.travel, row.face)
			if p.AWS.String() != row.aws || p.ISO.String() != row.iso {
				t.Errorf("position %v / %v, want %s / %s", p.AWS, p.ISO, row.aws, row.iso)
			}
			if math.Abs(p.Inclination/deg-row.incl) > row.tolerance {
				t.Errorf("inclination %.4f deg, want %g", p.Inclination/deg, row.incl)
			}
			if p.TiltKnown != (row.tilt != none) {
				t.Fatalf("tilt known %v, want %v", p.TiltKnown, row.tilt != none)
			}
			if p.TiltKnown && math.Abs(p.Tilt/deg-row.tilt) > row.tolerance {
				t.Errorf("tilt %.4f deg, want %g", p.Tilt/deg, row.tilt)
			}
		})
	}
}

// TestTestPieceTolerance: V014, ISO 6947:2011 3.3, READ in a public preview:
// slope +-5 degrees, rotation +-10 degrees.
func TestTestPieceTolerance(t *testing.T) {
	slope, rotation := weld.TestPieceTolerance()
	if got := slope.Value / deg; math.Abs(got-5) > 1e-12 {
		t.Errorf("slope %g deg, want 5", got)
	}
	if got := rotation.Value / deg; math.Abs(got-10) > 1e-12 {
		t.Errorf("rotation %g deg, want 10", got)
	}
	if slope.Source.Mark != weld.Read || rotation.Source.Mark != weld.Read {
		t.Errorf("marks %v and %v, want read", slope.Source.Mark, rotation.Source.Mark)
	}
}

// TestReferenceValues are check values of the project's reference page; the
// source and mark of each stand in its row.
func TestReferenceValues(t *testing.T) {
	value := func(x float64, err error) float64 {
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	for _, row := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"V053 40 cubic feet an hour in L/min", "unit, DERIVED", 40 * unit.CFH / unit.LPerMin, 18.88, 0.01},
		{"V107 cast 380 mm, 15 mm free", "geometry, DERIVED", value(weld.CastOffset(0.380, 0.015)) / unit.MM, 0.592, 0.005},
		{"cast 380 mm, 20 mm free", "geometry, DERIVED", value(weld.CastOffset(0.380, 0.020)) / unit.MM, 1.05, 0.005},
		{"cast 1200 mm, 25 mm free", "geometry, DERIVED", value(weld.CastOffset(1.2, 0.025)) / unit.MM, 0.52, 0.005},
		{"V108 15 mm wrong, 3 degrees", "geometry, DERIVED", value(weld.TiltShift(0.015, 3*deg)) / unit.MM, 0.785, 0.002},
		{"V116 reach check in manual mode", "OSHA technical manual, READ in public notes", weld.ReducedSpeed / unit.MMPerS, 250, 0},
		{"seam tolerance of 1.2 mm wire", "common practice, no source", weld.SeamTolerance(1.2e-3).Value / unit.MM, 0.6, 1e-12},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %.6g, want %g +- %g (%s)", row.got, row.want, row.tol, row.source)
			}
		})
	}
}

// TestCastOffsetAgainstCircle compares with the exact drop of a circle.
func TestCastOffsetAgainstCircle(t *testing.T) {
	for free := 1e-3; free <= 0.019; free += 1e-3 {
		const R = 0.19
		got, err := weld.CastOffset(2*R, free)
		if err != nil {
			t.Fatal(err)
		}
		exact := R * (1 - math.Cos(free/R)) // wire of that length, bent to R
		if math.Abs(got-exact) > 1e-3*exact {
			t.Errorf("free %g mm: %g mm, circle %g mm", free/unit.MM, got/unit.MM, exact/unit.MM)
		}
	}
}
