package job

import (
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
)

// recordDraft is a qualification record while it is read.
type recordDraft struct {
	q                  procedure.Qualification
	position           weld.PositionName
	tests              []string
	level              string
	preheat, interpass float64 // degC
}

// The tests on which a record of ISO 15614-1 may rest.
const (
	impactTests   = "impact"
	hardnessTests = "hardness"
)

// form is the table of a record: the pass that was welded and tested, in the
// words of the procedure d.
func (r *recordDraft) form(d *procedureDraft) record {
	p := &r.q.Record.Welded
	s := &p.Settings
	return record{example: "{record: WPQR-031, process: 135, current: 205 A, voltage: 24 V}", fields: []field{
		need("record", text(&r.q.Record.ID, "WPQR-031")),
		need("process", processForm(&s.Process)),
		may("transfer", transferForm(&s.Transfer)),
		may("polarity", polarityForm(&s.Polarity)),
		may("position", d.positionForm(&r.position)),
		may("progression", progressionForm(&p.Position.Progression)),
		may("wire", quantity(unit.Length, &s.WireDiameter, wireDiameter, "1.0 mm")),
		may("wire_class", text(&s.WireClass, "G 42 4 M21 3Si1")),
		may("gas", text(&s.GasName, "M21")),
		may("gas_flow", quantity(unit.GasFlow, &s.GasFlow, gasFlow, "15 L/min")),
		may("current", quantity(unit.Current, &s.Amps, current, "205 A")),
		may("voltage", quantity(unit.Voltage, &s.Volts, voltage, "24 V")),
		may("power", quantity(unit.Power, &s.Power, power, "5.2 kW")),
		may("feed", quantity(unit.WireFeed, &s.Feed, wireFeed, "9 m/min")),
		may("travel", quantity(unit.Speed, &p.Travel, weldSpeed, "7 mm/s")),
		may("preheat", quantity(unit.Temperature, &r.preheat, plateHeat, "20 degC")),
		may("interpass", quantity(unit.Temperature, &r.interpass, plateHeat, "180 degC")),
		may("tests", oneOrMany[string]{manyOf(&r.tests, 1, 2, "tests", func(t *string) form { return oneOf(t, impactTests, hardnessTests) })}),
		may("level", oneOf(&r.level, "1", "2")),
	}}
}

// finish puts the record into the procedure that it supports.
func (r *recordDraft) finish(ps *Problems, procedureNode node, w *procedure.WPS) {
	n, _ := procedureNode.get("qualified_by")
	p := &r.q.Record.Welded
	p.Family = w.Common.Family
	switch r.position.Family() {
	case weld.ISO:
		p.Position.ISO = r.position
	case weld.AWS:
		p.Position.AWS = r.position
	}
	if n.has("preheat") {
		p.Preheat = procedure.KnownTemperature(r.preheat)
	}
	if n.has("interpass") {
		p.Interpass = procedure.KnownTemperature(r.interpass)
	}
	for _, t := range r.tests {
		r.q.Tests.Impact = r.q.Tests.Impact || t == impactTests
		r.q.Tests.Hardness = r.q.Tests.Hardness || t == hardnessTests
	}
	r.q.Tests.Level1 = r.level == "1"
	for _, name := range []string{"tests", "level"} {
		if v, given := n.get(name); given && p.Family == weld.AWS {
			ps.add(v.at, name+" in an AWS record", "tests and level of a record to ISO 15614-1 alone", "delete "+name)
		}
	}
	switch v, given := procedureNode.get("qualification"); {
	case !given:
		w.Common.Qualification = r.q.Record.ID
	case w.Common.Qualification != r.q.Record.ID && r.q.Record.ID != "":
		ps.add(v.at, v.found()+" beside the record "+quote(r.q.Record.ID), "one record", "make qualification and qualified_by name the same record")
	}
	w.QualifiedBy = &r.q
}
