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
		Text: fmt.Sprintf("%s cannot be taken: %s. What of them?", counted(len(m.Missing), "row", "rows"), strings.Join(all, "; ")),
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
