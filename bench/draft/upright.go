package draft

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/intake"
	"seamwright/unit"
)

// uprightQuestion offers the sides on which the upright may stand; where the
// wire leans to one of them, that is the default.
func (m *maker) uprightQuestion(s *seam) Question {
	q := Question{Question: intake.Question{Default: -1, Text: fmt.Sprintf("Where does the upright of %s stand, seen along the travel with the base plate's face towards you?", s.name)},
		Free: "the angle between the plates and the side, such as left 70 deg", check: func(text string) (string, error) {
			value, err := sideYAML(text)
			if err != nil {
				return "", err
			}
			return text, trial{"seams", "upright"}.judge(value, nil)
		}}
	work, known := m.taughtWork(s)
	if s.round() {
		q.Choices = append(q.Choices, intake.Choice{Value: "tube outside", Text: "a tube on the circle, welded outside"}, intake.Choice{Value: "tube inside", Text: "a tube on the circle, welded inside"})
	}
	q.Choices = append(q.Choices, intake.Choice{Value: "left", Text: "left, square to the base plate"}, intake.Choice{Value: "right", Text: "right, square to the base plate"})
	m.offerTouches(&q, s, false)
	if !known || math.Abs(work) < sideLeast || math.Abs(work) > 75*unit.Deg {
		return q
	}
	want := "left"
	if work < 0 {
		want = "right"
	}
	evidence := fmt.Sprintf("as taught the wire points %.0f deg to the %s of the base plate's normal", math.Abs(work)/unit.Deg, want)
	if s.round() {
		want = m.tubeSide(s)
		evidence = "as taught the wire points " + map[string]string{"tube outside": "inwards", "tube inside": "outwards"}[want]
	}
	for i := range q.Choices {
		if q.Choices[i].Value == want {
			q.Choices[i].Evidence, q.Default = evidence, i
		}
	}
	for _, t := range s.touches { // a touched upright is better than any side
		if len(t.rows) > 1 && m.baseValue[s] != "touched "+t.word {
			q.Default = -1
		}
	}
	return q
}

// taughtWork is the angle (rad) of the wire as taught from the base plate's
// normal, to the left of the travel positive, the mean of the poses.
func (m *maker) taughtWork(s *seam) (float64, bool) {
	face := m.baseNormal[s]
	var sin, cos float64
	for _, t := range s.shape.torches {
		across, fine := t.across()
		normal := face.normal.Reject(t.travel)
		const least = 0.5 // a plate across the travel is no base of this seam
		if !fine || !face.known || normal.Norm() < least {
			continue
		}
		normal = normal.Unit()
		sin += across.Dot(normal.Cross(t.travel))
		cos -= across.Dot(normal)
	}
	return math.Atan2(sin, cos), sin != 0 || cos != 0
}

// tubeSide tells a weld outside a tube, whose wire points to its axis.
func (m *maker) tubeSide(s *seam) string {
	var inwards float64
	for _, t := range s.shape.torches {
		inwards += t.wire.Dot(s.shape.circle.Centre.Sub(t.at).Reject(s.shape.circle.Axis).Unit())
	}
	if inwards > 0 {
		return "tube outside"
	}
	return "tube inside"
}

// sideYAML writes a typed side with an angle as the document has it.
func sideYAML(text string) (string, error) {
	side, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	side = strings.ToLower(side)
	if side != "left" && side != "right" || strings.TrimSpace(rest) == "" {
		return "", fmt.Errorf("write left or right, alone or with the angle between the plates, such as left 70 deg")
	}
	return "{" + side + ": " + quoted(strings.TrimSpace(rest)) + "}", nil
}

// takeUpright notes the upright.
func (m *maker) takeUpright(s *seam, value string) {
	yaml := value
	if word, touched := strings.CutPrefix(value, "touched "); touched {
		yaml = m.touchedYAML(s, word)
	} else if strings.ContainsAny(value, "0123456789") {
		yaml, _ = sideYAML(value)
	}
	m.upright[s] = entry{"upright", yaml, m.noteOf(s, "upright")}
}
