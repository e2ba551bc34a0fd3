package draft

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"seamwright/bench/intake"
)

// row is a point that is written.
type row struct {
	intake.Point
	name intake.Name
}

// rows takes the points over: labels that stand twice get names of their own.
func (m *maker) rows() error {
	if len(m.Points) == 0 {
		return m.noPoints()
	}
	if err := m.brokenRows(); err != nil {
		return err
	}
	for _, p := range m.Points {
		p.Label = oneLine(p.Label)
		p.Comment = oneLine(p.Comment)
		m.kept = append(m.kept, row{Point: p})
	}
	m.wholeList()
	m.copies()
	m.again()
	m.readNames()
	return nil
}

// brokenRows asks whether rows that could not be taken may be left out.
func (m *maker) brokenRows() error {
	if len(m.Missing) == 0 {
		return nil
	}
	const most = 5
	var all []string
	for i, p := range m.Missing {
		if i == most {
			all = append(all, fmt.Sprintf("and %d more", len(m.Missing)-most))
			break
		}
		all = append(all, ProblemText(p))
	}
	value, _ := m.ask(Question{Question: intake.Question{ID: "broken_rows", Default: -1,
		Text: fmt.Sprintf("%s cannot be taken: %s. What of them?", plural(len(m.Missing), "row", "rows"), strings.Join(all, "; ")),
		Choices: []intake.Choice{
			{Value: "leave out", Text: "leave them out: they stay in original and are named at the head of the document"},
			{Value: "mend", Text: "stop here and mend them in the table"},
		}}})
	if value == "mend" {
		return errors.New("rows of the table have to be mended first:\n  " + strings.Join(all, "\n  "))
	}
	return nil
}

// noPoints says why no row is a point.
func (m *maker) noPoints() error {
	const most = 5
	text := "no row of the table is a point"
	for i, p := range m.Missing {
		if i == most {
			text += fmt.Sprintf("\n  and %d more", len(m.Missing)-most)
			break
		}
		text += "\n  " + ProblemText(p)
	}
	return errors.New(text)
}

// oneLine makes a text fit for one line: what cannot be seen becomes a blank.
func oneLine(text string) string {
	clean := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == unicode.ReplacementChar {
			return ' '
		}
		return r
	}, text)
	return strings.TrimSpace(clean)
}

func (m *maker) readNames() {
	points := make([]intake.Point, len(m.kept))
	for i, r := range m.kept {
		points[i] = r.Point
	}
	for i, n := range intake.Names(points) {
		m.kept[i].name = n
	}
}

// sameNumbers reports whether two rows say the same.
func sameNumbers(a, b row) bool {
	return a.HasPlace == b.HasPlace && a.HasTurn == b.HasTurn && a.Pose.P == b.Pose.P &&
		slices.Equal(a.Turn, b.Turn) && slices.Equal(a.Joints, b.Joints)
}

// wholeList asks whether rows with kinds of moves are a whole run.
func (m *maker) wholeList() {
	first, last := m.kept[0], m.kept[len(m.kept)-1]
	m.closes = len(m.kept) > 2 && sameNumbers(first, last)
	if !m.closes || !slices.ContainsFunc(m.kept, func(r row) bool { return r.Move != "" }) {
		return
	}
	value, _ := m.ask(Question{Question: intake.Question{ID: "list", Text: "Are the rows a whole run in its order, with every move?", Default: 0, Choices: []intake.Choice{
		{Value: "yes", Text: "yes: the moves, speeds and arcs are checked as well", Evidence: fmt.Sprintf("rows have kinds of moves, and the list ends where it begins, at %q", first.Label)},
		{Value: "no", Text: "no: the rows are points only"},
	}}})
	m.list = value == "yes"
}

// copies leaves out rows that repeat a label with the same numbers, which only
// a whole list may hold.
func (m *maker) copies() {
	if m.list {
		return
	}
	var kept []row
	for _, r := range m.kept {
		k := slices.IndexFunc(kept, func(k row) bool { return k.Label == r.Label && sameNumbers(k, r) })
		if k < 0 {
			kept = append(kept, r)
			continue
		}
		m.left = append(m.left, fmt.Sprintf("line %d repeats %q of line %d with the same numbers and is not written again", r.Line, r.Label, kept[k].Line))
	}
	m.kept = kept
}

// again finds labels that stand twice with different numbers and gives them
// names of their own.
func (m *maker) again() {
	var twice []string
	first := map[string]row{}
	for _, r := range m.kept {
		before, there := first[r.Label]
		if !there {
			first[r.Label] = r
		} else if !sameNumbers(before, r) && !slices.Contains(twice, r.Label) {
			twice = append(twice, r.Label)
		}
	}
	if len(twice) == 0 {
		return
	}
	runs := m.runs()
	q := Question{Question: intake.Question{ID: "repeat", Default: -1,
		Text: fmt.Sprintf("%s with different numbers, such as %q. What are they?", plural(len(twice), "label stands twice", "labels stand twice"), twice[0]),
		Choices: []intake.Choice{
			{Value: "first counts", Text: "the first is the point; the later ones are kept under other names"},
			{Value: "last counts", Text: "the last is the point, taught again; the earlier ones are kept under other names"},
		}}}
	if runs > 1 {
		q.Default = 0
		q.Choices = append([]intake.Choice{{Value: "seams", Text: fmt.Sprintf("%d seams, one after the other, each with the same labels", runs), Evidence: "each begins again with its approach or start"}}, q.Choices...)
	}
	value, ok := m.ask(q)
	switch {
	case !ok:
	case value == "seams":
		m.numberRuns()
	default:
		m.rename(value == "last counts")
	}
}

func plural(n int, one, more string) string { return counted(n, one, more) }

// rename gives the rows that do not count a name of their own.
func (m *maker) rename(lastCounts bool) {
	order := make([]int, len(m.kept))
	for i := range order {
		order[i] = i
	}
	if lastCounts {
		slices.Reverse(order)
	}
	taken := map[string]row{}
	for _, i := range order {
		r := &m.kept[i]
		before, there := taken[r.Label]
		if !there {
			taken[r.Label] = *r
		} else if !sameNumbers(before, *r) {
			name := fmt.Sprintf("%s (line %d)", r.Label, r.Line)
			m.left = append(m.left, fmt.Sprintf("%q of line %d is called %q: the label stands in line %d too", r.Label, r.Line, name, before.Line))
			r.Label = name
		}
	}
}

// steps are the places of a seam in their order.
func step(p intake.Part) int {
	return map[intake.Part]int{intake.PartApproach: 1, intake.PartStart: 2, intake.PartAlong: 3, intake.PartEnd: 4, intake.PartRetreat: 5}[p]
}

// eachRun calls with the number, from 1, of the run that a row of a nameless
// seam belongs to: a new one begins where the places begin again.
func (m *maker) eachRun(visit func(i, run int)) (runs int, whole bool) {
	points := make([]intake.Point, len(m.kept))
	for i, r := range m.kept {
		points[i] = r.Point
	}
	whole = true
	last, starts, ends := 0, 0, 0
	for i, n := range intake.Names(points) {
		now := step(n.Part)
		switch {
		case n.Part == intake.PartHome:
			continue
		case n.Key != intake.Nameless || now == 0:
			whole = whole && n.Key == ""
			continue
		case runs == 0 || now < last || now == last && n.Part != intake.PartAlong:
			runs++
		}
		last = now
		if n.Part == intake.PartStart {
			starts++
		}
		if n.Part == intake.PartEnd {
			ends++
		}
		visit(i, runs)
	}
	return runs, whole && starts == runs && ends == runs
}

// runs counts the seams that use the same labels one after the other, 0 where
// the rows are not that.
func (m *maker) runs() int {
	if n, whole := m.eachRun(func(int, int) {}); whole {
		return n
	}
	return 0
}

func (m *maker) numberRuns() {
	m.eachRun(func(i, run int) { m.kept[i].Label = fmt.Sprintf("W%d %s", run, m.kept[i].Label) })
	m.left = append(m.left, "the labels stood once for each seam; W1, W2... were put before them in the order of the rows")
}

// findHome finds the point where the run begins and ends.
func (m *maker) findHome() error {
	var named, able []int
	for i, r := range m.kept {
		switch {
		case !r.HasTurn && r.Joints == nil: // a place does not say how the torch stands there
		case r.name.Part == intake.PartHome:
			named = append(named, i)
			able = append(able, i)
		case r.name.Part == intake.PartOther:
			able = append(able, i)
		}
	}
	if len(able) == 0 {
		return errors.New("no point can be the home, where the run begins and ends: add a row called home with joint values, or with a whole pose, well clear of the part")
	}
	q := Question{Question: intake.Question{ID: "home", Default: -1, Text: "At which point does the run begin and end?"}}
	for _, i := range able {
		m.offerHome(&q, i)
	}
	if len(named) > 0 && !slices.ContainsFunc(named, func(i int) bool { return !sameNumbers(m.kept[i], m.kept[named[0]]) }) {
		q.Choices, q.Default = q.Choices[:0], 0
		m.offerHome(&q, named[0])
	}
	if value, ok := m.ask(q); ok {
		m.home = slices.IndexFunc(m.kept, func(r row) bool { return r.Label == value })
	}
	return nil
}

// offerHome adds a choice with what speaks for it.
func (m *maker) offerHome(q *Question, i int) {
	r := m.kept[i]
	c := intake.Choice{Value: r.Label, Text: fmt.Sprintf("%q, line %d", r.Label, r.Line)}
	switch {
	case r.name.Part == intake.PartHome:
		c.Evidence = "its name says so"
	case r.Joints != nil:
		c.Evidence = "it has joint values"
	case i == 0:
		c.Evidence = "it is the first row"
	}
	if i == 0 && m.closes {
		c.Evidence = "the list begins and ends there"
		q.Default = len(q.Choices)
	}
	for _, have := range q.Choices {
		if have.Value == c.Value {
			return
		}
	}
	q.Choices = append(q.Choices, c)
}
