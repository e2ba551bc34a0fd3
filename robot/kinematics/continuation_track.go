package kinematics

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// leg is a way from one real pose to another through poses whose numbers are
// complex: the flange shifts along one line and turns about one axis by
// tau = t + i bend t (1-t) of the whole, t from 0 to 1. Poses at which two
// postures meet are single points of the plane of tau (or lie on the real line
// by the nature of real arms), and a way that bends off it misses them.
type leg struct {
	still, cos, sin se3.Rot // R(tau) = still + cos(angle tau) cos + sin(angle tau) sin
	from, shift     r3.Vec  // m
	axis            r3.Vec  // in the base
	angle           float64 // rad
	bend            float64 // dimensionless
}

// newLeg returns the way from a to b.
func newLeg(a, b *se3.Pose, bend float64) leg {
	axis, angle := a.R.T().Mul(b.R).Axis()
	w := se3.Rot{0, -axis.Z, axis.Y, axis.Z, 0, -axis.X, -axis.Y, axis.X, 0}
	ww := w.Mul(w) // w w^T - 1
	l := leg{from: a.P, shift: b.P.Sub(a.P), axis: a.R.Apply(axis), angle: angle, bend: bend}
	one := se3.RotIdentity()
	for i := range one {
		one[i] += ww[i]
		ww[i] = -ww[i]
	}
	l.still, l.cos, l.sin = a.R.Mul(one), a.R.Mul(ww), a.R.Mul(w)
	return l
}

// at writes the pose at t and how fast it changes with t.
func (l *leg) at(t float64, pose *cxPose, rate *cxTwist) {
	im, slope := l.bend*t*(1-t), complex(1, l.bend*(1-2*t))
	sin, cos := sincos(l.angle * t)
	e := math.Exp(l.angle * im)
	ch, sh := 0.5*(e+1/e), 0.5*(e-1/e)
	if im == 0 {
		ch, sh = 1, 0
	}
	s, c := complex(sin*ch, cos*sh), complex(cos*ch, -sin*sh)
	for i := range 9 {
		pose.r[i] = complex(l.still[i], 0) + times(l.cos[i], c) + times(l.sin[i], s)
	}
	from, by := [3]float64{l.from.X, l.from.Y, l.from.Z}, [3]float64{l.shift.X, l.shift.Y, l.shift.Z}
	axis := [3]float64{l.axis.X, l.axis.Y, l.axis.Z}
	for i := range 3 {
		pose.p[i] = complex(from[i]+by[i]*t, by[i]*im)
		rate[i], rate[3+i] = times(by[i], slope), times(l.angle*axis[i], slope)
	}
}

// pace is how carefully a way is followed. first and second (rad) are the
// largest corrections at a step: the second follows the first by Newton's
// method and is in proportion to its square.
type pace struct{ first, second float64 }

var (
	briskPace   = pace{first: 0.08, second: 4e-3}
	steadyPace  = pace{first: 0.03, second: 5e-4}
	carefulPace = pace{first: 0.01, second: 1e-4}
)

const (
	// leastStep (dimensionless) is where a way is given up. Where two postures
	// meet at its end they do so like the square root of what is left of it, and
	// steps must shrink along.
	leastStep = 1e-13
	// nearlyThere (dimensionless): a way that is given up with no more than this
	// left has arrived where postures are not isolated.
	nearlyThere = 1e-9
	// mostEvals is how many poses are computed on a way before it is given up;
	// 30 to 40 are usual.
	mostEvals = 2000
	// met (rad): at the end of a way a correction below this arrives, since
	// postures that meet there are approached by halves only.
	met = 1e-6
)

// knot is a point of a posture's way: its place, joint values and their rate.
type knot struct {
	t float64
	q cxQ
	v cxQ // per unit of t
}

// tracker follows one posture along one leg.
type tracker struct {
	chain *Chain
	leg   *leg
	unit  *[6]float64 // what counts as one radian of each joint, rad or m
	f     cxFactors
	evals int
}

// size returns the largest of the joints' changes in x, rad.
func (k *tracker) size(x *cxQ) float64 {
	m := 0.0
	for i := range x {
		m = max(m, square2(x[i])/(k.unit[i]*k.unit[i]))
	}
	return math.Sqrt(m)
}

// improve makes one step of Newton's method on q towards the pose at t and
// returns its size (rad), or +Inf where there is none.
func (k *tracker) improve(goal *cxPose, q *cxQ) float64 {
	var pose cxPose
	k.evals++
	k.chain.jacobianComplex(q, &pose, &k.f.a)
	e := pose.twistTo(goal)
	if !k.f.factor() {
		return math.Inf(1)
	}
	step := k.f.solve(&e)
	by := k.size(&step)
	if !(by < 1) {
		return math.Inf(1)
	}
	for i := range q {
		q[i] += step[i]
	}
	return by
}

// follow takes posture q (the start of the leg) to its end, or as far as it
// gets, and reports whether it arrived.
func (k *tracker) follow(q *cxQ, p pace) bool {
	var last, here knot
	var goal cxPose
	var rate cxTwist
	here.q = *q
	k.leg.at(0, &goal, &rate)
	if math.IsInf(k.improve(&goal, &here.q), 1) {
		return false
	}
	here.v = k.f.solve(&rate)
	first := true
	k.evals = 0
	h := min(0.05, 0.1/(k.size(&here.v)+1e-9))
	for here.t < 1 {
		next := knot{t: here.t + h}
		if next.t > 1-leastStep {
			next.t = 1
		}
		predict(&last, &here, &next, first)
		k.leg.at(next.t, &goal, &rate)
		one := k.improve(&goal, &next.q)
		if one <= p.first {
			two := k.improve(&goal, &next.q)
			if two <= p.second && (two <= 0.2*one || two < 1e-9) || next.t == 1 && two < met {
				next.v = k.f.solve(&rate)
				last, here, first = here, next, false
				h *= max(0.5, min(2, math.Sqrt(math.Sqrt(0.25*p.first/(one+1e-12)))))
				continue
			}
		}
		if h *= 0.4; h < leastStep || k.evals > mostEvals {
			break
		}
	}
	*q = here.q
	if here.t == 1 {
		k.settle(&goal, q)
	}
	return here.t > 1-nearlyThere
}

// settle improves q at the end of a way until it does not get better.
func (k *tracker) settle(goal *cxPose, q *cxQ) {
	const rounds, enough = 5, 1e-10
	last := math.Inf(1)
	for range rounds {
		next := *q
		by := k.improve(goal, &next)
		if by >= last {
			return
		}
		*q, last = next, by
		if by < enough {
			return
		}
	}
}

// predict fills in next.q from the cubic through the last two knots and their
// rates, or from the first knot and its rate.
func predict(last, here, next *knot, first bool) {
	if first {
		for i := range next.q {
			next.q[i] = here.q[i] + times(next.t-here.t, here.v[i])
		}
		return
	}
	span := here.t - last.t
	s := (next.t - last.t) / span
	s2, s3 := s*s, s*s*s
	a, b := 2*s3-3*s2+1, (s3-2*s2+s)*span
	c, d := 3*s2-2*s3, (s3-s2)*span
	for i := range next.q {
		next.q[i] = times(a, last.q[i]) + times(b, last.v[i]) + times(c, here.q[i]) + times(d, here.v[i])
	}
}
