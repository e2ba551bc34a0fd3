package motion

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/robot/kinematics"
)

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
