package motion

import (
	"context"
	"fmt"
	"math"
)

// TourGroup is a piece of work that is done in one go: a seam, or several that
// must follow one another in a given order.
type TourGroup struct {
	// Ways holds for every way in which the group can be done the time that it
	// takes inside, s, air moves between its seams included; it may be 0 where only
	// the air moves outside matter. A way has an entry and an exit of its own: a
	// direction, a posture. At least one.
	Ways []float64
	// After lists the groups that must be done before this one.
	After []int
	// Bundle, where not 0, is a number that groups share which must be done one
	// after another, in whatever order, with no other group between them.
	Bundle int
}

// TourRequest is the question put to FindTour: in which order are the groups
// done, and each of them in which way, so that all takes the least time?
type TourRequest struct {
	Groups []TourGroup
	// Air holds the times of air moves, s, at least 0; +Inf where there is no way.
	// Air[i][j] leads from the exit of i to the entry of j, where 0 is home and the
	// ways of all groups are numbered from 1 in the order of Groups. It need not be
	// symmetric. The diagonal and moves within a group are not looked at, nor is
	// Air[0][0].
	Air [][]float64
	// ExactUpTo is the largest number of groups for which the optimum is searched
	// and proven; 0 means 12, negative means never, more than 16 is refused.
	ExactUpTo int
	// Starts bounds the starts of the heuristic search, which is used for more
	// groups; 0 means one from every group, at most 50.
	Starts int
	// Seed fixes its random numbers.
	Seed uint64
}

// TourStatus says how a search ended.
type TourStatus int

const (
	// TourOptimal means that no order takes less time.
	TourOptimal TourStatus = iota + 1
	// TourFound means that the order is good; Bound says how good at least.
	TourFound
	// TourNone means that there is no order that has ways for all its moves: this
	// is proven.
	TourNone
	// TourNotFound means that none was found, which proves nothing.
	TourNotFound
)

// TourStop is one stop of a tour.
type TourStop struct{ Group, Way int }

// TourAnswer is what a search found.
type TourAnswer struct {
	Status TourStatus
	// Order holds the groups in the order in which they are done, each with the
	// number of its way; empty where there is none.
	Order []TourStop
	// Time is the time of the whole round from home to home, s, and Air the share
	// of it that is spent in air moves between groups and home.
	Time, Air float64
	// Bound is a time, s, below which no order can come; equal to Time where the
	// order is optimal.
	Bound float64
	// Gap is (Time - Bound) / Time, dimensionless, 0 to 1: how much less the best
	// order could take at most.
	Gap float64
	// Stuck lists groups that cannot be entered from anywhere or cannot be left.
	Stuck []int
}

// FindTour finds the order and the ways that take the least time from home
// through all groups and back. Up to ExactUpTo groups it is the least of all;
// beyond, the best that a search from many starts came to, with a bound below
// which no order can be. An error means that the request makes no sense or that
// ctx was cancelled; that there is no order is an answer and no error.
func FindTour(ctx context.Context, req *TourRequest) (TourAnswer, error) {
	t, err := newTourGraph(req)
	if err != nil {
		return TourAnswer{}, fmt.Errorf("motion: order of seams: %w", err)
	}
	var out TourAnswer
	if t.n == 0 {
		out.Status = TourOptimal
		return out, nil
	}
	if out.Stuck = t.stuck(); len(out.Stuck) > 0 {
		out.Status, out.Bound = TourNone, math.Inf(1)
		return out, nil
	}
	limit := req.ExactUpTo
	if limit == 0 {
		limit = tourExact
	}
	if t.n <= limit {
		err = t.solveExact(ctx, &out)
	} else {
		err = t.solveNearly(ctx, &out)
	}
	if err != nil {
		return TourAnswer{}, err
	}
	if len(out.Order) > 0 {
		if err := t.check(&out); err != nil {
			return TourAnswer{}, fmt.Errorf("motion: order of seams: %w", err)
		}
	}
	return out, nil
}

func (t *tourGraph) solveExact(ctx context.Context, out *TourAnswer) error {
	ways, err := t.exact(ctx)
	if err != nil {
		return err
	}
	if ways == nil {
		out.Status, out.Bound = TourNone, math.Inf(1)
		return nil
	}
	t.answer(ways, out)
	out.Status, out.Bound = TourOptimal, out.Time
	return nil
}

// tourEqual is the difference of times, of their size, that rounding can make,
// dimensionless.
const tourEqual = 1e-9

func (t *tourGraph) solveNearly(ctx context.Context, out *TourAnswer) error {
	ways, err := t.search(ctx)
	if err != nil {
		return err
	}
	if ways != nil {
		t.answer(ways, out)
	}
	bound, err := t.bound(ctx, out.Time)
	switch {
	case err != nil:
		return err
	case ways == nil && math.IsInf(bound, 1):
		out.Status, out.Bound = TourNone, bound
	case ways == nil:
		out.Status, out.Bound = TourNotFound, bound
	case bound >= out.Time*(1-tourEqual):
		out.Status, out.Bound = TourOptimal, out.Time
	default:
		out.Status, out.Bound = TourFound, max(0, bound)
		out.Gap = (out.Time - out.Bound) / out.Time
	}
	return nil
}
