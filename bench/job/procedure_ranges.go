package job

import (
	"seamwright/unit"
	"seamwright/weld"
)

// Ranges of sense of a procedure's limits, common practice, no source.
var (
	energyPerLength = span{0.01 * unit.KJPerMM, 20 * unit.KJPerMM} // J/m
	anyThickness    = span{0, 1}                                   // m
	pipeDiameter    = span{5 * unit.MM, 20}                        // m
	runWidth        = span{1 * unit.MM, 50 * unit.MM}              // m
	gasNozzle       = span{5 * unit.MM, 60 * unit.MM}              // m
	plateHeat       = span{-30, 500}                               // degC
)

// rangesForm is the table of the procedure's ranges.
func (d *procedureDraft) rangesForm() record {
	s, f, w := &d.wps.Common, &d.wps.Further, &d.wps
	fields := []field{
		may("current", rangeForm(&s.Current, unit.Current, current, "180 A", "230 A")),
		may("voltage", rangeForm(&s.Voltage, unit.Voltage, voltage, "22 V", "26 V")),
		may("feed", rangeForm(&s.Feed, unit.WireFeed, wireFeed, "8 m/min", "10 m/min")),
		may("travel", rangeForm(&s.Travel, unit.Speed, weldSpeed, "5 mm/s", "10 mm/s")),
	}
	fields = append(fields, energyForm(&d.heat, &d.arc)...)
	return record{example: "{current: {from: 180 A, to: 230 A}}", fields: append(fields,
		may("thickness", rangeForm(&s.Thickness, unit.Length, anyThickness, "3 mm", "12 mm")),
		may("outside_diameter", rangeForm(&w.OutsideDiameter, unit.Length, pipeDiameter, "50 mm", "500 mm")),
		may("gas_flow", rangeForm(&s.GasFlow, unit.GasFlow, gasFlow, "12 L/min", "18 L/min")),
		may("nozzle", rangeForm(&w.Nozzle, unit.Length, gasNozzle, "12 mm", "20 mm")),
		may("distance", rangeForm(&s.ContactDistance, unit.Length, tipDistance, "12 mm", "18 mm")),
		may("work_angle", rangeForm(&s.WorkAngle, unit.Angle, workAngle, "40 deg", "50 deg")),
		may("travel_angle", travelRangeForm(&s.TravelAngle)),
		may("run_width", rangeForm(&w.RunWidth, unit.Length, runWidth, "4 mm", "12 mm")),
		may("weave_amplitude", amplitudeForm(&f.Amplitude)),
		may("weave_frequency", rangeForm(&f.Frequency, unit.Frequency, weaveRate, "0.5 Hz", "3 Hz")),
		may("weave_dwell", rangeForm(&f.Dwell, unit.Time, weaveDwell, "0 s", "0.4 s")),
		may("preheat", rangeForm(&f.Preheat, unit.Temperature, plateHeat, "20 degC", "150 degC")),
		may("interpass", rangeForm(&f.Interpass, unit.Temperature, plateHeat, "20 degC", "250 degC")),
	)}
}

// amplitudeForm reads half the width of a weave; 0 mm is a stringer.
func amplitudeForm(r *weld.Range) record {
	return rangeForm(r, unit.Length, span{0, weaveWidth.high}, "0 mm", "3 mm")
}

// singlePassForm reads the most that one pass lays: a length alone, which is a
// leg, or {leg: 8 mm} or {throat: 5.5 mm}.
func (d *procedureDraft) singlePassForm() either {
	return either{word: quantity(unit.Length, &d.passAny, weldSize, "8 mm"), group: record{
		allowed: "{leg: 8 mm} or {throat: 5.5 mm}", example: "{leg: 8 mm}", one: [][]string{{"leg", "throat"}},
		fields: []field{
			may("leg", quantity(unit.Length, &d.passLeg, weldSize, "8 mm")),
			may("throat", quantity(unit.Length, &d.passThroat, weldSize, "5.5 mm")),
		},
	}}
}

// singlePass sets the limit of one pass and its measure.
func (d *procedureDraft) singlePass(ps *Problems, n node) {
	s := &d.wps.Common
	size, _ := n.get("single_pass_max")
	throat, hasThroat := size.get("throat")
	switch {
	case hasThroat && s.Family == weld.AWS:
		ps.add(throat.at, "throat in an AWS procedure", "leg, which AWS procedures limit", "write the leg that the procedure states")
	case hasThroat:
		s.SinglePass, s.SinglePassIs = atMost(d.passThroat), weld.Throat
	case size.shape != nothing:
		s.SinglePass, s.SinglePassIs = atMost(max(d.passAny, d.passLeg)), weld.Leg
	}
}

// temperatures checks that preheat and interpass temperature can both be kept.
func (d *procedureDraft) temperatures(ps *Problems, n node) {
	f := &d.wps.Further
	if !f.Preheat.HasLow || !f.Interpass.HasHigh || f.Preheat.Low <= f.Interpass.High {
		return
	}
	ranges, _ := n.get("ranges")
	interpass, _ := ranges.get("interpass")
	to, _ := interpass.get("to")
	ps.add(to.at, to.found()+", which is below the least preheat", "the most interpass temperature not below the least preheat", "check which is which")
}
