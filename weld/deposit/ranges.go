package deposit

import (
	"seamwright/unit"
	"seamwright/weld"
)

// The ranges of sense. They only catch slips of unit and of comma, so they are
// wider than any procedure. Common practice, no source.
var (
	wireSpan     = weld.Sense{What: "wire diameter", Low: 0.5e-3, High: 4e-3, Unit: unit.Millimetres}
	feedSpan     = weld.Sense{What: "wire feed speed", Low: 0.5 / 60, High: 30.0 / 60, Unit: unit.MetresPerMinute}
	travelSpan   = weld.Sense{What: "travel speed", Low: 0.2e-3, High: 100e-3, Unit: unit.MillimetresPerSecond}
	areaSpan     = weld.Sense{What: "bead area", Low: 0.1e-6, High: 2000e-6, Unit: unit.SquareMillimetres}
	legSpan      = weld.Sense{What: "leg", Low: 0.5e-3, High: 60e-3, Unit: unit.Millimetres}
	lengthSpan   = weld.Sense{What: "weld length", Low: 0, High: 1000, Unit: unit.Metres}
	dwells       = weld.Sense{What: "extra time", Low: 0, High: 60, Unit: unit.Seconds}
	efficiencies = weld.Sense{What: "deposition efficiency (1 is all of the wire)", Low: 0.5, High: 1}
	convexities  = weld.Sense{What: "convexity factor", Low: 0.8, High: 2}
	ratios       = weld.Sense{What: "leg ratio", Low: 1.0 / 3, High: 3}
	angles       = weld.Sense{What: "included angle", Low: 30 * unit.Deg, High: 150 * unit.Deg, Unit: unit.Degrees}
	densities    = weld.Sense{What: "density in kg/m3", Low: 2000, High: 12000}
)
