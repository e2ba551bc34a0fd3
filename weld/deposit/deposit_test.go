package deposit_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/deposit"
	"seamwright/weld/section"
)

// TestBalanceRoundTrip: leg, travel and feed give each other back, and the metal
// in a metre of bead is the metal fed in the time of that metre.
func TestBalanceRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := deposit.Melt{
			WireDiameter: rapid.Float64Range(0.8, 1.6).Draw(t, "wire") * unit.MM,
			Feed:         rapid.Float64Range(2, 15).Draw(t, "feed") * unit.MPerMin,
			Efficiency:   rapid.Float64Range(0.85, 1).Draw(t, "efficiency"),
		}
		s := deposit.Shape{
			Angle:     rapid.Float64Range(30, 150).Draw(t, "angle") * unit.Deg,
			LegRatio:  rapid.Float64Range(0.5, 2).Draw(t, "ratio"),
			Convexity: rapid.Float64Range(1, 1.4).Draw(t, "k"),
		}
		travel := rapid.Float64Range(2, 25).Draw(t, "travel") * unit.MMPerS
		leg, err := m.Leg(s, travel)
		if err != nil {
			t.Fatal(err)
		}
		back, err := m.TravelForLeg(s, leg)
		if err != nil || math.Abs(back-travel) > 1e-9*travel {
			t.Fatalf("travel back %g, %v; want %g", back, err, travel)
		}
		fed, err := m.FeedForLeg(s, leg, travel)
		if err != nil || math.Abs(fed.Feed-m.Feed) > 1e-9*m.Feed {
			t.Fatalf("feed back %g, %v; want %g", fed.Feed, err, m.Feed)
		}
		area, err := m.BeadArea(travel)
		if err != nil {
			t.Fatal(err)
		}
		wire := math.Pi / 4 * m.WireDiameter * m.WireDiameter * m.Feed * (1 / travel) // m3 fed in a metre
		if math.Abs(area-wire*m.Efficiency) > 1e-12*area {
			t.Fatalf("metre of bead %g m3, wire %g m3 at %g", area, wire, m.Efficiency)
		}
		// The section package draws the same triangle by another route.
		f, err := section.New(s.Angle, leg, leg*s.LegRatio)
		if err == nil && math.Abs(f.Area()*s.Convexity-area) > 1e-9*area {
			t.Fatalf("triangle %g m2, bead %g m2", f.Area()*s.Convexity, area)
		}
	})
}

// TestBurnoffRoundTrip: feed and current give each other back.
func TestBurnoffRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.9, 1.2).Draw(t, "wire") * unit.MM
		ext := rapid.Float64Range(8, 25).Draw(t, "extension") * unit.MM
		feed := rapid.Float64Range(4, 12).Draw(t, "feed") * unit.MPerMin
		amps, err := deposit.EstimateCurrent(d, feed, ext)
		if err != nil {
			t.Fatal(err)
		}
		back, err := deposit.EstimateFeed(d, amps.Value, ext)
		if err != nil || math.Abs(back.Value-feed) > 1e-9*feed {
			t.Fatalf("feed back %g, %v; want %g", back.Value, err, feed)
		}
		longer, err := deposit.EstimateCurrent(d, feed, ext+5*unit.MM)
		if err != nil || longer.Value >= amps.Value {
			t.Fatalf("5 mm more extension gives %g A, %v; want below %g A", longer.Value, err, amps.Value)
		}
	})
}

func TestWireSizes(t *testing.T) {
	sizes := deposit.WireSizes()
	for i, w := range sizes {
		if i > 0 && w.Diameter <= sizes[i-1].Diameter {
			t.Errorf("%s is not thicker than %s", w.Name, sizes[i-1].Name)
		}
		if got, err := deposit.FindWire(w.Diameter); err != nil || got != w {
			t.Errorf("FindWire(%s) = %v, %v", w.Name, got, err)
		}
		if e := w.TwinError().Value; w.Twin == "" || e == 0 || math.Abs(e) > 0.16 {
			t.Errorf("%s and its twin %q differ by %g", w.Name, w.Twin, e)
		}
	}
	for _, d := range []float64{1.17e-3, 0, math.NaN(), 3e-3} {
		if w, err := deposit.FindWire(d); err == nil {
			t.Errorf("FindWire(%g) = %v, want an error", d, w)
		}
	}
}

func TestEfficiencyByTransfer(t *testing.T) {
	for transfer, want := range map[weld.Transfer]float64{
		weld.Spray: 0.97, weld.Pulsed: 0.97, weld.ShortCircuit: 0.95, weld.Globular: 0.93, 0: 0.93,
	} {
		if got := deposit.Efficiency(transfer); got.Value != want || !got.Usual.Contains(want) || got.Source.Mark != weld.Memory {
			t.Errorf("%v: %+v, want %g", transfer, got, want)
		}
	}
}

// TestRefusals: input out of range is an error naming the range.
func TestRefusals(t *testing.T) {
	good := melt(t, 1.0, 9, 0.96)
	square := deposit.SquareFillet(1.1)
	for _, row := range []struct {
		name string
		call func() error
		says string
	}{
		{"wire in millimetres", func() error { _, err := deposit.NewMelt(1, 0.15, 0.96); return err }, "0.5 mm to 4 mm"},
		{"feed in m/min", func() error { _, err := deposit.NewMelt(1e-3, 9, 0.96); return err }, "30 m/min"},
		{"efficiency in percent", func() error { _, err := deposit.NewMelt(1e-3, 0.15, 96); return err }, "0.5 to 1"},
		{"zero melt", func() error { _, err := deposit.Melt{}.BeadArea(6.8e-3); return err }, "wire diameter"},
		{"standing still", func() error { _, err := good.BeadArea(0); return err }, "travel speed"},
		{"travel in mm/s", func() error { _, err := good.BeadArea(6.8); return err }, "100 mm/s"},
		{"no area", func() error { _, err := good.TravelForArea(0); return err }, "bead area"},
		{"leg in millimetres", func() error { _, err := good.TravelForLeg(square, 5); return err }, "leg"},
		{"leg that no travel gives", func() error { _, err := good.TravelForLeg(square, 55e-3); return err }, "travel speed"},
		{"feed beyond any feeder", func() error { _, err := good.FeedForLeg(square, 15e-3, 20e-3); return err }, "wire feed"},
		{"angle in degrees", func() error { _, err := deposit.Shape{Angle: 90, LegRatio: 1, Convexity: 1}.Leg(1e-5); return err }, "included angle"},
		{"no convexity", func() error { _, err := deposit.SquareFillet(0).Area(5e-3); return err }, "convexity"},
		{"density in g/cm3", func() error { _, err := good.DepositionRate(7.85); return err }, "density"},
		{"area not a number", func() error { _, err := deposit.Mass(math.NaN(), 1, 7850); return err }, "bead area"},
		{"negative length", func() error { _, err := deposit.ArcTime(-1, 6.8e-3); return err }, "weld length"},
		{"negative dwell", func() error { _, err := deposit.DwellVolume(2e-5, 6.8e-3, -1); return err }, "extra time"},
		{"current of thick wire", func() error { _, err := deposit.EstimateCurrent(1.6e-3, 0.13, 15e-3); return err }, "0.85 mm to 1.25 mm"},
		{"current at a crawl", func() error { _, err := deposit.EstimateCurrent(1.2e-3, 0.01, 15e-3); return err }, "2 m/min"},
		{"feed for no current", func() error { _, err := deposit.EstimateFeed(1.2e-3, 0, 15e-3); return err }, "50 A to 450 A"},
	} {
		t.Run(row.name, func(t *testing.T) {
			err := row.call()
			if err == nil || !strings.Contains(err.Error(), row.says) {
				t.Errorf("error %v, want one that says %q", err, row.says)
			}
		})
	}
}

func BenchmarkTravelForLeg(b *testing.B) {
	m := deposit.Melt{WireDiameter: 1e-3, Feed: 0.15, Efficiency: 0.96}
	s := deposit.SquareFillet(1.1)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.TravelForLeg(s, 5e-3); err != nil {
			b.Fatal(err)
		}
	}
}
