package weld

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strconv"

	"seamwright/unit"
)

// Suggestion is what a person may have meant by a number typed under the wrong
// unit.
type Suggestion struct {
	Meant   float64   // the value meant, m/s or m3/s
	MeantIn unit.Unit // the unit that was in the person's mind
	Text    string    // the question to ask, in words
}

// travelUnits are the units in which shops write travel speed. Common practice,
// no source.
var travelUnits = []unit.Unit{unit.MillimetresPerSecond, unit.MillimetresPerMinute,
	unit.CentimetresPerMinute, unit.MetresPerMinute, unit.InchesPerMinute}

// SuggestTravelSpeed returns what may have been meant by a travel speed (m/s)
// that was read in the unit readAs, likeliest first: nothing when the speed is
// usual, when no unit makes it so, or when readAs is no unit of travel speed.
//
//	24 mm/s is 56.7 in/min; did you mean 24 in/min = 10.2 mm/s?
func SuggestTravelSpeed(speed float64, readAs unit.Unit) []Suggestion {
	return suggest(travelUnits, speed, readAs, UsualTravelSpeed(0).Range, UsualTravelSpeed(PA).Range)
}

// SuggestWireFeed is SuggestTravelSpeed for a wire feed speed (m/s).
func SuggestWireFeed(feed float64, readAs unit.Unit) []Suggestion {
	return suggest(unit.WireFeed.Units(), feed, readAs, UsualWireFeed().Range, UsualWireFeed().Range)
}

// SuggestGasFlow is SuggestTravelSpeed for a gas flow (m3/s): cubic feet per
// hour are often typed as litres per minute.
func SuggestGasFlow(flow float64, readAs unit.Unit) []Suggestion {
	return suggest(unit.GasFlow.Units(), flow, readAs, UsualGasFlow().Range, UsualGasFlow().Range)
}

// suggest tries the number under every other unit of its kind and keeps those
// that make it usual. The likeliest is the one nearest, as a ratio, to the
// middle of the common range.
func suggest(units []unit.Unit, value float64, readAs unit.Unit, usual, common Range) []Suggestion {
	if !(value > 0) || usual.Contains(value) || !slices.Contains(units, readAs) {
		return nil
	}
	typed := readAs.Value(value)
	var out []Suggestion
	for _, u := range units {
		meant := u.SI(typed)
		if u == readAs || !usual.Contains(meant) {
			continue
		}
		out = append(out, Suggestion{meant, u, fmt.Sprintf("%s %v is %s %v; did you mean %s %v = %s %v?",
			short(typed), readAs, short(u.Value(value)), u, short(typed), u, short(readAs.Value(meant)), readAs)})
	}
	middle := math.Sqrt(common.Low * common.High)
	far := func(i int) float64 { return math.Abs(math.Log(out[i].Meant / middle)) }
	sort.SliceStable(out, func(i, j int) bool { return far(i) < far(j) })
	return out
}

// short prints a number with three significant digits, or all the digits before
// the point, and no exponent.
func short(x float64) string {
	decimals := 0
	if x != 0 {
		decimals = max(0, 2-int(math.Floor(math.Log10(math.Abs(x)))))
	}
	scale := math.Pow(10, float64(decimals))
	return strconv.FormatFloat(math.Round(x*scale)/scale, 'f', -1, 64)
}
