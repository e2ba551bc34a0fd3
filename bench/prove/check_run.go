package prove

import (
	"fmt"
	"math"

	"seamwright/robot/kinematics"
)

// sameJoint is below what joint values are the same, rad (m for a sliding joint):
// the digits of trace.csv keep a hundred times more.
const sameJoint = 1e-7

// follow finds where the trace reaches each step, in order.
func (p *proof) follow() {
	from, lit := 0, false
	for i := range p.steps {
		at, ok := p.reach(i, from, lit && p.steps[i].Arc == "")
		if !ok {
			return
		}
		p.steps[i].at, from = at, at
		p.reached = i + 1
		switch p.steps[i].Arc {
		case "on":
			lit = true
		case "off":
			lit = false
		}
	}
}

// few is how many samples behind the first that comes near a step are looked at for
// one that comes nearer.
const few = 4

// reach looks for the first sample from one on that has the joint values of step i.
// The inner points of a weld lie between samples: there the trace must pass by as
// near as its bend between two samples allows.
func (p *proof) reach(i, from int, inner bool) (int, bool) {
	s := &p.steps[i]
	for k := from; k < len(p.trace); k++ {
		if furthest(&p.trace[k].q, &s.q) <= sameJoint {
			return k, true
		}
		if inner && p.between(k, &s.q) {
			for l := k + 1; l < k+few && p.between(l, &s.q); l++ {
				if p.offTrace(l, s) <= p.offTrace(k, s) {
					k = l
				}
			}
			if furthest(&p.trace[k+1].q, &s.q) <= sameJoint {
				k++
			}
			return k, true
		}
	}
	return 0, false
}

// furthest is the largest difference of joint values, rad or m.
func furthest(a, b *kinematics.Q) float64 {
	most := 0.0
	for j := range a {
		most = max(most, math.Abs(a[j]-b[j]))
	}
	return most
}

// between reports whether joint values lie on the trace between sample k and the
// next. A way of even bend that leaves the chord over two intervals by d leaves that
// over one by a quarter of it. In a tight corner the bend is not even: twice of d is
// allowed here, and the moves that the steps command are held against the trace.
func (p *proof) between(k int, q *kinematics.Q) bool {
	if k < 1 || k+2 >= len(p.trace) {
		return false
	}
	a, b := &p.trace[k].q, &p.trace[k+1].q
	bend := max(fromChord(a, &p.trace[k-1].q, b), fromChord(b, a, &p.trace[k+2].q))
	return p.fromTrace(k, q) <= sameJoint+2*bend
}

// offTrace is how far a step is from the trace between sample k and the next, m of
// the tip; where the tip stands and the torch turns, the joints tell.
func (p *proof) offTrace(k int, s *step) float64 {
	const turning = 0.01 // m for each rad
	a, b := &p.trace[k], &p.trace[k+1]
	off := s.tip.P.Dist(a.tip.P)
	if a.tip.P.Dist(b.tip.P) > samePlace {
		off = fromSegment(s.tip.P, a.tip.P, b.tip.P)
	}
	return off + turning*p.fromTrace(k, &s.q)
}

// fromTrace is how far joint values are from the straight way between sample k and
// the next.
func (p *proof) fromTrace(k int, q *kinematics.Q) float64 {
	return fromChord(q, &p.trace[k].q, &p.trace[k+1].q)
}

// fromChord is the distance of joint values from the straight way between two
// others, rad and m alike.
func fromChord(q, a, b *kinematics.Q) float64 {
	var along, length float64
	for j := range q {
		d := b[j] - a[j]
		along += d * (q[j] - a[j])
		length += d * d
	}
	share := 0.0
	if length > 0 {
		share = min(1, max(0, along/length))
	}
	sum := 0.0
	for j := range q {
		d := q[j] - a[j] - share*(b[j]-a[j])
		sum += d * d
	}
	return math.Sqrt(sum)
}

// oneRun checks that the trace goes through all steps in order, from the first to
// the last, and through the stations of every pass.
func (p *proof) oneRun() {
	m := atMost("steps, stations and trace are one run", "", 1)
	defer p.add(m)
	if len(p.steps) == 0 || len(p.trace) == 0 {
		m.fail(place{}, "the plan has %d steps and %d samples: no run was made", len(p.steps), len(p.trace))
		return
	}
	for i := range p.steps {
		if p.steps[i].Step != i+1 {
			m.fail(p.atStep(i), "step %d has the number %d", i+1, p.steps[i].Step)
		}
	}
	if p.reached < len(p.steps) {
		m.fail(p.atStep(p.reached), "the trace never comes to step %d behind the step before it", p.reached+1)
		return
	}
	if first := p.steps[0].at; first != 0 {
		m.fail(p.atSample(0), "the trace does not begin at the first step")
	}
	if p.trace[0].t != 0 {
		m.fail(p.atSample(0), "the trace begins at %g s, not at 0", p.trace[0].t)
	}
	last := len(p.trace) - 1
	if furthest(&p.trace[last].q, &p.steps[len(p.steps)-1].q) > sameJoint {
		m.fail(p.atSample(last), "the trace does not end at the last step")
	}
	for i := p.steps[len(p.steps)-1].at; i <= last; i++ {
		if furthest(&p.trace[i].q, &p.trace[last].q) > sameJoint {
			m.fail(p.atSample(i), "the trace goes on behind the last step")
			break
		}
	}
	m.checked += len(p.steps)
	p.throughStations(m)
}

// throughStations checks that the trace passes the stations of every pass in order.
func (p *proof) throughStations(m *meter) {
	from := 0
	for i := range p.stations {
		s := &p.plan.Seams[i]
		for k, list := range p.stations[i] {
			for n := range list {
				at := place{s.Name, s.Passes[k].Number, fmt.Sprintf("station %d", n+1)}
				for !p.passes(from, &list[n].q) {
					if from++; from == len(p.trace) {
						m.fail(at, "the trace does not pass station %d", n+1)
						return
					}
				}
				m.pass()
			}
		}
	}
}

// passes reports whether the trace has joint values at sample k or behind it before
// the next.
func (p *proof) passes(k int, q *kinematics.Q) bool {
	if k == len(p.trace) {
		return false
	}
	return furthest(&p.trace[k].q, q) <= sameJoint || p.between(k, q)
}

// home checks that the run begins and ends at rest at the job's home.
func (p *proof) home() {
	turn, off := atMost("begins and ends at home: joints", "urad", 1e6), atMost("begins and ends at home: place", "um", 1e6)
	defer p.add(turn, off)
	i := 0
	for i < len(p.job.Points) && p.job.Points[i].Label != p.job.Home {
		i++
	}
	if i == len(p.job.Points) || len(p.steps) == 0 {
		turn.fail(place{}, "there is no home, or no run")
		return
	}
	home := &p.job.Points[i]
	ends := []int{0, len(p.steps) - 1}
	for _, k := range ends {
		s := &p.steps[k]
		if home.HasPose {
			want := home.Pose
			if !home.TipPose {
				want = want.Mul(p.arm.flangeFromTip)
			}
			off.hold(s.tip.P.Dist(want.P), samePlace, p.atStep(k))
			turn.hold(s.tip.R.AngleTo(want.R), sameTurn, p.atStep(k))
			continue
		}
		var want kinematics.Q
		copy(want[:], home.Joints)
		turn.hold(furthest(&s.q, &want), sameTurn, p.atStep(k))
		tip := p.arm.tip(&want)
		off.hold(s.tip.P.Dist(tip.P), samePlace, p.atStep(k))
	}
	if furthest(&p.steps[ends[0]].q, &p.steps[ends[1]].q) > sameTurn {
		turn.fail(p.atStep(ends[1]), "the run ends in another posture than it begins in")
	}
}
