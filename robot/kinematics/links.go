package kinematics

import (
	"slices"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

// LinkPose is the pose of one link in the chain's base link.
type LinkPose struct {
	Link         string
	BaseFromLink se3.Pose
}

// linkStep places one link from the one before it on the way from the base
// link. A link that is reached by its parent joint stands behind the joint's
// origin and then its motion; one that is reached backwards, from the child,
// behind the motion and then the origin.
type linkStep struct {
	name      string
	from      int // index of the step before it, -1 for the base link itself
	origin    se3.Pose
	axis      r3.Vec
	backwards bool // origin and axis are inverted already
	joint     int  // index in the chain, -1 for a link that does not move on the one before it
	sliding   bool
}

// linkSteps lists the base link and every link that the common link of base and
// flange carries, those on the way up first and others in the order of the
// file.
func linkSteps(r *urdf.Robot, base string, up, down []*urdf.Joint) []linkStep {
	index := map[string]int{}
	for _, j := range slices.Concat(up, down) {
		if j.Kind != urdf.Fixed {
			index[j.Name] = len(index)
		}
	}
	step := func(name string, from int, j *urdf.Joint) linkStep {
		s := linkStep{name: name, from: from, origin: j.Origin, axis: j.Axis, joint: -1, sliding: j.Kind == urdf.Prismatic}
		if k, moves := index[j.Name]; moves {
			s.joint = k
		}
		return s
	}
	steps := []linkStep{{name: base, from: -1, origin: se3.Identity(), joint: -1}}
	for i, j := range up {
		s := step(j.Parent, i, j)
		s.origin, s.axis, s.backwards = j.Origin.Inv(), j.Axis.Neg(), true
		steps = append(steps, s)
	}
	children := map[string][]*urdf.Joint{}
	for i := range r.Joints {
		if j := &r.Joints[i]; !slices.Contains(up, j) {
			children[j.Parent] = append(children[j.Parent], j)
		}
	}
	for at := 0; at < len(steps); at++ {
		for _, j := range children[steps[at].name] {
			steps = append(steps, step(j.Child, at, j))
		}
	}
	return steps
}

// Links appends to dst the pose of the base link and of every link that hangs
// below it, each after the one that it hangs on, for joint values q (rad or m),
// and returns the longer slice. A chain that leads up first also has the links
// on its way up and all that these carry. Joints that are not part of the chain
// stand at zero. With room for them in dst nothing is allocated.
func (c *Chain) Links(q *Q, dst []LinkPose) []LinkPose {
	first := len(dst)
	for i := range c.links {
		s := &c.links[i]
		pose := se3.Identity()
		if s.from >= 0 {
			pose = dst[first+s.from].BaseFromLink
		}
		if !s.backwards {
			pose = pose.Mul(s.origin)
		}
		switch {
		case s.joint < 0:
		case s.sliding:
			pose.P = pose.P.AddScaled(q[s.joint], pose.Dir(s.axis))
		default:
			pose.R = pose.R.Mul(se3.RotAxis(s.axis, q[s.joint]))
		}
		if s.backwards {
			pose = pose.Mul(s.origin)
		}
		dst = append(dst, LinkPose{Link: s.name, BaseFromLink: pose})
	}
	return dst
}
