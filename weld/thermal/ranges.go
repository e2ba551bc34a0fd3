package thermal

import (
	"seamwright/unit"
	"seamwright/weld"
)

// The ranges of sense only catch slips of unit and of comma. Common practice,
// no source.
var (
	voltSpan    = weld.Sense{What: "voltage", Low: 8, High: 50, Unit: unit.Volts}
	currentSpan = weld.Sense{What: "current", Low: 20, High: 800, Unit: unit.Amperes}
	powerSpan   = weld.Sense{What: "power", Low: 200, High: 40e3, Unit: unit.Kilowatts}
	travelSpan  = weld.Sense{What: "travel speed", Low: 0.2e-3, High: 100e-3, Unit: unit.MillimetresPerSecond}
	lengthSpan  = weld.Sense{What: "weld length", Low: 1e-3, High: 1000, Unit: unit.Metres}
	energySpan  = weld.Sense{What: "energy in J", Low: 10, High: 1e10}
)
