package plan

import (
	"fmt"
	"strings"

	"seamwright/bench/finding"
	"seamwright/weld/procedure"
)

// checkProcedures says of every procedure in use what it was not held in, and how
// it stands to its qualification record.
func (m *maker) checkProcedures() []finding.Finding {
	var out []finding.Finding
	for i := range m.job.Procedures {
		w := &m.job.Procedures[i]
		passes := m.passesUnder(w)
		out = append(out, m.checkRecord(w)...)
		if len(passes) == 0 {
			continue
		}
		if items := itemsIn(passes, procedure.NotStated); len(items) > 0 {
			text := fmt.Sprintf("procedure %s states no limit for %s; %s not checked", w.Common.ID, inWords(items, len(passes)), thatWere(items))
			out = append(out, finding.New(finding.ProcedureSilent, finding.AtField("procedure"), text).From(byProcedure(&w.Common)))
		}
		if items := itemsIn(passes, procedure.NotKnown); len(items) > 0 {
			text := fmt.Sprintf("not stated in the job: %s, which procedure %s limits; %s not checked", inWords(items, len(passes)), w.Common.ID, thatWere(items))
			out = append(out, finding.New(finding.PlannedNotStated, finding.AtField("procedure"), text).From(byProcedure(&w.Common)).Mend("say %s", wordsFor(items)))
		}
	}
	return out
}

// heldPass is a pass under a procedure.
type heldPass struct {
	name string
	held *Held
}

// passesUnder lists the passes that were held against a procedure, in the order
// of welding.
func (m *maker) passesUnder(w *procedure.WPS) []heldPass {
	var out []heldPass
	for _, at := range m.passes() {
		if held := m.pass(at).Held; held != nil && held.Procedure == w {
			out = append(out, heldPass{m.passName(at), held})
		}
	}
	return out
}

// itemOf is an item that was not held in some passes.
type itemOf struct {
	item   procedure.Item
	passes []string
}

// itemsIn lists the items with a verdict of the state, in the order of the check.
func itemsIn(passes []heldPass, state procedure.State) []itemOf {
	in := map[procedure.Item][]string{}
	for _, p := range passes {
		for _, v := range p.held.Verdicts {
			if v.State == state {
				in[v.Item] = append(in[v.Item], p.name)
			}
		}
	}
	var out []itemOf
	for _, item := range procedure.Items() {
		if len(in[item]) > 0 {
			out = append(out, itemOf{item, in[item]})
		}
	}
	return out
}

// wordFor is where the document states an item.
var wordFor = map[procedure.Item]string{
	procedure.ItemParentGroup: "group in material",
	procedure.ItemThickness:   "thickness of the seam",
	procedure.ItemPreheat:     "preheat in heat",
	procedure.ItemInterpass:   "interpass_max in heat and what the cooling needs",
	procedure.ItemWireClass:   "wire_class of the settings set",
	procedure.ItemGasName:     "gas of the settings set",
	procedure.ItemGasFlow:     "gas_flow of the settings set",
	procedure.ItemPolarity:    "polarity of the settings set",
	procedure.ItemCurrent:     "amps of the settings set",
	procedure.ItemVoltage:     "volts of the settings set",
	procedure.ItemEnergy:      "volts and amps, or power, of the settings set",
}

// wordsFor lists where the document states items; those without a place of their
// own follow from the weld.
func wordsFor(items []itemOf) string {
	var words []string
	for _, x := range items {
		word := wordFor[x.item]
		if word == "" {
			word = string(x.item)
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}

// inWords lists items; those that do not hold for all of so many passes with the
// passes.
func inWords(items []itemOf, all int) string {
	words := make([]string, len(items))
	for i, x := range items {
		words[i] = string(x.item)
		if len(x.passes) < all {
			words[i] += " (" + few(x.passes) + ")"
		}
	}
	return strings.Join(words, ", ")
}

// few lists the first of many names.
func few(names []string) string {
	const most = 3
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}

// thatWere refers to the items of a list just named.
func thatWere(items []itemOf) string {
	if len(items) == 1 {
		return "that was"
	}
	return "these were"
}

// checkRecord holds a procedure against what its qualification record permits.
func (m *maker) checkRecord(w *procedure.WPS) []finding.Finding {
	if w.QualifiedBy == nil {
		return nil
	}
	where := finding.AtField("procedure")
	permitted, err := w.QualifiedBy.Permitted()
	if err != nil {
		return []finding.Finding{finding.Newf(finding.ProcedureWider, where, "procedure %s: %v", w.Common.ID, err)}
	}
	verdicts, err := permitted.Holds(w)
	if err != nil {
		return []finding.Finding{finding.Newf(finding.ProcedureWider, where, "procedure %s: %v", w.Common.ID, err)}
	}
	var out []finding.Finding
	var silent []itemOf
	for _, v := range verdicts {
		switch v.State {
		case procedure.Outside, procedure.NotStated:
			out = append(out, m.wider(w, v))
		case procedure.NotKnown:
			silent = append(silent, itemOf{item: v.Item})
		}
	}
	if len(silent) > 0 {
		f := finding.Newf(finding.ProcedureWider, where, "procedure %s: record %s does not state %s; %s not held against it", w.Common.ID, w.Common.Qualification, inWords(silent, 0), thatWere(silent))
		out = append(out, f.As(finding.Note).Mend("take them from the record into qualified_by").From("qualification record "+w.Common.Qualification))
	}
	return out
}

// wider says where a procedure goes further than its record permits.
func (m *maker) wider(w *procedure.WPS, v procedure.Verdict) finding.Finding {
	who := fmt.Sprintf("procedure %s", w.Common.ID)
	if v.Note != "" {
		who += ", " + v.Note
	}
	record, kind := w.Common.Qualification, v.Item.Kind()
	permits := strings.Join(v.Allowed, ", ")
	switch {
	case v.Item == procedure.ItemWireDiameter:
		permits = strings.Join(m.wires(v), ", ")
	case len(v.Allowed) == 0:
		permits = v.Item.ShowRange(v.Range, m.system)
	}
	f := finding.Newf(finding.ProcedureWider, finding.AtField("procedure"), "%s does not limit %s as record %s does: %s", who, v.Item, record, permits)
	if v.State == procedure.Outside {
		own := v.Found
		if v.Measured != 0 || own == "" {
			own = m.digits(kind, v.Measured, 4)
		}
		f = finding.Newf(finding.ProcedureWider, finding.AtField("procedure"), "%s: %s %s goes beyond what record %s permits, %s", who, v.Item, own, record, permits)
		if limit := v.High; v.Found == "" {
			if v.HasLow && v.Measured < v.Low {
				limit = v.Low
			}
			f = f.Values(m.pair(kind, v.Measured, limit))
		}
	}
	if v.Item == procedure.ItemPosition {
		f = f.Mend("look up in the code's table which positions the record's own qualifies: that table is not held here")
	}
	return f.From(v.Source.String())
}
