package drawings

import (
	"fmt"

	along "seamwright/weld/seam"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/symbol"
)

// stitches are those of one drawing, 60 mm long on a seam of 1200 mm, to scale: both
// sides of the upright from above, laid by the package that plans them.
func stitches() *sheet {
	s := &sheet{width: 880, height: 745, title: "Stitches on both sides of an upright, from above, to scale"}
	pitch := symbol.Run{Length: 60 * unit.MM, Spacing: 150 * unit.MM, SpacingIs: symbol.Pitch}
	gap := pitch
	gap.SpacingIs = symbol.ClearGap
	chain := along.StitchRequest{Run: pitch, Family: weld.AWS, Length: 1.2, Pattern: symbol.Chain}
	staggered := chain
	staggered.Pattern = symbol.Staggered
	gaps := staggered
	gaps.Far = symbol.InGaps
	kept := chain
	kept.Ends = symbol.PitchKept
	clear := kept
	clear.Run, clear.Family = gap, weld.ISO
	rows := []struct {
		words string
		r     along.StitchRequest
	}{
		{"pitch: 150 mm, ends: welded", chain},
		{"pitch: 150 mm, staggered: true, other_side: own ends", staggered},
		{"pitch: 150 mm, staggered: true, other_side: in the gaps", gaps},
		{"pitch: 150 mm, ends: as drawn", kept},
		{"gap: 150 mm, ends: as drawn: the same number read the other way", clear},
	}
	const left, step, scale = 50.0, 140.0, 0.65 // px, px, px/mm
	for i, row := range rows {
		y := 92 + step*float64(i)
		laid, err := along.NewStitches(row.r)
		if err != nil {
			panic(err) // the drawing itself is wrong
		}
		s.text(point{left, y - 48}, "start", "", "length: 60 mm, "+row.words)
		s.upright(laid, point{left, y}, scale)
	}
	return s
}

// upright draws an upright from above with its stitches: the near side below.
func (s *sheet) upright(laid along.Stitches, at point, scale float64) {
	x := func(m float64) float64 { return at.x + m/unit.MM*scale }
	const half, leg = 5.0, 11.0
	s.polygon("part", at.offset(0, -half), point{x(1.2), at.y - half}, point{x(1.2), at.y + half}, at.offset(0, half))
	for k, side := range [][]along.Stretch{laid.Near, laid.Far} {
		face, toe := at.y+half, at.y+half+leg
		if k == 1 {
			face, toe = at.y-half, at.y-half-leg
		}
		for _, w := range side {
			s.polygon("bead", point{x(w.From), face}, point{x(w.To), face}, point{x(w.To), toe}, point{x(w.From), toe})
		}
	}
	first, second := laid.Near[0], laid.Near[1]
	middle := func(w along.Stretch) point { return point{x((w.From + w.To) / 2), at.y + half + leg} }
	below := point{0, 18}
	s.dimension(middle(first), middle(second), below, fmt.Sprintf("%.4g", laid.Pitch/unit.MM), middle(first).toward(middle(second), 0.5).offset(0, 36), "middle")
	from, to := point{x(first.To), at.y + half + leg}, point{x(second.From), at.y + half + leg}
	shift := 2 * (second.From - first.From) / unit.MM * scale
	s.dimension(from.offset(shift, 0), to.offset(shift, 0), below, fmt.Sprintf("%.4g clear", (second.From-first.To)/unit.MM), from.toward(to, 0.5).offset(shift, 36), "middle")
	n := len(laid.Near)
	words := fmt.Sprintf("%d stitches, %.0f mm on a side", n, float64(n)*first.Length()/unit.MM)
	if len(laid.Far) != n {
		words = fmt.Sprintf("%d stitches, %.0f mm; on the other side %d, %.0f mm", n, float64(n)*first.Length()/unit.MM, len(laid.Far), float64(len(laid.Far))*first.Length()/unit.MM)
	}
	s.text(point{x(1.2), at.y + half + leg + 36}, "end", "", words)
	if laid.Offset > 0 {
		s.dimension(point{x(0), at.y - half - leg}, point{x(laid.Offset), at.y - half - leg}, point{0, -10}, fmt.Sprintf("%.4g", laid.Offset/unit.MM), point{x(laid.Offset) + 6, at.y - half - leg - 5}, "start")
	}
	if laid.Bare > 0 {
		end, top := point{x(laid.Near[n-1].To), at.y + half + leg}, point{x(1.2), at.y + half + leg}
		s.line("dash", end, top)
		s.text(end.toward(top, 0.5).offset(0, 16), "middle", "small", fmt.Sprintf("%.0f bare", laid.Bare/unit.MM))
	}
}
