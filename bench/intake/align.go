package intake

import (
	"fmt"
	"slices"
	"strings"
)

// align mends rows whose fields stand between blanks: numbers that belong to a
// label ("W1 root 2") or to a comment behind the values have become fields of
// their own there. It reports whether reading can go on.
func (s *sheet) align() bool {
	if s.dialect.between != blanks {
		return true
	}
	if !s.labelNumbers() {
		return false
	}
	usual := s.usualRun()
	s.width = 0
	for i := range s.records {
		r := &s.records[i]
		start, run := s.firstRun(r.cells)
		if start <= 1 && run == usual {
			end := start + run
			if rest := r.cells[end:]; len(rest) > 0 {
				r.cells = append(r.cells[:end:end], strings.Join(rest, " "))
			}
		}
		s.width = max(s.width, len(r.cells))
	}
	return true
}

// labelNumbers joins whole numbers behind labels with them: where heads leave
// no other place for them, or that is the answer.
func (s *sheet) labelNumbers() bool {
	join := func(i int) {
		r := &s.records[i]
		r.cells = append([]string{r.cells[0] + " " + r.cells[1]}, r.cells[2:]...)
	}
	if count, ok := s.headNumbers(); ok {
		for i := range s.records {
			if start, run := s.firstRun(s.records[i].cells); start == 1 && run == count+1 && unsigned(s.records[i].cells[1]) {
				join(i)
			}
		}
		return true
	}
	rows := s.doubtfulLabels()
	if len(rows) == 0 {
		return true
	}
	first := s.records[rows[0]]
	value, ok := s.ask(Question{ID: "label_numbers", Default: -1,
		Text: fmt.Sprintf("Line %d begins %q. Does the %s belong to the name of the point?", first.line, first.cells[0]+" "+strings.Join(first.cells[1:3], " "), first.cells[1]),
		Choices: []Choice{
			{"label", fmt.Sprintf("yes, the point is called %q", first.cells[0]+" "+first.cells[1]), plural(len(rows), "line has", "lines have") + " a whole number there"},
			{"value", fmt.Sprintf("no, it is the first value of %q", first.cells[0]), ""},
		}})
	if value == "label" {
		for _, i := range rows {
			join(i)
		}
	}
	return ok
}

// doubtfulLabels returns the rows in which a whole number follows the label
// and the numbers behind it would do for a point. Where a row with as many
// numbers has another number there, it is a column of values.
func (s *sheet) doubtfulLabels() []int {
	enough := []int{3, 6, 7, 12} // numbers of a point
	var out []int
	values := map[int]bool{}
	for i, r := range s.records {
		start, run := s.firstRun(r.cells)
		switch {
		case start == 1 && unsigned(r.cells[1]) && slices.Contains(enough, run-1):
			out = append(out, i)
		case start == 1:
			values[run] = true
		}
	}
	return slices.DeleteFunc(out, func(i int) bool {
		_, run := s.firstRun(s.records[i].cells)
		return values[run]
	})
}

// headNumbers returns how many heads of numbers there are behind a head of
// labels.
func (s *sheet) headNumbers() (int, bool) {
	if !s.headed || len(s.heads) < 2 || s.heads[0].role != label {
		return 0, false
	}
	n := len(s.heads) - 1
	if s.heads[n].role == remark {
		n--
	}
	return n, true
}

// firstRun returns where the first numbers of a row stand and how many follow
// each other.
func (s *sheet) firstRun(cells []string) (start, run int) {
	for start < len(cells) && !s.isNumber(cells[start]) {
		start++
	}
	for start+run < len(cells) && s.isNumber(cells[start+run]) {
		run++
	}
	return start, run
}

// usualRun returns the count of numbers in a row that most rows have, or that
// the heads promise.
func (s *sheet) usualRun() int {
	if n, ok := s.headNumbers(); ok {
		return n
	}
	counts := map[int]int{}
	usual := 0
	for _, r := range s.records {
		_, run := s.firstRun(r.cells)
		if counts[run]++; counts[run] > counts[usual] || counts[run] == counts[usual] && run > usual {
			usual = run
		}
	}
	return usual
}

func (s *sheet) isNumber(cell string) bool {
	_, ok := s.dialect.decimal.number(cell)
	return ok
}

// number returns the number in a cell of a row.
func (s *sheet) number(r record, column int) (float64, bool) {
	if column >= len(r.cells) {
		return 0, false
	}
	return s.dialect.decimal.number(r.cells[column])
}

// cell returns the text in a cell of a row.
func (r record) cell(column int) string {
	if column < 0 || column >= len(r.cells) {
		return ""
	}
	return r.cells[column]
}
