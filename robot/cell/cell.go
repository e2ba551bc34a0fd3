// Package cell holds the frames that an arm, its torch and its part stand in:
// world (z up against gravity), base, flange, tip and part.
//
// A Cell never changes; its methods may be called from several goroutines.
package cell

import (
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// Cell is one arm with one torch, standing somewhere in the world.
type Cell struct {
	Chain  *kinematics.Chain
	Solver *kinematics.Solver
	// WorldFromBase is the arm's mount; it may be tilted against gravity.
	WorldFromBase se3.Pose
	// WorldFromPart is the part frame; the identity where none was given.
	WorldFromPart se3.Pose
	FlangeFromTip se3.Pose

	tipFromFlange se3.Pose
}

// New returns the cell of an arm whose inverse is known.
func New(solver *kinematics.Solver, chain *kinematics.Chain, worldFromBase, worldFromPart, flangeFromTip se3.Pose) *Cell {
	return &Cell{
		Chain: chain, Solver: solver,
		WorldFromBase: worldFromBase, WorldFromPart: worldFromPart,
		FlangeFromTip: flangeFromTip,
		tipFromFlange: flangeFromTip.Inv(),
	}
}

// Up returns the direction against gravity in the arm's base frame.
func (c *Cell) Up() r3.Vec { return c.WorldFromBase.R.T().Apply(r3.Vec{Z: 1}) }

// BaseFromTip returns the tip's pose in the base frame at joint values q.
func (c *Cell) BaseFromTip(q *kinematics.Q) se3.Pose {
	var baseFromFlange se3.Pose
	c.Chain.Forward(q, &baseFromFlange)
	return baseFromFlange.Mul(c.FlangeFromTip)
}

// Solve finds every posture that has the tip at baseFromTip; see
// kinematics.Solver.Solve for seed and out.
func (c *Cell) Solve(baseFromTip se3.Pose, seed *kinematics.Q, out *kinematics.Solutions) {
	baseFromFlange := baseFromTip.Mul(c.tipFromFlange)
	c.Solver.Solve(&baseFromFlange, seed, out)
}
