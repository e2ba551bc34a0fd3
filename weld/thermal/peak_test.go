package thermal_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld/thermal"
)

// TestPeakIsHottest: no place along the same line beside the run is hotter.
func TestPeakIsHottest(t *testing.T) {
	for _, plate := range []thermal.Plate{thermal.ThickPlate, thermal.ThinPlate, thermal.FinitePlate} {
		t.Run(plate.String(), rapid.MakeCheck(func(t *rapid.T) {
			f, r := drawRun(t, plate)
			y, z := rapid.Float64Range(0.5, 30).Draw(t, "y")*unit.MM, rapid.Float64Range(0, 1).Draw(t, "z")*r.Thickness
			p, err := f.Peak(y, z)
			if err != nil {
				t.Fatal(err)
			}
			if want := f.Temperature(r3.Vec{X: -p.Behind, Y: y, Z: z}); p.Temperature != want || math.Abs(p.Time*r.Travel-p.Behind) > 1e-12 {
				t.Fatalf("%+v, field says %g", p, want)
			}
			for behind := -0.01; behind < 0.4; behind += 0.0005 {
				if T := f.Temperature(r3.Vec{X: -behind, Y: y, Z: z}); T > p.Temperature+1e-9*(p.Temperature-r.Preheat)+1e-9 {
					t.Fatalf("%g degC %g m behind, peak %+v", T, behind, p)
				}
			}
		}))
	}
}

// TestFastPeaks: far from a fast arc the field's peak is that of the short
// formulas, thick and thin, and the radius inverts the thick one.
func TestFastPeaks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, r := drawRun(t, thermal.ThickPlate)
		m := f.Metal()
		reach := 2 * m.Diffusivity() / r.Travel // m; the arc is fast beyond many of it
		y := rapid.Float64Range(20, 60).Draw(t, "y") * reach
		req := thermal.PeakRequest{HeatInput: r.Power / r.Travel, Preheat: r.Preheat, Thickness: r.Thickness}
		got, err := f.Peak(y, 0)
		if err != nil {
			t.Fatal(err)
		}
		want, err := req.PeakInThickPlate(y)
		if err != nil {
			t.Fatal(err)
		}
		if off := math.Abs(got.Temperature - want); off > 0.06*(want-r.Preheat) {
			t.Fatalf("thick: field %g degC, formula %g degC", got.Temperature, want)
		}
		if want-r.Preheat >= 20 && want-r.Preheat <= 3000 {
			if back, err := req.RadiusInThickPlate(want); err != nil || math.Abs(back-y) > 1e-9*y {
				t.Fatalf("radius %g, %v; want %g", back, err, y)
			}
		}

		r.Plate = thermal.ThinPlate
		thin, err := thermal.NewField(r)
		if err != nil {
			t.Fatal(err)
		}
		// Adams measures from the fusion line, where the short formula melts.
		fusion := r.Power / r.Travel / (math.Sqrt(2*math.Pi*math.E) * m.HeatCapacity * r.Thickness * (m.Melting - r.Preheat))
		y = max(fusion, 20*reach) + rapid.Float64Range(0.1e-3, 30e-3).Draw(t, "from fusion")
		got, err = thin.Peak(y, 0)
		if err != nil {
			t.Fatal(err)
		}
		want, err = req.PeakInThinPlate(y - fusion)
		if err != nil {
			t.Fatal(err)
		}
		if off := math.Abs(got.Temperature - want); off > 0.06*(want-r.Preheat) {
			t.Fatalf("thin: field %g degC, formula %g degC", got.Temperature, want)
		}
	})
}

func TestPeakAtFusionLine(t *testing.T) {
	got, err := thermal.PeakRequest{HeatInput: 0.8e6, Preheat: 20, Thickness: 6 * unit.MM}.PeakInThinPlate(0)
	if err != nil || math.Abs(got-1500) > 1e-9 {
		t.Errorf("%g degC, %v; want the melting temperature", got, err)
	}
}

// TestCoolingTimeIsWhen: the field has the two temperatures at the two times.
func TestCoolingTimeIsWhen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plate := rapid.SampledFrom([]thermal.Plate{thermal.ThickPlate, thermal.ThinPlate, thermal.FinitePlate}).Draw(t, "plate")
		f, r := drawRun(t, plate)
		y := rapid.Float64Range(0, 8).Draw(t, "y") * unit.MM
		from, to := rapid.Float64Range(500, 900).Draw(t, "from"), rapid.Float64Range(250, 480).Draw(t, "to")
		span, err := f.CoolingTime(y, 0, from, to)
		if err != nil {
			t.Skip("never so hot")
		}
		// A search of its own, from far behind forward in steps of a hundredth.
		last := func(T float64) float64 {
			behind, before, cooler := 1000.0, 0.0, r.Preheat
			for {
				here := f.Temperature(r3.Vec{X: -behind, Y: y})
				if here >= T {
					return (behind + (before-behind)*(here-T)/(here-cooler)) / r.Travel
				}
				before, cooler = behind, here
				behind *= 0.99
			}
		}
		if want := last(to) - last(from); math.Abs(span-want) > 1e-3*(last(to)+last(from)) {
			t.Fatalf("%g s, searched %g s", span, want)
		}
	})
}

// TestGrid: a picture has the field's temperatures, cut at melting.
func TestGrid(t *testing.T) {
	f, err := thermal.NewField(thermal.FieldRequest{Power: 5200, Travel: 6.8 * unit.MMPerS, Preheat: 20, Plate: thermal.FinitePlate, Thickness: 10 * unit.MM})
	if err != nil {
		t.Fatal(err)
	}
	r := thermal.GridRequest{Corner: r3.Vec{X: -40 * unit.MM, Y: -10 * unit.MM}, ColumnStep: r3.Vec{X: 1 * unit.MM}, RowStep: r3.Vec{Y: 1 * unit.MM}, Columns: 51, Rows: 21}
	g, err := f.Grid(r)
	if err != nil || len(g.Temperatures) != 51*21 {
		t.Fatalf("%d places, %v", len(g.Temperatures), err)
	}
	molten := 0
	coldest, hottest := math.Inf(1), math.Inf(-1)
	for j := range g.Rows {
		for i := range g.Columns {
			T := f.Temperature(r3.Vec{X: float64(i-40) * unit.MM, Y: float64(j-10) * unit.MM})
			if T >= 1500 {
				T = 1500
				molten++
			}
			if math.Abs(g.At(i, j)-T) > 1e-6*T {
				t.Fatalf("column %d row %d: %g degC, want %g", i, j, g.At(i, j), T)
			}
			if mirror := g.At(i, 20-j); math.Abs(g.At(i, j)-mirror) > 1e-6*T {
				t.Fatalf("column %d row %d is not like the other side", i, j)
			}
			coldest, hottest = min(coldest, g.At(i, j)), max(hottest, g.At(i, j))
		}
	}
	if molten == 0 || g.Molten != molten || g.Hottest != hottest || g.Coldest != coldest {
		t.Errorf("molten %d, %g to %g; want %d, %g to %g", g.Molten, g.Coldest, g.Hottest, molten, coldest, hottest)
	}
}
