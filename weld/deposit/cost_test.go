package deposit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
)

// TestCostReference are the check values of the reference page on consumables,
// time and cost; source and mark stand in each row.
func TestCostReference(t *testing.T) {
	num := func(x float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	// perPound prices a pound of weld metal as a worksheet does.
	perPound := func(lbPerH, dollarsPerH, factor, dollarsPerLb, eta, cfh, dollarsPerFt3 float64) float64 {
		t.Helper()
		use, err := deposit.Laying{Rate: lbPerH * unit.LbPerH, Factor: factor, Efficiency: eta, GasFlow: cfh * unit.CFH}.PerMass()
		if err != nil {
			t.Fatal(err)
		}
		ft3 := unit.Foot * unit.Foot * unit.Foot
		rates := deposit.Rates{Labour: dollarsPerH / unit.Hour, Wire: dollarsPerLb / unit.Pound, Gas: dollarsPerFt3 / ft3}
		return rates.Cost(use).Total() * unit.Pound
	}
	arc := num(deposit.ArcTime(2.4, num(melt(t, 1.2, 8, .97).TravelForLeg(deposit.SquareFillet(1.1), 6*unit.MM))))
	mass := num(deposit.Mass(19.8*unit.MM2, 2.4, deposit.SteelDensity))
	gas := num(deposit.Gas{Flow: 16 * unit.LPerMin}.Used(arc, 1))
	worked := func(factor float64) float64 { return num(deposit.WorkedTime(arc, factor)) }
	rates := deposit.Rates{Labour: 60.0 / unit.Hour, Wire: 2.5, Gas: 0.005 / 1e-3}
	cost := rates.Cost(deposit.Use{Time: worked(0.30), Wire: mass / .97, Gas: gas})
	month := 22 * 8 * unit.Hour * 0.5 // arc time of one post, s
	co2 := 3 * num(deposit.Gas{Flow: 12 * unit.LPerMin}.Used(month, 0)) * deposit.CarbonDioxideDensity
	for _, row := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"V053 40 cfh in L/min", "unit, DERIVED", 40 * unit.CFH / unit.LPerMin, 18.88, 0.01},
		{"V102 flux-cored, currency per lb", "filler-metal maker's worksheet prints 11.93, READ", perPound(10.2, 45, 0.45, 1.78, 0.87, 40, 0.02), 11.93, 0.01},
		{"V103 covered electrode, currency per lb", "filler-metal maker's worksheet prints 29.11, READ", perPound(5.4, 45, 0.30, 0.85, 0.64, 0, 0), 29.11, 0.01},
		{"V104 CO2 of three posts in a month, kg", "gas supplier's table prints about 350, READ", co2, 349.7, 1},
		{"V106 duty cycle 350 A 60 % at 300 A, %", "I squared rule, MEMORY", 100 * num(deposit.DutyCycle(0.60, 350, 300)), 81.7, 0.1},
		{"duty cycle 100 % at 271 A, %", "I squared rule, MEMORY", 100 * num(deposit.DutyCycle(0.60, 350, 271)), 100, 0.1},
		{"2.4 m of z6: weld metal, kg", "worked, DERIVED", mass, 0.373, 0.0005},
		{"2.4 m of z6: rate, kg/h", "worked, DERIVED", num(melt(t, 1.2, 8, .97).DepositionRate(deposit.SteelDensity)) / unit.KGPerH, 4.134, 0.0005},
		{"2.4 m of z6: worked time at 0.30, min", "worked, DERIVED", worked(0.30) / unit.Minute, 18.0, 0.06},
		{"2.4 m of z6: worked time at 0.60, min", "worked, DERIVED", worked(0.60) / unit.Minute, 9.0, 0.03},
		{"2.4 m of z6: wire, kg", "worked, DERIVED", mass / .97, 0.385, 0.0005},
		{"2.4 m of z6: gas at 16 L/min, L", "worked, DERIVED", gas / 1e-3, 86.6, 0.05},
		{"2.4 m of z6: labour at 60 per h, 0.30", "worked, DERIVED", cost.Labour, 18.05, 0.005},
		{"2.4 m of z6: labour at 60 per h, 0.60", "worked, DERIVED", rates.Cost(deposit.Use{Time: worked(0.60)}).Total(), 9.02, 0.005},
		{"2.4 m of z6: wire at 2.5 per kg", "worked, DERIVED", cost.Wire, 0.96, 0.005},
		{"2.4 m of z6: gas at 0.005 per L", "worked, DERIVED", cost.Gas, 0.43, 0.005},
		{"674 mm at 5.97 mm/s, s", "shop check value, DERIVED", num(deposit.ArcTime(0.674, 5.97e-3)), 113, 0.5},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %.6g, want %g +- %g (%s)", row.got, row.want, row.tol, row.source)
			}
		})
	}
}

// TestOperatingFactors: published factors by way of welding, READ or MEMORY.
func TestOperatingFactors(t *testing.T) {
	for way, want := range map[deposit.Way]struct {
		low, high float64
		mark      weld.Mark
	}{
		deposit.ManualElectrode: {0.30, 0.30, weld.Read}, deposit.SemiAutomatic: {0.40, 0.45, weld.Read},
		deposit.Mechanised: {0.50, 0.50, weld.Read}, deposit.Automatic: {0.60, 0.80, weld.Read},
		deposit.SmallShopManual: {0.15, 0.30, weld.Memory}, deposit.CartArm: {0.30, 0.50, weld.Memory}, deposit.CartArmTwoPlaces: {0.50, 0.70, weld.Memory},
	} {
		got, err := deposit.OperatingFactor(way)
		if err != nil || got.Usual != weld.Between(want.low, want.high) || !got.Usual.Contains(got.Value) || got.Source.Mark != want.mark {
			t.Errorf("%v: %+v, %v; want %+v", way, got, err, want)
		}
	}
	if flow, err := deposit.UsualGasFlow(1.0e-3); err != nil || math.Abs(flow.Usual.Low/unit.LPerMin-10) > 1e-9 || math.Abs(flow.Usual.High/unit.LPerMin-12) > 1e-9 {
		t.Errorf("gas for 1.0 mm wire: %+v, %v; want 10 to 12 L/min", flow, err)
	}
	if e := deposit.SourceEfficiency(); !e.Usual.Contains(e.Value) {
		t.Errorf("power source %+v", e)
	}
}

func TestBreakEven(t *testing.T) {
	for _, row := range []struct {
		name       string
		way, other deposit.Batch
		want       deposit.BreakEven
	}{
		{"teaching pays off", deposit.Batch{Once: 120, PerPart: 8}, deposit.Batch{Once: 0, PerPart: 20}, deposit.BreakEven{Advantage: deposit.FromSize, Parts: 10, PerPart: 12}},
		{"one part more", deposit.Batch{Once: 121, PerPart: 8}, deposit.Batch{Once: 0, PerPart: 20}, deposit.BreakEven{Advantage: deposit.FromSize, Parts: 11, PerPart: 12}},
		{"from the first", deposit.Batch{Once: 10, PerPart: 8}, deposit.Batch{Once: 0, PerPart: 20}, deposit.BreakEven{Advantage: deposit.Always, Parts: 1, PerPart: 12}},
		{"dearer in all", deposit.Batch{Once: 10, PerPart: 20}, deposit.Batch{Once: 0, PerPart: 8}, deposit.BreakEven{Advantage: deposit.Never, PerPart: -12}},
		{"the same per part", deposit.Batch{Once: 10, PerPart: 8}, deposit.Batch{Once: 0, PerPart: 8}, deposit.BreakEven{Advantage: deposit.Never}},
		{"the same", deposit.Batch{Once: 10, PerPart: 8}, deposit.Batch{Once: 10, PerPart: 8}, deposit.BreakEven{Advantage: deposit.Always, Parts: 1}},
		{"for small batches", deposit.Batch{Once: 0, PerPart: 20}, deposit.Batch{Once: 120, PerPart: 8}, deposit.BreakEven{Advantage: deposit.UpToSize, Parts: 10, PerPart: -12}},
		{"nothing costs", deposit.Batch{}, deposit.Batch{}, deposit.BreakEven{Advantage: deposit.Always, Parts: 1}},
	} {
		if got, err := deposit.BreakEvenOf(row.way, row.other); err != nil || got != row.want {
			t.Errorf("%s: %+v (%v), %v; want %+v", row.name, got, got.Advantage, err, row.want)
		}
	}
	if _, err := deposit.BreakEvenOf(deposit.Batch{Once: -1}, deposit.Batch{}); err == nil || err.Error() != "break-even batch: a cost is -1; give costs that are 0 or more" {
		t.Errorf("got %v", err)
	}
}

// TestBreakEvenByCounting: the answer is what comparing every batch gives.
func TestBreakEvenByCounting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cost := func(name string) float64 { return float64(rapid.IntRange(0, 300).Draw(t, name)) }
		way, other := deposit.Batch{Once: cost("once"), PerPart: cost("part") / 10}, deposit.Batch{Once: cost("once'"), PerPart: cost("part'") / 10}
		got, err := deposit.BreakEvenOf(way, other)
		if err != nil {
			t.Fatal(err)
		}
		for n := 1; n <= 4000; n++ {
			if math.Abs(way.Cost(n)-other.Cost(n)) < 1e-6 {
				continue
			}
			want := way.Cost(n) < other.Cost(n)
			says := got.Advantage == deposit.Always || got.Advantage == deposit.FromSize && n >= got.Parts || got.Advantage == deposit.UpToSize && n <= got.Parts
			if says != want {
				t.Fatalf("%d parts: %g against %g, but %v %d", n, way.Cost(n), other.Cost(n), got.Advantage, got.Parts)
			}
		}
	})
}

// TestUseAdds: cost is linear in use.
func TestUseAdds(t *testing.T) {
	a, b := deposit.Use{Time: 1, Wire: 2, Gas: 3, Energy: 4}, deposit.Use{Time: 10, Wire: 20, Gas: 30, Energy: 40}
	rates := deposit.Rates{Labour: 1, Wire: 2, Gas: 3, Energy: 4}
	if got := rates.Cost(a.Add(b)).Total(); got != rates.Cost(a).Total()+rates.Cost(b).Total() || got != 330 {
		t.Errorf("got %g", got)
	}
	if err := rates.Validate(); err != nil {
		t.Error(err)
	}
}

// TestCostRefusals: exact words.
func TestCostRefusals(t *testing.T) {
	for _, row := range []struct {
		name string
		err  func() error
		says string
	}{
		{"price below nothing", func() error { return deposit.Rates{Gas: -1}.Validate() }, "rates: the price of gas is -1; give a price that is 0 or more"},
		{"factor in percent", func() error { _, err := deposit.WorkedTime(60, 45); return err }, "worked time: operating factor (arc time over worked time) 45 is outside 0.02 to 1; check the value and its unit"},
		{"no way", func() error { _, err := deposit.OperatingFactor(0); return err }, "operating factor: way of welding not stated; say how the shop welds, or give its own factor"},
		{"gas in L/min", func() error { _, err := deposit.Gas{Flow: 16}.Used(60, 1); return err }, "gas used: gas flow 9.6e+05 L/min is outside 2 L/min to 60 L/min; check the value and its unit"},
		{"starts below nothing", func() error { _, err := deposit.Gas{Flow: 2e-4}.Used(60, -1); return err }, "gas used: number of arc starts -1 is outside 0 to 1e+06; check the value and its unit"},
		{"rate in kg/h", func() error { _, err := deposit.Laying{Rate: 4, Factor: 0.4, Efficiency: 0.9}.PerMass(); return err }, "use per mass: deposition rate 1.44e+04 kg/h is outside 0.05 kg/h to 50 kg/h; check the value and its unit"},
		{"duty in percent", func() error { _, err := deposit.DutyCycle(60, 350, 300); return err }, "duty cycle: duty cycle (1 is always) 60 is outside 0.05 to 1; check the value and its unit"},
		{"source that gives more than it takes", func() error { _, err := deposit.MainsEnergy(6000, 60, 1.2); return err }, "mains energy: efficiency of the power source 1.2 is outside 0.4 to 1; check the value and its unit"},
		{"wire in mm", func() error { _, err := deposit.UsualGasFlow(1); return err }, "gas flow: wire diameter 1000 mm is outside 0.55 mm to 2.45 mm; check the value and its unit"},
	} {
		if err := row.err(); err == nil || err.Error() != row.says {
			t.Errorf("%s: got  %v\nwant %s", row.name, err, row.says)
		}
	}
	if got, err := deposit.MainsEnergy(6000, 60, 0.8); err != nil || got != 450000 {
		t.Errorf("mains energy %g J, %v; want 450 kJ", got, err)
	}
}
