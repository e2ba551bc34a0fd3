package thermal_test

import (
	"errors"
	"math"
	"testing"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

// TestMetalTable: the sets of constants, W/(mm K), J/(mm3 K) and degrees C, as
// the project's reference page has them; melting temperatures MEMORY.
func TestMetalTable(t *testing.T) {
	for _, row := range []struct {
		set                   thermal.MetalSet
		lambda, rhoc, melting float64
		mark                  weld.Mark
	}{
		{thermal.SteelGrong, 0.025, 0.005, 1500, weld.Memory},
		{thermal.SteelEasterling, 0.041, 0.0045, 1500, weld.Memory},
		{thermal.SteelHot, 0.028, 0.003454, 1500, weld.Read},
		{thermal.SteelShip, 0.040, 0.0047, 1500, weld.Read},
		{thermal.AusteniticSteel, 0.0249, 0.0047, 1430, weld.Memory},
		{thermal.AluminiumEasterling, 0.229, 0.0027, 650, weld.Memory},
	} {
		m := metalOf(t, row.set)
		within(t, m.Name+" lambda", m.Conductivity, row.lambda*1e3, 1e-9, row.mark.String())
		within(t, m.Name+" rho c", m.HeatCapacity, row.rhoc*1e9, 1e-3, row.mark.String())
		within(t, m.Name+" melting", m.Melting, row.melting, 0, "MEMORY")
		if m.Source.Mark != row.mark || m.Validate() != nil {
			t.Errorf("%+v, %v", m, m.Validate())
		}
	}
	for set, want := range map[thermal.MetalSet]float64{ // mm2/s, reference page
		thermal.SteelEasterling: 9.11, thermal.SteelHot: 8.11, thermal.SteelGrong: 5.0,
		thermal.SteelShip: 8.5, thermal.AusteniticSteel: 5.3, thermal.AluminiumEasterling: 84.8,
	} {
		m := metalOf(t, set)
		within(t, m.Name+" diffusivity, mm2/s", m.Diffusivity()/unit.MM2, want, 0.05, "reference page")
	}
}

// TestCETLimits: each element just within and just beyond the limits of CET, EN
// 1011-2, READ in a steel maker's help text and in public code.
func TestCETLimits(t *testing.T) {
	base := thermal.Composition{C: .15, Mn: 1}
	for _, row := range []struct {
		element string
		at      func(*thermal.Composition) *float64
		most    float64 // percent by mass
	}{
		{"carbon", func(c *thermal.Composition) *float64 { return &c.C }, 0.32},
		{"silicon", func(c *thermal.Composition) *float64 { return &c.Si }, 0.8},
		{"manganese", func(c *thermal.Composition) *float64 { return &c.Mn }, 1.9},
		{"chromium", func(c *thermal.Composition) *float64 { return &c.Cr }, 1.5},
		{"nickel", func(c *thermal.Composition) *float64 { return &c.Ni }, 2.5},
		{"molybdenum", func(c *thermal.Composition) *float64 { return &c.Mo }, 0.75},
		{"copper", func(c *thermal.Composition) *float64 { return &c.Cu }, 0.7},
		{"vanadium", func(c *thermal.Composition) *float64 { return &c.V }, 0.18},
		{"niobium", func(c *thermal.Composition) *float64 { return &c.Nb }, 0.06},
		{"titanium", func(c *thermal.Composition) *float64 { return &c.Ti }, 0.12},
		{"boron", func(c *thermal.Composition) *float64 { return &c.B }, 0.005},
	} {
		for _, share := range []float64{0.999, 1, 1.001} {
			c := base
			*row.at(&c) = row.most * share
			e, err := c.Equivalent(thermal.CET)
			if err != nil {
				t.Fatal(err)
			}
			var outside *thermal.RangeError
			if errors.As(e.Outside, &outside) != (share > 1) {
				t.Errorf("%s at %g of its limit: %v", row.element, share, e.Outside)
			}
			if outside != nil && outside.What != "content of "+row.element {
				t.Errorf("%s: complains of %s", row.element, outside.What)
			}
		}
	}
	for _, least := range []thermal.Composition{{C: .049, Mn: 1}, {C: .15, Mn: .499}} {
		if e, err := least.Equivalent(thermal.CET); err != nil || e.Outside == nil {
			t.Errorf("%+v: %v, %v", least, e.Outside, err)
		}
	}
}

// TestThicknesses: two opposite fillets at once share the plates, MEMORY; preheat
// is measured 75 mm away, READ, or one thickness, MEMORY.
func TestThicknesses(t *testing.T) {
	paths := thermal.HeatPaths{Thicknesses: []float64{10 * unit.MM, 10 * unit.MM, 8 * unit.MM}, Opposite: true}
	if got, err := paths.CombinedThickness(); err != nil || math.Abs(got-14*unit.MM) > 1e-12 {
		t.Errorf("opposite fillets: %g m, %v; want half of 28 mm", got, err)
	}
	for thickness, want := range map[float64]float64{10: 75, 75: 75, 100: 100} { // mm
		if got, err := thermal.MeasureAt(thickness * unit.MM); err != nil || math.Abs(got-want*unit.MM) > 1e-12 {
			t.Errorf("%g mm: %g m, %v; want %g mm", thickness, got, err, want)
		}
	}
}

// TestWaitSpread: the spread of a wait is that of the waits by the four sets of
// constants for steel, and a request that names its metal has none.
func TestWaitSpread(t *testing.T) {
	r := thermal.WaitRequest{HeatInput: 0.8e6, Preheat: 100, Ceiling: 250, Thickness: 15 * unit.MM, Shape: thermal.TeeFillet}
	all, err := thermal.InterpassWait(r)
	if err != nil {
		t.Fatal(err)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, set := range []thermal.MetalSet{thermal.SteelGrong, thermal.SteelEasterling, thermal.SteelHot, thermal.SteelShip} {
		r.Metal = metalOf(t, set)
		w, err := thermal.InterpassWait(r)
		if err != nil || w.Spread.Stated() {
			t.Fatalf("%+v, %v", w, err)
		}
		low, high = min(low, w.Time), max(high, w.Time)
	}
	if all.Spread != weld.Between(low, high) {
		t.Errorf("spread %+v, want %g to %g s", all.Spread, low, high)
	}
}
