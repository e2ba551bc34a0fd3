package kinematics

import (
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

// LinkPose is the pose of one link in the chain's base link.
type LinkPose struct {
	Link         string
	BaseFromLink se3.Pose
}

// linkStep places one link: parentFromLink at zero and the joint that moves it.
type linkStep struct {
	name    string
	parent  int // index of the parent's step, -1 for the base link itself
	origin  se3.Pose
	axis    r3.Vec
	joint   int // index in the chain, -1 for a link that does not move on its parent
	sliding bool
}

// linkSteps lists the base link and every link below it, parents first, in the
// order of the file among equals.
func linkSteps(r *urdf.Robot, base string, path []*urdf.Joint) []linkStep {
	index := map[string]int{}
	for _, j := range path {
		if j.Kind != urdf.Fixed {
			index[j.Name] = len(index)
		}
	}
	children := map[string][]*urdf.Joint{}
	for i := range r.Joints {
		j := &r.Joints[i]
		children[j.Parent] = append(children[j.Parent], j)
	}
	steps := []linkStep{{name: base, parent: -1, origin: se3.Identity(), joint: -1}}
	for at := 0; at < len(steps); at++ {
		for _, j := range children[steps[at].name] {
			s := linkStep{name: j.Child, parent: at, origin: j.Origin, axis: j.Axis, joint: -1,
				sliding: j.Kind == urdf.Prismatic}
			if k, moves := index[j.Name]; moves && j.Kind != urdf.Fixed {
				s.joint = k
			}
			steps = append(steps, s)
		}
	}
	return steps
}

// Links appends to dst the pose of the base link and of every link below it,
// parents first, for joint values q (rad or m), and returns the longer slice.
// Joints that are not part of the chain stand at zero. With room for them in
// dst nothing is allocated.
func (c *Chain) Links(q *Q, dst []LinkPose) []LinkPose {
	first := len(dst)
	for i := range c.links {
		s := &c.links[i]
		pose := s.origin
		if s.parent >= 0 {
			pose = dst[first+s.parent].BaseFromLink.Mul(pose)
		}
		switch {
		case s.joint < 0:
		case s.sliding:
			pose.P = pose.P.AddScaled(q[s.joint], pose.Dir(s.axis))
		default:
			pose.R = pose.R.Mul(se3.RotAxis(s.axis, q[s.joint]))
		}
		dst = append(dst, LinkPose{Link: s.name, BaseFromLink: pose})
	}
	return dst
}
