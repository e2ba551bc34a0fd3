package plan

import (
	"context"
	"math"
	"slices"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

const (
	// coarseStations is how many stations of the weld a coarse search has.
	coarseStations = 12
	// coarseSpread is by how much more a joint may move between them than between
	// all, at most: what is found there is held to the bound again.
	coarseSpread = 3
	// bandRounds bounds how often a band of one step is laid about the way.
	bandRounds = 2
)

// solveMoving finds a cheap way with the spin and the free joints changing along
// the pass. A grid of all their values at every station is too large, so it is
// searched from coarse to fine: a coarse grid at few stations, then at all
// stations bands about the way so far, whose step is halved until it is finer
// than the grid of the other attempts (band refinement, methods from memory; the
// way is the cheapest of each band, not of all). Where that leads nowhere the
// last attempt goes through a whole grid at all stations.
func (s *postureSearch) solveMoving(ctx context.Context, a attempt) error {
	grid := s.lattice(a.spins, s.few())
	way, err := s.coarse(ctx, a, &grid)
	if err != nil {
		return err
	}
	s.best = nil
	if way != nil {
		if err := s.refine(ctx, a, way, grid); err != nil {
			return err
		}
	}
	if s.best == nil && a.last && !s.brief {
		list := s.everyStand(a)
		s.fill(a, func(int) []stand { return list })
		return s.sweep(ctx, a)
	}
	return nil
}

// coarse searches the grid at few stations and returns the way at all of them;
// nil where there is none.
func (s *postureSearch) coarse(ctx context.Context, a attempt, grid *lattice) ([]stand, error) {
	c := *s
	c.branches, c.search, c.trails, c.best, c.spare = branchLadders{}, motion.LadderSearch{}, nil, nil, motion.LadderAnswer{}
	every := max(1, (s.last-s.first)/coarseStations)
	c.spread, c.along = min(float64(every), coarseSpread), nil
	var rungs []int
	for r := range s.along {
		if r == 0 || r == s.first || r == s.last || r == len(s.along)-1 || r > s.first && r < s.last && (r-s.first)%every == 0 {
			rungs, c.along = append(rungs, r), append(c.along, s.along[r])
		}
	}
	list := grid.stands()
	c.fill(a, func(int) []stand { return list })
	if err := c.sweep(ctx, a); err != nil || c.best == nil {
		return nil, err
	}
	way := make([]stand, 0, len(s.along))
	few := c.way()
	for i := range len(few) - 1 {
		for r := rungs[i]; r < rungs[i+1]; r++ {
			share := (s.along[r] - c.along[i]) / (c.along[i+1] - c.along[i])
			way = append(way, between(few[i], few[i+1], share))
		}
	}
	return append(way, few[len(few)-1]), nil
}

// way returns the stands of the way found, unwrapped.
func (s *postureSearch) way() []stand {
	way := make([]stand, len(s.along))
	for i := range way {
		way[i] = stand{s.branches[s.branch].Rung(i)[s.best.Path[i]].Spin, s.best.Q[i]}
		if i > 0 {
			way[i].spin = way[i-1].spin + math.Remainder(way[i].spin-way[i-1].spin, 2*math.Pi)
		}
	}
	return way
}

// between returns the stand at a share of the way from one to another.
func between(a, b stand, share float64) stand {
	a.spin += share * (b.spin - a.spin)
	for j := range a.held {
		a.held[j] += share * (b.held[j] - a.held[j])
	}
	return a
}

// refine lays bands about a way until they are finer than the grid of the other
// attempts by half, each as often as it changes the way.
func (s *postureSearch) refine(ctx context.Context, a attempt, way []stand, grid lattice) error {
	radius := 2
	if len(s.axes) > 1 {
		radius = 1 // or the band would be larger than the grid
	}
	defer func() { s.axisStep = kinematics.Q{} }()
	for fine := false; !fine; {
		fine = grid.halve(s)
		for _, f := range s.axes { // to the next value at most: slowly and evenly
			s.axisStep[f.Joint] = 1.01 * grid.heldStep[f.Joint]
		}
		for range bandRounds {
			s.fill(a, func(r int) []stand { return s.band(way[r], &grid, radius) })
			if err := s.sweep(ctx, a); err != nil || s.best == nil {
				return err
			}
			next := s.way()
			if radius = 1; slices.EqualFunc(next, way, sameStand) {
				break
			}
			way = next
		}
	}
	return nil
}

// halve halves the steps of the grid and reports whether they are then finer
// than those of the other attempts.
func (l *lattice) halve(s *postureSearch) (fine bool) {
	l.spinStep /= 2
	fine = l.spinStep < 0.75*spinGrid
	for _, f := range s.axes {
		l.heldStep[f.Joint] /= 2
		fine = fine && l.heldStep[f.Joint] <= 0.75*f.Step
	}
	return fine
}

// sameStand reports whether two stands are one but for rounding.
func sameStand(a, b stand) bool {
	const slack = 1e-9
	same := math.Abs(a.spin-b.spin) < slack
	for j := range a.held {
		same = same && math.Abs(a.held[j]-b.held[j]) < slack
	}
	return same
}
