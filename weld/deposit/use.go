package deposit

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// The ranges of sense of consumption. Common practice, no source.
var (
	flowSpan     = weld.Sense{What: "gas flow", Low: 2 * unit.LPerMin, High: 60 * unit.LPerMin, Unit: unit.LitresPerMinute}
	arcTimes     = weld.Sense{What: "arc time", Low: 0, High: 1e7, Unit: unit.Hours}
	startCounts  = weld.Sense{What: "number of arc starts", Low: 0, High: 1e6}
	powerSpan    = weld.PowerSense()
	factorSpan   = weld.Sense{What: "operating factor (arc time over worked time)", Low: 0.02, High: 1}
	rateSpan     = weld.Sense{What: "deposition rate", Low: 0.05 * unit.KGPerH, High: 50 * unit.KGPerH, Unit: unit.KilogramsPerHour}
	sourceEffect = weld.Sense{What: "efficiency of the power source", Low: 0.4, High: 1}
	electrodeEta = weld.Sense{What: "deposition efficiency (1 is all of the filler)", Low: 0.3, High: 1}
)

// Gas is a shielding gas as it is turned on.
type Gas struct {
	Flow     float64 // m3/s
	PreFlow  float64 // before each arc, s
	PostFlow float64 // after each arc, s
}

// Used returns the gas used, m3, in an arc time (s) with a number of arc starts:
// flow (t_arc + n (t_pre + t_post)). Range: flow 2 to 60 L/min. DERIVED.
func (g Gas) Used(arcTime float64, starts int) (float64, error) {
	err := weld.CheckAll(flowSpan.Of(g.Flow), dwells.Of(g.PreFlow), dwells.Of(g.PostFlow), arcTimes.Of(arcTime), startCounts.Of(float64(starts)))
	if err != nil {
		return 0, fmt.Errorf("gas used: %w", err)
	}
	return g.Flow * (arcTime + float64(starts)*(g.PreFlow+g.PostFlow)), nil
}

// CarbonDioxideDensity is the density of CO2 as a shop uses it, kg/m3. A gas
// supplier's table is reproduced with it (table READ, density from memory).
const CarbonDioxideDensity = 1.84

// SourceEfficiency returns the share of mains power that reaches the arc,
// dimensionless, 0.80 to 0.88. From memory.
func SourceEfficiency() weld.Figure {
	return weld.Figure{Value: 0.84, Usual: weld.Between(0.80, 0.88),
		Source: weld.Source{Mark: weld.Memory, Code: "efficiency of a welding power source"}}
}

// MainsEnergy returns the energy drawn from the mains, J, for an arc power (W)
// over an arc time (s) at a dimensionless efficiency of the power source:
// U I t / eta. DERIVED.
func MainsEnergy(power, arcTime, efficiency float64) (float64, error) {
	if err := weld.CheckAll(powerSpan.Of(power), arcTimes.Of(arcTime), sourceEffect.Of(efficiency)); err != nil {
		return 0, fmt.Errorf("mains energy: %w", err)
	}
	return power * arcTime / efficiency, nil
}

// UsualGasFlow returns the gas flow for a solid wire of a diameter (m), m3/s: 11
// L/min for each mm, usual 10 to 12. Range: wire 0.6 to 2.4 mm. From memory; a
// sample procedure (READ) has 40 to 50 cfh, 19 to 24 L/min, for 1.4 mm metal-
// cored wire and a nozzle of 16 mm.
func UsualGasFlow(wireDiameter float64) (weld.Figure, error) {
	wires := weld.Sense{What: "wire diameter", Low: 0.55e-3, High: 2.45e-3, Unit: unit.Millimetres}
	if err := wires.Check(wireDiameter); err != nil {
		return weld.Figure{}, fmt.Errorf("gas flow: %w", err)
	}
	perMM := wireDiameter / unit.MM * unit.LPerMin
	return weld.Figure{Value: 11 * perMM, Usual: weld.Between(10*perMM, 12*perMM),
		Source: weld.Source{Mark: weld.Memory, Code: "shielding gas flow by wire diameter"}}, nil
}

// DutyCycle returns the duty cycle of a power source at another current (A), as
// a share of a ten-minute base, dimensionless, from its rated share (0 to 1) and
// current (A): D2 = D1 (I1/I2)^2, at most 1. From memory (I squared rule); the
// rating plate governs.
func DutyCycle(rated, ratedCurrent, current float64) (float64, error) {
	shares := weld.Sense{What: "duty cycle (1 is always)", Low: 0.05, High: 1}
	currents := weld.CurrentSense()
	if err := weld.CheckAll(shares.Of(rated), currents.Of(ratedCurrent), currents.Of(current)); err != nil {
		return 0, fmt.Errorf("duty cycle: %w", err)
	}
	r := ratedCurrent / current
	return min(1, rated*r*r), nil
}
