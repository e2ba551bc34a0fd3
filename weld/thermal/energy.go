package thermal

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// Quantity says which energy per length a figure is. The zero value is "not
// stated".
type Quantity uint8

// The quantities.
const (
	ArcEnergy    Quantity = iota + 1 // U I / v, ISO/TR 18491: no efficiency
	HeatInput                        // k U I / v, EN 1011-1 and ISO/TR 17671-1
	AWSHeatInput                     // 60 U I / (1000 S) kJ/in, AWS D1.1 and ASME IX: no efficiency
)

// String returns the quantity's name with its reading of k.
func (q Quantity) String() string {
	switch q {
	case ArcEnergy:
		return "arc energy (no k)"
	case HeatInput:
		return "heat input (with k)"
	case AWSHeatInput:
		return "heat input as AWS defines it (no k)"
	}
	return "energy quantity not stated"
}

// ParseQuantity reads "arc energy", "heat input" or "AWS heat input".
func ParseQuantity(s string) (Quantity, error) {
	names := [...]string{ArcEnergy: "arc energy", HeatInput: "heat input", AWSHeatInput: "AWS heat input"}
	for q := ArcEnergy; q <= AWSHeatInput; q++ {
		if s == names[q] || s == q.String() {
			return q, nil
		}
	}
	return 0, fmt.Errorf("energy quantity %q is not known; write one of: arc energy, heat input, AWS heat input", s)
}

// Family returns the code family that defines the quantity.
func (q Quantity) Family() weld.CodeFamily {
	switch q {
	case ArcEnergy, HeatInput:
		return weld.ISO
	case AWSHeatInput:
		return weld.AWS
	}
	return 0
}

// FromVoltsAmps returns the arc energy in J/m for a voltage (V) at the arc, a
// current (A) and a travel speed along the seam (m/s; with a weave still the
// speed along the seam). E = U I / (1000 v) kJ/mm.
//
// Source: ISO/TR 18491, from memory; form EN 1011-1, read in a steel maker's
// support page. For pulsed and other waveform-controlled sources the product
// of the averages is wrong by typically 5 to 15 % and up to 30 % (from
// memory): use FromPower or FromEnergy with the source's own reading.
func FromVoltsAmps(volts, amps, travel float64) (float64, error) {
	if err := weld.CheckAll(voltSpan.Of(volts), currentSpan.Of(amps), travelSpan.Of(travel)); err != nil {
		return 0, fmt.Errorf("arc energy: %w", err)
	}
	U, I, v := volts, amps, travel/unit.MM
	E := U * I / (1000 * v) // kJ/mm
	return E * unit.KJPerMM, nil
}

// FromPower returns the arc energy in J/m from the mean instantaneous power (W)
// that the source reports and the travel speed (m/s). E = IP / (1000 v) kJ/mm,
// ISO/TR 18491, from memory; ASME IX QW-409.1(c) is the same over arc time.
func FromPower(power, travel float64) (float64, error) {
	if err := weld.CheckAll(powerSpan.Of(power), travelSpan.Of(travel)); err != nil {
		return 0, fmt.Errorf("arc energy: %w", err)
	}
	IP, v := power, travel/unit.MM
	return IP / (1000 * v) * unit.KJPerMM, nil
}

// FromEnergy returns the arc energy in J/m from the energy (J) that the source
// summed over a weld length (m). E = IE / (1000 L) kJ/mm, ISO/TR 18491, from
// memory.
func FromEnergy(energy, length float64) (float64, error) {
	if err := weld.CheckAll(energySpan.Of(energy), lengthSpan.Of(length)); err != nil {
		return 0, fmt.Errorf("arc energy: %w", err)
	}
	IE, L := energy, length/unit.MM
	return IE / (1000 * L) * unit.KJPerMM, nil
}

// FromVoltsAmpsAWS returns the heat input of AWS and ASME in J/m, without
// efficiency, for volts (V), amps (A) and travel (m/s, 0.2 to 100 mm/s).
// HI = 60 U I / (1000 S) kJ/in with S in in/min; ASME IX QW-409.1(a) and
// AWS D1.1, from memory.
func FromVoltsAmpsAWS(volts, amps, travel float64) (float64, error) {
	if err := weld.CheckAll(voltSpan.Of(volts), currentSpan.Of(amps), travelSpan.Of(travel)); err != nil {
		return 0, fmt.Errorf("heat input (AWS): %w", err)
	}
	U, I, S := volts, amps, travel/unit.InPerMin
	HI := 60 * U * I / (1000 * S) // kJ/in
	return HI * unit.KJPerIn, nil
}

// FromArcEnergy returns the named quantity in J/m for an arc energy (J/m) and a
// process: the arc energy itself, or k times it for HeatInput, k of Efficiency (EN
// 1011-1, read). Any energy; a process without a k is refused.
func (q Quantity) FromArcEnergy(arcEnergy float64, p weld.Process) (float64, error) {
	switch q {
	case ArcEnergy, AWSHeatInput:
		return arcEnergy, nil
	case HeatInput:
		k, err := Efficiency(p)
		if err != nil {
			return 0, err
		}
		return k.Value * arcEnergy, nil
	}
	return 0, fmt.Errorf("%v; say whether it is arc energy, heat input with k, or heat input as AWS defines it", q)
}
