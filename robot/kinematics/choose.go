package kinematics

import (
	"math"
	"math/bits"
)

// choose drops candidates that are the same and hands out those that have turns
// inside the limits. Here and below bit b of have says that cand[b] is one.
func (s *Solver) choose(se *search, cand []candidate, out *Solutions) {
	for left := se.have; left != 0; left &= left - 1 {
		b := bits.TrailingZeros16(left)
		c := &cand[b]
		if (c.near != 0 || s.general != nil) && seenBefore(cand, se.have, b) {
			se.have &^= 1 << b
			continue
		}
		out.Geometric++
		q := &out.Q[out.N]
		if !s.within(c, q) {
			continue
		}
		out.Branch[out.N], out.Near[out.N], out.Held[out.N] = c.branch, c.near, uint16(c.held)
		out.Singular |= c.near
		out.N++
	}
	out.Uncertain = se.lost
	switch {
	case out.N > 0 && out.Singular != 0:
		out.Status = FoundSingular
	case out.N > 0:
		out.Status = Found
	case out.Geometric > 0:
		out.Status = OutsideLimits
		s.nearestMiss(cand, se.have, &out.Miss)
	default:
		out.Status, out.Reach, out.Missing = OutOfReach, se.reach, se.missing
		if se.reach == WrongAttitude {
			out.Missing = se.attitude
		}
	}
}

const wholeTurn = 2 * math.Pi

// nextTo returns the turn of v (rad) that is nearest to hold (rad).
func nextTo(v, hold float64) float64 {
	return v + wholeTurn*((hold-v)*(1/wholeTurn)+rounder-rounder)
}

// within writes c to q, each joint at the turn nearest to where it is that is
// inside its limits, and reports whether there is one for every joint. It gives
// up at the first joint without.
func (s *Solver) within(c *candidate, q *Q) bool {
	from, lower, upper := &c.q, &s.lower, &s.upper
	var outside uint64 // the sign says whether any joint is
	for j := range from {
		v := from[j]
		q[j] = v
		outside |= math.Float64bits(v-lower[j]) | math.Float64bits(upper[j]-v)
	}
	q[6], q[7], q[8] = 0, 0, 0
	if outside>>63 == 0 {
		return true
	}
	for j, v := range from {
		if v < lower[j] || v > upper[j] {
			v, by := s.intoRange(j, v)
			if by > 0 {
				return false
			}
			q[j] = v
		}
	}
	return true
}

// intoRange brings joint j's value v (rad or m) into its limits: a turning
// joint by whole turns, a sliding one not at all.
func (s *Solver) intoRange(j int, v float64) (float64, float64) {
	lo, hi := s.lower[j], s.upper[j]
	if s.slides>>j&1 == 0 {
		return intoRange(v, lo, hi)
	}
	within := max(lo, min(hi, v))
	if by := math.Abs(v - within); by > limitSlack {
		return v, by
	}
	return within, 0
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
func (s *Solver) nearestMiss(cand []candidate, have uint16, m *Miss) {
	m.By = math.Inf(1)
	for left := have; left != 0; left &= left - 1 {
		c := &cand[bits.TrailingZeros16(left)]
		var q Q
		worst, by := 0, 0.0
		for j := range c.q {
			v, out := c.q[j], 0.0
			if v < s.lower[j] || v > s.upper[j] {
				v, out = s.intoRange(j, v)
			}
			if q[j] = v; out > by {
				worst, by = j, out
			}
		}
		if by < m.By {
			*m = Miss{Joint: worst, By: by, Q: q, Branch: c.branch}
		}
	}
}

// seenBefore reports whether an earlier branch has the same posture.
func seenBefore(cand []candidate, have uint16, b int) bool {
next:
	for e := range b {
		if have>>e&1 == 0 {
			continue
		}
		for j := range cand[b].q {
			d := cand[b].q[j] - cand[e].q[j]
			if math.Abs(d-wholeTurn*math.Round(d/wholeTurn)) > samePosture {
				continue next
			}
		}
		return true
	}
	return false
}
