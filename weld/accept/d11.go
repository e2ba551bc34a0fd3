package accept

import (
	"fmt"
	"math"
	"slices"

	"seamwright/unit"
	"seamwright/weld"
)

// AWS D1.1, visual inspection, as data. READ as pages of the 2000 and 2004
// editions (Table 6.1) and quoted for 2020 (Table 8.1); the convexity steps
// READ in workshop articles. Metric column; m.
var (
	// undersize: leg as drawn from, how much less it may be.
	undersize = []struct{ from, less float64 }{{0, 2 * unit.MM}, {6 * unit.MM, 2.5 * unit.MM}, {8 * unit.MM, 3 * unit.MM}}
	// convexity: face width up to, height allowed.
	convexity = []struct{ upTo, height float64 }{{8 * unit.MM, 2 * unit.MM}, {25 * unit.MM, 3 * unit.MM}, {math.Inf(1), 5 * unit.MM}}
)

// Figures of the same tables, m; shares dimensionless.
const (
	undersizeShare = 0.10 // of the weld's length

	undercutThin     = 25 * unit.MM // plates below it have the smaller limit
	undercutUsual    = 1 * unit.MM
	undercutMost     = 2 * unit.MM // over undercutRun in any undercutWindow; everywhere on thicker plates
	undercutRun      = 50 * unit.MM
	undercutWindow   = 300 * unit.MM
	undercutAcross   = 0.25 * unit.MM // cyclic, across tension
	poresIn25        = 10 * unit.MM
	poresIn300       = 20 * unit.MM
	poreCyclic       = 2.5 * unit.MM // diameter, fillets
	poreSpacing      = 100 * unit.MM // no more than one in it, cyclic fillets
	grooveReinforced = 3 * unit.MM
)

// source is the source of an item.
func (j judge) source(item, note string) weld.Source {
	table := "Table 6.1"
	if j.std.Edition >= "2020" {
		table = "Table 8.1"
	}
	src := weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "AWS D1.1", Edition: j.std.Edition, Clause: table + ", " + item, Note: note}
	if j.std.Edition == "2025" && note == "" {
		src.Note = "figures of 2020"
	}
	return src
}

// d11 judges all items.
func (j judge) d11() []Verdict {
	none := func(ref, name string, m Measure) Verdict {
		v := Verdict{Ref: ref, Name: name, Words: no.words(0), Source: j.source("item "+ref, ""), unit: m.unit()}
		v.settle(Forbidden, j.direct(m, func(Reading) (float64, string) { return 0, "" }))
		return v
	}
	out := []Verdict{none("1", "crack", Crack), none("2", "lack of fusion", LackOfFusion), none("3", "unfilled crater", UnfilledCrater)}
	if j.weld.Kind == weld.Fillet {
		out = append(out, j.convexity(), none("4", "overlap", Overlap), j.undersize())
	} else {
		out = append(out, j.reinforcement(), none("4", "overlap", Overlap))
	}
	out = append(out, j.undercut())
	return append(out, j.pores()...)
}

// direct turns readings of a measure into observations with the limit of each
// place.
func (j judge) direct(m Measure, limit func(Reading) (float64, string)) []observation {
	var out []observation
	for _, r := range j.readings {
		if r.Measure == m {
			o := observation{h: r.Value, step: r.Step, at: r.At, extent: r.Extent, placed: r.Placed, gauged: !m.Seen()}
			o.limit, o.need = limit(r)
			out = append(out, o)
		}
	}
	return out
}

func (j judge) convexity() Verdict {
	v := Verdict{Ref: "4", Name: "convexity", Words: "2 mm for faces to 8 mm, 3 mm to 25 mm, 5 mm above",
		Source: j.source("item 4, weld profiles", "steps as workshop articles have them"), unit: unit.Millimetres}
	v.settle(AtMost, j.direct(Convexity, func(r Reading) (float64, string) {
		width, need := j.width(r, Convexity)
		for _, step := range convexity {
			if width <= step.upTo+slack {
				return step.height, need
			}
		}
		return 0, need
	}))
	return v
}

func (j judge) reinforcement() Verdict {
	v := Verdict{Ref: "4", Name: "groove reinforcement", Words: "h <= " + mm(grooveReinforced), Source: j.source("item 4, weld profiles", ""), unit: unit.Millimetres}
	v.settle(AtMost, j.direct(Excess, func(Reading) (float64, string) { return grooveReinforced, "" }))
	return v
}

// undersize judges the smaller leg: less than drawn by a little, on a tenth of
// the length, and not at a girder's ends.
func (j judge) undersize() Verdict {
	less := undersize[0].less
	for _, row := range undersize {
		if j.weld.Size >= row.from-slack {
			less = row.less
		}
	}
	v := Verdict{Ref: "6", Name: "undersize", Words: fmt.Sprintf("leg %s, at least %s, on 10 %% of the length at most", mm(j.weld.Size), mm(j.weld.Size-less)),
		Source: j.source("item 6", ""), unit: unit.Millimetres}
	var obs []observation
	for _, m := range []Measure{LegBase, LegOther} {
		for _, r := range j.readings {
			if r.Measure == m {
				obs = append(obs, observation{h: j.weld.Size - r.Value, limit: less, step: r.Step, at: r.At, extent: r.Extent,
					placed: r.Placed, gauged: true, note: fmt.Sprintf("%v %s", m, mm(r.Value))})
			}
		}
	}
	v.settle(AtMost, obs)
	run, measured := imperfect(obs, func(o observation) bool { return o.h > slack })
	if v.State != Accepted || len(run) == 0 {
		return v
	}
	if !measured || j.weld.Length == 0 {
		v.State, v.Need = Undecided, "the weld's length and the length over which the leg is small"
		return v
	}
	share := total(run) / j.weld.Length
	v.Note += fmt.Sprintf(", small on %.3g %% of the length", share*100)
	if share > undersizeShare+1e-9 {
		v.State = Rejected
	}
	for _, r := range run {
		if end := j.weld.GirderEnd; end > 0 && (!r.placed || r.at < end-slack || r.at+r.extent > j.weld.Length-end+slack) {
			v.State = Rejected
			v.Note += fmt.Sprintf(", at the end of a girder's weld, where none is allowed over %s", mm(end))
			break
		}
	}
	return v
}

// undercut judges its depth, and its length where it is deeper than usual.
func (j judge) undercut() Verdict {
	v := Verdict{Ref: "7", Name: "undercut", Source: j.source("item 7", ""), unit: unit.Millimetres}
	limit, longer := undercutUsual, undercutMost
	switch {
	case j.std.Load == Cyclic && j.weld.AcrossTension:
		limit, longer = undercutAcross, undercutAcross
		v.Words = "h <= " + mm(limit) + " across tension, cyclic"
	case j.std.Load == Cyclic:
		longer = limit
		v.Words = "h <= " + mm(limit) + ", cyclic"
	case j.weld.Thickness >= undercutThin-slack:
		limit, longer = undercutMost, undercutMost
		v.Words = "h <= " + mm(limit) + " on plates from " + mm(undercutThin)
	default:
		v.Words = fmt.Sprintf("h <= %s, or %s over %s in any %s", mm(limit), mm(longer), mm(undercutRun), mm(undercutWindow))
	}
	usual := j.direct(Undercut, func(Reading) (float64, string) { return limit, "" })
	v.settle(AtMost, usual)
	if v.State == Accepted || v.State == NotRead || longer == limit {
		return v
	}
	deep := j.direct(Undercut, func(Reading) (float64, string) { return longer, "" })
	v.settle(AtMost, deep)
	if v.State != Accepted {
		return v
	}
	over := func(states ...State) (float64, bool) {
		run, measured := imperfect(usual, func(o observation) bool { return slices.Contains(states, o.state(AtMost)) })
		return worstWindow(run, undercutWindow), measured
	}
	surely, measured := over(Rejected)
	perhaps, all := over(Rejected, Undecided)
	if !measured || !all {
		v.State, v.Need = Undecided, "the length over which it is deeper than "+mm(limit)
		return v
	}
	v.Note = fmt.Sprintf("deeper than %s over %s in the worst %s", mm(limit), mm(perhaps), mm(undercutWindow))
	switch {
	case surely > undercutRun+slack:
		v.State = Rejected
	case perhaps > undercutRun+slack:
		v.State, v.Need = Undecided, fmt.Sprintf("a finer gauge: readings within half a step of %s decide", mm(limit))
	}
	return v
}

// pores judges piping porosity, and single pores of fillets under cyclic load.
func (j judge) pores() []Verdict {
	sum := func(name string, m Measure, limit float64) Verdict {
		v := Verdict{Ref: "8", Name: name, Words: "sum of diameters <= " + mm(limit), Source: j.source("item 8", ""), unit: unit.Millimetres}
		v.settle(AtMost, j.direct(m, func(Reading) (float64, string) { return limit, "" }))
		return v
	}
	if j.std.Load != Cyclic {
		return []Verdict{sum("pores in 25 mm", PoreSum25, poresIn25), sum("pores in 300 mm", PoreSum300, poresIn300)}
	}
	v := Verdict{Ref: "8", Name: "surface pore", Words: fmt.Sprintf("diameter <= %s, one in %s", mm(poreCyclic), mm(poreSpacing)), Source: j.source("item 8", ""), unit: unit.Millimetres}
	const grooves = "the rule of the code for grooves, which is not held here"
	obs := j.direct(SurfacePore, func(Reading) (float64, string) {
		if j.weld.Kind == weld.Groove {
			return 0, grooves
		}
		return poreCyclic, ""
	})
	v.settle(AtMost, obs)
	if v.State != Accepted {
		return []Verdict{v}
	}
	for i, o := range obs {
		for _, p := range obs[:i] {
			switch apart := math.Abs(o.at - p.at); {
			case o.h == 0 || p.h == 0:
			case !o.placed || !p.placed:
				v.State, v.Need = Undecided, "the places of the pores"
			case apart < poreSpacing-slack:
				v.State, v.Note = Rejected, fmt.Sprintf("two pores %s apart", mm(apart))
			}
		}
	}
	return []Verdict{v}
}
