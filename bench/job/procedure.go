package job

import (
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

// procedureForm is the table of a welding procedure. dst is nil until one is
// read.
func procedureForm(dst **procedure.Spec) record {
	var (
		s                        procedure.Spec
		arc, heat                weld.Range
		gases                    []string
		work, travel, singlePass float64
	)
	limits := record{example: "{current: {from: 180 A, to: 230 A}}", fields: []field{
		may("current", rangeForm(&s.Current, unit.Current, current, "180 A", "230 A")),
		may("voltage", rangeForm(&s.Voltage, unit.Voltage, voltage, "22 V", "26 V")),
		may("feed", rangeForm(&s.Feed, unit.WireFeed, wireFeed, "8 m/min", "10 m/min")),
		may("travel", rangeForm(&s.Travel, unit.Speed, weldSpeed, "5 mm/s", "10 mm/s")),
		may("heat_input", rangeForm(&heat, unit.EnergyPerLength, energyPerLength, "0.3 kJ/mm", "1.3 kJ/mm")),
		may("arc_energy", rangeForm(&arc, unit.EnergyPerLength, energyPerLength, "0.4 kJ/mm", "1.6 kJ/mm")),
		may("thickness", rangeForm(&s.Thickness, unit.Length, anyThickness, "3 mm", "12 mm")),
		may("distance", rangeForm(&s.ContactDistance, unit.Length, tipDistance, "12 mm", "18 mm")),
	}}
	return record{example: "{id: WPS-012, code: iso}", fields: []field{
		need("id", text(&s.ID, "WPS-012")),
		need("code", parsed(&s.Family, []string{"iso", "aws"}, errless(weld.ParseCodeFamily))),
		may("ranges", limits),
		may("positions", manyOf(&s.Positions, 1, 0, "positions", positionForm)),
		may("wire", manyOf(&s.WireDiameters, 1, 0, "wire diameters", func(x *float64) form {
			return quantity(unit.Length, x, wireDiameter, "1.0 mm")
		})),
		may("gas", manyOf(&gases, 1, 1, "gas", func(g *string) form { return text(g, "M21") })),
		may("joints", manyOf(&s.Joints, 1, 0, "joint types", func(j *weld.JointType) form {
			return parsed(j, jointWords, errless(weld.ParseJointType))
		})),
		may("work_tolerance", quantity(unit.Angle, &work, tolerance, "5 deg")),
		may("travel_tolerance", quantity(unit.Angle, &travel, tolerance, "5 deg")),
		may("single_pass_max", quantity(unit.Length, &singlePass, weldSize, "8 mm")),
	}, check: func(ps *Problems, n node, clean bool) {
		energy(ps, n, &s, heat, arc)
		positionsOfCode(ps, n, &s)
		if len(gases) > 0 {
			s.GasName = gases[0]
		}
		if work > 0 {
			s.WorkDeviation = weld.AtMost(work)
		}
		if travel > 0 {
			s.TravelDeviation = weld.AtMost(travel)
		}
		if singlePass > 0 {
			s.SinglePass, s.SinglePassIs = weld.AtMost(singlePass), weld.Leg
		}
		*dst = &s
	}}
}

// energy sets the one limit of energy, in the sense of the procedure's code.
func energy(ps *Problems, n node, s *procedure.Spec, heat, arc weld.Range) {
	ranges, _ := n.get("ranges")
	arcNode, hasArc := ranges.get("arc_energy")
	switch {
	case hasArc && s.Family == weld.AWS:
		ps.add(arcNode.at, "arc_energy in an AWS procedure", "heat_input, which AWS defines without an efficiency", "write heat_input if that is what the procedure limits")
	case hasArc && ranges.has("heat_input"):
		ps.add(arcNode.at, "arc_energy beside heat_input", "one of the two", "keep the one that the procedure limits")
	case hasArc:
		s.Energy, s.EnergyIs = arc, thermal.ArcEnergy
	case heat.Stated() && s.Family == weld.AWS:
		s.Energy, s.EnergyIs = heat, thermal.AWSHeatInput
	case heat.Stated():
		s.Energy, s.EnergyIs = heat, thermal.HeatInput
	}
}

var positionWords = []string{"PA", "PB", "PC", "PD", "PE", "PF", "PG", "1F", "2F", "3F", "4F", "1G", "2G", "3G", "4G"}

func positionForm(p *weld.PositionName) form {
	return parsed(p, positionWords, errless(weld.ParsePositionName))
}

// positionsOfCode refuses positions in the words of the other code.
func positionsOfCode(ps *Problems, n node, s *procedure.Spec) {
	list, _ := n.get("positions")
	for i, p := range s.Positions {
		if p != 0 && s.Family != 0 && p.Family() != s.Family {
			ps.add(list.items[i].at, list.items[i].found(), "positions of "+s.Family.String(), "write the position in the words of the procedure's own code")
		}
	}
}

// rangeForm is the table of {from: a, to: b}, either end alone allowed.
func rangeForm(r *weld.Range, k unit.Kind, within span, from, to string) record {
	return record{example: "{from: " + from + ", to: " + to + "}", fields: []field{
		may("from", quantity(k, &r.Low, within, from)),
		may("to", quantity(k, &r.High, within, to)),
	}, check: func(ps *Problems, n node, clean bool) {
		r.HasLow, r.HasHigh = n.has("from"), n.has("to")
		switch {
		case !r.Stated():
			ps.add(n.at, "a range without ends", "from, to or both", "add the end that the procedure states, or delete the range")
		case clean && r.HasLow && r.HasHigh && r.Low > r.High:
			v, _ := n.get("from")
			ps.add(v.at, v.found()+", which is above the upper end", "a lower end below the upper one", "swap the two")
		}
	}}
}
