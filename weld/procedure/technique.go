package procedure

import "fmt"

// Polarity is the kind of current and the pole of the electrode. The zero value
// is "not stated".
type Polarity uint8

// The polarities.
const (
	ElectrodePositive Polarity = iota + 1 // direct current, electrode positive
	ElectrodeNegative                     // direct current, electrode negative
	Alternating
)

// polarityNames are the words of the trade and the letters of AWS for them.
var polarityNames = [...][2]string{
	ElectrodePositive: {"electrode positive", "DCEP"}, ElectrodeNegative: {"electrode negative", "DCEN"}, Alternating: {"alternating current", "AC"},
}

// String returns the trade's words, such as "electrode positive".
func (p Polarity) String() string {
	if p < ElectrodePositive || p > Alternating {
		return "polarity not stated"
	}
	return polarityNames[p][0]
}

// ParsePolarity reads "electrode positive" or "DCEP" and the like.
func ParsePolarity(text string) (Polarity, error) {
	for p := ElectrodePositive; p <= Alternating; p++ {
		if text == polarityNames[p][0] || text == polarityNames[p][1] {
			return p, nil
		}
	}
	return 0, fmt.Errorf("polarity %q is not known; write one of: electrode positive (DCEP), electrode negative (DCEN), alternating current (AC)", text)
}

// Technique is how the bead is laid. The zero value is "not stated".
type Technique uint8

// The techniques.
const (
	Stringer Technique = iota + 1 // without side motion
	Weave                         // with side motion
)

// String returns "stringer" or "weave".
func (t Technique) String() string {
	switch t {
	case Stringer:
		return "stringer"
	case Weave:
		return "weave"
	}
	return "technique not stated"
}

// Temperature is a temperature that may not be known.
type Temperature struct {
	DegC  float64 // degC
	Known bool
}

// KnownTemperature returns a known temperature, degC.
func KnownTemperature(degC float64) Temperature { return Temperature{degC, true} }
