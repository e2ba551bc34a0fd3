package symbol

import "fmt"

// Error says why a symbol is refused. Error puts its parts into one sentence.
type Error struct {
	Name    string // what is wrong, in a few fixed words, such as "bare size"
	Text    string // the text that was read, with single blanks, cut at 200 bytes; empty for a symbol that was not read from text
	Column  int    // of Text, counted in characters from 1; 0 where it is the whole
	Found   string // what was found
	Allowed string // what would do
	Mend    string // what to write or ask

	of part // what a check speaks of
}

// part is a part of a symbol: what was said of a side or, with no side, of the whole.
type part struct {
	side Side
	what string
}

// Error returns the sentence.
func (e *Error) Error() string {
	where := "weld symbol"
	if e.Text != "" {
		where = fmt.Sprintf("weld symbol %q", e.Text)
	}
	if e.Column > 0 {
		where += fmt.Sprintf(", column %d", e.Column)
	}
	return fmt.Sprintf("%s: %s: %s; allowed: %s; %s", where, e.Name, e.Found, e.Allowed, e.Mend)
}

// about says of which part of a weld an error speaks.
func (e *Error) about(what string) *Error {
	e.of.what = what
	return e
}

// The names of what can be wrong with a symbol.
const (
	NoWeld        = "no weld"
	UnknownPart   = "unknown part"
	UnknownSystem = "unknown system"
	UnknownSide   = "no side"
	SideTwice     = "side given twice"
	SaidTwice     = "said twice"
	UnknownKind   = "unknown weld"
	BareSize      = "bare size"
	NoSize        = "no size"
	TwoSizes      = "two sizes"
	WrongMeasure  = "wrong kind of size"
	OutOfSense    = "size out of sense"
	BadNumber     = "not a number"
	BadRun        = "length and spacing"
	PitchTooSmall = "pitch not above length"
	MixedCodes    = "mixed code families"
	BadPattern    = "chain or staggered"
	BadContour    = "unknown contour"
	BadFinish     = "finish"
	NotForKind    = "not for this weld"
	BadTail       = "tail"
	NoSystem      = "system not stated"
	DoesNotFit    = "does not fit the seam"
	BadAngle      = "included angle"
	TooLong       = "text too long"
)
