package plan

import (
	"context"
	"math"

	"seamwright/robot/kinematics"
)

// clearRounds bounds how often the ladder is searched again because a way that
// was found is not clear. Each round forbids what is not clear at every station
// where the way is not.
const clearRounds = 200

// torchRoom is what it costs to have the torch at a stand, rad, where bodies are
// known; false where it is not clear.
func (s *postureSearch) torchRoom(rung int, at *stand, q *kinematics.Q) (cost float64, ok bool) {
	if s.clear == nil {
		return 0, true
	}
	return s.clear.torch(standAt{s.along[rung], *at}, q, s.onWeld(rung))
}

// onWeld reports whether a rung is one of the weld, its ends included.
func (s *postureSearch) onWeld(rung int) bool { return rung >= s.first && rung <= s.last }

// clearMotion makes the ladder's way into a motion that is clear everywhere, the
// cheapest that is; nil where there is none.
func (s *postureSearch) clearMotion(ctx context.Context, a attempt) (*Motion, error) {
	for range clearRounds {
		if s.best == nil {
			return nil, nil
		}
		m, err := s.motion()
		if err != nil || s.clear == nil {
			return m, err
		}
		bad := s.unclear(m)
		if len(bad) == 0 {
			return m, nil
		}
		for _, rung := range bad {
			s.forbid(rung)
		}
		if err := s.sweep(ctx, a); err != nil {
			return nil, err
		}
	}
	s.best = nil
	return nil, nil
}

// unclear lists the stations where a motion is not clear.
func (s *postureSearch) unclear(m *Motion) (rungs []int) {
	for r := range m.Stations {
		if !s.clear.clear(&m.Stations[r].Q, s.onWeld(r)) {
			rungs = append(rungs, r)
		}
	}
	return rungs
}

// forbid forbids the node of the way at a rung, and every other node of the branch
// there that is not clear.
func (s *postureSearch) forbid(rung int) {
	nodes := s.branches[s.branch].Rung(rung)
	nodes[s.best.Path[rung]].Cost = math.Inf(1)
	for i := range nodes {
		if n := &nodes[i]; !math.IsInf(n.Cost, 1) && !s.clear.clear(&n.Q, s.onWeld(rung)) {
			n.Cost = math.Inf(1)
		}
	}
}
