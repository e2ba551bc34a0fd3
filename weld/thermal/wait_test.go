package thermal_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld/thermal"
)

// TestWaitAgainstImages: at the time returned a line of heat and its images in
// both faces, summed one by one, have cooled to the ceiling.
func TestWaitAgainstImages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := thermal.WaitRequest{
			HeatInput: rapid.Float64Range(0.2, 4).Draw(t, "heat input") * unit.KJPerMM,
			Preheat:   rapid.Float64Range(0, 150).Draw(t, "preheat"),
			Thickness: rapid.Float64Range(3, 60).Draw(t, "thickness") * unit.MM,
			Shape:     rapid.SampledFrom(shapes).Draw(t, "shape"),
		}
		r.Ceiling = r.Preheat + rapid.Float64Range(10, 200).Draw(t, "rise")
		w, err := thermal.InterpassWait(r)
		if err != nil {
			t.Fatal(err)
		}
		m, err := thermal.MetalOf(thermal.SteelGrong)
		if err != nil {
			t.Fatal(err)
		}
		at := m.Diffusivity() * w.Time
		sum := 1.0
		for n := 1.0; ; n++ {
			image := 2 * math.Exp(-n*n*r.Thickness*r.Thickness/at)
			if sum += image; image < 1e-17 {
				break
			}
		}
		T := r.Preheat + w.Share*r.HeatInput/(2*math.Pi*m.Conductivity*w.Time)*sum
		if math.Abs(T-r.Ceiling) > 1e-8*(r.Ceiling-r.Preheat) {
			t.Fatalf("%g degC after %g s, want %g", T, w.Time, r.Ceiling)
		}
		if w.Time < w.Thick*(1-1e-12) || w.Time < w.Thin*(1-1e-12) || w.Time > w.Thick+w.Thin {
			t.Fatalf("%+v", w)
		}
		if !w.Spread.Contains(w.Time) || w.Depth <= 0 {
			t.Fatalf("%+v", w)
		}
	})
}

// TestWaitAgainstField: long after a fast arc the line of heat is Rosenthal's
// field of the same plate on the line of the run.
func TestWaitAgainstField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, r := drawRun(t, thermal.FinitePlate)
		ceiling := r.Preheat + rapid.Float64Range(60, 200).Draw(t, "rise")
		w, err := thermal.InterpassWait(thermal.WaitRequest{HeatInput: r.Power / r.Travel, Preheat: r.Preheat, Ceiling: ceiling,
			Thickness: r.Thickness, Shape: thermal.RunOnPlate})
		if err != nil {
			t.Fatal(err)
		}
		hot, err := f.CoolingTime(0, 0, 1000, ceiling)
		if err != nil {
			t.Fatal(err)
		}
		early, err := f.CoolingTime(0, 0, 1400, 1000)
		if err != nil {
			t.Fatal(err)
		}
		// CoolingTime counts from 1000 degC; by 1400 to 1000 it is early still.
		if slack := 0.05*w.Time + 5*early; math.Abs(w.Time-hot) > slack {
			t.Fatalf("wait %g s, field %g s after 1000 degC", w.Time, hot)
		}
	})
}

func TestWaitWords(t *testing.T) {
	for _, row := range []struct {
		thickness float64 // mm
		heat      float64 // kJ/mm
		plate     thermal.Plate
		says      string
	}{
		{3, 0.8, thermal.ThinPlate, "the plate counts as thin"},
		{80, 0.5, thermal.ThickPlate, "the plate counts as thick"},
		{19, 0.8, thermal.FinitePlate, "neither thick nor thin"},
	} {
		w, err := thermal.InterpassWait(thermal.WaitRequest{HeatInput: row.heat * unit.KJPerMM, Preheat: 20, Ceiling: 250,
			Thickness: row.thickness * unit.MM, Shape: thermal.RunOnPlate})
		if err != nil || w.Plate != row.plate || !strings.Contains(w.Words(row.thickness*unit.MM), row.says) {
			t.Errorf("%g mm: %v, %v: %s", row.thickness, w.Plate, err, w.Words(row.thickness*unit.MM))
		}
	}
}

// The rise after the wait is what the ceiling left over the part: one is the inverse
// of the other.
func TestRiseAfterInvertsWait(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := thermal.WaitRequest{
			HeatInput: rapid.Float64Range(3e5, 3e6).Draw(t, "Q"), Preheat: rapid.Float64Range(0, 150).Draw(t, "T0"),
			Thickness: rapid.Float64Range(3e-3, 60e-3).Draw(t, "d"), Shape: thermal.TeeFillet,
		}
		r.Ceiling = r.Preheat + rapid.Float64Range(10, 200).Draw(t, "over")
		w, err := thermal.InterpassWait(r)
		if err != nil {
			t.Fatal(err)
		}
		rise, err := r.RiseAfter(w.Time, 0)
		if err != nil || math.Abs(rise-(r.Ceiling-r.Preheat)) > 1e-6*rise {
			t.Fatalf("rise %g K after %g s, want %g: %v", rise, w.Time, r.Ceiling-r.Preheat, err)
		}
	})
	r := thermal.WaitRequest{HeatInput: 1e6, Thickness: 0.01, Shape: thermal.TeeFillet}
	for _, bad := range [][2]float64{{0, 0}, {-1, 0}, {math.NaN(), 0}, {math.Inf(1), 0}, {10, -1}, {10, 201}, {10, math.NaN()}} {
		if x, err := r.RiseAfter(bad[0], bad[1]); err == nil {
			t.Errorf("%g s with a loss of %g: %g K", bad[0], bad[1], x)
		}
	}
}

// With a loss the rise of an even plate follows dT/dt = -(2 h/(d rho c) + 1/(2 t)) T,
// its heat balance, here integrated by small steps.
func TestRiseWithLossKeepsTheHeatBalance(t *testing.T) {
	const d, loss = 6e-3, 20.0
	r := thermal.WaitRequest{HeatInput: 1e6, Thickness: d, Shape: thermal.RunOnPlate}
	m, err := thermal.MetalOf(thermal.SteelGrong)
	if err != nil {
		t.Fatal(err)
	}
	rise := func(at float64) float64 {
		x, err := r.RiseAfter(at, loss)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	now, value := 60.0, rise(60)
	const step = 0.01
	for now < 600 {
		k := func(at, v float64) float64 { return -(2*loss/(d*m.HeatCapacity) + 1/(2*at)) * v }
		half := value + step/2*k(now, value)
		value += step * k(now+step/2, half)
		now += step
	}
	if got := rise(now); math.Abs(got-value) > 1e-4*value {
		t.Errorf("rise %g K, heat balance %g K", got, value)
	}
}
