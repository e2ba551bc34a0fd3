package procedure

import (
	"fmt"
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
	value    func(w *WPS) string
}

// fieldRows are the fields of ISO 15609-1:2019 in the order of its clauses
// (clause list READ in previews of its contents; what each clause asks for READ
// in a public checklist), and of the AWS D1.1 form (field names READ in a
// sample and a blank form).
var fieldRows = []fieldRow{
	{"4.2", "", "manufacturer", func(w *WPS) string { return w.Manufacturer }},
	{"4.2", "identification", "procedure number", func(w *WPS) string { return w.Common.ID }},
	{"4.2", "identification", "revision", func(w *WPS) string { return w.Common.Revision }},
	{"4.2", "identification", "qualification record", func(w *WPS) string { return w.Common.Qualification }},
	{"4.2", "identification", "examiner", func(w *WPS) string { return w.Examiner }},
	{"4.2", "identification", "date", func(w *WPS) string { return w.Date }},
	{"4.3.1", "base metal", "parent material", func(w *WPS) string { return w.ParentDesignation }},
	{"4.3.1", "base metal", "parent material group", func(w *WPS) string { return strings.Join(w.Further.ParentGroups, ", ") }},
	{"4.3.2", "base metal", "thickness", func(w *WPS) string { return show(w.Common.Thickness, unit.Millimetres) }},
	{"4.3.2", "base metal", "outside diameter", func(w *WPS) string { return show(w.OutsideDiameter, unit.Millimetres) }},
	{"4.4.1", "identification", "welding process", func(w *WPS) string {
		return w.words(names(w.Common.Processes), func(r Run) bool { return r.Process != 0 })
	}},
	{"4.4.2", "joint design", "joint type", func(w *WPS) string { return strings.Join(names(w.Common.Joints), ", ") }},
	{"4.4.2", "joint design", "weld kind", func(w *WPS) string { return strings.Join(names(w.Common.Kinds), ", ") }},
	{"4.4.2", "joint design", "joint sketch", func(w *WPS) string { return w.JointSketch }},
	{"4.4.3", "position", "position", func(w *WPS) string { return strings.Join(names(w.Common.Positions), ", ") }},
	{"4.4.3", "position", "progression", func(w *WPS) string { return strings.Join(names(w.Common.Progressions), ", ") }},
	{"4.4.4", "joint design", "joint preparation", func(w *WPS) string { return w.Preparation }},
	{"4.4.4", "technique", "cleaning", func(w *WPS) string { return w.Cleaning }},
	{"4.4.4", "", "jigging and tacks", func(w *WPS) string { return w.Jigging }},
	{"4.4.5", "technique", "technique", func(w *WPS) string {
		return w.words(names(w.Further.Techniques), func(r Run) bool { return r.Technique != 0 })
	}},
	{"4.4.5", "", "run width", func(w *WPS) string { return show(w.RunWidth, unit.Millimetres) }},
	{"4.4.5", "", "weave amplitude", func(w *WPS) string {
		return w.numbers(w.Further.Amplitude, unit.Millimetres, func(r Run) weld.Range { return r.Amplitude })
	}},
	{"4.4.5", "", "weave frequency", func(w *WPS) string { return show(w.Further.Frequency, unit.Hertz) }},
	{"4.4.5", "", "weave dwell", func(w *WPS) string { return show(w.Dwell, unit.Seconds) }},
	{"4.4.5", "technique", "work angle", func(w *WPS) string { return show(w.Common.WorkAngle, unit.Degrees) }},
	{"4.4.5", "technique", "travel angle", func(w *WPS) string { return show(w.Common.TravelAngle, unit.Degrees) }},
	{"4.4.6", "joint design", "back gouging", func(w *WPS) string { return w.BackGouging }},
	{"4.4.7", "joint design", "backing", func(w *WPS) string { return w.Backing }},
	{"4.4.8", "filler metal", "filler designation", func(w *WPS) string {
		return w.words(single(w.Common.WireClass), func(r Run) bool { return r.WireClass != "" })
	}},
	{"4.4.8", "filler metal", "wire diameter", func(w *WPS) string {
		var list []string
		for _, d := range w.Common.WireDiameters {
			list = append(list, unit.Exact(d, unit.Millimetres))
		}
		return w.words(list, func(r Run) bool { return r.WireDiameter != 0 })
	}},
	{"4.4.8", "", "filler maker", func(w *WPS) string { return w.FillerMaker }},
	{"4.4.8", "", "filler handling", func(w *WPS) string { return w.FillerHandling }},
	{"4.4.9", "electrical", "polarity", func(w *WPS) string {
		return w.words(names(w.Further.Polarities), func(r Run) bool { return r.Polarity != 0 })
	}},
	{"4.4.9", "electrical", "pulse", func(w *WPS) string { return w.Pulse }},
	{"4.4.9", "pass table", "current", func(w *WPS) string {
		return w.numbers(w.Common.Current, unit.Amperes, func(r Run) weld.Range { return r.Current })
	}},
	{"4.4.9", "pass table", "voltage", func(w *WPS) string {
		return w.numbers(w.Common.Voltage, unit.Volts, func(r Run) weld.Range { return r.Voltage })
	}},
	{"4.4.10", "identification", "mechanisation", func(w *WPS) string { return w.Mechanisation }},
	{"4.4.10", "pass table", "travel speed", func(w *WPS) string {
		return w.numbers(w.Common.Travel, unit.MillimetresPerSecond, func(r Run) weld.Range { return r.Travel })
	}},
	{"4.4.10", "pass table", "wire feed speed", func(w *WPS) string {
		return w.numbers(w.Common.Feed, unit.MetresPerMinute, func(r Run) weld.Range { return r.Feed })
	}},
	{"4.4.11", "preheat", "preheat temperature", func(w *WPS) string { return show(w.Further.Preheat, unit.Celsius) }},
	{"4.4.12", "preheat", "interpass temperature", func(w *WPS) string { return show(w.Further.Interpass, unit.Celsius) }},
	{"4.4.13", "", "preheat maintenance", func(w *WPS) string { return w.PreheatMaintenance }},
	{"4.4.14", "", "post-heating", func(w *WPS) string { return w.PostHeat }},
	{"4.4.15", "post-weld heat treatment", "post-weld heat treatment", func(w *WPS) string { return w.PostWeldHeat }},
	{"4.4.16", "shielding", "shielding gas", func(w *WPS) string { return w.Common.GasName }},
	{"4.4.17", "", "heat input or arc energy", func(w *WPS) string {
		return w.numbers(w.Common.Energy, unit.KilojoulesPerMillimetre, func(r Run) weld.Range { return r.Energy })
	}},
	{"4.5.3", "shielding", "gas flow", func(w *WPS) string { return show(w.Common.GasFlow, unit.LitresPerMinute) }},
	{"4.5.3", "shielding", "gas nozzle", func(w *WPS) string { return show(w.Nozzle, unit.Millimetres) }},
	{"4.5.3", "technique", "wires at once", func(w *WPS) string {
		if w.Electrodes == 0 {
			return ""
		}
		return strconv.Itoa(w.Electrodes)
	}},
	{"4.5.3", "", "backing gas", func(w *WPS) string { return w.BackingGas }},
	{"4.5.3", "technique", "contact-tip-to-work distance", func(w *WPS) string { return show(w.Common.ContactDistance, unit.Millimetres) }},
	{"4.5.3", "electrical", "transfer mode", func(w *WPS) string {
		return w.words(names(w.Common.Transfers), func(r Run) bool { return r.Transfer != 0 })
	}},
}

// Fields returns what the document of the procedure's code family asks for, in
// its order, each with what the procedure says or nothing: ISO 15609-1:2019 for
// gas-metal arc welding, or the form of AWS D1.1. None is invented: an empty
// Value is "not stated".
func (w WPS) Fields() []Field {
	var out []Field
	for _, row := range fieldRows {
		clause := row.iso
		if w.Common.Family == weld.AWS {
			clause = row.aws
		}
		if clause != "" {
			out = append(out, Field{clause, row.name, row.value(&w)})
		}
	}
	return out
}

// byRun is what a field shows whose figures differ from run to run.
const byRun = "by run"

// words shows names that hold for all runs, or says that each run has its own.
func (w *WPS) words(common []string, own func(Run) bool) string {
	if w.everyRun(own) {
		return byRun
	}
	return strings.Join(common, ", ")
}

// numbers shows a range that holds for all runs, or says that each run has its
// own.
func (w *WPS) numbers(common weld.Range, u unit.Unit, own func(Run) weld.Range) string {
	if w.everyRun(func(r Run) bool { return own(r).Stated() }) {
		return byRun
	}
	return show(common, u)
}

// everyRun reports whether there are runs and each states something.
func (w *WPS) everyRun(states func(Run) bool) bool {
	for _, r := range w.Runs {
		if !states(r) {
			return false
		}
	}
	return len(w.Runs) > 0
}

// show prints a range in a unit; nothing for one that states nothing.
func show(r weld.Range, u unit.Unit) string {
	number := func(x float64) string { return strconv.FormatFloat(u.Value(x), 'g', 6, 64) }
	switch {
	case r.HasLow && r.HasHigh:
		return fmt.Sprintf("%s to %s %v", number(r.Low), number(r.High), u)
	case r.HasLow:
		return fmt.Sprintf("at least %s %v", number(r.Low), u)
	case r.HasHigh:
		return fmt.Sprintf("at most %s %v", number(r.High), u)
	}
	return ""
}
