package unit_test

import (
	"math"
	"testing"

	"seamwright/unit"
)

// Conversion factors to SI from outside this package, exact unless a number of
// digits is named. Sources:
//
//	NIST SP 811: NIST Special Publication 811 (2008), appendix B.8, from memory
//	1959: international yard and pound agreement, from memory
//	SI: SI Brochure, 9th edition, tables 7 and 8, from memory
//	arithmetic: follows from the rows above it
func TestReferenceFactors(t *testing.T) {
	rows := []struct {
		source string
		kind   unit.Kind
		text   string
		want   float64
		digits int // significant digits of the source; 0 is exact
	}{
		{"1959", unit.Length, "1 in", 0.0254, 0},
		{"1959", unit.Length, "1 ft", 0.3048, 0},
		{"1959", unit.Mass, "1 lb", 0.45359237, 0},
		{"SI", unit.Angle, "180 deg", math.Pi, 0},
		{"NIST SP 811, degree", unit.Angle, "1 deg", 1.745329e-2, 7},
		{"NIST SP 811, inch per second", unit.Speed, "1 in/s", 2.54e-2, 0},
		{"arithmetic", unit.Speed, "1 in/min", 4.233333e-4, 7},
		{"NIST SP 811, foot cubed per minute, over 60", unit.GasFlow, "60 cfh", 4.719474e-4, 7},
		{"SI, litre", unit.GasFlow, "60 L/min", 1e-3, 0},
		{"NIST SP 811, square inch", unit.Area, "1 in2", 6.4516e-4, 0},
		{"NIST SP 811, inch to the fourth power", unit.SecondMoment, "1 in4", 4.162314e-7, 7},
		{"NIST SP 811, pound per hour", unit.MassRate, "1 lb/h", 1.259979e-4, 7},
		{"arithmetic, 1000/0.0254", unit.EnergyPerLength, "1 kJ/in", 39370.08, 7},
		{"SI", unit.Time, "1 h", 3600, 0},
		{"freezing point of water", unit.Temperature, "32 degF", 0, 0},
		{"boiling point of water on the old scale", unit.Temperature, "212 °F", 100, 0},
		{"SI, 0 degC is 273.15 K", unit.Temperature, "273.15 K", 0, 0},
		{"where the two scales meet", unit.Temperature, "-40 degF", -40, 0},
		{"absolute zero", unit.Temperature, "-459.67 degF", -273.15, 0},
	}
	for _, row := range rows {
		got, err := unit.Parse(row.kind, row.text)
		if err != nil {
			t.Errorf("%s: %v", row.text, err)
			continue
		}
		tolerance := 0.0
		if row.digits > 0 {
			tolerance = 0.5 * math.Pow(10, math.Floor(math.Log10(row.want))-float64(row.digits-1))
		}
		if math.Abs(got-row.want) > tolerance {
			t.Errorf("%s: got %v, want %v (%s)", row.text, got, row.want, row.source)
		}
	}
}

// Sizes as shops in inches write them. 0.035 in = 0.889 mm, 0.045 in = 1.143 mm
// and 16 in/min = 6.8 mm/s are in wire makers' tables (READ in the project's
// notes); the rest is arithmetic on 25.4 mm.
func TestReferenceShopSizes(t *testing.T) {
	rows := []struct {
		kind     unit.Kind
		text     string
		u        unit.Unit
		decimals int
		want     string
	}{
		{unit.Length, "0.035 in", unit.Millimetres, 3, "0.889 mm"},
		{unit.Length, "0.045 in", unit.Millimetres, 3, "1.143 mm"},
		{unit.Length, "1/4 in", unit.Millimetres, 2, "6.35 mm"},
		{unit.Length, `3/16"`, unit.Millimetres, 4, "4.7625 mm"},
		{unit.Length, "1 1/2 in", unit.Millimetres, 1, "38.1 mm"},
		{unit.Speed, "16 in/min", unit.MillimetresPerSecond, 1, "6.8 mm/s"},
		{unit.Speed, "6.8 mm/s", unit.MillimetresPerMinute, 0, "408 mm/min"},
		{unit.WireFeed, "420 in/min", unit.MetresPerMinute, 2, "10.67 m/min"},
		{unit.GasFlow, "40 cfh", unit.LitresPerMinute, 1, "18.9 L/min"},
		{unit.EnergyPerLength, "1 kJ/mm", unit.KilojoulesPerInch, 1, "25.4 kJ/in"},
		{unit.EnergyPerLength, "1 kJ/mm", unit.KilojoulesPerCentimetre, 0, "10 kJ/cm"},
		{unit.Temperature, "150 degC", unit.Fahrenheit, 0, "302 degF"},
	}
	for _, row := range rows {
		si, err := unit.Parse(row.kind, row.text)
		if err != nil {
			t.Errorf("%s: %v", row.text, err)
		} else if got := unit.Format(si, row.u, row.decimals); got != row.want {
			t.Errorf("%s: got %s, want %s", row.text, got, row.want)
		}
	}
}
