package unit

import (
	"fmt"
	"strings"
)

// Error says why a text is not the quantity that was wanted. Error puts its
// parts into one sentence.
type Error struct {
	Kind    Kind   // what was wanted
	Text    string // the text as it was given, cut at 64 bytes
	Found   string // what was found, such as "it has no unit"
	Allowed []Unit // the units that would do
	Mend    string // what to write instead, such as `write "6 mm"`
}

// Error returns the sentence: the text, what was wanted, what was found, what
// is allowed and how to mend it.
func (e *Error) Error() string {
	if len(e.Allowed) == 0 {
		return fmt.Sprintf("%q is not %v: %s; %s", e.Text, e.Kind, e.Found, e.Mend)
	}
	symbols := make([]string, len(e.Allowed))
	for i, u := range e.Allowed {
		symbols[i] = u.String()
	}
	return fmt.Sprintf("%q is not %v: %s; allowed: %s; %s",
		e.Text, e.Kind, e.Found, strings.Join(symbols, ", "), e.Mend)
}
