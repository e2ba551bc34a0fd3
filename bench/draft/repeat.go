package draft

import (
	"fmt"
	"slices"

	"seamwright/bench/intake"
)

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
		Text: fmt.Sprintf("%s with different numbers, such as %q. What are they?", counted(len(twice), "label stands twice", "labels stand twice"), twice[0]),
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

// step is the place of a part among those of its seam, from 1; 0 for no such
// part.
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
