package weld_test

import (
	"math"
	"testing"

	"seamwright/unit"
	"seamwright/weld"
)

func TestSuggestTravelSpeed(t *testing.T) {
	for _, row := range []struct {
		name    string
		typed   float64
		readAs  unit.Unit
		meant   float64 // mm/s
		meantIn unit.Unit
		text    string
	}{
		// The invented sheet-lap scenario: 24 in/min typed as mm/s.
		{"in/min as mm/s", 24, unit.MillimetresPerSecond, 10.16, unit.InchesPerMinute,
			"24 mm/s is 56.7 in/min; did you mean 24 in/min = 10.2 mm/s?"},
		{"mm/min as mm/s", 408, unit.MillimetresPerSecond, 6.8, unit.MillimetresPerMinute,
			"408 mm/s is 24480 mm/min; did you mean 408 mm/min = 6.8 mm/s?"},
		{"cm/min as mm/s", 40.8, unit.MillimetresPerSecond, 6.8, unit.CentimetresPerMinute,
			"40.8 mm/s is 245 cm/min; did you mean 40.8 cm/min = 6.8 mm/s?"},
		{"m/min as mm/s", 0.408, unit.MillimetresPerSecond, 6.8, unit.MetresPerMinute,
			"0.408 mm/s is 0.0245 m/min; did you mean 0.408 m/min = 6.8 mm/s?"},
		{"in/min as mm/min", 16.06, unit.MillimetresPerMinute, 6.8, unit.InchesPerMinute, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := weld.SuggestTravelSpeed(row.readAs.SI(row.typed), row.readAs)
			if len(got) == 0 {
				t.Fatal("no suggestion")
			}
			if math.Abs(got[0].Meant/unit.MMPerS-row.meant) > 0.005 || got[0].MeantIn != row.meantIn {
				t.Errorf("first suggestion %.4g mm/s in %v, want %g in %v", got[0].Meant/unit.MMPerS, got[0].MeantIn, row.meant, row.meantIn)
			}
			if row.text != "" && got[0].Text != row.text {
				t.Errorf("text %q, want %q", got[0].Text, row.text)
			}
		})
	}
}

func TestSuggestOthers(t *testing.T) {
	// The invented sheet-lap scenario: gas 30 cubic feet an hour typed as L/min.
	gas := weld.SuggestGasFlow(30*unit.LPerMin, unit.LitresPerMinute)
	if len(gas) != 1 || math.Abs(gas[0].Meant/unit.LPerMin-14.16) > 0.005 {
		t.Errorf("gas: %+v, want 14.16 L/min", gas)
	}
	feed := weld.SuggestWireFeed(300*unit.MPerMin, unit.MetresPerMinute)
	if len(feed) == 0 || math.Abs(feed[0].Meant/unit.MPerMin-7.62) > 0.005 {
		t.Errorf("feed: %+v, want 7.62 m/min first", feed)
	}
}

func TestSuggestNothing(t *testing.T) {
	for _, row := range []struct {
		name string
		got  []weld.Suggestion
	}{
		{"usual speed", weld.SuggestTravelSpeed(6.8e-3, unit.MillimetresPerSecond)},
		{"zero", weld.SuggestTravelSpeed(0, unit.MillimetresPerSecond)},
		{"negative", weld.SuggestTravelSpeed(-24e-3, unit.MillimetresPerSecond)},
		{"not a number", weld.SuggestTravelSpeed(math.NaN(), unit.MillimetresPerSecond)},
		{"hopeless", weld.SuggestTravelSpeed(1e9, unit.MillimetresPerSecond)},
		{"unit of another kind", weld.SuggestTravelSpeed(24e-3, unit.LitresPerMinute)},
		{"usual gas", weld.SuggestGasFlow(15*unit.LPerMin, unit.LitresPerMinute)},
	} {
		t.Run(row.name, func(t *testing.T) {
			if len(row.got) != 0 {
				t.Errorf("got %+v, want nothing", row.got)
			}
		})
	}
}

// TestLimitsCarrySources: every limit says how it is known.
func TestLimitsCarrySources(t *testing.T) {
	for name, l := range map[string]weld.Limit{
		"travel": weld.TravelSpeedLimit(), "usual travel": weld.UsualTravelSpeed(weld.PF),
		"feed": weld.UsualWireFeed(), "gas": weld.UsualGasFlow(),
	} {
		if l.Source.Mark == 0 || !l.Range.Stated() || l.Range.Validate() != nil {
			t.Errorf("%s: %+v lacks a mark or a range", name, l)
		}
	}
}
