package intake

import "strings"

// align mends rows whose fields stand between blanks: numbers that belong to a
// label ("W1 root 2") or to a comment behind the values have become fields of
// their own there.
func (s *sheet) align() {
	if s.dialect.between != blanks {
		return
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
		if surplus := run - usual; start == 1 && surplus > 0 && allWhole(r.cells[1:1+surplus]) {
			name := strings.Join(r.cells[:1+surplus], " ")
			r.cells = append([]string{name}, r.cells[1+surplus:]...)
		}
		s.width = max(s.width, len(r.cells))
	}
}

func allWhole(cells []string) bool {
	for _, c := range cells {
		if !unsigned(c) {
			return false
		}
	}
	return true
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

// usualRun returns the smallest count of numbers in a row that at least a
// quarter of the rows have; with heads, as many as there are heads of numbers.
func (s *sheet) usualRun() int {
	if s.headed && len(s.heads) > 0 && s.heads[0].role == label {
		n := len(s.heads) - 1
		if s.heads[n].role == remark {
			n--
		}
		return n
	}
	counts := map[int]int{}
	for _, r := range s.records {
		_, run := s.firstRun(r.cells)
		counts[run]++
	}
	for n := leastNumbers; n <= MaxColumns; n++ {
		if counts[n]*4 >= len(s.records) {
			return n
		}
	}
	return 0
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
