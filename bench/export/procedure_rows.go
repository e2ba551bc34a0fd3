package export

import (
	"slices"
	"strconv"

	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// The words of a sheet for what nobody said.
const (
	notStated  = "not stated"
	notInJob   = "not stated in the job"
	notChecked = "not checked"
)

// passItems are the numbers that the table of passes shows, in its order.
var passItems = []procedure.Item{procedure.ItemCurrent, procedure.ItemVoltage, procedure.ItemFeed, procedure.ItemTravelSpeed, procedure.ItemEnergy}

// passRow is a row of the table of passes: passes with the same values.
type passRow struct {
	Passes, Row, Set string
	Cells            []verdictCell
}

// verdictCell is a planned value beside what the procedure allows.
type verdictCell struct {
	Planned, Allowed, Margin string
	Class                    string // inside, outside or open
}

// passRows are the passes with the numbers that are set, passes with the same in
// one row.
func (s *sheetMaker) passRows(held []heldPass) []passRow {
	var out []passRow
	for _, h := range held {
		row := passRow{Row: s.rowName(h.pass.Held.Row), Set: h.set}
		for _, item := range passItems {
			row.Cells = append(row.Cells, s.cell(h.pass, verdictOn(h.pass, item)))
		}
		i := slices.IndexFunc(out, func(r passRow) bool {
			return r.Row == row.Row && r.Set == row.Set && slices.Equal(r.Cells, row.Cells)
		})
		if i < 0 {
			row.Passes = h.name
			out = append(out, row)
		} else {
			out[i].Passes += ", " + h.name
		}
	}
	return out
}

// rowName names a row of the procedure's table of runs.
func (s *sheetMaker) rowName(row int) string {
	if row < 0 {
		return "all runs"
	}
	return s.wps.Runs[row].String()
}

// verdictOn returns the verdict on an item, a zero one where it does not appear.
func verdictOn(p *plan.Pass, item procedure.Item) procedure.Verdict {
	for _, v := range p.Held.Verdicts {
		if v.Item == item {
			return v
		}
	}
	return procedure.Verdict{Item: item}
}

// cell shows a verdict: what is planned, what is allowed, and how far it is from
// the nearer end.
func (s *sheetMaker) cell(p *plan.Pass, v procedure.Verdict) verdictCell {
	c := verdictCell{Planned: s.planned(p, v), Allowed: s.allowed(v), Class: "open"}
	switch v.State {
	case procedure.Inside:
		c.Class, c.Margin = "inside", "inside"
	case procedure.Outside:
		c.Class, c.Margin = "outside", "OUTSIDE"
	default:
		c.Margin = notChecked
	}
	if v.Stated() && (v.State == procedure.Inside || v.State == procedure.Outside) {
		c.Margin = s.difference(v.Item.Kind(), margin(v)) + " " + c.Margin
	}
	return c
}

// margin is how far a value is from the nearer stated end of its range, in the
// unit of the verdict, not negative.
func margin(v procedure.Verdict) float64 {
	switch low, high := v.Measured-v.Low, v.High-v.Measured; {
	case v.HasLow && low < 0:
		return -low
	case v.HasHigh && high < 0:
		return -high
	case v.HasLow && v.HasHigh:
		return min(low, high)
	case v.HasLow:
		return low
	default:
		return high
	}
}

// planned shows what the plan does.
func (s *sheetMaker) planned(p *plan.Pass, v procedure.Verdict) string {
	k := v.Item.Kind()
	switch {
	case v.State == procedure.NotKnown:
		return notInJob
	case v.Found != "":
		return v.Found
	case v.Item == procedure.ItemEnergy && v.State == procedure.NotStated:
		return s.energyOf(p)
	case k == 0 || v.Measured == 0 && v.State == procedure.NotStated && !measuredZero[v.Item]:
		return notInJob
	}
	return v.Item.Show(v.Measured, s.system)
}

// measuredZero are the items whose zero is a value.
var measuredZero = map[procedure.Item]bool{
	procedure.ItemWorkAngle: true, procedure.ItemTravelAngle: true, procedure.ItemWorkDeviation: true, procedure.ItemTravelDeviation: true, procedure.ItemAmplitude: true, procedure.ItemDwell: true,
}

// energyOf shows the energy of a pass whose procedure limits none.
func (s *sheetMaker) energyOf(p *plan.Pass) string {
	if optional(p.Size.HeatInput) == nil {
		return notInJob
	}
	return weld.Show(p.Size.HeatInput, unit.EnergyPerLength, s.system) + ", " + p.Size.HeatIs.String()
}

// allowed shows what the procedure allows.
func (s *sheetMaker) allowed(v procedure.Verdict) string {
	switch {
	case v.State == procedure.NotStated || v.State == 0:
		return notStated
	case v.Item == procedure.ItemWireDiameter:
		return s.wires(v.Wires)
	case len(v.Allowed) > 0:
		return listed(v.Allowed)
	}
	text := v.Item.ShowRange(v.Range, s.system)
	if v.Item == procedure.ItemEnergy && s.wps.Common.EnergyIs == thermal.ArcEnergy {
		text += " without k"
	}
	return text
}

// wires shows wire diameters, m.
func (s *sheetMaker) wires(list []float64) string {
	var out []string
	for _, d := range list {
		out = append(out, weld.Show(d, unit.Length, s.system))
	}
	return listed(out)
}

// difference shows a difference of a quantity (SI, degC), which for temperatures is
// not shown as a temperature is.
func (s *sheetMaker) difference(k unit.Kind, d float64) string {
	u, _ := k.Preferred(s.system)
	return strconv.FormatFloat(u.Value(d)-u.Value(0), 'g', 3, 64) + " " + u.String()
}

// itemRow is a row of the table of everything else: an item with the passes of
// which the same is true.
type itemRow struct {
	Item, Passes, Note string
	verdictCell
}

// itemRows are the items that the table of passes does not show, in the order of
// the check, each with the passes that are alike in it.
func (s *sheetMaker) itemRows(held []heldPass) []itemRow {
	var out []itemRow
	for _, item := range procedure.Items() {
		if slices.Contains(passItems, item) {
			continue
		}
		first := len(out)
		counts := map[int]int{}
		for _, h := range held {
			v := verdictOn(h.pass, item)
			if v.State == 0 {
				continue
			}
			row := itemRow{Item: string(item), Passes: h.name, Note: s.noteOn(h, v), verdictCell: s.cell(h.pass, v)}
			i := slices.IndexFunc(out[first:], func(r itemRow) bool { return r.verdictCell == row.verdictCell && r.Note == row.Note })
			if i < 0 {
				out = append(out, row)
				counts[len(out)-1]++
				continue
			}
			out[first+i].Passes += ", " + h.name
			counts[first+i]++
		}
		for i, n := range counts {
			if n == len(held) {
				out[i].Passes = "all passes"
			}
		}
	}
	return out
}

// ofPlan says of items what the planned value is worth.
var ofPlan = map[procedure.Item]string{
	procedure.ItemWorkDeviation:   "of the plan; that of the weld is to be looked at",
	procedure.ItemTravelDeviation: "of the plan; that of the weld is to be looked at",
	procedure.ItemPreheat:         "as the job states it; measure before the arc is lit",
	procedure.ItemInterpass:       "the arm stands until a model is there; measure before each pass",
}

// noteOn says what a reader must know of an item of a pass.
func (s *sheetMaker) noteOn(h heldPass, v procedure.Verdict) string {
	if note, ok := ofPlan[v.Item]; ok {
		return note
	}
	if v.Item != procedure.ItemPosition || len(h.seam.Lies) < 2 {
		return v.Note
	}
	var names []string
	for _, l := range h.seam.Lies {
		names = append(names, l.Position.Name(s.job.Code).String())
	}
	return "along the seam " + listed(names)
}

// recordRow is a limit of the procedure beside what its record permits.
type recordRow struct{ Item, Permitted, Verdict, Class, Source string }

// record holds the procedure against its record; nil where none is given.
func (s *sheetMaker) record() ([]recordRow, error) {
	if s.wps.QualifiedBy == nil {
		return nil, nil
	}
	permitted, err := s.wps.QualifiedBy.Permitted()
	if err != nil {
		return nil, err
	}
	verdicts, err := permitted.Holds(s.wps)
	if err != nil {
		return nil, err
	}
	var out []recordRow
	for _, v := range verdicts {
		row := recordRow{Item: string(v.Item), Permitted: v.Item.ShowRange(v.Range, s.system), Class: "open", Source: v.Source.String()}
		switch {
		case v.Item == procedure.ItemWireDiameter:
			row.Permitted = s.wires(v.Wires)
		case len(v.Allowed) > 0:
			row.Permitted = listed(v.Allowed)
		}
		if v.Note != "" {
			row.Item += ", " + v.Note
		}
		switch v.State {
		case procedure.Inside:
			row.Class, row.Verdict = "inside", "inside"
		case procedure.Outside:
			row.Class, row.Verdict = "outside", "OUTSIDE: "+v.Found
			if v.Found == "" || v.Measured != 0 {
				row.Verdict = "OUTSIDE: " + v.Item.Show(v.Measured, s.system)
			}
		case procedure.NotStated:
			row.Class, row.Verdict = "outside", "OPEN: the procedure does not limit it so far"
		case procedure.NotKnown:
			row.Permitted, row.Verdict, row.Source = "not stated in the record", notChecked, ""
		}
		out = append(out, row)
	}
	return out, nil
}
