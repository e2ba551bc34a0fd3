package quote

import (
	"errors"
	"fmt"
)

// Problem is what is wrong at one place of a weld list. Error puts its parts
// into one sentence.
type Problem struct {
	Line    int    // of the file, from 1
	Column  string // name of the column; empty for the whole line
	Found   string // what was found
	Allowed string // what would do
	Mend    string // what to write
}

// Error returns the sentence.
func (p *Problem) Error() string {
	where := fmt.Sprintf("weld list, line %d", p.Line)
	if p.Column != "" {
		where += ", " + p.Column
	}
	return fmt.Sprintf("%s: %s; allowed: %s; %s", where, p.Found, p.Allowed, p.Mend)
}

// Problems returns the problems that an error of Parse or Price holds, in the
// order of their lines; nil for another error.
func Problems(err error) []*Problem {
	var one *Problem
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		var out []*Problem
		for _, e := range many.Unwrap() {
			out = append(out, Problems(e)...)
		}
		return out
	}
	if errors.As(err, &one) {
		return []*Problem{one}
	}
	return nil
}
