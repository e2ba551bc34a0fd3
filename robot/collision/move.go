package collision

import (
	"math"

	"seamwright/robot/kinematics"
)

// Tolerance is how much less than wanted, m, a move may come in between the
// postures that are looked at and still be called clear. A pair that is wanted
// less than this apart is kept from touching all the same.
const Tolerance = 0.1e-3

// Resolution is how much less slack, m, a move may have somewhere than the
// least that is reported; where that is more than nothing, another Share
// (dimensionless) of it.
const (
	Resolution = 0.5e-3
	Share      = 0.05
)

// contact is the distance, m, up to which bodies that come near each other on a
// move count as touching where less than Tolerance is wanted.
const contact = 1e-6

// coarse is the travel, m, above which bodies are told apart by their balls and
// boxes only, before a move is looked at in smaller pieces.
const coarse = 0.08

// MoveLeast is what LeastMove knows of a move.
type MoveLeast struct {
	// Clear says that everywhere on the move, both ends included, every pair is
	// apart by what is wanted less Tolerance, and apart at all.
	Clear bool
	Near  Near    // the place of least slack, to Resolution and Share; Pair is -1 if that is over the limit asked for
	At    float64 // where that is: dimensionless share of the move, 0 to 1
	Lower float64 // nowhere on the move is the slack less, m
}

// LeastMove returns the least slack on the straight move in joint space from
// one posture to another (rad or m), both included, if it is under limit, m, and
// whether the move is clear. Where there is more everywhere, Near.Pair is -1 and
// Lower at least limit less Resolution and Share; the smaller the limit, the less
// is looked at. It holds between the postures that are looked at, by how far the
// bodies can travel on each other meanwhile: the move is cut until what is left
// is clear, whatever the bodies do there, and cannot have less slack by more
// than Resolution and Share. It panics where the regime has not one number for
// each pair.
func (m *Model) LeastMove(s *Scratch, from, to *kinematics.Q, r Regime, limit float64) MoveLeast {
	v := m.survey(s, from, to, r)
	v.best = limit
	if !m.frames.finite(from) || !m.frames.finite(to) {
		return MoveLeast{Near: Near{Pair: -1, Distance: math.NaN()}, Lower: math.NaN()}
	}
	v.MoveLeast = MoveLeast{Clear: true, Near: Near{Pair: -1}, Lower: limit}
	v.end(0)
	v.end(1)
	v.run()
	v.Lower = min(v.Lower, v.best)
	return v.MoveLeast
}

// ClearMove reports whether the straight move in joint space from one posture
// to another (rad or m), both included, is clear as in MoveLeast. It ends at
// the first place that is not. It panics where the regime has not one number for
// each pair.
func (m *Model) ClearMove(s *Scratch, from, to *kinematics.Q, r Regime) bool {
	v := m.survey(s, from, to, r)
	if !m.frames.finite(from) || !m.frames.finite(to) {
		return false
	}
	v.quick = true
	v.best = math.Inf(-1)
	v.Clear = true
	v.run()
	return v.Clear
}

// span is a piece of a move, in shares of it, and where the pairs that are not
// settled there stand in the survey's list.
type span struct {
	from, to   float64
	first, end int
}

// survey is the state of one question about a move.
type survey struct {
	MoveLeast
	m     *Model
	s     *Scratch
	r     Regime
	from  kinematics.Q
	delta kinematics.Q
	quick bool    // ends at the first place that is not clear, and does not look for the least slack
	best  float64 // least slack found, m
}

// survey prepares a question about a move.
func (m *Model) survey(s *Scratch, from, to *kinematics.Q, r Regime) survey {
	m.mustFit(r)
	v := survey{m: m, s: s, r: r, from: *from}
	var turned [kinematics.MaxJoints]float64
	for j := range m.frames.n {
		v.delta[j] = to[j] - from[j]
		turned[j] = math.Abs(v.delta[j])
	}
	s.within = m.frames.inLimits(from) && m.frames.inLimits(to)
	if s.within {
		m.rates(&turned, s.rate)
	}
	s.ids = s.ids[:0]
	for i := range m.order {
		if p := m.order[i].pair; r[p] >= 0 {
			s.ids = append(s.ids, p)
		}
	}
	s.spans = append(s.spans[:0], span{0, 1, 0, len(s.ids)})
	return v
}

// place puts the bodies where they are at a share of the move.
func (v *survey) place(share float64) {
	q := v.from
	for j := range v.m.frames.n {
		q[j] += share * v.delta[j]
	}
	v.m.place(v.s, &q)
}

// end looks at one end of the move.
func (v *survey) end(share float64) {
	v.place(share)
	if near, found := v.m.least(v.s, v.r, v.best, nil); found {
		v.found(near, share)
	}
}

// found takes note of the distance of a pair at a share of the move.
func (v *survey) found(near Near, share float64) {
	if !near.Clear() {
		v.Clear = false
	}
	if near.Slack() < v.best {
		v.best, v.Near, v.At = near.Slack(), near, share
	}
}

// floor returns the distance, m, that is enough for a pair that is wanted apart
// by so much.
func (v *survey) floor(wanted float64) float64 {
	floor := v.best - max(0, Share*v.best) - Resolution + wanted
	if v.Clear {
		floor = max(floor, wanted-Tolerance, blur)
	}
	return floor
}

// run looks at the pieces of the move, the longer before the shorter.
func (v *survey) run() {
	s := v.s
	for next := 0; next < len(s.spans) && (v.Clear || !v.quick); next++ {
		p := s.spans[next]
		mid, half := (p.from+p.to)/2, (p.to-p.from)/2
		v.place(mid)
		step := v.delta
		for j := range step {
			step[j] *= half
		}
		s.bout.set(v.m, s, (*[kinematics.MaxJoints]float64)(&step))
		first := len(s.ids)
		covered := half
		for at := p.first; at < p.end; at++ {
			i := s.ids[at]
			share, settled := v.look(int(i), mid, half)
			if v.quick && !v.Clear {
				return
			}
			if !settled {
				s.ids = append(s.ids, i)
				covered = min(covered, share)
			}
		}
		if first < len(s.ids) {
			s.spans = append(s.spans, span{p.from, mid - covered, first, len(s.ids)}, span{mid + covered, p.to, first, len(s.ids)})
		}
	}
}

// look looks at pair i in the piece of the move that reaches half either way
// from mid, where the bodies are placed. Unless that settles it for the whole
// piece, it returns how much is settled either way.
func (v *survey) look(i int, mid, half float64) (share float64, settled bool) {
	m, s, wanted := v.m, v.s, v.r[i]
	k := &m.pairings[i]
	a, b := m.placed[k.a].group, m.placed[k.b].group
	floor := v.floor(wanted)
	if floor <= 0 {
		v.Lower = min(v.Lower, -wanted)
		return 0, true
	}
	travel := math.Inf(1)
	if s.within {
		travel = half * min(s.rate[k.a][b], s.rate[k.b][a])
	}
	d := m.apart(s, k, floor+travel)
	if d < floor+travel {
		travel = min(travel, m.travel(s, k))
	}
	if d >= floor+travel {
		v.Lower = min(v.Lower, d-travel-wanted)
		return 0, true
	}
	if travel > coarse && d < travel/2 && (d >= max(wanted, blur) || m.clears(s, k, wanted, &s.axes[i])) {
		return 0, false
	}
	near, found := m.gap(s, i, floor+travel)
	near.Wanted = wanted
	if !found {
		v.Lower = min(v.Lower, floor-wanted)
		return 0, true
	}
	v.found(near, mid)
	floor = v.floor(wanted)
	left := near.Distance - floor
	switch {
	case left >= travel:
		v.Lower = min(v.Lower, left-travel+floor-wanted)
		return 0, true
	case travel < contact:
		v.Clear = false
		return 0, true
	}
	return max(0, left/travel*half), false
}
