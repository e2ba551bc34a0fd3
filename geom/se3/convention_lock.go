package se3

// lockTolerance (rad, or the sine of an angle) is how near to its lock a
// convention counts as locked. There the two numbers that work against each
// other are fixed by a rule, which turns the rotation by no more than pi times
// this; at its edge a matrix with errors of 1e-16 still gives each number to
// 1e-6 rad.
const lockTolerance = 1e-10

// Rule says how a number was fixed that the rotation leaves free.
type Rule uint8

// The rules.
const (
	Unique       Rule = iota // nothing was free
	FirstZero                // lock of three turns: the first number is set to 0
	LastZero                 // lock of three turns: the last number is set to 0
	HalfTurnY                // tool straight up: spin 0 is a half turn about the frame's Y from straight down
	PositiveSign             // half turn: of the two signs, the one whose first non-zero axis number is positive
	AxisZ                    // no turn at all: the axis is set to Z
)

// String returns the rule in words for a sheet.
func (r Rule) String() string {
	switch r {
	case Unique:
		return "the numbers are unique"
	case FirstZero:
		return "the first and the last turn have the same axis here and only their sum or difference counts: the first is set to 0"
	case LastZero:
		return "the first and the last turn have the same axis here and only their sum or difference counts: the last is set to 0"
	case HalfTurnY:
		return "the tool points straight up: the spin is measured from straight down carried over by a half turn about Y"
	case PositiveSign:
		return "half a turn: the opposite signs are the same rotation; the first axis number that is not 0 is written positive"
	case AxisZ:
		return "no turn: the axis is free and written as Z"
	}
	return "unknown rule"
}

// Lock says how far the numbers of a row can be trusted one by one.
type Lock struct {
	// Rule is Unique, or says which freedom was fixed and how.
	Rule Rule
	// Magnify, dimensionless and at least 1, is how many degrees an angle of
	// the row may move when the tool turns by one degree, to first order: 1/cos
	// of the middle turn (three axes), 1/sin of it (two axes), 1/cos of half
	// the angle from straight down (tool direction and spin). It is 1 where no
	// angle grows faster than the turn, and +Inf at a lock.
	Magnify float64
}

// Locked reports whether the numbers are not unique.
func (l Lock) Locked() bool { return l.Rule != Unique }
