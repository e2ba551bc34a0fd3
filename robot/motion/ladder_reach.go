package motion

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/robot/kinematics"
)

// SpinReach says how far the pass can be run at one constant spin.
type SpinReach struct {
	// Spin is the constant turn about the wire, rad.
	Spin float64
	// Furthest is the last rung reached in one go from the first, -1 if none.
	Furthest int
	// Whole says that all rungs are reached.
	Whole bool
	// Longest is the longest stretch of rungs that can be done at this spin.
	Longest Window
	// Block says what stops the pass after rung Furthest.
	Block Block
}

// ConstantSpins appends to out how far every spin that occurs in the ladder gets
// when it is held for the whole pass, in rising order of the spins; give the
// ladder spins of one grid. It takes about as long as a search. Errors are those
// of Solve.
func (s *LadderSearch) ConstantSpins(ctx context.Context, req *LadderRequest, out []SpinReach) ([]SpinReach, error) {
	if err := s.begin(req); err != nil {
		return out, err
	}
	s.spins = s.spins[:0]
	for i := range req.Ladder.nodes {
		s.spins = append(s.spins, req.Ladder.nodes[i].Spin)
	}
	slices.Sort(s.spins)
	s.spins = slices.CompactFunc(s.spins, func(a, b float64) bool { return math.Abs(b-a) <= sameSpin })
	for _, spin := range s.spins {
		if err := s.sweepReach(ctx, req, spin); err != nil {
			return out, err
		}
		r := SpinReach{Spin: spin, Furthest: s.furthest(), Longest: s.longest(), Block: Block{Joint: -1}}
		r.Whole = r.Furthest == len(s.first)-1
		if !r.Whole {
			r.Block = s.block(req, r.Furthest, spin)
		}
		out = append(out, r)
	}
	return out, nil
}

// explain fills the answer of a blocked search.
func (s *LadderSearch) explain(ctx context.Context, req *LadderRequest, spin float64, out *LadderAnswer) error {
	if err := s.sweepReach(ctx, req, spin); err != nil {
		return err
	}
	out.Path, out.Q, out.Turns = out.Path[:0], out.Q[:0], out.Turns[:0]
	out.Status = LadderBlocked
	out.Furthest, out.FromEnd = s.furthest(), s.first[len(s.first)-1]
	out.Longest = s.longest()
	out.Windows = s.cover(out.Windows[:0])
	out.Block = s.block(req, out.Furthest, spin)
	return nil
}

// sweepReach finds for every rung the first rung from which it can be reached in
// one go, into s.first; an empty rung r gets r + 1. It is a search at no cost in
// which every row may begin a path at the price of its rung's number, and leaves
// the cheapest such number in the cost of every row. Every whole turn is laid
// out, so a stretch counts only if one start turn carries it through.
func (s *LadderSearch) sweepReach(ctx context.Context, req *LadderRequest, spin float64) error {
	var laid [kinematics.MaxJoints]bool
	for j := range req.Joints {
		laid[j] = req.Joints[j].wide() && !req.Joints[j].endless()
	}
	if err := s.layOut(req, laid, spin); err != nil {
		return err
	}
	s.rules = newRules(req, laid).free()
	s.back = grow(s.back, len(s.lay.rows))
	s.first = grow(s.first, len(s.lay.ends))
	for r := range s.lay.ends {
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("motion: ladder: stopped at rung %d of %d: %w", r, len(s.lay.ends), err)
		}
		rows := s.lay.rung(r)
		if r > 0 {
			s.enter(rows, s.lay.rung(r-1), math.Inf(1))
		}
		s.first[r] = r + 1
		for i := range rows {
			b := &rows[i]
			if r == 0 || b.cost > float64(r) {
				b.cost = float64(r)
			}
			s.first[r] = min(s.first[r], int(b.cost))
		}
		s.sortReached(rows, math.Inf(1))
	}
	return nil
}

// furthest returns the last rung that is reached from rung 0, -1 if none.
func (s *LadderSearch) furthest() int {
	r := -1
	for r+1 < len(s.first) && s.first[r+1] == 0 {
		r++
	}
	return r
}

// longest returns the earliest of the longest stretches. A stretch that can be
// done can be done in part, so the longest one that ends at r begins at first[r].
func (s *LadderSearch) longest() Window {
	w := Window{From: 0, To: -1}
	for r, f := range s.first {
		if r-f > w.To-w.From {
			w = Window{From: f, To: r}
		}
	}
	return w
}

// cover appends the fewest stretches that cover all rungs, nothing if that is
// impossible. Going as far as possible each time is optimal, because a later
// start never ends earlier.
func (s *LadderSearch) cover(windows []Window) []Window {
	last := len(s.first) - 1
	for at := 0; ; {
		to := at
		for to < last && s.first[to+1] <= at {
			to++
		}
		if s.first[to] > at || (to == at && at < last) {
			return windows[:0]
		}
		windows = append(windows, Window{From: s.first[to], To: to})
		if to == last {
			return windows
		}
		at = to
	}
}

// block finds the least obstacle between rung furthest, as left by sweepReach,
// and the next: fewest joints at fault first, then the smallest excess.
func (s *LadderSearch) block(req *LadderRequest, furthest int, spin float64) Block {
	next := furthest + 1
	best := obstacle{Block: Block{Kind: BlockNoNode, Rung: next, Joint: -1}, faults: math.MaxInt}
	for i := range req.Ladder.Rung(next) {
		node := &req.Ladder.Rung(next)[i]
		if !node.atSpin(spin) {
			continue
		}
		if furthest < 0 {
			best = best.least(s.obstacle(req, nil, node))
			continue
		}
		rows := s.lay.rung(furthest)
		for a := range rows {
			if rows[a].cost == 0 {
				best = best.least(s.obstacle(req, &rows[a], node))
			}
		}
	}
	best.Rung = next
	return best.Block
}

// obstacle is a Block with what is needed to compare it.
type obstacle struct {
	Block
	faults int     // joints at fault, and 1 for a forbidden node
	excess float64 // sum over the joints at fault, rad (m)
}

func (o obstacle) least(p obstacle) obstacle {
	if p.faults < o.faults || (p.faults == o.faults && p.excess < o.excess) {
		return p
	}
	return o
}

// obstacle says what forbids the step from a to the node, each turning joint
// going the short way round. Without a it looks at the limits alone.
func (s *LadderSearch) obstacle(req *LadderRequest, a *row, node *Node) obstacle {
	o := obstacle{Block: Block{Joint: -1}}
	if math.IsInf(node.Cost, 1) {
		o.Kind, o.faults = BlockForbidden, 1
	}
	for j := range req.Joints {
		joint := &req.Joints[j]
		from := joint.Lower/2 + joint.Upper/2
		if joint.endless() {
			from = node.Q[j]
		}
		if a != nil {
			from = a.q[j]
		}
		to := node.Q[j]
		if joint.Turning {
			to = from + math.Remainder(to-from, turn)
		}
		b := Block{Kind: BlockLimit, Joint: j, Value: to}
		switch step := math.Abs(to - from); {
		case to < joint.Lower:
			b.Limit = joint.Lower
		case to > joint.Upper:
			b.Limit = joint.Upper
		case a != nil && joint.MaxStep > 0 && step > joint.MaxStep:
			b.Kind, b.Value, b.Limit = BlockStep, step, joint.MaxStep
		default:
			continue
		}
		if o.faults == 0 {
			o.Block = b
		}
		o.faults++
		o.excess += math.Abs(b.Value - b.Limit)
	}
	return o
}
