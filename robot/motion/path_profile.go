package motion

import "math"

// profile is a motion from rest to rest along a grid of path positions, in pieces of
// which each is known in closed form.
type profile struct {
	at    []float64 // grid positions, rising
	piece []piece   // piece i leads from at[i] to at[i+1]
	time  []float64 // at the grid positions, s
}

// piece is the motion from one grid position to the next. In between, v^2 = v0^2 +
// 2 u x + k x^2 at a distance x from the piece's start: the acceleration u + k x runs
// straight over the path and the jerk is k v. A piece that starts or ends at rest may
// have constant jerk instead, which no such law does in finite time.
type piece struct {
	length float64
	v0, v1 float64 // speed at start and end
	u, k   float64
	jerk   float64 // of a piece with constant jerk from or to rest; 0 for the others
	time   float64 // s
}

// newPiece is a piece that is left in finite time unless both speeds are 0.
func newPiece(length, v0, v1, u, k float64) piece {
	p := piece{length: length, v0: v0, v1: v1, u: u, k: k}
	p.time = p.reaches(length, v1)
	return p
}

// restPiece has constant jerk from rest to speed v, or from v to rest.
func restPiece(length, v float64, starts bool) piece {
	t := 3 * length / v
	p := piece{length: length, jerk: 6 * length / (t * t * t), time: t}
	if starts {
		p.v1 = v
	} else {
		p.v0 = v
	}
	return p
}

// starts reports whether a piece of constant jerk starts at rest.
func (p *piece) starts() bool { return p.v0 == 0 }

// reaches returns when the piece has made the distance x, where its speed is v, s.
// From s” = u + k s follow v - v0 and x as multiples of tanh(wt/2)/w with w^2 = k, so
// that tanh(wt/2)/w = x/(v0+v).
func (p *piece) reaches(x, v float64) float64 {
	if x == 0 {
		return 0
	}
	half := x / (p.v0 + v)
	y := p.k * half * half
	switch {
	case math.Abs(y) < 1e-3: // to 1e-16: y^5/11
		return 2 * half * (1 + y*(1.0/3+y*(1.0/5+y*(1.0/7+y/9))))
	case y > 0:
		r := math.Sqrt(y)
		return 2 * half * math.Atanh(min(r, 1)) / r
	}
	r := math.Sqrt(-y)
	return 2 * half * math.Atan(r) / r
}

// speedAt returns the speed at a distance x from the start, and its rates: over
// time, and the jerk.
func (p *piece) speedAt(x float64) (v, a, j float64) {
	if p.jerk == 0 {
		v = math.Sqrt(max(0, p.v0*p.v0+x*(2*p.u+p.k*x)))
		return v, p.u + p.k*x, p.k * v
	}
	if p.starts() {
		f := math.Cbrt(x / p.length)
		return p.v1 * f * f, p.jerk * p.time * f, p.jerk
	}
	f := math.Cbrt(max(0, 1-x/p.length))
	return p.v0 * f * f, -p.jerk * p.time * f, p.jerk
}

// timeAt returns when the piece has made the distance x, s.
func (p *piece) timeAt(x float64) float64 {
	if p.jerk == 0 {
		v, _, _ := p.speedAt(x)
		return p.reaches(x, v)
	}
	if p.starts() {
		return p.time * math.Cbrt(x/p.length)
	}
	return p.time * (1 - math.Cbrt(max(0, 1-x/p.length)))
}

// after returns distance, speed and acceleration a time t (s) after the start.
func (p *piece) after(t float64) (x, v, a float64) {
	switch {
	case p.jerk != 0 && p.starts():
		return p.jerk * t * t * t / 6, p.jerk * t * t / 2, p.jerk * t
	case p.jerk != 0:
		left := p.time - t
		return p.length - p.jerk*left*left*left/6, p.jerk * left * left / 2, -p.jerk * left
	}
	c, s1, s2 := harmonic(p.k, t)
	x = p.v0*s1 + p.u*s2
	return x, p.v0*c + p.u*s1, p.u + p.k*x
}

// harmonic returns cosh(wt), sinh(wt)/w and (cosh(wt)-1)/w^2 for w^2 = k of either
// sign or 0.
func harmonic(k, t float64) (c, s1, s2 float64) {
	z := k * t * t
	switch {
	case math.Abs(z) < 1e-2: // to 1e-16 of 1
		c = 1 + z/2*(1+z/12*(1+z/30*(1+z/56*(1+z/90))))
		s1 = t * (1 + z/6*(1+z/20*(1+z/42*(1+z/72*(1+z/110)))))
		s2 = t * t / 2 * (1 + z/12*(1+z/30*(1+z/56*(1+z/90*(1+z/132)))))
	case z > 0:
		w := math.Sqrt(k)
		c, s1 = math.Cosh(w*t), math.Sinh(w*t)/w
		s2 = (c - 1) / k
	default:
		w := math.Sqrt(-k)
		c, s1 = math.Cos(w*t), math.Sin(w*t)/w
		s2 = (c - 1) / k
	}
	return c, s1, s2
}

// newProfile strings pieces together.
func newProfile(at []float64, pieces []piece) *profile {
	p := &profile{at: at, piece: pieces, time: make([]float64, len(at))}
	for i := range pieces {
		p.time[i+1] = p.time[i] + pieces[i].time
	}
	return p
}

// duration returns the time from rest to rest, s.
func (p *profile) duration() float64 { return p.time[len(p.time)-1] }

// peak returns the highest speed at a grid position.
func (p *profile) peak() float64 {
	top := 0.0
	for i := range p.piece {
		top = max(top, p.piece[i].v0, p.piece[i].v1)
	}
	return top
}

// after returns position, speed and acceleration at a time t (s) of the motion,
// more than 0 and less than its duration.
func (p *profile) after(t float64) (s, v, a float64) {
	i := holding(p.time, t)
	x, v, a := p.piece[i].after(t - p.time[i])
	return min(max(p.at[i]+x, p.at[i]), p.at[i+1]), v, a
}

// timeAt returns when a position s inside the grid is passed, s.
func (p *profile) timeAt(s float64) float64 {
	i := holding(p.at, s)
	return p.time[i] + p.piece[i].timeAt(s-p.at[i])
}

// speedAt returns the speed at a position inside the grid, and its rates.
func (p *profile) speedAt(s float64) (v, a, j float64) {
	i := holding(p.at, s)
	return p.piece[i].speedAt(s - p.at[i])
}
