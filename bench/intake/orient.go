package intake

import (
	"fmt"
	"math"
	"slices"

	"seamwright/geom/se3"
	"seamwright/unit"
)

// usualWords are the conventions offered for three, four and nine numbers. Any
// other convention of package se3 is taken as an answer too.
var usualWords = map[int][]string{
	3: {"fixed x-y-z", "moving z-y-x", "moving x-y-z", "moving z-y-z", "rotation vector"},
	4: {"quaternion w first", "quaternion w last", "axis and angle", "tool direction and spin"},
	9: {"matrix by rows", "matrix by columns"},
}

// orientation settles how the turns are to be read, or asks: first for degrees
// or radians, then for the convention. The table alone never tells one order of
// turns from another.
func (s *sheet) orientation() {
	count, ok := s.turnCount()
	if !ok {
		return
	}
	if words, given := s.answers["orientation"]; given {
		s.statedOrientation(words, count)
		return
	}
	if s.quaternion && count == 4 {
		s.stated.Orientation = "quaternion w first"
		s.settle("orientation", "quaternion", "the heads name w, x, y and z", Stated)
		return
	}
	angles := ""
	if count != 9 && !(count == 4 && s.allUnit(4)) {
		if angles = s.turnUnit(count); angles == "" {
			return
		}
	}
	q := Question{ID: "orientation", Default: -1, Text: s.orientationText(count)}
	leaves := s.leaves()
	var off []float64 // of each choice, deg
	for _, words := range usualWords[count] {
		c, err := se3.ParseConvention(words)
		if err != nil {
			c, err = se3.ParseConvention(words + map[string]string{"deg": " degrees", "rad": " radians"}[angles])
		}
		if err != nil {
			continue // has angles, and there are none here
		}
		if evidence, fits := s.evidence(c); fits {
			more, usual := s.leavesSay(c, leaves)
			q.Choices = append(q.Choices, Choice{c.String(), c.Describe(), evidence + more})
			off = append(off, usual)
		}
	}
	q.Default = spokenFor(off)
	switch {
	case len(q.Choices) == 0:
		s.problem(0, fmt.Sprintf("%d numbers of orientation that are neither a unit quaternion, nor a unit axis with an angle, nor a rotation matrix", count), "check the columns of the orientation")
	case count == 3 && len(q.Choices) == 1:
		s.questions = append(s.questions, q) // the other orders of turns stay possible
	default:
		s.stated.Orientation, _ = s.ask(q)
	}
}

// statedOrientation takes the words of the document or the person.
func (s *sheet) statedOrientation(words string, count int) {
	c, err := se3.ParseConvention(words)
	switch {
	case err != nil:
		s.wrong = fmt.Errorf("the answer to \"orientation\": %w", err)
	case c.Len() != count:
		s.wrong = fmt.Errorf("the answer to \"orientation\": %v takes %d numbers, the table has %d", c, c.Len(), count)
	default:
		s.stated.Orientation = c.String()
		s.settle("orientation", c.Describe(), "", Answered)
		symbol, all := s.headUnit(role.isTurn, unit.Angle)
		if u := c.Units(); all && symbol != "" && !slices.Contains(u, symbol) && (u[0] != "" || u[len(u)-1] != "") {
			s.problem(0, fmt.Sprintf("turns whose unit the table states as %s, and the answer %v", symbol, c), "correct the one that is wrong")
		}
	}
}

// turnCount returns how many numbers of orientation rows have.
func (s *sheet) turnCount() (int, bool) {
	count := 0
	for _, r := range s.records {
		n := 0
		for _, c := range columnsOf(r, role.isTurn) {
			if r.cell(c) != "" {
				n++
			}
		}
		count = max(count, n)
	}
	if _, ok := usualWords[count]; !ok {
		s.problem(0, plural(count, "number", "numbers")+" of orientation in a row", "3, 4 or 9 numbers make an orientation: check the columns")
		return 0, false
	}
	return count, true
}

// turnUnit settles or asks for the unit of the turns.
func (s *sheet) turnUnit(count int) string {
	kind := role.isTurn
	if count == 4 {
		kind = func(r role) bool { return r.isTurn() && r.index() == 3 }
	}
	symbol, all := s.headUnit(kind, unit.Angle)
	if all {
		s.settle("turns", symbol, "the table states the unit with the numbers", Stated)
		return symbol
	}
	value, _ := s.ask(angleQuestion("turns", "Are the turns in degrees or radians?", s.reachOf(kind), 2*math.Pi+0.001, s.answers["turns"]))
	return value
}

// allUnit reports whether in nearly all rows the numbers of orientation have
// length 1.
func (s *sheet) allUnit(count int) bool {
	rows, unitLength := 0, 0
	for _, v := range s.turnRows() {
		if len(v) == count {
			rows++
			if math.Abs(norm(v)-1) < unitSlack {
				unitLength++
			}
		}
	}
	return rows > 0 && unitLength*5 >= rows*4
}

// turnRows returns the numbers of orientation of the rows that have them.
func (s *sheet) turnRows() [][]float64 {
	var out [][]float64
	for _, r := range s.records {
		if columns := columnsOf(r, role.isTurn); s.fills(r, role.isTurn) {
			out = append(out, s.numbers(r, columns))
		}
	}
	return out
}

// evidence reads the rows in a convention and says in how many the wire would
// point below level; fits is false where a fifth of them is no orientation.
func (s *sheet) evidence(c se3.Convention) (text string, fits bool) {
	rows, below := 0, 0
	all := s.turnRows()
	for _, v := range all {
		r, err := c.Decode(v)
		if err != nil {
			continue
		}
		rows++
		if r.Z().Z < 0 {
			below++
		}
	}
	if rows*5 < len(all)*4 {
		return "", false
	}
	return fmt.Sprintf("read so, the tool points below level in %d of %s", below, plural(rows, "row", "rows")), true
}

func (s *sheet) orientationText(count int) string {
	for _, r := range s.records {
		columns := columnsOf(r, role.isTurn)
		if len(columns) != count || !s.fills(r, role.isTurn) {
			continue
		}
		var numbers string
		for _, c := range columns {
			numbers += "  " + r.cells[c]
		}
		text := fmt.Sprintf("How does your controller write orientations? Line %d has %s", r.line, numbers[2:])
		if heads := s.headsOf(columns); heads != "" {
			text += ", headed " + heads
		}
		return text + ". The manual says it; letters alone do not."
	}
	return "How does your controller write orientations?"
}
