package plan

import (
	"context"
	"math"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// branchLadders holds one ladder for each branch of the arm's inverse. Two
// branches meet only in a singularity, so a way that keeps clear of them stays
// on one branch: nothing is lost by searching each alone, and no step can jump
// over a singularity between two stations.
type branchLadders [kinematics.MaxSolutions]motion.Ladder

func (b *branchLadders) reset() {
	for i := range b {
		b[i].Reset()
	}
}

func (b *branchLadders) addRung() {
	for i := range b {
		b[i].AddRung()
	}
}

// whole reports whether every rung of a branch holds a node.
func (b *branchLadders) whole(branch int) bool {
	l := &b[branch]
	for r := range l.Rungs() {
		if len(l.Rung(r)) == 0 {
			return false
		}
	}
	return true
}

// stop says what stood in the way on every branch, taken together.
type stop struct {
	// furthest is the last rung reached from the first on any branch, -1 if
	// none; block says what stops that branch there. fromEnd is the first rung
	// from which the last is reached; longest the longest stretch.
	furthest, fromEnd int
	block             motion.Block
	longest           motion.Window
}

// merge takes in what stood in the way on one branch.
func (s *stop) merge(a *motion.LadderAnswer) {
	if a.Furthest > s.furthest {
		s.furthest, s.block = a.Furthest, a.Block
	}
	s.fromEnd = min(s.fromEnd, a.FromEnd)
	if a.Longest.To-a.Longest.From > s.longest.To-s.longest.From {
		s.longest = a.Longest
	}
}

// sweep searches every branch of the ladders as they are filled: first those
// that hold a posture at every station, and only if none of them gives a way the
// others, to learn how far each gets.
func (s *postureSearch) sweep(ctx context.Context, a attempt) error {
	s.best = nil
	s.stop = stop{furthest: -1, fromEnd: len(s.along), longest: motion.Window{From: 0, To: -1}}
	cost := math.Inf(1)
	for _, whole := range []bool{true, false} {
		for b := range s.branches {
			if s.branches.whole(b) != whole {
				continue
			}
			if err := s.search.Solve(ctx, s.request(a, b), &s.spare); err != nil {
				return err
			}
			switch {
			case s.spare.Status != motion.LadderFound:
				s.stop.merge(&s.spare)
			case s.spare.Cost < cost:
				cost, s.branch = s.spare.Cost, b
				answer := s.spare
				s.best, s.spare = &answer, motion.LadderAnswer{}
			}
		}
		if s.best != nil {
			return nil
		}
	}
	return nil
}

// constantSpins says for each spin of the last attempt how far it carries when
// it is held, on the branch on which it gets furthest; after a search that
// found a way, only of branches that can carry through.
func (s *postureSearch) constantSpins(ctx context.Context) ([]motion.SpinReach, error) {
	best := map[float64]motion.SpinReach{}
	for b := range s.branches {
		if s.best != nil && !s.branches.whole(b) {
			continue // no spin carries through on it
		}
		reach, err := s.search.ConstantSpins(ctx, s.request(s.tried, b), nil)
		if err != nil {
			return nil, err
		}
		for _, r := range reach {
			if old, ok := best[r.Spin]; !ok || r.Furthest > old.Furthest {
				best[r.Spin] = r
			}
		}
	}
	var list []motion.SpinReach
	for _, spin := range s.tried.spins {
		if r, ok := best[spin]; ok {
			list = append(list, r)
		}
	}
	return list, nil
}

// spinsWhole counts the spins that carry through the whole pass when they are
// held, of those of the last attempt and with its margins; none is told of a way
// on which the free joints move.
func (s *postureSearch) spinsWhole(ctx context.Context) (whole, tried int, err error) {
	switch {
	case s.tried.axes == move && s.best != nil:
		return 0, 0, nil
	case s.tried.axes == move:
		return 0, len(s.tried.spins), nil // or there would be a way
	}
	reach, err := s.constantSpins(ctx)
	for _, r := range reach {
		if r.Whole {
			whole++
		}
	}
	return whole, len(s.tried.spins), err
}
