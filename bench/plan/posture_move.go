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
	list, grid := s.draw(a)
	way, err := s.coarse(ctx, a, list)
	s.best = nil
	if err == nil && way != nil {
		err = s.refine(ctx, a, way, grid)
	}
	if err != nil || s.best != nil || !a.last || s.brief {
		return err
	}
	if err := s.sweepWhole(ctx, a); err != nil || s.best == nil {
		return err
	}
	if err := s.refine(ctx, a, s.way(), grid); err != nil || s.best != nil {
		return err
	}
	return s.sweepWhole(ctx, a) // whether the arm can follow so large steps is looked at later
}

// sweepWhole finds the cheapest way on all that is looked at at every station.
func (s *postureSearch) sweepWhole(ctx context.Context, a attempt) error {
	s.stepAxes(1)
	defer s.stepAxes(0)
	list := s.everyStand(a)
	s.fill(a, func(int) []stand { return list })
	return s.sweep(ctx, a)
}

// stepAxes lets the free joints go as far from station to station as any joint
// may with so much more spread, and at least to the next value but one of the
// grid, since the pool does not hold them all; 0
// takes that back.
func (s *postureSearch) stepAxes(spread float64) {
	s.axisStep = kinematics.Q{}
	for _, f := range s.axes {
		most := jointStep
		if s.cell.Chain.Joint(f.Joint).Kind == kinematics.Prismatic {
			most *= slideRadian
		}
		if spread > 0 {
			s.axisStep[f.Joint] = max(spread*most, 2.02*f.Step)
		}
	}
}

// coarse searches some stands at few stations and returns the way at all of
// them; nil where there is none.
func (s *postureSearch) coarse(ctx context.Context, a attempt, list []stand) ([]stand, error) {
	c := *s
	c.branches, c.search, c.trails, c.best, c.spare = branchLadders{}, motion.LadderSearch{}, nil, nil, motion.LadderAnswer{}
	rungs := s.fewRungs()
	c.spread, c.along = min(float64(s.coarseEvery()), coarseSpread), nil
	for _, r := range rungs {
		c.along = append(c.along, s.along[r])
	}
	c.stepAxes(c.spread)
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
	defer s.stepAxes(0)
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
// than those of the other attempts, and small enough to be followed.
func (l *lattice) halve(s *postureSearch) (fine bool) {
	l.spinStep /= 2
	fine = l.spinStep < 0.75*spinGrid
	for _, f := range s.axes {
		l.heldStep[f.Joint] /= 2
		step := l.heldStep[f.Joint]
		fine = fine && step <= 0.75*f.Step && radians(s.cell.Chain.Joint(f.Joint), step) <= jointStep/2
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
