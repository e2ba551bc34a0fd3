package symbol

import "seamwright/weld"

// System is the standard by which a symbol is drawn. The zero value is "not
// stated": such a symbol is data that can be checked, but not drawn.
type System uint8

// The systems.
const (
	ISO2553A System = iota + 1 // ISO 2553 system A: solid and dashed reference line
	ISO2553B                   // ISO 2553 system B: one line, arrow side below it
	AWSA24                     // AWS A2.4: one line, arrow side below it
)

var systemWords = []word[System]{
	{ISO2553A, "ISO 2553-A", []string{"ISO-A", "ISO 2553 A"}},
	{ISO2553B, "ISO 2553-B", []string{"ISO-B", "ISO 2553 B"}},
	{AWSA24, "AWS A2.4", []string{"AWS", "A2.4"}},
}

// String returns the name, such as "ISO 2553-A".
func (s System) String() string { return nameOf(systemWords, "system", s) }

// Family returns the code family of the system, zero for "not stated".
func (s System) Family() weld.CodeFamily {
	switch s {
	case ISO2553A, ISO2553B:
		return weld.ISO
	case AWSA24:
		return weld.AWS
	}
	return 0
}

// Source says how the drawing rules of the system are known.
func (s System) Source() weld.Source {
	src := weld.Source{Mark: weld.Memory, Family: s.Family(), Code: "ISO 2553", Edition: "2019",
		Note: "sides and supplementary symbols read in secondary pages, shapes from memory"}
	if s == AWSA24 {
		src.Code, src.Edition = "AWS A2.4", "2020"
	}
	return src
}

// Kind is the weld that an elementary symbol calls for. The zero value is no
// weld.
type Kind uint8

// The kinds: the fillet and the grooves.
const (
	Fillet Kind = iota + 1
	Square
	V
	Bevel
	U
	J
	FlareV
	FlareBevel
	VRootFace     // V with a broad root face, ISO 2553 only
	BevelRootFace // bevel with a broad root face, ISO 2553 only
)

var kindWords = []word[Kind]{
	{Fillet, "fillet", nil},
	{Square, "square", nil},
	{V, "V", nil},
	{Bevel, "bevel", nil},
	{U, "U", nil},
	{J, "J", nil},
	{FlareV, "flare-V", []string{"flare V"}},
	{FlareBevel, "flare-bevel", []string{"flare bevel"}},
	{VRootFace, "V with root face", nil},
	{BevelRootFace, "bevel with root face", nil},
}

// String returns the trade's word, such as "flare-bevel".
func (k Kind) String() string { return nameOf(kindWords, "weld", k) }

// Groove reports whether k is a groove weld.
func (k Kind) Groove() bool { return k >= Square && k <= BevelRootFace }

// OneMember reports whether k prepares one member only, so that the arrow may
// be broken towards it.
func (k Kind) OneMember() bool {
	return k == Bevel || k == J || k == FlareBevel || k == BevelRootFace
}

// angled reports whether k has a groove angle.
func (k Kind) angled() bool { return k.Groove() && k != Square && k != FlareV && k != FlareBevel }

// Side is where a weld lies, seen from the symbol's arrow. The zero value is
// "not stated".
type Side uint8

// The sides.
const (
	ArrowSide Side = iota + 1
	OtherSide
	BothSides
)

var sideWords = []word[Side]{
	{ArrowSide, "arrow side", nil},
	{OtherSide, "other side", nil},
	{BothSides, "both sides", nil},
}

// String returns "arrow side", "other side" or "both sides".
func (s Side) String() string { return nameOf(sideWords, "side", s) }

// Pattern is how the stitches of two sides lie to each other. The zero value
// is for welds that are not stitches on both sides.
type Pattern uint8

// The patterns.
const (
	Chain     Pattern = iota + 1 // opposite each other
	Staggered                    // each opposite a gap
)

var patternWords = []word[Pattern]{{Chain, "chain", nil}, {Staggered, "staggered", nil}}

// String returns "chain" or "staggered".
func (p Pattern) String() string { return nameOf(patternWords, "pattern", p) }

// Contour is the shape of the weld face that is called for. The zero value
// calls for none.
type Contour uint8

// The contours. Blended toes are a symbol of ISO 2553 only.
const (
	Flat Contour = iota + 1
	Convex
	Concave
	ToesBlended
)

var contourWords = []word[Contour]{
	{Flat, "flat", []string{"flush"}}, {Convex, "convex", nil}, {Concave, "concave", nil}, {ToesBlended, "toes blended", nil},
}

// String returns the word, such as "concave".
func (c Contour) String() string { return nameOf(contourWords, "contour", c) }

// Finish is how the contour is reached after welding, by the letter of AWS
// A2.4. The zero value calls for none.
type Finish byte

// The finishes of AWS A2.4, read in workshop articles.
const (
	Chipped     Finish = 'C'
	Ground      Finish = 'G'
	Machined    Finish = 'M'
	Rolled      Finish = 'R'
	Hammered    Finish = 'H'
	Unspecified Finish = 'U'
)

var finishWords = []word[Finish]{
	{Chipped, "C", nil}, {Ground, "G", nil}, {Machined, "M", nil}, {Rolled, "R", nil}, {Hammered, "H", nil}, {Unspecified, "U", nil},
}

// String returns the letter, such as "G".
func (f Finish) String() string { return nameOf(finishWords, "finish", f) }
