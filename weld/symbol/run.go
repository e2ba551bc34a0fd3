package symbol

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// SpacingKind says from where to where a spacing is measured. The zero value is
// none.
type SpacingKind uint8

// The kinds of spacing.
const (
	ClearGap SpacingKind = iota + 1 // end of one element to the start of the next: ISO 2553
	Pitch                           // centre to centre of elements: AWS A2.4
)

var spacingWords = []word[SpacingKind]{{ClearGap, "clear gap", nil}, {Pitch, "pitch", nil}}

// String returns "clear gap" or "pitch".
func (k SpacingKind) String() string { return nameOf(spacingWords, "spacing", k) }

// Run is how far a weld runs. The zero value is the full length of the joint.
type Run struct {
	Length   float64 // of the weld, or of one element, m; 0 for the full length
	Elements int     // number of elements, ISO 2553; 0 when the joint's length gives it
	Spacing  float64 // between elements, m, as SpacingIs says; 0 for a continuous weld
	// SpacingIs says whether Spacing is a clear gap or a pitch.
	SpacingIs SpacingKind
}

// Stitched reports whether the weld is intermittent.
func (r Run) Stitched() bool { return r.SpacingIs != 0 }

// The ranges of sense. Common practice, no source.
var (
	elementSense = weld.Sense{What: "length", Low: 1e-3, High: 1000, Unit: unit.Millimetres}
	spacingSense = weld.Sense{What: "spacing", Low: 1e-3, High: 100, Unit: unit.Millimetres}
	seamSense    = weld.Sense{What: "length of the joint", Low: 1e-3, High: 1000, Unit: unit.Metres}
)

// maxElements bounds the number of elements of one symbol.
const maxElements = 10000

// Gap returns the clear gap between elements, m: the pitch less the length
// where the pitch is given; 0 for a continuous weld. DERIVED.
func (r Run) Gap() float64 {
	if r.SpacingIs == Pitch {
		return r.Spacing - r.Length
	}
	return r.Spacing
}

// Pitch returns the distance from centre to centre of elements, m: the clear
// gap and the length where the gap is given; 0 for a continuous weld. DERIVED.
func (r Run) Pitch() float64 {
	if r.SpacingIs == ClearGap {
		return r.Spacing + r.Length
	}
	return r.Spacing
}

// Stretch is where a weld lies along its joint.
type Stretch struct {
	Elements int     // separate lengths, 1 for a continuous weld
	Weld     float64 // weld length in all, m
	Extent   float64 // from the start of the first element to the end of the last, m
}

// fitSlack is how far elements may pass the end of the joint, m: the tolerance
// of a tape.
const fitSlack = 1e-3

// Over lays the run on a joint of a given length (m, 1 mm to 1000 m). With a
// pitch and no number of elements they start at the joint's start and there are
// floor((L - l)/P) + 1 of them. DERIVED from centre to centre (workshop
// articles on A2.4, read). A staggered symbol counts so on each side.
func (r Run) Over(joint float64) (Stretch, error) {
	if err := seamSense.Check(joint); err != nil {
		return Stretch{}, senseError(err)
	}
	length := r.Length
	if length == 0 {
		length = joint
	}
	out := Stretch{Elements: max(r.Elements, 1)}
	if r.Stitched() && r.Elements == 0 && r.Pitch() > 0 {
		out.Elements = int(math.Floor((joint-length)/r.Pitch()+1e-9)) + 1
	}
	out.Weld = float64(out.Elements) * length
	out.Extent = length + float64(out.Elements-1)*r.Pitch()
	if length > joint+fitSlack || out.Extent > joint+fitSlack {
		return Stretch{}, &Error{Name: DoesNotFit, Found: fmt.Sprintf("the weld reaches over %s mm of a joint of %s mm", mm(max(out.Extent, length)), mm(joint)),
			Allowed: "no more than the joint", Mend: "check the joint's length, the number of elements and the spacing"}
	}
	return out, nil
}
