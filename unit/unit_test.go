package unit_test

import (
	"math"
	"testing"

	"seamwright/unit"
)

// The constants and the table of units are written down apart; they must agree.
func TestConstantsAgreeWithUnits(t *testing.T) {
	rows := []struct {
		u    unit.Unit
		want float64
	}{
		{unit.Millimetres, unit.MM}, {unit.Centimetres, unit.CM}, {unit.Metres, 1}, {unit.Inches, unit.Inch}, {unit.Feet, unit.Foot},
		{unit.Degrees, unit.Deg}, {unit.Radians, 1},
		{unit.MillimetresPerSecond, unit.MMPerS}, {unit.MillimetresPerMinute, unit.MMPerMin}, {unit.CentimetresPerMinute, unit.CMPerMin},
		{unit.MetresPerMinute, unit.MPerMin}, {unit.MetresPerSecond, 1}, {unit.InchesPerMinute, unit.InPerMin}, {unit.InchesPerSecond, unit.InPerS},
		{unit.DegreesPerSecond, unit.DegPerS}, {unit.RadiansPerSecond, 1}, {unit.DegreesPerSecond2, unit.DegPerS2}, {unit.RadiansPerSecond2, 1},
		{unit.MillimetresPerSecond2, unit.MMPerS2}, {unit.MetresPerSecond2, 1}, {unit.InchesPerSecond2, unit.InPerS2},
		{unit.DegreesPerSecond3, unit.DegPerS3}, {unit.RadiansPerSecond3, 1}, {unit.MillimetresPerSecond3, unit.MMPerS3}, {unit.MetresPerSecond3, 1}, {unit.InchesPerSecond3, unit.InPerS3},
		{unit.Seconds, 1}, {unit.Milliseconds, unit.Ms}, {unit.Minutes, unit.Minute}, {unit.Hours, unit.Hour},
		{unit.Kilograms, 1}, {unit.Grams, unit.Gram}, {unit.Pounds, unit.Pound},
		{unit.Volts, 1}, {unit.Amperes, 1}, {unit.Watts, 1}, {unit.Kilowatts, unit.KW},
		{unit.KilojoulesPerMillimetre, unit.KJPerMM}, {unit.JoulesPerMillimetre, unit.JPerMM},
		{unit.KilojoulesPerCentimetre, unit.KJPerCM}, {unit.KilojoulesPerInch, unit.KJPerIn},
		{unit.LitresPerMinute, unit.LPerMin}, {unit.CubicFeetPerHour, unit.CFH},
		{unit.SquareMillimetres, unit.MM2}, {unit.SquareCentimetres, unit.CM2}, {unit.SquareInches, unit.In2},
		{unit.Hertz, 1}, {unit.KilogramsPerHour, unit.KGPerH}, {unit.PoundsPerHour, unit.LbPerH}, {unit.Percents, unit.Percent},
		{unit.Millimetres4, unit.MM4}, {unit.Centimetres4, unit.CM4}, {unit.Inches4, unit.In4},
	}
	seen := map[unit.Unit]bool{unit.Celsius: true, unit.Fahrenheit: true, unit.Kelvins: true} // these have offsets
	for _, row := range rows {
		seen[row.u] = true
		if got := row.u.SI(1); got != row.want {
			t.Errorf("one %v is %v in SI, the constant is %v", row.u, got, row.want)
		}
	}
	for _, k := range unit.Kinds() {
		for _, u := range k.Units() {
			if !seen[u] {
				t.Errorf("%v has the unit %v, which this test forgot", k, u)
			}
		}
	}
}

func TestUnitSIAndValue(t *testing.T) {
	for _, k := range unit.Kinds() {
		for _, u := range k.Units() {
			for _, v := range []float64{-3, 0, 0.1, 250} {
				if got := u.Value(u.SI(v)); math.Abs(got-v) > 1e-12*max(1, math.Abs(u.Value(0))) {
					t.Errorf("%v %v comes back as %v", v, u, got)
				}
			}
		}
	}
	if got := unit.Fahrenheit.SI(212); math.Abs(got-100) > 1e-12 {
		t.Errorf("212 degF is %v degC, want 100", got)
	}
	var zero unit.Unit
	if !math.IsNaN(zero.SI(1)) || zero.String() != "no unit" || unit.Unit(255).String() != "no unit" {
		t.Errorf("the zero Unit: SI(1) = %v, %q", zero.SI(1), zero)
	}
}

func TestKindsAreComplete(t *testing.T) {
	names := map[string]bool{}
	for _, k := range unit.Kinds() {
		if names[k.String()] || k.String() == "an unknown quantity" {
			t.Errorf("kind %d has the name %q", k, k)
		}
		names[k.String()] = true
		for _, s := range []unit.System{unit.Metric, unit.InchPound} {
			if u, decimals := k.Preferred(s); !k.Allows(u) || decimals < 0 {
				t.Errorf("%v in %v: prefers %v, which it does not allow", k, s, u)
			}
		}
	}
	if got := unit.Kind(200); got.String() != "an unknown quantity" || got.Units() != nil {
		t.Errorf("kind 200: %v, %v", got, got.Units())
	}
}

func TestFormat(t *testing.T) {
	rows := []struct{ got, want string }{
		{unit.Format(0.0068, unit.MillimetresPerSecond, 1), "6.8 mm/s"},
		{unit.Format(-0.00001, unit.Millimetres, 1), "0.0 mm"},
		{unit.Format(math.Copysign(0, -1), unit.Millimetres, 0), "0 mm"},
		{unit.Format(-0.0106, unit.Millimetres, 0), "-11 mm"},
		{unit.Format(0.00635, unit.Inches, -1), "0 in"},
		{unit.Format(-0.00635, unit.Millimetres, 1), "-6.4 mm"},
		{unit.Format(1e300, unit.Kilowatts, 0)[:4], "1000"},
		{unit.Format(math.NaN(), unit.Millimetres, 1), "unknown"},
		{unit.Format(math.Inf(1), unit.Millimetres, 1), "unknown"},
		{unit.Format(1, unit.Unit(0), 1), "unknown"},
		{unit.FormatIn(unit.Length, 0.00635, unit.Metric), "6.4 mm"}, // 6.35, which lies a hair below in float64
		{unit.FormatIn(unit.Length, 0.00635, unit.InchPound), "0.250 in"},
		{unit.FormatIn(unit.Speed, 16*unit.InPerMin, unit.InchPound), "16.0 in/min"},
		{unit.FormatIn(unit.WireFeed, 0.1, unit.Metric), "6.0 m/min"},
		{unit.FormatIn(unit.Temperature, 150, unit.InchPound), "302 degF"},
		{unit.FormatIn(unit.Ratio, 0.8, unit.Metric), "80 %"},
		{unit.Exact(0.009, unit.Millimetres), "9 mm"},
		{unit.Exact(0.00635, unit.Inches), "0.25 in"},
		{unit.Exact(math.Pi, unit.Degrees), "180 deg"},
		{unit.Exact(123.456, unit.Metres), "123.456 m"},
		{unit.Exact(0, unit.Metres), "0 m"},
		{unit.Exact(math.Copysign(0, -1), unit.Metres), "0 m"},
		{unit.Exact(20, unit.Celsius), "20 degC"},
		{unit.Exact(1e-9, unit.Metres), "1e-09 m"},
		{unit.Exact(math.NaN(), unit.Metres), "unknown"},
	}
	for _, row := range rows {
		if row.got != row.want {
			t.Errorf("got %q, want %q", row.got, row.want)
		}
	}
}

func TestParseSystem(t *testing.T) {
	for text, want := range map[string]unit.System{"metric": unit.Metric, " Inch-Pound": unit.InchPound, "inch": unit.InchPound} {
		if got, err := unit.ParseSystem(text); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
	for _, s := range []unit.System{unit.Metric, unit.InchPound} {
		if got, err := unit.ParseSystem(s.String()); err != nil || got != s {
			t.Errorf("%v reads back as %v, %v", s, got, err)
		}
	}
	const want = `"furlongs" is not a system of units: allowed are metric and inch-pound`
	if _, err := unit.ParseSystem("furlongs"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}
