package symbol

// Symbol is one welding symbol of a drawing: what is welded on each side of
// the joint, and what holds for both. It is comparable; check it with Validate
// or get it from Parse.
type Symbol struct {
	System System

	Arrow Weld // on the arrow side; the zero Weld for none
	Other Weld // on the other side

	Pattern     Pattern // of stitches on both sides
	AllRound    bool
	Field       bool // welded on site
	BrokenArrow bool // the arrow points to the member to be prepared
	Tail        Tail
}

// Weld is the weld on one side. Zero fields are not stated.
type Weld struct {
	Kind Kind
	Size Size // none on a groove: complete joint penetration

	Depth float64 // depth of preparation of a groove, m
	Root  Opening // root opening of a groove
	Angle float64 // included groove angle, rad

	Run Run

	Contour Contour
	Finish  Finish
}

// Opening is a root opening, which may be stated as 0.
type Opening struct {
	Width  float64 // m
	Stated bool
}

// On returns the weld of the arrow side or the other side; the zero Weld for none.
func (s Symbol) On(side Side) Weld {
	switch side {
	case ArrowSide:
		return s.Arrow
	case OtherSide:
		return s.Other
	}
	return Weld{}
}

// Side returns where the symbol calls for welds.
func (s Symbol) Side() Side {
	switch arrow, other := s.Arrow.Kind != 0, s.Other.Kind != 0; {
	case arrow && other:
		return BothSides
	case arrow:
		return ArrowSide
	case other:
		return OtherSide
	}
	return 0
}

// Welds returns the one or two welds called for, arrow side first.
func (s Symbol) Welds() []Weld {
	var out []Weld
	for _, w := range []Weld{s.Arrow, s.Other} {
		if w.Kind != 0 {
			out = append(out, w)
		}
	}
	return out
}

// Symmetric reports whether both sides call for the same weld.
func (s Symbol) Symmetric() bool { return s.Arrow.Kind != 0 && s.Arrow == s.Other }
