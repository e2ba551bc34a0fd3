package seam

import (
	"errors"
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
	"seamwright/weld/symbol"
)

// The names of what is refused about stitches and restarts, beside
// section.ErrOutOfRange and section.ErrMixedFamilies. Ask with errors.Is; the words
// are in section.InputError.
var (
	ErrStitch           = errors.New("no stitches")
	ErrPitchUnderLength = errors.New("pitch under length")
	ErrSeamTooShort     = errors.New("seam too short")
	ErrTooFewElements   = errors.New("too few elements")
)

// StitchRequest asks for the stitches of a seam.
type StitchRequest struct {
	// Run is what the symbol says: length, and pitch from centre to centre (AWS
	// A2.4) or clear gap and number of elements (ISO 2553).
	Run    symbol.Run
	Family weld.CodeFamily // of the symbol; AWS goes with a pitch, ISO with a gap
	Length float64         // of the seam, m
	Ends   symbol.EndRule
	// Pattern is chain or staggered for stitches on both sides; 0 for one side.
	Pattern symbol.Pattern
	Far     symbol.FarRule // staggered only
	// Closed says that the seam runs back into its start, as round a tube: there
	// are no ends then, and the pitch shrinks until a whole number fits.
	Closed bool
}

// Stretch is a part of a seam with the arc on, arc lengths in m.
type Stretch struct{ From, To float64 }

// Length returns the length of the stretch, m.
func (s Stretch) Length() float64 { return s.To - s.From }

// Stitches are the stretches to be welded.
type Stitches struct {
	Near, Far []Stretch // in the order of the seam; Far is empty for one side
	Pitch     float64   // centre to centre on the near side, m; 0 for a single stitch
	FarPitch  float64   // the same on the far side, m
	Offset    float64   // from the first stitch of the near side to that of the far one, m
	Bare      float64   // left bare behind the last stitch of the near side, m
}

// Weld returns the length welded on both sides together, m.
func (s Stitches) Weld() float64 {
	sum := 0.0
	for _, side := range [][]Stretch{s.Near, s.Far} {
		for _, w := range side {
			sum += w.Length()
		}
	}
	return sum
}

// Gap returns the widest clear gap on either side, m, 0 for single stitches.
func (s Stitches) Gap() float64 {
	gap := 0.0
	for _, side := range [][]Stretch{s.Near, s.Far} {
		for i := 1; i < len(side); i++ {
			gap = max(gap, side[i].From-side[i-1].To)
		}
	}
	return gap
}

// The ranges of sense. Common practice, no source.
var (
	stitchSense  = weld.Sense{What: "length of a stitch", Low: 5e-3, High: 10, Unit: unit.Millimetres}
	spacingSense = weld.Sense{What: "spacing of stitches", Low: 1e-3, High: 20, Unit: unit.Millimetres}
	lengthSense  = weld.Sense{What: "length of the seam", Low: 5e-3, High: 100, Unit: unit.Millimetres}
)

// fitSlack is how far the last stitch may pass the end of the seam, m, and by how
// much less than one pitch counts as none: the rounding of a drawing.
const fitSlack = 1e-6

// NewStitches lays the stitches of a symbol along a seam.
//
//	pitch kept:  n = floor((L - l)/P) + 1, starts 0, P, 2P...
//	ends welded: n = ceil((L - l)/P) + 1, pitch (L - l)/(n - 1)
//	closed:      n = ceil(L/P), pitch L/n
//
// l length of a stitch, P its pitch: the clear gap and the length together for ISO.
// With a number of elements (ISO) that many are laid: as drawn where the pitch is kept,
// spread evenly with ends welded, but never with gaps wider than drawn. The count of AWS was read (pitch is
// centre to centre, workshop articles on A2.4), the rest is DERIVED. Staggered
// stitches of the far side start half a pitch later.
//
// It refuses measures out of range (stitch 5 mm to 10 m, spacing 1 mm to 20 m, seam
// 5 mm to 100 m), a pitch not above the length, a pitch with an ISO symbol or a gap
// with an AWS one, and stitches that do not fit or would run into each other.
func NewStitches(r StitchRequest) (Stitches, error) {
	if err := r.validate(); err != nil {
		return Stitches{}, fmt.Errorf("stitches: %w", err)
	}
	n, pitch, err := r.count(r.Length, r.Run.Elements)
	if err != nil {
		return Stitches{}, fmt.Errorf("stitches: %w", err)
	}
	s := Stitches{Near: r.laid(0, n, pitch), Pitch: pitch}
	s.Bare = r.Length - s.Near[n-1].To
	if r.Closed || s.Bare < fitSlack {
		s.Bare = 0
	}
	switch r.Pattern {
	case symbol.Chain:
		s.Far, s.FarPitch = r.laid(0, n, pitch), pitch
	case symbol.Staggered:
		if err := stagger(&s, r, n); err != nil {
			return Stitches{}, fmt.Errorf("stitches: far side: %w", err)
		}
	}
	return s, nil
}

// stagger lays the far side half a pitch behind the near one, which has n stitches.
func stagger(s *Stitches, r StitchRequest, n int) error {
	if n < 2 {
		return refusal(ErrSeamTooShort, "one stitch on the near side", "two or more, to stagger between", "write chain, or make the pitch shorter")
	}
	s.Offset = s.Pitch / 2
	switch {
	case r.Closed:
		s.Far, s.FarPitch = r.laid(s.Offset, n, s.Pitch), s.Pitch
		// The last one may run over the start of a closed seam: it is one weld.
	case r.Far == symbol.InGaps:
		s.Far, s.FarPitch = r.laid(s.Offset, n-1, s.Pitch), s.Pitch
	default:
		far := r
		far.Length -= s.Offset
		m, pitch, err := far.count(far.Length, r.Run.Elements)
		if err != nil {
			return err
		}
		s.Far, s.FarPitch = r.laid(s.Offset, m, pitch), pitch
	}
	return nil
}

// laid returns n stitches with a pitch (m) from a start (m).
func (r StitchRequest) laid(start float64, n int, pitch float64) []Stretch {
	out := make([]Stretch, n)
	for i := range out {
		from := start + float64(i)*pitch
		out[i] = Stretch{from, from + r.Run.Length}
	}
	return out
}

// count returns how many stitches lie on a length (m) and their pitch (m). Elements
// is the number that the symbol tells, 0 for none.
func (r StitchRequest) count(length float64, elements int) (int, float64, error) {
	l, drawn := r.Run.Length, r.Run.Pitch()
	free := length - l
	if free < -fitSlack {
		return 0, 0, refusal(ErrSeamTooShort, millimetres(length)+" of seam", "a stitch of "+millimetres(l)+" at least", "check the length of the seam, or weld it through")
	}
	steps := math.Max(0, free) / drawn
	switch {
	case r.Closed:
		n := int(math.Ceil(length/drawn - fitSlack/drawn))
		if elements > 0 {
			n = elements
		}
		return r.told(n, length, length/float64(n))
	case elements == 1:
		return 1, 0, nil
	case elements > 0 && r.Ends == symbol.EndsWelded:
		return r.told(elements, length, free/float64(elements-1))
	case elements > 0 && float64(elements-1) > steps+fitSlack/drawn:
		return 0, 0, refusal(ErrSeamTooShort, fmt.Sprintf("%d elements over %s", elements, millimetres(float64(elements-1)*drawn+l)), "up to the seam, "+millimetres(length), "check the number of elements and the length of the seam")
	case elements > 0:
		return elements, drawn, nil
	case r.Ends == symbol.PitchKept:
		return int(math.Floor(steps+fitSlack/drawn)) + 1, drawn, nil
	}
	n := int(math.Ceil(steps-fitSlack/drawn)) + 1
	if n == 1 {
		return 1, 0, nil
	}
	return r.told(n, length, free/float64(n-1))
}

// told returns a number of stitches on a length (m) and the pitch (m) that they come
// to, refusing one wider than drawn and stitches that run into each other.
func (r StitchRequest) told(n int, length, pitch float64) (int, float64, error) {
	switch l := r.Run.Length; {
	case pitch > r.Run.Pitch()+fitSlack:
		return 0, 0, refusal(ErrTooFewElements, fmt.Sprintf("%d elements with gaps of %s", n, millimetres(pitch-l)), "gaps up to "+millimetres(r.Run.Gap()), "weld more elements, or keep the pitch and leave the end bare")
	case pitch <= l:
		return 0, 0, refusal(ErrSeamTooShort, fmt.Sprintf("%d stitches of %s", n, millimetres(l)), "a gap between them on "+millimetres(length)+" of seam", "weld it through, or keep the pitch and leave the end bare")
	}
	return n, pitch, nil
}

// validate refuses what no stitches can be laid from.
func (r StitchRequest) validate() error {
	if !r.Run.Stitched() {
		return refusal(ErrStitch, "a weld without a spacing", "length and pitch (AWS), or length and clear gap (ISO)", "say which system the drawing uses and give the spacing, or weld it through")
	}
	spacing := spacingSense
	spacing.What = r.Run.SpacingIs.String()
	if err := weld.CheckAll(stitchSense.Of(r.Run.Length), spacing.Of(r.Run.Spacing), lengthSense.Of(r.Length)); err != nil {
		return fmt.Errorf("%w: %w", section.ErrOutOfRange, err)
	}
	const mostElements = 10000
	switch {
	case r.Family != weld.ISO && r.Family != weld.AWS:
		return refusal(section.ErrMixedFamilies, r.Family.String(), "ISO, AWS", "say which system the drawing uses: pitch and clear gap differ by the length of a stitch")
	case (r.Family == weld.AWS) != (r.Run.SpacingIs == symbol.Pitch):
		return refusal(section.ErrMixedFamilies, fmt.Sprintf("a %v in a symbol of %v", r.Run.SpacingIs, r.Family), "the pitch for AWS, the clear gap for ISO", "ask the office which system the drawing uses")
	case r.Run.SpacingIs == symbol.Pitch && r.Run.Spacing <= r.Run.Length:
		return refusal(ErrPitchUnderLength, fmt.Sprintf("pitch %s for stitches of %s", millimetres(r.Run.Spacing), millimetres(r.Run.Length)), "a pitch above the length", "ask whether the number is a clear gap, as ISO gives it")
	case r.Run.Elements < 0 || r.Run.Elements > mostElements:
		return refusal(section.ErrOutOfRange, fmt.Sprintf("%d elements", r.Run.Elements), fmt.Sprintf("0 to %d", mostElements), "check the symbol")
	case r.Pattern != 0 && r.Pattern != symbol.Chain && r.Pattern != symbol.Staggered:
		return refusal(section.ErrOutOfRange, fmt.Sprintf("pattern %d", r.Pattern), "chain, staggered, or none for one side", "say how the sides lie to each other")
	}
	return nil
}

// refusal is an error in the words that all of these have.
func refusal(kind error, found, allowed, mend string) error {
	return section.InputError{Kind: kind, Found: found, Allowed: allowed, Mend: mend}
}

// millimetres prints a length (m) in mm.
func millimetres(m float64) string { return fmt.Sprintf("%.4g mm", m/unit.MM) }
