package motion

import (
	"fmt"
	"math"

	"seamwright/robot/kinematics"
)

// unwrap fills the answer's joint values from s.path at the turns that leave
// the largest margin, and its turn ranges. Joints that fit at no turn are added
// to laid and the result is false.
func (s *LadderSearch) unwrap(req *LadderRequest, out *LadderAnswer, laid *[kinematics.MaxJoints]bool) bool {
	out.Q = grow(out.Q, len(s.path))
	out.Turns = grow(out.Turns, len(req.Joints))
	for r, id := range s.path {
		out.Q[r] = s.home[s.lay.rows[id].node]
	}
	fits := true
	for j := range req.Joints {
		joint := &req.Joints[j]
		out.Turns[j] = TurnRange{}
		if !joint.wide() {
			continue
		}
		lo, hi := s.windings(joint, j)
		if lo > hi {
			laid[j], fits = true, false
			continue
		}
		start := s.bestTurn(joint, j, lo, hi)
		for r := range out.Q {
			out.Q[r][j] = atTurn(out.Q[r][j], s.turns[r]+start)
		}
		out.Turns[j] = TurnRange{Lo: lo - start, Hi: hi - start}
	}
	return fits
}

// windings counts the whole turns of wide joint j along the path into s.turns,
// beginning with 0, and returns the turns at the start for which all of the path
// lies within the limits; none when lo > hi.
func (s *LadderSearch) windings(joint *LadderJoint, j int) (lo, hi int) {
	s.turns = grow(s.turns, len(s.path))
	lo, hi = math.MinInt32, math.MaxInt32
	k, last := 0, 0.0
	for r, id := range s.path {
		b := &s.lay.rows[id]
		q := s.home[b.node][j]
		switch {
		case s.lay.laid[j]:
			k = int(math.Round((b.q[j] - q) / turn))
		case r > 0 && q-last > math.Pi:
			k--
		case r > 0 && q-last <= -math.Pi:
			k++
		}
		last = q
		s.turns[r] = k
		l, h := turnsInside(joint, q)
		lo, hi = max(lo, l-k), min(hi, h-k)
	}
	return lo, hi
}

// bestTurn returns the number of turns from lo to hi at the start of the path at
// which joint j stays furthest from its limits, the lowest of equals; for an
// endless joint, 0.
func (s *LadderSearch) bestTurn(joint *LadderJoint, j, lo, hi int) int {
	if joint.endless() {
		return 0
	}
	low, high := math.Inf(1), math.Inf(-1)
	for r, id := range s.path {
		u := atTurn(s.home[s.lay.rows[id].node][j], s.turns[r])
		low, high = min(low, u), max(high, u)
	}
	best, margin := lo, math.Inf(-1)
	for k := lo; k <= hi; k++ {
		m := min(atTurn(low, k)-joint.Lower, joint.Upper-atTurn(high, k))
		if m > margin+marginTie {
			best, margin = k, m
		}
	}
	return best
}

// marginTie is the difference below which two margins count as equal, rad.
const marginTie = 1e-9

// finish fills the rest of the answer for a found path and checks it once more
// against limits, steps and cost, from the unwrapped joint values alone.
func (s *LadderSearch) finish(req *LadderRequest, out *LadderAnswer) error {
	last := len(s.path) - 1
	out.Status = LadderFound
	out.Furthest, out.FromEnd = last, 0
	out.Longest = Window{To: last}
	out.Windows = append(out.Windows[:0], out.Longest)
	out.Path = grow(out.Path, len(s.path))
	for r, id := range s.path {
		node := int(s.lay.rows[id].node)
		out.Path[r] = node - req.Ladder.begin(r)
		out.NodeCost += req.Ladder.nodes[node].Cost
	}
	for r := range out.Q {
		if err := out.check(req, r); err != nil {
			return err
		}
	}
	out.Cost = out.JointCost + out.SpinCost + out.NodeCost
	if found := s.lay.rows[s.path[last]].cost; math.Abs(found-out.Cost) > costSlack*max(1, found) {
		return fmt.Errorf("motion: ladder: internal fault: the path found costs %g, recomputed %g", found, out.Cost)
	}
	return nil
}

// costSlack is the relative rounding allowed between a cost and its recomputed
// value, and the absolute one on a step, rad: 1e4 rungs lose at most 1e-12.
const costSlack = 1e-9

// check tests rung r of the path and adds the cost of the step into it.
func (a *LadderAnswer) check(req *LadderRequest, r int) error {
	joints := 0.0
	for j := range req.Joints {
		joint, u := &req.Joints[j], a.Q[r][j]
		if u < joint.Lower || u > joint.Upper {
			return fmt.Errorf("motion: ladder: internal fault: rung %d, joint %d at %g is outside %g to %g", r, j+1, u, joint.Lower, joint.Upper)
		}
		if r == 0 {
			continue
		}
		d := math.Abs(u - a.Q[r-1][j])
		if joint.MaxStep > 0 && d > joint.MaxStep+costSlack {
			return fmt.Errorf("motion: ladder: internal fault: rung %d, joint %d steps by %g, more than %g", r, j+1, d, joint.MaxStep)
		}
		if req.Metric == Time {
			joints = max(joints, d/joint.Velocity)
		} else {
			joints += float64(joint.Weight * d)
		}
	}
	a.JointCost += joints
	if r > 0 {
		from, to := req.Ladder.Rung(r - 1)[a.Path[r-1]], req.Ladder.Rung(r)[a.Path[r]]
		a.SpinCost += float64(req.SpinWeight * spinStep(from.Spin, to.Spin))
	}
	return nil
}
