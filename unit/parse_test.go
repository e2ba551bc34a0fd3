package unit_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
)

func TestParse(t *testing.T) {
	rows := []struct {
		name string
		kind unit.Kind
		text string
		want float64
	}{
		{"plain", unit.Length, "6 mm", 0.006},
		{"no space", unit.Length, "6mm", 0.006},
		{"much space", unit.Length, "  6 \t mm ", 0.006},
		{"sign", unit.Length, "-6.5 mm", -0.0065},
		{"typographic minus", unit.Length, "−6.5 mm", -0.0065},
		{"plus", unit.Angle, "+180 deg", math.Pi},
		{"no digit before the point", unit.Length, ".5 mm", 0.0005},
		{"no digit behind the point", unit.Length, "5. mm", 0.005},
		{"exponent", unit.Length, "1.5e-3 m", 0.0015},
		{"zero", unit.Length, "0 mm", 0},
		{"fraction", unit.Length, "1/4 in", 0.00635},
		{"whole and fraction", unit.Length, "1 1/2 in", 0.0381},
		{"whole, hyphen and fraction", unit.Length, "1-1/2 in", 0.0381},
		{"negative fraction", unit.Length, "-1 1/2 in", -0.0381},
		{"inch mark", unit.Length, `3/16"`, 0.0047625},
		{"typographic inch mark", unit.Length, "3/16″", 0.0047625},
		{"word", unit.Length, "2 inches", 0.0508},
		{"capitals", unit.Length, "6 MM", 0.006},
		{"foot", unit.Length, "2 ft", 0.6096},
		{"decimal comma", unit.Speed, "6,8 mm/s", 0.0068},
		{"decimal comma, three digits behind zero", unit.Length, "0,035 in", 0.000889},
		{"decimal comma, more than three digits before it", unit.Length, "1250,125 mm", 1.250125},
		{"degree sign", unit.Angle, "10°", 10 * math.Pi / 180},
		{"degrees per second", unit.AngularSpeed, "180 °/s", math.Pi},
		{"angular acceleration", unit.AngularAcceleration, "360 deg/s^2", 2 * math.Pi},
		{"angular jerk", unit.AngularJerk, "3600 deg/s^3", 20 * math.Pi},
		{"jerk", unit.Jerk, "10000 mm/s3", 10},
		{"squared sign", unit.Acceleration, "500 mm/s²", 0.5},
		{"wire feed", unit.WireFeed, "6 m/min", 0.1},
		{"trade abbreviation", unit.WireFeed, "300 ipm", 0.127},
		{"milliseconds", unit.Time, "300 ms", 0.3},
		{"minutes", unit.Time, "1.5 min", 90},
		{"degrees Celsius", unit.Temperature, "20 °C", 20},
		{"degrees Celsius in letters", unit.Temperature, "-10 deg C", -10},
		{"volts", unit.Voltage, "24.5 V", 24.5},
		{"amps", unit.Current, "220 amps", 220},
		{"kilowatt", unit.Power, "5.5 kW", 5500},
		{"energy per length", unit.EnergyPerLength, "0.8 kJ/mm", 8e5},
		{"joule per millimetre", unit.EnergyPerLength, "800 J/mm", 8e5},
		{"litres per minute", unit.GasFlow, "15 l/min", 0.00025},
		{"area", unit.Area, "18 mm^2", 18e-6},
		{"hertz", unit.Frequency, "2.5 Hz", 2.5},
		{"deposition rate", unit.MassRate, "3.6 kg/h", 0.001},
		{"second moment of area", unit.SecondMoment, "800 cm^4", 8e-6},
		{"percent", unit.Ratio, "80%", 0.8},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			got, err := unit.Parse(row.kind, row.text)
			if err != nil || got != row.want {
				t.Errorf("%q: got %v, %v, want %v", row.text, got, err, row.want)
			}
		})
	}
}

func TestParseRefuses(t *testing.T) {
	const (
		lengths = "mm, cm, m, in, ft"
		speeds  = "mm/s, mm/min, cm/min, m/min, m/s, in/min, in/s"
		example = `write a number and a unit, such as "6 mm"`
	)
	rows := []struct {
		kind unit.Kind
		text string
		want string
	}{
		{unit.Length, "6", `"6" is not a length: it has no unit; allowed: ` + lengths + `; write the unit, such as "6 mm" or "6 in"`},
		{unit.Length, "1/4", `"1/4" is not a length: it has no unit; allowed: ` + lengths + `; write the unit, such as "0.25 mm" or "0.25 in"`},
		{unit.Voltage, "24", `"24" is not a voltage: it has no unit; allowed: V; write the unit, such as "24 V"`},
		{unit.Speed, "6 mm", `"6 mm" is not a speed: its unit mm makes it a length; allowed: ` + speeds + `; write the unit, such as "6 mm/s" or "6 in/min"`},
		{unit.WireFeed, "60 cm/min", `"60 cm/min" is not a wire feed speed: cm/min is not used for it; allowed: m/min, in/min, mm/s; write "0.6 m/min"`},
		{unit.Length, "6 mm/s", `"6 mm/s" is not a length: its unit mm/s makes it a speed or a wire feed speed; allowed: ` + lengths + `; write the unit, such as "6 mm" or "6 in"`},
		{unit.Speed, "6.8 mm/sec", `"6.8 mm/sec" is not a speed: the unit "mm/sec" is not known; allowed: ` + speeds + `; write "6.8 mm/s"`},
		{unit.Speed, "400 mm/minute", `"400 mm/minute" is not a speed: the unit "mm/minute" is not known; allowed: ` + speeds + `; write "400 mm/min"`},
		{unit.Speed, "6 millimeters per second", `"6 millimeters per second" is not a speed: the unit "millimeters per second" is not known; allowed: ` + speeds + `; write "6 mm/s"`},
		{unit.Length, "6 mn", `"6 mn" is not a length: the unit "mn" is not known; allowed: ` + lengths + `; write "6 mm"`},
		{unit.EnergyPerLength, "1 kJoule/mm", `"1 kJoule/mm" is not an energy per length: the unit "kJoule/mm" is not known; allowed: kJ/mm, J/mm, kJ/cm, kJ/in; write "1 kJ/mm"`},
		{unit.Length, "6 bananas", `"6 bananas" is not a length: the unit "bananas" is not known; allowed: ` + lengths + `; ` + example},
		{unit.Length, "1,250 mm", `"1,250 mm" is not a length: the comma in 1,250 may mark decimals or thousands; allowed: ` + lengths + `; write 1.250 or 1250`},
		{unit.Length, "1.250,5 mm", `"1.250,5 mm" is not a length: 1.250,5 has a comma that cannot be read; allowed: ` + lengths + `; write one point for the decimals and nothing between thousands`},
		{unit.Length, "1.2.3 mm", `"1.2.3 mm" is not a length: 1.2.3 is not a number; allowed: ` + lengths + `; write one point at most, as in 6.8`},
		{unit.Length, "1/0 in", `"1/0 in" is not a length: the fraction 1/0 divides by zero; allowed: ` + lengths + `; write a number below the line that is not 0`},
		{unit.Length, "5-10 mm", `"5-10 mm" is not a length: it has more than one number; allowed: ` + lengths + `; write one number and one unit`},
		{unit.Length, "6 x 6 mm", `"6 x 6 mm" is not a length: it has more than one number; allowed: ` + lengths + `; write one number and one unit`},
		{unit.Length, "", `"" is not a length: it does not begin with a number; allowed: ` + lengths + `; ` + example},
		{unit.Length, "mm", `"mm" is not a length: it does not begin with a number; allowed: ` + lengths + `; ` + example},
		{unit.Length, "NaN mm", `"NaN mm" is not a length: it does not begin with a number; allowed: ` + lengths + `; ` + example},
		{unit.Length, "1e999 mm", `"1e999 mm" is not a length: the number is too large; allowed: ` + lengths + `; write a smaller number`},
		{unit.Length, "1e-999 mm", `"1e-999 mm" is not a length: the number is too small; allowed: ` + lengths + `; write 0 or a larger number`},
		{unit.Temperature, "-300 degC", `"-300 degC" is not a temperature: it lies below absolute zero, -273.15 degC; allowed: degC, degF, K; write a higher temperature`},
		{unit.Kind(0), "6 mm", `"6 mm" is not an unknown quantity: its unit mm makes it a length; ask for a quantity that exists`},
		{unit.Length, strings.Repeat("1", 65), `"` + strings.Repeat("1", 64) + `" is not a length: it is longer than 64 characters; allowed: ` + lengths + `; ` + example},
	}
	for _, row := range rows {
		got, err := unit.Parse(row.kind, row.text)
		if err == nil || err.Error() != row.want {
			t.Errorf("%q:\n got %v\nwant %s", row.text, err, row.want)
		}
		var parts *unit.Error
		if !errors.As(err, &parts) || parts.Kind != row.kind || got != 0 {
			t.Errorf("%q: got %v and %#v, want 0 and an *Error of kind %v", row.text, got, err, row.kind)
		}
	}
}

// Every unit is refused for every quantity that does not have it, by its own
// name and never by a spelling mistake.
func TestParseTellsQuantitiesApart(t *testing.T) {
	for _, wanted := range unit.Kinds() {
		for _, other := range unit.Kinds() {
			for _, u := range other.Units() {
				_, err := unit.Parse(wanted, "6 "+u.String())
				switch {
				case wanted == unit.WireFeed && other == unit.Speed:
					// the same dimension: TestParseRefuses has the message
				case wanted.Allows(u) && err != nil:
					t.Errorf("%v in %v: %v", wanted, u, err)
				case !wanted.Allows(u) && (err == nil || !strings.Contains(err.Error(), "its unit "+u.String()+" makes it ")):
					t.Errorf("%v in %v: got %v, want the wrong quantity named", wanted, u, err)
				}
			}
		}
	}
}

// A mend that quotes a quantity must itself be readable.
func TestParseMendsAreReadable(t *testing.T) {
	for _, k := range unit.Kinds() {
		for _, text := range []string{"6", "6 q", "6 mm/sec", "6 deg/sec", "6 V", "6 mm"} {
			_, err := unit.Parse(k, text)
			var parts *unit.Error
			if !errors.As(err, &parts) {
				continue
			}
			for i, quoted := range strings.Split(parts.Mend, `"`) {
				if i%2 == 0 {
					continue
				}
				if _, err := unit.Parse(k, quoted); err != nil {
					t.Errorf("%v, %q: the mend %q does not read: %v", k, text, quoted, err)
				}
			}
		}
	}
}

func TestExactRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(unit.Kinds()).Draw(t, "kind")
		u := rapid.SampledFrom(k.Units()).Draw(t, "unit")
		v := rapid.Float64Range(0, 1e6).Draw(t, "value")
		si := u.SI(v)
		text := unit.Exact(si, u)
		got, err := unit.Parse(k, text)
		if err != nil {
			t.Fatalf("%v prints as %q: %v", si, text, err)
		}
		// exact save where no number of u falls on si: then the last digit, and
		// with an offset the last digit of the offset
		if math.Abs(got-si) > 1e-15*max(math.Abs(si), math.Abs(u.SI(0))) {
			t.Fatalf("%v prints as %q, which reads as %v", si, text, got)
		}
	})
}

// What a person writes with up to four decimals comes back as it was written.
func TestExactPrintsWhatWasWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(unit.Kinds()).Draw(t, "kind")
		u := rapid.SampledFrom(k.Units()).Draw(t, "unit")
		decimals := rapid.IntRange(0, 4).Draw(t, "decimals")
		count := rapid.Int64Range(0, 99999999).Draw(t, "count")
		written := strings.TrimSpace(unit.Format(unit.Volts.SI(float64(count)/math.Pow(10, float64(decimals))), unit.Volts, decimals))
		written = strings.TrimSuffix(written, "V") + u.String()
		si, err := unit.Parse(k, written)
		if err != nil {
			t.Fatal(err)
		}
		again, err := unit.Parse(k, unit.Exact(si, u))
		if err != nil || again != si {
			t.Fatalf("%q is %v, prints as %q, reads as %v, %v", written, si, unit.Exact(si, u), again, err)
		}
		if len(unit.Exact(si, u)) > len(written) {
			t.Fatalf("%q prints longer, as %q", written, unit.Exact(si, u))
		}
		if got := unit.Format(si, u, decimals); got != written {
			t.Fatalf("%q prints as %q with %d decimals", written, got, decimals)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"6 mm", "1/4 in", "1 1/2 in", "6,8 mm/s", "0.035 in", `3/16"`, "10°", "10 deg", "6",
		"1,250 mm", "-459.67 degF", "1e-3 m", "1e999 mm", "1/0 in", "5-10 mm", "80 %", "40 cfh", "\xff mm", "6 mm²"} {
		for _, k := range unit.Kinds() {
			f.Add(uint8(k), text)
		}
	}
	f.Fuzz(func(t *testing.T, kind uint8, text string) {
		k := unit.Kind(kind)
		si, err := unit.Parse(k, text)
		if err != nil {
			if message := err.Error(); si != 0 || strings.ContainsAny(message, "\n\r") {
				t.Errorf("%q: gave %v beside %q", text, si, message)
			}
			return
		}
		if math.IsNaN(si) || math.IsInf(si, 0) {
			t.Fatalf("%q is %v", text, si)
		}
		u, _ := k.Preferred(unit.Metric)
		exact := unit.Exact(si, u)
		if back, err := unit.Parse(k, exact); exact != "unknown" && (err != nil || math.Abs(back-si) > 1e-15*math.Abs(si)+1e-307) {
			t.Errorf("%q is %v, prints as %q, reads as %v, %v", text, si, exact, back, err)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for range b.N {
		if _, err := unit.Parse(unit.Speed, "6.8 mm/s"); err != nil {
			b.Fatal(err)
		}
	}
}
