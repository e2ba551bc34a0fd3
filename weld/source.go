package weld

import "strings"

// Mark is how a figure came to be known. The zero value is "not stated".
type Mark uint8

// The marks, from firm to soft.
const (
	Derived        Mark = iota + 1 // pure mathematics from a stated definition
	Read                           // the figure was seen in the source named, or in a page that quotes it
	Memory                         // recalled, source named, nobody looked it up
	CommonPractice                 // a fact of the trade for which no source was found
	Given                          // stated by whoever made the job or its procedure
)

var markWords = []word[Mark]{
	{Derived, "derived", nil},
	{Read, "read", nil},
	{Memory, "from memory", []string{"memory"}},
	{CommonPractice, "common practice, no source", []string{"common practice"}},
	{Given, "given with the job", []string{"given"}},
}

// String returns the words shown beside a figure, such as "from memory".
func (m Mark) String() string { return nameOf(markWords, "mark", m) }

// ParseMark reads the words of a mark.
func ParseMark(s string) (Mark, error) { return parseWord(markWords, "mark", s) }

// Source says where a figure stands and how it is known. It is shown with
// every limit. Fields may be empty; a zero Source means nobody said.
type Source struct {
	Mark    Mark
	Family  CodeFamily // when the document is a code of one family
	Code    string     // document, such as "AWS D1.1" or "Machinery's Handbook"
	Edition string     // year or edition, such as "2020" or "31st ed."
	Clause  string     // clause, table or page, such as "Table 7.7"
	Note    string     // what a reader must know, such as "quoted by a commentary"
}

// String returns one line, such as
// "AWS D1.1:2025 Table 7.7, quoted by a commentary (read)".
func (s Source) String() string {
	doc := s.Code
	if s.Edition != "" {
		sep := ":"
		if strings.Contains(s.Edition, " ") {
			sep = ", "
		}
		doc += sep + s.Edition
	}
	if s.Clause != "" {
		doc = strings.TrimSpace(doc + " " + s.Clause)
	}
	parts := make([]string, 0, 2)
	for _, p := range []string{doc, s.Note} {
		if p != "" {
			parts = append(parts, p)
		}
	}
	return strings.TrimSpace(strings.Join(parts, ", ") + " (" + s.Mark.String() + ")")
}

// Figure is one number, the interval met in practice where one is known, and
// the source. Whoever returns it states the unit.
type Figure struct {
	Value  float64 // the figure to use, in the unit stated by the function that returns it
	Usual  Range   // same unit; not stated when the source gives one figure
	Source Source
}

// Limit is an allowed interval with its source. Whoever returns it states the
// unit.
type Limit struct {
	Range  Range
	Source Source
}
