package motion

import "math"

// jerkLimited reports whether the request limits any jerk.
func (r *PathRequest) jerkLimited() bool {
	if r.Jerk != 0 && !math.IsInf(r.Jerk, 1) {
		return true
	}
	for _, l := range r.Limits {
		if !math.IsInf(l.jerk(), 1) {
			return true
		}
	}
	return false
}

// plainTiming is the seven-phase law over a whole path.
type plainTiming struct {
	SevenPhase
	start float64
}

func (p plainTiming) duration() float64 { return p.Duration() }
func (p plainTiming) peak() float64     { return p.Peak() }

func (p plainTiming) after(t float64) (s, v, a float64) {
	s, v, a = p.At(t)
	return s + p.start, v, a
}

func (p plainTiming) timeAt(s float64) float64 { return p.passing(s - p.start) }

func (p plainTiming) speedAt(s float64) (v, a, j float64) {
	t := p.passing(s - p.start)
	_, v, a = p.At(t)
	return v, a, p.JerkAt(t)
}

// passing returns when the law passes the distance x, s.
func (l SevenPhase) passing(x float64) float64 {
	ramp := 2*l.bend + l.hold
	first := l.speed * ramp / 2
	switch {
	case x <= 0:
		return 0
	case x >= l.distance:
		return l.Duration()
	case x <= first:
		return l.gathered(x)
	case x >= l.distance-first:
		return l.Duration() - l.gathered(l.distance-x)
	}
	return ramp + (x-first)/l.speed
}

// gathered returns when the first ramp passes the distance x of it, s: by Newton's
// method, held to a bracket that is halved where it leaves it.
func (l SevenPhase) gathered(x float64) float64 {
	low, high := 0.0, 2*l.bend+l.hold
	t := high * math.Cbrt(x/(l.speed*high/2))
	for range 100 {
		s, v, _, _ := l.gather(t)
		if s < x {
			low = t
		} else {
			high = t
		}
		next := t + (x-s)/v
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-t) <= 1e-15*high {
			return next
		}
		t = next
	}
	return t
}

// plain returns the seven-phase law of the limits along the path if no joint comes
// over its limits with it. Over every piece of the curve the derivatives are bounded
// by their values at its ends (see bounds) and the law by its phases.
func (r *PathRequest) plain(c curve) (plainTiming, bool) {
	knots := c.knots()
	start := knots[0]
	law, err := NewSevenPhase(knots[len(knots)-1]-start, LawLimits{Speed: r.Wanted, Accel: r.Accel, Jerk: r.Jerk})
	if err != nil {
		return plainTiming{}, false
	}
	p := plainTiming{law, start}
	ramp := law.speed * (2*law.bend + law.hold) / 2
	end := law.distance - ramp
	for i := range len(knots) - 1 {
		from, to := knots[i]-start, knots[i+1]-start
		v, a, j := law.speed, law.accel, law.jerk
		switch {
		case from >= ramp && to <= end:
			a, j = 0, 0
		case to < ramp:
			v, _, _ = p.speedAt(knots[i+1])
		case from > end:
			v, _, _ = p.speedAt(knots[i])
		}
		d, dd, ddd := bounds(c, i)
		for k, l := range r.Limits {
			rate := 3*dd[k]*v*a + ddd[k]*v*v*v
			if d[k] > 0 && j > 0 { // j may be unlimited
				rate += d[k] * j
			}
			if d[k]*v > l.Speed*rounded || d[k]*a+dd[k]*v*v > l.Accel*rounded || rate > l.jerk()*rounded {
				return plainTiming{}, false
			}
		}
	}
	return p, true
}

// rounded lets a limit that is met to the last digit count as kept, dimensionless.
const rounded = 1 + 1e-12
