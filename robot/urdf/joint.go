package urdf

import (
	"fmt"

	"seamwright/geom/r3"
)

func (d *decoder) readJoint(n *node) {
	name := d.name(n, "joint")
	field := fmt.Sprintf("joint %q", name)
	if at, twice := d.jointAt[name]; twice && name != "" {
		d.problem(n, field, fmt.Sprintf("the name again, first on line %d", at.line),
			"each joint name once", "rename or delete one of the two")
		return
	}
	d.jointAt[name] = n
	d.known(n, field, "name", "type")
	j := Joint{Name: name, Kind: d.jointKind(n, field)}
	j.Parent = d.end(n, field, "parent")
	j.Child = d.end(n, field, "child")
	j.Origin = d.origin(n, field)
	j.Axis = d.axis(n, field, j.Kind)
	j.Limit = d.limit(n, field, j.Kind)
	if m := d.once(n, field, "mimic"); m != nil {
		d.problem(m, field+" mimic", "a joint that copies another", "joints that move on their own",
			"make the joint fixed at its usual value, or remove it with its links")
	}
	d.others(n, field, "parent", "child", "origin", "axis", "limit", "mimic")
	d.robot.Joints = append(d.robot.Joints, j)
}

func (d *decoder) jointKind(n *node, field string) JointKind {
	const allowed = "revolute, continuous, prismatic or fixed"
	text, ok := n.attr("type")
	if !ok {
		d.problem(n, field+" type", "none", allowed, `add type="..."`)
		return 0
	}
	for k := Revolute; k <= Fixed; k++ {
		if k.String() == text {
			return k
		}
	}
	mend := "use one of these words"
	if text == "floating" || text == "planar" {
		mend = "describe the motion with one joint for each direction, or make it fixed"
	}
	d.problem(n, field+" type", quote(text), allowed, mend)
	return 0
}

// end reads the link name of <parent> or <child>.
func (d *decoder) end(n *node, field, which string) string {
	e := d.once(n, field, which)
	if e == nil {
		d.problem(n, field+" "+which, "none", "a link name", "add <"+which+` link="..."/>`)
		return ""
	}
	d.known(e, field+" "+which, "link")
	link, _ := e.attr("link")
	if link == "" {
		d.problem(e, field+" "+which+" link", "none", "a link name", `add link="..."`)
	}
	return link
}

// axis reads the joint axis, 1 0 0 where the file has none, at unit length.
func (d *decoder) axis(n *node, field string, kind JointKind) r3.Vec {
	a := d.once(n, field, "axis")
	if a == nil || kind == Fixed {
		return r3.Vec{X: 1}
	}
	d.known(a, field+" axis", "xyz")
	v, good := d.vec(a, field+" axis", "xyz", "a direction")
	// A direction far shorter or longer than 1 is a slip of the pen and loses
	// digits when brought to unit length.
	const short, long = 1e-6, 1e6
	if norm := v.Norm(); good && !(norm >= short && norm <= long) {
		d.problem(a, field+" axis xyz", fmt.Sprintf("%v %v %v", v.X, v.Y, v.Z),
			"a direction of length 0.000001 to 1000000", "use a unit direction such as 0 0 1")
		return r3.Vec{X: 1}
	}
	return v.Unit()
}

// limit reads <limit>, which revolute and prismatic joints must have.
func (d *decoder) limit(n *node, field string, kind JointKind) (lim Limit) {
	l := d.once(n, field, "limit")
	field += " limit"
	moves := kind == Revolute || kind == Prismatic
	switch {
	case l == nil && moves:
		d.problem(n, field, "none", "lower, upper, effort and velocity of a "+kind.String()+" joint",
			`add <limit lower="..." upper="..." effort="..." velocity="..."/>`)
		return lim
	case l == nil && kind == Continuous:
		d.note(n, field+" velocity", "none", "a number above 0, rad/s", "add the joint's greatest speed")
		return lim
	case l == nil || kind == Fixed || kind == 0:
		return lim
	}
	d.known(l, field, "lower", "upper", "effort", "velocity")
	unit, effort := "rad", "N m"
	if kind == Prismatic {
		unit, effort = "m", "N"
	}
	if moves {
		lim.Lower, lim.Upper = d.span(l, field, unit)
	} else {
		d.spanIgnored(l, field)
	}
	lim.Velocity = d.optional(l, field, "velocity", unit+"/s", "add the joint's greatest speed")
	lim.Effort = d.optional(l, field, "effort", effort, "add the joint's greatest torque or force")
	return lim
}

// span reads lower and upper, both required and in order.
func (d *decoder) span(l *node, field, unit string) (lower, upper float64) {
	lower, okLower := d.required(l, field, "lower", unit)
	upper, okUpper := d.required(l, field, "upper", unit)
	if !okLower || !okUpper {
		return lower, upper
	}
	found := fmt.Sprintf("lower %v, upper %v", lower, upper)
	switch {
	case lower > upper:
		d.problem(l, field, found, "lower below upper, "+unit, "exchange the two")
	case lower == upper:
		d.note(l, field, found, "lower below upper, "+unit, "make the joint fixed if it cannot move")
	}
	return lower, upper
}

// spanIgnored notes a range on a joint that turns without end.
func (d *decoder) spanIgnored(l *node, field string) {
	for _, attr := range []string{"lower", "upper"} {
		if text, ok := l.attr(attr); ok {
			d.note(l, field+" "+attr, quote(text), "none on a continuous joint",
				"make the joint revolute if it has end stops, the value is not read")
		}
	}
}

// optional reads a number that may be absent or zero, and notes both.
func (d *decoder) optional(l *node, field, attr, unit, mend string) float64 {
	var v [1]float64
	present, good := d.numbers(l, field, attr, unit, v[:])
	switch {
	case !present:
		d.note(l, field+" "+attr, "none", "a number above 0, "+unit, mend)
	case good && v[0] < 0:
		d.problem(l, field+" "+attr, fmt.Sprint(v[0]), "0 or a number above 0, "+unit, "remove the sign")
	case good && v[0] == 0:
		d.note(l, field+" "+attr, "0", "a number above 0, "+unit, mend)
	}
	return v[0]
}
