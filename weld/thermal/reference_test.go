package thermal_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

// TestReferenceValues are the check values of the project's reference page that
// belong to arc energy; source and mark stand in each row.
func TestReferenceValues(t *testing.T) {
	num := func(x float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	e := num(thermal.FromVoltsAmps(26, 250, 6.8*unit.MMPerS))
	e18 := num(thermal.FromVoltsAmps(18, 150, 5*unit.MMPerS))
	e23 := num(thermal.FromVoltsAmps(23.5, 205, 6.8*unit.MMPerS))
	aws := num(thermal.FromVoltsAmpsAWS(26, 250, 6.8*unit.MMPerS))
	for _, row := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"V054 arc energy, kJ/mm", "EN 1011-1 form in a steel maker's page, READ", e / unit.KJPerMM, 0.9559, 5e-4},
		{"V055 heat input k 0.8, kJ/mm", "EN 1011-1 form in a steel maker's page, READ", num(thermal.HeatInput.FromArcEnergy(e, weld.MAG)) / unit.KJPerMM, 0.7647, 5e-4},
		{"V056 AWS, kJ/in", "ASME IX and AWS D1.1 form, MEMORY", aws / unit.KJPerIn, 24.28, 0.01},
		{"V057 from power, kJ/mm", "ISO/TR 18491 form, MEMORY", num(thermal.FromPower(6200, 6.8*unit.MMPerS)) / unit.KJPerMM, 0.9118, 5e-4},
		{"from energy, kJ/mm", "ISO/TR 18491 form, MEMORY", num(thermal.FromEnergy(6200*10, 68*unit.MM)) / unit.KJPerMM, 0.9118, 5e-4},
		{"18 V 150 A 5 mm/s, arc energy", "same form, DERIVED", e18 / unit.KJPerMM, 0.540, 5e-4},
		{"18 V 150 A 5 mm/s, heat input", "same form, DERIVED", num(thermal.HeatInput.FromArcEnergy(e18, weld.MAG)) / unit.KJPerMM, 0.432, 5e-4},
		{"23.5 V 205 A 6.8 mm/s, arc energy", "same form, DERIVED", e23 / unit.KJPerMM, 0.708, 5e-4},
		{"23.5 V 205 A 6.8 mm/s, heat input", "same form, DERIVED", num(thermal.HeatInput.FromArcEnergy(e23, weld.MAG)) / unit.KJPerMM, 0.567, 5e-4},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %.6g, want %g +- %g (%s)", row.got, row.want, row.tol, row.source)
			}
		})
	}
}

// metalOf returns a set of constants that must be there.
func metalOf(t *testing.T, set thermal.MetalSet) thermal.Metal {
	t.Helper()
	m, err := thermal.MetalOf(set)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// s355 is the typical S355J2 of the check values, percent by mass.
var s355 = thermal.Composition{C: .16, Si: .35, Mn: 1.45, Cr: .05, Ni: .05, Mo: .01, Cu: .10, V: .005}

// TestReferenceCooling are the check values V058 to V064 and the worked rows
// beside them. Formulas: EN 1011-2:2001 Annex D, READ in three public code
// files; the values were computed from them apart from this code. No published
// example with a printed result was found.
func TestReferenceCooling(t *testing.T) {
	const source = "EN 1011-2 Annex D as three public code files have it, READ"
	for _, row := range []struct {
		name        string
		Q, T0, d    float64 // kJ/mm, degrees C, mm
		shape       thermal.JointShape
		source      string
		plate       thermal.Plate
		transition  float64 // mm
		thin, thick float64 // s
		time, tol   float64 // s
	}{
		{"V058, V059 Q1.0 d10", 1.0, 20, 10, thermal.RunOnPlate, source, thermal.ThinPlate, 14.66, 11.36, 5.29, 11.36, 0.02},
		{"V060 Q1.0 d20", 1.0, 20, 20, thermal.RunOnPlate, source, thermal.ThickPlate, 14.66, 2.84, 5.29, 5.29, 0.02},
		{"Q0.765 d10", 0.765, 20, 10, thermal.RunOnPlate, source, thermal.ThinPlate, 12.82, 6.65, 4.05, 6.65, 0.02},
		{"V061 Q1.5 T0 100 d20", 1.5, 100, 20, thermal.RunOnPlate, source, thermal.ThickPlate, 19.18, 9.16, 9.96, 9.96, 0.02},
		{"Q2.0 T0 150 d25", 2.0, 150, 25, thermal.RunOnPlate, source, thermal.ThickPlate, 23.24, 13.56, 15.69, 15.69, 0.02},
		{"V062 filling run, 12.5 mm", 1.4464, 20, 12.5, thermal.BetweenBeads, source + "; inputs printed", thermal.ThinPlate, 17.63, 13.69, 6.88, 13.69, 0.02},
		{"V063 tee fillet", 0.765, 20, 10, thermal.TeeFillet, "same formula, shape factor MEMORY", thermal.ThinPlate, 12.82, 4.46, 2.71, 4.46, 0.02},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := thermal.Cooling(thermal.CoolingRequest{HeatInput: row.Q * unit.KJPerMM, Preheat: row.T0,
				Thickness: row.d * unit.MM, Shape: row.shape})
			if err != nil {
				t.Fatal(err)
			}
			if got.Plate != row.plate {
				t.Errorf("%v, want %v", got.Plate, row.plate)
			}
			within(t, "t8/5, s", got.Time, row.time, row.tol, row.source)
			within(t, "two-dimensional, s", got.Thin, row.thin, row.tol, row.source)
			within(t, "three-dimensional, s", got.Thick, row.thick, row.tol, row.source)
			within(t, "transition thickness, mm", got.Transition/unit.MM, row.transition, 0.01, row.source)
		})
	}
	for _, row := range []struct {
		name      string
		d         float64 // mm
		want, tol float64 // kJ/mm
	}{
		{"V064 Q for 10 s, d30", 30, 1.891, 0.005},
		{"Q for 10 s, d10", 10, 0.938, 0.001},
	} {
		t.Run(row.name, func(t *testing.T) {
			Q, err := thermal.HeatInputFor(10, thermal.CoolingRequest{Preheat: 20, Thickness: row.d * unit.MM, Shape: thermal.RunOnPlate})
			if err != nil {
				t.Fatal(err)
			}
			within(t, "heat input, kJ/mm", Q/unit.KJPerMM, row.want, row.tol, source)
		})
	}
	t.Run("tee fillet, interval of F2", func(t *testing.T) {
		got, err := thermal.Cooling(thermal.CoolingRequest{HeatInput: 0.765 * unit.KJPerMM, Preheat: 20, Thickness: 10 * unit.MM, Shape: thermal.TeeFillet})
		if err != nil {
			t.Fatal(err)
		}
		within(t, "shortest, s", got.Spread.Low, 0.9*2.99, 0.02, "F2 0.45, MEMORY; scatter 10 %, READ")
		within(t, "longest, s", got.Spread.High, 1.1*4.46, 0.02, "F2 0.67, MEMORY; scatter 10 %, READ")
	})
}

// within fails unless got is within tol of want, all in the unit named.
func within(t *testing.T, what string, got, want, tol float64, source string) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.7g, want %g +- %g (%s)", what, got, want, tol, source)
	}
}

// TestReferenceEquivalents are V065 to V068 and the other steels of the
// reference page. Formulas READ in a steel maker's help text and in public
// code; compositions chosen there as typical, S355J2 at its most EN 10025-2.
func TestReferenceEquivalents(t *testing.T) {
	for _, row := range []struct {
		name               string
		c                  thermal.Composition
		cev, cet, pcm, cen float64
		tol                float64
	}{
		{"V065 to V068 S355J2 typical", s355, .4247, .3147, .2537, .4150, 5e-4},
		{"S355J2 at its most", thermal.Composition{C: .20, Si: .55, Mn: 1.60, Cu: .55}, .503, .388, .326, .520, 6e-4},
		{"S235 typical", thermal.Composition{C: .12, Si: .20, Mn: .70, Cr: .05, Ni: .05, Mo: .01, Cu: .10}, .259, .200, .171, .230, 6e-4},
		{"A572-50 typical", thermal.Composition{C: .18, Si: .25, Mn: 1.20, Cr: .10, Ni: .10, Mo: .02, Cu: .20, V: .04}, .432, .320, .270, .430, 6e-4},
		{"S690QL typical", thermal.Composition{C: .16, Si: .30, Mn: 1.20, Cr: .50, Ni: .10, Mo: .25, Cu: .05, V: .03, B: .002}, .526, .335, .289, .514, 6e-4},
	} {
		t.Run(row.name, func(t *testing.T) {
			for kind, want := range map[thermal.EquivalentKind]float64{thermal.CEIIW: row.cev, thermal.CET: row.cet, thermal.Pcm: row.pcm, thermal.CEN: row.cen} {
				got, err := row.c.Equivalent(kind)
				if err != nil {
					t.Fatal(err)
				}
				within(t, kind.String(), got.Value, want, row.tol, "steel maker's help text and public code, READ")
			}
		})
	}
}

// TestReferencePreheat are V069 to V075 and the rows beside them.
func TestReferencePreheat(t *testing.T) {
	for _, row := range []struct {
		name          string
		method        thermal.PreheatMethod
		cet, d, hd, Q float64 // %, mm, ml/100 g, kJ/mm
		want, tol     float64 // degrees C
		source        string
	}{
		{"V069 method B", thermal.MethodB, .37, 50, 5, 1.5, 162.83, 0.01, "printed in a public code file, READ"},
		{"V070 SEW 088", thermal.SEW088, .37, 50, 5, 1.5, 161.94, 0.01, "printed in a public code file, READ"},
		{"V071 method B", thermal.MethodB, .40, 30, 3, 2.0, 131.44, 0.01, "EN 1011-2 C.8, READ"},
		{"CET .32 d30", thermal.MethodB, .32, 30, 5, 1.5, 92.55, 0.01, "EN 1011-2 C.8, READ"},
		{"CET .31 d60", thermal.MethodB, .31, 60, 10, 1.2, 158.13, 0.01, "EN 1011-2 C.8, READ"},
		{"S355, 20 mm", thermal.MethodB, .3147, 20, 5, 1.0, 67.6, 0.05, "EN 1011-2 C.8, READ"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := thermal.PreheatByCET(thermal.CETRequest{Family: weld.ISO, Method: row.method, Steel: given(t, thermal.CET, row.cet),
				Thickness: row.d * unit.MM, Hydrogen: row.hd, HeatInput: row.Q * unit.KJPerMM})
			if err != nil {
				t.Fatal(err)
			}
			within(t, "preheat, degC", got.Temperature, row.want, row.tol, row.source)
			if !got.Needed() || got.Source.Mark != weld.Read || got.Source.Family != weld.ISO {
				t.Errorf("%+v", got)
			}
		})
	}
	t.Run("V072 d8 is refused", func(t *testing.T) {
		got, err := thermal.PreheatByCET(thermal.CETRequest{Family: weld.ISO, Steel: given(t, thermal.CET, .30),
			Thickness: 8 * unit.MM, Hydrogen: 5, HeatInput: 0.8 * unit.KJPerMM})
		if err == nil || got != (thermal.Preheat{}) {
			t.Errorf("%+v; EN 1011-2 method B begins at 10 mm, READ", got)
		}
	})
	t.Run("V073 combined thickness of a tee", func(t *testing.T) {
		got, err := thermal.HeatPaths{Thicknesses: []float64{10 * unit.MM, 10 * unit.MM, 8 * unit.MM}}.CombinedThickness()
		if err != nil {
			t.Fatal(err)
		}
		within(t, "combined thickness, mm", got/unit.MM, 28, 1e-9, "EN 1011-2 sum rule, READ")
	})
	t.Run("V074 AWS D1.1, A572-50, 25 mm", func(t *testing.T) {
		got, err := thermal.PreheatByD11(thermal.D11Request{Family: weld.AWS, Group: group(t, "A572-50"), Thickness: 25 * unit.MM, Process: weld.MAG})
		if err != nil || got.Temperature != 10 {
			t.Errorf("%+v, %v; want 10 degC, workshop articles, READ", got, err)
		}
	})
	t.Run("V075 susceptibility index", func(t *testing.T) {
		got, err := thermal.SusceptibilityIndex(given(t, thermal.Pcm, .2537), 5)
		if err != nil || got.Group != "C" {
			t.Errorf("%+v, %v; want group C", got, err)
		}
		within(t, "index", got.Index, 3.74, 0.01, "AWS D1.1 annex, MEMORY")
	})
}

func given(t *testing.T, kind thermal.EquivalentKind, value float64) thermal.Equivalent {
	t.Helper()
	e, err := thermal.GivenEquivalent(kind, value)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func group(t *testing.T, grade string) thermal.PreheatGroup {
	t.Helper()
	g, err := thermal.FindGrade(grade)
	if err != nil {
		t.Fatal(err)
	}
	out, err := g.D11Group()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestReferenceD11Table: every cell of the prequalified table, degrees C, as
// transcriptions of AWS D1.1:2015 Table 3.3 and workshop articles have it, READ.
func TestReferenceD11Table(t *testing.T) {
	for _, row := range []struct {
		thickness  float64 // mm
		a, b, c, d float64 // A36 without low hydrogen, A36 with, A572-50, A572-60
	}{
		{3, 0, 0, 0, 10}, {20, 0, 0, 0, 10}, {20.5, 65, 10, 10, 65}, {38, 65, 10, 10, 65},
		{39, 110, 65, 65, 110}, {65, 110, 65, 65, 110}, {66, 150, 110, 110, 150}, {200, 150, 110, 110, 150},
	} {
		for _, cell := range []struct {
			grade   string
			process weld.Process
			low     bool
			want    float64
		}{
			{"A36", weld.CoveredElectrode, false, row.a}, {"A36", weld.CoveredElectrode, true, row.b}, {"A36", weld.MAG, false, row.b},
			{"A992", weld.FluxCored, false, row.c}, {"A572 Grade 60", weld.MAG, false, row.d},
		} {
			got, err := thermal.PreheatByD11(thermal.D11Request{Family: weld.AWS, Group: group(t, cell.grade),
				Thickness: row.thickness * unit.MM, Process: cell.process, LowHydrogen: cell.low})
			if err != nil || got.Temperature != cell.want {
				t.Errorf("%s, %v, %g mm: %g degC, %v; want %g", cell.grade, cell.process, row.thickness, got.Temperature, err, cell.want)
			}
		}
	}
}

// TestReferenceField are V088 to V091 and the rows beside them. Rosenthal's
// formulas READ in public code and a virtual laboratory, constants MEMORY.
func TestReferenceField(t *testing.T) {
	steel, alu := metalOf(t, thermal.SteelEasterling), metalOf(t, thermal.AluminiumEasterling)
	for _, row := range []struct {
		name      string
		q, v      float64 // W, mm/s
		plate     thermal.Plate
		d, xi, y  float64 // mm
		metal     thermal.Metal
		want, tol float64 // degrees C
	}{
		{"thick xi-5", 5200, 6.8, thermal.ThickPlate, 0, -5, 0, steel, 4057, 0.6},
		{"thick xi-10", 5200, 6.8, thermal.ThickPlate, 0, -10, 0, steel, 2038.6, 0.5},
		{"V088 thick xi-20", 5200, 6.8, thermal.ThickPlate, 0, -20, 0, steel, 1029.3, 0.5},
		{"thick xi-30", 5200, 6.8, thermal.ThickPlate, 0, -30, 0, steel, 692.9, 0.5},
		{"V089 thick y5", 5200, 6.8, thermal.ThickPlate, 0, 0, 5, steel, 644.8, 0.5},
		{"thick xi-10 y5", 5200, 6.8, thermal.ThickPlate, 0, -10, 5, steel, 1182.2, 0.5},
		{"thin d6 xi-20", 5200, 6.8, thermal.ThinPlate, 6, -20, 0, steel, 1539.3, 0.5},
		{"thin d6 xi-50", 5200, 6.8, thermal.ThinPlate, 6, -50, 0, steel, 989.8, 0.5},
		{"V090 thin d6 xi-20 y10", 5200, 6.8, thermal.ThinPlate, 6, -20, 10, steel, 616.4, 0.5},
		{"thin d10 xi-20", 5200, 6.8, thermal.ThinPlate, 10, -20, 0, steel, 931.6, 0.5},
		{"thin d10 y10", 5200, 6.8, thermal.ThinPlate, 10, 0, 10, steel, 50.4, 0.5},
		{"aluminium thick xi-10", 3520, 10, thermal.ThickPlate, 0, -10, 0, alu, 264.6, 0.5},
		{"aluminium thick y5", 3520, 10, thermal.ThickPlate, 0, 0, 5, alu, 384.4, 0.5},
		{"aluminium thin d4 xi-20", 3520, 10, thermal.ThinPlate, 4, -20, 0, alu, 671.8, 0.5},
		{"V091 aluminium thin d4 y10", 3520, 10, thermal.ThinPlate, 4, 0, 10, alu, 504.0, 0.5},
	} {
		t.Run(row.name, func(t *testing.T) {
			f, err := thermal.NewField(thermal.FieldRequest{Power: row.q, Travel: row.v * unit.MMPerS, Preheat: 20,
				Plate: row.plate, Thickness: row.d * unit.MM, Metal: row.metal})
			if err != nil {
				t.Fatal(err)
			}
			got := f.Temperature(r3.Vec{X: row.xi * unit.MM, Y: row.y * unit.MM})
			within(t, "temperature, degC", got, row.want, row.tol, "D. Rosenthal, formula READ, constants MEMORY")
		})
	}
}

// TestReferencePeak are V093, the rows of the same virtual laboratory (inputs
// READ there; it prints no answers and Tm 1783 K is assumed), and the radius of
// melting of the reference page.
func TestReferencePeak(t *testing.T) {
	const zero = 273.15
	laboratory := metalOf(t, thermal.SteelGrong)
	laboratory.HeatCapacity = 0.008 * 0.5107896 * 1e9 // g/mm3 times J/(g K), in J/(m3 K)
	laboratory.Melting = 1783 - zero
	for _, row := range []struct {
		name string
		v, y float64 // mm/s, mm
		want float64 // K
	}{
		{"V093 v2 y5", 2, 5, 1061}, {"v2 y10", 2, 10, 811}, {"v2 y15", 2, 15, 685},
		{"v4 y5", 4, 5, 811}, {"v4 y10", 4, 10, 608}, {"v4 y15", 4, 15, 520},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := thermal.PeakRequest{HeatInput: 1589.92 / row.v * 1000, Preheat: 298 - zero, Thickness: 6 * unit.MM, Metal: laboratory}.PeakInThinPlate(row.y * unit.MM)
			if err != nil {
				t.Fatal(err)
			}
			within(t, "peak, K", got+zero, row.want, 1, "Adams, virtual laboratory, inputs READ, Tm assumed")
		})
	}
	r, err := thermal.PeakRequest{HeatInput: 764.7e3, Preheat: 20, Metal: metalOf(t, thermal.SteelEasterling)}.RadiusInThickPlate(1500)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "radius of 1500 degC, mm", r/unit.MM, 5.19, 0.01, "fast source, MEMORY")
}

// TestEfficiencyTable: k of EN 1011-1 as a steel maker prints it and public code
// repeats it, READ.
func TestEfficiencyTable(t *testing.T) {
	for p, want := range map[weld.Process]float64{
		weld.MIG: 0.8, weld.MAG: 0.8, weld.FluxCored: 0.8, weld.MetalCored: 0.8,
		weld.CoveredElectrode: 0.8, weld.SubmergedArc: 1.0, weld.TungstenArc: 0.6, weld.PlasmaArc: 0.6,
	} {
		if got, err := thermal.Efficiency(p); err != nil || got.Value != want || got.Source.Mark != weld.Read {
			t.Errorf("%v: %+v, %v; want %g", p, got, err, want)
		}
	}
	if got, err := thermal.Efficiency(0); err == nil {
		t.Errorf("no process: %+v, want an error", got)
	}
}

// TestFormsAgree: the inch form is the metric one, and constant power is volts
// times amps, whichever way it is summed.
func TestFormsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		volts := rapid.Float64Range(14, 35).Draw(t, "volts")
		amps := rapid.Float64Range(60, 450).Draw(t, "amps")
		travel := rapid.Float64Range(1, 25).Draw(t, "travel") * unit.MMPerS
		want := volts * amps / travel // J/s over m/s
		seconds := rapid.Float64Range(1, 200).Draw(t, "seconds")
		for name, got := range map[string]float64{
			"metric": must(thermal.FromVoltsAmps(volts, amps, travel)),
			"inch":   must(thermal.FromVoltsAmpsAWS(volts, amps, travel)),
			"power":  must(thermal.FromPower(volts*amps, travel)),
			"energy": must(thermal.FromEnergy(volts*amps*seconds, travel*seconds)),
		} {
			if math.Abs(got-want) > 1e-12*want {
				t.Fatalf("%s form: %g J/m, want %g", name, got, want)
			}
		}
	})
}

// must returns x of a call that the test cannot do without.
func must(x float64, err error) float64 {
	if err != nil {
		panic(err)
	}
	return x
}

func TestQuantity(t *testing.T) {
	for q, family := range map[thermal.Quantity]weld.CodeFamily{
		thermal.ArcEnergy: weld.ISO, thermal.HeatInput: weld.ISO, thermal.AWSHeatInput: weld.AWS, 0: 0,
	} {
		if q.Family() != family {
			t.Errorf("%v is of %v, want %v", q, q.Family(), family)
		}
	}
	for s, want := range map[string]thermal.Quantity{
		"arc energy": thermal.ArcEnergy, "heat input": thermal.HeatInput, "AWS heat input": thermal.AWSHeatInput,
		thermal.HeatInput.String(): thermal.HeatInput,
	} {
		if got, err := thermal.ParseQuantity(s); err != nil || got != want {
			t.Errorf("ParseQuantity(%q) = %v, %v; want %v", s, got, err, want)
		}
	}
	if _, err := thermal.ParseQuantity("heat"); err == nil {
		t.Error(`"heat" passes for a quantity`)
	}
	for _, q := range []thermal.Quantity{thermal.ArcEnergy, thermal.AWSHeatInput} {
		if got, err := q.FromArcEnergy(1e6, 0); err != nil || got != 1e6 {
			t.Errorf("%v: %g, %v; want the arc energy itself", q, got, err)
		}
	}
	if _, err := thermal.Quantity(0).FromArcEnergy(1e6, weld.MAG); err == nil {
		t.Error("a quantity that is not stated gave a figure")
	}
	if _, err := thermal.HeatInput.FromArcEnergy(1e6, 0); err == nil {
		t.Error("heat input without a process gave a figure")
	}
}

func TestRefusals(t *testing.T) {
	for _, row := range []struct {
		name string
		call func() (float64, error)
		says string
	}{
		{"standing still", func() (float64, error) { return thermal.FromVoltsAmps(26, 250, 0) }, "travel speed"},
		{"travel in mm/s", func() (float64, error) { return thermal.FromVoltsAmps(26, 250, 6.8) }, "100 mm/s"},
		{"no volts", func() (float64, error) { return thermal.FromVoltsAmps(0, 250, 6.8e-3) }, "voltage"},
		{"amps not a number", func() (float64, error) { return thermal.FromVoltsAmpsAWS(26, math.NaN(), 6.8e-3) }, "current"},
		{"power in kW", func() (float64, error) { return thermal.FromPower(6.2, 6.8e-3) }, "power"},
		{"no length", func() (float64, error) { return thermal.FromEnergy(62000, 0) }, "weld length"},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, err := row.call()
			if err == nil || got != 0 || !strings.Contains(err.Error(), row.says) {
				t.Errorf("got %g, %v; want an error that says %q", got, err, row.says)
			}
		})
	}
}
