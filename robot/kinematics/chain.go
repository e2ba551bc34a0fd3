// Package kinematics computes where an arm's flange is for given joint values,
// how it moves with them, and every set of joint values that puts it in a
// given pose.
//
// A Chain is the run of joints from a base link to a flange link of a URDF
// file; Forward and Jacobian hold for any such chain of up to nine revolute,
// continuous or prismatic joints, a turning table of one or two included. A
// Solver inverts chains of six joints and more: in closed form where the axes
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

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

// MaxJoints is the largest number of moving joints in a chain.
const MaxJoints = 9

// Q holds one value for each joint of a chain from the base outwards, rad or
// m; entries past the chain's N are zero.
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

// NewChain returns the chain that carries flangeLink in baseLink. It fails
// where a link is unknown, where baseLink is not above flangeLink in the tree,
// or where the joints between them are none or more than MaxJoints.
func NewChain(r *urdf.Robot, baseLink, flangeLink string) (*Chain, error) {
	path, err := pathBetween(r, baseLink, flangeLink)
	if err != nil {
		return nil, err
	}
	c := &Chain{}
	at := se3.Identity()
	for _, j := range path {
		at = at.Mul(j.Origin)
		if j.Kind == urdf.Fixed {
			continue
		}
		if c.n == MaxJoints {
			return nil, fmt.Errorf("chain from link %q to link %q: found more than %d moving joints; allowed: 1 to %d; choose links nearer to each other or make joints fixed",
				baseLink, flangeLink, MaxJoints, MaxJoints)
		}
		c.joints[c.n] = jointOf(j)
		c.lines[c.n] = line{dir: at.Dir(j.Axis).Unit(), at: at.P}
		c.n++
	}
	if c.n == 0 {
		return nil, fmt.Errorf("chain from link %q to link %q: found no moving joint; allowed: 1 to %d; choose the link that the arm's last joint carries as flange",
			baseLink, flangeLink, MaxJoints)
	}
	c.zero = at
	c.form = compile(c.lines[:c.n], c.joints[:c.n], c.zero)
	c.links = linkSteps(r, baseLink, path)
	return c, nil
}

// pathBetween returns the joints from base to flange, base side first.
func pathBetween(r *urdf.Robot, base, flange string) ([]*urdf.Joint, error) {
	for _, name := range []string{base, flange} {
		if r.Link(name) == nil {
			return nil, fmt.Errorf("chain: found no link %q in robot %q; allowed: a link of the file; correct the name", name, r.Name)
		}
	}
	var path []*urdf.Joint
	for at := flange; at != base; {
		j := r.ParentJoint(at)
		if j == nil || len(path) > len(r.Joints) {
			return nil, fmt.Errorf("chain: found link %q not above link %q in robot %q; allowed: a base link from which joints lead to the flange; exchange or correct the two names",
				base, flange, r.Name)
		}
		path = append(path, j)
		at = j.Parent
	}
	for i, k := 0, len(path)-1; i < k; i, k = i+1, k-1 {
		path[i], path[k] = path[k], path[i]
	}
	return path, nil
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

// Turns returns the whole turns k for which q[j] + 2*pi*k is inside joint j's
// limits, from lo to hi; lo > hi says that there are none. A prismatic joint
// has the turn 0 or none. For a continuous joint, which has no limits, the
// answer is the largest range of int32. q[j] is in rad or m.
func (c *Chain) Turns(q *Q, j int) (lo, hi int) {
	jt := &c.joints[:c.n][j]
	switch {
	case jt.Kind == Continuous:
		return math.MinInt32, math.MaxInt32
	case jt.Kind == Prismatic && q[j] >= jt.Lower && q[j] <= jt.Upper:
		return 0, 0
	case jt.Kind == Prismatic:
		return 1, 0
	}
	const turn = 2 * math.Pi
	lo = int(math.Ceil((jt.Lower - q[j]) / turn))
	hi = int(math.Floor((jt.Upper - q[j]) / turn))
	// The division rounds: a value on a limit belongs to the range.
	if q[j]+float64(turn*float64(lo-1)) >= jt.Lower {
		lo--
	}
	if q[j]+float64(turn*float64(hi+1)) <= jt.Upper {
		hi++
	}
	return lo, hi
}
