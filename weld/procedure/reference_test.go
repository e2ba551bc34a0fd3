package procedure_test

import (
	"math"
	"testing"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/procedure"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// set returns an invented settings set of an invented shop: wire mm, feed m/min.
func set(id string, wire, feed, volts, amps, eta float64) procedure.Settings {
	return procedure.Settings{
		ID: id, Process: weld.MAG, WireDiameter: wire * unit.MM, Feed: feed * unit.MPerMin,
		Volts: volts, Amps: amps, Efficiency: eta, Convexity: 1.10, GasName: "M21", GasFlow: 15 * unit.LPerMin,
		ContactDistance: 15 * unit.MM,
	}
}

// The invented shop's sets.
var (
	set3  = set("3", 0.9, 7.1, 19.0, 150, .95)
	set11 = set("11", 1.0, 9.0, 23.5, 205, .96)
	set12 = set("12", 1.0, 9.4, 24.0, 212, .96)
	set15 = set("15", 1.0, 5.6, 19.5, 150, .93)
	set16 = set("16", 1.0, 8.0, 25.0, 215, .95)
	set17 = set("17", 1.0, 8.4, 26.0, 225, .95)
	set30 = set("30", 1.2, 9.6, 28.5, 285, .97)
)

// TestScenarios are worked answers of invented shop scenarios (hand calculation
// from the metal balance and k 0.8 of EN 1011-1, READ); each is printed with as
// many digits as the tolerance shows.
func TestScenarios(t *testing.T) {
	num := func(x float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	melt := func(s procedure.Settings) deposit.Melt {
		t.Helper()
		m, err := s.Melt()
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	travel := func(s procedure.Settings, leg float64) float64 {
		return num(melt(s).TravelForLeg(s.Shape(math.Pi/2, 1), leg*unit.MM)) / unit.MMPerS
	}
	leg := func(s procedure.Settings, v float64) float64 {
		return num(melt(s).Leg(s.Shape(math.Pi/2, 1), v*unit.MMPerS)) / unit.MM
	}
	forArea := func(s procedure.Settings, area float64) float64 {
		return num(melt(s).TravelForArea(area*unit.MM2)) / unit.MMPerS
	}
	heat := func(s procedure.Settings, v float64) float64 {
		e, err := s.ArcEnergy(v * unit.MMPerS)
		return num(thermal.HeatInput.FromArcEnergy(num(e.PerLength, err), s.Process)) / unit.KJPerMM
	}
	a85, err := section.FromThroat(math.Pi/2, 8.5*unit.MM)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name           string
		got, want, tol float64
	}{
		{"S1 z5 set 11, mm/s", travel(set11, 5), 8.2, 0.05},
		{"S1 leg at 6.8 mm/s", leg(set11, 6.8), 5.5, 0.05},
		{"S1 wire more at 6.8 mm/s", travel(set11, 5)/6.8 - 1, 0.21, 0.005},
		{"S2 leg at 10.16 mm/s", leg(set3, 10.16), 3.6, 0.05},
		{"S2 heat input at 10.16 mm/s", heat(set3, 10.16), 0.22, 0.005},
		{"S2 leg at 24 mm/s", leg(set3, 24), 2.3, 0.05},
		{"S2 heat input at 24 mm/s", heat(set3, 24), 0.095, 0.0005},
		{"S3 z6 set 12, mm/s", travel(set12, 6), 5.97, 0.005},
		{"S3 leg at 6.8 mm/s", leg(set12, 6.8), 5.6, 0.05},
		{"S3 arc time of 674.2 mm, s", num(deposit.ArcTime(0.6742, travel(set12, 6)*unit.MMPerS)), 113, 0.5},
		{"S6 a8.5 in z, mm", a85.Leg1 / unit.MM, 12.0, 0.05},
		{"S6 area of z12, mm2", num(set30.Shape(math.Pi/2, 1).Area(12*unit.MM)) / unit.MM2, 79.2, 0.05},
		{"S6 one pass, mm/s", forArea(set30, 79.2), 2.2, 0.05},
		{"S6 one pass, kJ/mm", heat(set30, forArea(set30, 79.2)), 2.9, 0.05},
		{"S6 three passes, mm/s", forArea(set30, 26.4), 6.65, 0.005},
		{"S6 three passes, kJ/mm", heat(set30, forArea(set30, 26.4)), 0.98, 0.005},
		{"S6 arc time of three passes, s", 3 * num(deposit.ArcTime(0.8, forArea(set30, 26.4)*unit.MMPerS)), 361, 0.5},
		{"S7 root 22 mm2, mm/s", forArea(set15, 22), 3.1, 0.05},
		{"S7 root at 3.1 mm/s, kJ/mm", heat(set15, 3.1), 0.75, 0.005},
		{"S7 fill in one pass at 2.8 mm/s, kJ/mm", heat(set16, 2.8), 1.53, 0.006},
		{"S7 fill 18.5 mm2, mm/s", forArea(set16, 18.5), 5.4, 0.05},
		{"S7 fill, kJ/mm", heat(set16, forArea(set16, 18.5)), 0.80, 0.005},
		{"S7 cap at 3.0 mm/s, kJ/mm", heat(set17, 3.0), 1.56, 0.005},
		{"S7 cap at 3.8 mm/s, kJ/mm", heat(set17, 3.8), 1.23, 0.005},
		{"S7 cap at 3.8 mm/s, mm2", num(melt(set17).BeadArea(3.8*unit.MMPerS)) / unit.MM2, 27.5, 0.05},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %.5g, want %g +- %g", row.got, row.want, row.tol)
			}
		})
	}
}

// TestD11Tolerances: V115 and its neighbours, AWS D1.1 essential variables, from
// memory.
func TestD11Tolerances(t *testing.T) {
	qualified := map[procedure.Item]struct{ value, low, high, tol float64 }{
		procedure.ItemVoltage:     {26, 24.18, 27.82, 0.01}, // V115
		procedure.ItemCurrent:     {250, 225, 275, 0.01},
		procedure.ItemTravelSpeed: {6.8, 5.1, 8.5, 0.01},
		procedure.ItemFeed:        {8, 7.2, 8.8, 0.01},
		procedure.ItemGasFlow:     {15, 12, 22.5, 0.01},
	}
	tolerances := procedure.D11Tolerances()
	if len(tolerances) != len(qualified) {
		t.Errorf("%d tolerances, want %d", len(tolerances), len(qualified))
	}
	worst := 1.0
	for _, tol := range tolerances {
		want := qualified[tol.Item]
		r := tol.Range(want.value)
		if math.Abs(r.Low-want.low) > want.tol || math.Abs(r.High-want.high) > want.tol || tol.Source.Mark != weld.Memory {
			t.Errorf("%s: %+v (%v), want %g to %g", tol.Item, r, tol.Source, want.low, want.high)
		}
		switch tol.Item {
		case procedure.ItemVoltage, procedure.ItemCurrent:
			worst *= 1 + tol.Up
		case procedure.ItemTravelSpeed:
			worst /= 1 - tol.Down
		}
	}
	if math.Abs(worst-1.569) > 0.001 {
		t.Errorf("combined worst heat input %.4f of nominal, want 1.569", worst)
	}
}
