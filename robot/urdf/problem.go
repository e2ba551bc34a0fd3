package urdf

import (
	"fmt"
	"strings"
)

// maxProblems bounds the list of one file: whoever mends a hundred of them
// reads the file again anyway.
const maxProblems = 100

// Problem is one fault of the file, or one thing worth a look: where it is,
// what was found there, what is allowed and how to mend it. Line and Column
// start at 1 and point at the element's opening bracket.
type Problem struct {
	Line, Column int
	Field        string // such as `joint "j2" limit lower`
	Found        string
	Allowed      string
	Mend         string
}

// String returns the problem in one line of words.
func (p Problem) String() string {
	return fmt.Sprintf("%d:%d: %s: found %s; allowed: %s; to mend: %s",
		p.Line, p.Column, p.Field, p.Found, p.Allowed, p.Mend)
}

// Error is what Parse returns for a file that it refuses. Problems are in the
// order of the file, those of its structure last; there is at least one.
type Error struct {
	Name     string // the name given to Parse
	Problems []Problem
	More     int // problems beyond the first hundred, counted and not kept
}

// Error returns all problems, one a line, each after the file's name.
func (e *Error) Error() string {
	var b strings.Builder
	for i, p := range e.Problems {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(e.Name + ":" + p.String())
	}
	if e.More > 0 {
		fmt.Fprintf(&b, "\n%s: and %d more", e.Name, e.More)
	}
	return b.String()
}

// report collects problems and notes while a file is decoded.
type report struct {
	problems []Problem
	more     int
	notes    []Problem
	moreNote int
}

func (r *report) problem(n *node, field, found, allowed, mend string) {
	if len(r.problems) >= maxProblems {
		r.more++
		return
	}
	r.problems = append(r.problems, Problem{n.line, n.column, field, found, allowed, mend})
}

func (r *report) note(n *node, field, found, allowed, mend string) {
	if len(r.notes) >= maxProblems {
		r.moreNote++
		return
	}
	r.notes = append(r.notes, Problem{n.line, n.column, field, found, allowed, mend})
}

func (r *report) failed() bool { return len(r.problems) > 0 }

func (r *report) err(name string) error {
	return &Error{Name: name, Problems: r.problems, More: r.more}
}
