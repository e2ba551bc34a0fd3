package draft

import (
	"fmt"
	"math"

	"seamwright/bench/intake"
	"seamwright/unit"
)

// Sketch says in words, a line a seam, what points that are not a job yet tell
// of their seams: which points make it, how long it is and how the torch leans
// along the travel as taught. Points that locate the flange tell no lean.
func Sketch(points []intake.Point, words intake.Words) []string {
	m := &maker{Input: Input{Points: points, Table: intake.Table{Stated: words}}, asker: newAsker(nil), home: -1}
	for _, p := range points {
		m.kept = append(m.kept, row{Point: p})
	}
	m.readNames()
	m.byName()
	var out []string
	for _, s := range m.seams {
		out = append(out, m.sketch(s))
	}
	return out
}

func (m *maker) sketch(s *seam) string {
	switch {
	case s.start < 0 && s.end < 0:
		return fmt.Sprintf("%s: %s, numbered %q to %q", s.name, counted(len(s.numbered), "point", "points"), m.kept[s.numbered[0]].Label, m.kept[s.numbered[len(s.numbered)-1]].Label)
	case s.end < 0:
		return fmt.Sprintf("%s: from %q%s, no end", s.name, m.kept[s.start].Label, m.between(s))
	case s.start < 0:
		return fmt.Sprintf("%s: to %q%s, no start", s.name, m.kept[s.end].Label, m.between(s))
	}
	a, b := m.kept[s.start], m.kept[s.end]
	out := fmt.Sprintf("%s: %q to %q%s", s.name, a.Label, b.Label, m.between(s))
	if !a.HasPlace || !b.HasPlace {
		return out
	}
	way := b.Pose.P.Sub(a.Pose.P)
	out += ", " + m.length(way.Norm())
	if way.Norm() == 0 || m.Table.Stated.Point != "tip" {
		return out
	}
	for _, end := range []struct {
		where string
		r     row
	}{{"start", a}, {"end", b}} {
		if end.r.HasTurn {
			out += fmt.Sprintf(", at the %s %s", end.where, lean(math.Pi/2-angle(end.r.Pose.R.Z(), way.Unit())))
		}
	}
	return out
}

// between counts the points between the ends of a seam.
func (m *maker) between(s *seam) string {
	if n := len(s.along) + len(s.roots); n > 0 {
		return fmt.Sprintf(" with %s between", counted(n, "point", "points"))
	}
	return ""
}

// Wire says in words how the tool's z axis, the wire where poses locate the
// tip, stands in the frame of the points: how far below its x-y plane it points
// and towards which heading, counted from x to y; empty for points without
// turns.
func Wire(p intake.Point) string {
	if !p.HasTurn {
		return ""
	}
	z := p.Pose.R.Z()
	below := math.Asin(max(-1, min(1, -z.Z))) / unit.Deg
	out := fmt.Sprintf("%.0f deg below", below)
	if below < 0 {
		out = fmt.Sprintf("%.0f deg above", -below)
	}
	if math.Hypot(z.X, z.Y) > 0.1 { // straight down has no heading
		out += fmt.Sprintf(", heading %.0f deg", math.Atan2(z.Y, z.X)/unit.Deg+0)
	}
	return out
}
