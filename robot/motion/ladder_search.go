package motion

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"seamwright/robot/kinematics"
)

// LadderSearch finds cheapest paths up a ladder. It owns the working memory, so
// keep one and use it again: later searches of like size allocate nothing. It
// must not be used by two goroutines at once. The zero value is ready.
//
// Method: dynamic programming over the rungs (R. Bellman, Dynamic Programming,
// 1957; for robot paths the ladder graph, methods from memory), cut short in two
// ways that cannot lose the optimum because no edge costs less than 0. First some
// path is found by climbing greedily from every node of the first rung; whatever
// costs more than that is dropped. Then, within a rung, predecessors are tried in
// the order of their own cost, and the trial ends where that alone reaches the
// best sum.
//
// Whole turns. A joint with a range of a turn or more ("wide") can stand at one
// posture in several ways. The search first forgets where such a joint stands
// and counts every step the short way round. Every true path has a shadow of
// the same cost there, so the cheapest shadow costs no more than the cheapest
// true path; if its unwrapped joint values fit the limits for some number of
// whole turns at the start, it is a true path itself and therefore optimal. If
// not, the joints that do not fit are "laid out": each node gets one row for
// every turn inside the limits, and an edge joins two rows only if it is the
// short way round. In that larger ladder these joints are exact, the rest stay
// forgotten, and the argument repeats. Every round lays out at least one more
// joint, so it ends, at the latest when the ladder is exact in all.
type LadderSearch struct {
	home   []kinematics.Q                   // one representative of every node's joint values
	usable []bool                           // nodes inside the limits and not forbidden
	within [kinematics.MaxJoints][2]float64 // joint values that stay as they are, rad
	lay    layout
	rules  rules
	back   []int32 // for every row of lay, the row before it, -1 if none
	before []row   // the reached rows of the last rung, sorted by cost
	keys   []key   // what before is sorted by
	path   []int32 // the rows of the best path
	turns  []int   // whole turns of one joint along the path, by rung
	first  []int   // for every rung, the first rung from which it can be reached
	spins  []float64
}

// Solve finds the cheapest path over all rungs, or says what blocks it. The
// answer's slices are reused. An error means that the request makes no sense or
// that ctx was cancelled; a blocked ladder is an answer and no error.
func (s *LadderSearch) Solve(ctx context.Context, req *LadderRequest, out *LadderAnswer) error {
	return s.solve(ctx, req, anySpin, out)
}

// SolveAtSpin does the same with only the nodes whose Spin (rad) is exactly
// spin: the whole pass at one turn about the wire.
func (s *LadderSearch) SolveAtSpin(ctx context.Context, req *LadderRequest, spin float64, out *LadderAnswer) error {
	if math.IsNaN(spin) {
		return errors.New("motion: ladder: the spin is not a number")
	}
	return s.solve(ctx, req, spin, out)
}

func (s *LadderSearch) solve(ctx context.Context, req *LadderRequest, spin float64, out *LadderAnswer) error {
	out.reset()
	if err := s.begin(req); err != nil {
		return err
	}
	var laid [kinematics.MaxJoints]bool
	for {
		found, err := s.sweep(ctx, req, laid, spin)
		if err != nil {
			return err
		}
		if !found {
			return s.explain(ctx, req, spin, out)
		}
		fits := s.unwrap(req, out, &laid)
		if fits {
			return s.finish(req, out)
		}
	}
}

func (a *LadderAnswer) reset() {
	*a = LadderAnswer{Path: a.Path[:0], Q: a.Q[:0], Turns: a.Turns[:0], Windows: a.Windows[:0], Block: Block{Joint: -1}}
}

// begin checks the request and surveys its nodes.
func (s *LadderSearch) begin(req *LadderRequest) error {
	if req.Ladder == nil || req.Ladder.Rungs() == 0 {
		return errors.New("motion: ladder: no rungs: add one for every station of the pass")
	}
	if n := len(req.Joints); n < 1 || n > kinematics.MaxJoints {
		return fmt.Errorf("motion: ladder: %d joints: 1 to %d are allowed", n, kinematics.MaxJoints)
	}
	if req.Metric != Travel && req.Metric != Time {
		return fmt.Errorf("motion: ladder: metric %d: use Travel or Time", req.Metric)
	}
	if !(req.SpinWeight >= 0) || math.IsInf(req.SpinWeight, 1) {
		return fmt.Errorf("motion: ladder: spin weight %g: it must be finite and 0 or more", req.SpinWeight)
	}
	for j := range req.Joints {
		if err := req.Joints[j].check(req.Metric); err != nil {
			return fmt.Errorf("motion: ladder: joint %d: %w", j+1, err)
		}
	}
	return s.survey(req)
}

func (j *LadderJoint) check(m Metric) error {
	bothInf := math.IsInf(j.Lower, -1) && math.IsInf(j.Upper, 1)
	if !(j.Lower <= j.Upper) || (math.IsInf(j.Upper-j.Lower, 0) && !bothInf) {
		return fmt.Errorf("limits %g to %g: both must be finite with the lower one first, or -Inf and +Inf for an endless joint", j.Lower, j.Upper)
	}
	if !(j.MaxStep >= 0) {
		return fmt.Errorf("largest step %g: it must be more than 0, or 0 for no bound", j.MaxStep)
	}
	if m == Travel && (!(j.Weight >= 0) || math.IsInf(j.Weight, 1)) {
		return fmt.Errorf("weight %g: it must be finite and 0 or more", j.Weight)
	}
	if m == Time && !(j.Velocity > 0) {
		return fmt.Errorf("top speed %g: it must be more than 0", j.Velocity)
	}
	return nil
}

// sweep lays the ladder out and runs the dynamic programme. It leaves the best
// path's rows in s.path and reports whether there is one.
func (s *LadderSearch) sweep(ctx context.Context, req *LadderRequest, laid [kinematics.MaxJoints]bool, spin float64) (bool, error) {
	if err := s.layOut(req, laid, spin); err != nil {
		return false, err
	}
	s.rules = newRules(req, laid)
	s.back = grow(s.back, len(s.lay.rows))
	bound := s.climb(req)
	for r := range s.lay.ends {
		if err := ctx.Err(); err != nil {
			return false, fmt.Errorf("motion: ladder: stopped at rung %d of %d: %w", r, len(s.lay.ends), err)
		}
		rows := s.lay.rung(r)
		if r > 0 {
			s.enter(rows, s.lay.rung(r-1), bound)
		}
		for i := range rows {
			rows[i].cost += req.Ladder.nodes[rows[i].node].Cost
		}
		s.sortReached(rows, bound)
		if len(s.before) == 0 {
			return false, nil
		}
		if req.Progress != nil {
			req.Progress(r+1, len(s.lay.ends))
		}
	}
	s.path = grow(s.path, len(s.lay.ends))
	id := s.before[0].id
	for r := len(s.path) - 1; r >= 0; r-- {
		s.path[r], id = id, s.back[id]
	}
	return true, nil
}

// enter finds for each of rows the cheapest way in from the rung below, whose
// reached rows are in s.before; a row that cannot be entered below bound gets
// bound or more. Neighbouring rows mostly come from neighbouring rows, so the one
// after the last one's origin is tried first: with a good sum at hand from the
// start the scan is shorter and its branches are foreseen (up to a fifth faster).
func (s *LadderSearch) enter(rows, below []row, bound float64) {
	guess := 0
	for i := range rows {
		b := &rows[i]
		best, from := bound, int32(-1)
		if guess < len(below) {
			a := &below[guess]
			joints, spin, tooLong := s.rules.edge(a, b)
			if c := a.cost + joints + spin; tooLong < 0 && c < bound {
				best, from = c, a.id
			}
		}
		if c, id := s.rules.scan(s.before, b, best); id >= 0 {
			best, from = c, id
		}
		b.cost, s.back[b.id] = best, from
		guess++
		if from >= 0 {
			guess = int(from-below[0].id) + 1
		}
	}
}

// climbSlack widens the greedy bound so that rounding in another order cannot
// drop the greedy path itself; relative, 1e4 rungs lose at most 1e-12.
const climbSlack = 1e-9

// climbReach is how many rows up and down from the last one's place the greedy
// climb looks: where the caller adds the nodes spin by spin, the same posture at
// the same spin is seldom further off.
const climbReach = 4

// climb returns a bound that the cheapest path does not reach: a little more
// than the cost of the best greedy path, +Inf if none gets through.
func (s *LadderSearch) climb(req *LadderRequest) float64 {
	best := math.Inf(1)
	for i := range s.lay.rung(0) {
		best = min(best, s.climbFrom(req, i, best))
	}
	return best + climbSlack*max(1, best)
}

// climbFrom returns the cost of the path that begins at row at of the first rung
// and goes to the cheapest next row near the same place each time. It is +Inf
// where that leads nowhere, and where the path falls behind the mean pace of a
// path that costs best by more than an eighth of best.
func (s *LadderSearch) climbFrom(req *LadderRequest, at int, best float64) float64 {
	a, rungs := &s.lay.rung(0)[at], float64(len(s.lay.ends))
	cost := req.Ladder.nodes[a.node].Cost
	for r := 1; r < len(s.lay.ends); r++ {
		if cost*rungs > best*(float64(r)+rungs/8) {
			return math.Inf(1)
		}
		rows, least, next := s.lay.rung(r), math.Inf(1), -1
		for k := max(0, at-climbReach); k < min(len(rows), at+climbReach+1); k++ {
			joints, spin, tooLong := s.rules.edge(a, &rows[k])
			if c := joints + spin + req.Ladder.nodes[rows[k].node].Cost; tooLong < 0 && c < least {
				least, next = c, k
			}
		}
		if next < 0 {
			return math.Inf(1)
		}
		cost += least
		a, at = &rows[next], next
	}
	return cost
}

// key stands for a row while its rung is sorted.
type key struct {
	cost float64
	row  int32 // number within the rung
}

// sortReached copies the rows whose cost is below bound to s.before, cheapest
// first and in the order of the rows where costs are equal.
func (s *LadderSearch) sortReached(rows []row, bound float64) {
	s.keys, s.before = s.keys[:0], s.before[:0]
	for i := range rows {
		if rows[i].cost < bound {
			s.keys = append(s.keys, key{rows[i].cost, int32(i)})
		}
	}
	slices.SortFunc(s.keys, func(a, b key) int {
		switch {
		case a.cost < b.cost:
			return -1
		case a.cost > b.cost:
			return 1
		}
		return int(a.row - b.row)
	})
	for _, k := range s.keys {
		s.before = append(s.before, rows[k.row])
	}
}

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
