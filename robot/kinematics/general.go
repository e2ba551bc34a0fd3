package kinematics

import (
	"math"
	"slices"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

const (
	// bendOfWay is how far the way to a pose leaves the real poses.
	bendOfWay = 0.6
	// mostTries is how often the ways are gone, from other start poses and
	// with more care, until every posture is accounted for.
	mostTries = 3
	// beside (rad) is how far from the pose a last try aims, where ways get
	// lost because postures are not isolated at the pose itself; nearReal (rad)
	// is then the imaginary part below which a posture is tried as a real one.
	beside   = 1e-5
	nearReal = 1e-2
)

// ends collects the real postures that the ways arrived at.
type ends struct {
	n int
	q [MaxSolutions]cxQ
}

// solveGeneral is SolveAlong for General; a nil trail remembers nothing.
func (s *Solver) solveGeneral(trail *Trail, t *se3.Pose, se *search, out *Solutions) {
	var list [MaxSolutions]candidate
	var once Trail
	if trail == nil {
		trail = &once
	}
	s.general.solve(trail, se, t, &list)
	s.correct(t, se, list[:])
	s.choose(se, list[:], out)
}

// solve writes a candidate for every real posture at pose t, which it looks for
// beside those of the trail first.
func (k *continuation) solve(trail *Trail, se *search, t *se3.Pose, found *[MaxSolutions]candidate) {
	if by := k.chain.beyond(t); by > 0 {
		se.reach, se.missing = TooFar, by
		return
	}
	var list ends
	if trail.of == k && k.along(trail, t) {
		k.gatherReal(trail.q[:trail.n], realWithin, &list)
	} else {
		k.solveAfresh(trail, se, t, &list)
	}
	k.offer(&list, found)
	se.have = 1<<list.n - 1
	if list.n == 0 {
		se.reach = NotKnown
	}
}

// solveAfresh adds every real posture at pose t to list and leaves all at trail.
// Every try goes the ways of all postures from one start pose. At a real pose
// complex postures come in conjugate pairs; a try in which all postures arrive,
// in pairs and none twice, accounts for all of them.
func (k *continuation) solveAfresh(trail *Trail, se *search, t *se3.Pose, list *ends) {
	var order [startPoses]int
	k.nearest(t, &order)
	trail.of = nil
	for try := range min(mostTries, len(k.starts)) {
		if k.try(&k.starts[order[try]], t, realWithin, list, trail) {
			trail.of = k
			return
		}
	}
	se.lost = true
	aside := se3.Pose{R: t.R.Mul(se3.Exp(r3.Vec{X: beside, Y: -0.7 * beside, Z: 0.4 * beside})), P: t.P}
	aside.P = aside.P.Add(r3.Vec{X: 0.3, Y: 0.8, Z: -0.5}.Scale(beside * k.length))
	k.try(&k.starts[order[0]], &aside, nearReal, list, trail)
}

// beyond returns how far (m), at least, the flange at t lies beyond the arm
// stretched out, were all its axes ball joints; 0 where it does not, or where a
// joint slides.
func (c *Chain) beyond(t *se3.Pose) float64 {
	if c.slidesAnywhere() {
		return 0
	}
	f := &c.form
	foot := f.base.P.AddScaled(f.steps[0].d, f.base.R.Z())
	length := math.Abs(f.steps[0].a) + math.Abs(f.tail.e)
	if f.steps[0].kind == general {
		foot, length = f.base.P, f.steps[0].onwards.P.Norm()+math.Abs(f.tail.e)
	}
	for _, s := range f.steps[1:c.n] {
		if s.kind == general {
			length += s.onwards.P.Norm()
		} else {
			length += math.Hypot(s.a, s.d)
		}
	}
	return max(0, t.P.Dist(foot)-length-reachSlack)
}

// nearest writes the indices of the start poses, the nearest to t first.
func (k *continuation) nearest(t *se3.Pose, order *[startPoses]int) {
	var far [startPoses]float64
	for i := range k.starts {
		s := &k.starts[i].pose
		v := s.P.Dist(t.P)/k.length + s.R.AngleTo(t.R)
		at := i
		for ; at > 0 && far[at-1] > v; at-- {
			far[at], order[at] = far[at-1], order[at-1]
		}
		far[at], order[at] = v, i
	}
}

// try follows every posture of s to t, first briskly, then those with care that
// did not arrive or arrived as no other posture's conjugate or as another. It
// adds those with imaginary parts below within (rad) to list, writes all to
// trail and reports whether all are accounted for.
func (k *continuation) try(s *start, t *se3.Pose, within float64, list *ends, trail *Trail) bool {
	l := newLeg(&s.pose, t, bendOfWay)
	tr := tracker{chain: k.chain, leg: &l, unit: &k.unit}
	all := &trail.q
	var lost [mostPostures]bool
	n := copy(all[:], s.q)
	for i := range n {
		lost[i] = !tr.follow(&all[i], briskPace)
	}
	for i := range n {
		lost[i] = lost[i] || !k.sound(all[:n], i)
	}
	for i := range n {
		if lost[i] {
			all[i] = s.q[i]
			lost[i] = !tr.follow(&all[i], steadyPace)
		}
	}
	trail.n = 0
	for i := range n {
		if !lost[i] {
			k.gatherReal(all[i:i+1], within, list)
		}
	}
	for i := range n {
		if lost[i] || !k.sound(all[:n], i) {
			return false
		}
	}
	trail.n = n
	return true
}

// gatherReal adds those of all to list whose imaginary parts are below within
// (rad) and which it does not hold yet.
func (k *continuation) gatherReal(all []cxQ, within float64, list *ends) {
	for i := range all {
		if k.imaginary(&all[i]) < within && list.n < len(list.q) && k.find(list.q[:list.n], &all[i], sameComplex) < 0 {
			list.q[list.n] = all[i]
			list.n++
		}
	}
}

// sound reports whether posture i of list, which is for a real pose, has its
// conjugate there and no equal.
func (k *continuation) sound(list []cxQ, i int) bool {
	var conj cxQ
	for j, v := range list[i] {
		conj[j] = complex(real(v), -imag(v))
	}
	if k.find(list, &conj, realWithin) < 0 {
		return false
	}
	for j := range list {
		if j != i && k.apart(&list[j], &list[i]) < sameComplex {
			return false
		}
	}
	return true
}

// imaginary returns the largest imaginary part of q, rad.
func (k *continuation) imaginary(q *cxQ) float64 {
	m := 0.0
	for i, v := range q {
		m = max(m, math.Abs(imag(v))/k.unit[i])
	}
	return m
}

// offer writes the real postures in order as candidates, to be corrected.
func (k *continuation) offer(list *ends, found *[MaxSolutions]candidate) {
	for i := range list.n {
		c := &found[i]
		var q Q
		for j, v := range list.q[i] {
			q[j] = real(v)
			if k.chain.joints[j].Kind != Prismatic {
				q[j] -= wholeTurn * math.Round(q[j]/wholeTurn)
			}
		}
		copy(c.q[:], q[:6])
		c.err = 1
		if k.chain.determinant(&q) < 0 {
			c.branch = 1
		}
	}
	slices.SortFunc(found[:list.n], func(a, b candidate) int {
		if a.branch != b.branch {
			return int(a.branch) - int(b.branch)
		}
		return slices.Compare(a.q[:], b.q[:])
	})
}

// isSingular reports whether the arm loses a direction of motion at joint values
// q (rad or m).
func (k *continuation) isSingular(q *[6]float64) bool {
	var full Q
	copy(full[:], q[:])
	if gainAngle(k.chain.gainAtLeast(&full, k.length)) > 2*NearSingular {
		return false
	}
	return gainAngle(k.chain.leastGain(&full, k.length)) < NearSingular
}
