package job

import (
	"fmt"
	"slices"

	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
	"seamwright/unit"
)

// armDraft is what has to be checked against the arm's file.
type armDraft struct {
	urdf, base, flange, part ref
	accelerations, jerks     []jointNumber
	zeros                    []jointNumber
	signs                    []float64
	cableTurn                float64 // rad
	read                     node
	packages                 []packageDraft
}

func (d *armDraft) form(a *Arm) record {
	return record{at: &a.At, fields: []field{
		need("urdf", named(&d.urdf, "arms/arm.urdf")),
		need("base_link", named(&d.base, "base")),
		need("flange_link", named(&d.flange, "flange")),
		may("part_link", named(&d.part, "table_top")),
		may("joint_acceleration", oneOrMany[jointNumber]{manyOf(&d.accelerations, 1, maxJoints, "accelerations, one a joint", accelerationForm)}),
		may("joint_jerk", oneOrMany[jointNumber]{manyOf(&d.jerks, 1, maxJoints, "jerks, one a joint", jerkForm)}),
		may("zeros", manyOf(&d.zeros, 1, maxJoints, "joint values, one a joint", jointValueForm)),
		may("signs", manyOf(&d.signs, 1, maxJoints, "signs, one a joint", signForm)),
		may("cable_turn", quantity(unit.Angle, &d.cableTurn, cableTurn, "200 deg")),
		may("limit_margin", quantity(unit.Angle, &a.LimitMargin, margin, "5 deg")),
		may("wrist_margin", quantity(unit.Angle, &a.WristMargin, margin, "10 deg")),
		may("payload", quantity(unit.Mass, &a.Payload, payload, "8 kg")),
		may("shapes", oneOf(&a.Shapes, ShapesCollision, ShapesVisual, ShapesNone)),
		may("packages", manyOf(&d.packages, 1, maxPackages, "packages", (*packageDraft).form)),
		may("hand_guiding", oneOrMany[string]{manyOf(&a.HandGuiding, 1, maxNotes, "notes, one a line", noteForm)}),
	}, check: func(_ *Problems, n node, _ bool) { d.read = n }}
}

// maxNotes bounds the notes on hand guiding.
const maxNotes = 20

func noteForm(dst *string) form { return text(dst, "hold the button halfway") }

// chain is what is known of the joints between part and flange.
type chain struct {
	known bool
	turns bool // the document says that a table carries the part
	// joints are in the order of the chain, fixed ones left out: the table's from
	// the part to the foot, then the arm's from the base link to the flange.
	joints []chainJoint
	// table leads from the part link to the base link over the first joints; nil
	// where the part stands still.
	table *kinematics.Chain
}

type chainJoint struct {
	name   string
	slides bool
	shown  Shown
}

func (c chain) slides() bool {
	return slices.ContainsFunc(c.joints, func(j chainJoint) bool { return j.slides })
}

func (c chain) names() []string {
	var names []string
	for _, j := range c.joints {
		names = append(names, j.name)
	}
	return names
}

// resolve checks the arm's links and lists against its file and returns the
// chain, unknown where the file or its links are wrong.
func (d *armDraft) resolve(ps *Problems, a *Arm) chain {
	a.URDF, a.BaseLink, a.FlangeLink, a.PartLink = d.urdf.text, d.base.text, d.flange.text, d.part.text
	a.Acceleration = []float64{DefaultJointAcceleration}
	if len(d.accelerations) > 0 {
		a.Acceleration = nil
	}
	for _, x := range d.accelerations {
		a.Acceleration = append(a.Acceleration, x.value)
	}
	for _, x := range d.jerks {
		a.Jerk = append(a.Jerk, x.value)
	}
	if a.Robot == nil {
		return chain{}
	}
	names := linkNames(a.Robot)
	good := true
	for _, link := range []ref{d.base, d.flange, d.part} {
		if link.text != "" && a.Robot.Link(link.text) == nil {
			ps.add(link.at, quote(link.text), "a link of "+d.urdf.text+": "+listed(names), orNearest(link.text, names, "write one of these names"))
			good = false
		}
	}
	if !good || d.base.text == "" || d.flange.text == "" {
		return chain{}
	}
	c := d.walk(ps, a.Robot)
	if c.known && d.part.text != "" {
		c = d.onTable(ps, a.Robot, c)
	}
	if c.known {
		d.checkAccelerations(ps, c, a)
		if c.checkCount(ps, d.jerks, "jerk") {
			c.checkKinds(ps, d.jerks, "a jerk", "deg/s3", "mm/s3")
		}
		d.show(ps, &c, a)
		d.cable(ps, c, a)
	}
	return c
}

func linkNames(r *urdf.Robot) []string {
	names := make([]string, len(r.Links))
	for i, l := range r.Links {
		names[i] = l.Name
	}
	return names
}

// walk goes from the flange to the base. The file is a tree, so it ends.
func (d *armDraft) walk(ps *Problems, r *urdf.Robot) chain {
	c := chain{known: true}
	for link := d.flange.text; link != d.base.text; {
		j := r.ParentJoint(link)
		if j == nil {
			ps.add(d.flange.at, quote(d.flange.text)+", which "+quote(d.base.text)+" does not carry", "a flange link that hangs on the base link by joints",
				"check the two links; the root of the file is "+quote(r.Root()))
			return chain{}
		}
		if j.Kind != urdf.Fixed {
			c.joints = append(c.joints, chainJoint{name: j.Name, slides: j.Kind == urdf.Prismatic})
		}
		link = j.Parent
	}
	slices.Reverse(c.joints)
	if n := len(c.joints); n == 0 || n > kinematics.MaxJoints {
		ps.add(d.flange.at, counted(n, "moving joint")+" from base to flange", fmt.Sprintf("1 to %d", kinematics.MaxJoints), "check the two links")
		return chain{}
	}
	return c
}
