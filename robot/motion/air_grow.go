package motion

import (
	"context"
	"fmt"
	"math"
	"math/bits"
	"slices"

	"seamwright/robot/kinematics"
)

// grown says what became of a branch.
type grown int

const (
	trapped grown = iota // something is in the way
	advanced
	reached
)

// grow lets the trees grow until a proven path joins them, which it writes to
// the answer, or the bounds are reached.
func (a *AirPlanner) grow(ctx context.Context, out *AirAnswer) (found bool, err error) {
	var target kinematics.Q
	for a.open() {
		if err := ctx.Err(); err != nil {
			return false, fmt.Errorf("motion: air move: stopped after %d random postures: %w", a.searched.Samples, err)
		}
		side := 0 // the smaller tree, which has the more to gain
		if a.trees[1].alive < a.trees[0].alive {
			side = 1
		}
		a.sample(&target)
		if new, how := a.extend(side, a.nearest(side, &target), &target); how != trapped {
			if met, joined := a.connect(1-side, &a.trees[side].q[new]); joined {
				ends := [2]int32{met, met}
				ends[side] = new
				if a.join(ends[0], ends[1], out) {
					return true, nil
				}
			}
		}
	}
	return false, nil
}

// open reports whether the bounds leave room for another branch, and now and
// then tells how far the search is.
func (a *AirPlanner) open() bool {
	s := &a.searched
	s.StartNodes, s.GoalNodes = a.trees[0].alive, a.trees[1].alive
	if a.req.Progress != nil && s.Samples%airTold == 0 {
		a.req.Progress(*s)
	}
	return s.Clear+airMoveCount*s.ClearMove < a.checks && len(a.trees[0].q)+len(a.trees[1].q) < a.nodes
}

// sample draws a posture evenly from the box of limits.
func (a *AirPlanner) sample(q *kinematics.Q) {
	a.searched.Samples++
	for j, joint := range a.req.Joints {
		q[j] = joint.Lower + float64(a.rng.Float64()*(joint.Upper-joint.Lower))
	}
}

// nearest returns the posture of a tree that is nearest to q.
func (a *AirPlanner) nearest(side int, q *kinematics.Q) int32 {
	w := a.weighted(q)
	i, _ := a.trees[side].near.nearest((*[kinematics.MaxJoints]float64)(&w))
	return i
}

// connect lets a tree grow towards q until it is there or trapped, and returns
// the last posture.
func (a *AirPlanner) connect(side int, q *kinematics.Q) (at int32, joined bool) {
	target := *q
	at = a.nearest(side, &target)
	for {
		next, how := a.extend(side, at, &target)
		if how == trapped {
			return at, false
		}
		if at = next; how == reached {
			return at, true
		}
	}
}

// extend grows one branch from posture i of a tree towards target, no longer
// than the posture's reach.
func (a *AirPlanner) extend(side int, i int32, target *kinematics.Q) (int32, grown) {
	t := &a.trees[side]
	from, to, how := &t.q[i], &a.tip, reached
	d := a.distance(from, target)
	if d == 0 {
		return i, reached
	}
	*to = *target
	if reach := a.reach / math.Sqrt(math.Sqrt(1+t.failed[i])); d > reach {
		a.between(to, from, target, reach/d)
		d, how = reach, advanced
	}
	if !a.branch(side, from, to, d) {
		t.failed[i]++
		return i, trapped
	}
	t.failed[i] /= 2
	w := a.weighted(to)
	return t.add(to, &w, i, a.step < 0), how
}

// branch reports whether a branch of length d (weighted rad) looks clear: its
// end first, then ever finer between, where something in the way is soon met.
func (a *AirPlanner) branch(side int, from, to *kinematics.Q, d float64) bool {
	if a.step < 0 {
		if side == 1 {
			from, to = to, from // as the arm will go
		}
		return a.clearMove(from, to)
	}
	if !a.clear(to) {
		return false
	}
	pieces := uint(math.Ceil(d / a.step))
	if pieces < 2 {
		return true
	}
	at := &a.probe
	width := bits.Len(pieces - 1)
	for i := uint(1); i < 1<<width; i++ {
		// Counting with the bits of i reversed halves, quarters, ... the branch.
		k := uint(bits.Reverse64(uint64(i)) >> (64 - width))
		if k >= pieces {
			continue
		}
		a.between(at, from, to, float64(k)/float64(pieces))
		if !a.clear(at) {
			return false
		}
	}
	return true
}

// join proves the path over two postures that coincide, one of each tree, and
// writes it down. Where a move is refuted, the branch is cut off.
func (a *AirPlanner) join(i, j int32, out *AirAnswer) bool {
	if !a.prove(0, i) || !a.prove(1, j) {
		a.searched.Refuted++
		return false
	}
	out.Path = out.Path[:0]
	for k := i; k >= 0; k = a.trees[0].parent[k] {
		out.Path = append(out.Path, a.trees[0].q[k])
	}
	slices.Reverse(out.Path)
	for k := a.trees[1].parent[j]; k >= 0; k = a.trees[1].parent[k] {
		out.Path = append(out.Path, a.trees[1].q[k])
	}
	out.Goal = a.goalOf[a.trees[1].root(j)]
	return true
}

// prove proves the moves from a root to posture i, those near the root first,
// since they carry most.
func (a *AirPlanner) prove(side int, i int32) bool {
	t := &a.trees[side]
	a.chain = a.chain[:0]
	for ; t.parent[i] >= 0; i = t.parent[i] {
		a.chain = append(a.chain, i)
	}
	for k := len(a.chain) - 1; k >= 0; k-- {
		child := a.chain[k]
		if t.proven[child] {
			continue
		}
		from, to := &t.q[t.parent[child]], &t.q[child]
		if side == 1 {
			from, to = to, from
		}
		if !a.clearMove(from, to) {
			t.fell(child)
			return false
		}
		t.proven[child] = true
	}
	return true
}
