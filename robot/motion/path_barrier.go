package motion

import "math"

// barrier minimises time - mu sum log(room) over the rooms that the rows leave below
// and above, as shares of the limit. (Of a bound on jerk that is 1 - |g| sqrt(x): the
// room 1/sqrt(x) - |g| itself would draw the profile towards rest.)
type barrier struct {
	rows []jerkRow
	mids []weighted
	mu   float64
	// worth is the square of the Newton decrement, in barriers, from which a step is
	// taken.
	worth float64

	c, next, grad []float64 // c is the phase's own
	band          [][3]float64
}

func newBarrier(p *jerkPhase) *barrier {
	n := len(p.c)
	return &barrier{rows: p.rows, mids: p.mids, c: p.c, next: make([]float64, n), grad: make([]float64, n), band: make([][3]float64, n)}
}

// time returns the time of a profile, s; +Inf where it would not move.
func (b *barrier) time(c []float64) float64 {
	var t float64
	for i := range b.mids {
		m := &b.mids[i]
		x := m.of(c)
		if !(x > 0) {
			return math.Inf(1)
		}
		t += m.share / math.Sqrt(x)
	}
	return t
}

// merit is what is minimised; +Inf outside the bounds.
func (b *barrier) merit(c []float64) float64 {
	room, logs := 1.0, 0.0
	for i := range b.rows {
		low, high, _ := b.rows[i].rooms(c)
		if !(low > 0 && high > 0) {
			return math.Inf(1)
		}
		room *= low * high // one logarithm for many rows
		if room < 1e-200 || room > 1e200 {
			logs += math.Log(room)
			room = 1
		}
	}
	return b.time(c) - b.mu*(logs+math.Log(room))
}

// rooms returns what is left below and above, and sqrt(x) of a bound on jerk.
func (r *jerkRow) rooms(c []float64) (low, high, root float64) {
	y := r.g.of(c)
	if r.positive {
		return y, 1 - y, 0
	}
	if r.jerk {
		root = math.Sqrt(r.x.of(c))
		y *= root
	}
	return 1 + y, 1 - y, root
}

// step takes one Newton step, and reports whether it was worth it.
func (b *barrier) step() bool {
	n := len(b.c)
	clear(b.grad)
	clear(b.band)
	for i := range b.mids {
		m := &b.mids[i]
		x := m.of(b.c)
		root := 1 / (x * math.Sqrt(x))
		b.add(m.base, &m.w, -m.share/2*root, m.share*3/4*root/x)
	}
	for i := range b.rows {
		r := &b.rows[i]
		low, high, root := r.rooms(b.c)
		if !r.jerk {
			g, h := 1/high-1/low, 1/(high*high)+1/(low*low)
			b.add(r.g.base, &r.g.w, b.mu*g, b.mu*h)
			continue
		}
		// -log(1/sqrt(x) - g) with its tangent in x, and -log(sqrt(x))
		fall := 1 / (2 * root * root)
		var up, down [3]float64
		for e := range up {
			up[e], down[e] = r.g.w[e]*root+fall*r.x.w[e], -r.g.w[e]*root+fall*r.x.w[e]
		}
		b.add(r.g.base, &up, b.mu/high, b.mu/(high*high))
		b.add(r.g.base, &down, b.mu/low, b.mu/(low*low))
		b.add(r.x.base, &r.x.w, -2*b.mu*fall, 4*b.mu*fall*fall)
	}
	copy(b.next, b.grad)
	b.solve(b.next)
	var fall float64 // the square of the Newton decrement
	for i := range n {
		fall += b.grad[i] * b.next[i]
	}
	if !(fall > b.worth*b.mu) {
		return false
	}
	before := b.merit(b.c)
	step := b.grad // not needed any more
	copy(step, b.next)
	for f := 1.0; f > 1e-6; f /= 2 {
		for i := range n {
			b.next[i] = b.c[i] - f*step[i]
		}
		if b.merit(b.next) <= before-1e-4*f*fall {
			copy(b.c, b.next)
			return true
		}
	}
	return false
}

// add adds a term with slope g and curvature h along a form.
func (b *barrier) add(base int, w *[3]float64, g, h float64) {
	b.grad[base] += g * w[0]
	b.grad[base+1] += g * w[1]
	b.grad[base+2] += g * w[2]
	h0, h1 := h*w[0], h*w[1]
	b.band[base][0] += h0 * w[0]
	b.band[base][1] += h0 * w[1]
	b.band[base][2] += h0 * w[2]
	b.band[base+1][0] += h1 * w[1]
	b.band[base+1][1] += h1 * w[2]
	b.band[base+2][0] += h * w[2] * w[2]
}

// solve solves the positive definite system with the band, which it factors in place:
// row i holds the entries (i,i), (i,i+1) and (i,i+2).
func (b *barrier) solve(y []float64) {
	a := b.band
	n := len(y)
	for i := range n {
		d := a[i][0]
		f1, f2 := a[i][1]/d, a[i][2]/d
		if i+1 < n {
			a[i+1][0] -= f1 * a[i][1]
			a[i+1][1] -= f1 * a[i][2]
			y[i+1] -= f1 * y[i]
		}
		if i+2 < n {
			a[i+2][0] -= f2 * a[i][2]
			y[i+2] -= f2 * y[i]
		}
	}
	for i := n - 1; i >= 0; i-- {
		if i+1 < n {
			y[i] -= a[i][1] * y[i+1]
		}
		if i+2 < n {
			y[i] -= a[i][2] * y[i+2]
		}
		y[i] /= a[i][0]
	}
}
