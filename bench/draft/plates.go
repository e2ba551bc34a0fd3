package draft

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/intake"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/unit"
)

// Bounds of what taught torches and tips tell of plates (common practice, no
// source): hand guiding errs by 3 to 10 deg.
const (
	levelWithin = 2.5 * unit.Deg // rad, slope of a seam in a level plate
	climbMost   = 10 * unit.Deg  // rad, beyond which a level plate is refused
	sideLeast   = 15 * unit.Deg  // rad, work angle from which the wire names a side
	belowLeast  = 15 * unit.Deg  // rad, by which the wire must point below level
)

// faced is how a base plate's face looks: a unit direction in the arm's base,
// and whether it is known well enough to tell the sides of a joint.
type faced struct {
	normal r3.Vec
	known  bool
}

// middle returns the mean wire as taught, square to the travel, and the travel.
func (s *seam) middle() (across, travel r3.Vec, ok bool) {
	for _, t := range s.shape.torches {
		if a, fine := t.across(); fine {
			across = across.Add(a)
			travel = t.travel
		}
	}
	if s.kind == line && len(s.shape.torches) == 0 {
		way := s.shape.to.Sub(s.shape.from)
		return r3.Vec{}, way.Unit(), false
	}
	return across.Unit(), travel, across.Norm() > 0
}

// slope is the angle (rad) of a seam from level, of its steepest piece.
func (m *maker) slope(s *seam) float64 {
	places := s.shape.places
	if s.kind == line {
		places = []r3.Vec{s.shape.from, s.shape.to}
	}
	var most float64
	for k := 1; k < len(places); k++ {
		if way := places[k].Sub(places[k-1]); way.Norm() > 0 {
			most = max(most, math.Abs(math.Asin(max(-1, min(1, way.Unit().Dot(m.up()))))))
		}
	}
	return most
}

// baseQuestion offers the ways to know a base plate that suit the seam.
func (m *maker) baseQuestion(s *seam) Question {
	q := Question{Question: intake.Question{Default: -1, Text: fmt.Sprintf("How does the base plate of %s lie?", s.name)},
		Free: "the direction in which its face looks, such as direction 0 0 1", check: func(text string) (string, error) {
			value, err := directionYAML(text)
			if err != nil {
				return "", err
			}
			return text, trial{"seams", "base"}.judge(value, nil)
		}}
	slope := m.slope(s)
	if s.round() {
		slope = m.tilt(s)
	}
	below, taught := m.below(s)
	climbs := fmt.Sprintf("the seam climbs %.1f deg", math.Abs(slope)/unit.Deg)
	if s.round() {
		climbs = fmt.Sprintf("the circle's plane is %.1f deg off level", slope/unit.Deg)
	}
	wire := ""
	if taught {
		wire = fmt.Sprintf(", the wire points %.0f deg below level", below/unit.Deg)
	}
	if math.Abs(slope) <= climbMost {
		q.Choices = append(q.Choices, intake.Choice{Value: "level", Text: "level, and the seam lies in it", Evidence: climbs + wire})
		if taught && below > belowLeast && math.Abs(slope) <= levelWithin {
			q.Default = 0
		}
	}
	if math.Abs(slope) < 60*unit.Deg {
		q.Choices = append(q.Choices, intake.Choice{Value: "up", Text: "its face looks up, square to the seam", Evidence: climbs + wire})
		if taught && below > belowLeast && math.Abs(slope) > levelWithin && math.Abs(slope) < 30*unit.Deg {
			q.Default = len(q.Choices) - 1
		}
		q.Choices = append(q.Choices, intake.Choice{Value: "down", Text: "its face looks down: overhead"})
		if taught && below < -belowLeast {
			q.Default = len(q.Choices) - 1
		}
	}
	m.offerTouches(&q, s, true)
	if taught && s.kind == line {
		m.offerAsTaught(&q, s)
	}
	return q
}

// below is the angle (rad) by which the wire as taught, made square to the
// travel, points below level, the mean of the poses.
func (m *maker) below(s *seam) (mean float64, taught bool) {
	count := 0
	for _, t := range s.shape.torches {
		if a, fine := t.across(); fine {
			mean += math.Asin(max(-1, min(1, -a.Dot(m.up()))))
			count++
		}
	}
	return mean / float64(max(count, 1)), count > 0
}

// tilt is the angle (rad) between a round seam's plane and level.
func (m *maker) tilt(s *seam) float64 {
	a := angle(s.shape.circle.Axis, m.up())
	return min(a, math.Pi-a)
}

// offerTouches adds the points touched beside the seam; three fix a plate, two
// a vertical one.
func (m *maker) offerTouches(q *Question, s *seam, base bool) {
	groups := 0
	for _, t := range s.touches {
		if len(t.rows) < 2 {
			continue
		}
		labels := strings.Join(m.labels(t.rows), ", ")
		c := intake.Choice{Value: "touched " + t.word, Text: "through the touches " + labels, Evidence: counted(len(t.rows), "touch", "touches")}
		if len(t.rows) == 2 {
			c.Text += ", and plumb"
			c.Evidence = "two touches, which fix a plumb plate"
		}
		q.Choices = append(q.Choices, c)
		if groups++; base && groups == 1 && len(t.rows) > 2 {
			q.Default = len(q.Choices) - 1
		} else if groups > 1 && base {
			q.Default = -1 // which of them is the base plate?
		}
	}
}

// offerAsTaught adds the two plates, square to each other, between which the
// wire was taught half-way.
func (m *maker) offerAsTaught(q *Question, s *seam) {
	for k, n := range m.asTaught(s) {
		v := m.baseFromMeasured.R.T().Apply(n)
		value := fmt.Sprintf("direction %.3f %.3f %.3f", v.X+0, v.Y+0, v.Z+0)
		q.Choices = append(q.Choices, intake.Choice{Value: value, Text: fmt.Sprintf("its face looks along %s (x, y, z)", strings.TrimPrefix(value, "direction ")),
			Evidence: "from the wire as taught, 45 deg to its " + [2]string{"left", "right"}[k] + ", which errs by 3 to 10 deg: touches are better"})
	}
}

// asTaught returns the outward normals, unit, of the plates at 45 deg to the
// left and to the right of the wire.
func (m *maker) asTaught(s *seam) [2]r3.Vec {
	across, travel, _ := s.middle()
	back := across.Neg()
	side := travel.Cross(back) // unit: both are, and square to each other
	return [2]r3.Vec{back.Add(side).Unit(), back.Sub(side).Unit()}
}

// directionYAML writes a typed direction as the document has it.
func directionYAML(text string) (string, error) {
	fields := strings.Fields(strings.NewReplacer(",", " ", "direction", "", "[", "", "]", "").Replace(text))
	if len(fields) != 3 {
		return "", fmt.Errorf("a direction has three numbers, such as direction 0 0 1")
	}
	return "{direction: " + listOf(fields) + "}", nil
}

// takeBase notes the base plate and, where that tells it, its normal.
func (m *maker) takeBase(s *seam, value string) {
	yaml := value
	face := faced{}
	word, touched := strings.CutPrefix(value, "touched ")
	switch {
	case value == "level" || value == "up":
		face = faced{m.up(), true}
	case value == "down":
		face = faced{m.up().Neg(), true}
	case touched:
		yaml = m.touchedYAML(s, word)
		face = m.touchedFace(s, word)
	default:
		yaml, _ = directionYAML(value)
		face = m.directionFace(value)
	}
	m.baseValue[s] = value
	m.basePlate[s] = entry{"base", yaml, m.noteOf(s, "base")}
	m.baseNormal[s] = face
}

// touchedYAML names the touches of a plate.
func (m *maker) touchedYAML(s *seam, word string) string {
	for _, t := range s.touches {
		if t.word == word {
			if len(t.rows) == 2 {
				return "{touched: " + listOf(m.labels(t.rows)) + ", with: vertical}"
			}
			const most = 12 // that the document takes
			return "{touched: " + listOf(m.labels(t.rows[:min(len(t.rows), most)])) + "}"
		}
	}
	return ""
}

// touchedFace is the touched plate's normal on the torch's side.
func (m *maker) touchedFace(s *seam, word string) faced {
	across, _, taught := s.middle()
	for _, t := range s.touches {
		if t.word != word || !taught {
			continue
		}
		var at []r3.Vec
		for _, i := range t.rows {
			pose, _ := m.tip(i)
			at = append(at, pose.P)
		}
		if len(at) == 2 {
			n := at[1].Sub(at[0]).Cross(m.up())
			return towards(n, across.Neg())
		}
		if plane, err := fit.Plane(at, handTouch); err == nil {
			return towards(plane.Normal, across.Neg())
		}
	}
	return faced{}
}

// towards turns a normal to the side of a direction.
func towards(n, side r3.Vec) faced {
	if n.Norm() == 0 {
		return faced{}
	}
	if n = n.Unit(); n.Dot(side) < 0 {
		n = n.Neg()
	}
	return faced{n, true}
}

func (m *maker) directionFace(text string) faced {
	var v r3.Vec
	if _, err := fmt.Sscanf(strings.NewReplacer(",", " ", "[", " ", "]", " ").Replace(strings.TrimPrefix(text, "direction")), "%g %g %g", &v.X, &v.Y, &v.Z); err != nil || v.Norm() == 0 {
		return faced{}
	}
	return faced{m.baseFromMeasured.Dir(v).Unit(), true}
}

// labels are the labels of rows.
func (m *maker) labels(rows []int) []string {
	out := make([]string, len(rows))
	for k, i := range rows {
		out[k] = m.kept[i].Label
	}
	return out
}
