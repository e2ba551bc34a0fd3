package job

import (
	"fmt"

	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

// grooveKinds are the preparations of the kinds of groove, from one side and, where
// it is planned, from both.
var grooveKinds = map[symbol.Kind]struct{ single, double section.Prep }{
	symbol.Square:        {single: section.Square},
	symbol.V:             {section.SingleV, section.DoubleV},
	symbol.VRootFace:     {section.SingleV, section.DoubleV},
	symbol.Bevel:         {section.SingleBevel, section.DoubleBevel},
	symbol.BevelRootFace: {section.SingleBevel, section.DoubleBevel},
}

// calledGroove fills in the groove that the symbol calls for.
func (d *seamDraft) calledGroove() *wrong {
	s := &d.seam
	called, back := s.Symbol.Called(), s.Symbol.Opposite()
	preps, planned := grooveKinds[called.Kind]
	if w := d.openGroove(called, planned); w != nil {
		return w
	}
	g := section.Groove{Prep: preps.single, Gap: called.Root.Width, Angle: called.Angle, Thickness: s.BaseThickness}
	s.Weld.Kind = SizeGroove
	s.Weld.Groove.Cap = section.UsualReinforcement()
	depth, w := d.preparedDeep(called)
	if w != nil {
		return w
	}
	if back.Kind.Groove() {
		switch {
		case back.Kind != called.Kind || back.Angle != called.Angle || back.Root.Stated && back.Root != called.Root:
			return &wrong{fmt.Sprintf("a %v groove with a %v groove behind it", called.Kind, back.Kind), "the same kind, angle and root opening on both sides",
				"write weld: {groove: ...} for this side alone"}
		case preps.double == 0:
			return &wrong{"a square groove from both sides", "V or bevel from both sides", "write weld: {area: ...} for each side, with what it shall lay"}
		}
		g.Prep = preps.double
		if g.Back, w = d.preparedDeep(back); w != nil {
			return w
		}
		if (g.Back == 0) != (depth == 0) {
			return &wrong{"a depth on one side of the groove only", "depths of both sides, or of none", "add the one that is missing"}
		}
	}
	if deep := depth + g.Back; deep > 0 && g.Thickness > 0 {
		if deep > g.Thickness {
			return &wrong{fmt.Sprintf("a groove prepared %s deep", exactMM(deep)), "up to the thickness of the plate, " + exactMM(g.Thickness), "check the symbol's figures and the thickness of the base"}
		}
		g.RootFace = g.Thickness - deep
	}
	if g.Prep == section.SingleBevel || g.Prep == section.DoubleBevel {
		s.take("the prepared edge is taken for the one at the left of the travel, seen with the plates' face towards you; for the other, write weld: {groove: {prepared: right, ...}} in place of the symbol")
	}
	if depth == 0 && called.Kind != symbol.Square {
		s.take("no root face is stated, and none is planned")
	}
	s.Weld.Groove.Section = g
	return nil
}

// openGroove refuses a symbol that leaves open what a groove cannot be planned
// without.
func (d *seamDraft) openGroove(w symbol.Weld, planned bool) *wrong {
	square := w.Kind == symbol.Square
	switch {
	case !planned:
		return &wrong{fmt.Sprintf("a %v groove, whose radius no symbol states", w.Kind), "square, V or bevel in a symbol that is planned",
			"look at the drawing's detail and write weld: {groove: ...} with its radius in place of the symbol"}
	case !w.Root.Stated:
		return &wrong{fmt.Sprintf("a %v groove without its root opening", w.Kind), "root with a length, 0 for none", `add it, for example "root 2"`}
	case !square && w.Angle == 0:
		return &wrong{fmt.Sprintf("a %v groove without its angle", w.Kind), "angle in degrees", `add it, for example "angle 60"`}
	case square && (w.Depth != 0 || w.Size.Is == symbol.Penetration):
		return &wrong{"a square groove of partial penetration", "one of complete penetration", "write weld: {area: ...} with what the pass shall lay"}
	}
	return nil
}

// preparedDeep is how deep one side is prepared, m, 0 for through.
func (d *seamDraft) preparedDeep(w symbol.Weld) (float64, *wrong) {
	switch {
	case w.Depth != 0:
		return w.Depth, nil
	case w.Size.Is == symbol.Penetration:
		d.seam.take("no depth of preparation is stated: it is taken as deep as the penetration, and melt beyond it is not counted")
		return w.Size.Value, nil
	case w.Kind == symbol.VRootFace || w.Kind == symbol.BevelRootFace:
		return 0, &wrong{fmt.Sprintf("a %v without its penetration", w.Kind), "s with a length", `add it, for example "V with root face s8 arrow side"`}
	}
	return 0, nil
}

// take notes what the symbol leaves open, once.
func (s *Seam) take(what string) {
	for _, t := range s.Symbol.Taken {
		if t == what {
			return
		}
	}
	s.Symbol.Taken = append(s.Symbol.Taken, what)
}
