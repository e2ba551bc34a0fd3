package motion

import (
	"math"

	"seamwright/robot/kinematics"
)

// Checker says where the arm is clear of everything that it must not come near:
// itself, its torch, the part and the surroundings, with whatever distances its
// maker wants kept. It is all that the air planner knows of the world. Both
// methods must give the same answer whenever they are asked the same.
type Checker interface {
	// Clear reports whether the arm stands clear at joint values q (rad, m).
	Clear(q *kinematics.Q) bool
	// ClearMove reports whether the arm stays clear on the straight line in joint
	// space between two sets of joint values (rad, m), both ends included. It must
	// hold for the whole line and not only at samples of it.
	ClearMove(from, to *kinematics.Q) bool
}

// AirJoint says how the air planner treats one joint of the arm.
type AirJoint struct {
	// Lower and Upper are the limits, rad (m for a sliding joint), finite; equal for
	// a joint that stands still. A whole turn is not the same place to a planner of
	// moves: cables and limits count turns. An endless joint is given the range that
	// it may use.
	Lower, Upper float64
	// Weight is what a radian (a metre for a sliding joint) of this joint counts in
	// distances between postures: dimensionless (1/m for a sliding joint), more
	// than 0. AirJoints tells how it is chosen where nothing else is known.
	Weight float64
}

// AirRequest is the question put to AirPlanner.Solve.
type AirRequest struct {
	// Start is where the arm stands, rad (m for a sliding joint).
	Start kinematics.Q
	// Goals holds one or more postures, rad (m), any one of which will do. Whole
	// turns of a joint that fits its limits in several ways are goals of their own.
	Goals []kinematics.Q
	// Joints describes the joints in the order of Start, one to kinematics.MaxJoints.
	Joints []AirJoint
	// Checker says what is clear.
	Checker Checker
	// Seed fixes the random numbers: the same request gives the same answer.
	Seed uint64
	// Step is the distance, weighted rad, between the places at which a branch of
	// a tree is looked at with Checker.Clear while trees grow; a path's moves are
	// proven with Checker.ClearMove in any case. 0 means 0.2. Negative: every
	// branch is proven with Checker.ClearMove when it grows.
	Step float64
	// Reach is the longest branch, weighted rad; 0 means a fifth of the diagonal of
	// the box of limits.
	Reach float64
	// MaxChecks bounds the calls of Checker while trees grow, where one of ClearMove
	// counts as fifty of Clear, about what it takes; 0 means 500,000. It is looked at
	// between random postures, so that a few branches more may be asked about.
	MaxChecks int
	// MaxNodes bounds the postures in both trees together; 0 means 100,000.
	MaxNodes int
	// Shortcuts is the number of random shortcuts tried on a path that was found;
	// 0 means 100, negative none.
	Shortcuts int
	// Clearance, where set, returns how far the arm at q (rad, m) is from what it
	// must not touch, m, and WideClearance the distance, m, beyond which more is no
	// better. A path is then bent towards wider clearance where that does not make
	// it much longer; see AirAnswer.Cost.
	Clearance     func(q *kinematics.Q) float64
	WideClearance float64
	// Progress, where set, is told now and then how far the search is.
	Progress func(AirSearched)
}

// AirStatus says how a search ended.
type AirStatus int

const (
	// AirStraight means that the straight joint move is clear, and is the answer.
	AirStraight AirStatus = iota + 1
	// AirPlanned means that a way round was found; every move of it is proven.
	AirPlanned
	// AirStartNotClear means that the arm is not clear where it stands.
	AirStartNotClear
	// AirGoalNotClear means that the arm is clear at none of the goals.
	AirGoalNotClear
	// AirNoPath means that none was found within the bounds. It does not prove that
	// there is none.
	AirNoPath
)

// AirSearched says what a search looked at.
type AirSearched struct {
	// StartNodes and GoalNodes are the postures in the tree that grew from the
	// start and in the one that grew from the goals.
	StartNodes, GoalNodes int
	// Clear and ClearMove count the calls of the two methods of Checker.
	Clear, ClearMove int
	// Samples counts the random postures that trees were grown towards.
	Samples int
	// Refuted counts the moves that looked clear at Step and were not.
	Refuted int
}

// AirGap is the closest approach of the two trees: a posture that can be reached
// from the start, one from which a goal can be reached (rad, m), and the distance
// between them, weighted rad.
type AirGap struct {
	FromStart, FromGoal kinematics.Q
	Distance            float64
}

// AirAnswer is what a search found. Its slices are overwritten by the next
// search that is given the same answer.
type AirAnswer struct {
	Status AirStatus
	// Path holds postures from the start to a goal, both included, to be joined by
	// straight joint moves (rad, m); empty where none was found.
	Path []kinematics.Q
	// Goal is the number of the goal at the path's end, -1 where there is none.
	Goal int
	// Length is the path's length, weighted rad; First is its length as the trees
	// found it, before shortcuts.
	Length, First float64
	// Cost is Length where no clearance was asked for. Else it is the sum over the
	// path of its length times 1 + 4*(1-c/wide)^2 with c the clearance, at most
	// wide, weighted rad.
	Cost float64
	// NotClear lists the goals at which the arm is not clear.
	NotClear []int
	// Searched says what was looked at, shortcuts included.
	Searched AirSearched
	// Gap is the closest approach of the trees where no path was found.
	Gap AirGap
}

// AirJoints returns the treatment of a chain's joints that stand at at (rad, m).
// A joint weighs as the top speed of the slowest turning joint over its own, so
// that distances are nearly times; where a top speed is not stated, or no joint
// turns, all weigh 1. A limit that is not finite is put lap (rad, m) away from
// the joint's present value.
func AirJoints(c *kinematics.Chain, at *kinematics.Q, lap float64) []AirJoint {
	slowest, stated := math.Inf(1), true
	for i := range c.N() {
		j := c.Joint(i)
		stated = stated && j.Velocity > 0
		if j.Kind != kinematics.Prismatic {
			slowest = min(slowest, j.Velocity)
		}
	}
	joints := make([]AirJoint, c.N())
	for i := range joints {
		j := c.Joint(i)
		joints[i] = AirJoint{Lower: j.Lower, Upper: j.Upper, Weight: 1}
		if math.IsInf(j.Lower, -1) {
			joints[i].Lower = at[i] - lap
		}
		if math.IsInf(j.Upper, 1) {
			joints[i].Upper = at[i] + lap
		}
		if stated && !math.IsInf(slowest, 1) {
			joints[i].Weight = slowest / j.Velocity
		}
	}
	return joints
}
