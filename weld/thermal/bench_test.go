package thermal_test

import (
	"testing"

	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

func BenchmarkCooling(b *testing.B) {
	r := thermal.CoolingRequest{HeatInput: 0.765e6, Preheat: 20, Thickness: 10 * unit.MM, Shape: thermal.TeeFillet}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := thermal.Cooling(r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEquivalent(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s355.Equivalent(thermal.CET); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPreheatByCET(b *testing.B) {
	e, err := s355.Equivalent(thermal.CET)
	if err != nil {
		b.Fatal(err)
	}
	r := thermal.CETRequest{Family: weld.ISO, Steel: e, Thickness: 20 * unit.MM, Hydrogen: 5, HeatInput: 1e6}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := thermal.PreheatByCET(r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkInterpassWait(b *testing.B) {
	r := thermal.WaitRequest{HeatInput: 0.8e6, Preheat: 100, Ceiling: 250, Thickness: 15 * unit.MM, Shape: thermal.TeeFillet}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := thermal.InterpassWait(r); err != nil {
			b.Fatal(err)
		}
	}
}

func benchmarkField(b *testing.B, p thermal.Plate, run func(thermal.Field)) {
	f, err := thermal.NewField(thermal.FieldRequest{Power: 5200, Travel: 6.8 * unit.MMPerS, Preheat: 20, Plate: p, Thickness: 10 * unit.MM})
	if err != nil {
		b.Fatal(err)
	}
	b.Run(p.String(), func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			run(f)
		}
	})
}

func BenchmarkTemperature(b *testing.B) {
	for p := thermal.ThickPlate; p <= thermal.FinitePlate; p++ {
		benchmarkField(b, p, func(f thermal.Field) {
			f.Temperature(r3.Vec{X: -20 * unit.MM, Y: 5 * unit.MM})
		})
	}
}

func BenchmarkFieldCoolingTime(b *testing.B) {
	for p := thermal.ThickPlate; p <= thermal.FinitePlate; p++ {
		benchmarkField(b, p, func(f thermal.Field) {
			if _, err := f.CoolingTime(0, 0, 800, 500); err != nil {
				b.Fatal(err)
			}
		})
	}
}

// BenchmarkGrid is a picture of 200 by 60 places.
func BenchmarkGrid(b *testing.B) {
	r := thermal.GridRequest{Corner: r3.Vec{X: -90 * unit.MM, Y: -30 * unit.MM}, ColumnStep: r3.Vec{X: 0.5 * unit.MM},
		RowStep: r3.Vec{Y: 1 * unit.MM}, Columns: 200, Rows: 60}
	benchmarkField(b, thermal.FinitePlate, func(f thermal.Field) {
		if _, err := f.Grid(r); err != nil {
			b.Fatal(err)
		}
	})
}
