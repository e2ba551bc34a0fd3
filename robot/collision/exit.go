package collision

import (
	"math"

	"seamwright/robot/kinematics"
)

// exit is the search for a move out of a posture that is not clear.
type exit struct {
	m   *Model
	s   *Scratch
	q   kinematics.Q
	r   Regime // wanted where the move ends
	way Regime // wanted on the way there
}

// joint returns the posture with joint j moved by a share (-1 to 1,
// dimensionless) of the farthest that is tried.
func (x *exit) joint(j int, share float64) (q kinematics.Q, ok bool) {
	q = x.q
	f := &x.m.frames
	if f.sliding[j] {
		q[j] += share * farthestSlide
	} else {
		q[j] += share * farthestTurn
	}
	return q, q[j] >= f.lower[j] && q[j] <= f.upper[j]
}

// search tries the postures at growing shares of a move and returns the first
// that is clear and can be reached; By is the share.
func (x *exit) search(posture func(share float64) (kinematics.Q, bool)) Free {
	for i := 1; i <= tries; i++ {
		share := float64(i) / tries
		q, ok := posture(share)
		if !ok {
			return Free{}
		}
		if !x.free(&q) {
			continue
		}
		low := share - 1.0/tries
		for share-low > fine/tries {
			mid := (low + share) / 2
			if p, ok := posture(mid); ok && x.free(&p) {
				share, q = mid, p
			} else {
				low = mid
			}
		}
		if !x.m.ClearMove(x.s, &x.q, &q, x.way) {
			return Free{} // something else is in the way
		}
		near, _ := x.m.Least(x.s, &q, x.r, 0.1)
		return Free{Found: true, By: share, Q: q, Moves: x.moves(&q), Near: near}
	}
	return Free{}
}

// free reports whether a posture is clear, with nothing inside anything.
func (x *exit) free(q *kinematics.Q) bool {
	if !x.m.Clear(x.s, q, x.r) {
		return false
	}
	inside, _ := x.m.Inside(x.s, q, x.r)
	return len(inside) == 0
}

// moves returns how far (m) any point of the bodies travels at most on the way
// to a posture.
func (x *exit) moves(q *kinematics.Q) (most float64) {
	m, s := x.m, x.s
	var step [kinematics.MaxJoints]float64
	for j := range m.frames.n {
		step[j] = q[j] - x.q[j]
	}
	s.within = m.frames.inLimits(&x.q) && m.frames.inLimits(q)
	m.place(s, &x.q)
	s.bout.set(m, s, &step)
	for i := range m.bodies {
		most = math.Max(most, m.journey(s, i).path[0])
	}
	return most
}
