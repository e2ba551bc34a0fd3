package job

import (
	"slices"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// procedureDraft is a welding procedure while it is read: what stands in it
// otherwise than in procedure.WPS.
type procedureDraft struct {
	wps              procedure.WPS
	heat, arc        weld.Range // J/m
	gases            []string
	work, travel     float64 // most deviation of the torch, rad
	passLeg, passAny float64 // most size of one pass, m: as {leg: ...}, without a word
	passThroat       float64 // m
	wires            float64 // at once
	rows             []rowDraft
	record           recordDraft
}

// form is the table of a welding procedure; read is called with every one that
// was read, right or wrong.
func (d *procedureDraft) form(at *procedurePlaces, read func(*procedure.WPS)) record {
	s := &d.wps.Common
	return record{example: "{id: WPS-012, code: iso}", fields: slices.Concat([]field{
		need("id", placed{text(&s.ID, "WPS-012"), &at.id}),
		may("revision", text(&s.Revision, "B")),
		may("qualification", text(&s.Qualification, "WPQR-031")),
		need("code", placed{codeForm(&s.Family), &at.code}),
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
	}, d.paper(), []field{
		may("ranges", d.rangesForm()),
		may("runs", manyOf(&d.rows, 1, maxRows, "rows", (*rowDraft).form)),
		may("qualified_by", d.record.form(d)),
		may("work_tolerance", quantity(unit.Angle, &d.work, tolerance, "5 deg")),
		may("travel_tolerance", quantity(unit.Angle, &d.travel, tolerance, "5 deg")),
		may("single_pass_max", d.singlePassForm()),
	}), check: func(ps *Problems, n node, clean bool) {
		before := ps.count()
		d.finish(ps, n)
		if clean && ps.count() == before {
			d.together(ps, n)
		}
		read(&d.wps)
	}}
}

// paper are the fields of a procedure that stand on its paper as words.
func (d *procedureDraft) paper() []field {
	w, f := &d.wps, &d.wps.Further
	return []field{
		may("manufacturer", text(&w.Manufacturer, "Alder Forge")),
		may("examiner", text(&w.Examiner, "name or body")),
		may("date", text(&w.Date, "2025-03-14")),
		may("parent", record{example: "{material: S355J2 EN 10025-2, groups: [1.2]}", fields: []field{
			may("material", text(&w.ParentDesignation, "S355J2 EN 10025-2")),
			may("groups", listOf(&f.ParentGroups, "material groups", func(g *string) single { return text(g, "1.2") })),
		}}),
		may("mechanisation", text(&w.Mechanisation, "fully mechanised")),
		may("sketch", text(&w.JointSketch, "sheet 2")),
		may("preparation", text(&w.Preparation, "sheared, square")),
		may("cleaning", text(&w.Cleaning, "ground to bare metal, 20 mm each side")),
		may("jigging", text(&w.Jigging, "clamped, tacks 20 mm every 200 mm")),
		may("back_gouging", text(&w.BackGouging, "none")),
		may("backing", text(&w.Backing, "none")),
		may("technique", listOf(&f.Techniques, "techniques", techniqueForm)),
		may("filler_maker", text(&w.FillerMaker, "maker and name of the wire")),
		may("filler_handling", text(&w.FillerHandling, "dry, over 15 degC")),
		may("polarity", oneOrMany[procedure.Polarity]{listOf(&f.Polarities, "polarities", polarityForm)}),
		may("pulse", text(&w.Pulse, "none")),
		may("wires", number(&d.wires, span{1, 4}, "1")),
		may("backing_gas", text(&w.BackingGas, "none")),
		may("preheat_maintenance", text(&w.PreheatMaintenance, "gas torch, checked before each pass")),
		may("post_heating", text(&w.PostHeat, "none")),
		may("post_weld_heat", text(&w.PostWeldHeat, "none")),
	}
}

// finish sets what is read in other words than it is kept in.
func (d *procedureDraft) finish(ps *Problems, n node) {
	s := &d.wps.Common
	d.energies(ps, n)
	d.singlePass(ps, n)
	if len(d.gases) > 0 {
		s.GasName = d.gases[0]
	}
	s.WorkDeviation, s.TravelDeviation = atMost(d.work), atMost(d.travel)
	d.wps.Electrodes = int(d.wires)
	if v, given := n.get("wires"); given && d.wires != float64(d.wps.Electrodes) {
		ps.add(v.at, v.found(), "a whole number of wires, 1 to 4", "write 1 for a single wire")
	}
	for i := range d.rows {
		d.wps.Runs = append(d.wps.Runs, d.rows[i].run)
	}
	if n.has("qualified_by") {
		d.record.finish(ps, n, &d.wps)
	}
}

// together checks what the parts of a procedure that are right by themselves are
// to each other.
func (d *procedureDraft) together(ps *Problems, n node) {
	before := ps.count()
	d.temperatures(ps, n)
	for i := range d.rows {
		d.rows[i].slips(ps, d.wps.SlipsOfRun(i))
	}
	if ps.count() > before {
		return
	}
	if err := d.wps.Validate(); err != nil { // the tables here and the package's own must not drift apart in silence
		ps.add(n.at, "a procedure that does not hold ("+err.Error()+")", "limits that go together", "correct the values named")
	}
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
		if code := d.wps.Common.Family; code != 0 && (w != nil || dst.Family() != code) {
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

func techniqueForm(dst *procedure.Technique) single {
	return parsed(dst, []string{"stringer", "weave"}, func(s string) (procedure.Technique, bool) {
		for _, t := range []procedure.Technique{procedure.Stringer, procedure.Weave} {
			if t.String() == s {
				return t, true
			}
		}
		return 0, false
	})
}

func polarityForm(dst *procedure.Polarity) single {
	return parsed(dst, []string{"electrode positive", "electrode negative", "alternating current", "DCEP", "DCEN", "AC"}, errless(procedure.ParsePolarity))
}

// energyForm are the fields of a limit of energy, of which one may be given.
func energyForm(heat, arc *weld.Range) []field {
	return []field{
		may("heat_input", rangeForm(heat, unit.EnergyPerLength, energyPerLength, "0.3 kJ/mm", "1.3 kJ/mm")),
		may("arc_energy", rangeForm(arc, unit.EnergyPerLength, energyPerLength, "0.4 kJ/mm", "1.6 kJ/mm")),
	}
}

// energies sets the limits of energy, all of the one quantity that the procedure
// limits.
func (d *procedureDraft) energies(ps *Problems, n node) {
	s := &d.wps.Common
	ranges, _ := n.get("ranges")
	s.Energy = d.energy(ps, ranges, d.heat, d.arc)
	for i := range d.rows {
		d.rows[i].run.Energy = d.energy(ps, d.rows[i].read, d.rows[i].heat, d.rows[i].arc)
	}
}

// energy is the limit of energy that stands in a group of ranges, in the sense of
// the procedure's code.
func (d *procedureDraft) energy(ps *Problems, n node, heat, arc weld.Range) weld.Range {
	s := &d.wps.Common
	value, quantity := heat, thermal.HeatInput
	if s.Family == weld.AWS {
		quantity = thermal.AWSHeatInput
	}
	given, hasArc := n.get("arc_energy")
	if hasArc {
		value, quantity = arc, thermal.ArcEnergy
	} else if given, _ = n.get("heat_input"); !heat.Stated() {
		return weld.Range{}
	}
	switch {
	case hasArc && s.Family == weld.AWS:
		ps.add(given.at, "arc_energy in an AWS procedure", "heat_input, which AWS defines without an efficiency", "write heat_input if that is what the procedure limits")
	case hasArc && n.has("heat_input"):
		ps.add(given.at, "arc_energy beside heat_input", "one of the two", "keep the one that the procedure limits")
	case s.EnergyIs != 0 && s.EnergyIs != quantity:
		ps.add(given.at, "arc_energy in one place and heat_input in another", "the same of the two throughout a procedure", "keep the one that the procedure limits")
	}
	s.EnergyIs = quantity
	return value
}
