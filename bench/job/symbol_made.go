package job

import (
	"seamwright/weld"
	"seamwright/weld/symbol"
)

// DrawnSymbol returns the symbol of the seam: the drawing's, or one made from the size
// that the document gives, in the system of its code, with the arrow at the seam. ok is
// false where no symbol says no more than the document does: for an area; for a groove,
// of which it is not known how deep the weld goes; for a throat, a clear gap or a
// pitch that the system does not write; for stitches of two sides in one.
func (s *Seam) DrawnSymbol(code weld.CodeFamily) (drawn symbol.Symbol, given, ok bool) {
	if s.Symbol.Given() {
		return s.Symbol.Says, true, true
	}
	w := symbol.Weld{Kind: symbol.Fillet}
	switch s.Weld.Kind {
	case SizeLeg:
		w.Size = symbol.Size{Is: symbol.Leg, Value: s.Weld.LegBase}
	case SizeLegs:
		w.Size = symbol.Size{Is: symbol.Leg, Value: s.Weld.LegBase, Second: s.Weld.LegOther}
	case SizeThroat:
		w.Size = symbol.Size{Is: symbol.Throat, Value: s.Weld.Throat}
	default:
		return symbol.Symbol{}, false, false
	}
	if st := &s.Stitches; st.Asked() {
		if st.Staggered || st.Run.SpacingIs == symbol.ClearGap && st.Run.Elements == 0 {
			return symbol.Symbol{}, false, false
		}
		w.Run = st.Run
	}
	drawn = symbol.Symbol{System: systemOf(code), Arrow: w, AllRound: s.Closed}
	return drawn, false, drawn.Validate() == nil
}
