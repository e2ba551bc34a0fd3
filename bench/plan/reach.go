package plan

import (
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
	"seamwright/unit"
)

// reachOf reads the ladder's answer: how far the arm gets along the weld.
func (s *postureSearch) reachOf(spins, tried int) Reach {
	r := Reach{Whole: s.best != nil, Spins: spins, Tried: tried}
	if r.Whole {
		r.To = s.track.seamPlace(s.track.length)
		r.StopsAt = r.To
		return r
	}
	r.StopsAt = s.weldAlong(s.stop.furthest)
	if w := s.stop.longest; w.From <= w.To {
		r.From, r.To = s.weldAlong(w.From), s.weldAlong(w.To)
	}
	return r
}

// weldAlong is the place of a rung, brought onto the weld, m of the seam.
func (s *postureSearch) weldAlong(rung int) float64 {
	if rung < s.first {
		return 0
	}
	return s.track.seamPlace(s.along[min(rung, s.last)])
}

// blocked explains, after a search that found no way, where the pass stops,
// what stops it, by how much, and what would help.
func (s *postureSearch) blocked(name string, pass int) finding.Finding {
	rung := min(s.stop.furthest+1, len(s.along)-1)
	if rung < s.first && s.stop.longest.From > s.first {
		rung = s.first // the weld's own start says more than the approach to it
	}
	where := s.at(name, pass, s.weldAlong(rung))
	place := s.placeOf(name, rung)
	why := s.diagnose(rung)
	atSpin := func(joint int) string {
		return fmt.Sprintf("%s: at %s %s stands at", place, s.spinWords("the best spin"), s.cell.Chain.Joint(joint).Name)
	}
	var f finding.Finding
	switch block := s.stop.block; {
	case why.nodes > 0 && block.Kind == motion.BlockLimit && block.Joint >= 0:
		f = s.jointLimit(where, fmt.Sprintf("%s: every way there winds %s to", place, s.cell.Chain.Joint(block.Joint).Name), block.Joint, block.Value)
	case why.nodes > 0:
		f = finding.Newf(finding.NoContinuous, where, "%s: the arm can be there, but not coming from where it was: postures before and after it do not join", place)
	case why.geometric == 0:
		f = finding.Newf(finding.ArmCannotReach, where, "%s: no posture at %s; the wrist misses by %s", place, s.spinWords("any spin"), s.tape(why.missing))
		f = f.Values(s.pair(unit.Length, why.missing, 0))
	case why.miss.By > 0:
		f = s.jointLimit(where, atSpin(why.miss.Joint), why.miss.Joint, why.miss.Q[why.miss.Joint])
	case why.away >= tightWrist:
		f = s.jointLimit(where, atSpin(why.tightJoint), why.tightJoint, why.tight[why.tightJoint])
	default:
		f = finding.Newf(finding.NearSingular, where, "%s: every posture stands within %.0f deg of a singularity", place, tightWrist*deg).As(finding.Stop)
		f = f.Values(s.pair(unit.Angle, why.away, tightWrist))
	}
	return f.Mend("%s", s.help())
}

// jointLimit says that a joint would stand at q, rad, past or too near its
// limit; stands are the words before the number.
func (s *postureSearch) jointLimit(where finding.Place, stands string, joint int, q float64) finding.Finding {
	j := s.cell.Chain.Joint(joint)
	f := finding.Newf(finding.JointLimit, where, "%s %.1f deg, %s", stands, q*deg, past(j, q))
	return f.Values(s.pair(unit.Angle, q, nearLimit(j, q)))
}

// spinWords names the spin where only one may be tried, and says otherwise
// where any may.
func (s *postureSearch) spinWords(otherwise string) string {
	if s.fixed {
		return "the fixed spin"
	}
	return otherwise
}

// nearLimit is the limit of a joint that a value (rad) is nearest to or past,
// rad.
func nearLimit(j kinematics.Joint, q float64) float64 {
	if q-j.Lower < j.Upper-q {
		return j.Lower
	}
	return j.Upper
}

// past says in words how a joint value (rad) that the search refuses stands to
// the joint's limit.
func past(j kinematics.Joint, q float64) string {
	limit := nearLimit(j, q)
	if by := max(j.Lower-q, q-j.Upper); by > 0 {
		return fmt.Sprintf("%.1f deg beyond its %s of %.1f deg", by*deg, limitName(j, q), limit*deg)
	}
	return fmt.Sprintf("closer than %.1f deg to its %s of %.1f deg", tightLimit*deg, limitName(j, q), limit*deg)
}

func (s *postureSearch) placeOf(name string, rung int) string {
	switch {
	case rung < s.first:
		return name + " on the approach"
	case rung > s.last:
		return name + " on the retreat"
	}
	return fmt.Sprintf("%s at %s of %s", name, s.tape(s.weldAlong(rung)), s.tape(s.track.seamPlace(s.track.length)))
}

// diagnosis is what stands in the way at one station, over all spins.
type diagnosis struct {
	nodes     int // postures inside limits and margins
	geometric int // postures before the limits were looked at
	missing   float64
	miss      kinematics.Miss
	away      float64 // largest angle from a singularity of any posture, rad
	// tight is the posture clear of singularities that has the most room to a
	// joint limit, room that room, rad, and tightJoint the joint.
	tight      kinematics.Q
	room       float64
	tightJoint int
}

func (s *postureSearch) diagnose(rung int) diagnosis {
	d := diagnosis{missing: math.Inf(1), room: math.Inf(-1)}
	spins := s.grid()
	if s.fixed {
		spins = spins[:1]
	}
	tight := s.tight()
	var found kinematics.Solutions
	for _, spin := range spins {
		s.cell.Solve(s.track.pose(s.along[rung], spin), &s.home, &found)
		d.geometric += found.Geometric
		switch found.Status {
		case kinematics.OutOfReach:
			if found.Reach != kinematics.WrongAttitude {
				d.missing = min(d.missing, found.Missing)
			}
		case kinematics.OutsideLimits:
			if d.miss.By == 0 || found.Miss.By < d.miss.By-angleSlack {
				d.miss = found.Miss
			}
		}
		for k := range found.N {
			away := s.singularAway(&found.Q[k])
			d.away = max(d.away, away)
			if room, joint := limitMargin(s.cell.Chain, &found.Q[k]); away >= tight.wrist && room > d.room+angleSlack {
				d.tight, d.room, d.tightJoint = found.Q[k], room, joint
			}
			if _, ok := s.nodeCost(&found.Q[k], spin, tight); ok {
				d.nodes++
			}
		}
	}
	if math.IsInf(d.missing, 1) {
		d.missing = 0
	}
	return d
}

// help says what would help where the arm stands: a free spin, and the
// stretches that can be welded. A place from which the whole can be welded is
// looked for apart, for all seams together.
func (s *postureSearch) help() string {
	if s.fixed {
		return "free the spin; " + s.stretches()
	}
	return s.stretches()
}

func (s *postureSearch) stretches() string {
	w := s.stop.longest
	if w.From > w.To || s.weldAlong(w.To) <= s.weldAlong(w.From) {
		return "no stretch of it can be welded from here"
	}
	if s.stop.furthest >= s.stop.fromEnd {
		split := (s.weldAlong(s.stop.fromEnd) + s.weldAlong(s.stop.furthest)) / 2
		return fmt.Sprintf("two starts do it: weld %s and %s with a tie-in", s.stretch(0, split), s.stretch(split, s.track.seamPlace(s.track.length)))
	}
	return "the longest stretch in one go is " + s.stretch(s.weldAlong(w.From), s.weldAlong(w.To))
}
