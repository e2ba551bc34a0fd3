package thermal_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

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
