package main

import (
	"fmt"
	"math"
	"strings"
	"text/tabwriter"

	"seamwright/bench/plan"
	"seamwright/unit"
)

// clearances prints the room of the nozzle between the plates of its own joint and the
// least room of each kind that every pass has, along its approach, weld and retreat, and
// the air moves together.
func (r report) clearances(p *plan.Plan) {
	w := tabwriter.NewWriter(r.out, 0, 0, 2, ' ', 0)
	fmt.Fprint(w, "\nclear of everything\tnozzle to its own plates")
	var air []plan.Clearance
	if len(p.Air) > 0 {
		air = p.Air[0].Clear
	}
	for _, c := range air {
		fmt.Fprintf(w, "\t%s", c.Kind)
	}
	fmt.Fprintln(w)
	for i := range p.Seams {
		for k := range p.Seams[i].Passes {
			pass := &p.Seams[i].Passes[k]
			cells := append([]string{passTitle(&p.Seams[i], pass), r.own(pass.Room)}, r.rooms(pass.Clear)...)
			fmt.Fprintln(w, strings.Join(cells, "\t"))
		}
	}
	if len(air) > 0 {
		for i := range p.Air {
			air = plan.Lesser(air, p.Air[i].Clear)
		}
		fmt.Fprintf(w, "air moves\t-\t%s\n", strings.Join(r.rooms(air), "\t"))
	}
	w.Flush()
}

// own is the cell of the nozzle between the plates of its joint.
func (r report) own(room *plan.Room) string {
	switch {
	case room == nil:
		return "-"
	case room.Lacks():
		return fmt.Sprintf("%s (%s wanted)", r.fine(unit.Length, room.Clearance), r.fine(unit.Length, room.Wanted))
	}
	return r.fine(unit.Length, room.Clearance)
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
