package motion

import (
	"context"
	"errors"
	"fmt"
	"math"

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

// SolveAtSpin does the same with only the nodes whose Spin is spin (rad, within
// 1e-9): the whole pass at one turn about the wire.
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

// maxTurns is the widest range of a joint that has limits at all. Each turn can
// cost one row a node; arms with limits have two or three.
const maxTurns = 100

func (j *LadderJoint) check(m Metric) error {
	bothInf := math.IsInf(j.Lower, -1) && math.IsInf(j.Upper, 1)
	if !(j.Lower <= j.Upper) || (math.IsInf(j.Upper-j.Lower, 0) && !bothInf) {
		return fmt.Errorf("limits %g to %g: both must be finite with the lower one first, or -Inf and +Inf for an endless joint", j.Lower, j.Upper)
	}
	if !bothInf && j.Upper-j.Lower > maxTurns*turn && j.Turning {
		return fmt.Errorf("limits %g to %g: more than %d turns: give -Inf and +Inf for a joint that turns so freely", j.Lower, j.Upper, maxTurns)
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
