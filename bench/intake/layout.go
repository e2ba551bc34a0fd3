package intake

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamwright/geom/se3"
)

// group is the rows in which the same columns hold numbers whose meaning no
// head gives.
type group struct {
	columns []int // open columns with numbers
	given   []role
	rows    []int // of sheet.records
}

// layout is one meaning of the open columns of a group.
type layout struct {
	value, text, evidence string
	roles                 []role
	loose                 bool // ends in a number that may be anything: never settled unasked
}

// groups sorts the rows by their open columns of numbers, the largest group
// first.
func (s *sheet) groups(given []role) []group {
	var out []group
	at := map[string]int{}
	for i, r := range s.records {
		var columns []int
		for c := range given {
			if given[c] == noRole && looksNumeric(r.cell(c)) {
				columns = append(columns, c)
			}
		}
		key := fmt.Sprint(columns)
		k, known := at[key]
		if !known {
			k = len(out)
			at[key] = k
			out = append(out, group{columns: columns, given: given})
		}
		out[k].rows = append(out[k].rows, i)
	}
	slices.SortStableFunc(out, func(a, b group) int { return len(b.rows) - len(a.rows) })
	return out
}

// layOut gives each row its roles; it asks where a group can be read in two
// ways.
func (s *sheet) layOut(given []role) {
	s.taken = map[int]bool{}
	for k, g := range s.groups(given) {
		roles := slices.Clone(given)
		if len(g.columns) > 0 {
			l, ok := s.chooseLayout(g, k)
			if !ok {
				continue
			}
			for i, c := range g.columns {
				roles[c] = l.roles[i]
				if l.roles[0].isAxis() {
					s.taken[c] = true
				}
			}
		}
		for _, i := range g.rows {
			s.records[i].roles = roles
		}
	}
}

// chooseLayout settles or asks the meaning of a group's numbers.
func (s *sheet) chooseLayout(g group, k int) (layout, bool) {
	r := s.records[g.rows[0]]
	var numbers []string
	for _, c := range g.columns {
		numbers = append(numbers, r.cells[c])
	}
	q := Question{ID: "columns", Default: -1, Text: fmt.Sprintf("What are the %d numbers in line %d: %s?", len(numbers), r.line, strings.Join(numbers, "  "))}
	if k > 0 {
		q.ID = fmt.Sprintf("columns_%d", r.line)
		q.Text = fmt.Sprintf("Line %d is filled differently. What are its %d numbers: %s?", r.line, len(numbers), strings.Join(numbers, "  "))
	}
	if heads := s.headsOf(g.columns); heads != "" {
		q.Text = strings.TrimSuffix(q.Text, "?") + ", headed " + heads + "?"
	}
	all := s.layouts(g)
	for _, l := range all {
		q.Choices = append(q.Choices, Choice{l.value, l.text, l.evidence})
	}
	if len(all) == 0 {
		s.problem(r.line, fmt.Sprintf("%d numbers that fit no way in which points are written: %s", len(numbers), strings.Join(numbers, "  ")),
			"write a line of heads above the points, such as label, x, y, z, r1, r2, r3 or label, j1, j2, j3, j4, j5, j6")
		return layout{}, false
	}
	if len(all) == 1 && all[0].loose {
		q.Choices = append(q.Choices, Choice{"none", "none of these: leave such lines out", ""})
	}
	value, ok := s.ask(q)
	if value == "none" {
		s.problem(r.line, "numbers that were left out", "correct the line where it is a point")
	}
	if !ok || value == "none" {
		return layout{}, false
	}
	return all[slices.IndexFunc(all, func(l layout) bool { return l.value == value })], true
}

// headsOf lists the unknown heads of columns.
func (s *sheet) headsOf(columns []int) string {
	var out []string
	for _, c := range columns {
		if c < len(s.heads) && s.heads[c].text != "" {
			out = append(out, s.heads[c].text)
		}
	}
	return strings.Join(out, ", ")
}

// Bounds that tell layouts apart.
const (
	// mostJoint is further than any joint of an arm turns from zero, deg
	// (common practice, no source).
	mostJoint = 400
	// unitSlack is how far from 1 the length of a quaternion of three decimals
	// may be, and a little more; package se3 judges finally.
	unitSlack = 0.005
)

// layouts lists the meanings that the numbers of a group allow. Columns apart
// from those in which other rows have a position do not hold another one.
func (s *sheet) layouts(g group) []layout {
	apart := !slices.ContainsFunc(g.columns, func(c int) bool { return s.taken[c] })
	return slices.DeleteFunc(s.allLayouts(g), func(l layout) bool {
		return apart && len(s.taken) > 0 && l.roles[0].isAxis()
	})
}

func (s *sheet) allLayouts(g group) []layout {
	var out []layout
	n := len(g.columns)
	if n == 1 && slices.ContainsFunc(g.given, role.isAxis) || n == 1 && slices.ContainsFunc(g.given, role.isJoint) {
		return s.singles(g)
	}
	lead := []role{"x", "y", "z"}
	if slices.ContainsFunc(g.given, role.isAxis) {
		lead = nil
	}
	if t, sure := s.unmistakable(g, len(lead)); sure {
		return s.extended(nil, g, s.posed(g, lead, t))
	}
	turnsGiven := slices.ContainsFunc(g.given, role.isTurn)
	for _, t := range turnKinds {
		if t.count > 0 && turnsGiven || t.count == 0 && lead == nil || !s.turnsFit(g, len(lead), t) {
			continue
		}
		out = s.extended(out, g, s.posed(g, lead, t))
	}
	if !slices.ContainsFunc(g.given, role.isJoint) {
		for _, count := range s.jointCounts() {
			text := fmt.Sprintf("%d joint values", count)
			if s.jointsFit(g, 0, count) {
				out = s.extended(out, g, layout{value: text, text: text, evidence: s.jointSpan(g, 0, count), roles: numbered(jointRole, count)})
			}
		}
	}
	return out
}

// posed is the layout of a position, where lead has its axes, and turns.
func (s *sheet) posed(g group, lead []role, t turnKind) layout {
	text := t.text
	if lead != nil {
		text = strings.TrimSuffix("x, y, z and "+t.text, " and ")
	}
	return layout{value: text, text: text, evidence: s.spans(g, len(lead), t), roles: append(slices.Clone(lead), numbered(turnRole, t.count)...)}
}

// unmistakable finds orientations that other numbers do not look like by
// chance: rotation matrices, and in two rows or more unit quaternions with
// three parts or more that are not 0.
func (s *sheet) unmistakable(g group, from int) (turnKind, bool) {
	if slices.ContainsFunc(g.given, role.isTurn) {
		return turnKind{}, false
	}
	if t := turnKinds[3]; s.turnsFit(g, from, t) {
		return t, true
	}
	t := turnKinds[2]
	if !s.turnsFit(g, from, t) {
		return t, false
	}
	rich := 0
	for _, i := range g.rows {
		v := s.numbers(s.records[i], g.columns[from:from+t.count])
		parts := 0
		for _, x := range v {
			if math.Abs(x) > unitSlack {
				parts++
			}
		}
		if parts >= 3 && math.Abs(norm(v)-1) < unitSlack {
			rich++
		}
	}
	return t, rich >= 2 && rich*5 >= len(g.rows)*4
}

func numbered(of func(int) role, count int) []role {
	var out []role
	for i := range count {
		out = append(out, of(i))
	}
	return out
}

// turnKind is a way to write an orientation, by its count of numbers.
type turnKind struct {
	count int
	text  string
}

var turnKinds = []turnKind{{0, ""}, {3, "three turns"}, {4, "four numbers of the orientation"}, {9, "nine numbers of a rotation matrix"}}

// matrixByRows reads a rotation matrix; by columns it is one as well.
var matrixByRows, _ = se3.ParseConvention("matrix by rows")

// jointCounts are the counts of joints that an arm may have. An arm that
// carries a torch has six or seven (common practice, no source).
func (s *sheet) jointCounts() []int {
	if n := len(s.known.Slides); n > 0 {
		return []int{n}
	}
	return []int{6, 7}
}

// extended adds the layout where it takes all numbers of the group, or all but
// a speed or joint values behind it.
func (s *sheet) extended(out []layout, g group, l layout) []layout {
	rest := len(g.columns) - len(l.roles)
	more := func(text string, roles ...role) {
		out = append(out, layout{l.value + ", then " + text, l.text + ", then " + text, l.evidence, append(slices.Clone(l.roles), roles...), true})
	}
	switch {
	case rest == 0:
		out = append(out, l)
	case rest == 1:
		more("a speed", speed)
		if s.within(g, len(l.roles), 1, 100) {
			more("a percent speed", percent)
		}
		more("a number to leave out", roleSkip)
	case rest == 2:
		more("a speed and a percent speed", speed, percent)
	case !l.roles[0].isJoint() && slices.Contains(s.jointCounts(), rest) && s.jointsFit(g, len(l.roles), rest):
		more(fmt.Sprintf("%d joint values", rest), numbered(jointRole, rest)...)
	}
	return out
}

// singles lists what one number beside positions or joint values may be.
func (s *sheet) singles(g group) []layout {
	var out []layout
	for _, c := range []struct {
		r    role
		text string
	}{{speed, "a speed"}, {percent, "a percent speed"}, {blend, "a blend radius"}, {settings, "the number of a settings set"}, {roleSkip, "a number to leave out"}} {
		if slices.Contains(g.given, c.r) && c.r != roleSkip || c.r == percent && !s.within(g, 0, 1, 100) {
			continue
		}
		out = append(out, layout{c.text, c.text, "", []role{c.r}, true})
	}
	return out
}

// share reports whether the test holds in nearly all rows of a group: a slip in
// one row must not hide what the others are.
func (s *sheet) share(g group, holds func(r record) bool) bool {
	bad := 0
	for _, i := range g.rows {
		if !holds(s.records[i]) {
			bad++
		}
	}
	return bad*5 <= len(g.rows) && bad < len(g.rows)
}

func (s *sheet) within(g group, k int, low, high float64) bool {
	return s.share(g, func(r record) bool {
		x, _ := s.number(r, g.columns[k])
		return x >= low && x <= high
	})
}

// turnsFit reports whether numbers of a group from a place on can be an
// orientation.
func (s *sheet) turnsFit(g group, from int, t turnKind) bool {
	if from+t.count > len(g.columns) {
		return false
	}
	return s.share(g, func(r record) bool {
		v := s.numbers(r, g.columns[from:from+t.count])
		switch t.count {
		case 3:
			return largest(v) <= 360+1e-6
		case 4:
			return math.Abs(norm(v)-1) < unitSlack || math.Abs(norm(v[:3])-1) < unitSlack
		case 9:
			_, err := matrixByRows.Decode(v)
			return err == nil
		}
		return true
	})
}

// jointsFit reports whether numbers can be joint values. Joints that slide may
// have any value.
func (s *sheet) jointsFit(g group, from, count int) bool {
	if from+count > len(g.columns) {
		return false
	}
	return s.share(g, func(r record) bool {
		for i, x := range s.numbers(r, g.columns[from:from+count]) {
			slides := i < len(s.known.Slides) && s.known.Slides[i]
			if math.Abs(x) > mostJoint && !slides {
				return false
			}
		}
		return true
	})
}

// numbers returns the numbers of columns, 0 where there is none.
func (s *sheet) numbers(r record, columns []int) []float64 {
	out := make([]float64, len(columns))
	for i, c := range columns {
		out[i], _ = s.number(r, c)
	}
	return out
}

func norm(v []float64) float64 {
	var sum float64
	for _, x := range v {
		sum += x * x
	}
	return math.Sqrt(sum)
}

func largest(v []float64) float64 {
	var out float64
	for _, x := range v {
		out = max(out, math.Abs(x))
	}
	return out
}

// spans says how far the positions and turns of a layout reach.
func (s *sheet) spans(g group, from int, t turnKind) string {
	var out []string
	if from > 0 {
		out = append(out, fmt.Sprintf("the first three reach %g", s.reach(g, 0, from)))
	}
	switch t.count {
	case 3:
		out = append(out, fmt.Sprintf("the turns reach %g", s.reach(g, from, from+3)))
	case 4:
		out = append(out, "four of them have length 1, or three of these")
	case 9:
		out = append(out, "nine of them are a rotation matrix")
	}
	return strings.Join(out, ", ")
}

func (s *sheet) jointSpan(g group, from, to int) string {
	return fmt.Sprintf("none is beyond %g, and no joint turns further than %d deg", s.reach(g, from, to), mostJoint)
}

// reach returns the largest number of columns from one place to another.
func (s *sheet) reach(g group, from, to int) float64 {
	var out float64
	for _, i := range g.rows {
		out = max(out, largest(s.numbers(s.records[i], g.columns[from:to])))
	}
	return out
}
