package prove

import (
	"math"

	"seamwright/unit"
)

// sameSpeed is by how much the travel may leave the planned speed, as a share: the
// digits of the trace keep a tenth of it, and a leg changes by half.
const sameSpeed = 1e-3

// speeds holds the travel along the seams against the planned speed, and the
// commanded speeds against what the job allows.
func (p *proof) speeds() {
	fast := atMost("travel speed over the planned", "mm/s", 1/unit.MMPerS)
	slow := atLeast("travel speed under the planned, inside a weld", "mm/s", 1/unit.MMPerS)
	lost := atMost("time lost where a weld begins or ends", "s", 1)
	said := atMost("speed as the trace says it", "mm/s", 1/unit.MMPerS).share()
	keyed := atMost("commanded speeds", "mm/s", 1/unit.MMPerS)
	for n := range p.runs {
		r := &p.runs[n]
		for i := r.from + 1; i <= r.to; i++ {
			p.travel(r, i, fast, slow, lost)
		}
	}
	p.saidSpeeds(said)
	p.keyedSpeeds(keyed)
	p.add(fast, slow, lost, said, keyed)
}

// mostLost is the most time that the start or the end of a move along a seam may take
// beyond that at the planned speed, s: at 6 mm/s the arc then lays what 0.9 mm of seam
// need. A ramp limited in jerk loses half of its duration, v/(2a) + a/(2j) of the joint
// that decides; where a curve is entered that is up to 0.13 s with the usual limits.
// Common practice, no source.
const mostLost = 0.15

// travel holds the mean speed from sample i-1 to i of a pass. Beside a stand the arm
// gathers speed or loses it: there only the time that it takes is held.
func (p *proof) travel(r *passRun, i int, fast, slow, lost *meter) {
	a, b := &p.trace[i-1], &p.trace[i]
	if !a.arc || !b.arc || a.seam != b.seam || a.pass != b.pass || math.IsNaN(a.along) || math.IsNaN(b.along) {
		return
	}
	way, dt := b.along-a.along, b.t-a.t
	if math.Abs(way) < samePlace || !(dt > 0) {
		return
	}
	v, wanted := way/dt, r.speed()
	if fast.near(v, wanted*(1+sameSpeed)) {
		fast.keep(v, wanted*(1+sameSpeed), p.atSample(i))
	}
	if p.stands(r, i-1, a.along) || p.stands(r, i, b.along) {
		if late := dt - way/wanted; lost.near(late, mostLost) {
			lost.keep(late, mostLost, p.atSample(i))
		}
		return
	}
	if slow.near(v, wanted*(1-sameSpeed)) {
		slow.keep(v, wanted*(1-sameSpeed), p.atSample(i))
	}
}

// stands reports whether the tip stands at sample i of a pass: at its ends, or where
// it does not go on along the seam.
func (p *proof) stands(r *passRun, i int, along float64) bool {
	if i <= r.from || i >= r.to {
		return true
	}
	still := func(k int) bool {
		s := &p.trace[k]
		return !s.arc || s.seam != r.seam.Name || math.IsNaN(s.along) || math.Abs(s.along-along) < samePlace
	}
	return still(i-1) || still(i+1)
}

// saidSpeeds holds the trace's column of speeds against the tip's own, by the places
// of the tip: of the two samples before, of the two behind, or of one on either side,
// whichever comes nearest: where a move begins or ends the speed breaks off on one
// side. Along a seam the column is the travel.
func (p *proof) saidSpeeds(m *meter) {
	for i := 2; i+2 < len(p.trace); i++ {
		s := &p.trace[i]
		if still(p.trace[i-2 : i+3]) {
			if s.speed != 0 {
				m.fail(p.atSample(i), "%g mm/s where the arm stands", s.speed/unit.MMPerS)
			}
			m.checked++
			continue
		}
		behind, before, middle := p.tipSpeed(i, i+1, i+2), p.tipSpeed(i, i-1, i-2), p.tipSpeed(i, i-1, i+1)
		off := min(math.Abs(s.speed-behind), math.Abs(s.speed-before), math.Abs(s.speed-middle))
		limit := max(math.Abs(behind-middle), math.Abs(before-middle))/2 + 0.01*middle + 2e-3
		if a, b := p.alongSpeed(i), p.alongSpeed(i+1); a > 0 && b > 0 { // it goes on along a seam
			off, limit = min(math.Abs(s.speed-a), math.Abs(s.speed-b)), 0.01*max(a, b)
		}
		if math.IsNaN(s.speed) {
			m.fail(p.atSample(i), "no speed")
			continue
		}
		if m.near(off, limit) {
			m.keep(off, limit, p.atSample(i))
		}
	}
}

// alongSpeed is the mean travel from sample i-1 to i, m/s; 0 off the seams.
func (p *proof) alongSpeed(i int) float64 {
	a, b := &p.trace[i-1], &p.trace[i]
	if !a.arc || !b.arc || a.seam != b.seam || a.pass != b.pass || !(b.along-a.along > samePlace) || !(b.t > a.t) {
		return 0
	}
	return (b.along - a.along) / (b.t - a.t)
}

// still reports whether the arm stands at all of some samples.
func still(list []sample) bool {
	for i := range list {
		if list[i].q != list[0].q {
			return false
		}
	}
	return true
}

// tipSpeed is the speed of the tip at sample i, m/s, by a parabola through its places
// there and at two other samples.
func (p *proof) tipSpeed(i, j, k int) float64 {
	a, b, c := &p.trace[i], &p.trace[j], &p.trace[k]
	t, u := b.t-a.t, c.t-a.t
	if t == 0 || u == 0 || t == u {
		return 0
	}
	first, second := b.tip.P.Sub(a.tip.P), c.tip.P.Sub(a.tip.P)
	return first.Scale(u/(t*(u-t))).AddScaled(-t/(u*(u-t)), second).Norm()
}

// keyedSpeeds holds the speeds of the steps against the planned travel and the job's
// limits in the air.
func (p *proof) keyedSpeeds(m *meter) {
	lit := false
	for i := range p.steps {
		s := &p.steps[i]
		switch {
		case s.Move == "joint":
			if s.Percent == nil || !(*s.Percent > 0) || *s.Percent > p.job.Air.JointPercent*(1+1e-9) {
				m.fail(p.atStep(i), "a joint move at %g percent, the job allows %g", given(s.Percent), p.job.Air.JointPercent)
			}
			m.pass()
		case s.Turn != nil && s.Speed == nil:
			m.pass() // it turns in place; how fast is held by the joints
		case s.Speed == nil || !(*s.Speed > 0):
			m.fail(p.atStep(i), "a %s move without a speed", cut(s.Move))
		case lit:
			if pass := p.passOf(s.Seam, s.Pass); pass != nil {
				m.hold(*s.Speed*unit.MMPerS, pass.Size.Travel*unit.MMPerS*(1+1e-6), p.atStep(i))
			}
		default:
			m.hold(*s.Speed*unit.MMPerS, p.job.Air.TipSpeed*(1+1e-6), p.atStep(i))
		}
		switch s.Arc {
		case "on":
			lit = true
		case "off":
			lit = false
		}
	}
	p.tracedSpeeds(m)
}

// tracedSpeeds holds how fast the tip goes in the linear and arc moves of the trace
// against the speed that the step commands: what is keyed in is what was proved.
func (p *proof) tracedSpeeds(m *meter) {
	for k := 1; k < p.reached; k++ {
		if p.steps[k].Move == "joint" || p.steps[k].Speed == nil {
			continue
		}
		limit := *p.steps[k].Speed * unit.MMPerS * (1 + sameSpeed)
		begin := p.steps[k-1].at + 1
		if furthest(&p.trace[begin-1].q, &p.steps[k-1].q) > sameJoint {
			begin++ // the step before ends between these two samples
		}
		for i := begin; i <= p.steps[k].at; i++ {
			a, b := &p.trace[i-1], &p.trace[i]
			if !(b.t > a.t) {
				continue
			}
			v := a.tip.P.Dist(b.tip.P) / (b.t - a.t)
			if b.arc {
				v = p.alongSpeed(i)
			}
			if m.near(v, limit) {
				m.keep(v, limit, p.atSample(i))
			}
		}
	}
}
