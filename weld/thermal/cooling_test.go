package thermal_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

var shapes = []thermal.JointShape{thermal.RunOnPlate, thermal.BetweenBeads, thermal.CornerFillet, thermal.TeeFillet}

func drawCooling(t *rapid.T) thermal.CoolingRequest {
	return thermal.CoolingRequest{
		HeatInput: rapid.Float64Range(0.2, 4).Draw(t, "heat input") * unit.KJPerMM,
		Preheat:   rapid.Float64Range(0, 300).Draw(t, "preheat"),
		Thickness: rapid.Float64Range(2, 80).Draw(t, "thickness") * unit.MM,
		Shape:     rapid.SampledFrom(shapes).Draw(t, "shape"),
	}
}

// TestCoolingRegimes: the larger time applies, the change lies at the crossing
// thickness, both times are equal there, and the transition is that of a run on
// plate.
func TestCoolingRegimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawCooling(t)
		got, err := thermal.Cooling(r)
		if err != nil {
			t.Fatal(err)
		}
		if got.Time != max(got.Thin, got.Thick) || !got.Spread.Contains(got.Time) {
			t.Fatalf("%+v", got)
		}
		if thin := r.Thickness < got.Crossing; thin != (got.Plate == thermal.ThinPlate) && math.Abs(r.Thickness-got.Crossing) > 1e-9*got.Crossing {
			t.Fatalf("%v at %g m, crossing %g m", got.Plate, r.Thickness, got.Crossing)
		}
		if want := got.Transition * math.Sqrt(got.Factors.F2.Value/got.Factors.F3.Value); math.Abs(got.Crossing-want) > 1e-12*want {
			t.Fatalf("crossing %g, want %g", got.Crossing, want)
		}
		if r.Thickness = got.Crossing; r.Thickness < 0.5e-3 || r.Thickness > 0.3 {
			return
		}
		at, err := thermal.Cooling(r)
		if err != nil || math.Abs(at.Thin-at.Thick) > 1e-9*at.Thick {
			t.Fatalf("at the crossing %g s and %g s, %v", at.Thin, at.Thick, err)
		}
	})
}

// TestHeatInputForInverts: the heat input for a time gives that time.
func TestHeatInputForInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawCooling(t)
		c, err := thermal.Cooling(r)
		if err != nil {
			t.Fatal(err)
		}
		if c.Time < 0.5 || c.Time > 200 {
			t.Skip("beyond the times of sense")
		}
		Q, err := thermal.HeatInputFor(c.Time, r)
		if err != nil || math.Abs(Q-r.HeatInput) > 1e-9*Q {
			t.Fatalf("heat input %g, %v; want %g", Q, err, r.HeatInput)
		}
	})
}

// TestCoolingAgainstField: with the conductivity that the coefficients of EN
// 1011-2 stand for, lambda = 1000/(2 pi (6700 - 5 T0)) and lambda rho c =
// 10/(4 pi (4300 - 4.3 T0)) in W, J and mm, Rosenthal's fields cool in the same
// time: exactly in thick plate, and in thin plate as far as the arc is fast.
func TestCoolingAgainstField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawCooling(t)
		r.Shape = thermal.RunOnPlate
		want, err := thermal.Cooling(r)
		if err != nil {
			t.Fatal(err)
		}
		v := rapid.Float64Range(4, 15).Draw(t, "travel") * unit.MMPerS
		power := r.HeatInput * v
		if power < 100 || power > 60e3 {
			t.Skip("no such arc")
		}
		time := func(p thermal.Plate, lambda, rhoc float64) float64 { // s, from W/(mm K) and J/(mm3 K)
			m := thermal.Metal{Name: "as EN 1011-2", Conductivity: lambda * 1e3, HeatCapacity: rhoc * 1e9, Melting: 1500}
			f, err := thermal.NewField(thermal.FieldRequest{Power: power, Travel: v, Preheat: r.Preheat, Plate: p, Thickness: r.Thickness, Metal: m})
			if err != nil {
				t.Fatal(err)
			}
			got, err := f.CoolingTime(0, 0, 800, 500)
			if err != nil {
				t.Fatal(err)
			}
			return got
		}
		T0 := r.Preheat
		if got := time(thermal.ThickPlate, 1000/(2*math.Pi*(6700-5*T0)), 0.005); math.Abs(got-want.Thick) > 1e-9*want.Thick {
			t.Fatalf("thick field %g s, formula %g s", got, want.Thick)
		}
		lambda := 10 / (4 * math.Pi * (4300 - 4.3*T0)) / 0.005
		got := time(thermal.ThinPlate, lambda, 0.005)
		// K0(x) = sqrt(pi/2x) e^-x (1 - 1/(8x) + ...): the place cools to 500 at
		// v t5/(2a) = x, and falls short by about 1/(4x) there, more at 800.
		a := lambda / 0.005 * 1e-6
		hot := 1 / math.Pow(800-T0, 2)
		x := v * v / (2 * a) * want.Thin * hot / (1/math.Pow(500-T0, 2) - hot)
		if x < 5 {
			t.Skip("slow arc: the formula is not meant for it")
		}
		if math.Abs(got-want.Thin) > want.Thin*0.5/x {
			t.Fatalf("thin field %g s, formula %g s, x %g", got, want.Thin, x)
		}
	})
}

// TestCoolingOfFinitePlate: between thick and thin the field of a finite plate
// cools slower than either, and never by more than both together.
func TestCoolingOfFinitePlate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := thermal.FieldRequest{
			Power:     rapid.Float64Range(2000, 9000).Draw(t, "power"),
			Travel:    rapid.Float64Range(4, 15).Draw(t, "travel") * unit.MMPerS,
			Preheat:   rapid.Float64Range(0, 200).Draw(t, "preheat"),
			Thickness: rapid.Float64Range(3, 60).Draw(t, "thickness") * unit.MM,
		}
		time := func(p thermal.Plate) float64 {
			r.Plate = p
			f, err := thermal.NewField(r)
			if err != nil {
				t.Fatal(err)
			}
			got, err := f.CoolingTime(0, 0, 800, 500)
			if err != nil {
				t.Fatal(err)
			}
			return got
		}
		thick, thin, finite := time(thermal.ThickPlate), time(thermal.ThinPlate), time(thermal.FinitePlate)
		if finite < 0.999*min(thick, thin) || finite > thick+thin {
			t.Fatalf("finite %g s, thick %g s, thin %g s", finite, thick, thin)
		}
		if d := r.Thickness; d > 40*unit.MM && r.Power/r.Travel < 1e6 && math.Abs(finite-thick) > 0.02*thick {
			t.Fatalf("%g m: finite %g s, thick %g s", d, finite, thick)
		}
	})
}

func TestShapeNames(t *testing.T) {
	for _, s := range shapes {
		if got, err := thermal.ParseJointShape("  " + s.String() + " "); err != nil || got != s {
			t.Errorf("%q: %v, %v", s, got, err)
		}
		f, err := s.Factors()
		if err != nil || f.F2.Source.Family != weld.ISO || f.F3.Source.Mark == 0 {
			t.Errorf("%v: %+v, %v", s, f, err)
		}
	}
}

// TestWindowsAndCeilings: usual t8/5, MEMORY; interpass ceilings, workshop
// articles READ but for the 250 degC, common practice.
func TestWindowsAndCeilings(t *testing.T) {
	for _, row := range []struct {
		grade     string
		low, high float64 // s
	}{{"S235JR", 5, 25}, {"S355J2", 10, 25}, {"S460N", 10, 25}, {"S690QL", 5, 15}, {"A36", 5, 25}} {
		g, err := thermal.FindGrade(row.grade)
		if err != nil {
			t.Fatal(err)
		}
		if w := g.CoolingWindow(); w.Range != weld.Between(row.low, row.high) || w.Source.Mark != weld.Memory {
			t.Errorf("%s: %+v", row.grade, w)
		}
	}
	for class, want := range map[thermal.MetalClass]float64{thermal.CarbonManganese: 250, thermal.QuenchedTempered: 200,
		thermal.Austenitic: 150, thermal.Duplex: 150, thermal.Aluminium: 120} {
		got, err := thermal.InterpassCeiling(class)
		if err != nil || got.Range != weld.AtMost(want) || got.Source.Mark == 0 {
			t.Errorf("%v: %+v, %v; want %g degC", class, got, err, want)
		}
	}
}
