package plan

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/bench/finding"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// airSeed fixes the random numbers of the search for a way through the air, so
// that a job gives the same plan again.
const airSeed = 1

// airChecker is what the air planner asks.
type airChecker struct {
	model   *collision.Model
	scratch *collision.Scratch
	wanted  collision.Regime
}

func (c *airChecker) Clear(q *kinematics.Q) bool { return c.model.Clear(c.scratch, q, c.wanted) }

func (c *airChecker) ClearMove(from, to *kinematics.Q) bool {
	return c.model.ClearMove(c.scratch, from, to, c.wanted)
}

// airMove moves to q in joint moves that are clear all the way: one where that is
// clear, else over via points. Where no way is found it goes straight, and says so.
func (r *runner) airMove(ctx context.Context, q kinematics.Q, s Step) error {
	via, err := r.viaPoints(ctx, &q, s)
	if err != nil {
		return err
	}
	for i := range via {
		label := fmt.Sprintf("%s via %d", s.Label, i+1)
		if err := r.jointMove(via[i], Step{Label: label, Seam: s.Seam, Pass: s.Pass}); err != nil {
			return err
		}
	}
	return r.jointMove(q, s)
}

// viaPoints are the postures between where the arm stands and q over which the way
// is clear.
func (r *runner) viaPoints(ctx context.Context, q *kinematics.Q, s Step) ([]kinematics.Q, error) {
	check := airChecker{r.scene.Model, r.scene.Model.Scratch(), r.airBetween(&r.arm, q)}
	req := motion.AirRequest{
		Start: r.arm, Goals: []kinematics.Q{*q}, Joints: motion.AirJoints(r.plan.Cell.Chain, &r.arm, max(endlessLap, farthest(q, &r.arm, r.plan.Cell.Chain.N()))),
		Checker: &check, Seed: airSeed,
	}
	var found motion.AirAnswer
	if err := r.planner.Solve(ctx, &req, &found); err != nil {
		return nil, err
	}
	switch found.Status {
	case motion.AirStraight, motion.AirPlanned:
		return found.Path[1 : len(found.Path)-1], nil
	}
	r.noWay(s, q, &check)
	return nil, nil
}

// endlessLap is how far at least a joint without limits may turn from where it stands,
// on a way through the air, rad.
const endlessLap = 2 * math.Pi

// endSlack is left to rounding where an end of a move decides what is wanted of it, m.
const endSlack = 1e-6

// airBetween is what is wanted of a move from one posture to another: what is
// wanted in the air, but of a pair that is nearer at an end no more than it has
// there. A pair that touches at an end is not looked at on the way; the end itself
// is held against what is wanted with the rest of the run.
func (r *runner) airBetween(from, to *kinematics.Q) collision.Regime {
	wanted := slices.Clone(r.scene.Air())
	model := r.scene.Model
	scratch := model.Scratch()
	for _, q := range []*kinematics.Q{from, to} {
		for near, found := model.Least(scratch, q, wanted, 0); found; near, found = model.Least(scratch, q, wanted, 0) {
			wanted[near.Pair] = near.Distance - endSlack // below 0: not looked at
		}
	}
	return wanted
}

// noWay says that no way through the air was found, and what is in the way of the
// straight one.
func (r *runner) noWay(s Step, q *kinematics.Q, check *airChecker) {
	where := finding.AtSeam(s.Seam)
	if s.Seam == "" {
		where = finding.AtPoint("", s.Label)
	}
	move := check.model.LeastMove(check.scratch, &r.arm, q, check.wanted, math.Inf(1))
	bodies, pair := check.model.Bodies(), check.model.Pairs()[move.Near.Pair]
	does := "touches"
	if move.Near.Distance > 0 {
		does = "comes too near to"
	}
	of, to := moves(bodies, pair)
	r.found = append(r.found, finding.Newf(finding.NoAirPath, where, "%s: no way through the air was found that is clear; on the straight one %s %s %s", s.Label, called(of), does, called(to)))
}
