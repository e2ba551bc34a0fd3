package main

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld/distort"
)

// distortion prints what the welds are likely to do to the part, every rule beside
// the others.
func (r report) distortion(p *plan.Plan) {
	d := &p.Distortion
	fmt.Fprintf(r.out, "\ndistortion by rules of thumb: the right direction, usually right within a factor of two; no prediction\n")
	w := tabwriter.NewWriter(r.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "seam\tdraws together\tshortens\tcloses by")
	for i := range d.Pulls {
		q := &d.Pulls[i]
		turn := ""
		if q.Turn.Range.Stated() {
			turn = fmt.Sprintf("%.0f to %.0f deg", q.Turn.Range.Low/rad, q.Turn.Range.High/rad)
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\n", q.Seam, r.estimate(q.Across), r.estimate(q.Along), turn)
	}
	w.Flush()
	for i := range d.Pulls {
		for _, why := range d.Pulls[i].Unknown {
			fmt.Fprintf(r.out, "%s: %s\n", d.Pulls[i].Seam, why)
		}
	}
	if d.Bow != nil {
		fmt.Fprintf(r.out, "the part bows by %s\n", r.estimate(*d.Bow))
	}
	if o := d.Order; o != nil {
		var names []string
		for _, t := range o.Seams {
			names = append(names, p.DrawnName(t.Seam))
		}
		fmt.Fprintf(r.out, "order proposed: %s\n", strings.Join(names, ", "))
	}
}

// estimate prints a range and the rules that span it.
func (r report) estimate(e distort.Estimate) string {
	if len(e.Rules) == 0 {
		return "not estimated"
	}
	u, _ := unit.Length.Preferred(r.system)
	digits := 1
	if r.system == unit.InchPound {
		digits = 3
	}
	var rules []string
	for _, x := range e.Rules {
		rules = append(rules, fmt.Sprintf("%s %.*f", x.Name, digits, u.Value(x.Value)))
	}
	text := unit.Format(e.Range.Low, u, digits)
	if high := unit.Format(e.Range.High, u, digits); high != text {
		text = strings.TrimSuffix(text, " "+u.String()) + " to " + high
	}
	return text + " (" + strings.Join(rules, ", ") + ")"
}
