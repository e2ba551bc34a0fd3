package collision

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// LinkNamed returns the index of a link in the list that the chain's Links
// returns, for Body.Link.
func LinkNamed(c *kinematics.Chain, name string) (int, error) {
	for i, l := range c.Links(&kinematics.Q{}, nil) {
		if l.Link == name {
			return i, nil
		}
	}
	return 0, fmt.Errorf("found no link %q beside or behind the chain's base link; allowed: a link that the chain's joints carry; correct the name", name)
}

// frames are a chain's rigid groups of links: group 0 is fixed to the base, and
// joint j moves group j+1 on group j, about or along the z axis of the frame of
// group j+1.
type frames struct {
	n       int
	steps   [kinematics.MaxJoints]se3.Pose // group j from group j+1 with the joint at zero
	sliding [kinematics.MaxJoints]bool
	lower   [kinematics.MaxJoints]float64 // rad or m
	upper   [kinematics.MaxJoints]float64
}

// newFrames reads a chain's joints off its Jacobian with every joint at zero.
func newFrames(c *kinematics.Chain) frames {
	f := frames{n: c.N()}
	var flange se3.Pose
	var jac kinematics.Jacobian
	c.Jacobian(&kinematics.Q{}, &flange, &jac)
	before := se3.Identity()
	for j := range f.n {
		joint := c.Joint(j)
		f.lower[j], f.upper[j] = joint.Lower, joint.Upper
		v := r3.Vec{X: jac[0][j], Y: jac[1][j], Z: jac[2][j]}
		w := r3.Vec{X: jac[3][j], Y: jac[4][j], Z: jac[5][j]}
		axis, at := w, flange.P
		if joint.Kind == kinematics.Prismatic {
			f.sliding[j], axis = true, v
		} else {
			at = at.Sub(v.Cross(w)) // the lever from the axis to the flange, square to it
		}
		x := axis.Orthogonal()
		here := se3.Pose{R: se3.RotColumns(x, axis.Cross(x), axis), P: at}
		f.steps[j] = before.Inv().Mul(here)
		before = here
	}
	return f
}

// place writes the poses of the groups in the base at joint values q, rad or m.
// The rows of a pose do not depend on each other; one at a time keeps the
// numbers in registers.
func (f *frames) place(q *kinematics.Q, groups *[groupCount]se3.Pose) {
	var sin, cos [kinematics.MaxJoints]float64
	for j := range f.n {
		if f.sliding[j] {
			cos[j] = 1
		} else {
			sin[j], cos[j] = math.Sincos(q[j])
		}
	}
	groups[0] = se3.Identity()
	for row := range 3 {
		x, y, z, p := groups[0].R[3*row], groups[0].R[3*row+1], groups[0].R[3*row+2], 0.0
		for j := range f.n {
			step := &f.steps[j]
			r := &step.R
			p += step.P.X*x + step.P.Y*y + step.P.Z*z
			x, y, z = r[0]*x+r[3]*y+r[6]*z, r[1]*x+r[4]*y+r[7]*z, r[2]*x+r[5]*y+r[8]*z
			s, c := sin[j], cos[j]
			x, y = c*x+s*y, c*y-s*x
			if f.sliding[j] {
				p += q[j] * z
			}
			to := &groups[j+1]
			to.R[3*row], to.R[3*row+1], to.R[3*row+2] = x, y, z
			switch row {
			case 0:
				to.P.X = p
			case 1:
				to.P.Y = p
			default:
				to.P.Z = p
			}
		}
	}
}

// groupsOfLinks returns the group of each link of the chain's list and its pose
// in that group: the number of the last joint that moves it, counted from 1.
func groupsOfLinks(c *kinematics.Chain, f *frames) (group []int, groupFromLink []se3.Pose) {
	var zero [groupCount]se3.Pose
	f.place(&kinematics.Q{}, &zero)
	still := c.Links(&kinematics.Q{}, nil)
	group, groupFromLink = make([]int, len(still)), make([]se3.Pose, len(still))
	for j := range f.n {
		var q kinematics.Q
		q[j] = 0.5 // far from the rounding of a link that stands still
		for i, l := range c.Links(&q, nil) {
			if d := l.BaseFromLink.Minus(still[i].BaseFromLink); d.Linear.Norm()+d.Angular.Norm() > 0.1 {
				group[i] = j + 1
			}
		}
	}
	for i, l := range still {
		groupFromLink[i] = zero[group[i]].Inv().Mul(l.BaseFromLink)
	}
	return group, groupFromLink
}

// finite reports whether all joint values are numbers.
func (f *frames) finite(q *kinematics.Q) bool {
	var sum float64
	for _, x := range q[:f.n] {
		sum += x - x
	}
	return sum == 0
}
