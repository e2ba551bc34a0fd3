package prove

import (
	"math"

	"seamwright/unit"
)

// limits holds every joint value against the limits of the arm's file, and of the
// torch's cable; on the passes also against the job's margin from them.
func (p *proof) limits() {
	room := atLeast("joint limits", "deg", 1/unit.Deg)
	margin := atLeast("margin to joint limits on the passes", "deg", 1/unit.Deg)
	for i := range p.steps {
		p.room(room, p.steps[i].q[:], 0, p.atStep, i)
	}
	for i := range p.trace {
		p.room(room, p.trace[i].q[:], 0, p.atSample, i)
		if p.trace[i].arc {
			p.room(margin, p.trace[i].q[:], p.job.Arm.LimitMargin-sameTurn, p.atSample, i)
		}
	}
	p.add(room, margin)
}

// room holds how far joint values are from their limits against a least one, rad; of
// a sliding joint, m, that it has any.
func (p *proof) room(m *meter, q []float64, least float64, at func(int) place, i int) {
	for j, l := range p.arm.limits {
		room := min(q[j]-l.lower, l.upper-q[j])
		if math.IsInf(room, 1) {
			m.checked++
			continue
		}
		if l.slides {
			if room < 0 {
				where := at(i)
				m.fail(where, "%s is %.3f mm beyond its limit", l.name, -room/unit.MM)
			}
			continue
		}
		if m.near(room, least) {
			where := at(i)
			where.what += ", " + l.name
			m.keep(room, least, where)
		}
	}
}

// Rounding of trace.csv, half a unit of its last digits.
const (
	roundTime  = 0.5e-6            // s
	roundJoint = 0.5e-7 * unit.Deg // rad; a sliding joint's is 0.5e-10 m
)

// motion holds the joints' speeds and accelerations against their limits: what they
// were at some instant between the samples. A difference over an interval is the
// mean speed in it, and one of mean speeds the acceleration somewhere in the two, so
// one that breaks the limit proves that the arm would; what rounding can have added
// is taken off first.
func (p *proof) motion() {
	times := atLeast("time goes on", "ms", 1e3)
	speed := atMost("joint speed over its limit", "", 1)
	accel := atMost("joint acceleration over its limit", "", 1)
	percent := p.percents()
	for i := 1; i < len(p.trace); i++ {
		a, b := &p.trace[i-1], &p.trace[i]
		dt := b.t - a.t
		if times.near(dt, roundTime) {
			times.keep(dt, roundTime, p.atSample(i))
		}
		if !(dt > 2*roundTime) {
			continue
		}
		if a.q == b.q && (i < 2 || p.trace[i-2].q == a.q) {
			speed.checked++
			accel.checked++
			continue
		}
		for j, l := range p.arm.limits {
			v, rounded := p.rate(i, j)
			if over := max(0, math.Abs(v)-rounded) / (l.speed * percent[i]); speed.near(over, 1) {
				where := p.atSample(i)
				where.what += ", " + l.name
				speed.keep(over, 1, where)
			}
			if i < 2 {
				continue
			}
			before, roundedBefore := p.rate(i-1, j)
			span := (b.t - p.trace[i-2].t) / 2
			change := max(0, math.Abs(v-before)-rounded-roundedBefore) / span
			if over := change / l.accel; accel.near(over, 1) {
				where := p.atSample(i - 1)
				where.what += ", " + l.name
				accel.keep(over, 1, where)
			}
		}
	}
	p.add(times, speed, accel)
}

// rate is the mean speed of joint j from sample i-1 to i, per s, and how much of it
// rounding can have made.
func (p *proof) rate(i, j int) (v, rounded float64) {
	a, b := &p.trace[i-1], &p.trace[i]
	dt := b.t - a.t
	if !(dt > 2*roundTime) {
		return 0, math.Inf(1)
	}
	v = (b.q[j] - a.q[j]) / dt
	return v, 2*roundJoint/dt + math.Abs(v)*2*roundTime/(dt-2*roundTime)
}

// percents returns for every sample the share of joint speed that the move to it may
// use, dimensionless: that of the job in joint moves, all of it in others.
func (p *proof) percents() []float64 {
	share := make([]float64, len(p.trace))
	for i := range share {
		share[i] = 1
	}
	for k := 1; k < p.reached; k++ {
		if p.steps[k].Move != "joint" {
			continue
		}
		for i := p.steps[k-1].at + 1; i <= p.steps[k].at; i++ {
			share[i] = min(share[i], p.job.Air.JointPercent/100)
		}
	}
	return share
}
