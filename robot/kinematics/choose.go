package kinematics

import "math"

// choose brings every candidate to the turns nearest to what is held, drops
// those that are the same, and hands out those inside the limits.
func (s *Solver) choose(se *search, out *Solutions) {
	for b := range Branch(MaxSolutions) {
		if se.have>>b&1 == 0 {
			continue
		}
		c := &se.cand[b]
		if c.near != 0 && se.seenBefore(b) {
			se.have &^= 1 << b
			continue
		}
		out.Geometric++
		q := &out.Q[out.N]
		if !s.turn(c, se.hold, q) {
			continue
		}
		out.Branch[out.N], out.Near[out.N], out.Held[out.N] = b, c.near, c.held
		out.Singular |= c.near
		out.N++
	}
	switch {
	case out.N > 0 && out.Singular != 0:
		out.Status = FoundSingular
	case out.N > 0:
		out.Status = Found
	case out.Geometric > 0:
		out.Status = OutsideLimits
		s.nearestMiss(se, &out.Miss)
	default:
		out.Status, out.Reach, out.Missing = OutOfReach, se.reach, se.missing
		if se.reach == WrongAttitude {
			out.Missing = se.attitude
		}
	}
}

const wholeTurn = 2 * math.Pi

// turn writes c to q, each joint at the turn nearest to hold that is inside its
// limits, and reports whether there is one for every joint. It gives up at the
// first joint without.
func (s *Solver) turn(c *candidate, hold *[6]float64, q *Q) bool {
	for j := range c.q {
		lo, hi := s.lower[j], s.upper[j]
		v := c.q[j] + wholeTurn*((hold[j]-c.q[j])*(1/wholeTurn)+rounder-rounder)
		if v < lo || v > hi {
			var by float64
			if v, by = intoRange(v, lo, hi); by > 0 {
				return false
			}
		}
		q[j] = v
	}
	q[6], q[7], q[8] = 0, 0, 0
	return true
}

// intoRange brings v (rad) into lo..hi by the fewest whole turns. Where that
// cannot be it returns the turn that lies nearest outside, and by how much
// (rad); a lack within limitSlack counts as none and is put on the limit.
func intoRange(v, lo, hi float64) (float64, float64) {
	switch {
	case v < lo:
		v += wholeTurn * math.Ceil((lo-v)/wholeTurn)
	case v > hi:
		v -= wholeTurn * math.Ceil((v-hi)/wholeTurn)
	}
	if v >= lo && v <= hi {
		return v, 0
	}
	above := v - wholeTurn*math.Floor((v-lo)/wholeTurn) // the first turn at or above lo
	below := above - wholeTurn
	over, under := above-hi, lo-below
	switch {
	case over <= limitSlack:
		return hi, 0
	case under <= limitSlack:
		return lo, 0
	case over < under:
		return above, over
	}
	return below, under
}

// nearestMiss finds the candidate whose worst joint is the least outside.
func (s *Solver) nearestMiss(se *search, m *Miss) {
	m.By = math.Inf(1)
	for b := range Branch(MaxSolutions) {
		if se.have>>b&1 == 0 {
			continue
		}
		c := &se.cand[b]
		var q Q
		worst, by := 0, 0.0
		for j := range c.q {
			v := c.q[j] + wholeTurn*math.Round((se.hold[j]-c.q[j])/wholeTurn)
			var out float64
			if v < s.lower[j] || v > s.upper[j] {
				v, out = intoRange(v, s.lower[j], s.upper[j])
			}
			if q[j] = v; out > by {
				worst, by = j, out
			}
		}
		if by < m.By {
			*m = Miss{Joint: worst, By: by, Q: q, Branch: b}
		}
	}
}

// seenBefore reports whether an earlier branch has the same posture.
func (se *search) seenBefore(b Branch) bool {
next:
	for e := range b {
		if se.have>>e&1 == 0 {
			continue
		}
		for j := range se.cand[b].q {
			d := se.cand[b].q[j] - se.cand[e].q[j]
			if math.Abs(d-wholeTurn*math.Round(d/wholeTurn)) > samePosture {
				continue next
			}
		}
		return true
	}
	return false
}
