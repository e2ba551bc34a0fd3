package plan

import (
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/robot/motion"
	"seamwright/unit"
	"seamwright/weld/seam"
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
	l.part.phase = leaving
	if err := l.trace(going{law: law, from: from, step: traceAir}); err != nil {
		return err
	}
	l.airTime += law.Duration()
	s.Seam, s.Pass, s.Move, s.Speed, s.Q = l.seam.Name, l.pass.Number, MoveLinear, l.job.Air.TipSpeed, l.arm
	s.Work, s.Travel = math.NaN(), math.NaN()
	if s.Arc == "on" {
		s.Work, s.Travel = l.seam.Way.At(0).Frame.WorkOf(l.pass.Aim), l.pass.Aim.Travel
	}
	l.step(s)
	return nil
}

// weld runs along the seam stage by stage, with the arc on but where it is put
// out for a turn in a corner, and holds the joints against their speed.
func (l *leg) weld() error {
	l.part.phase = welding
	for i, s := range l.motion.search.track.stages() {
		law := l.motion.laws.weld[i]
		if s.turn >= 0 {
			if err := l.turn(s, law); err != nil {
				return err
			}
			continue
		}
		for _, slow := range law.Slow() {
			switch slow.Cause {
			case motion.SlowJointSpeed, motion.SlowJointAccel, motion.SlowJointJerk:
				l.tooSlow(slow)
			}
		}
		if err := l.trace(going{law: law, from: s.from, step: traceWeld / l.pass.Size.Travel, arc: true}); err != nil {
			return err
		}
		l.plan.Times.Weld += law.Duration()
	}
	return l.weldSteps()
}

// turn turns the torch in place in a sharp corner. Where the arc is put out for
// it, the weld ends there and starts again: the crater is filled before, and the
// arc started behind.
func (l *leg) turn(s stage, law *motion.PathLaw) error {
	g := going{law: law, from: s.from, step: traceWeld / (turnMost * seam.LengthPerTurn), arc: !s.arcOff, turning: true}
	if !s.arcOff {
		return l.trace(g)
	}
	at := l.motion.search.track.arc(s.from)
	l.dwell(l.pass.Size.CraterTime, at)
	g.step = traceAir
	if err := l.trace(g); err != nil {
		return err
	}
	l.airTime += law.Duration()
	l.dwell(l.pass.Size.StartTime, at)
	return nil
}

// tooSlow says which joint cannot follow at the planned speed, and the speed at
// which it could: a joint's speed grows with the tip's, its acceleration with the
// square and its jerk with the cube of it.
func (l *leg) tooSlow(slow motion.Slow) {
	joint := l.plan.Cell.Chain.Joint(slow.Joint).Name
	what, kind, most := "turn at", unit.AngularSpeed, slow.Limit/slow.Demand
	switch slow.Cause {
	case motion.SlowJointJerk:
		what, kind, most = "change its acceleration at", unit.AngularJerk, math.Cbrt(most)
	case motion.SlowJointAccel:
		what, kind, most = "gather speed at", unit.AngularAcceleration, math.Sqrt(most)
	}
	speed, where := l.pass.Size.Travel, l.motion.search.track.arc(slow.Where)
	demand, limit, in := l.pair(kind, slow.Demand, slow.Limit)
	f := finding.Newf(finding.JointSpeedWeld, l.at(l.seam.Name, l.pass.Number, where),
		"%s at %s: at %s %s would have to %s %s %s, it can do %s; it follows up to %s there",
		l.seam.PassName(l.pass), l.tape(where), l.say(asSpeed, speed), joint, what, threeDigits(demand), in, threeDigits(limit), l.say(asSpeed, speed*most))
	if slow.Cause == motion.SlowJointJerk || slow.Cause == motion.SlowJointAccel && l.motion.search.track.turnJumps(slow.Where) {
		f = f.As(finding.Caution) // the arm slows for a moment; what that lays is in the profile
	}
	l.found = append(l.found, f.Values(demand, limit, in))
}

// threeDigits writes a number (dimensionless) with three digits, more where it is
// 1000 or above: never with a power of ten.
func threeDigits(x float64) string {
	if math.Abs(x) >= 1000 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.3g", x)
}

// going is one law along the track with what the arc does meanwhile.
type going struct {
	law     *motion.PathLaw
	from    float64 // m of the track, where it begins
	step    float64 // s between samples, at most
	arc     bool
	turning bool // in place: no way is made along the seam
}

// times are the instants of a law that are sampled, s: evenly spaced. On a seam they
// are so from where the tip has gathered its speed to where it begins to stop, and each
// ramp is one interval of its own, so that the samples between tell the travel speed.
func (g *going) times() []float64 {
	total := g.law.Duration()
	first, last := g.law.Ramps()
	if !g.arc || g.turning || first > 2*g.step || total-last > 2*g.step {
		return motion.Times(total, g.step)
	}
	var times []float64
	if first > 0 {
		times = append(times, 0)
	}
	for _, t := range motion.Times(last-first, g.step) {
		times = append(times, first+t)
	}
	if last < total {
		times = append(times, total)
	}
	return times
}

// trace samples a law and leaves the arm at its end.
func (l *leg) trace(g going) error {
	start := l.now
	for _, t := range g.times() {
		s, v, _ := g.law.At(t)
		q, err := l.motion.postureAt(g.from + s)
		if err != nil {
			return err
		}
		l.now, l.arm = start+t, q
		sample := Sample{Seam: l.seam.Name, Pass: l.pass.Number, Along: math.NaN(), Arc: g.arc, Q: q, Speed: v}
		if g.arc {
			sample.Along = l.motion.search.track.arc(g.from + s)
		}
		if g.turning {
			sample.Speed = 0
		}
		l.sample(sample)
	}
	l.now = start + g.law.Duration()
	return nil
}

// dwell stands still with the arc on.
func (l *leg) dwell(duration, along float64) {
	if duration <= 0 {
		return
	}
	start := l.now
	l.part.phase = welding
	for _, t := range motion.Times(duration, traceDwell) {
		l.now = start + t
		l.sample(Sample{Seam: l.seam.Name, Pass: l.pass.Number, Along: along, Arc: true, Q: l.arm})
	}
	l.now = start + duration
}
