package kinematics

import (
	"math"
	"math/bits"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// decoupled is an arm with a spherical wrist whose first three joints place the
// wrist centre in two planeTurns and a turn: D. L. Pieper's arms (thesis,
// Stanford, 1968; from memory) with axes 1 and 2, or 2 and 3, intersecting, or
// 1 and 2 parallel. All vectors are in the base frame with every joint at zero.
type decoupled struct {
	family Family
	chain  *Chain
	axes   [6]line
	center r3.Vec // wrist centre, m
	joint  r3.Vec // where the two axes that intersect meet, m
	zero   se3.Pose
	inv    se3.Pose // of zero
}

func newDecoupled(c *Chain, family Family, joint, center r3.Vec) decoupled {
	d := decoupled{family: family, chain: c, center: center, joint: joint, zero: c.zero, inv: c.zero.Inv()}
	copy(d.axes[:], c.lines[:6])
	return d
}

// placing is one way of the first three joints.
type placing struct {
	q      [3]float64 // rad
	near   SingularSet
	held   uint8
	branch Branch
}

// solve adds the candidates for the flange at t.
func (d *decoupled) solve(se *search, t *se3.Pose) {
	goal := t.Apply(d.inv.Apply(d.center))
	turned := t.R.Mul(d.inv.R) // all six turns together
	var list [4]placing
	n := 0
	switch d.family {
	case WristMeet12:
		n = d.place12(se, goal, &list)
	case WristMeet23:
		n = d.place23(se, goal, &list)
	case WristParallel12:
		n = d.placeParallel(se, goal, &list)
	}
	for i := range list[:n] {
		d.orient(se, &list[i], turned)
	}
	d.measure(se, t)
}

// measure fills in the closing error of every candidate, for the flange at t,
// and brings its joints next to what is held.
func (d *decoupled) measure(se *search, t *se3.Pose) {
	for left := se.have; left != 0; left &= left - 1 {
		m := &se.cand[bits.TrailingZeros16(left)%closedMost]
		var q Q
		for j := range m.q {
			m.q[j] = nextTo(m.q[j], se.hold[j])
			q[j] = m.q[j]
		}
		var pose se3.Pose
		d.chain.Forward(&q, &pose)
		m.err = 0
		for _, v := range smallTwist(t, &pose) {
			m.err = max(m.err, math.Abs(v))
		}
	}
}

// note opens a placing after a planeTurn for joint j that flips bit.
func (p *placing) note(t *planeTurn, j, way int, bit Branch, at SingularSet, hold float64) {
	p.q[j] = t.angle(way, hold)
	p.branch |= Branch(way) * bit
	if t.free {
		p.held |= 1 << j
	}
	if t.free || t.sine < NearSingular {
		p.near |= at
	}
}

// last fills in joint j, which turns from onto to.
func (p *placing) last(j int, axis, from, to r3.Vec, hold float64) {
	t, known := turnOnto(axis, from, to)
	if p.q[j] = t; !known {
		p.q[j] = hold
		p.held |= 1 << j
		p.near |= AtShoulder
	}
}

// place12: joint 3 makes the wrist centre's distance from the point where axes
// 1 and 2 meet, these two turn it to its place.
func (d *decoupled) place12(se *search, goal r3.Vec, list *[4]placing) (n int) {
	a3, to := d.axes[2], goal.Sub(d.joint)
	u, v := d.joint.Sub(a3.at), d.center.Sub(a3.at)
	third := distanceTurn(se, u, a3.dir, v, to.Norm())
	for i := range third.ways() {
		var p placing
		p.note(&third, 2, i, ElbowFlip, AtElbow, se.hold[2])
		from := a3.about(p.q[2], d.center).Sub(d.joint)
		second := newPlaneTurn(d.axes[0].dir, d.axes[1].dir, from, d.axes[0].dir.Dot(to), reachSlack)
		if second.lack > 0 {
			se.outOfReach(TooNear, second.lack)
		}
		for k := range second.ways() {
			w := p
			w.note(&second, 1, k, ShoulderFlip, AtShoulder, se.hold[1])
			turned := se3.RotAxis(d.axes[1].dir, w.q[1]).Apply(from)
			w.last(0, d.axes[0].dir, turned, to, se.hold[0])
			list[n] = w
			n++
		}
	}
	return n
}

// place23: joint 1 brings the goal to the wrist centre's distance from the
// point where axes 2 and 3 meet, these two turn the wrist centre there.
func (d *decoupled) place23(se *search, goal r3.Vec, list *[4]placing) (n int) {
	a1, from := d.axes[0], d.center.Sub(d.joint)
	u, v := d.joint.Sub(a1.at), goal.Sub(a1.at)
	first := distanceTurn(se, u, a1.dir.Neg(), v, from.Norm())
	for i := range first.ways() {
		var p placing
		p.note(&first, 0, i, ShoulderFlip, AtShoulder, se.hold[0])
		to := a1.about(-p.q[0], goal).Sub(d.joint)
		third := newPlaneTurn(d.axes[1].dir, d.axes[2].dir, from, d.axes[1].dir.Dot(to), reachSlack)
		if third.lack > 0 {
			se.outOfReach(TooNear, third.lack)
		}
		for k := range third.ways() {
			w := p
			w.note(&third, 2, k, ElbowFlip, AtElbow, se.hold[2])
			turned := se3.RotAxis(d.axes[2].dir, w.q[2]).Apply(from)
			w.last(1, d.axes[1].dir, turned, to, se.hold[1])
			list[n] = w
			n++
		}
	}
	return n
}

// placeParallel: joint 3 makes the height along axes 1 and 2, joint 2 the
// distance from axis 1.
func (d *decoupled) placeParallel(se *search, goal r3.Vec, list *[4]placing) (n int) {
	a1, a2, a3 := d.axes[0], d.axes[1], d.axes[2]
	third := newPlaneTurn(a1.dir, a3.dir, d.center.Sub(a3.at), a1.dir.Dot(goal.Sub(a3.at)), reachSlack)
	if third.lack > 0 {
		se.outOfReach(TooFar, third.lack)
	}
	to := goal.Sub(a1.at).Reject(a1.dir)
	for i := range third.ways() {
		var p placing
		p.note(&third, 2, i, ElbowFlip, AtElbow, se.hold[2])
		at := a3.about(p.q[2], d.center)
		from := at.Sub(a2.at).Reject(a2.dir)
		second := distanceTurn(se, a1.at.Sub(a2.at).Reject(a2.dir), a2.dir, from, to.Norm())
		for k := range second.ways() {
			w := p
			w.note(&second, 1, k, ShoulderFlip, AtShoulder, se.hold[1])
			w.last(0, a1.dir, a2.about(w.q[1], at).Sub(a1.at), to, se.hold[0])
			list[n] = w
			n++
		}
	}
	return n
}

// distanceTurn is subproblem 3 by way of 4: the angle about axis at which v
// (m) is far (m) away from u (m).
func distanceTurn(se *search, u, axis, v r3.Vec, far float64) planeTurn {
	sum := u.Dot(u) + v.Dot(v)
	slack := reachSlack * (far + reachSlack)
	p := newPlaneTurn(u, axis, v, (sum-far*far)/2, slack)
	if p.lack > 0 {
		mean := sum - 2*u.Dot(axis)*axis.Dot(v)
		if most := math.Sqrt(mean + 2*p.swing); far > most {
			se.outOfReach(TooFar, far-most)
		} else {
			se.outOfReach(TooNear, math.Sqrt(max(mean-2*p.swing, 0))-far)
		}
	}
	return p
}

// orient adds the one or two ways of the wrist for one placing; turned is what
// all six turns do together.
func (d *decoupled) orient(se *search, p *placing, turned se3.Rot) {
	h := &d.axes
	arm := se3.RotAxis(h[0].dir, p.q[0]).Mul(se3.RotAxis(h[1].dir, p.q[1])).Mul(se3.RotAxis(h[2].dir, p.q[2]))
	wrist := arm.T().Mul(turned) // the turns of joints 4, 5 and 6
	axis6 := wrist.Apply(h[5].dir)
	fifth := newPlaneTurn(h[3].dir, h[4].dir, h[5].dir, h[3].dir.Dot(axis6), attitudeSlack)
	if fifth.lack > 0 {
		fixed := h[3].dir.Dot(h[4].dir) * h[4].dir.Dot(h[5].dir)
		is := math.Acos(clamp(h[3].dir.Dot(axis6)))
		se.wrongAttitude(max(math.Acos(clamp(fixed+fifth.swing))-is, is-math.Acos(clamp(fixed-fifth.swing))))
	}
	for i := range fifth.ways() {
		c := se.add(p.branch|Branch(i)*WristFlip, p.near, p.held, 1)
		copy(c.q[:3], p.q[:])
		c.q[4] = fifth.angle(i, se.hold[4])
		turn5 := se3.RotAxis(h[4].dir, c.q[4])
		t4, known := turnOnto(h[3].dir, turn5.Apply(h[5].dir), axis6)
		if !known {
			t4 = se.hold[3]
			c.held |= 1 << 3
		}
		if !known || fifth.sine < NearSingular {
			c.near |= AtWrist
		}
		c.q[3] = t4
		x := h[5].dir.Orthogonal()
		turn6 := se3.RotAxis(h[3].dir, t4).Mul(turn5).T().Mul(wrist)
		c.q[5], _ = turnOnto(h[5].dir, x, turn6.Apply(x))
	}
}

// singularity returns the angles of the two planeTurns and of the wrist's from
// where their two ways meet.
func (d *decoupled) singularity(q *Q) (out Singularity) {
	h := &d.axes
	at3 := h[2].about(q[2], d.center)
	switch d.family {
	case WristMeet12:
		out.Elbow = offTangent(d.joint.Sub(h[2].at), h[2].dir, at3.Sub(h[2].at))
		out.Shoulder = offTangent(h[0].dir, h[1].dir, h[1].about(q[1], at3).Sub(d.joint))
	case WristMeet23:
		goal := h[1].about(q[1], at3) // before joint 1
		out.Shoulder = offTangent(d.joint.Sub(h[0].at), h[0].dir, goal.Sub(h[0].at))
		out.Elbow = offTangent(h[1].dir, h[2].dir, at3.Sub(d.joint))
	case WristParallel12:
		out.Elbow = offTangent(h[0].dir, h[2].dir, at3.Sub(h[2].at))
		out.Shoulder = offTangent(h[0].at.Sub(h[1].at), h[1].dir, h[1].about(q[1], at3).Sub(h[1].at))
	}
	out.Wrist = offTangent(h[3].dir, h[4].dir, se3.RotAxis(h[4].dir, q[4]).Apply(h[5].dir))
	return out
}
