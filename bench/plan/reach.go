package plan

import (
	"fmt"
	"math"
	"strings"

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
	r.splitting = s.splittable()
	r.suspect = s.along[min(s.stop.furthest+1, len(s.along)-1)]
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
func (s *postureSearch) blocked(seam *Seam, pass *Pass) finding.Finding {
	rung := min(s.stop.furthest+1, len(s.along)-1)
	if rung < s.first && s.stop.longest.From > s.first {
		rung = s.first // the weld's own start says more than the approach to it
	}
	where := s.at(seam.Name, pass.Number, s.weldAlong(rung))
	place := s.placeOf(seam.PassName(pass), rung)
	why := s.diagnose(rung)
	atSpin := func(joint int) string {
		return fmt.Sprintf("%s: at %s %s stands at", place, s.spinWords("the best spin"), s.cell.Chain.Joint(joint).Name)
	}
	var f finding.Finding
	switch block := s.stop.block; {
	case why.nodes > 0 && block.Kind == motion.BlockLimit && block.Joint >= 0:
		f = s.jointLimit(where, fmt.Sprintf("%s: every way there winds %s to", place, s.cell.Chain.Joint(block.Joint).Name), block.Joint, block.Value)
	case why.nodes > 0 && s.large(s.tried):
		f = finding.Newf(finding.NoContinuous, where, "%s: the arm can be there, but no way to it was found; not every stand of its free joints was looked at on the way", place)
	case why.nodes > 0:
		f = finding.Newf(finding.NoContinuous, where, "%s: the arm can be there, but not coming from where it was: postures before and after it do not join", place)
	case why.geometric == 0:
		f = s.outOfReach(where, fmt.Sprintf("%s: no posture at %s%s", place, s.spinWords("any spin"), s.wherever()), &why)
	case why.miss.By > 0:
		f = s.jointLimit(where, atSpin(why.miss.Joint), why.miss.Joint, why.miss.Q[why.miss.Joint])
	case why.away >= tightWrist:
		f = s.jointLimit(where, atSpin(why.tightJoint), why.tightJoint, why.tight[why.tightJoint])
	default:
		f = finding.Newf(finding.NearSingular, where, "%s: every posture stands within %.0f deg of a singularity%s", place, tightWrist*deg, why.of()).As(finding.Stop)
		f = f.Values(s.pair(unit.Angle, why.away, tightWrist))
	}
	return f.Mend("%s", s.help())
}

// outOfReach says how much is missing where that is known.
func (s *postureSearch) outOfReach(where finding.Place, none string, why *diagnosis) finding.Finding {
	switch {
	case why.uncertain:
		return finding.Newf(finding.ArmCannotReach, where, "%s was found, but one may have been missed: try the place by hand", none)
	case why.notKnown:
		return finding.Newf(finding.ArmCannotReach, where, "%s; how much is missing is not known of an arm without a closed form", none)
	case math.IsInf(why.missing, 1):
		f := finding.Newf(finding.ArmCannotReach, where, "%s; the wrist would have to turn %s further than it can", none, degrees(why.turn))
		return f.Values(s.pair(unit.Angle, why.turn, 0))
	}
	by := "by"
	if why.general {
		by = "by at least" // as if all its joints were ball joints
	}
	f := finding.Newf(finding.ArmCannotReach, where, "%s; the wrist misses %s %s", none, by, s.tape(why.missing))
	return f.Values(s.pair(unit.Length, why.missing, 0))
}

// wherever names the free joints, of which the search tries all values.
func (s *postureSearch) wherever() string {
	var names []string
	for _, f := range s.axes {
		names = append(names, s.cell.Chain.Joint(f.Joint).Name)
	}
	switch len(names) {
	case 0:
		return ""
	case 1:
		return ", wherever " + names[0] + " stands"
	}
	return ", wherever " + strings.Join(names, " and ") + " stand"
}

// jointLimit says that a joint would stand at q (rad, m), past or too near its
// limit; stands are the words before the number.
func (s *postureSearch) jointLimit(where finding.Place, stands string, joint int, q float64) finding.Finding {
	j := s.cell.Chain.Joint(joint)
	f := finding.Newf(finding.JointLimit, where, "%s %s, %s", stands, s.sayJoint(j, q), s.past(j, q))
	if j.Kind == kinematics.Prismatic {
		return f.Values(s.pair(unit.Length, q, nearLimit(j, q)))
	}
	return f.Values(s.pair(unit.Angle, q, nearLimit(j, q)))
}

// sayJoint says a value of a joint, rad or m: "-154.0 deg", "350.0 mm".
func (w words) sayJoint(j kinematics.Joint, q float64) string {
	if j.Kind == kinematics.Prismatic {
		return w.say(asPlace, q)
	}
	return fmt.Sprintf("%.1f deg", q*deg)
}

// spinWords names the spin where only one may be tried, and says otherwise
// where any may.
func (s *postureSearch) spinWords(otherwise string) string {
	if s.fixed {
		return "the fixed spin"
	}
	return otherwise
}

// nearLimit is the limit of a joint that a value is nearest to or past, rad
// or m.
func nearLimit(j kinematics.Joint, q float64) float64 {
	if q-j.Lower < j.Upper-q {
		return j.Lower
	}
	return j.Upper
}

// past says in words how a joint value (rad, m) that the search refuses stands
// to the joint's limit.
func (w words) past(j kinematics.Joint, q float64) string {
	limit := nearLimit(j, q)
	if by := max(j.Lower-q, q-j.Upper); by > 0 {
		return fmt.Sprintf("%s beyond its %s of %s", w.sayJoint(j, by), limitName(j, q), w.sayJoint(j, limit))
	}
	return fmt.Sprintf("closer than %.1f deg to its %s of %s", tightLimit*deg, limitName(j, q), w.sayJoint(j, limit))
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
	return "the longest stretch in one go is " + s.stretch(s.weldAlong(w.From), s.weldAlong(w.To))
}
