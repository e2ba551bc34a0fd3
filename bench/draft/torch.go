package draft

import (
	"fmt"
	"strings"

	"seamwright/bench/intake"
	"seamwright/bench/job"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/unit"
)

// torchValue is a measurement of the torch that a person is asked for.
type torchValue struct {
	field, text, example string
	kind                 unit.Kind
	measured             bool // given by a ruler, left out where the tip's pose is known
	take                 func(*cell.Torch, float64)
}

var torchValues = []torchValue{
	{"body", "How long is the torch from the flange's face to the middle of the neck's bend, along the flange's axis?", "210 mm", unit.Length, true, func(t *cell.Torch, x float64) { t.Body = x }},
	{"neck", "How long is the neck from the middle of its bend to the nozzle's end, along the wire?", "120 mm", unit.Length, true, func(t *cell.Torch, x float64) { t.Neck = x }},
	{"neck_angle", "How far is the neck bent?", "35 deg", unit.Angle, true, func(t *cell.Torch, x float64) { t.NeckAngle = x }},
	{"nozzle", "How thick is the nozzle outside?", "22 mm", unit.Length, false, func(*cell.Torch, float64) {}},
	{"tip_recess", "How far does the contact tip sit inside the nozzle? (minus where it sticks out)", "2 mm", unit.Length, false, func(t *cell.Torch, x float64) { t.TipRecess = x }},
	{"stick_out", "How far does the wire stand out of the nozzle when the arm is taught?", "13 mm", unit.Length, false, func(t *cell.Torch, x float64) { t.StickOut = x }},
}

// findTorch asks for the torch, by its measurements or by the pose of its tip.
func (m *maker) findTorch() error {
	if m.Like != nil {
		return m.torchLike()
	}
	known, ok := m.ask(Question{Question: intake.Question{ID: "torch", Default: -1, Text: "How is the torch known?", Choices: []intake.Choice{
		{Value: "measured", Text: "by ruler and protractor: its lengths and the bend of its neck"},
		{Value: "pose", Text: "by the wire tip's pose from the flange, as the controller keeps it"},
	}}})
	if !ok {
		return nil
	}
	var t cell.Torch
	pose := known == "pose"
	if pose {
		value, fine := m.ask(Question{Question: intake.Question{ID: "torch.flange_from_tip", Default: -1, Text: "Where is the wire tip from the flange, and how is it turned?"},
			Free: poseFree, check: poseCheck(trial{"torch", "flange_from_tip"}, nil)})
		if fine {
			m.torch = append(m.torch, entry{"flange_from_tip", poseYAML(value), m.note("torch.flange_from_tip")})
			m.flangeFromTip, _ = parsePose(value)
		}
	}
	for _, v := range torchValues {
		if pose && v.measured {
			continue
		}
		m.torchField(v, pose, &t)
	}
	if !pose && len(m.open) == 0 && m.wrong == nil {
		var err error
		if m.flangeFromTip, err = t.FlangeFromTip(); err != nil {
			return fmt.Errorf("the torch: %w", err)
		}
	}
	return nil
}

func (m *maker) torchField(v torchValue, pose bool, t *cell.Torch) {
	others := map[trial]string{}
	if !pose {
		others = map[trial]string{{"torch", "flange_from_tip"}: "", {"torch", "body"}: "210 mm", {"torch", "neck"}: "120 mm", {"torch", "neck_angle"}: "35 deg"}
	}
	delete(others, trial{"torch", v.field})
	if v.field == "tip_recess" {
		others[trial{"torch", "stick_out"}] = "60 mm" // their sum is judged with the stick-out
	}
	if v.field == "stick_out" {
		if recess, answered := m.answers["torch.tip_recess"]; answered {
			others[trial{"torch", "tip_recess"}] = quoted(recess.Value)
		}
	}
	id := "torch." + v.field
	value, ok := m.ask(Question{Question: intake.Question{ID: id, Default: -1, Text: v.text},
		Free: "the value with its unit, such as " + v.example, check: trial{"torch", v.field}.quantity(others)})
	if !ok {
		return
	}
	if x, err := unit.Parse(v.kind, value); err == nil {
		v.take(t, x)
	}
	m.torch = append(m.torch, entry{v.field, quoted(value), m.note(id)})
}

// torchLike takes the torch of the job followed.
func (m *maker) torchLike() error {
	t := m.Like.Job.Torch
	m.flangeFromTip = t.FlangeFromTip
	if t.Measured {
		var err error
		m.flangeFromTip, err = cell.Torch{Body: t.Body, Neck: t.Neck, NeckAngle: t.NeckAngle, Turn: t.Turn, Sideways: t.Sideways, TipRecess: t.TipRecess, StickOut: t.StickOut}.FlangeFromTip()
		if err != nil {
			return fmt.Errorf("the torch of %s: %w", m.Like.Name, err)
		}
	}
	return nil
}

// poseFree says how a pose is typed.
const poseFree = "x, y, z with units, then the turns in degrees about fixed X, Y, Z, such as 72 mm, 0 mm, 335 mm, 0, 35, 0; another convention behind a semicolon, such as ; quaternion w first"

// splitPose cuts a typed pose into its lengths, its turns and its convention.
func splitPose(text string) (at, turn []string, convention string) {
	numbers, words, _ := strings.Cut(text, ";")
	if convention = strings.TrimSpace(words); convention == "" {
		convention = "fixed x-y-z degrees"
	}
	for i, part := range strings.Split(numbers, ",") {
		if part = strings.TrimSpace(part); i < 3 {
			at = append(at, part)
		} else {
			turn = append(turn, part)
		}
	}
	return at, turn, convention
}

// poseYAML writes a typed pose as the document has it.
func poseYAML(text string) string {
	at, turn, convention := splitPose(text)
	return fmt.Sprintf("{at: %s, orientation: %s, turn: %s}", listOf(at), quoted(convention), listOf(turn))
}

// poseCheck judges a typed pose.
func poseCheck(t trial, others map[trial]string) func(string) (string, error) {
	return func(text string) (string, error) {
		if at, turn, _ := splitPose(text); len(at) < 3 || len(turn) < 3 {
			return "", fmt.Errorf("%s; write %s", counted(len(at)+len(turn), "number", "numbers"), poseFree)
		}
		return text, t.judge(poseYAML(text), others)
	}
}

// parsePose returns a typed pose in metres. The document's own reader makes it,
// so that both read it in one way.
func parsePose(text string) (se3.Pose, error) {
	values := map[trial]string{{"cell", "world_from_base"}: poseYAML(text)}
	j, err := job.Decode("job.yaml", files{"job.yaml": trial{}.with(values), "arm.urdf": trialArm})
	if err != nil {
		return se3.Pose{}, err
	}
	return j.Cell.WorldFromBase, nil
}
