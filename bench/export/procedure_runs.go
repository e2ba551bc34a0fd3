package export

import (
	"strings"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
)

// runTable is the procedure's own table of runs, with the columns that it fills.
type runTable struct {
	Heads []string
	Rows  [][]string
}

// runColumn is a column that the table may have.
type runColumn struct {
	head  string
	value func(r *procedure.Run) string
}

// runs is the table of runs of the procedure; a column that no row states is left
// out, a cell of another says that it holds as for all runs.
func (s *sheetMaker) runs() runTable {
	word := func(text string, stated bool) string {
		if !stated {
			return ""
		}
		return text
	}
	show := func(k unit.Kind, of func(*procedure.Run) weld.Range) func(*procedure.Run) string {
		return func(r *procedure.Run) string { return of(r).In(k, s.system) }
	}
	columns := []runColumn{
		{"runs", func(r *procedure.Run) string { return strings.TrimSpace(r.String()) }},
		{"name", func(r *procedure.Run) string { return r.Name }},
		{"process", func(r *procedure.Run) string { return word(r.Process.String(), r.Process != 0) }},
		{"transfer mode", func(r *procedure.Run) string { return word(r.Transfer.String(), r.Transfer != 0) }},
		{"wire class", func(r *procedure.Run) string { return r.WireClass }},
		{"wire", func(r *procedure.Run) string {
			return word(weld.Show(r.WireDiameter, unit.Length, s.system), r.WireDiameter != 0)
		}},
		{"polarity", func(r *procedure.Run) string { return word(r.Polarity.String(), r.Polarity != 0) }},
		{"technique", func(r *procedure.Run) string { return word(r.Technique.String(), r.Technique != 0) }},
		{"current", show(unit.Current, func(r *procedure.Run) weld.Range { return r.Current })},
		{"voltage", show(unit.Voltage, func(r *procedure.Run) weld.Range { return r.Voltage })},
		{"wire feed speed", show(unit.WireFeed, func(r *procedure.Run) weld.Range { return r.Feed })},
		{"travel speed", show(unit.Speed, func(r *procedure.Run) weld.Range { return r.Travel })},
		{s.wps.Common.EnergyIs.String(), show(unit.EnergyPerLength, func(r *procedure.Run) weld.Range { return r.Energy })},
		{"weave amplitude", show(unit.Length, func(r *procedure.Run) weld.Range { return r.Amplitude })},
	}
	return fillRuns(s.wps.Runs, columns)
}

// fillRuns fills the columns that some row states.
func fillRuns(runs []procedure.Run, columns []runColumn) runTable {
	var t runTable
	t.Rows = make([][]string, len(runs))
	for _, c := range columns {
		values, any := make([]string, len(runs)), false
		for i := range runs {
			values[i] = c.value(&runs[i])
			any = any || values[i] != ""
		}
		if !any {
			continue
		}
		t.Heads = append(t.Heads, c.head)
		for i, v := range values {
			if v == "" {
				v = "as for all runs"
			}
			t.Rows[i] = append(t.Rows[i], v)
		}
	}
	return t
}
