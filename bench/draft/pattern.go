package draft

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamwright/bench/intake"
)

// byArc makes a seam of the rows between arc on and arc off.
func (m *maker) byArc() {
	var now *seam
	for i, r := range m.kept {
		switch {
		case r.Arc == "on" && now == nil:
			now = newSeam(fmt.Sprintf("W%d", len(m.seams)+1), "")
			now.start = i
			if i > 0 && i-1 != m.home && m.kept[i-1].Arc == "" && m.kept[i-1].name.Part != intake.PartHome {
				now.approach = i - 1
			}
		case r.Arc == "off" && now != nil:
			now.end = i
			if k := i + 1; k < len(m.kept) && k != m.home && m.kept[k].Arc == "" && m.kept[k].name.Part != intake.PartHome && !m.sameAsHome(k) {
				now.retreat = k
			}
			m.seams = append(m.seams, now)
			now = nil
		case now != nil:
			now.along = append(now.along, i)
		}
	}
	for k, s := range m.seams {
		if k > 0 && m.seams[k-1].retreat == s.approach {
			s.approach = -1 // one point between two welds: it is the retreat of the first
		}
		m.left = append(m.left, fmt.Sprintf("%s was made of the rows from arc on at %q to arc off at %q", s.name, m.kept[s.start].Label, m.kept[s.end].Label))
	}
}

func (m *maker) sameAsHome(i int) bool { return m.home >= 0 && sameNumbers(m.kept[i], m.kept[m.home]) }

// fours is the count of points of a seam with approach and retreat.
const fours = 4

// byPattern asks what points are whose labels tell nothing.
func (m *maker) byPattern() {
	var loose []int
	for i := range m.kept {
		if i != m.home && !m.sameAsHome(i) && m.kept[i].name.Part != intake.PartHome {
			loose = append(loose, i)
		}
	}
	if len(loose) < 2 {
		return
	}
	q := Question{Question: intake.Question{ID: "seams", Default: -1,
		Text: fmt.Sprintf("No label says where a seam starts or ends. Which of the %d points from %q to %q make seams?",
			len(loose), m.kept[loose[0]].Label, m.kept[loose[len(loose)-1]].Label)},
		Free: "the seams by their labels, such as P2 to P3, P6 via P7 to P8"}
	if len(loose)%fours == 0 {
		c := intake.Choice{Value: "fours", Text: fmt.Sprintf("each four: approach, start, end, retreat; %s", counted(len(loose)/fours, "seam", "seams"))}
		if off, ok := m.backedOff(loose); ok {
			c.Evidence = fmt.Sprintf("the wire points within %.0f deg from each first point to the second, and from each fourth back to the third", off)
			if off < backedOff {
				q.Default = 0
			}
		}
		q.Choices = append(q.Choices, c)
	}
	if len(loose)%2 == 0 {
		q.Choices = append(q.Choices, intake.Choice{Value: "pairs", Text: fmt.Sprintf("each two: start, end; %s", counted(len(loose)/2, "seam", "seams"))})
	}
	q.Choices = append(q.Choices, intake.Choice{Value: "one", Text: fmt.Sprintf("one seam through all of them, from %q to %q", m.kept[loose[0]].Label, m.kept[loose[len(loose)-1]].Label)})
	q.check = func(text string) (string, error) {
		_, err := m.parseSeams(text)
		return text, err
	}
	value, ok := m.ask(q)
	if !ok {
		return
	}
	switch value {
	case "fours":
		for k := 0; k < len(loose); k += fours {
			s := m.addSeam(loose[k+1], loose[k+2], nil)
			s.approach, s.retreat = m.stand(loose[k]), m.stand(loose[k+3])
		}
	case "pairs":
		for k := 0; k < len(loose); k += 2 {
			m.addSeam(loose[k], loose[k+1], nil)
		}
	case "one":
		m.addSeam(loose[0], loose[len(loose)-1], loose[1:len(loose)-1])
	default:
		runs, _ := m.parseSeams(value)
		for _, run := range runs {
			m.addSeam(run[0], run[len(run)-1], run[1:len(run)-1])
		}
	}
}

// stand returns the row where the arm can stand at it, else -1.
func (m *maker) stand(i int) int {
	if m.kept[i].HasTurn || m.kept[i].Joints != nil {
		return i
	}
	return -1
}

func (m *maker) addSeam(start, end int, along []int) *seam {
	s := newSeam(fmt.Sprintf("W%d", len(m.seams)+1), "")
	s.start, s.end, s.along = start, end, slices.Clone(along)
	m.seams = append(m.seams, s)
	return s
}

// backedOff is the largest angle, deg, at which an approach still lies back
// along the wire, as people back off by eye (common practice, no source).
const backedOff = 40

// backedOff returns the largest angle (deg) between the wire and the ways from
// approach to start and from retreat to end, read in fours.
func (m *maker) backedOff(loose []int) (worst float64, ok bool) {
	if m.Table.Stated.Point != "tip" {
		return 0, false
	}
	for k := 0; k < len(loose); k += fours {
		for _, pair := range [][2]int{{k, k + 1}, {k + 3, k + 2}} {
			air, weld := m.kept[loose[pair[0]]], m.kept[loose[pair[1]]]
			if !air.HasPlace || !weld.HasTurn {
				return 0, false
			}
			way := weld.Pose.P.Sub(air.Pose.P)
			if way.Norm() == 0 {
				return 0, false
			}
			worst = max(worst, math.Acos(max(-1, min(1, way.Unit().Dot(weld.Pose.R.Z()))))*180/math.Pi)
		}
	}
	return worst, true
}

// parseSeams reads seams by labels: "P2 to P3, P6 via P7 to P8".
func (m *maker) parseSeams(text string) ([][]int, error) {
	var out [][]int
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		var run []int
		for _, label := range strings.Split(strings.ReplaceAll(part, " via ", " to "), " to ") {
			label = strings.TrimSpace(label)
			i := slices.IndexFunc(m.kept, func(r row) bool { return strings.EqualFold(r.Label, label) })
			if i < 0 {
				return nil, fmt.Errorf("%q is no point; write labels of the table, such as %s to %s", label, m.kept[0].Label, m.kept[len(m.kept)-1].Label)
			}
			if slices.Contains(run, i) {
				return nil, fmt.Errorf("%q stands twice in one seam", label)
			}
			run = append(run, i)
		}
		if len(run) < 2 {
			return nil, fmt.Errorf("%q is one point; a seam has a start and an end, such as %s to %s", strings.TrimSpace(part), m.kept[0].Label, m.kept[len(m.kept)-1].Label)
		}
		out = append(out, run)
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("no seam; write for example %s to %s", m.kept[0].Label, m.kept[len(m.kept)-1].Label)
	}
	return out, nil
}
