package plan

import (
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/robot/motion"
	"seamwright/unit"
)

// leg walks the stations of one pass: approach, weld or retreat.
type leg struct {
	*runner
	seam   *Seam
	pass   *Pass
	motion *Motion
}

// air moves straight along the wire without arc.
func (l *leg) air(law *motion.PathLaw, from float64, s Step) error {
	if err := l.trace(law, from, traceAir, false); err != nil {
		return err
	}
	l.airTime += law.Duration()
	s.Seam, s.Pass, s.Move, s.Speed, s.Q = l.seam.Name, l.pass.Number, MoveLinear, l.job.Air.TipSpeed, l.arm
	s.Work, s.Travel = math.NaN(), math.NaN()
	if s.Arc == "on" {
		s.Work, s.Travel = l.pass.Aim.Work, l.pass.Aim.Travel
	}
	l.step(s)
	return nil
}

// weld runs along the seam with the arc on and holds the joints against their
// speed on the way.
func (l *leg) weld() error {
	speed, law := l.pass.Size.Travel, l.motion.laws.weld
	for _, slow := range law.Slow() {
		if slow.Cause == motion.SlowJointSpeed || slow.Cause == motion.SlowJointAccel {
			l.tooSlow(slow)
		}
	}
	if err := l.trace(law, 0, traceWeld/speed, true); err != nil {
		return err
	}
	l.plan.Times.Weld += law.Duration()
	return l.weldSteps(speed)
}

// tooSlow says which joint cannot follow at the planned speed, and the speed at
// which it could: a joint's speed grows with the tip's, its acceleration with
// the square of it.
func (l *leg) tooSlow(slow motion.Slow) {
	joint := l.plan.Cell.Chain.Joint(slow.Joint).Name
	what, kind, most := "turn at", unit.AngularSpeed, slow.Limit/slow.Demand
	if slow.Cause == motion.SlowJointAccel {
		what, kind, most = "gather speed at", unit.AngularAcceleration, math.Sqrt(most)
	}
	speed := l.pass.Size.Travel
	demand, limit, in := l.pair(kind, slow.Demand, slow.Limit)
	f := finding.Newf(finding.JointSpeedWeld, l.at(l.seam.Name, l.pass.Number, slow.Where),
		"%s at %s: at %s %s would have to %s %.3g %s, it can do %.3g; it follows up to %s there",
		l.seam.Name, l.tape(slow.Where), l.say(asSpeed, speed), joint, what, demand, in, limit, l.say(asSpeed, speed*most))
	l.found = append(l.found, f.Values(demand, limit, in))
}

// trace samples a law evenly in time and leaves the arm at its end.
func (l *leg) trace(law *motion.PathLaw, from, step float64, arc bool) error {
	start := l.now
	for _, t := range motion.Times(law.Duration(), step) {
		s, v, _ := law.At(t)
		q, err := l.motion.postureAt(from + s)
		if err != nil {
			return err
		}
		l.now, l.arm = start+t, q
		along := from + s
		if !arc {
			along = math.NaN()
		}
		l.sample(Sample{Seam: l.seam.Name, Pass: l.pass.Number, Along: along, Arc: arc, Q: q, Speed: v})
	}
	l.now = start + law.Duration()
	return nil
}

// dwell stands still with the arc on.
func (l *leg) dwell(duration, along float64) {
	if duration <= 0 {
		return
	}
	start := l.now
	for _, t := range motion.Times(duration, traceDwell) {
		l.now = start + t
		l.sample(Sample{Seam: l.seam.Name, Pass: l.pass.Number, Along: along, Arc: true, Q: l.arm})
	}
	l.now = start + duration
}

// weldSteps commands the weld: a linear move to every knot of a straight seam,
// pairs of arc moves (via point and end) on a round one.
func (l *leg) weldSteps(speed float64) error {
	for k := 1; k < len(l.motion.Knots); k++ {
		from, to := l.motion.Stations[l.motion.Knots[k-1]].Along, l.motion.Stations[l.motion.Knots[k]].Along
		ends := []float64{to}
		if curved(l.seam) {
			ends = l.arcEnds(from, to)
		}
		for i, along := range ends {
			s := Step{Label: fmt.Sprintf("%s via %s", l.seam.Name, l.tape(along)), Move: MoveLinear, Speed: speed, Settings: l.pass.Size.Settings}
			if curved(l.seam) {
				s.Move = MoveArc
				if i%2 == 1 {
					s.Label = fmt.Sprintf("%s arc end %s", l.seam.Name, l.tape(along))
				}
			}
			if k == len(l.motion.Knots)-1 && i == len(ends)-1 {
				s.Label, s.Arc = l.seam.Name+" weld end", "off"
			}
			q, err := l.motion.postureAt(along)
			if err != nil {
				return err
			}
			s.Seam, s.Pass, s.Q = l.seam.Name, l.pass.Number, q
			s.Work, s.Travel = l.pass.Aim.Work, l.pass.Aim.Travel
			l.step(s)
		}
	}
	return nil
}

// arcEnds divides a stretch of a round seam into arc moves: for each its via
// point and its end.
func (l *leg) arcEnds(from, to float64) []float64 {
	radius := l.seam.radius()
	n := max(1, steps((to-from)/radius, arcSweep))
	var ends []float64
	for i := range 2 * n {
		ends = append(ends, from+(to-from)*float64(i+1)/float64(2*n))
	}
	return ends
}
