package section_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/weld"
	"seamwright/weld/section"
)

func drawFillet(t *rapid.T) section.Fillet {
	f, err := section.New(rapid.Float64Range(30, 150).Draw(t, "angle")*deg,
		rapid.Float64Range(1.5, 30).Draw(t, "leg1")*mm, rapid.Float64Range(1.5, 30).Draw(t, "leg2")*mm)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// corners returns root and toes in the plane of the section, m.
func corners(f section.Fillet) (root, toe1, toe2 [2]float64) {
	return [2]float64{}, [2]float64{f.Leg1, 0}, [2]float64{f.Leg2 * math.Cos(f.Angle), f.Leg2 * math.Sin(f.Angle)}
}

// TestFilletAgainstPolygon compares area, face and throat with a second method:
// the shoelace sum, the distance of the toes, and the nearest of many points on
// the face.
func TestFilletAgainstPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFillet(t)
		_, p, q := corners(f)
		if area := math.Abs(p[0]*q[1]-p[1]*q[0]) / 2; math.Abs(area-f.Area()) > 1e-12*area {
			t.Fatalf("area %g, polygon %g", f.Area(), area)
		}
		if face := math.Hypot(p[0]-q[0], p[1]-q[1]); math.Abs(face-f.FaceWidth()) > 1e-9*face {
			t.Fatalf("face %g, polygon %g", f.FaceWidth(), face)
		}
		nearest := math.Inf(1)
		const steps = 4000
		for i := 0; i <= steps; i++ {
			u := float64(i) / steps
			nearest = min(nearest, math.Hypot(p[0]+u*(q[0]-p[0]), p[1]+u*(q[1]-p[1])))
		}
		if d := nearest - f.TrueThroat(); d < -1e-12 || d > 1e-5*nearest+f.FaceWidth()/steps {
			t.Fatalf("throat %g, nearest point of the face %g", f.TrueThroat(), nearest)
		}
	})
}

// TestDesignThroatFits: the isosceles triangle of the design throat is inside
// the section, so it never exceeds the true throat, and equals it for equal legs.
func TestDesignThroatFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFillet(t)
		if f.DesignThroat() > f.TrueThroat()*(1+1e-12) {
			t.Fatalf("design throat %g above true throat %g", f.DesignThroat(), f.TrueThroat())
		}
		equal, err := section.FromThroat(f.Angle, f.DesignThroat())
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(equal.Leg1-min(f.Leg1, f.Leg2)) > 1e-9*equal.Leg1 ||
			math.Abs(equal.TrueThroat()-f.DesignThroat()) > 1e-9*f.DesignThroat() {
			t.Fatalf("leg back from throat %g, want %g", equal.Leg1, min(f.Leg1, f.Leg2))
		}
	})
}

// TestSkewedLegIsTheFactor: the AWS leg of a skewed joint is the square joint's
// leg for the same throat times the leg factor.
func TestSkewedLegIsTheFactor(t *testing.T) {
	for angle := 30.0; angle <= 150; angle++ {
		skew, err := section.FromThroat(angle*deg, 4*mm)
		if err != nil {
			t.Fatal(err)
		}
		k, err := section.LegFactor(angle * deg)
		if err != nil {
			t.Fatal(err)
		}
		if want := k * 4 * mm * math.Sqrt2; math.Abs(skew.SkewedLeg()-want) > 1e-12 {
			t.Errorf("%g deg: AWS leg %g, by the factor %g", angle, skew.SkewedLeg(), want)
		}
	}
}

// TestCapAreaByIntegration integrates the circle above the face.
func TestCapAreaByIntegration(t *testing.T) {
	const f = 8 * mm
	for _, ratio := range []float64{1e-4, 9.9e-4, 1.01e-3, 1e-2, 0.05, 0.1, 0.25, 0.5} {
		h := ratio * f
		got, err := section.CapArea(f, h)
		if err != nil {
			t.Fatal(err)
		}
		R := (f*f/4 + h*h) / (2 * h)
		// Substituting x = R sin(u) removes the steep ends; Simpson's rule. Heights
		// above the chord are taken as a difference of squares to keep digits.
		end := math.Asin(min(1, f/(2*R)))
		const n = 2000
		sum := 0.0
		for i := 0; i <= n; i++ {
			u := -end + 2*end*float64(i)/n
			height := h - R*2*math.Pow(math.Sin(u/2), 2)
			w := 4.0
			switch {
			case i == 0 || i == n:
				w = 1
			case i%2 == 0:
				w = 2
			}
			sum += w * height * R * math.Cos(u)
		}
		want := sum * 2 * end / n / 3
		if math.Abs(got-want) > 1e-8*want {
			t.Errorf("h/f %g: %g, by integration %g", ratio, got, want)
		}
	}
	if half, err := section.CapArea(f, f/2); err != nil || math.Abs(half-math.Pi*f*f/8) > 1e-15 {
		t.Errorf("half circle %g, %v", half, err)
	}
	if none, err := section.CapArea(f, 0); err != nil || none != 0 {
		t.Errorf("no cap %g, %v", none, err)
	}
}

func TestMinSizesISO(t *testing.T) {
	got, err := section.MinSizes(section.Plates{Family: weld.ISO, Thinner: 8 * mm, Thicker: 25 * mm, Process: weld.MAG})
	if err != nil || len(got) != 2 {
		t.Fatalf("%+v, %v", got, err)
	}
	// EN 1993-1-8: 3 mm (READ as coded). DIN 18800: sqrt(25) - 0.5 = 4.5 mm (from memory).
	for i, want := range []float64{3, 4.5} {
		if math.Abs(got[i].Size/mm-want) > 1e-9 || got[i].Kind != weld.Throat || got[i].Source.Family != weld.ISO {
			t.Errorf("limit %d: %+v, want throat %g mm", i, got[i], want)
		}
	}
}

func TestPracticalSinglePass(t *testing.T) {
	for p, want := range map[weld.PositionName]float64{weld.PA: 8, weld.PB: 7, weld.PF: 8, weld.PG: 5, weld.PD: 6, weld.PE: 6} {
		got, err := section.PracticalSinglePass(p)
		if err != nil || math.Abs(got.Value/mm-want) > 1e-9 || got.Source.Mark != weld.Memory {
			t.Errorf("%v: %+v, %v; want %g mm", p, got, err, want)
		}
	}
}

func TestConvexityByTransfer(t *testing.T) {
	for transfer, want := range map[weld.Transfer]float64{0: 1.2, weld.ShortCircuit: 1.2, weld.Globular: 1.2, weld.Spray: 1.1, weld.Pulsed: 1.1} {
		if got := section.Convexity(transfer); got.Value != want || !got.Usual.Contains(want) || got.Source.Mark != weld.Memory {
			t.Errorf("%v: %+v, want %g", transfer, got, want)
		}
	}
}

// TestRefusals: input out of range is an error in words, never extrapolated.
func TestRefusals(t *testing.T) {
	plates := section.Plates{Family: weld.AWS, Thinner: 8 * mm, Thicker: 10 * mm, Process: weld.MAG}
	swapped, noFamily, noProcess := plates, plates, plates
	swapped.Thinner = 20 * mm
	noFamily.Family = 0
	noProcess.Process = 0
	for _, row := range []struct {
		name string
		call func() error
		says string
	}{
		{"leg in millimetres", func() error { _, err := section.EqualLegs(90*deg, 6); return err }, "0.5 mm to 60 mm"},
		{"angle in degrees", func() error { _, err := section.EqualLegs(90, 6*mm); return err }, "30 deg to 150 deg"},
		{"leg not a number", func() error { _, err := section.EqualLegs(90*deg, math.NaN()); return err }, "finite"},
		{"negative throat", func() error { _, err := section.FromThroat(90*deg, -4*mm); return err }, "throat"},
		{"flat angle", func() error { _, err := section.LegFactor(180 * deg); return err }, "included angle"},
		{"work angle of a flat joint", func() error { _, err := section.BisectingWorkAngle(180 * deg); return err }, "included angle"},
		{"cap over a half circle", func() error { _, err := section.CapArea(8*mm, 5*mm); return err }, "half the face"},
		{"negative gap", func() error {
			_, err := section.Gap(section.Fit{Leg: 6 * mm, Gap: -1 * mm, Thickness: 8 * mm})
			return err
		}, "gap"},
		{"plates swapped", func() error { _, err := section.MinSizes(swapped); return err }, "swap"},
		{"family not stated", func() error { _, err := section.MinSizes(noFamily); return err }, "ISO or AWS"},
		{"process not stated", func() error { _, err := section.MinSizes(noProcess); return err }, "process"},
		{"lap edge of nothing", func() error { _, err := section.MaxLapEdge(0); return err }, "thickness"},
		{"length of no family", func() error { _, err := section.MinLength(0, 6*mm); return err }, "ISO or AWS"},
		{"long fillet of no length", func() error { _, err := section.LongFillet(6*mm, 0); return err }, "weld length"},
		{"ISO position in the AWS table", func() error { _, err := section.MaxSinglePass(weld.MAG, weld.PB); return err }, "1F, 2F"},
		{"process without a column", func() error { _, err := section.MaxSinglePass(weld.TungstenArc, weld.Flat1F); return err }, "column"},
		{"AWS position for practice", func() error { _, err := section.PracticalSinglePass(weld.Horizontal2F); return err }, "PA, PB"},
		{"skew of nothing", func() error { _, err := section.Skew(0); return err }, "included angle"},
	} {
		t.Run(row.name, func(t *testing.T) {
			err := row.call()
			if err == nil || !strings.Contains(err.Error(), row.says) {
				t.Errorf("error %v, want one that says %q", err, row.says)
			}
		})
	}
}
