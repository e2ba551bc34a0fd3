package motion

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/robot/kinematics"
)

const (
	// airNarrow is how much dearer a stretch is that touches than one with wide
	// clearance, less 1, dimensionless.
	airNarrow = 4
	// airSounding is the distance between the places at which clearance is asked
	// for, weighted rad.
	airSounding = 0.1
	// airWidenings is the number of attempts to move a via point, by via point.
	airWidenings = 40
)

// moveCost returns the cost of a straight move, weighted rad: its length where no
// clearance was asked for, else the sum of AirAnswer.Cost by the midpoint rule.
func (a *AirPlanner) moveCost(from, to *kinematics.Q) float64 {
	d := a.distance(from, to)
	if a.req.Clearance == nil || d == 0 {
		return d
	}
	pieces := max(1, math.Ceil(d/airSounding))
	sum := 0.0
	at := &a.probe
	for k := range int(pieces) {
		a.between(at, from, to, (float64(k)+0.5)/pieces)
		lack := 1.0
		if c := a.req.Clearance(at) / a.req.WideClearance; c > 0 { // not for NaN
			lack -= min(1, c)
		}
		sum += float64(lack * lack)
	}
	return d * (1 + float64(airNarrow*sum/pieces))
}

// widen moves the via points of a path about as long as that makes it cheaper,
// with one more on every long move to begin with, and drops those that gain
// nothing.
func (a *AirPlanner) widen(ctx context.Context, out *AirAnswer) error {
	if a.pathCost(out.Path) < (1+1e-9)*a.length(out.Path) {
		return nil // wide all along
	}
	for i := len(out.Path) - 1; i > 0; i-- {
		if p, q := &out.Path[i-1], &out.Path[i]; a.distance(p, q) > airVia {
			mid := &a.one
			if a.between(mid, p, q, 0.5); a.clearMove(p, mid) && a.clearMove(mid, q) {
				out.Path = slices.Insert(out.Path, i, *mid)
			}
		}
	}
	radius := a.reach / 2
	for try := range airWidenings {
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("motion: air move: stopped while widening the clearance of the path: %w", err)
		}
		for i := 1; i < len(out.Path)-1; i++ {
			a.nudge(out.Path, i, radius*math.Exp2(-4*float64(try)/airWidenings))
		}
	}
	a.ordered(out)
	return nil
}

// nudge moves via point i by at most radius (weighted rad) on each joint, at
// random, where that makes the path cheaper and stays clear and inside the limits.
func (a *AirPlanner) nudge(path []kinematics.Q, i int, radius float64) {
	before, at, after := &path[i-1], &path[i], &path[i+1]
	moved := &a.one
	*moved = *at
	for j, joint := range a.req.Joints {
		moved[j] += radius / joint.Weight * (2*a.rng.Float64() - 1)
		moved[j] = min(max(moved[j], joint.Lower), joint.Upper)
	}
	was := a.moveCost(before, at) + a.moveCost(at, after)
	if a.distance(before, moved)+a.distance(moved, after) >= was || a.moveCost(before, moved)+a.moveCost(moved, after) >= was {
		return
	}
	if a.clearMove(before, moved) && a.clearMove(moved, after) {
		*at = *moved
	}
}
