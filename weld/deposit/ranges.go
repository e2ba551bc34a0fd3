package deposit

import (
	"seamwright/unit"
	"seamwright/weld"
)

// The ranges of sense. They only catch slips of unit and of comma, so they are
// wider than any procedure. Common practice, no source.
var (
	wireSpan     = weld.WireSense()
	feedSpan     = weld.FeedSense()
	travelSpan   = weld.TravelSense()
	areaSpan     = weld.Sense{What: "bead area", Low: 0.1e-6, High: 2000e-6, Unit: unit.SquareMillimetres}
	legSpan      = weld.LegSense()
	lengthSpan   = weld.Sense{What: "weld length", Low: 0, High: 1000, Unit: unit.Metres}
	dwells       = weld.Sense{What: "extra time", Low: 0, High: 60, Unit: unit.Seconds}
	efficiencies = weld.EfficiencySense()
	convexities  = weld.ConvexitySense()
	ratios       = weld.Sense{What: "leg ratio", Low: 1.0 / 3, High: 3}
	angles       = weld.IncludedAngleSense()
	densities    = weld.Sense{What: "density in kg/m3", Low: 2000, High: 12000}
)
