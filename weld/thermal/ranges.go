package thermal

import (
	"seamwright/unit"
	"seamwright/weld"
)

// The ranges of sense only catch slips of unit and of comma. Common practice,
// no source.
var (
	voltSpan    = weld.VoltSense()
	currentSpan = weld.CurrentSense()
	powerSpan   = weld.PowerSense()
	travelSpan  = weld.TravelSense()
	lengthSpan  = weld.Sense{What: "weld length", Low: 1e-3, High: 1000, Unit: unit.Metres}
	energySpan  = weld.Sense{What: "energy in J", Low: 10, High: 1e10}
)
