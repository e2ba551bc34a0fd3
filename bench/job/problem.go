package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// maxProblems bounds the list that a person is shown at once.
const maxProblems = 50

// maxKept bounds what is kept before sorting, so that a hopeless file costs
// little.
const maxKept = 1000

// maxFound bounds the text of a wrong value in a message, in characters.
const maxFound = 60

// Problem is one thing that is wrong in the document or in a file that it
// names.
type Problem struct {
	Place Place
	// Found is what stands there, Allowed what may stand there, Mend what to do.
	Found, Allowed, Mend string
}

// String returns the problem in one line.
func (p Problem) String() string {
	return clean(fmt.Sprintf("%v: found %s; allowed: %s; %s", p.Place, p.Found, p.Allowed, p.Mend))
}

// String returns "file:line:column: field", leaving out what is not known.
func (p Place) String() string {
	text := p.File
	if p.Line > 0 {
		text += fmt.Sprintf(":%d:%d", p.Line, p.Column)
	}
	if p.Field != "" {
		text += ": " + p.Field
	}
	return text
}

// Problems is the error that Decode returns: everything that is wrong, sorted
// by file, line and column. At least one is in List.
type Problems struct {
	List []Problem
	// More counts the problems beyond those 50.
	More int
}

// Error returns all problems, one a line.
func (ps *Problems) Error() string {
	lines := make([]string, 0, len(ps.List)+1)
	for _, p := range ps.List {
		lines = append(lines, p.String())
	}
	if ps.More > 0 {
		lines = append(lines, fmt.Sprintf("and %d more", ps.More))
	}
	return strings.Join(lines, "\n")
}

func (ps *Problems) add(at Place, found, allowed, mend string) {
	if len(ps.List) >= maxKept {
		ps.More++
		return
	}
	ps.List = append(ps.List, Problem{at, found, allowed, mend})
}

// count returns how many problems were added.
func (ps *Problems) count() int { return len(ps.List) + ps.More }

// err returns the sorted and bounded problems as an error, nil where there are
// none.
func (ps *Problems) err() error {
	if len(ps.List) == 0 {
		return nil
	}
	slices.SortStableFunc(ps.List, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Place.File, b.Place.File),
			cmp.Compare(a.Place.Line, b.Place.Line), cmp.Compare(a.Place.Column, b.Place.Column))
	})
	if more := len(ps.List) - maxProblems; more > 0 {
		ps.List, ps.More = ps.List[:maxProblems:maxProblems], ps.More+more
	}
	return ps
}

// quote returns text in quotes, on one line and cut where it is long.
func quote(text string) string {
	return `"` + clean(cut(text)) + `"`
}

// cut shortens a long text.
func cut(text string) string {
	if len(text) <= maxFound {
		return text
	}
	if runes := []rune(text); len(runes) > maxFound {
		return string(runes[:maxFound]) + "..."
	}
	return text
}

// clean puts a space in place of line ends and everything else that does not
// print.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, text)
}
