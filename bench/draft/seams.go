package draft

import (
	"cmp"
	"fmt"
	"slices"

	"seamwright/bench/intake"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/unit"
)

// seam is a line to be welded, by the rows that make it; -1 where there is none.
type seam struct {
	name, key             string
	start, end            int
	along                 []int // via points in order of travel
	roots                 []int // points stepped to the root, which tell the path better
	numbered              []int // points with a rank and no other word
	approach, retreat     int
	touches               []touch
	closed                bool // it ends where it starts
	path, taught          []int
	kind                  string // line, arc or circle
	kindNote, overlapNote string
	overlap               string
	shape                 shape
}

// touch is a group of points touched on one plate.
type touch struct {
	word string
	rows []int
}

// findSeams groups the rows into seams: by their labels, by the arc that the
// list switches, or as a person says.
func (m *maker) findSeams() error {
	m.byName()
	if len(m.seams) == 0 {
		m.byArc()
	}
	if len(m.seams) == 0 {
		m.byPattern()
	}
	if len(m.open) > 0 || m.wrong != nil {
		return nil
	}
	m.order()
	m.missing()
	if len(m.open) > 0 || m.wrong != nil {
		return nil
	}
	m.seams = slices.DeleteFunc(m.seams, func(s *seam) bool { return s.start < 0 || s.end < 0 })
	if len(m.seams) == 0 {
		return fmt.Errorf("no seam has a start and an end: name the points, such as \"W1 start\" and \"W1 end\", or answer the question \"seams\"")
	}
	for _, s := range m.seams {
		s.path, s.taught = append([]int{s.start}, s.along...), nil
		if !s.closed {
			s.path = append(s.path, s.end)
		}
		if len(s.roots) > 1 {
			s.path, s.taught = s.roots, s.path
		}
	}
	return nil
}

func newSeam(name, key string) *seam {
	return &seam{name: name, key: key, start: -1, end: -1, approach: -1, retreat: -1}
}

// byName groups rows by what their labels say.
func (m *maker) byName() {
	at := map[string]*seam{}
	for i, r := range m.kept {
		n := r.name
		if n.Key == "" || i == m.home {
			continue
		}
		s := at[n.Key]
		if s == nil {
			s = newSeam(orElse(n.Seam, "W1"), n.Key)
			at[n.Key] = s
			m.seams = append(m.seams, s)
		}
		s.take(i, r)
	}
	m.seams = slices.DeleteFunc(m.seams, func(s *seam) bool {
		return s.start < 0 && s.end < 0 && (len(s.numbered) < 2 || len(s.numbered) < len(s.along))
	})
	for _, s := range m.seams {
		byRank := func(a, b int) int { return cmp.Compare(m.kept[a].name.Rank, m.kept[b].name.Rank) }
		slices.SortStableFunc(s.along, byRank)
		slices.SortStableFunc(s.roots, byRank)
		slices.SortStableFunc(s.numbered, byRank)
	}
	m.uniqueNames()
}

// take puts a row where its label says.
func (s *seam) take(i int, r row) {
	n := r.name
	switch {
	case n.Part == intake.PartStart && s.start < 0:
		s.start = i
	case n.Part == intake.PartEnd && s.end < 0:
		s.end = i
	case n.Part == intake.PartApproach && s.approach < 0 && (r.HasTurn || r.Joints != nil):
		s.approach = i
	case n.Part == intake.PartRetreat && s.retreat < 0 && (r.HasTurn || r.Joints != nil):
		s.retreat = i
	case n.Part == intake.PartAlong && n.Word == "root":
		s.roots = append(s.roots, i)
	case n.Part == intake.PartAlong:
		s.along = append(s.along, i)
		if n.Word == "" {
			s.numbered = append(s.numbered, i)
		}
	case n.Part == intake.PartOther && n.Word != "" && r.HasPlace:
		for k := range s.touches {
			if s.touches[k].word == n.Word {
				s.touches[k].rows = append(s.touches[k].rows, i)
				return
			}
		}
		s.touches = append(s.touches, touch{n.Word, []int{i}})
	}
}

// uniqueNames tells seams apart whose names are the same.
func (m *maker) uniqueNames() {
	taken := map[string]bool{}
	for _, s := range m.seams {
		name := s.name
		for k := 2; taken[s.name]; k++ {
			s.name = fmt.Sprintf("%s-%d", name, k)
		}
		taken[s.name] = true
	}
}

// order asks whether numbered points run from the first to the last.
func (m *maker) order() {
	ranked := slices.DeleteFunc(slices.Clone(m.seams), func(s *seam) bool { return s.start >= 0 || s.end >= 0 })
	m.each("order", "Are the numbered points in the order of travel?", ranked, func(s *seam) Question {
		first, last := m.kept[s.numbered[0]].Label, m.kept[s.numbered[len(s.numbered)-1]].Label
		q := Question{Question: intake.Question{Default: -1, Text: fmt.Sprintf("%s: does the weld run from %q to %q?", s.name, first, last), Choices: []intake.Choice{
			{Value: "forward", Text: "from the first to the last"},
			{Value: "back", Text: "from the last to the first"},
			{Value: "no seam", Text: "they are no seam"},
		}}}
		if !slices.ContainsFunc(s.numbered, func(i int) bool { return !m.kept[i].HasTurn && m.kept[i].Joints == nil }) {
			q.Default = 0
			q.Choices[0].Evidence = fmt.Sprintf("%q has the lower number or letter", first)
		}
		return q
	}, func(s *seam, value string) {
		if value == "no seam" {
			return
		}
		if s.along = s.numbered; value == "back" {
			slices.Reverse(s.along)
		}
		n := len(s.along) - 1
		s.start, s.end, s.along = s.along[0], s.along[n], slices.Clone(s.along[1:n])
	})
}

// used are the rows that seams and home have taken.
func (m *maker) used() map[int]bool {
	used := map[int]bool{m.home: true}
	for _, s := range m.seams {
		for _, i := range slices.Concat([]int{s.start, s.end, s.approach, s.retreat}, s.along, s.roots, s.numbered) {
			used[i] = true
		}
		for _, t := range s.touches {
			for _, i := range t.rows {
				used[i] = true
			}
		}
	}
	return used
}

// missing asks which point begins or ends a seam that lacks one.
func (m *maker) missing() {
	used := m.used()
	for _, s := range m.seams {
		for _, end := range []struct {
			has, other int
			id, does   string
			set        func(int)
		}{
			{s.start, s.end, "start", "begins", func(i int) { s.start = i }},
			{s.end, s.start, "end", "ends", func(i int) { s.end = i }},
		} {
			if end.has >= 0 || end.other < 0 {
				continue
			}
			m.missingEnd(s, s.name+"."+end.id, end.does, end.other, used, end.set)
		}
	}
}

// Answers to which point ends a seam, beside the labels: to give it up, and
// that it closes on itself.
const (
	leaveOut = "leave out"
	allRound = "all round"
)

// offerClosed adds that a seam closes on itself, where it has points enough
// for a circle; it reports whether they go round one.
func (m *maker) offerClosed(s *seam, q *Question) bool {
	rows := append([]int{s.start}, s.along...)
	if len(s.roots) > len(rows) {
		rows = s.roots
	}
	if s.start < 0 || len(rows) < 3 {
		return false
	}
	c := intake.Choice{Value: allRound, Text: fmt.Sprintf("the weld goes all round and ends at its start, %q", m.kept[s.start].Label)}
	var places []r3.Vec
	for _, i := range rows {
		places = append(places, m.kept[i].Pose.P)
	}
	round, err := fit.Circle(fit.CircleRequest{Points: places, Sigma: handTouch})
	fits := err == nil && len(places) > 3 && round.Max <= handMost && round.Sweep >= wholeFrom
	if fits {
		c.Evidence = fmt.Sprintf("its %d points lie within %s of a circle of radius %s and go %.0f deg round it", len(places), m.fine(round.Max), m.fine(round.Radius), round.Sweep/unit.Deg)
	}
	q.Choices = append(q.Choices, c)
	return fits
}

func (m *maker) missingEnd(s *seam, id, does string, other int, used map[int]bool, set func(int)) {
	q := Question{Question: intake.Question{ID: id, Default: -1,
		Text: fmt.Sprintf("%s has %q and no point that %s it. Which point %s %s?", s.name, m.kept[other].Label, does, does, s.name)}}
	for i, r := range m.kept {
		if used[i] || m.kept[other].HasPlace && !r.HasPlace {
			continue
		}
		c := intake.Choice{Value: r.Label, Text: fmt.Sprintf("%q, line %d", r.Label, r.Line)}
		if r.HasPlace && m.kept[other].HasPlace {
			c.Evidence = fmt.Sprintf("%s from %q", m.length(r.Pose.P.Dist(m.kept[other].Pose.P)), m.kept[other].Label)
		}
		q.Choices = append(q.Choices, c)
	}
	if m.offerClosed(s, &q) {
		q.Default = len(q.Choices) - 1
	}
	q.Choices = append(q.Choices, intake.Choice{Value: leaveOut, Text: "none: leave " + s.name + " out"})
	if len(q.Choices) == 1 {
		q.Free = "yes, to leave it out" // one choice alone is no answer that may be taken unasked
		q.check = func(text string) (string, error) {
			if text == "yes" {
				return leaveOut, nil
			}
			return "", fmt.Errorf("allowed is %q", leaveOut)
		}
	}
	value, ok := m.ask(q)
	switch {
	case !ok:
	case value == allRound:
		s.closed, s.end = true, s.start
	case value == leaveOut:
		m.left = append(m.left, fmt.Sprintf("%s is left out: it has %q and no other end", s.name, m.kept[other].Label))
	default:
		set(slices.IndexFunc(m.kept, func(r row) bool { return r.Label == value }))
	}
}
