package main

import (
	"fmt"

	"seamwright/bench/plan"
	"seamwright/unit"
)

// stitches prints how the seams that are welded in stitches are laid out.
func (r report) stitches(p *plan.Plan) {
	for i := range p.Stitched {
		s := &p.Stitched[i]
		text := fmt.Sprintf("%s: %s of %s", s.Name, stitchCount(len(s.Stretches)), r.drawn(s.Length()))
		if s.Pitch > 0 {
			text += " at " + r.drawn(s.Pitch)
		}
		text += fmt.Sprintf(", %s welded of %s, %v", r.drawn(s.Welded()), r.drawn(s.Of), s.Ends)
		if s.Offset > 0 {
			text += ", first at " + r.drawn(s.Offset)
		}
		if n := len(s.Seams); n < len(s.Stretches) {
			text += fmt.Sprintf("; %d left in this run", n)
		}
		fmt.Fprintln(r.out, text)
	}
}

func stitchCount(n int) string {
	if n == 1 {
		return "1 stitch"
	}
	return fmt.Sprintf("%d stitches", n)
}

// drawn prints a length as a drawing has it: 142.5 mm, 60 mm.
func (r report) drawn(m float64) string {
	u, _ := unit.Length.Preferred(r.system)
	return fmt.Sprintf("%.4g %v", u.Value(m), u)
}
