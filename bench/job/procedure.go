package job

import (
	"slices"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// Ranges of sense of a procedure's limits, common practice, no source.
var (
	energyPerLength = span{0.01 * unit.KJPerMM, 20 * unit.KJPerMM} // J/m
	anyThickness    = span{0, 1}                                   // m
)

// procedureDraft is a welding procedure while it is read: what stands in it
// otherwise than in procedure.Spec.
type procedureDraft struct {
	spec             procedure.Spec
	heat, arc        weld.Range // J/m
	gases            []string
	work, travel     float64 // most deviation of the torch, rad
	passLeg, passAny float64 // most size of one pass, m: as {leg: ...}, without a word
	passThroat       float64 // m
}

// procedureForm is the table of a welding procedure. dst is nil until one is
// read.
func procedureForm(dst **procedure.Spec) record {
	d := &procedureDraft{}
	s := &d.spec
	return record{example: "{id: WPS-012, code: iso}", fields: []field{
		need("id", text(&s.ID, "WPS-012")),
		may("revision", text(&s.Revision, "B")),
		may("qualification", text(&s.Qualification, "WPQR-031")),
		need("code", codeForm(&s.Family)),
		may("processes", listOf(&s.Processes, "processes", processForm)),
		may("transfers", listOf(&s.Transfers, "transfer modes", transferForm)),
		may("joints", listOf(&s.Joints, "joint types", jointForm)),
		may("kinds", listOf(&s.Kinds, "weld kinds", func(k *weld.WeldKind) single {
			return parsed(k, []string{"fillet", "groove"}, errless(weld.ParseWeldKind))
		})),
		may("positions", listOf(&s.Positions, "positions", d.positionForm)),
		may("progressions", listOf(&s.Progressions, "progressions", progressionForm)),
		may("wire", listOf(&s.WireDiameters, "wire diameters", func(x *float64) single {
			return quantity(unit.Length, x, wireDiameter, "1.0 mm")
		})),
		may("wire_class", text(&s.WireClass, "G 42 4 M21 3Si1")),
		may("gas", oneOrMany[string]{manyOf(&d.gases, 1, 1, "gas", func(g *string) form { return text(g, "M21") })}),
		may("ranges", d.rangesForm()),
		may("work_tolerance", quantity(unit.Angle, &d.work, tolerance, "5 deg")),
		may("travel_tolerance", quantity(unit.Angle, &d.travel, tolerance, "5 deg")),
		may("single_pass_max", d.singlePassForm()),
	}, check: func(ps *Problems, n node, _ bool) {
		d.energy(ps, n)
		d.singlePass(ps, n)
		if len(d.gases) > 0 {
			s.GasName = d.gases[0]
		}
		s.WorkDeviation, s.TravelDeviation = atMost(d.work), atMost(d.travel)
		*dst = s
	}}
}

// listOf is the form of one or more words that the procedure allows.
func listOf[T any](dst *[]T, what string, item func(*T) single) many[T] {
	return manyOf(dst, 1, 0, what, func(x *T) form { return item(x) })
}

// atMost is the range up to a limit, which states nothing where there is none.
func atMost(limit float64) weld.Range {
	if limit == 0 {
		return weld.Range{}
	}
	return weld.AtMost(limit)
}

// rangesForm is the table of the procedure's ranges.
func (d *procedureDraft) rangesForm() record {
	s := &d.spec
	return record{example: "{current: {from: 180 A, to: 230 A}}", fields: []field{
		may("current", rangeForm(&s.Current, unit.Current, current, "180 A", "230 A")),
		may("voltage", rangeForm(&s.Voltage, unit.Voltage, voltage, "22 V", "26 V")),
		may("feed", rangeForm(&s.Feed, unit.WireFeed, wireFeed, "8 m/min", "10 m/min")),
		may("travel", rangeForm(&s.Travel, unit.Speed, weldSpeed, "5 mm/s", "10 mm/s")),
		may("heat_input", rangeForm(&d.heat, unit.EnergyPerLength, energyPerLength, "0.3 kJ/mm", "1.3 kJ/mm")),
		may("arc_energy", rangeForm(&d.arc, unit.EnergyPerLength, energyPerLength, "0.4 kJ/mm", "1.6 kJ/mm")),
		may("thickness", rangeForm(&s.Thickness, unit.Length, anyThickness, "3 mm", "12 mm")),
		may("gas_flow", rangeForm(&s.GasFlow, unit.GasFlow, gasFlow, "12 L/min", "18 L/min")),
		may("distance", rangeForm(&s.ContactDistance, unit.Length, tipDistance, "12 mm", "18 mm")),
		may("work_angle", rangeForm(&s.WorkAngle, unit.Angle, workAngle, "40 deg", "50 deg")),
		may("travel_angle", travelRangeForm(&s.TravelAngle)),
	}}
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
	s := &d.spec
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

// energy sets the one limit of energy, in the sense of the procedure's code.
func (d *procedureDraft) energy(ps *Problems, n node) {
	s := &d.spec
	ranges, _ := n.get("ranges")
	arc, hasArc := ranges.get("arc_energy")
	switch {
	case hasArc && s.Family == weld.AWS:
		ps.add(arc.at, "arc_energy in an AWS procedure", "heat_input, which AWS defines without an efficiency", "write heat_input if that is what the procedure limits")
	case hasArc && ranges.has("heat_input"):
		ps.add(arc.at, "arc_energy beside heat_input", "one of the two", "keep the one that the procedure limits")
	case hasArc:
		s.Energy, s.EnergyIs = d.arc, thermal.ArcEnergy
	case d.heat.Stated() && s.Family == weld.AWS:
		s.Energy, s.EnergyIs = d.heat, thermal.AWSHeatInput
	case d.heat.Stated():
		s.Energy, s.EnergyIs = d.heat, thermal.HeatInput
	}
}

var (
	isoPositions = []string{"PA", "PB", "PC", "PD", "PE", "PF", "PG"}
	awsPositions = []string{"1F", "2F", "3F", "4F", "1G", "2G", "3G", "4G"}
)

// positionForm reads a position in the words of the procedure's own code, any
// where the code was not read.
func (d *procedureDraft) positionForm(dst *weld.PositionName) single {
	words := map[weld.CodeFamily][]string{
		0: slices.Concat(isoPositions, awsPositions), weld.ISO: isoPositions, weld.AWS: awsPositions,
	}
	s := coded(dst, words[0], errless(weld.ParsePositionName))
	take := s.take
	s.take = func(text string) *wrong {
		w := take(text)
		if code := d.spec.Family; code != 0 && (w != nil || dst.Family() != code) {
			return &wrong{allowed: inWords(words[code]) + ", the positions of " + code.String(), mend: "write the position as the procedure's own code names it"}
		}
		return w
	}
	return s
}

// progressionForm reads the sense of travel, which counts in vertical
// positions.
func progressionForm(dst *weld.Progression) single {
	return parsed(dst, []string{"uphill", "downhill"}, func(s string) (weld.Progression, bool) {
		p, err := weld.ParseProgression(s)
		return p, err == nil && p != weld.Level
	})
}
