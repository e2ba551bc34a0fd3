package kinematics

import (
	"math"
	"math/rand/v2"

	"seamwright/geom/se3"
)

// continuation finds every posture of any six-joint arm. For one pose all
// postures, the complex ones included, are known; they are followed while the
// pose moves to the one that is asked for, and the real ones among them are
// the answer. Their number does not change on the way, so nothing can be
// missed but by a step that jumps from one posture's way to another's.
//
// Method: coefficient-parameter homotopy, A. P. Morgan and A. J. Sommese, Appl.
// Math. Comput. 29 (1989); start postures by monodromy, after T. Duff et
// al., IMA J. Numer. Anal. 39 (2019); both from memory. That at most 16 postures
// exist: E. J. F. Primrose, Mech. Mach. Theory 21 (1986), from memory.
type continuation struct {
	chain  *Chain
	unit   [6]float64 // what counts as one radian of each joint, rad or m
	length float64    // m, what counts as one radian of the flange
	starts []start
}

// start is a pose with all its postures.
type start struct {
	pose se3.Pose
	q    []cxQ
}

// mostPostures is the most that a six-joint arm has for one pose.
const mostPostures = 16

const (
	// startPoses is how many poses with known postures there are: the nearer
	// the one taken, the shorter the way.
	startPoses = 24
	// quietPostures is how many random postures in a row must bring nothing new
	// before the list of a pose's postures counts as whole.
	quietPostures = 200
	// realWithin (rad): a posture with imaginary parts below this is tried as a
	// real one. At a singularity two postures meet, and rounding of 1e-16 parts
	// them by its square root.
	realWithin = 1e-4
	// sameComplex (rad) is how near two ends of different ways may come.
	sameComplex = 1e-6
)

// newContinuation learns the arm, which takes some 10 to 200 ms. ok is false
// where its joints lose a direction of motion in every posture.
func newContinuation(c *Chain) (k *continuation, ok bool) {
	k = &continuation{chain: c, length: c.leverLength()}
	for i := range 6 {
		if k.unit[i] = 1; c.joints[i].Kind == Prismatic {
			k.unit[i] = k.length
		}
	}
	rng := rand.New(rand.NewPCG(6, 16))
	if k.isDegenerate(rng) {
		return nil, false
	}
	first := k.gather(rng)
	k.starts = append(k.starts, first)
	for tries := 0; len(k.starts) < startPoses && tries < 4*startPoses; tries++ {
		if s, ok := k.moved(&first, rng); ok {
			k.starts = append(k.starts, s)
		}
	}
	return k, true
}

// randomPosture draws joint values, rad or m.
func (k *continuation) randomPosture(rng *rand.Rand) (q Q) {
	for i := range 6 {
		q[i] = (2*rng.Float64() - 1) * math.Pi
		if k.chain.joints[i].Kind == Prismatic {
			q[i] = (2*rng.Float64() - 1) * k.length
		}
	}
	return q
}

// isDegenerate reports whether the six joints lose a direction of motion in
// every posture.
func (k *continuation) isDegenerate(rng *rand.Rand) bool {
	for range 8 {
		q := k.randomPosture(rng)
		if k.chain.leastGain(&q, k.length) > 1e-7 {
			return false
		}
	}
	return true
}

// gather finds every posture of one pose. A random posture is one of those of
// its own pose; followed from there to the one pose it becomes one of those,
// real or not, and which one depends on the way. The list is whole when many
// postures in a row bring nothing new.
func (k *continuation) gather(rng *rand.Rand) start {
	var s start
	q := k.randomPosture(rng)
	k.chain.Forward(&q, &s.pose)
	for quiet := 0; quiet < quietPostures && len(s.q) < mostPostures; quiet++ {
		var from se3.Pose
		var c cxQ
		q := k.randomPosture(rng)
		for i := range c {
			c[i] = complex(q[i], 0)
		}
		k.chain.Forward(&q, &from)
		l := newLeg(&from, &s.pose, math.Copysign(0.2+rng.Float64(), rng.Float64()-0.5))
		if k.follow(&l, &c, carefulPace) && s.learn(k, &c) {
			quiet = 0
		}
	}
	return s
}

// learn adds q and, the pose being real, its conjugate, where they are new.
func (s *start) learn(k *continuation, q *cxQ) bool {
	var conj cxQ
	for i := range q {
		conj[i] = complex(real(q[i]), -imag(q[i]))
	}
	learned := false
	for _, v := range []cxQ{*q, conj} {
		if len(s.q) < mostPostures && k.find(s.q, &v, sameComplex) < 0 {
			s.q, learned = append(s.q, v), true
		}
	}
	return learned
}

// moved returns the postures of s followed to a random pose, if all arrive and
// none twice.
func (k *continuation) moved(s *start, rng *rand.Rand) (start, bool) {
	var to start
	q := k.randomPosture(rng)
	k.chain.Forward(&q, &to.pose)
	l := newLeg(&s.pose, &to.pose, 0.3+rng.Float64())
	for _, q := range s.q {
		if !k.follow(&l, &q, carefulPace) || k.find(to.q, &q, sameComplex) >= 0 {
			return to, false
		}
		to.q = append(to.q, q)
	}
	return to, k.paired(to.q)
}

// follow takes q along a leg and reports whether it arrived.
func (k *continuation) follow(l *leg, q *cxQ, p pace) bool {
	t := tracker{chain: k.chain, leg: l, unit: &k.unit}
	return t.follow(q, p)
}

// find returns the index of the posture in list that is q within tol (rad),
// whole turns apart or not, or -1.
func (k *continuation) find(list []cxQ, q *cxQ, tol float64) int {
	for i := range list {
		if k.apart(&list[i], q) < tol {
			return i
		}
	}
	return -1
}

// apart returns the largest difference of two postures, rad, whole turns aside.
func (k *continuation) apart(a, b *cxQ) float64 {
	d := 0.0
	for i := range a {
		re, im := real(a[i])-real(b[i]), imag(a[i])-imag(b[i])
		if k.chain.joints[i].Kind != Prismatic {
			re -= wholeTurn * math.Round(re/wholeTurn)
		}
		d = max(d, math.Hypot(re, im)/k.unit[i])
	}
	return d
}

// paired reports whether all of list is sound.
func (k *continuation) paired(list []cxQ) bool {
	for i := range list {
		if !k.sound(list, i) {
			return false
		}
	}
	return true
}
