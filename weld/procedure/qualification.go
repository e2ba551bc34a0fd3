package procedure

import (
	"fmt"
	"slices"
	"strings"

	"seamwright/weld"
)

// Qualification is the record that supports a procedure, with what decides how
// far the procedure may go beyond it.
type Qualification struct {
	Record Record
	Tests  Tests // of ISO records; AWS asks for none of these
}

// Permitted returns what the record permits by the essential variables of its
// code family: D11Variables or ISO15614Variables.
func (q Qualification) Permitted() (Permitted, error) {
	if q.Record.Welded.Family != weld.AWS {
		return q.Record.Permitted(ISO15614Variables(q.Tests))
	}
	variables, err := D11Variables(q.Record.Welded.Settings.Process)
	if err != nil {
		return Permitted{}, fmt.Errorf("qualification record %q: %w", q.Record.ID, err)
	}
	return q.Record.Permitted(variables)
}

// Holds compares the limits of a procedure with what its record permits, item by
// item in the order of Check, those of all runs before those of each row. Only
// items that a variable limits appear: Inside where the procedure keeps to them;
// Outside where it goes further, Measured being its own end or Found its own
// word; NotStated where the procedure gives no limit at all; NotKnown where the
// record has no value. The note of a verdict names the row. Two code families are
// an error.
func (p Permitted) Holds(w *WPS) ([]Verdict, error) {
	if own, other := p.Limits.Common.Family, w.Common.Family; own != other {
		return nil, fmt.Errorf("welding procedure %q is of the %v family, its qualification record of %v; codes are never mixed in one check", w.Common.ID, other, own)
	}
	var out []Verdict
	for _, l := range limited {
		if slices.Contains(p.Silent, l.item) {
			out = append(out, Verdict{Item: l.item, State: NotKnown, Source: p.Limits.Common.source()})
			continue
		}
		source, limits := p.Limits.Further.Sources[l.item]
		if !limits {
			continue
		}
		rows, common := w.stating(l.item)
		if common {
			rows = slices.Insert(rows, 0, -1)
		}
		for _, row := range rows {
			own := limitsOf(w, row)
			permitted, err := p.inTermsOf(own.spec)
			if err != nil {
				return nil, err
			}
			v := l.compare(own, permitted)
			v.Item, v.Source, v.Unit = l.item, source, l.unit
			if row >= 0 {
				v.Note = w.Runs[row].String()
			}
			out = append(out, v)
		}
	}
	return out, nil
}

// stating lists the rows that state an item themselves, and reports whether any
// pass is left to the limits of all runs.
func (w *WPS) stating(item Item) (rows []int, common bool) {
	for i := range w.Runs {
		_, f := w.ForRow(i)
		if f.Sources[item].Clause == w.Runs[i].String() {
			rows = append(rows, i)
		}
	}
	return rows, len(rows) < max(len(w.Runs), 1)
}

// inTermsOf returns the permitted limits with the energy in the quantity that a
// procedure limits.
func (p Permitted) inTermsOf(s *Spec) (limits, error) {
	out := limitsOf(&p.Limits, -1)
	e := &out.spec.Energy
	if !e.Stated() || !s.Energy.Stated() {
		return out, nil
	}
	for _, end := range []*float64{&e.Low, &e.High} {
		x, err := s.EnergyIs.FromArcEnergy(*end, p.process)
		if err != nil {
			return out, fmt.Errorf("qualification record %q: %w", p.Limits.Common.Qualification, err)
		}
		*end = x
	}
	return out, nil
}

// limits are those of a procedure that the comparison reads.
type limits struct {
	spec    *Spec
	further *Further
}

func limitsOf(w *WPS, row int) limits {
	s, f := w.ForRow(row)
	return limits{&s, &f}
}

// limitedItem is an item that a record may limit: by a range, by words or by the
// wire diameters.
type limitedItem struct {
	item Item
	unit string
	r    func(limits) weld.Range
	list func(limits) []string
}

// limited are the items that records limit, in the order of Check.
var limited = []limitedItem{
	{item: ItemProcess, list: func(l limits) []string { return names(l.spec.Processes) }},
	{item: ItemTransfer, list: func(l limits) []string { return names(l.spec.Transfers) }},
	{item: ItemJoint, list: func(l limits) []string { return names(l.spec.Joints) }},
	{item: ItemKind, list: func(l limits) []string { return names(l.spec.Kinds) }},
	{item: ItemPosition, list: func(l limits) []string { return names(l.spec.Positions) }},
	{item: ItemProgression, list: func(l limits) []string { return names(l.spec.Progressions) }},
	{item: ItemWireClass, list: func(l limits) []string { return single(l.spec.WireClass) }},
	{item: ItemWireDiameter, unit: "m"},
	{item: ItemGasName, list: func(l limits) []string { return single(l.spec.GasName) }},
	{item: ItemGasFlow, unit: "m3/s", r: func(l limits) weld.Range { return l.spec.GasFlow }},
	{item: ItemCurrent, unit: "A", r: func(l limits) weld.Range { return l.spec.Current }},
	{item: ItemVoltage, unit: "V", r: func(l limits) weld.Range { return l.spec.Voltage }},
	{item: ItemFeed, unit: "m/s", r: func(l limits) weld.Range { return l.spec.Feed }},
	{item: ItemTravelSpeed, unit: "m/s", r: func(l limits) weld.Range { return l.spec.Travel }},
	{item: ItemEnergy, unit: "J/m", r: func(l limits) weld.Range { return l.spec.Energy }},
	{item: ItemContactDistance, unit: "m", r: func(l limits) weld.Range { return l.spec.ContactDistance }},
	{item: ItemParentGroup, list: func(l limits) []string { return l.further.ParentGroups }},
	{item: ItemPolarity, list: func(l limits) []string { return names(l.further.Polarities) }},
	{item: ItemTechnique, list: func(l limits) []string { return names(l.further.Techniques) }},
	{item: ItemPreheat, unit: "degC", r: func(l limits) weld.Range { return l.further.Preheat }},
	{item: ItemInterpass, unit: "degC", r: func(l limits) weld.Range { return l.further.Interpass }},
}

// compare holds a procedure's limit of the item against the permitted one.
func (l limitedItem) compare(own, permitted limits) Verdict {
	switch {
	case l.r != nil:
		return wider(l.r(own), l.r(permitted))
	case l.list != nil:
		return moreWords(l.list(own), l.list(permitted))
	}
	return moreWires(own.spec.WireDiameters, permitted.spec.WireDiameters)
}

// wider compares two ranges. An end that the procedure leaves open where the
// record has one is no limit.
func wider(own, permitted weld.Range) Verdict {
	v := Verdict{State: Inside, Range: permitted}
	switch {
	case own.HasLow && !permitted.Contains(own.Low):
		v.State, v.Measured = Outside, own.Low
	case own.HasHigh && !permitted.Contains(own.High):
		v.State, v.Measured = Outside, own.High
	case permitted.HasLow && !own.HasLow, permitted.HasHigh && !own.HasHigh:
		v.State = NotStated
	}
	return v
}

// moreWords returns the first word of a procedure that the record does not have.
func moreWords(own, permitted []string) Verdict {
	v := Verdict{State: Inside, Allowed: permitted}
	if len(own) == 0 {
		v.State = NotStated
	}
	for _, word := range own {
		same := func(other string) bool { return strings.EqualFold(strings.TrimSpace(word), strings.TrimSpace(other)) }
		if !slices.ContainsFunc(permitted, same) {
			v.State, v.Found = Outside, word
			break
		}
	}
	return v
}

// moreWires returns the first wire diameter (m) of a procedure that the record
// does not have.
func moreWires(own, permitted []float64) Verdict {
	v := Verdict{State: Inside, Wires: permitted}
	for _, d := range permitted {
		v.Allowed = append(v.Allowed, millimetres(d))
	}
	if len(own) == 0 {
		v.State = NotStated
	}
	for _, d := range own {
		if !slices.ContainsFunc(permitted, func(other float64) bool { return isWire(d, other) }) {
			v.State, v.Measured, v.Found = Outside, d, millimetres(d)
			break
		}
	}
	return v
}
