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

	heatSpan  = weld.Sense{What: "heat input", Low: 0.02e6, High: 20e6, Unit: unit.KilojoulesPerMillimetre}
	plateSpan = weld.Sense{What: "plate thickness", Low: 0.5e-3, High: 300e-3, Unit: unit.Millimetres}
	partSpan  = weld.Sense{What: "temperature of the part", Low: -40, High: 600, Unit: unit.Celsius}
	placeSpan = weld.Sense{What: "distance from the source", Low: -10, High: 10, Unit: unit.Metres}
)
