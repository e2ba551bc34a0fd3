// Package cell holds the frames that an arm, its torch and its part stand in:
// world (z up against gravity), foot, base, flange, tip and part.
//
// Foot is the arm's link that stands still in the world. Base is the first link
// of the chain, the one in which the part stands still: the foot itself, or the
// top of a turning table that carries the part and then turns in the world.
//
// A Cell never changes; its methods may be called from several goroutines.
package cell

import (
	"iter"
	"slices"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// Cell is one arm with one torch and one part, standing somewhere in the world.
type Cell struct {
	Spec
	// Chain is the solver's, from base to flange.
	Chain *kinematics.Chain

	tipFromFlange se3.Pose
}

// Spec is what a cell is made of. No pose of it may be left out.
type Spec struct {
	Solver *kinematics.Solver
	// Table leads from base to foot. Its joints are the first of the solver's
	// chain. nil: the part stands still in the foot, which is the base then.
	Table *kinematics.Chain
	// WorldFromFoot is the arm's mount; it may be tilted against gravity.
	WorldFromFoot se3.Pose
	// BaseFromPart is the part frame: that of the drawing on the part.
	BaseFromPart  se3.Pose
	FlangeFromTip se3.Pose
}

// New returns the cell of an arm whose inverse is known.
func New(s Spec) *Cell {
	return &Cell{Spec: s, Chain: s.Solver.Chain(), tipFromFlange: s.FlangeFromTip.Inv()}
}

// TableJoints returns how many joints of the chain belong to the table that
// carries the part: the first so many.
func (c *Cell) TableJoints() int {
	if c.Table == nil {
		return 0
	}
	return c.Table.N()
}

// BaseFromFoot returns the pose of the arm's foot in the base at joint values q
// (rad or m), of which the table's are read.
func (c *Cell) BaseFromFoot(q *kinematics.Q) se3.Pose {
	if c.Table == nil {
		return se3.Identity()
	}
	var baseFromFoot se3.Pose
	c.Table.Forward(q, &baseFromFoot)
	return baseFromFoot
}

// WorldFromBase returns the pose of the base in the world at joint values q
// (rad or m), of which the table's are read.
func (c *Cell) WorldFromBase(q *kinematics.Q) se3.Pose {
	return c.WorldFromFoot.Mul(c.BaseFromFoot(q).Inv())
}

// Up returns the direction against gravity in the base, and so on the part, at
// joint values q (rad or m), of which the table's are read.
func (c *Cell) Up(q *kinematics.Q) r3.Vec {
	return c.WorldFromBase(q).R.T().Apply(r3.Vec{Z: 1})
}

// BaseFromTip returns the tip's pose in the base frame at joint values q (rad
// or m).
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

// SolveHeld is Solve with the free joints at their values in held (rad or m);
// see kinematics.Solver.SolveHeld.
func (c *Cell) SolveHeld(held *kinematics.Q, baseFromTip se3.Pose, seed *kinematics.Q, out *kinematics.Solutions) {
	baseFromFlange := baseFromTip.Mul(c.tipFromFlange)
	c.Solver.SolveHeld(held, &baseFromFlange, seed, out)
}

// Choices returns the values (rad or m) at which the free joints are held to
// find what the arm can do: the table's as they are in stood, the others' on the
// solver's grid. For six joints without a table it is one value.
func (c *Cell) Choices(stood *kinematics.Q) iter.Seq[kinematics.Q] {
	table := c.TableJoints()
	return func(yield func(kinematics.Q) bool) {
		first := c.Solver.ChoiceValue(0)
		for i := range c.Solver.Choices() {
			held := c.Solver.ChoiceValue(i)
			if !slices.Equal(held[:table], first[:table]) {
				continue // the others' grid comes again for every stand of the table
			}
			copy(held[:table], stood[:table])
			if !yield(held) {
				return
			}
		}
	}
}

// SolveAlong finds every posture that has the tip at baseFromTip with the free
// joints held at their values in held (rad or m), near the pose that trail was
// last used for; see kinematics.Solver.SolveAlong.
func (c *Cell) SolveAlong(trail *kinematics.Trail, held *kinematics.Q, baseFromTip se3.Pose, seed *kinematics.Q, out *kinematics.Solutions) {
	baseFromFlange := baseFromTip.Mul(c.tipFromFlange)
	c.Solver.SolveAlong(trail, held, &baseFromFlange, seed, out)
}

// SolveNear takes q (rad or m) to the posture that continues it and has the tip
// at baseFromTip; see kinematics.Solver.SolveNear.
func (c *Cell) SolveNear(baseFromTip se3.Pose, q *kinematics.Q) bool {
	baseFromFlange := baseFromTip.Mul(c.tipFromFlange)
	return c.Solver.SolveNear(&baseFromFlange, q)
}
