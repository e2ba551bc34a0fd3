package job_test

import (
	"math"
	"testing"

	"seamwright/bench/job"
	"seamwright/weld/deposit"
)

// Prices are for SI units inside; what is not told is zero.
func TestRates(t *testing.T) {
	m := memory{"rates.yaml": "currency: EUR\nlabour: 36 per h\nwire: 1 per lb\ngas: 2 per L\nenergy: 3.6 per kWh\ndensity: 7900 kg/m3\nsource_efficiency: 80 percent\n" +
		"arm: {way: cart with two stations, factor: 50 percent, set_up: 30 min, teach: 5 min, handling: 90 s}\nhand: {labour: 0.30 per min, way: semi-automatic}\n"}
	r, err := job.DecodeRates("rates.yaml", m)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name      string
		got, want float64
	}{
		{"labour of the arm, a second", r.Arm.Rates.Labour, 0.01},
		{"labour by hand, a second", r.Hand.Rates.Labour, 0.005},
		{"wire, a kg", r.Hand.Rates.Wire, 1 / 0.45359237},
		{"gas, a m3", r.Arm.Rates.Gas, 2000},
		{"energy, a MJ", r.Arm.Rates.Energy * 1e6, 1},
		{"density", r.Density, 7900},
		{"source", r.SourceEfficiency, 0.8},
		{"factor", r.Arm.Factor, 0.5},
		{"set-up", r.Arm.SetUp, 1800},
		{"teach", r.Arm.Teach, 300},
		{"handling", r.Arm.Handling, 90},
		{"set-up by hand", r.Hand.SetUp, 0},
	} {
		if math.Abs(row.got-row.want) > 1e-12*math.Max(1, row.want) {
			t.Errorf("%s: %g, want %g", row.name, row.got, row.want)
		}
	}
	if r.Currency != "EUR" || r.Arm.Kind != deposit.CartArmTwoPlaces || r.Hand.Kind != deposit.SemiAutomatic {
		t.Errorf("%+v", r)
	}
	if r, err = job.DecodeRates("rates.yaml", memory{"rates.yaml": "currency: EUR\nlabour: 36 per h\n"}); err != nil || r.Arm.Kind != deposit.CartArm || r.Hand.Kind != deposit.SmallShopManual {
		t.Errorf("%+v, %v", r, err)
	}
}

func FuzzRates(f *testing.F) {
	f.Add("currency: EUR\nlabour: 36 per h\nwire: 1 per lb\narm: {factor: 50 percent}\n")
	f.Add("currency: [\n")
	f.Add("labour: per h\ngas: 1e400 per m3\n")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := job.DecodeRates("rates.yaml", memory{"rates.yaml": text})
		if (r == nil) == (err == nil) {
			t.Fatalf("%v, %v", r, err)
		}
		if err == nil && (r.Arm.Rates.Validate() != nil || r.Hand.Rates.Validate() != nil) {
			t.Fatalf("%+v", r)
		}
	})
}
