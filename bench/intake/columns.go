package intake

import (
	"fmt"
	"slices"
	"strings"
)

// place gives every column that a head or its words settle a role; the columns
// of numbers that are left over are the layouts' business.
func (s *sheet) place() []role {
	roles := make([]role, s.width)
	turns := 0
	for i := range roles {
		if i >= len(s.heads) {
			break
		}
		r := s.heads[i].role
		if r == "r?" {
			turns++
			r = turnRole(turns - 1)
		}
		if r != noRole && r != roleSkip && slices.Contains(roles, r) {
			s.problem(0, fmt.Sprintf("two columns are headed as %s", r), "delete one of them, or give it another head")
			r = roleSkip
		}
		roles[i] = r
	}
	s.quaternionHeads(roles)
	if !s.headed {
		s.counter(roles)
	}
	s.words(roles)
	return roles
}

// quaternionHeads turns heads that name the parts of a quaternion into turns,
// w first.
func (s *sheet) quaternionHeads(roles []role) {
	order := []role{"qw", "qx", "qy", "qz"}
	for _, q := range order {
		if !slices.Contains(roles, q) {
			return
		}
	}
	for i, r := range roles {
		if k := slices.Index(order, r); k >= 0 {
			roles[i] = turnRole(k)
		}
	}
	s.quaternion = true
}

// counter finds a first column that counts the rows.
func (s *sheet) counter(roles []role) {
	const least = 3 // rows that count up are no chance
	if len(s.records) < least {
		return
	}
	first, ok := s.number(s.records[0], 0)
	for i, r := range s.records {
		x, isNumber := s.number(r, 0)
		if !ok || !isNumber || x != first+float64(i) || !unsigned(r.cells[0]) {
			return
		}
	}
	roles[0] = roleSkip
	s.settle("columns", "the first column counts the rows", fmt.Sprintf("it goes up by 1 from %g", first), OnlyOne)
}

// words gives the columns of words their roles: the first that names nearly
// every row differently is the label, those with known words are move and arc,
// the others comments.
func (s *sheet) words(roles []role) {
	var texts []int
	s.wordy = make([]bool, len(roles))
	for i := range roles {
		s.wordy[i] = s.isText(i)
		if roles[i] == noRole && s.wordy[i] {
			texts = append(texts, i)
		}
	}
	for _, i := range texts {
		switch {
		case s.all(i, isMove) && !slices.Contains(roles, move):
			roles[i] = move
		case s.all(i, isArc) && !slices.Contains(roles, arc):
			roles[i] = arc
		case !slices.Contains(roles, label) && s.namesRows(i):
			roles[i] = label
			s.settle("columns", fmt.Sprintf("column %d names the points", i+1), "it is the first with words in nearly every row", OnlyOne)
		case !slices.Contains(roles, remark):
			roles[i] = remark
		default:
			s.leaveOut(roles, i)
		}
	}
}

// leaveOut leaves a second column of comments out.
func (s *sheet) leaveOut(roles []role, i int) {
	roles[i] = roleSkip
	s.settle("columns", fmt.Sprintf("column %d is left out", i+1), "there is a column of comments already", OnlyOne)
}

// isText reports whether a column holds words, in more rows than numbers.
func (s *sheet) isText(i int) bool {
	words, numbers := 0, 0
	for _, r := range s.records {
		if c := r.cell(i); looksNumeric(c) {
			numbers++
		} else if c != "" {
			words++
		}
	}
	return words > numbers
}

// all reports whether every filled cell of a column passes.
func (s *sheet) all(i int, passes func(string) bool) bool {
	for _, r := range s.records {
		if c := r.cell(i); c != "" && !passes(strings.ToLower(c)) {
			return false
		}
	}
	return true
}

func isMove(s string) bool {
	return s == "joint" || s == "linear" || s == "arc" || s == "circular"
}

func isArc(s string) bool { return s == "on" || s == "off" || s == "arc on" || s == "arc off" }

// namesRows reports whether a column is filled in nearly all rows.
func (s *sheet) namesRows(i int) bool {
	filled := 0
	for _, r := range s.records {
		if r.cell(i) != "" {
			filled++
		}
	}
	return filled*10 >= len(s.records)*9
}
