package plan

import (
	"slices"

	"seamwright/robot/kinematics"
)

// With two or three free joints the grid of spins and choices is too large to be
// laid on every station. The search then draws from a pool: the stands that cost
// least at each of a few stations, of the whole grid.

// poolEach is how many stands each of the few stations adds to the pool.
const poolEach, poolSlowEach = 100, 20

// large reports whether the grid of an attempt is larger than what is laid on a
// station.
func (s *postureSearch) large(a attempt) bool {
	return len(a.spins)*len(s.choices(1)) > s.many()
}

// wholeGrid is the grid of every second spin and all choices.
func (s *postureSearch) wholeGrid(a attempt) lattice {
	return s.lattice(a.spins, (len(a.spins)+1)/2*s.cell.Solver.Choices())
}

// draw returns the stands of a coarse search, and the steps that bands about its
// way begin with.
func (s *postureSearch) draw(a attempt) ([]stand, lattice) {
	if !s.large(a) {
		l := s.lattice(a.spins, s.few())
		return l.stands(), l
	}
	l := s.wholeGrid(a)
	for _, f := range s.axes {
		l.heldStep[f.Joint] *= 2
	}
	return s.pool(a), l
}

// everyStand is all that is looked at at every station where the search would
// know for certain: the grid or the pool, and what is wanted.
func (s *postureSearch) everyStand(a attempt) []stand {
	l := s.lattice(a.spins, s.many())
	list := standsAt(l.spins, s.rest)
	switch {
	case len(s.axes) == 0:
		return list
	case s.large(a):
		return append(list, s.pool(a)...)
	}
	return append(list, l.stands()...)
}

// pool returns the pool of a pass in the order of the grid. It is gathered once,
// with the tight margins.
func (s *postureSearch) pool(a attempt) []stand {
	if s.pooled != nil {
		return s.pooled
	}
	grid := s.wholeGrid(a)
	all := grid.stands()
	tight, chosen := s.tight(), make([]bool, len(all))
	for _, r := range s.fewRungs() {
		for _, i := range s.cheapest(all, s.along[r], tight) {
			chosen[i] = true
		}
	}
	s.pooled = []stand{}
	for i, in := range chosen {
		if in {
			s.pooled = append(s.pooled, all[i])
		}
	}
	return s.pooled
}

// cheapest returns the numbers of the stands that cost least at a place, m.
func (s *postureSearch) cheapest(all []stand, along float64, a attempt) []int {
	type priced struct {
		cost float64
		i    int
	}
	var found kinematics.Solutions
	var list []priced
	s.trails = s.trails[:0]
	for i := range all {
		s.solveAt(along, &all[i], 0, &found)
		least, any := 0.0, false
		for k := range found.N {
			if cost, ok := s.nodeCost(&found.Q[k], all[i].spin, a); ok && (!any || cost < least) {
				least, any = cost, true
			}
		}
		if any {
			list = append(list, priced{least, i})
		}
	}
	slices.SortStableFunc(list, func(a, b priced) int { return roughly(a.cost, b.cost) })
	list = list[:min(len(list), s.either(poolEach, poolSlowEach))]
	numbers := make([]int, len(list))
	for k, p := range list {
		numbers[k] = p.i
	}
	return numbers
}

// fewRungs are the rungs of a coarse search: the ends of pass and weld, and some
// dozen of the weld between.
func (s *postureSearch) fewRungs() []int {
	every := s.coarseEvery()
	var rungs []int
	for r := range s.along {
		if r == 0 || r == s.first || r == s.last || r == len(s.along)-1 || r > s.first && r < s.last && (r-s.first)%every == 0 {
			rungs = append(rungs, r)
		}
	}
	return rungs
}

// coarseEvery is every how manieth station of the weld is a coarse one.
func (s *postureSearch) coarseEvery() int { return max(1, (s.last-s.first)/coarseStations) }
