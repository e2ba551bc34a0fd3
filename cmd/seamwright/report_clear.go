package main

import (
	"fmt"
	"math"
	"strings"
	"text/tabwriter"

	"seamwright/bench/plan"
	"seamwright/unit"
)

// clearances prints the least room of each kind that every pass has, along its
// approach, weld and retreat, and the air moves together.
func (r report) clearances(p *plan.Plan) {
	if len(p.Air) == 0 {
		return
	}
	w := tabwriter.NewWriter(r.out, 0, 0, 2, ' ', 0)
	fmt.Fprint(w, "\nclear of everything")
	for _, c := range p.Air[0].Clear {
		fmt.Fprintf(w, "\t%s", c.Kind)
	}
	fmt.Fprintln(w)
	for i := range p.Seams {
		for k := range p.Seams[i].Passes {
			if pass := &p.Seams[i].Passes[k]; pass.Clear != nil {
				fmt.Fprintf(w, "%s\t%s\n", passTitle(&p.Seams[i], pass), strings.Join(r.rooms(pass.Clear), "\t"))
			}
		}
	}
	air := p.Air[0].Clear
	for i := range p.Air {
		air = plan.Lesser(air, p.Air[i].Clear)
	}
	fmt.Fprintf(w, "air moves\t%s\n", strings.Join(r.rooms(air), "\t"))
	w.Flush()
}

// rooms are the cells of a line: the distance, and what is wanted where it is less.
func (r report) rooms(list []plan.Clearance) []string {
	cells := make([]string, len(list))
	for i := range list {
		c := &list[i]
		switch {
		case math.IsInf(c.Least, 1):
			cells[i] = "-"
		case c.Slack() < 0:
			cells[i] = fmt.Sprintf("%s (%s wanted)", r.fine(unit.Length, c.Least), r.fine(unit.Length, c.Wanted))
		default:
			cells[i] = r.fine(unit.Length, c.Least)
		}
	}
	return cells
}
