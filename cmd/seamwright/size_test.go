package main

import (
	"math"
	"strconv"
	"strings"
	"testing"
)

// number reads the number of a line of an answer of size.
func number(t *testing.T, out, name string) float64 {
	t.Helper()
	for line := range strings.Lines(out) {
		rest, ok := strings.CutPrefix(line, name)
		if !ok {
			continue
		}
		x, err := strconv.ParseFloat(strings.Fields(rest)[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	t.Fatalf("no line %q in:\n%s", name, out)
	return 0
}

// Worked values of the metal balance (area = efficiency * wire area * feed /
// speed; leg by the flat-face triangle times a face factor), of skewed fillets,
// of heat input and of a weld's time and metal. They were computed from the
// stated formulas in a separate program; gap rows: AWS D1.1:2020 7.21.1 (READ,
// secondary: an inspection data file that quotes the clause).
func TestSizeOnWorkedValues(t *testing.T) {
	type value struct {
		name string
		want float64
		tol  float64 // half of the last digit printed here plus half of the source's
	}
	for _, c := range []struct {
		name string
		args string
		want []value
	}{
		{"leg at 6.8 mm/s, 1.0 mm, 9 m/min, flat", "--speed 6.8mm/s --wire 1.0mm --feed 9m/min --efficiency 97percent --convexity 1", []value{{"leg", 5.80, 0.055}, {"bead area", 16.81, 0.055}}},
		{"leg at 6.8 mm/s, 1.0 mm, 9 m/min, 1.1", "--speed 6.8mm/s --wire 1.0mm --feed 9m/min --efficiency 97percent --convexity 1.1", []value{{"leg", 5.53, 0.055}, {"bead area", 16.81, 0.055}}},
		{"leg at 6.8 mm/s, 1.0 mm, 9 m/min, 1.2", "--speed 6.8mm/s --wire 1.0mm --feed 9m/min --efficiency 97percent --convexity 1.2", []value{{"leg", 5.29, 0.055}}},
		{"leg at 6.8 mm/s, 0.9 mm, 4 m/min", "--speed 6.8mm/s --wire 0.9mm --feed 4m/min --efficiency 97percent --convexity 1.1", []value{{"leg", 3.32, 0.055}, {"bead area", 6.05, 0.055}}},
		{"leg at 6.8 mm/s, 1.2 mm, 12 m/min", "--speed 6.8mm/s --wire 1.2mm --feed 12m/min --efficiency 97percent --convexity 1.2", []value{{"leg", 7.33, 0.055}, {"bead area", 32.27, 0.055}}},
		{"speed for 6 mm", "--leg 6mm --wire 1.2mm --feed 8m/min --efficiency 97percent --convexity 1.1", []value{{"travel speed", 7.39, 0.01}, {"deposition", 4.134, 0.0055}}},
		{"feed for 5 mm", "--leg 5mm --wire 1.0mm --speed 6.8mm/s --efficiency 97percent --convexity 1.1", []value{{"wire feed", 7.36, 0.01}}},
		{"feed for 8 mm", "--leg 8mm --wire 1.2mm --speed 6.8mm/s --efficiency 97percent --convexity 1.1", []value{{"wire feed", 13.1, 0.055}}},
		{"speed for 5 mm at 96 percent", "--leg 5mm --wire 1.0mm --feed 9m/min --efficiency 96percent --convexity 1.1", []value{{"travel speed", 8.23, 0.01}}},
		{"throat of 6 mm", "--leg 6mm --wire 1.2mm --feed 8m/min --convexity 1", []value{{"throat", 4.243, 0.051}, {"bead area", 18.0, 0.1}}},
		{"leg of a throat", "--throat 4.243mm --wire 1.2mm --feed 8m/min --convexity 1", []value{{"leg", 6, 0.05}}},
		{"120 deg between the plates", "--leg 6mm --angle 120deg --wire 1.2mm --feed 8m/min --convexity 1", []value{{"throat", 3.000, 0.051}, {"bead area", 15.588, 0.051}}},
		{"60 deg between the plates", "--leg 6mm --angle 60deg --wire 1.2mm --feed 8m/min --convexity 1", []value{{"throat", 5.196, 0.051}}},
		{"throat 4.243 at 60 deg", "--throat 4.243mm --angle 60deg --wire 1.2mm --feed 8m/min --convexity 1", []value{{"leg", 4.899, 0.051}}},
		{"gap 3 mm grows the leg", "--leg 6mm --gap 3mm --wire 1.2mm --feed 8m/min", []value{{"leg", 9, 0.05}}},
		{"gap 2 mm does not", "--leg 6mm --gap 2mm --wire 1.2mm --feed 8m/min", []value{{"leg", 6, 0.05}}},
		{"heat", "--speed 6.8mm/s --wire 1.2mm --feed 8m/min --volts 26V --amps 250A", []value{{"arc energy", 0.956, 0.0055}, {"heat input", 0.765, 0.0055}}},
		{"heat, slow", "--speed 5mm/s --wire 1.0mm --feed 5m/min --volts 18V --amps 150A", []value{{"arc energy", 0.540, 0.0055}, {"heat input", 0.432, 0.0055}}},
		{"heat of a mean power", "--speed 6.8mm/s --wire 1.2mm --feed 8m/min --power 6.2kW", []value{{"arc energy", 0.912, 0.0055}}},
		{"heat in inches", "--speed 6.8mm/s --wire 1.2mm --feed 8m/min --volts 26V --amps 250A --units inch", []value{{"arc energy", 24.28, 0.055}}},
		{"2.4 m of 6 mm", "--leg 6mm --wire 1.2mm --feed 8m/min --efficiency 97percent --convexity 1.1 --length 2.4m", []value{{"weld metal", 0.373, 0.0055}, {"arc time", 5.41 * 60, 0.35}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := call(append([]string{"size"}, strings.Fields(c.args)...)...)
			if a.code != exitFit || a.errors != "" {
				t.Fatalf("got %+v", a)
			}
			for _, v := range c.want {
				if got := number(t, a.out, v.name); math.Abs(got-v.want) > v.tol {
					t.Errorf("%s: got %v, want %v", v.name, got, v.want)
				}
			}
		})
	}
}

func TestSizeText(t *testing.T) {
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"metric", []string{"--leg", "6 mm", "--wire", "1.2 mm", "--feed", "8 m/min", "--efficiency", "97 percent", "--convexity", "1.1"},
			"leg           6.0 mm      face factor 1.10 (as given)\n" +
				"throat        4.2 mm\n" +
				"bead area     19.8 mm2    deposition efficiency 0.97 (as given)\n" +
				"wire feed     8.00 m/min\n" +
				"travel speed  7.39 mm/s\n" +
				"deposition    4.13 kg/h   steel\n"},
		{"inch", []string{"--leg", "1/4 in", "--wire", "0.045 in", "--feed", "350 in/min", "--efficiency", "97 percent", "--convexity", "1.1", "--units", "inch"},
			"leg           0.250 in     face factor 1.10 (as given)\n" +
				"throat        0.177 in\n" +
				"bead area     0.0344 in2   deposition efficiency 0.97 (as given)\n" +
				"wire feed     350 in/min\n" +
				"travel speed  15.7 in/min\n" +
				"deposition    9.19 lb/h    steel\n"},
		{"all three", []string{"--leg", "6 mm", "--wire", "1.2 mm", "--feed", "8 m/min", "--speed", "6.8 mm/s", "--efficiency", "97 percent", "--convexity", "1.1", "--volts", "26 V", "--amps", "250 A"},
			"leg           6.3 mm      face factor 1.10 (as given)\n" +
				"throat        4.4 mm\n" +
				"bead area     21.5 mm2    deposition efficiency 0.97 (as given)\n" +
				"wire feed     8.00 m/min\n" +
				"travel speed  6.80 mm/s\n" +
				"deposition    4.13 kg/h   steel\n" +
				"arc energy    0.96 kJ/mm  voltage times current\n" +
				"heat input    0.76 kJ/mm  k = 0.80 (EN 1011-1 thermal efficiency k, as a steel maker prints it (read))\n" +
				"109 % of the metal that the wanted size needs\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := call(append([]string{"size"}, c.args...)...)
			if a.code != exitFit || a.errors != "" || a.out != c.want {
				t.Errorf("got %d, %q\n%s\nwant\n%s", a.code, a.errors, a.out, c.want)
			}
		})
	}
}

func TestSizeOfBadInput(t *testing.T) {
	const two = "give two of size (--leg, --throat or --area), --feed and --speed\n"
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"nothing", nil, "give the wire diameter: --wire, such as --wire \"1.0 mm\"\n" + two},
		{"wire only", []string{"--wire", "1 mm"}, two},
		{"two sizes", []string{"--leg", "5 mm", "--throat", "3 mm", "--wire", "1 mm", "--feed", "9 m/min"}, "give one of --leg, --throat and --area\n"},
		{"no unit", []string{"--leg", "5", "--wire", "1 mm", "--feed", "9 m/min"}, `--leg: "5" is not a length: it has no unit; allowed: mm, cm, m, in, ft; write the unit, such as "5 mm" or "5 in"` + "\n"},
		{"unit of something else", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 mm"}, `--feed: "9 mm" is not a wire feed speed`},
		{"below 0", []string{"--leg", "-5 mm", "--wire", "1 mm", "--feed", "9 m/min"}, "--leg: \"-5 mm\": more than 0 is allowed\n"},
		{"unit without quotes", []string{"--leg", "5", "mm", "--wire", "1 mm", "--feed", "9 m/min"}, `"mm" stands alone; put quotes round a value with its unit, such as --leg "5 mm"` + "\n"},
		{"gap too wide", []string{"--leg", "5 mm", "--gap", "6 mm", "--wire", "1 mm", "--feed", "9 m/min"}, "a gap of 6.0 mm must not be welded over: 5.0 mm is the most (AWS D1.1:2020 7.21.1"},
		{"gap of an area", []string{"--area", "22 mm2", "--gap", "3 mm", "--wire", "1 mm", "--feed", "9 m/min"}, "--gap grows a leg: give it with --leg or --throat\n"},
		{"volts alone", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 m/min", "--volts", "20 V"}, "give --volts and --amps together\n"},
		{"power and volts", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 m/min", "--power", "5 kW", "--volts", "20 V", "--amps", "200 A"}, "give --power, or --volts and --amps, not both\n"},
		{"wire of a rope", []string{"--leg", "5 mm", "--wire", "100 mm", "--feed", "9 m/min"}, "wire diameter 100 mm is outside 0.5 mm to 4 mm; check the value and its unit\n"},
		{"convexity", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 m/min", "--convexity", "0.1"}, "fillet shape: convexity factor 0.1 is outside 0.8 to 2; check the value and its unit\n"},
		{"convexity that is no number", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 m/min", "--convexity", "nan"}, "fillet shape: convexity factor that is not a finite number"},
		{"angle", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 m/min", "--angle", "5 deg"}, "fillet shape: included angle 5 deg is outside 30 deg to 150 deg; check the value and its unit\n"},
		{"efficiency", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 m/min", "--efficiency", "960 percent"}, "deposition efficiency (1 is all of the wire) 9.6 is outside 0.5 to 1; check the value and its unit\n"},
		{"several at once", []string{"--leg", "5 mm", "--wire", "1 mm", "--feed", "9 m/min", "--transfer", "splash", "--units", "cubit"},
			"--transfer: transfer mode \"splash\" is not known; write one of: short-circuit, globular, spray, pulsed\n--units: \"cubit\" is not a system of units: allowed are metric and inch-pound\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := call(append([]string{"size"}, c.args...)...)
			if a.code != exitUnusable || a.out != "" || !strings.HasPrefix(a.errors, "seamwright: "+c.want) {
				t.Errorf("got %d, %q\n%q\nwant %q", a.code, a.out, a.errors, "seamwright: "+c.want)
			}
			if strings.HasSuffix(c.want, "\n") && a.errors != "seamwright: "+c.want {
				t.Errorf("got  %q\nwant %q", a.errors, "seamwright: "+c.want)
			}
		})
	}
}
