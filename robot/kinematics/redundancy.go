package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// redundancy is a chain of more than six joints with some of them held, so that
// six are left to solve for. Held joints before the first and after the last
// solved one only move the base and the flange; those between change the arm,
// and every value of them has a solver of its own.
type redundancy struct {
	chain   *Chain
	free    []FreeJoint
	heldSet uint16 // bit j: joint j is free
	within  uint16 // bit j: it lies between solved joints
	solved  [6]int
	family  Family
	choices []choice
	middle  int // the choice nearest to the middle of all ranges
}

// choice is one point of the grid of free values.
type choice struct {
	held Q
	six  *Solver
}

// FreeJoint is a joint whose value the caller chooses, with the range that it
// may be chosen from and the step of the grid of choices. A continuous joint
// has the range -pi to pi.
type FreeJoint struct {
	Joint        int     // index in the chain, 0 at the base
	Lower, Upper float64 // rad or m
	Step         float64 // rad or m; 0 where the range is a single value
}

// Free lists the joints whose values are chosen and not solved for, base first:
// none for six joints, one for seven, up to three for nine.
func (s *Solver) Free() []FreeJoint {
	if s.redundant == nil {
		return nil
	}
	return append([]FreeJoint(nil), s.redundant.free...)
}

// Choices returns the number of points of the grid of free values, 1 for six
// joints. Values at which the other six joints have no closed form, though they
// have one elsewhere, are left out.
func (s *Solver) Choices() int {
	if s.redundant == nil {
		return 1
	}
	return len(s.redundant.choices)
}

// ChoiceValue returns the values of the free joints (rad or m) at a point of
// the grid, in their places; the other joints are zero. The first free joint
// varies slowest. It panics unless 0 <= choice < Choices.
func (s *Solver) ChoiceValue(choice int) Q {
	if s.redundant == nil {
		return [1]Q{}[choice]
	}
	return s.redundant.choices[choice].held
}

// SolveChoice is Solve with the free joints held at a point of the grid. The
// postures in out.Q are of the whole chain. For six joints it is Solve. Nothing
// is built or allocated. It panics unless 0 <= choice < Choices.
func (s *Solver) SolveChoice(choice int, baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	if s.redundant == nil {
		_ = [1]struct{}{}[choice]
		s.Solve(baseFromFlange, seed, out)
		return
	}
	c := &s.redundant.choices[choice]
	s.redundant.solve(nil, c.six, &c.held, baseFromFlange, seed, out)
}

// SolveHeld is Solve with the free joints held at their values in held (rad or
// m), whose other entries are not read. A value outside its joint's limits is
// OutsideLimits with that joint in Miss. For six joints it is Solve.
//
// Where the free joints are the chain's first and last ones this costs no more
// than SolveChoice. Where one lies between solved joints, and its values are not
// those of a choice, a solver is built for them first, which costs about 10 us
// and allocates; if the six joints have no closed form at these values the
// answer is OutOfReach, NotKnown and Uncertain.
func (s *Solver) SolveHeld(held *Q, baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	s.SolveAlong(nil, held, baseFromFlange, seed, out)
}

// solveHeld is SolveAlong for a chain of more than six joints.
func (r *redundancy) solveHeld(trail *Trail, held *Q, baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	six := (*Solver)(nil)
	if finite(held, r.chain.n) {
		if six = r.at(held); six == nil {
			out.N, out.Geometric, out.Singular, out.Uncertain = 0, 0, 0, true
			out.Status, out.Reach, out.Missing = OutOfReach, NotKnown, 0
			return
		}
	}
	r.solve(trail, six, held, baseFromFlange, seed, out)
}

// solveRedundant is Solve for a chain of more than six joints.
func (s *Solver) solveRedundant(t *se3.Pose, seed *Q, out *Solutions) {
	r := s.redundant
	if seed == nil || !finite(seed, r.chain.n) {
		s.SolveChoice(r.middle, t, seed, out)
		return
	}
	var held Q
	for _, f := range r.free {
		held[f.Joint] = seed[f.Joint]
		if r.chain.joints[f.Joint].Kind != Continuous {
			held[f.Joint] = max(f.Lower, min(f.Upper, held[f.Joint]))
		}
	}
	s.SolveHeld(&held, t, seed, out)
}

// solve is SolveHeld with the solver for the held values; a nil six says that
// these are not finite.
func (r *redundancy) solve(trail *Trail, six *Solver, held *Q, t *se3.Pose, seed *Q, out *Solutions) {
	out.N, out.Geometric, out.Singular, out.Uncertain = 0, 0, 0, false
	out.Reach, out.Missing = Reachable, 0
	if six == nil || !properPose(t) || seed != nil && !finite(seed, r.chain.n) {
		out.Status = InvalidInput
		return
	}
	for _, f := range r.free {
		if j := &r.chain.joints[f.Joint]; held[f.Joint] < j.Lower || held[f.Joint] > j.Upper {
			out.Status = OutsideLimits
			out.Miss = Miss{Joint: f.Joint, By: max(j.Lower-held[f.Joint], held[f.Joint]-j.Upper)}
			r.expand(&out.Miss.Q, held)
			return
		}
	}
	goal := r.reduce(held, t)
	var inner *Q
	var kept Q
	if seed != nil {
		kept = r.compress(seed)
		inner = &kept
	}
	six.solve(trail, &goal, inner, out)
	for i := range out.N {
		r.expand(&out.Q[i], held)
		out.Held[i] = r.expandSet(out.Held[i])
	}
	if out.Status == OutsideLimits {
		r.expand(&out.Miss.Q, held)
		out.Miss.Joint = r.solved[out.Miss.Joint]
	}
}

// reduce takes the pose t of the whole chain to that of the six solved joints.
func (r *redundancy) reduce(held *Q, t *se3.Pose) se3.Pose {
	before, after := se3.Identity(), se3.Identity()
	for _, f := range r.free {
		switch j := f.Joint; {
		case j < r.solved[0]:
			before = before.Mul(r.chain.motionOf(j, held[j]))
		case j > r.solved[5]:
			after = after.Mul(r.chain.motionOf(j, held[j]))
		}
	}
	zero := r.chain.zero
	return before.Inv().Mul(*t).Mul(zero.Inv().Mul(after.Inv()).Mul(zero))
}

// motionOf returns what joint j's value v (rad or m) does to all that it
// carries, in the base frame with every other joint at zero.
func (c *Chain) motionOf(j int, v float64) se3.Pose {
	l := c.lines[j]
	if c.joints[j].Kind == Prismatic {
		return se3.Translation(l.dir.Scale(v))
	}
	turn := se3.RotAxis(l.dir, v)
	return se3.Pose{R: turn, P: l.at.Sub(turn.Apply(l.at))}
}

// compress returns the values of the solved joints, first to sixth.
func (r *redundancy) compress(q *Q) (six Q) {
	for i, j := range r.solved {
		six[i] = q[j]
	}
	return six
}

// expand turns six values into one for each joint of the chain.
func (r *redundancy) expand(q, held *Q) {
	var whole Q
	for _, f := range r.free {
		whole[f.Joint] = held[f.Joint]
	}
	for i, j := range r.solved {
		whole[j] = q[i]
	}
	*q = whole
}

// expandSet turns bits of six joints into those of the chain and adds the held
// ones.
func (r *redundancy) expandSet(six uint16) uint16 {
	set := r.heldSet
	for i, j := range r.solved {
		set |= six >> i & 1 << j
	}
	return set
}

// at returns the solver for held values: that of a choice, or a new one, or nil
// where there is no closed form.
func (r *redundancy) at(held *Q) *Solver {
	if r.within == 0 {
		return r.choices[0].six
	}
next:
	for i := range r.choices {
		for _, f := range r.free {
			if r.within>>f.Joint&1 != 0 && r.choices[i].held[f.Joint] != held[f.Joint] {
				continue next
			}
		}
		return r.choices[i].six
	}
	return r.build(held)
}

// singularity is Solver.Singularity for the six solved joints.
func (r *redundancy) singularity(q *Q) Singularity {
	six := r.at(q)
	if six == nil {
		return Singularity{}
	}
	inner := r.compress(q)
	return six.Singularity(&inner)
}

// build returns a solver with the joints within held, or nil where the six
// others have no closed form there.
func (r *redundancy) build(held *Q) *Solver {
	c := r.chain.holding(r.heldSet, r.within, held)
	back := c.reversed()
	h := recogniseAs(c, back, r.family)
	if h.family == General && r.within != 0 {
		return nil
	}
	s, ok := newShaped(c, back, h)
	if !ok {
		return nil
	}
	return s
}

// holding returns the chain of the joints outside the set skip, with those in
// fixed held at their values in held (rad or m) and the other skipped ones at
// zero.
func (c *Chain) holding(skip, fixed uint16, held *Q) *Chain {
	out := &Chain{}
	at := se3.Identity()
	for j := range c.n {
		switch {
		case fixed>>j&1 != 0:
			at = at.Mul(c.motionOf(j, held[j]))
		case skip>>j&1 == 0:
			l := c.lines[j]
			out.lines[out.n] = line{dir: at.Dir(l.dir).Unit(), at: at.Apply(l.at)}
			out.joints[out.n] = c.joints[j]
			out.n++
		}
	}
	out.zero = at.Mul(c.zero)
	out.form = compile(out.lines[:out.n], out.joints[:out.n], out.zero)
	return out
}

// valueAt returns the value (rad or m) at a share, 0 to 1, of joint j's range.
func (c *Chain) valueAt(j int, share float64) float64 {
	lower, upper := c.rangeOf(j)
	return lower + share*(upper-lower)
}

// rangeOf returns joint j's limits, -pi to pi for a continuous one, rad or m.
func (c *Chain) rangeOf(j int) (lower, upper float64) {
	if jt := &c.joints[j]; jt.Kind != Continuous {
		return jt.Lower, jt.Upper
	}
	return -math.Pi, math.Pi
}
