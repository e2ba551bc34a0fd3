package draft

import (
	"errors"
	"fmt"
	"slices"

	"seamwright/bench/intake"
)

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
		m.homeAgain()
	}
	return nil
}

// homeAgain calls the last row of a whole list as its home is called, where it
// is the same: one place, one name.
func (m *maker) homeAgain() {
	home, last := m.kept[m.home], &m.kept[len(m.kept)-1]
	if m.list && last.Label != home.Label && sameNumbers(home, *last) {
		m.left = append(m.left, fmt.Sprintf("%q of line %d has the numbers of the home and is called %q as well", last.Label, last.Line, home.Label))
		last.Label = home.Label
	}
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
