package motion

import "math"

// phase solves the fastest-profile problem on a grid in the phase plane of
// x = v^2 and u = dv/dt, where each joint's acceleration q'u + q”x is linear.
// Between two grid points u is constant, so x is linear: x' = 2u.
//
// Method: reachability analysis, Pham and Pham, A New Approach to Time-Optimal
// Path Parameterization based on Reachability Analysis, IEEE T-RO 34(3), 2018
// (from memory), with every interval's bounds imposed at both its ends, which
// avoids the chatter of imposing them at one end only. Since rest is always
// allowed, the controllable set of a grid point is an interval from 0.
type phase struct {
	accel float64     // bound on |u|
	step  []float64   // length of interval i
	top   []float64   // largest x at grid point i from the speed limits
	rows  [][]halfRow // acceleration bounds of interval i
	reach []float64   // largest x at grid point i from which rest at the end can be reached
}

// halfRow is the bound a*u + b*x <= c with c > 0, x taken where the interval begins.
type halfRow struct{ a, b, c float64 }

// rowTiny is the share of a row's bound that a*u can make up at most for the row
// to count as a bound on x alone; beyond it c/a would lose all digits.
const rowTiny = 1e-12

// onX reports whether row r bounds x alone.
func (p *phase) onX(r halfRow) bool { return math.Abs(r.a)*p.accel <= rowTiny*r.c }

// newton is the largest number of steps in controllable; the function is
// piecewise linear and each step leaves at least one of some 30 pieces.
const newton = 64

// solve returns x at every grid point for the fastest profile from rest to rest.
func (p *phase) solve() []float64 {
	n := len(p.top)
	p.reach = make([]float64, n)
	for i := n - 2; i >= 0; i-- {
		p.reach[i] = p.controllable(i)
	}
	x := make([]float64, n)
	for i := range n - 1 {
		_, high := p.span(i, x[i])
		x[i+1] = min(max(x[i]+2*p.step[i]*high.at(x[i]), 0), p.reach[i+1])
	}
	return x
}

// line is u as a linear function of x: c - b x.
type line struct{ b, c float64 }

func (l line) at(x float64) float64 { return l.c - l.b*x }

// span returns the lines that bound u from below and above at x in interval i.
func (p *phase) span(i int, x float64) (low, high line) {
	low, high = line{c: math.Inf(-1)}, line{c: math.Inf(1)}
	bound := func(r halfRow) {
		l := line{b: r.b / r.a, c: r.c / r.a}
		switch {
		case p.onX(r): // see controllable
		case r.a > 0 && l.at(x) < high.at(x):
			high = l
		case r.a < 0 && l.at(x) > low.at(x):
			low = l
		}
	}
	for _, r := range p.rows[i] {
		bound(r)
	}
	next := 2 * p.step[i] // 0 <= x + next*u <= reach of the next point
	if l := (line{b: 1 / next, c: p.reach[i+1] / next}); l.at(x) < high.at(x) {
		high = l
	}
	if l := (line{b: 1 / next}); l.at(x) > low.at(x) {
		low = l
	}
	return low, high
}

// controllable returns the largest x of interval i for which some u is within
// all bounds. The room between the bounds on u is a concave function of x that
// is not negative at 0; Newton's method from the right finds its last root.
func (p *phase) controllable(i int) float64 {
	x := p.top[i]
	for _, r := range p.rows[i] {
		if r.b > 0 && p.onX(r) {
			x = min(x, r.c/r.b)
		}
	}
	for range newton {
		low, high := p.span(i, x)
		room := high.at(x) - low.at(x)
		if room >= 0 {
			return x
		}
		root := (high.c - low.c) / (high.b - low.b)
		if !(root < x) { // the remaining gap is rounding
			return x
		}
		x = max(root, 0)
	}
	return 0 // rest: always allowed, never reached in practice
}

// profile strings the intervals of constant acceleration together.
func (p *phase) profile(at, x []float64) *profile {
	pieces := make([]piece, len(p.step))
	for i, step := range p.step {
		pieces[i] = newPiece(step, math.Sqrt(x[i]), math.Sqrt(x[i+1]), (x[i+1]-x[i])/(2*step), 0)
	}
	return newProfile(at, pieces)
}
