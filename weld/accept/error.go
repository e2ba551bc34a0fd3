package accept

import "fmt"

// Error says why readings cannot be judged. Error puts its parts into one
// sentence.
type Error struct {
	Name    string // what is wrong, in a few fixed words, such as "mixed code families"
	Found   string // what was found
	Allowed string // what would do
	Mend    string // what to give or ask
}

// Error returns the sentence.
func (e *Error) Error() string {
	return fmt.Sprintf("acceptance: %s: %s; allowed: %s; %s", e.Name, e.Found, e.Allowed, e.Mend)
}

// The names of what can be wrong.
const (
	UnknownCode    = "unknown code"
	UnknownEdition = "unknown edition"
	NoLevel        = "no level"
	MixedCodes     = "mixed code families"
	NoKind         = "no weld kind"
	NoSize         = "no size"
	NoThickness    = "no thickness"
	OutOfSense     = "out of sense"
	NoStep         = "no gauge step"
	UnknownMeasure = "unknown measure"
	NotForKind     = "not for this weld"
	OutsideWeld    = "outside the weld"
	ReadTwice      = "read twice"
)
