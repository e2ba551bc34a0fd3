package job

import (
	"fmt"
	"slices"

	"seamwright/robot/urdf"
	"seamwright/unit"
)

// armDraft is what has to be checked against the arm's file.
type armDraft struct {
	urdf, base, flange ref
	accelerations      []acceleration
}

// acceleration is one joint's: rad/s2, or m/s2 where it slides.
type acceleration struct {
	value  float64
	slides bool
	at     Place
}

func (d *armDraft) form(a *Arm) record {
	return record{at: &a.At, fields: []field{
		need("urdf", named(&d.urdf, "arms/arm.urdf")),
		need("base_link", named(&d.base, "base")),
		need("flange_link", named(&d.flange, "flange")),
		may("joint_acceleration", oneOrMany[acceleration]{manyOf(&d.accelerations, 1, maxJoints, "accelerations, one a joint", accelerationForm)}),
		may("limit_margin", quantity(unit.Angle, &a.LimitMargin, margin, "5 deg")),
		may("wrist_margin", quantity(unit.Angle, &a.WristMargin, margin, "10 deg")),
	}}
}

// accelerationForm reads rad/s2 first and m/s2 where the unit is one of a
// length.
func accelerationForm(dst *acceleration) form {
	turns := quantity(unit.AngularAcceleration, &dst.value, jointAccel, "300 deg/s2")
	slides := quantity(unit.Acceleration, &dst.value, tipAccel, "2000 mm/s2")
	s := turns
	s.allowed += "; in " + inWords(symbols(unit.Acceleration)) + " for a joint that slides"
	s.take = func(text string) *wrong {
		if _, err := unit.Parse(unit.Acceleration, text); err == nil {
			dst.slides = true
			return slides.take(text)
		}
		return turns.take(text)
	}
	return placed{s, &dst.at}
}

// chain is what is known of the joints between base and flange.
type chain struct {
	known  bool
	joints []chainJoint // in order from the base, fixed ones left out
}

type chainJoint struct {
	name   string
	slides bool
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

// resolve checks the arm's links and accelerations against its file and
// returns the chain, unknown where the file or its links are wrong.
func (d *armDraft) resolve(ps *Problems, a *Arm) chain {
	a.URDF, a.BaseLink, a.FlangeLink = d.urdf.text, d.base.text, d.flange.text
	a.Acceleration = []float64{DefaultJointAcceleration}
	if len(d.accelerations) > 0 {
		a.Acceleration = nil
	}
	for _, x := range d.accelerations {
		a.Acceleration = append(a.Acceleration, x.value)
	}
	if a.Robot == nil {
		return chain{}
	}
	names := linkNames(a.Robot)
	good := true
	for _, link := range []ref{d.base, d.flange} {
		if link.text != "" && a.Robot.Link(link.text) == nil {
			ps.add(link.at, quote(link.text), "a link of "+d.urdf.text+": "+listed(names), orNearest(link.text, names, "write one of these names"))
			good = false
		}
	}
	if !good || d.base.text == "" || d.flange.text == "" {
		return chain{}
	}
	c := d.walk(ps, a.Robot)
	if c.known {
		d.checkAccelerations(ps, c, a)
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
			c.joints = append(c.joints, chainJoint{j.Name, j.Kind == urdf.Prismatic})
		}
		link = j.Parent
	}
	slices.Reverse(c.joints)
	if n := len(c.joints); n == 0 || n > maxJoints {
		ps.add(d.flange.at, counted(n, "moving joint")+" from base to flange", fmt.Sprintf("1 to %d", maxJoints), "check the two links")
		return chain{}
	}
	return c
}

// checkAccelerations compares count and kind with the chain.
func (d *armDraft) checkAccelerations(ps *Problems, c chain, a *Arm) {
	given := d.accelerations
	switch {
	case len(given) == 0 && c.slides() || len(given) == 1 && len(c.joints) > 1 && c.slides():
		at := a.At.sub("joint_acceleration")
		if len(given) == 1 {
			at = given[0].at
		}
		ps.add(at, counted(len(given), "acceleration")+" for an arm with a joint that slides", fmt.Sprintf("a list of %d", len(c.joints)),
			"list them in the order "+listed(c.names()))
		return
	case len(given) > 1 && len(given) != len(c.joints):
		ps.add(given[0].at, counted(len(given), "acceleration"), fmt.Sprintf("one for all joints, or %d", len(c.joints)), "list them in the order "+listed(c.names()))
		return
	}
	for i, x := range given {
		if x.slides != c.joints[i].slides {
			want := "deg/s2, because the joint turns"
			if c.joints[i].slides {
				want = "mm/s2, because the joint slides"
			}
			ps.add(x.at, "an acceleration of the wrong kind for "+quote(c.joints[i].name), "one in "+want, "write the value with that unit")
		}
	}
}
