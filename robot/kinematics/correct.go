package kinematics

import (
	"math"
	"math/bits"

	"seamwright/geom/se3"
)

// Solve promises 1e-9 m and 1e-9 rad; a tenth is left for putting a joint on
// its limit and for the rounding of whoever checks.
const (
	positionWithin    = 9e-10 // m
	orientationWithin = 9e-10 // rad
)

// correct improves the candidates whose closing error is more than rounding,
// and drops those that cannot be brought to the promised accuracy.
func (s *Solver) correct(t *se3.Pose, se *search, cand []candidate) {
	six := allSix()
	for left := se.have; left != 0; left &= left - 1 {
		b := bits.TrailingZeros16(left)
		c := &cand[b]
		if c.err <= closing && c.near == 0 && s.exact {
			continue
		}
		var full Q
		copy(full[:], c.q[:])
		lin, ang := s.chain.newton(t, &full, &six)
		copy(c.q[:], full[:])
		switch {
		case lin > positionWithin:
			se.have &^= 1 << b
			se.outOfReach(TooFar, lin)
		case ang > orientationWithin:
			se.have &^= 1 << b
			se.wrongAttitude(ang)
		}
		if s.general != nil && s.general.isSingular(&c.q) {
			c.near = AtRankLoss
		}
		for j := range c.q {
			if s.slides>>j&1 == 0 {
				c.q[j] = nextTo(c.q[j], se.hold[j])
			}
		}
	}
}

// allSix returns the joints of a chain of six.
func allSix() [6]int { return [6]int{0, 1, 2, 3, 4, 5} }

// newton brings Forward of q (rad or m) nearer to t by its six joints solved
// and returns what is left: m and rad. Steps are damped (Levenberg, Quart. Appl.
// Math. 2, 1944), so that a direction of motion that the posture has lost stays
// as it is.
func (c *Chain) newton(t *se3.Pose, q *Q, solved *[6]int) (lin, ang float64) {
	const rounds, enough, damping = 8, 1e-14, 1e-14
	var jac Jacobian
	var pose se3.Pose
	best := math.Inf(1)
	var kept Q
	for range rounds {
		c.Jacobian(q, &pose, &jac)
		e := smallTwist(t, &pose)
		l := math.Sqrt(e[0]*e[0] + e[1]*e[1] + e[2]*e[2])
		a := math.Sqrt(e[3]*e[3] + e[4]*e[4] + e[5]*e[5])
		if !(l+a < best) {
			break
		}
		best, lin, ang, kept = l+a, l, a, *q
		if best < enough {
			break
		}
		step := damped(&jac, &e, solved, damping)
		for i, j := range solved {
			q[j] += step[i]
		}
	}
	*q = kept
	return lin, ang
}

// smallTwist returns the displacement from p to t in the base's axes, m and
// rad, for orientations that are near to each other (sines for angles).
func smallTwist(t, p *se3.Pose) [6]float64 {
	d := t.P.Sub(p.P)
	w := p.R.X().Cross(t.R.X()).Add(p.R.Y().Cross(t.R.Y())).Add(p.R.Z().Cross(t.R.Z())).Scale(0.5)
	return [6]float64{d.X, d.Y, d.Z, w.X, w.Y, w.Z}
}

// damped returns the step x of the joints solved that makes
// |J x - e|^2 + damping |x|^2 least, by Cholesky's factorisation of the normal
// equations.
func damped(j *Jacobian, e *[6]float64, solved *[6]int, damping float64) (x [6]float64) {
	var a [6][6]float64
	for r, jr := range solved {
		for c, jc := range solved[:r+1] {
			for k := range 6 {
				a[r][c] += j[k][jr] * j[k][jc]
			}
		}
		a[r][r] += damping
		for k := range 6 {
			x[r] += j[k][jr] * e[k]
		}
	}
	for r := range 6 {
		for c := range r + 1 {
			for k := range c {
				a[r][c] -= a[r][k] * a[c][k]
			}
			if r == c {
				a[r][r] = math.Sqrt(max(a[r][r], damping))
			} else {
				a[r][c] /= a[c][c]
			}
		}
	}
	for r := range 6 {
		for k := range r {
			x[r] -= a[r][k] * x[k]
		}
		x[r] /= a[r][r]
	}
	for r := 5; r >= 0; r-- {
		for k := r + 1; k < 6; k++ {
			x[r] -= a[k][r] * x[k]
		}
		x[r] /= a[r][r]
	}
	return x
}
