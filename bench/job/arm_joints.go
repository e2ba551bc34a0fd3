package job

import (
	"fmt"
	"math"

	"seamwright/robot/urdf"
	"seamwright/unit"
)

// jointNumber is one number of a list that has one for each joint: an angle of a
// joint that turns or a length of one that slides, or a rate of these, SI.
type jointNumber struct {
	value  float64
	slides bool
	at     Place
}

// accelerationForm reads rad/s2 first and m/s2 where the unit is one of a
// length.
func accelerationForm(dst *jointNumber) form {
	return jointNumberForm(dst, unit.Acceleration,
		quantity(unit.AngularAcceleration, &dst.value, jointAccel, "300 deg/s2"),
		quantity(unit.Acceleration, &dst.value, tipAccel, "2000 mm/s2"))
}

// jerkForm reads rad/s3 first and m/s3 where the unit is one of a length.
func jerkForm(dst *jointNumber) form {
	return jointNumberForm(dst, unit.Jerk,
		quantity(unit.AngularJerk, &dst.value, jointJerk, "3000 deg/s3"),
		quantity(unit.Jerk, &dst.value, tipJerk, "20000 mm/s3"))
}

// jointValueForm reads an angle first and a length where the unit is one.
func jointValueForm(dst *jointNumber) form {
	return jointNumberForm(dst, unit.Length,
		quantity(unit.Angle, &dst.value, jointTurn, "0 deg"),
		quantity(unit.Length, &dst.value, anyLength, "0 mm"))
}

// jointNumberForm is turns, or slides where the unit is one of sliding.
func jointNumberForm(dst *jointNumber, sliding unit.Kind, turns, slides single) form {
	s := turns
	s.allowed += "; in " + inWords(symbols(sliding)) + " for a joint that slides"
	s.take = func(text string) *wrong {
		if _, err := unit.Parse(sliding, text); err == nil {
			dst.slides = true
			return slides.take(text)
		}
		return turns.take(text)
	}
	return placed{s, &dst.at}
}

// signForm reads 1 or -1.
func signForm(dst *float64) form {
	return single{allowed: "1 or -1", example: "1", json: schema{"enum": []any{1, -1}}, take: func(s string) *wrong {
		x, w := parseNumber(s)
		if w != nil || math.Abs(x) != 1 {
			return &wrong{mend: "write -1 where the controller counts against the file, and 1 elsewhere"}
		}
		*dst = x
		return nil
	}}
}

// checkAccelerations compares count and kind with the chain; an arm with a joint
// that slides has no default.
func (d *armDraft) checkAccelerations(ps *Problems, c chain, a *Arm) {
	if len(d.accelerations) == 0 && c.slides() {
		c.lacksList(ps, a.At.sub("joint_acceleration"), "acceleration", 0)
		return
	}
	if c.checkCount(ps, d.accelerations, "acceleration") {
		c.checkKinds(ps, d.accelerations, "an acceleration", "deg/s2", "mm/s2")
	}
}

// checkCount wants one number for all joints, of which none slides then, or one
// for each.
func (c chain) checkCount(ps *Problems, given []jointNumber, what string) bool {
	switch {
	case len(given) == 1 && len(c.joints) > 1 && c.slides():
		c.lacksList(ps, given[0].at, what, 1)
		return false
	case len(given) > 1 && len(given) != len(c.joints):
		ps.add(given[0].at, counted(len(given), what), fmt.Sprintf("one for all joints, or %d", len(c.joints)), "list them in the order "+listed(c.names()))
		return false
	}
	return true
}

// lacksList asks for a number a joint where only so many are given.
func (c chain) lacksList(ps *Problems, at Place, what string, given int) {
	ps.add(at, counted(given, what)+" for an arm with a joint that slides", fmt.Sprintf("a list of %d", len(c.joints)),
		"list them in the order "+listed(c.names()))
}

// checkKinds refuses numbers in the unit of another kind of joint.
func (c chain) checkKinds(ps *Problems, given []jointNumber, what, turning, sliding string) {
	for i, x := range given {
		if x.slides != c.joints[i].slides {
			want := turning + ", because the joint turns"
			if c.joints[i].slides {
				want = sliding + ", because the joint slides"
			}
			ps.add(x.at, what+" of the wrong kind for "+quote(c.joints[i].name), "one in "+want, "write the value with that unit")
		}
	}
}

// counts reports whether a list has one entry for each joint.
func (d *armDraft) counts(ps *Problems, c chain, field, what string, n int) bool {
	if n == 0 || n == len(c.joints) {
		return true
	}
	at, _ := d.read.get(field)
	ps.add(at.at, counted(n, what), fmt.Sprintf("%d, one for each of %s", len(c.joints), listed(c.names())), "list all of them in this order")
	return false
}

// show fills in how the controller shows the joints.
func (d *armDraft) show(ps *Problems, c *chain, a *Arm) {
	for i := range c.joints {
		c.joints[i].shown = Shown{Sign: 1}
	}
	zeros := d.counts(ps, *c, "zeros", "zero", len(d.zeros))
	signs := d.counts(ps, *c, "signs", "sign", len(d.signs))
	if !zeros || !signs || len(d.zeros)+len(d.signs) == 0 {
		return
	}
	c.checkKinds(ps, d.zeros, "a zero", "deg", "mm")
	for i, z := range d.zeros {
		c.joints[i].shown.Zero = z.value
	}
	for i, s := range d.signs {
		if s != 0 { // one that was not read is reported there
			c.joints[i].shown.Sign = s
		}
	}
	for _, j := range c.joints {
		a.Shown = append(a.Shown, j.shown)
	}
}

// cable says between which values the torch's cable lets the last joint turn. It
// refuses a turn that has nothing of the joint's own range.
func (d *armDraft) cable(ps *Problems, c chain, a *Arm) {
	if d.cableTurn == 0 {
		return
	}
	last := c.joints[len(c.joints)-1]
	at, _ := d.read.get("cable_turn")
	if last.slides {
		ps.add(at.at, at.found()+" for "+quote(last.name)+", which slides", "the turn of a last joint that turns", "delete cable_turn")
		return
	}
	a.Cable = &JointRange{last.shown.Zero - d.cableTurn, last.shown.Zero + d.cableTurn}
	if j := jointOf(a.Robot, last.name); j.Kind == urdf.Revolute && (a.Cable.Lower > j.Limit.Upper || a.Cable.Upper < j.Limit.Lower) {
		ps.add(at.at, fmt.Sprintf("%s, which leaves %s no turn inside its limits of %.1f to %.1f deg", at.found(), quote(last.name), j.Limit.Lower/unit.Deg, j.Limit.Upper/unit.Deg),
			"a turn about the joint's zero that reaches its limits", "check cable_turn, and the last of zeros")
	}
}
