package deposit_test

import (
	"math"
	"testing"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
)

// handbookDensity is 0.283 lb/in3 in kg/m3, the figure of the American
// handbooks (READ in a filler-metal maker's handbook).
const handbookDensity = 0.283 * unit.Pound / (unit.Inch * unit.Inch * unit.Inch)

// melt returns a checked melt for d in mm and feed in m/min.
func melt(t *testing.T, d, feed, eta float64) deposit.Melt {
	t.Helper()
	m, err := deposit.NewMelt(d*unit.MM, feed*unit.MPerMin, eta)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestReferenceValues are the check values of the project's reference page that
// belong to the metal balance; source and mark stand in each row.
func TestReferenceValues(t *testing.T) {
	num := func(x float64, err error) float64 {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	fig := func(f weld.Figure, err error) float64 { t.Helper(); return num(f.Value, err) }
	feed := func(m deposit.Melt, err error) float64 { t.Helper(); return num(m.Feed, err) / unit.MPerMin }
	k := deposit.SquareFillet
	v8 := num(melt(t, 1.2, 8, .97).TravelForLeg(k(1.1), 6*unit.MM))
	halfInch := 0.5 * 0.5 / 2 * unit.In2
	inch45 := 0.045 * unit.Inch
	wireLbPerH := num(deposit.Melt{WireDiameter: inch45, Feed: 420 * unit.InPerMin, Efficiency: 1}.DepositionRate(handbookDensity)) / unit.LbPerH
	inPerLb := func(d float64) float64 { return unit.Pound / (deposit.WireArea(d) * handbookDensity) / unit.Inch }
	for _, row := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"V039 half-inch fillet, lb/ft", "filler-metal handbook example, READ", num(deposit.Mass(halfInch, unit.Foot, handbookDensity)) / unit.Pound, 0.424, 0.001},
		{"V040 1.2 mm per m/min, kg/h", "mass balance, DERIVED", num(melt(t, 1.2, 1, 1).DepositionRate(deposit.SteelDensity)) / unit.KGPerH, 0.5327, 1e-4},
		// The source's own table of inches per lb gives 11.48 +-0.05; its density
		// gives 1.2 % less, the difference the source carries in itself.
		{"V041 0.045 in at 420 in/min, lb/h", "wire maker's table, READ", wireLbPerH, 11.48, 0.015 * 11.48},
		{"V042 0.045 in, inches per lb", "wire maker's table prints 2196, READ", inPerLb(inch45), 2196, 0.015 * 2196},
		{"V042 the same by density", "0.283 lb/in3, DERIVED", inPerLb(inch45), 2222, 0.5},
		{"0.030 in, inches per lb", "wire maker's table prints 4956, READ", inPerLb(0.030 * unit.Inch), 4956, 0.015 * 4956},
		{"0.035 in, inches per lb", "wire maker's table prints 3648, READ", inPerLb(0.035 * unit.Inch), 3648, 0.015 * 3648},
		{"1/16 in, inches per lb", "wire maker's table prints 1152, READ", inPerLb(unit.Inch / 16), 1152, 0.015 * 1152},
		{"V043 bead area", "balance, DERIVED", num(melt(t, 1.2, 8, .97).BeadArea(6.8*unit.MMPerS)) / unit.MM2, 21.51, 0.01},
		{"V044 leg k1.1", "balance, DERIVED", num(melt(t, 1.2, 8, .97).Leg(k(1.1), 6.8*unit.MMPerS)) / unit.MM, 6.25, 0.01},
		{"V045 leg k1.0", "balance, DERIVED", num(melt(t, 1.0, 7, .97).Leg(k(1.0), 6.8*unit.MMPerS)) / unit.MM, 5.11, 0.01},
		{"V046 travel for z6", "balance, DERIVED", v8 / unit.MMPerS, 7.388, 0.005},
		{"V047 feed for z5", "balance, DERIVED", feed(melt(t, 1.0, 7, .97).FeedForLeg(k(1.1), 5*unit.MM, 6.8*unit.MMPerS)), 7.364, 0.005},
		{"feed for z8", "balance, DERIVED", feed(melt(t, 1.2, 7, .97).FeedForLeg(k(1.1), 8*unit.MM, 6.8*unit.MMPerS)), 13.1, 0.05},
		{"V048 feed at 270 A, 15 mm", "Lesnewich form, constants of Norrish, MEMORY", fig(deposit.EstimateFeed(1.2*unit.MM, 270, 15*unit.MM)) / unit.MPerMin, 8.141, 0.01},
		{"V049 current at 8 m/min, 20 mm", "Lesnewich form, constants of Norrish, MEMORY", fig(deposit.EstimateCurrent(1.2*unit.MM, 8*unit.MPerMin, 20*unit.MM)), 244.8, 0.2},
		{"current at 8 m/min, 15 mm", "Lesnewich form, constants of Norrish, MEMORY", fig(deposit.EstimateCurrent(1.2*unit.MM, 8*unit.MPerMin, 15*unit.MM)), 266.7, 0.2},
		{"V050 0.045 in short circuit 210 in/min", "Machinery's Handbook 31 Table 5, READ", fig(deposit.EstimateCurrent(1.2*unit.MM, 210*unit.InPerMin, 12*unit.MM)), 190, 0.2 * 190},
		{"V051 0.035 in spray 560 in/min", "Machinery's Handbook 31 Table 5, READ", fig(deposit.EstimateCurrent(0.9*unit.MM, 560*unit.InPerMin, 14.5*unit.MM)), 280, 0.2 * 280},
		{"V052 mass of 9.6 m of 100.8 mm2, kg", "record in public code, READ", num(deposit.Mass(100.8*unit.MM2, 9.6, deposit.SteelDensity)), 7.596, 0.001},
		{"V052 time at 5 kg/h, h", "record in public code, READ", num(deposit.Mass(100.8*unit.MM2, 9.6, deposit.SteelDensity)) / (5 * unit.KGPerH) / unit.Hour, 1.519, 0.001},
		{"V105 arc time of 2.4 m of z6, min", "balance, DERIVED", num(deposit.ArcTime(2.4, v8)) / unit.Minute, 5.415, 0.01},
		{"V109 corner metal, mm3", "90 deg at 60 deg/s, DERIVED", num(deposit.DwellVolume(19.8*unit.MM2, 6.8*unit.MMPerS, 1.5)) / 1e-9, 202.0, 0.5},
		{"0.045 in taken for 1.2 mm", "ratio of areas, DERIVED", must(deposit.FindWire(inch45)).TwinError().Value, 0.10, 0.005},
		{"inch check of deposition, lb/h", "13.1 D^2 WFS E for 0.045 in, 300 in/min prints 7.96, READ", wireLbPerH * 300 / 420, 7.96, 0.02 * 7.96},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %.6g, want %g +- %g (%s)", row.got, row.want, row.tol, row.source)
			}
		})
	}
}

// must returns x of a call that a test row cannot do without.
func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}

// TestLegTable is a table of area and leg at 6.8 mm/s with efficiency 0.97,
// computed by hand from the balance (DERIVED): area, then legs for k 1.0, 1.1,
// 1.2.
func TestLegTable(t *testing.T) {
	for _, row := range []struct{ d, feed, area, z10, z11, z12 float64 }{
		{0.9, 4, 6.05, 3.48, 3.32, 3.18}, {0.9, 8, 12.10, 4.92, 4.69, 4.49}, {0.9, 12, 18.15, 6.02, 5.74, 5.50},
		{1.0, 4, 7.47, 3.86, 3.69, 3.53}, {1.0, 8, 14.94, 5.47, 5.21, 4.99}, {1.0, 12, 22.41, 6.69, 6.38, 6.11},
		{1.2, 4, 10.76, 4.64, 4.42, 4.23}, {1.2, 8, 21.51, 6.56, 6.25, 5.99}, {1.2, 12, 32.27, 8.03, 7.66, 7.33},
	} {
		m := melt(t, row.d, row.feed, 0.97)
		if got := must(m.BeadArea(6.8*unit.MMPerS)) / unit.MM2; math.Abs(got-row.area) > 0.006 {
			t.Errorf("%g mm %g m/min: area %.4f, want %g", row.d, row.feed, got, row.area)
		}
		for k, want := range map[float64]float64{1.0: row.z10, 1.1: row.z11, 1.2: row.z12} {
			if got := must(m.Leg(deposit.SquareFillet(k), 6.8*unit.MMPerS)) / unit.MM; math.Abs(got-want) > 0.006 {
				t.Errorf("%g mm %g m/min k %g: leg %.4f, want %g", row.d, row.feed, k, got, want)
			}
		}
	}
}

// TestBurnoffAgainstHandbook: every pair of Machinery's Handbook 31 Table 5
// (READ) for the wires that the estimate covers lies within 20 % of it.
// Extensions: 12 mm short circuit (MEMORY), 14.5 mm spray, the middle of the 13
// to 16 mm that the book gives for 0.035 in. That spray pair is the tightest:
// with 15 mm it would be 20.3 % off, so the estimate is a guide and no more.
func TestBurnoffAgainstHandbook(t *testing.T) {
	for _, row := range []struct{ d, feed, ext, amps float64 }{
		{0.9, 210, 12, 140}, {0.9, 560, 14.5, 280}, {1.2, 210, 12, 190}, {1.2, 420, 14.5, 380},
	} {
		got := must(deposit.EstimateCurrent(row.d*unit.MM, row.feed*unit.InPerMin, row.ext*unit.MM))
		if math.Abs(got.Value-row.amps) > deposit.CurrentSpread*row.amps {
			t.Errorf("%g mm %g in/min: %.0f A, handbook %g A", row.d, row.feed, got.Value, row.amps)
		}
	}
}
