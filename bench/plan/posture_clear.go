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
			if bad, err = s.unclearBetween(m); err != nil {
				return nil, err
			}
		}
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

// unclearBetween lists the stations behind which a motion is not clear before the
// next one, by a bound that holds for everything between.
func (s *postureSearch) unclearBetween(m *Motion) (rungs []int, err error) {
	for _, part := range [][2]int{{0, m.First}, {m.First, m.Last}, {m.Last, len(m.Stations) - 1}} {
		from, to := part[0], part[1]
		if from == to {
			continue
		}
		weld := from == m.First
		qs := make([]kinematics.Q, 0, to-from+1)
		for r := from; r <= to; r++ {
			qs = append(qs, m.Stations[r].Q)
		}
		found, err := s.clear.between(qs, weld, func(i int, share float64) kinematics.Q {
			a, b := &m.Stations[from+i], &m.Stations[from+i+1]
			along := a.Along + share*(b.Along-a.Along)
			guess := m.guess(along)
			q, _ := s.posture(along, m.spinAt(along), &guess) // whether it joins is looked at apart
			return q
		})
		if err != nil {
			return nil, err
		}
		for _, i := range found {
			rungs = append(rungs, from+i)
		}
	}
	return rungs, nil
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
