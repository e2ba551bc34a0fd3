package symbol

// EndRule says how stitches meet the ends of a seam. The zero value is EndsWelded.
type EndRule uint8

// The end rules.
const (
	// EndsWelded has a weld at either end: the pitch shrinks evenly until one
	// fits, and is never wider than drawn. AWS A2.4 has welds at the ends unless
	// the drawing shows otherwise (read in a commentary).
	EndsWelded EndRule = iota
	// PitchKept starts with a weld and keeps the pitch as drawn; what is left at
	// the end stays bare.
	PitchKept
)

// String returns "ends welded" or "pitch kept".
func (e EndRule) String() string {
	if e == PitchKept {
		return "pitch kept"
	}
	return "ends welded"
}

// FarRule says how the far side of staggered stitches ends. The zero value is
// FarEnds.
type FarRule uint8

// The rules of the far side.
const (
	// FarEnds applies the end rule to what is left of the seam behind the offset,
	// so that the far side has its own last weld; the stagger then drifts along
	// the seam where the pitch has to shrink.
	FarEnds FarRule = iota
	// InGaps puts one stitch into the middle of each gap of the near side: a true
	// stagger, one stitch fewer, both ends of the far side bare.
	InGaps
)
