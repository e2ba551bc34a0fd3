package weld_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/weld"
)

// roundTrip checks that every value's name is read back as the value.
func roundTrip[T interface {
	comparable
	fmt.Stringer
}](t *testing.T, parse func(string) (T, error), values ...T) {
	t.Helper()
	for _, v := range values {
		for _, s := range []string{v.String(), strings.ToUpper(v.String()), " " + strings.ReplaceAll(v.String(), " ", "-")} {
			if got, err := parse(s); err != nil || got != v {
				t.Errorf("parse(%q) = %v, %v; want %v", s, got, err, v)
			}
		}
	}
	for _, bad := range []string{"", "nonsense"} {
		if got, err := parse(bad); err == nil {
			t.Errorf("parse(%q) = %v, want an error", bad, got)
		} else if !strings.Contains(err.Error(), values[0].String()) && !strings.Contains(err.Error(), "MAG") {
			t.Errorf("parse(%q): the error %q does not say what is allowed", bad, err)
		}
	}
	var zero T
	if !strings.HasSuffix(zero.String(), "not stated") {
		t.Errorf("the zero value prints %q, want ... not stated", zero)
	}
}

func TestWordsRoundTrip(t *testing.T) {
	t.Run("joint", func(t *testing.T) {
		roundTrip(t, weld.ParseJointType, weld.Tee, weld.Lap, weld.InsideCorner, weld.OutsideCorner, weld.Butt, weld.Edge)
	})
	t.Run("kind", func(t *testing.T) { roundTrip(t, weld.ParseWeldKind, weld.Fillet, weld.Groove) })
	t.Run("size", func(t *testing.T) { roundTrip(t, weld.ParseSizeKind, weld.Leg, weld.Throat) })
	t.Run("family", func(t *testing.T) { roundTrip(t, weld.ParseCodeFamily, weld.ISO, weld.AWS) })
	t.Run("transfer", func(t *testing.T) {
		roundTrip(t, weld.ParseTransfer, weld.ShortCircuit, weld.Globular, weld.Spray, weld.Pulsed)
	})
	t.Run("mark", func(t *testing.T) {
		roundTrip(t, weld.ParseMark, weld.Derived, weld.Read, weld.Memory, weld.CommonPractice, weld.Given)
	})
	t.Run("progression", func(t *testing.T) { roundTrip(t, weld.ParseProgression, weld.Level, weld.Uphill, weld.Downhill) })
	t.Run("position", func(t *testing.T) {
		var all []weld.PositionName
		for p := weld.PA; p <= weld.PG; p++ {
			all = append(all, p)
		}
		for p := weld.Flat1F; p <= weld.Overhead4G; p++ {
			all = append(all, p)
		}
		roundTrip(t, weld.ParsePositionName, all...)
	})
}

func TestParseProcess(t *testing.T) {
	for s, want := range map[string]weld.Process{
		"135": weld.MAG, " 131 ": weld.MIG, "mag": weld.MAG, "GMAW": weld.MAG, "136": weld.FluxCored,
		"metal cored": weld.MetalCored, "138": weld.MetalCored, "SMAW": weld.CoveredElectrode,
	} {
		if got, err := weld.ParseProcess(s); err != nil || got != want {
			t.Errorf("ParseProcess(%q) = %v, %v; want %v", s, got, err, want)
		}
	}
	for _, s := range []string{"", "137", "laser"} {
		if got, err := weld.ParseProcess(s); err == nil {
			t.Errorf("ParseProcess(%q) = %v, want an error", s, got)
		}
	}
	if got := weld.MAG.String(); got != "135 MAG" {
		t.Errorf("MAG prints %q", got)
	}
	if weld.SubmergedArc.Planned() || !weld.MetalCored.Planned() {
		t.Error("planned processes are 131, 135, 136 and 138")
	}
}

func TestParseJointTypeAsksWhichCorner(t *testing.T) {
	_, err := weld.ParseJointType("Corner joint")
	if err == nil || !strings.Contains(err.Error(), "inside") {
		t.Errorf("got %v, want a question about the side", err)
	}
}

func TestSourceString(t *testing.T) {
	for _, row := range []struct {
		name string
		s    weld.Source
		want string
	}{
		{"year", weld.Source{Mark: weld.Read, Code: "AWS D1.1", Edition: "2025", Clause: "Table 7.7", Note: "quoted by a commentary"},
			"AWS D1.1:2025 Table 7.7, quoted by a commentary (read)"},
		{"edition in words", weld.Source{Mark: weld.Read, Code: "Machinery's Handbook", Edition: "31st ed."},
			"Machinery's Handbook, 31st ed. (read)"},
		{"practice", weld.Source{Mark: weld.CommonPractice, Code: "half a wire"}, "half a wire (common practice, no source)"},
		{"nothing", weld.Source{}, "(mark not stated)"},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := row.s.String(); got != row.want {
				t.Errorf("got %q, want %q", got, row.want)
			}
		})
	}
}

func TestRange(t *testing.T) {
	var nothing weld.Range
	if nothing.Stated() {
		t.Error("the zero range states something")
	}
	ten := weld.Around(250, 0.1, 0.1)
	for _, row := range []struct {
		name string
		r    weld.Range
		x    float64
		want bool
	}{
		{"low end of 10 %", ten, 225, true},
		{"high end of 10 %", ten, 275, true},
		{"below", ten, 224.999, false},
		{"above", ten, 275.001, false},
		{"not a number", ten, math.NaN(), false},
		{"not a number in nothing", nothing, math.NaN(), false},
		{"at least", weld.AtLeast(2), 1e9, true},
		{"at most", weld.AtMost(2), -1e9, true},
		{"at most, above", weld.AtMost(2), 2.1, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := row.r.Contains(row.x); got != row.want {
				t.Errorf("%+v contains %g: %v, want %v", row.r, row.x, got, row.want)
			}
		})
	}
	for _, bad := range []weld.Range{weld.Between(2, 1), weld.AtLeast(math.NaN()), weld.AtMost(math.Inf(1))} {
		if bad.Validate() == nil {
			t.Errorf("%+v passes", bad)
		}
	}
	if err := weld.Between(1, 1).Validate(); err != nil {
		t.Error(err)
	}
}
