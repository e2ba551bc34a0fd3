package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"seamwright/geom/r3"
)

// jointWord is a label or comment that speaks of joint values.
var jointWord = regexp.MustCompile(`(?i)\b(home|joints?)\b`)

// farOut is how many times further than most a row lies from the middle of the
// table before it is asked whether it is a pose at all. A place misread from
// six joint values lies near the arm's foot, away from the part.
const farOut = 2

// mixed asks about rows of six numbers that may be joint values among poses.
func (s *sheet) mixed() {
	const six = 6
	if s.has(role.isJoint) || len(s.known.Slides) > 0 && len(s.known.Slides) != six {
		return
	}
	var poses, doubtful []int
	for i, r := range s.records {
		if columns := s.poseColumns(r); len(columns) == six {
			poses = append(poses, i)
			if largest(s.numbers(r, columns)) <= mostJoint {
				doubtful = append(doubtful, i)
			}
		}
	}
	if len(poses) < 2 || len(doubtful) == 0 {
		return
	}
	if doubtful = s.strayed(poses, doubtful); len(doubtful) > 0 {
		s.askMixed(doubtful)
	}
}

// poseColumns returns the filled columns of a row's position and turns.
func (s *sheet) poseColumns(r record) []int {
	var out []int
	for _, c := range append(columnsOf(r, role.isAxis), columnsOf(r, role.isTurn)...) {
		if _, ok := s.number(r, c); ok {
			out = append(out, c)
		}
	}
	return out
}

// named keeps the rows whose words speak of joint values.
func (s *sheet) named(rows []int) []int {
	return slices.DeleteFunc(slices.Clone(rows), func(i int) bool { return !jointWord.MatchString(strings.Join(s.records[i].cells, " ")) })
}

// strayed keeps the doubtful rows that words name or that lie far out.
func (s *sheet) strayed(poses, doubtful []int) []int {
	var places []r3.Vec
	for _, i := range poses {
		places = append(places, s.position(i))
	}
	middle := median3(places)
	var away []float64
	for _, p := range places {
		away = append(away, p.Dist(middle))
	}
	slices.Sort(away)
	usual := away[len(away)/2]
	named := s.named(doubtful)
	return slices.DeleteFunc(slices.Clone(doubtful), func(i int) bool {
		return !slices.Contains(named, i) && s.position(i).Dist(middle) <= farOut*usual
	})
}

// position returns the numbers x, y and z of a row as they are written.
func (s *sheet) position(i int) r3.Vec {
	r := s.records[i]
	v := s.numbers(r, columnsOf(r, role.isAxis))
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}
}

// askMixed asks and turns the rows into joint values where that is the answer:
// for all rows together or, where they differ, line by line.
func (s *sheet) askMixed(rows []int) {
	choices := []Choice{
		{"joints", "six joint values", "six numbers that a joint can reach; they lie away from the other points, or their words speak of joint values"},
		{"poses", "x, y, z and three turns, like the other rows", "the columns are the same"},
	}
	q := Question{ID: "joint_rows", Default: -1, Text: s.mixedText(rows), Choices: choices}
	if len(rows) > 1 {
		q.Choices = append(slices.Clone(choices), Choice{"each", "some of them are joint values: ask line by line", ""})
	}
	value, ok := s.ask(q)
	if !ok {
		return
	}
	for _, i := range rows {
		this := value
		if value == "each" {
			this, _ = s.ask(Question{ID: fmt.Sprintf("joint_row_%d", s.records[i].line), Default: -1, Text: s.mixedText([]int{i}), Choices: choices})
		}
		if this == "joints" {
			s.asJoints(&s.records[i])
		}
	}
}

// mixedText names the lines and shows the numbers of the first.
func (s *sheet) mixedText(rows []int) string {
	var at []string
	for _, i := range rows {
		at = append(at, fmt.Sprint(s.records[i].line))
	}
	const most = 6 // so many lines a question can list
	where := "Line " + at[0] + " stands"
	switch n := len(at); {
	case n > most:
		where = fmt.Sprintf("Lines %s and %d more stand", strings.Join(at[:most], ", "), n-most)
	case n > 1:
		where = fmt.Sprintf("Lines %s stand", inWords(at, "and"))
	}
	first := s.records[rows[0]]
	var numbers []string
	for _, c := range s.poseColumns(first) {
		numbers = append(numbers, first.cells[c])
	}
	return fmt.Sprintf("%s apart from the other points. What are these numbers: %s?", where, strings.Join(numbers, "  "))
}

// asJoints makes the numbers of a pose joint values.
func (s *sheet) asJoints(r *record) {
	roles := slices.Clone(r.roles)
	for k, c := range s.poseColumns(*r) {
		roles[c] = jointRole(k)
	}
	r.roles, r.apart = roles, true
}

// both asks which numbers count where rows hold a pose and joint values: the
// job takes one of the two.
func (s *sheet) both() {
	var lines []int
	for _, r := range s.records {
		if s.fills(r, role.isAxis) && s.fills(r, role.isJoint) {
			lines = append(lines, r.line)
		}
	}
	if len(lines) == 0 {
		return
	}
	value, ok := s.ask(Question{ID: "keep", Default: 0,
		Text: fmt.Sprintf("%s a pose and joint values. Which shall count?", plural(len(lines), "row holds", "rows hold")),
		Choices: []Choice{
			{"pose", "the pose", "it says where the wire tip was, whichever arm welds"},
			{"joints", "the joint values", "they also say in which posture the arm stood"},
		}})
	if !ok {
		return
	}
	drop := role.isJoint
	if value == "joints" {
		drop = func(r role) bool { return r.isAxis() || r.isTurn() }
	}
	for i, r := range s.records {
		if slices.Contains(lines, r.line) {
			s.records[i].roles = without(r.roles, drop)
		}
	}
}

// fills reports whether a row has a number in a column of that kind.
func (s *sheet) fills(r record, kind func(role) bool) bool {
	return slices.ContainsFunc(columnsOf(r, kind), func(c int) bool { return r.cell(c) != "" })
}

func without(roles []role, drop func(role) bool) []role {
	out := slices.Clone(roles)
	for c, x := range out {
		if drop(x) {
			out[c] = roleSkip
		}
	}
	return out
}

// median3 returns the median of each coordinate.
func median3(places []r3.Vec) r3.Vec {
	pick := func(of func(r3.Vec) float64) float64 {
		var v []float64
		for _, p := range places {
			v = append(v, of(p))
		}
		return median(v)
	}
	return r3.Vec{
		X: pick(func(p r3.Vec) float64 { return p.X }),
		Y: pick(func(p r3.Vec) float64 { return p.Y }),
		Z: pick(func(p r3.Vec) float64 { return p.Z }),
	}
}

// median returns the middle of the values, 0 where there are none.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	v = slices.Sorted(slices.Values(v))
	if n := len(v); n%2 == 0 {
		return (v[n/2-1] + v[n/2]) / 2
	}
	return v[len(v)/2]
}
