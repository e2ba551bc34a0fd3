// Package kinematics computes where an arm's flange is for given joint values,
// how it moves with them, and every set of joint values that puts it in a
// given pose.
//
// A Chain is the run of joints from a base link to a flange link of a URDF
// file; Forward and Jacobian hold for any such chain of up to nine revolute,
// continuous or prismatic joints. It may lead up the file's tree and down
// again: from the top of a turning table over its joints, taken backwards, to
// the floor and out along the arm. A Solver inverts chains of six joints and more: in closed form where the axes
// allow it, which is recognised from their geometry alone, and otherwise by
// following known postures to the pose (see Family). Of seven to nine joints it
// takes one to three as free (see Solver.Free). Both are immutable and safe for
// concurrent use; calls on them allocate nothing, but for SolveHeld where it
// says so.
//
//	chain, err := kinematics.NewChain(robot, "base", "flange")
//	solver, err := kinematics.NewSolver(chain)
//	var out kinematics.Solutions
//	solver.Solve(&baseFromFlange, &seed, &out)
//
// Joint values are radians, or metres for prismatic joints, and positive as in
// the URDF file.
package kinematics

import (
	"fmt"
	"math"
	"slices"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

// MaxJoints is the largest number of moving joints in a chain.
const MaxJoints = 9

// Q holds one value for each joint of a chain from the base link to the flange,
// rad or m; entries past the chain's N are zero.
type Q [MaxJoints]float64

// JointKind is the motion that a joint allows.
type JointKind uint8

// The kinds of joint in a chain.
const (
	Revolute   JointKind = iota // turns between two limits
	Continuous                  // turns without end
	Prismatic                   // slides between two limits
)

// String returns the URDF word for k.
func (k JointKind) String() string {
	switch k {
	case Revolute:
		return "revolute"
	case Continuous:
		return "continuous"
	case Prismatic:
		return "prismatic"
	}
	return "unknown"
}

// Joint is one moving joint of a chain. The limits of a continuous joint are
// -Inf and +Inf. Velocity and Effort are zero where the file does not state
// them.
type Joint struct {
	Name         string
	Kind         JointKind
	Lower, Upper float64 // rad or m
	Velocity     float64 // rad/s or m/s; 0: not stated
	Effort       float64 // N m or N; 0: not stated
	// LowerNarrowed and UpperNarrowed say that the limit is tighter than the
	// file's; see Chain.Narrowed.
	LowerNarrowed, UpperNarrowed bool
}

// Chain is the run of joints from a base link to a flange link.
type Chain struct {
	n      int
	joints [MaxJoints]Joint
	lines  [MaxJoints]line // joint axes in the base frame with every joint at zero
	zero   se3.Pose        // baseFromFlange with every joint at zero
	form   form
	links  []linkStep
}

// line is a joint axis: a unit direction and a point on it (m).
type line struct{ dir, at r3.Vec }

// NewChain returns the chain from baseLink to flangeLink. Where baseLink is not
// above flangeLink in the tree the chain leads up to the nearest link that
// carries both, and down from there. A joint that is met on the way up is
// walked backwards: its motion is the other way round, its name, value and
// limits stay those of the file. It fails where a link is unknown, where no
// link carries both, or where the joints between them are none or more than
// MaxJoints.
func NewChain(r *urdf.Robot, baseLink, flangeLink string) (*Chain, error) {
	up, down, err := pathBetween(r, baseLink, flangeLink)
	if err != nil {
		return nil, err
	}
	c := &Chain{}
	at := se3.Identity()
	for _, j := range up {
		axis := line{dir: at.Dir(j.Axis).Neg().Unit(), at: at.P}
		at = at.Mul(j.Origin.Inv())
		c.add(j, axis)
	}
	for _, j := range down {
		at = at.Mul(j.Origin)
		c.add(j, line{dir: at.Dir(j.Axis).Unit(), at: at.P})
	}
	switch {
	case c.n > MaxJoints:
		return nil, fmt.Errorf("chain from link %q to link %q: found %d moving joints; allowed: 1 to %d; choose links nearer to each other or make joints fixed",
			baseLink, flangeLink, c.n, MaxJoints)
	case c.n == 0:
		return nil, fmt.Errorf("chain from link %q to link %q: found no moving joint; allowed: 1 to %d; choose the link that the arm's last joint carries as flange",
			baseLink, flangeLink, MaxJoints)
	}
	c.zero = at
	c.form = compile(c.lines[:c.n], c.joints[:c.n], c.zero)
	c.links = linkSteps(r, baseLink, up, down)
	return c, nil
}

// add appends a joint, unless it is fixed; beyond MaxJoints it only counts.
func (c *Chain) add(j *urdf.Joint, axis line) {
	if j.Kind == urdf.Fixed {
		return
	}
	if c.n < MaxJoints {
		c.joints[c.n], c.lines[c.n] = jointOf(j), axis
	}
	c.n++
}

// pathBetween returns the joints from base up to the nearest link that carries
// both links, and those from there down to flange, each in the order of the
// way.
func pathBetween(r *urdf.Robot, base, flange string) (up, down []*urdf.Joint, err error) {
	for _, name := range []string{base, flange} {
		if r.Link(name) == nil {
			return nil, nil, fmt.Errorf("chain: found no link %q in robot %q; allowed: a link of the file; correct the name", name, r.Name)
		}
	}
	up, down = rootwards(r, base), rootwards(r, flange)
	shared := 0
	for shared < min(len(up), len(down)) && up[len(up)-1-shared] == down[len(down)-1-shared] {
		shared++
	}
	if rootOf(base, up) != rootOf(flange, down) {
		return nil, nil, fmt.Errorf("chain: found no link that carries both %q and %q in robot %q; allowed: two links of one tree; connect the two in the file or correct the names",
			base, flange, r.Name)
	}
	up, down = up[:len(up)-shared], down[:len(down)-shared]
	slices.Reverse(down)
	return up, down, nil
}

// rootwards returns the joints from a link up to its root. Where a robot that
// was not read from a file has a loop, it gives up after every joint.
func rootwards(r *urdf.Robot, link string) (path []*urdf.Joint) {
	for j := r.ParentJoint(link); j != nil && len(path) <= len(r.Joints); j = r.ParentJoint(j.Parent) {
		path = append(path, j)
	}
	return path
}

// rootOf returns the link at which a way up from link ends.
func rootOf(link string, path []*urdf.Joint) string {
	if len(path) == 0 {
		return link
	}
	return path[len(path)-1].Parent
}

func jointOf(j *urdf.Joint) Joint {
	out := Joint{Name: j.Name, Velocity: j.Limit.Velocity, Effort: j.Limit.Effort,
		Lower: j.Limit.Lower, Upper: j.Limit.Upper}
	switch j.Kind {
	case urdf.Continuous:
		out.Kind, out.Lower, out.Upper = Continuous, math.Inf(-1), math.Inf(1)
	case urdf.Prismatic:
		out.Kind = Prismatic
	}
	return out
}

// N returns the number of moving joints, 1 to MaxJoints.
func (c *Chain) N() int { return c.n }

// Joint returns joint i, 0 at the base. It panics unless 0 <= i < N.
func (c *Chain) Joint(i int) Joint { return c.joints[:c.n][i] }
