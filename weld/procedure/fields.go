package procedure

import (
	"strconv"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// Field is one thing that a procedure's document has to say.
type Field struct {
	Clause string // of ISO 15609-1:2019, or the part of the AWS D1.1 form
	Name   string
	Value  string // as a sheet shows it; empty where not stated
}

// Stated reports whether the procedure says it.
func (f Field) Stated() bool { return f.Value != "" }

// fieldRow is a row of the field list.
type fieldRow struct {
	iso, aws string // clause and part of the form; empty where the document does not ask
	name     string
	value    func(w *sheet) string
}

// fieldRows are the fields of ISO 15609-1:2019 in the order of its clauses
// (clause list READ in previews of its contents; what each clause asks for READ
// in a public checklist), and of the AWS D1.1 form (field names READ in a
// sample and a blank form).
var fieldRows = []fieldRow{
	{"4.2", "", "manufacturer", func(w *sheet) string { return w.Manufacturer }},
	{"4.2", "identification", "procedure number", func(w *sheet) string { return w.Common.ID }},
	{"4.2", "identification", "revision", func(w *sheet) string { return w.Common.Revision }},
	{"4.2", "identification", "qualification record", func(w *sheet) string { return w.Common.Qualification }},
	{"4.2", "identification", "examiner", func(w *sheet) string { return w.Examiner }},
	{"4.2", "identification", "date", func(w *sheet) string { return w.Date }},
	{"4.3.1", "base metal", "parent material", func(w *sheet) string { return w.ParentDesignation }},
	{"4.3.1", "base metal", "parent material group", func(w *sheet) string { return strings.Join(w.Further.ParentGroups, ", ") }},
	{"4.3.2", "base metal", "thickness", func(w *sheet) string { return w.show(w.Common.Thickness, unit.Length) }},
	{"4.3.2", "base metal", "outside diameter", func(w *sheet) string { return w.show(w.OutsideDiameter, unit.Length) }},
	{"4.4.1", "identification", "welding process", func(w *sheet) string {
		return w.words(names(w.Common.Processes), func(r Run) bool { return r.Process != 0 })
	}},
	{"4.4.2", "joint design", "joint type", func(w *sheet) string { return strings.Join(names(w.Common.Joints), ", ") }},
	{"4.4.2", "joint design", "weld kind", func(w *sheet) string { return strings.Join(names(w.Common.Kinds), ", ") }},
	{"4.4.2", "joint design", "joint sketch", func(w *sheet) string { return w.JointSketch }},
	{"4.4.3", "position", "position", func(w *sheet) string { return strings.Join(names(w.Common.Positions), ", ") }},
	{"4.4.3", "position", "progression", func(w *sheet) string { return strings.Join(names(w.Common.Progressions), ", ") }},
	{"4.4.4", "joint design", "joint preparation", func(w *sheet) string { return w.Preparation }},
	{"4.4.4", "technique", "cleaning", func(w *sheet) string { return w.Cleaning }},
	{"4.4.4", "", "jigging and tacks", func(w *sheet) string { return w.Jigging }},
	{"4.4.5", "technique", "technique", func(w *sheet) string {
		return w.words(names(w.Further.Techniques), func(r Run) bool { return r.Technique != 0 })
	}},
	{"4.4.5", "", "run width", func(w *sheet) string { return w.show(w.RunWidth, unit.Length) }},
	{"4.4.5", "", "weave amplitude", func(w *sheet) string {
		return w.numbers(w.Further.Amplitude, unit.Length, func(r Run) weld.Range { return r.Amplitude })
	}},
	{"4.4.5", "", "weave frequency", func(w *sheet) string { return w.show(w.Further.Frequency, unit.Frequency) }},
	{"4.4.5", "", "weave dwell", func(w *sheet) string { return w.show(w.Further.Dwell, unit.Time) }},
	{"4.4.5", "technique", "work angle", func(w *sheet) string { return w.show(w.Common.WorkAngle, unit.Angle) }},
	{"4.4.5", "technique", "travel angle", func(w *sheet) string { return ItemTravelAngle.ShowRange(w.Common.TravelAngle, w.system) }},
	{"4.4.6", "joint design", "back gouging", func(w *sheet) string { return w.BackGouging }},
	{"4.4.7", "joint design", "backing", func(w *sheet) string { return w.Backing }},
	{"4.4.8", "filler metal", "filler designation", func(w *sheet) string {
		return w.words(single(w.Common.WireClass), func(r Run) bool { return r.WireClass != "" })
	}},
	{"4.4.8", "filler metal", "wire diameter", func(w *sheet) string {
		var list []string
		for _, d := range w.Common.WireDiameters {
			list = append(list, weld.Show(d, unit.Length, w.system))
		}
		return w.words(list, func(r Run) bool { return r.WireDiameter != 0 })
	}},
	{"4.4.8", "", "filler maker", func(w *sheet) string { return w.FillerMaker }},
	{"4.4.8", "", "filler handling", func(w *sheet) string { return w.FillerHandling }},
	{"4.4.9", "electrical", "polarity", func(w *sheet) string {
		return w.words(names(w.Further.Polarities), func(r Run) bool { return r.Polarity != 0 })
	}},
	{"4.4.9", "electrical", "pulse", func(w *sheet) string { return w.Pulse }},
	{"4.4.9", "pass table", "current", func(w *sheet) string {
		return w.numbers(w.Common.Current, unit.Current, func(r Run) weld.Range { return r.Current })
	}},
	{"4.4.9", "pass table", "voltage", func(w *sheet) string {
		return w.numbers(w.Common.Voltage, unit.Voltage, func(r Run) weld.Range { return r.Voltage })
	}},
	{"4.4.10", "identification", "mechanisation", func(w *sheet) string { return w.Mechanisation }},
	{"4.4.10", "pass table", "travel speed", func(w *sheet) string {
		return w.numbers(w.Common.Travel, unit.Speed, func(r Run) weld.Range { return r.Travel })
	}},
	{"4.4.10", "pass table", "wire feed speed", func(w *sheet) string {
		return w.numbers(w.Common.Feed, unit.WireFeed, func(r Run) weld.Range { return r.Feed })
	}},
	{"4.4.11", "preheat", "preheat temperature", func(w *sheet) string { return w.show(w.Further.Preheat, unit.Temperature) }},
	{"4.4.12", "preheat", "interpass temperature", func(w *sheet) string { return w.show(w.Further.Interpass, unit.Temperature) }},
	{"4.4.13", "", "preheat maintenance", func(w *sheet) string { return w.PreheatMaintenance }},
	{"4.4.14", "", "post-heating", func(w *sheet) string { return w.PostHeat }},
	{"4.4.15", "post-weld heat treatment", "post-weld heat treatment", func(w *sheet) string { return w.PostWeldHeat }},
	{"4.4.16", "shielding", "shielding gas", func(w *sheet) string { return w.Common.GasName }},
	{"4.4.17", "", "heat input or arc energy", func(w *sheet) string {
		value := w.numbers(w.Common.Energy, unit.EnergyPerLength, func(r Run) weld.Range { return r.Energy })
		if value == "" {
			return ""
		}
		return value + ", " + w.Common.EnergyIs.String()
	}},
	{"4.5.3", "shielding", "gas flow", func(w *sheet) string { return w.show(w.Common.GasFlow, unit.GasFlow) }},
	{"4.5.3", "shielding", "gas nozzle", func(w *sheet) string { return w.show(w.Nozzle, unit.Length) }},
	{"4.5.3", "technique", "wires at once", func(w *sheet) string {
		if w.Electrodes == 0 {
			return ""
		}
		return strconv.Itoa(w.Electrodes)
	}},
	{"4.5.3", "", "backing gas", func(w *sheet) string { return w.BackingGas }},
	{"4.5.3", "technique", "contact-tip-to-work distance", func(w *sheet) string { return w.show(w.Common.ContactDistance, unit.Length) }},
	{"4.5.3", "electrical", "transfer mode", func(w *sheet) string {
		return w.words(names(w.Common.Transfers), func(r Run) bool { return r.Transfer != 0 })
	}},
}

// sheet is a procedure as it is shown to a reader of one system of units.
type sheet struct {
	*WPS
	system unit.System
}

// Fields returns what the document of the procedure's code family asks for, in
// its order, each with what the procedure says, in units of the system, or
// nothing: ISO 15609-1:2019 for gas-metal arc welding, or the form of AWS D1.1.
// None is invented: an empty Value is "not stated".
func (w *WPS) Fields(system unit.System) []Field {
	var out []Field
	for _, row := range fieldRows {
		clause := row.iso
		if w.Common.Family == weld.AWS {
			clause = row.aws
		}
		if clause != "" {
			out = append(out, Field{clause, row.name, row.value(&sheet{w, system})})
		}
	}
	return out
}

// byRun is what a field shows whose figures differ from run to run.
const byRun = "by run"

// words shows names that hold for all runs, or says that each run has its own.
func (w *sheet) words(common []string, own func(Run) bool) string {
	if w.everyRun(own) {
		return byRun
	}
	return strings.Join(common, ", ")
}

// numbers shows a range that holds for all runs, or says that each run has its
// own.
func (w *sheet) numbers(common weld.Range, k unit.Kind, own func(Run) weld.Range) string {
	if w.everyRun(func(r Run) bool { return own(r).Stated() }) {
		return byRun
	}
	return w.show(common, k)
}

// everyRun reports whether there are runs and each states something.
func (w *sheet) everyRun(states func(Run) bool) bool {
	for _, r := range w.Runs {
		if !states(r) {
			return false
		}
	}
	return len(w.Runs) > 0
}

// show prints a range in the reader's unit; nothing for one that states nothing.
func (w *sheet) show(r weld.Range, k unit.Kind) string { return r.In(k, w.system) }
