package motion

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"

	"seamwright/robot/kinematics"
)

// AirPlanner finds moves through the air. It owns the working memory, so keep
// one and use it again. It must not be used by two goroutines at once. The zero
// value is ready.
//
// Method: first the straight joint moves, nearest goal first; then two trees of
// random postures, one from the start and one from all goals, which grow towards
// each other (J. J. Kuffner, S. M. LaValle, "RRT-Connect: An Efficient Approach to
// Single-Query Path Planning", ICRA 2000, from memory). Distances are Euclidean
// over joints times their weights. The smaller tree grows first, and branches get
// shorter where longer ones failed. While trees grow, branches are looked at in
// steps, which is quick and may overlook a little; the moves of a path are then
// proven, and what is refuted is cut off and the search goes on. A path that was
// found is shortened (see AirRequest.Shortcuts), and every move of what comes out
// is proven once more.
type AirPlanner struct {
	req      *AirRequest
	n        int
	weights  kinematics.Q
	step     float64
	reach    float64
	rng      *rand.Rand
	trees    [2]airTree // from the start, from the goals
	goalOf   []int      // goal numbers of the roots of trees[1]
	searched AirSearched
	checks   int // bound on the calls of the checker
	nodes    int
	chain    []int32
	// tip, probe and the two places hold postures that the checker is asked about.
	tip, probe, one, two kinematics.Q
	short                shortener
}

// Defaults of AirRequest.
const (
	airStep      = 0.2     // weighted rad: a first look, measured to cost least with the proof that follows
	airReach     = 0.2     // of the diagonal of the box of limits, dimensionless
	airChecks    = 500_000 // a second or two
	airMoveCount = 50      // calls of Clear that one of ClearMove counts as
	airNodes     = 100_000
	airShortcuts = 100
	// airSlack is how far start and goals may stand beyond a limit, rad (m): they
	// come from elsewhere and have been rounded.
	airSlack = 1e-9
	// airTold is the number of random postures between two calls of Progress.
	airTold = 256
)

// Solve finds a path or says why there is none. The answer's slices are reused.
// An error means that the request makes no sense, that ctx was cancelled, or that
// the checker contradicts itself; no path is an answer and no error.
func (a *AirPlanner) Solve(ctx context.Context, req *AirRequest, out *AirAnswer) error {
	*out = AirAnswer{Path: out.Path[:0], NotClear: out.NotClear[:0], Goal: -1}
	if err := a.begin(req); err != nil {
		return err
	}
	err := a.solve(ctx, out)
	out.Searched = a.searched
	return err
}

func (a *AirPlanner) solve(ctx context.Context, out *AirAnswer) error {
	if !a.ends(out) {
		return nil
	}
	if g := a.straight(); g >= 0 {
		out.Status, out.Goal = AirStraight, g
		out.Path = append(out.Path, a.req.Start, a.req.Goals[g])
		return a.finish(ctx, out)
	}
	found, err := a.grow(ctx, out)
	if err != nil {
		return err
	}
	if !found {
		out.Status = AirNoPath
		i, j, d := closest(&a.trees[0], &a.trees[1])
		out.Gap = AirGap{FromStart: a.trees[0].q[i], FromGoal: a.trees[1].q[j], Distance: d}
		return nil
	}
	out.Status = AirPlanned
	return a.finish(ctx, out)
}

// begin checks the request and fills in what it leaves open.
func (a *AirPlanner) begin(req *AirRequest) error {
	if err := req.check(); err != nil {
		return fmt.Errorf("motion: air move: %w", err)
	}
	a.req, a.n = req, len(req.Joints)
	a.rng = rand.New(rand.NewPCG(req.Seed, 0))
	diagonal := 0.0
	for j, joint := range req.Joints {
		a.weights[j] = joint.Weight
		side := joint.Weight * (joint.Upper - joint.Lower)
		diagonal += float64(side * side)
	}
	a.step, a.reach, a.checks, a.nodes = req.Step, req.Reach, req.MaxChecks, req.MaxNodes
	if a.step == 0 {
		a.step = airStep
	}
	if a.reach == 0 {
		a.reach = airReach * math.Sqrt(diagonal)
	}
	if a.checks == 0 {
		a.checks = airChecks
	}
	if a.nodes == 0 {
		a.nodes = airNodes
	}
	a.searched = AirSearched{}
	a.tip, a.probe, a.one, a.two = kinematics.Q{}, kinematics.Q{}, kinematics.Q{}, kinematics.Q{}
	a.trees[0].reset(a.n)
	a.trees[1].reset(a.n)
	a.goalOf = a.goalOf[:0]
	return nil
}

func (r *AirRequest) check() error {
	if n := len(r.Joints); n < 1 || n > kinematics.MaxJoints {
		return fmt.Errorf("%d joints: 1 to %d are allowed", n, kinematics.MaxJoints)
	}
	if r.Checker == nil {
		return errors.New("no checker: give one that says where the arm is clear")
	}
	if len(r.Goals) == 0 {
		return errors.New("no goal: give at least one posture")
	}
	for j, joint := range r.Joints {
		if !(joint.Lower <= joint.Upper) || math.IsInf(joint.Upper-joint.Lower, 0) {
			return fmt.Errorf("joint %d: limits %g to %g: both must be finite with the lower one first; give an endless joint the range that it may use", j+1, joint.Lower, joint.Upper)
		}
		if !(joint.Weight > 0) || math.IsInf(joint.Weight, 1) {
			return fmt.Errorf("joint %d: weight %g: it must be finite and more than 0", j+1, joint.Weight)
		}
	}
	if err := r.within("the start", &r.Start); err != nil {
		return err
	}
	for g := range r.Goals {
		if err := r.within(fmt.Sprintf("goal %d", g+1), &r.Goals[g]); err != nil {
			return err
		}
	}
	switch {
	case math.IsNaN(r.Step) || math.IsInf(r.Step, 0):
		return fmt.Errorf("step %g: it must be finite", r.Step)
	case !(r.Reach >= 0) || math.IsInf(r.Reach, 1):
		return fmt.Errorf("reach %g: it must be finite and 0 or more", r.Reach)
	case r.MaxChecks < 0 || r.MaxNodes < 0:
		return fmt.Errorf("at most %d checks and %d postures: neither may be negative", r.MaxChecks, r.MaxNodes)
	case r.MaxNodes > math.MaxInt32:
		return fmt.Errorf("at most %d postures: %d is the most", r.MaxNodes, math.MaxInt32)
	case r.Clearance != nil && !(r.WideClearance > 0 && !math.IsInf(r.WideClearance, 1)):
		return fmt.Errorf("wide clearance %g m: it must be finite and more than 0", r.WideClearance)
	}
	return nil
}

// within refuses a posture outside the limits.
func (r *AirRequest) within(what string, q *kinematics.Q) error {
	for j, joint := range r.Joints {
		if !(q[j] >= joint.Lower-airSlack && q[j] <= joint.Upper+airSlack) {
			return fmt.Errorf("%s has joint %d at %g, outside its limits %g to %g", what, j+1, q[j], joint.Lower, joint.Upper)
		}
	}
	return nil
}

// ends plants the trees and reports whether both have a root; if not, the
// answer says which end is not clear.
func (a *AirPlanner) ends(out *AirAnswer) bool {
	if !a.clear(&a.req.Start) {
		out.Status = AirStartNotClear
		return false
	}
	a.plant(0, &a.req.Start)
	for g := range a.req.Goals {
		if !a.clear(&a.req.Goals[g]) {
			out.NotClear = append(out.NotClear, g)
			continue
		}
		a.plant(1, &a.req.Goals[g])
		a.goalOf = append(a.goalOf, g)
	}
	if len(a.goalOf) == 0 {
		out.Status = AirGoalNotClear
		return false
	}
	return true
}

// plant adds a root.
func (a *AirPlanner) plant(tree int, q *kinematics.Q) {
	w := a.weighted(q)
	a.trees[tree].add(q, &w, -1, true)
}

// straight returns the nearest goal to which the straight move is clear, -1 if
// there is none.
func (a *AirPlanner) straight() int {
	tried := make([]bool, len(a.goalOf))
	for range a.goalOf {
		best, bestD := -1, math.Inf(1)
		for i, g := range a.goalOf {
			if d := a.distance(&a.req.Start, &a.req.Goals[g]); !tried[i] && d < bestD {
				best, bestD = i, d
			}
		}
		tried[best] = true
		if g := a.goalOf[best]; a.clearMove(&a.req.Start, &a.req.Goals[g]) {
			return g
		}
	}
	return -1
}

// finish shortens the path and proves it once more.
func (a *AirPlanner) finish(ctx context.Context, out *AirAnswer) error {
	out.First = a.length(out.Path)
	// Without, every move has just been proven as it stands.
	worked := len(out.Path) > 2 && (a.req.Shortcuts >= 0 || a.req.Clearance != nil)
	if err := a.shorten(ctx, out); err != nil {
		return err
	}
	for i := 1; i < len(out.Path) && worked; i++ {
		if !a.clearMove(&out.Path[i-1], &out.Path[i]) {
			return fmt.Errorf("motion: air move: the checker found the move from %v to %v clear and then not", out.Path[i-1], out.Path[i])
		}
	}
	out.Length = a.length(out.Path)
	out.Cost = out.Length
	if a.req.Clearance != nil {
		out.Cost = a.pathCost(out.Path)
	}
	return nil
}

func (a *AirPlanner) clear(q *kinematics.Q) bool {
	a.searched.Clear++
	return a.req.Checker.Clear(q)
}

func (a *AirPlanner) clearMove(from, to *kinematics.Q) bool {
	a.searched.ClearMove++
	return a.req.Checker.ClearMove(from, to)
}

// weighted returns joint values times weights.
func (a *AirPlanner) weighted(q *kinematics.Q) (w kinematics.Q) {
	for j := range a.n {
		w[j] = a.weights[j] * q[j]
	}
	return w
}

// distance returns the weighted distance between two postures.
func (a *AirPlanner) distance(p, q *kinematics.Q) float64 {
	sum := 0.0
	for j := range a.n {
		d := a.weights[j] * (p[j] - q[j])
		sum += float64(d * d)
	}
	return math.Sqrt(sum)
}

func (a *AirPlanner) length(path []kinematics.Q) (sum float64) {
	for i := 1; i < len(path); i++ {
		sum += a.distance(&path[i-1], &path[i])
	}
	return sum
}

// between sets at to the posture at a share from 0 to 1 of the way.
func (a *AirPlanner) between(at, from, to *kinematics.Q, share float64) {
	for j := range a.n {
		at[j] = from[j] + float64(share*(to[j]-from[j]))
	}
}
