package section

import (
	"fmt"
	"slices"

	"seamwright/unit"
	"seamwright/weld"
)

// Typical is a row of typical preparation: the ranges (m, rad) that go with a
// thickness. A range that is not stated does not limit.
type Typical struct {
	Ref       string // the standard's reference number
	Prep      Prep
	BothSides bool       // welded from both sides
	Thickness weld.Range // m; an end may itself not be allowed, see Above
	Above     bool       // the low end of Thickness is not allowed itself: "over 3 mm"
	Angle     weld.Range // included angle of a V, bevel angle elsewhere, rad
	Gap       weld.Range // m, after tacking
	GapShare  float64    // the gap is about this share of the thickness, dimensionless; 0 where Gap says it
	RootFace  weld.Range // m
	Note      string
	Source    weld.Source
}

// iso9692 names one row of the table.
func iso9692(ref string) weld.Source {
	return weld.Source{Mark: weld.Memory, Family: weld.ISO, Code: "ISO 9692-1", Edition: "2013", Clause: ref,
		Note: "low confidence: open the standard before use"}
}

// typicals is ISO 9692-1:2013 for gas-metal arc welding (13), m and rad, all
// from memory, low confidence.
var typicals = []Typical{
	{Ref: "1.2.2", Prep: Square, Thickness: weld.Between(3e-3, 8e-3), Above: true, GapShare: 1, Note: "with backing"},
	{Ref: "1.3", Prep: SingleV, Thickness: weld.Between(3e-3, 10e-3), Above: true,
		Angle: weld.Between(40*unit.Deg, 60*unit.Deg), Gap: weld.AtMost(4e-3), RootFace: weld.AtMost(2e-3)},
	{Ref: "1.5", Prep: SingleV, Thickness: weld.Between(5e-3, 40e-3), Note: "broad root face",
		Angle: weld.Between(55*unit.Deg, 65*unit.Deg), Gap: weld.Between(1e-3, 4e-3), RootFace: weld.Between(2e-3, 4e-3)},
	{Ref: "1.8", Prep: SingleU, Thickness: weld.AtLeast(12e-3), Above: true,
		Angle: weld.Between(8*unit.Deg, 12*unit.Deg), Gap: weld.AtMost(4e-3), RootFace: weld.AtMost(3e-3)},
	{Ref: "1.9", Prep: SingleBevel, Thickness: weld.Between(3e-3, 10e-3), Above: true,
		Angle: weld.Between(35*unit.Deg, 60*unit.Deg), Gap: weld.Between(2e-3, 4e-3), RootFace: weld.Between(1e-3, 2e-3)},
	{Ref: "2.1", Prep: Square, BothSides: true, Thickness: weld.AtMost(8e-3), GapShare: 0.5},
	{Ref: "2.5", Prep: DoubleV, BothSides: true, Thickness: weld.AtLeast(10e-3), Above: true,
		Angle: weld.Between(40*unit.Deg, 60*unit.Deg), Gap: weld.Between(1e-3, 3e-3), RootFace: weld.AtMost(2e-3)},
	{Ref: "2.9", Prep: DoubleBevel, BothSides: true, Thickness: weld.AtLeast(10e-3), Above: true,
		Angle: weld.Between(35*unit.Deg, 60*unit.Deg), Gap: weld.Between(1e-3, 4e-3), RootFace: weld.AtMost(2e-3)},
}

// Typicals returns the rows of ISO 9692-1:2013 for gas-metal arc welding that
// are known here, for one preparation, or all of them for the zero value; all
// from memory, low confidence. "About 60 degrees" is held as 55 to 65. Row 3.1,
// the fillet of a tee, is TypicalFillet.
func Typicals(p Prep) []Typical {
	var out []Typical
	for _, t := range typicals {
		if p == 0 || t.Prep == p {
			t.Source = iso9692(t.Ref)
			out = append(out, t)
		}
	}
	return out
}

// TypicalFillet returns row 3.1 of ISO 9692-1:2013, from memory, low confidence:
// plates over 2 mm (m), 70 to 100 degrees between them (rad), gap at most 2 mm
// (m).
func TypicalFillet() (thickness, angle, gap weld.Limit) {
	source := iso9692("3.1")
	return weld.Limit{Range: weld.AtLeast(2e-3), Source: source},
		weld.Limit{Range: weld.Between(70*unit.Deg, 100*unit.Deg), Source: source},
		weld.Limit{Range: weld.AtMost(2e-3), Source: source}
}

// Difference is one measure that a row of typical preparation does not have so.
type Difference struct {
	What    string // "thickness", "angle", "gap" or "root face"
	Found   string // with its unit
	Allowed string // with its unit
	Mend    string
}

// aboutShare is how far a gap may be from "about the thickness" or "about half of
// it", as a share of the thickness, dimensionless. Common practice, no source.
const aboutShare = 0.25

// Compare returns where the groove differs from the row, in the order thickness,
// angle, gap, root face; none means typical. A preparation outside the row is no
// fault: it must be shown by a procedure of its own.
func (t Typical) Compare(g Groove) ([]Difference, error) {
	if g.Prep != t.Prep {
		return nil, fmt.Errorf("typical preparation %s: %w", t.Ref, InputError{ErrNotOfThisPrep, g.Prep.String(), t.Prep.String(), "compare with a row of the same preparation"})
	}
	gap := t.Gap
	if t.GapShare > 0 {
		gap = weld.Between((t.GapShare-aboutShare)*g.Thickness, (t.GapShare+aboutShare)*g.Thickness)
	}
	var out []Difference
	add := func(what string, r weld.Range, above bool, value float64, say func(float64) string, mend string) {
		if r.Stated() && (!r.Contains(value) || above && value <= r.Low) {
			out = append(out, Difference{what, say(value), span(r, above, say), mend})
		}
	}
	add("thickness", t.Thickness, t.Above, g.Thickness, millimetres, "choose another preparation")
	add("angle", t.Angle, false, g.Angle, degrees, "prepare the edges again")
	add("gap", gap, false, g.Gap, millimetres, "tack again")
	add("root face", t.RootFace, false, g.RootFace, millimetres, "grind the root face")
	return slices.Clip(out), nil
}

// span prints a range, "over" for a low end that is not allowed itself.
func span(r weld.Range, above bool, say func(float64) string) string {
	low := "at least "
	if above {
		low = "over "
	}
	switch {
	case r.HasLow && r.HasHigh && above:
		return low + say(r.Low) + " to " + say(r.High)
	case r.HasLow && r.HasHigh:
		return say(r.Low) + " to " + say(r.High)
	case r.HasLow:
		return low + say(r.Low)
	}
	return "at most " + say(r.High)
}
