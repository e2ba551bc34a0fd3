package draft

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"seamwright/bench/intake"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
	"seamwright/unit"
)

// chainEnds are the links of a file between which all joints of its arm move.
type chainEnds struct {
	bases, flanges []string
	joints         []*urdf.Joint // in order from the base
}

// arm finds the longest chain of moving joints in a file and the links before
// its first and behind its last joint.
func arm(r *urdf.Robot) chainEnds {
	var best chainEnds
	for i := range r.Links {
		joints := movingJoints(r, r.Links[i].Name)
		if n := len(joints); n == 0 || n < len(best.joints) {
			continue
		} else if n > len(best.joints) {
			best = chainEnds{joints: joints}
		}
		if joints[len(joints)-1] == best.joints[len(best.joints)-1] {
			best.flanges = append(best.flanges, r.Links[i].Name)
		}
	}
	if len(best.joints) == 0 {
		return best
	}
	for link := best.joints[0].Parent; ; {
		best.bases = append(best.bases, link)
		j := r.ParentJoint(link)
		if j == nil {
			return best
		}
		link = j.Parent
	}
}

// movingJoints returns the moving joints from the root to a link, in order.
func movingJoints(r *urdf.Robot, link string) []*urdf.Joint {
	var out []*urdf.Joint
	for j := r.ParentJoint(link); j != nil; j = r.ParentJoint(j.Parent) {
		if j.Kind != urdf.Fixed {
			out = append(out, j)
		}
	}
	slices.Reverse(out)
	return out
}

// Slides says of each joint of the file's arm, in order, whether it slides.
func Slides(r *urdf.Robot) []bool {
	var out []bool
	for _, j := range arm(r).joints {
		out = append(out, j.Kind == urdf.Prismatic)
	}
	return out
}

// Reach is an upper bound (m) of how far the arm of a file reaches from its
// base: the lengths between its joints and the ways of those that slide, added
// up. It knows no torch.
func Reach(r *urdf.Robot) float64 {
	ends := arm(r)
	if len(ends.joints) == 0 {
		return 0
	}
	var sum float64
	for j := r.ParentJoint(ends.flanges[0]); j != nil; j = r.ParentJoint(j.Parent) {
		sum += j.Origin.P.Norm()
		if j.Kind == urdf.Prismatic {
			sum += max(j.Limit.Upper, -j.Limit.Lower, 0)
		}
	}
	return sum
}

// ArmQuestion asks for the arm's file. Whoever asks it reads the file and makes
// it an Input's Arm: an answer to it alone does not count.
func ArmQuestion() Question {
	return Question{Question: intake.Question{ID: "arm", Default: -1, Text: "Which file describes the arm?"}, Free: "the name of a URDF file", Explain: explain["arm"],
		check: func(string) (string, error) { return "", errors.New("the file has to be read first") }}
}

// FileQuestion asks for a file that a job can do without for now: the answer
// is its name, or none.
func FileQuestion(id, what string) Question {
	return Question{Question: intake.Question{ID: id, Default: 0, Text: fmt.Sprintf("Which file holds %s?", what),
		Choices: []intake.Choice{{Value: "none", Text: "none yet: write a template to fill in", Evidence: "no file was named"}}},
		Free: "the name of a file", Explain: explain[id], check: func(text string) (string, error) { return text, nil }}
}

// findArm asks for the arm's file and its links.
func (m *maker) findArm() error {
	if m.Arm == nil {
		m.ask(ArmQuestion())
		return nil
	}
	if m.Like != nil {
		a := m.Like.Job.Arm
		if a.PartLink != "" {
			return fmt.Errorf("the part of %s stands on a turning table, and its points need to know how that stood: begin from a copy of that document", m.Like.Name)
		}
		m.base, m.flange = a.BaseLink, a.FlangeLink
		return m.buildChain()
	}
	ends := arm(m.Arm.Robot)
	if len(ends.joints) == 0 {
		return fmt.Errorf("%s describes no arm: none of its joints moves", m.Arm.File)
	}
	base := Question{Question: intake.Question{ID: "base_link", Default: -1, Text: fmt.Sprintf("Which link of %s is the arm's foot, whose frame the controller calls base?", path.Base(m.Arm.File))}}
	for i, name := range ends.bases {
		evidence := "it carries the first joint"
		if i > 0 {
			evidence = "further down"
		}
		base.Choices = append(base.Choices, intake.Choice{Value: name, Text: name, Evidence: evidence})
	}
	flange := Question{Question: intake.Question{ID: "flange_link", Default: -1, Text: fmt.Sprintf("Which link of %s is the flange, to which the torch is bolted?", path.Base(m.Arm.File))}}
	for _, name := range ends.flanges {
		evidence := fmt.Sprintf("behind %s", counted(len(ends.joints), "moving joint", "moving joints"))
		if strings.EqualFold(name, "flange") {
			flange.Default = len(flange.Choices)
			evidence += ", and its name says so"
		}
		flange.Choices = append(flange.Choices, intake.Choice{Value: name, Text: name, Evidence: evidence})
	}
	if len(base.Choices) == 1 {
		base.Default = 0
	}
	if len(flange.Choices) == 1 {
		flange.Default = 0
	}
	m.base, _ = m.ask(base)
	m.flange, _ = m.ask(flange)
	if len(m.open) > 0 || m.wrong != nil {
		return nil
	}
	m.acceleration(ends)
	return m.buildChain()
}

// acceleration asks for the accelerations of an arm with joints that slide; for
// those that turn the document has a default.
func (m *maker) acceleration(ends chainEnds) {
	if !slices.ContainsFunc(ends.joints, func(j *urdf.Joint) bool { return j.Kind == urdf.Prismatic }) {
		return
	}
	var names []string
	for _, j := range ends.joints {
		names = append(names, j.Name)
	}
	value, ok := m.ask(Question{Question: intake.Question{ID: "joint_acceleration", Default: -1,
		Text: "How fast does each joint speed up? An arm with a joint that slides needs all of them, in the order " + strings.Join(names, ", ") + "."},
		Free: "one a joint with commas, such as 2 m/s2, 300 deg/s2",
		check: func(text string) (string, error) {
			parts := strings.Split(text, ",")
			if len(parts) != len(ends.joints) {
				return "", fmt.Errorf("%d values, the arm has %d joints", len(parts), len(ends.joints))
			}
			for i, j := range ends.joints {
				kind := unit.AngularAcceleration
				if j.Kind == urdf.Prismatic {
					kind = unit.Acceleration
				}
				parts[i] = strings.TrimSpace(parts[i])
				if _, err := unit.Parse(kind, parts[i]); err != nil {
					return "", fmt.Errorf("%s: %w", j.Name, err)
				}
			}
			return strings.Join(parts, ", "), nil
		}})
	if ok {
		m.accelerations = "[" + value + "]"
	}
}

// buildChain builds the arm that points with joint values are reckoned through.
func (m *maker) buildChain() error {
	chain, err := kinematics.NewChain(m.Arm.Robot, m.base, m.flange)
	if err != nil {
		return fmt.Errorf("%s from %q to %q: %w", m.Arm.File, m.base, m.flange, err)
	}
	m.geometry.chain = chain
	for _, r := range m.kept {
		if n := len(r.Joints); n > 0 && n != chain.N() {
			return fmt.Errorf("line %d, %q, has %d joint values and the arm of %s has %d joints: mend the row, or name the other arm", r.Line, r.Label, n, m.Arm.File, chain.N())
		}
	}
	return nil
}
