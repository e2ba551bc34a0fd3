package motion

import (
	"fmt"
	"math"
	"slices"
)

// jerkPhase solves the fastest-profile problem with jerk limited, over x = v^2 along
// the path. On a grid, x is a parabola over each interval, with a continuous
// derivative: a quadratic B-spline, whose coefficients are the unknowns. Then speed
// and acceleration limits are linear in them, as in phase, and a joint's jerk
//
//	v (q' k + 3 q" u + q"' x),  u = x'/2, k = x"/2,
//
// within its limit J means |q'k + 3q"u + q"'x| <= J/v. The right side is convex in x,
// so that its tangent at any x is a stricter, linear bound.
//
// Method: logarithmic barrier with Newton's method, each step with those tangents at
// the present profile: all profiles on the way keep all limits at both ends of every
// interval. Sequential tangents for jerk along a given path are of the literature on
// speed planning (Consolini and others, 2019 to 2022; from memory). The end is a local
// optimum, within gapMost of that of the problem with the tangents there; rest to
// rest along a line, where the optimum is known, tests measure how much is lost. From
// and to rest x grows with the power 4/3 of the way, which no parabola does: the first
// and the last interval have constant jerk.
//
// Between grid points a joint's acceleration is not held. Where the path's own jerk is
// unlimited and the joint turns round it may be over by 40 percent however fine the grid,
// and the stretch slows the whole motion for it: by a fifth for one of 4500 random paths,
// by 2 percent at most for the others.
type jerkPhase struct {
	grid *gridPath
	req  *PathRequest
	fast *profile // without a limit of jerk: no profile is faster, but for its grid
	knot splineKnots
	rows []jerkRow
	mids []weighted // terms of the time: share/sqrt(x)
	c    []float64  // the unknowns
}

// weighted is a linear form of up to three neighbouring unknowns from base on.
type weighted struct {
	base  int
	w     [3]float64
	share float64
}

func (f *weighted) of(c []float64) float64 {
	return f.w[0]*c[f.base] + f.w[1]*c[f.base+1] + f.w[2]*c[f.base+2]
}

// jerkRow is the bound |g| <= 1, 0 <= g <= 1 where g must be positive, or
// |g| sqrt(x) <= 1 where it is one on jerk.
type jerkRow struct {
	g              weighted
	x              weighted
	jerk, positive bool
}

// Parameters of the barrier method.
const (
	// gapMost is the share of the time that the barrier may cost, dimensionless.
	gapMost = 3e-4
	// gapFirst is the share at the beginning and gapFall the factor from one barrier
	// to the next.
	gapFirst, gapFall = 0.5, 0.1
	// inside is how much of the joints' acceleration and jerk limits is used at the
	// grid points, dimensionless: what lies between them needs the rest.
	inside = 0.995
	// newtonMost bounds the steps for one barrier.
	newtonMost = 12
	// newtonWorth is the square of the Newton decrement, in barriers, below which a
	// step at the last barrier is not worth its time; before, 1 will do.
	newtonWorth = 0.1
)

func (r *PathRequest) jerkPhase(g *gridPath, fast *profile) *jerkPhase {
	p := &jerkPhase{grid: g, req: r, fast: fast, knot: newSplineKnots(g.at)}
	p.setRows()
	return p
}

// setRows sets up all bounds that can be reached, and the terms of the time.
func (p *jerkPhase) setRows() {
	k := &p.knot
	n := len(k.t)
	for i := range k.unknowns() {
		top := p.topSpeed(i + 1)
		p.rows = append(p.rows, jerkRow{g: k.unknown(i, 1/(top*top)), positive: true})
	}
	p.mids = append(p.mids, k.ended(0, 3*(k.t[0]-p.grid.at[0])), k.ended(n-1, 3*(p.grid.at[len(p.grid.at)-1]-k.t[n-1])))
	p.endRows()
	for i := range n {
		from := p.grid.start(i + 1)
		p.accelRows(i, &from)
		if i+1 < n {
			to := p.grid.end(i + 1)
			p.jerkRows(i, &from, &to)
			h := k.t[i+1] - k.t[i]
			a, b, m := k.value(i), k.value(i+1), k.middle(i)
			a.share, b.share, m.share = h/6, h/6, 4*h/6 // Simpson's rule
			p.mids = append(p.mids, a, b, m)
		}
	}
}

// topSpeed is the highest speed in interval i of the grid at which no joint exceeds
// its speed limit. (It bounds the coefficient of the spline that belongs to the
// interval: x is a mean of such coefficients.)
func (p *jerkPhase) topSpeed(i int) float64 {
	top := math.Inf(1)
	for f := range 3 {
		s := p.grid.at[i] + float64(f)/2*(p.grid.at[i+1]-p.grid.at[i])
		d, _, _ := p.grid.curve.jet(p.grid.on[i], s)
		top = min(top, p.req.topSpeed(s, &d))
	}
	return top
}

// most is a speed at a place that no profile exceeds.
func (p *jerkPhase) most(s float64) float64 {
	v, _, _ := p.fast.speedAt(s)
	return 1.05 * v // what the coarse grid may hide
}

// accelRows bounds the accelerations at knot i.
func (p *jerkPhase) accelRows(i int, at *station) {
	u, x := p.knot.slope(i), p.knot.value(i)
	p.rows = append(p.rows, jerkRow{g: u.scaled(1 / p.req.Accel)})
	v := p.most(p.knot.t[i])
	for j, l := range p.req.Limits {
		if math.Abs(at.d[j])*p.req.Accel+math.Abs(at.dd[j])*v*v < inside*l.Accel {
			continue // never reached
		}
		f := 1 / (inside * l.Accel)
		p.rows = append(p.rows, jerkRow{g: u.scaled(at.d[j]*f).plus(x, at.dd[j]*f)})
	}
}

// jerkRows bounds the jerks at both ends of the interval behind knot i.
func (p *jerkPhase) jerkRows(i int, from, to *station) {
	k := p.knot.bend(i)
	path := LawLimits{Jerk: p.req.Jerk}.jerk()
	for e, at := range []*station{from, to} {
		u, x := p.knot.slope(i+e), p.knot.value(i+e)
		x.base, x.w = align(x, k.base)
		if !math.IsInf(path, 1) {
			p.rows = append(p.rows, jerkRow{g: k.scaled(1 / path), x: x, jerk: true})
		}
		v := p.most(p.knot.t[i+e])
		for j, l := range p.req.Limits {
			limit := inside * l.jerk()
			reached := v * (3*math.Abs(at.dd[j])*p.req.Accel + math.Abs(at.ddd[j])*v*v)
			if at.d[j] != 0 {
				reached += math.Abs(at.d[j]) * path
			}
			if reached < limit {
				continue
			}
			g := k.scaled(at.d[j]/limit).plus(u, 3*at.dd[j]/limit).plus(x, at.ddd[j]/limit)
			p.rows = append(p.rows, jerkRow{g: g, x: x, jerk: true})
		}
	}
}

// endRows bounds x at both ends of the spline so that the pieces of constant jerk
// from and to rest keep all limits: there jerk is 2/9 v^3/h^2, acceleration 2/3 v^2/h.
func (p *jerkPhase) endRows() {
	n := len(p.knot.t)
	last := len(p.grid.at) - 2
	for _, end := range []struct {
		knot, interval int
		sign           float64
	}{{0, 0, 1}, {n - 1, last, -1}} {
		h := p.grid.at[end.interval+1] - p.grid.at[end.interval]
		a, jerk := 2/(3*h), 2/(9*h*h)
		most := min(p.req.Accel/a, math.Pow(LawLimits{Jerk: p.req.Jerk}.jerk()/jerk, 2.0/3))
		for share, at := range []station{p.grid.start(end.interval), p.grid.end(end.interval)} {
			f := float64(share) // of the way from rest
			if end.sign < 0 {
				f = 1 - f
			}
			for j, l := range p.req.Limits {
				most = min(most, inside*l.Accel/math.Abs(end.sign*at.d[j]*a*math.Cbrt(f)+at.dd[j]*math.Pow(f, 4.0/3)))
				rate := math.Abs(at.d[j]*jerk + end.sign*3*at.dd[j]*a*f + at.ddd[j]*f*f)
				most = min(most, math.Pow(inside*l.jerk()/rate, 2.0/3))
			}
		}
		p.rows = append(p.rows, jerkRow{g: p.knot.ended(end.knot, 0).scaled(1 / most), positive: true})
	}
}

// solve returns the profile.
func (p *jerkPhase) solve() (*profile, error) {
	if err := p.begin(); err != nil {
		return nil, err
	}
	b := newBarrier(p)
	for gap := gapFirst; ; gap *= gapFall {
		gap = max(gap, gapMost)
		b.mu = gap * b.time(p.c) / float64(2*len(p.rows))
		b.worth = 1.0
		if gap == gapMost {
			b.worth = newtonWorth
		}
		for range newtonMost {
			if !b.step() {
				break
			}
		}
		if gap == gapMost {
			break
		}
	}
	return p.profile(), nil
}

// begin sets a profile that keeps all limits: the seven-phase law of the path's own
// limits and the joints' tightest, slowed until it does.
func (p *jerkPhase) begin() error {
	limits := LawLimits{Speed: p.req.Wanted, Accel: p.req.Accel, Jerk: p.req.Jerk}
	for i := range p.grid.on {
		at := p.grid.start(i)
		for j, l := range p.req.Limits {
			if d := math.Abs(at.d[j]); d > 0 {
				limits.Accel, limits.Jerk = min(limits.Accel, l.Accel/d), min(limits.jerk(), l.jerk()/d)
			}
		}
	}
	start := p.grid.at[0]
	length := p.grid.at[len(p.grid.at)-1] - start
	law, err := NewSevenPhase(length, limits)
	if err != nil {
		return fmt.Errorf("motion: path law: the limits along the path, with those of the joints there: %w", err)
	}
	p.c = make([]float64, p.knot.unknowns())
	floor := 1e-9 * law.speed * law.speed
	for i := range p.c {
		_, v, _ := law.At(law.passing(p.knot.middles(i) - start))
		p.c[i] = max(v*v, floor)
	}
	slow := 1.0
	for i := range p.rows {
		r := &p.rows[i]
		y := math.Abs(r.g.of(p.c))
		switch {
		case y == 0:
		case r.jerk:
			slow = min(slow, math.Pow(0.8/(y*math.Sqrt(r.x.of(p.c))), 2.0/3))
		default:
			slow = min(slow, 0.8/y)
		}
	}
	for i := range p.c {
		p.c[i] *= slow
	}
	return nil
}

// profile strings the intervals together.
func (p *jerkPhase) profile() *profile {
	at, k := p.grid.at, &p.knot
	n := len(k.t)
	v := func(i int) float64 {
		x := k.value(i)
		return math.Sqrt(x.of(p.c))
	}
	pieces := make([]piece, 0, n+1)
	pieces = append(pieces, restPiece(at[1]-at[0], v(0), true))
	for i := range n - 1 {
		u, bend := k.slope(i), k.bend(i)
		pieces = append(pieces, newPiece(k.t[i+1]-k.t[i], v(i), v(i+1), u.of(p.c), bend.of(p.c)))
	}
	pieces = append(pieces, restPiece(at[n+1]-at[n], v(n-1), false))
	return newProfile(slices.Clone(at), pieces)
}
