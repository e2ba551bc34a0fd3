package weld

import "seamwright/unit"

// The ranges of sense that several packages share. They only catch slips of
// unit and of comma, so they are wider than any procedure. Common practice, no
// source.

// WireSense returns the range of wire diameters, m.
func WireSense() Sense {
	return Sense{What: "wire diameter", Low: 0.5e-3, High: 4e-3, Unit: unit.Millimetres}
}

// FeedSense returns the range of wire feed speeds, m/s.
func FeedSense() Sense {
	return Sense{What: "wire feed speed", Low: 0.5 / 60, High: 30.0 / 60, Unit: unit.MetresPerMinute}
}

// TravelSense returns the range of travel speeds that formulas accept, m/s. It
// is wider than TravelSpeedLimit, so that a slip can still be shown with the
// leg and the heat that it would give.
func TravelSense() Sense {
	return Sense{What: "travel speed", Low: 0.2e-3, High: 100e-3, Unit: unit.MillimetresPerSecond}
}

// VoltSense returns the range of arc voltages, V.
func VoltSense() Sense { return Sense{What: "voltage", Low: 8, High: 50, Unit: unit.Volts} }

// CurrentSense returns the range of welding currents, A.
func CurrentSense() Sense { return Sense{What: "current", Low: 20, High: 800, Unit: unit.Amperes} }

// PowerSense returns the range of arc powers, W.
func PowerSense() Sense { return Sense{What: "power", Low: 200, High: 40e3, Unit: unit.Kilowatts} }

// EfficiencySense returns the range of deposition efficiencies, dimensionless.
func EfficiencySense() Sense {
	return Sense{What: "deposition efficiency (1 is all of the wire)", Low: 0.5, High: 1}
}

// ConvexitySense returns the range of planning factors k, dimensionless.
func ConvexitySense() Sense { return Sense{What: "convexity factor", Low: 0.8, High: 2} }

// LegSense returns the range of fillet legs, m.
func LegSense() Sense { return Sense{What: "leg", Low: 0.5e-3, High: 60e-3, Unit: unit.Millimetres} }

// IncludedAngleSense returns the range of angles between the plates of a
// fillet, rad: below 30 degrees AWS D1.1 gives a fillet no credit, above 150
// the plates are a butt joint.
func IncludedAngleSense() Sense {
	return Sense{What: "included angle", Low: 30 * unit.Deg, High: 150 * unit.Deg, Unit: unit.Degrees}
}
