package plan

import (
	"context"
	"math"
	"slices"

	"seamwright/robot/kinematics"
)

// mostPlaces is how many places of the free joints are searched in full, the
// most promising first, before the search gives up their standing still.
const mostPlaces = 3

// solveStill finds the cheapest way with the free joints standing where the
// whole pass looks most promising from a few of its stations.
func (s *postureSearch) solveStill(ctx context.Context, a attempt) error {
	s.best = nil
	for i, p := range s.places(a) {
		if i == mostPlaces || s.best != nil {
			break
		}
		if err := s.solveAtRest(ctx, a, p.held); err != nil {
			return err
		}
	}
	return nil
}

// place is a place of the free joints, and what the stations that were looked at
// cost there at their best spins, rad.
type place struct {
	held kinematics.Q
	cost float64
}

// places lists those places of the free joints at which every probe has a
// posture of one branch, the cheapest first.
func (s *postureSearch) places(a attempt) []place {
	spins, probes := s.lattice(a.spins, s.many()).spins, s.probes()
	seen := map[kinematics.Q]bool{s.rest: true} // has been tried
	var list []place
	for _, at := range s.everyStand(a) {
		held := at.held
		if seen[held] {
			continue
		}
		seen[held] = true
		if cost := s.probe(a, standsAt(spins, held), probes); !math.IsInf(cost, 1) {
			list = append(list, place{held, cost})
		}
	}
	slices.SortStableFunc(list, func(a, b place) int { return roughly(a.cost, b.cost) })
	return list
}

// probes are the rungs that stand for a pass: its ends, those of the weld and
// its middle.
func (s *postureSearch) probes() []int {
	list := []int{0, s.first, (s.first + s.last) / 2, s.last, len(s.along) - 1}
	slices.Sort(list)
	return slices.Compact(list)
}

// probe returns what the probes cost together, each at the best of the stands,
// on the branch on which they cost least; +Inf where none has them all.
func (s *postureSearch) probe(a attempt, stands []stand, probes []int) float64 {
	var found kinematics.Solutions
	var sum [kinematics.MaxSolutions]float64 // by branch
	for _, r := range probes {
		s.trails = s.trails[:0]
		var least [kinematics.MaxSolutions]float64
		for b := range least {
			least[b] = math.Inf(1)
		}
		for k := range stands {
			s.solveAt(s.along[r], &stands[k], 0, &found)
			for i := range found.N {
				if cost, ok := s.nodeCost(&found.Q[i], stands[k].spin, a); ok {
					cost += homeWeight * s.fromHome(&found.Q[i])
					least[found.Branch[i]] = min(least[found.Branch[i]], cost)
				}
			}
		}
		for b := range sum {
			sum[b] += least[b]
		}
		if math.IsInf(slices.Min(sum[:]), 1) {
			return math.Inf(1)
		}
	}
	return slices.Min(sum[:])
}

// possible reports whether the suspects and every probe have a posture, the free
// joints standing anywhere: if not the pass cannot be run. In brief a thin grid
// must do.
func (s *postureSearch) possible(a attempt) bool {
	places := slices.Clone(s.suspects)
	for _, r := range s.probes() {
		places = append(places, s.along[r])
	}
	few := s.lattice(a.spins, s.few())
	stands := append(standsAt(few.spins, s.rest), few.stands()...)
	for _, along := range places {
		if !s.anyPosture(a, along, stands) && (s.brief || !s.anyPosture(a, along, s.everywhere(a))) {
			return false
		}
	}
	return true
}

// everywhere are all stands at which a single place is looked at.
func (s *postureSearch) everywhere(a attempt) []stand {
	l := s.lattice(a.spins, s.many())
	if s.large(a) {
		l = s.wholeGrid(a)
	}
	list := standsAt(a.spins, s.rest)
	if len(s.axes) > 0 {
		list = append(list, l.stands()...)
	}
	return list
}

// anyPosture reports whether the arm can stand at a place (m) in any way.
func (s *postureSearch) anyPosture(a attempt, along float64, stands []stand) bool {
	var found kinematics.Solutions
	s.trails = s.trails[:0]
	for k := range stands {
		s.solveAt(along, &stands[k], 0, &found)
		for i := range found.N {
			if _, ok := s.nodeCost(&found.Q[i], stands[k].spin, a); ok {
				return true
			}
		}
	}
	return false
}
