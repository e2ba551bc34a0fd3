package motion

import (
	"math"

	"seamwright/robot/kinematics"
)

// Node is one way to stand at a station: a posture of the arm at one spin.
type Node struct {
	// Q holds the joint values (rad, m for a sliding joint). A turning joint may
	// be given at any whole turn; the search finds the turns that fit the limits.
	Q kinematics.Q
	// Spin is the turn about the wire, rad; whole turns do not matter.
	Spin float64
	// Cost is what standing here costs, at least 0, in the unit of the metric (rad
	// for Travel, s for Time). +Inf forbids the node, for example for want of clearance.
	Cost float64
}

// Ladder holds the stations of a pass in order, its rungs, and on each rung the
// nodes. The zero value is an empty ladder.
type Ladder struct {
	nodes []Node
	ends  []int // rung r is nodes[ends[r-1]:ends[r]], with ends[-1] read as 0
}

// Reset empties the ladder and keeps its memory.
func (l *Ladder) Reset() { l.nodes, l.ends = l.nodes[:0], l.ends[:0] }

// AddRung begins the next station.
func (l *Ladder) AddRung() { l.ends = append(l.ends, len(l.nodes)) }

// AddNode puts a node on the rung that was begun last. It panics when there is
// no rung.
func (l *Ladder) AddNode(n Node) {
	l.nodes = append(l.nodes, n)
	l.ends[len(l.ends)-1]++
}

// Rungs returns the number of rungs.
func (l *Ladder) Rungs() int { return len(l.ends) }

// Rung returns the nodes of rung r, counted from 0, in the order in which they
// were added. The slice belongs to the ladder.
func (l *Ladder) Rung(r int) []Node { return l.nodes[l.begin(r):l.ends[r]] }

func (l *Ladder) begin(r int) int {
	if r == 0 {
		return 0
	}
	return l.ends[r-1]
}

// Metric says what a step from one station to the next costs.
type Metric int

const (
	// Travel adds up Weight * |dq| over the joints, rad.
	Travel Metric = iota
	// Time is the largest |dq| / Velocity of any joint, s: the shortest time in
	// which the step can be made at full joint speed.
	Time
)

// LadderJoint says how the search treats one joint of the arm.
type LadderJoint struct {
	// Lower and Upper are the limits, rad (m for a sliding joint), both finite, or
	// -Inf and +Inf for a joint that turns endlessly.
	Lower, Upper float64
	// Turning marks a joint whose posture repeats after a whole turn.
	Turning bool
	// Weight is the cost of moving by one radian under Travel, dimensionless, at
	// least 0; 0 makes the joint's motion free.
	Weight float64
	// Velocity is the joint's top speed, rad/s, more than 0, used by Time.
	Velocity float64
	// MaxStep is the largest change from one rung to the next, rad (m for a sliding
	// joint): a longer edge is forbidden. 0 and +Inf mean that any step is allowed.
	MaxStep float64
}

// LadderJoints returns the treatment of a chain's joints with weight 1 and no
// bound on the step; a prismatic joint's weight is 1 a metre. A top speed that the
// chain does not state stays 0, which Time refuses.
func LadderJoints(c *kinematics.Chain) []LadderJoint {
	joints := make([]LadderJoint, c.N())
	for i := range joints {
		j := c.Joint(i)
		joints[i] = LadderJoint{Lower: j.Lower, Upper: j.Upper, Turning: j.Kind != kinematics.Prismatic, Weight: 1, Velocity: j.Velocity}
	}
	return joints
}

// wide reports whether the joint can stand at one posture in two ways, a whole
// turn apart. Such a joint steps the short way round.
func (j LadderJoint) wide() bool { return j.Turning && j.Upper-j.Lower >= 2*math.Pi }

// endless reports whether no number of turns takes the joint to a limit.
func (j LadderJoint) endless() bool { return math.IsInf(j.Upper, 1) }

// LadderRequest is the question put to LadderSearch.Solve.
type LadderRequest struct {
	Ladder *Ladder
	// Joints describes the joints in the order of Node.Q, one to kinematics.MaxJoints of them.
	Joints []LadderJoint
	Metric Metric
	// SpinWeight is the cost of turning the torch about its wire by one radian,
	// short way round: dimensionless for Travel, s/rad for Time, at least 0.
	SpinWeight float64
	// Progress, where set, is told after every rung how many rungs of the present
	// sweep are done. A search takes one sweep, or a few where whole turns matter.
	Progress func(done, rungs int)
}

// LadderStatus says how a search ended.
type LadderStatus int

const (
	// LadderFound means that the answer's path is the cheapest of all.
	LadderFound LadderStatus = iota + 1
	// LadderBlocked means that no continuous path runs over all rungs.
	LadderBlocked
)

// Window is a stretch of neighbouring rungs, both ends included.
type Window struct{ From, To int }

// TurnRange holds the whole turns by which a joint's path may be shifted as a
// whole and still fit the limits: Lo <= 0 <= Hi.
type TurnRange struct{ Lo, Hi int }

// LadderAnswer is what a search found. Its slices are overwritten by the next
// search that is given the same answer.
type LadderAnswer struct {
	Status LadderStatus
	// Cost is the path's whole cost, the sum of the three below, in rad (Travel)
	// or s (Time).
	Cost float64
	// JointCost, SpinCost and NodeCost are the shares of Cost, rad or s.
	JointCost, SpinCost, NodeCost float64
	// Path holds for every rung the number of the chosen node in it.
	Path []int
	// Q holds for every rung the joint values (rad, m), unwrapped: neighbours
	// differ by the real motion and every value lies inside the limits.
	Q []kinematics.Q
	// Turns holds for every joint the other whole turns at which the same path
	// fits. Q stands at the turn that stays furthest from both limits.
	Turns []TurnRange

	// Furthest is the last rung that can be reached in one go from the first rung,
	// -1 if even that is empty; FromEnd is the first rung from which the last can
	// be reached, or the number of rungs.
	Furthest, FromEnd int
	// Longest is the longest stretch of rungs that can be done in one go, the
	// earliest such; its From is greater than its To where all rungs are empty.
	Longest Window
	// Windows holds the fewest stretches that cover all rungs, each as long as it
	// can be; neighbours share at least one rung, at any of which the pass can be
	// split. It is empty where the rungs cannot be covered.
	Windows []Window
	// Block says what stops a blocked path after rung Furthest.
	Block Block
}

// BlockKind is the reason why a path cannot go on.
type BlockKind int

const (
	// BlockNone is the zero value: nothing blocks.
	BlockNone BlockKind = iota
	// BlockNoNode means that the rung holds no node: the tip cannot be brought there.
	BlockNoNode
	// BlockForbidden means that the nodes there have infinite cost.
	BlockForbidden
	// BlockLimit means that a joint would leave its limits.
	BlockLimit
	// BlockStep means that a joint would have to jump by more than its MaxStep.
	BlockStep
)

// Block is the least obstacle between a rung that is reached and the next.
type Block struct {
	Kind BlockKind
	// Rung is the rung that cannot be entered.
	Rung int
	// Joint is the joint's number from 0, -1 where no joint is to blame.
	Joint int
	// Value is the joint value that would be needed (BlockLimit) or the size of
	// the step (BlockStep), and Limit the one it passes, rad (m).
	Value, Limit float64
}
