package kinematics

import "seamwright/geom/se3"

// Trail remembers where SolveAlong was last, so that the next pose near by is
// cheap. It is plain memory for reuse, one for each goroutine and each run of
// neighbouring poses; the zero value remembers nothing, and neither does one that
// another solver used last.
type Trail struct {
	of *continuation // whose postures they are, nil for none
	q  [mostPostures]cxQ
	n  int
}

// SolveAlong is SolveHeld for a pose near the one that trail was last used for,
// and leaves trail there, which may be nil. Of seven and more joints the free
// ones are held at their values in held (rad or m), which may be nil for six.
//
// For General it follows all postures, the complex ones too, from there by
// Newton's method alone. An arm has as many of them at one pose as at another,
// so if as many different ones come out none is missing; otherwise, and where
// trail remembers nothing, the answer is that of Solve. For the closed forms it
// is that of Solve always. Measured along seams, 10 mm a step: a seventeenth of
// the time of Solve (BenchmarkSolveAlong), for five random arms the same
// postures at every pose (TestSolveAlongFindsTheSame).
func (s *Solver) SolveAlong(trail *Trail, held *Q, baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	if s.redundant == nil {
		s.solve(trail, baseFromFlange, seed, out)
		return
	}
	s.redundant.solveHeld(trail, held, baseFromFlange, seed, out)
}

// mostRounds is how many steps of Newton's method a posture may take to a near
// pose.
const mostRounds = 6

// along takes the trail's postures to pose t and reports whether all are
// accounted for. Of a conjugate pair one is taken and the other mirrored.
func (k *continuation) along(trail *Trail, t *se3.Pose) bool {
	goal := complexPose(t)
	tr := tracker{chain: k.chain, unit: &k.unit}
	var all [mostPostures]cxQ
	n := 0
	for i := range trail.n {
		q := trail.q[i]
		side := k.side(&q)
		if side < 0 {
			continue // its conjugate is taken
		}
		if !tr.approach(&goal, &q) {
			return false
		}
		all[n] = q
		if n++; side > 0 {
			if n == trail.n {
				return false
			}
			all[n] = q.conjugate()
			n++
		}
	}
	if n != trail.n {
		return false
	}
	for i := range n {
		if k.find(all[:i], &all[i], sameComplex) >= 0 {
			return false
		}
	}
	trail.q = all
	return true
}

// side returns the sign of the first imaginary part of q that is not rounding,
// 0 for a real posture.
func (k *continuation) side(q *cxQ) int {
	for i, v := range q {
		switch im := imag(v) / k.unit[i]; {
		case im > sameComplex:
			return 1
		case im < -sameComplex:
			return -1
		}
	}
	return 0
}

// conjugate returns the posture whose imaginary parts are those of q reversed.
func (q *cxQ) conjugate() (c cxQ) {
	for i, v := range q {
		c[i] = complex(real(v), -imag(v))
	}
	return c
}

// approach takes q to a near pose by Newton's method and reports whether it
// came to rest there.
func (k *tracker) approach(goal *cxPose, q *cxQ) bool {
	const rest = 1e-9 // rad: the next step would be its square
	for range mostRounds {
		switch by := k.improve(goal, q); {
		case by < rest:
			return true
		case !(by < 1):
			return false
		}
	}
	return false
}

// complexPose returns a pose as one whose numbers may be complex.
func complexPose(t *se3.Pose) (p cxPose) {
	for i, v := range t.R {
		p.r[i] = complex(v, 0)
	}
	p.p = [3]complex128{complex(t.P.X, 0), complex(t.P.Y, 0), complex(t.P.Z, 0)}
	return p
}
