package job

import (
	"fmt"
	"slices"

	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// onTable puts the joints of the turning table that carries the part before the
// arm's. It refuses a part that hangs on the arm, one that no joint moves, and a
// base link that moves itself.
func (d *armDraft) onTable(ps *Problems, r *urdf.Robot, arm chain) chain {
	const beside = "a link that joints of a turning table move, beside the arm"
	moving := movingAbove(r, d.part.text)
	for _, j := range arm.joints {
		if slices.Contains(moving, j.name) {
			ps.add(d.part.at, quote(d.part.text)+", which the arm's joint "+quote(j.name)+" moves", beside, "name the link on which the part is clamped")
			return chain{}
		}
	}
	still := movingAbove(r, d.base.text)
	for _, name := range still {
		if !slices.Contains(moving, name) {
			ps.add(d.base.at, quote(d.base.text)+", which joint "+quote(name)+" moves against the foot of the table", "a link that stands still where the table does",
				"name a link that this joint does not move, such as "+quote(jointOf(r, name).Parent))
			return chain{}
		}
	}
	moving = slices.DeleteFunc(moving, func(name string) bool { return slices.Contains(still, name) })
	switch n := len(moving) + len(arm.joints); {
	case len(moving) == 0:
		ps.add(d.part.at, quote(d.part.text)+", which no joint moves against "+quote(d.base.text), beside, "leave part_link out where the part stands still, or name the top of the table")
		return chain{}
	case n > kinematics.MaxJoints:
		ps.add(d.part.at, counted(n, "moving joint")+" from part to flange", fmt.Sprintf("1 to %d", kinematics.MaxJoints), "make joints that stand still fixed in the file")
		return chain{}
	}
	c := chain{known: true}
	for _, name := range moving {
		c.joints = append(c.joints, chainJoint{name: name, slides: jointOf(r, name).Kind == urdf.Prismatic})
	}
	c.joints = append(c.joints, arm.joints...)
	table, err := kinematics.NewChain(r, d.part.text, d.base.text)
	if err != nil { // what it refuses is refused above
		ps.add(d.part.at, quote(d.part.text), beside, err.Error())
		return chain{}
	}
	c.table = table
	return c
}

// movingAbove names the moving joints from a link up to the root of its file.
func movingAbove(r *urdf.Robot, link string) (names []string) {
	for j := r.ParentJoint(link); j != nil; j = r.ParentJoint(j.Parent) {
		if j.Kind != urdf.Fixed {
			names = append(names, j.Name)
		}
	}
	return names
}

func jointOf(r *urdf.Robot, name string) *urdf.Joint {
	i := slices.IndexFunc(r.Joints, func(j urdf.Joint) bool { return j.Name == name })
	return &r.Joints[i]
}
