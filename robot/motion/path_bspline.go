package motion

// splineKnots are the knots of a quadratic spline x(s) with single knots inside and
// triple ones at the ends, whose coefficients are unknown. At both ends the spline
// joins pieces of constant jerk from and to rest: there x' = 4x/3 over the length of
// the piece, which ties the second coefficient to the first (and the last but one to
// the last). The tied ones are no unknowns of their own.
type splineKnots struct {
	t           []float64
	tied, tied2 float64 // second coefficient over the first, last but one over the last
}

// newSplineKnots takes a grid whose first and last interval are the pieces at rest.
func newSplineKnots(grid []float64) splineKnots {
	k := splineKnots{t: grid[1 : len(grid)-1]}
	n := len(k.t)
	k.tied = 1 + (k.t[1]-k.t[0])*2/3/(grid[1]-grid[0])
	k.tied2 = 1 + (k.t[n-1]-k.t[n-2])*2/3/(grid[n+1]-grid[n])
	return k
}

// unknowns is how many there are: a quadratic spline has a coefficient more than
// knots, and two are tied.
func (k *splineKnots) unknowns() int { return len(k.t) - 1 }

// form writes w of coefficients i, i+1 and i+2 in unknowns.
func (k *splineKnots) form(i int, w [3]float64) weighted {
	m := k.unknowns()
	f := weighted{base: min(max(i-1, 0), m-3)}
	for e, x := range w {
		if x == 0 {
			continue
		}
		c := i + e
		u := c - 1
		switch c {
		case 0:
			u = 0
		case 1:
			x *= k.tied
		case m:
			x *= k.tied2
		case m + 1:
			u = m - 1
		}
		f.w[u-f.base] += x
	}
	return f
}

// ended is x at the first or the last knot, with a share of the time.
func (k *splineKnots) ended(knot int, share float64) weighted {
	f := k.value(knot)
	f.share = share
	return f
}

// unknown is the largest coefficient that unknown i stands for, times by.
func (k *splineKnots) unknown(i int, by float64) weighted {
	return k.form(i, [3]float64{0, by, 0})
}

// middles is a position at which the spline is near coefficient i of the unknowns.
func (k *splineKnots) middles(i int) float64 {
	switch i {
	case 0:
		return k.t[0]
	case k.unknowns() - 1:
		return k.t[len(k.t)-1]
	}
	return (k.t[i] + k.t[i+1]) / 2
}

// span is the length from the knot before knot i to the one behind; knots at the
// ends are multiple.
func (k *splineKnots) span(i int) float64 {
	return k.t[min(i+1, len(k.t)-1)] - k.t[max(i-1, 0)]
}

// value is x at knot i.
func (k *splineKnots) value(i int) weighted {
	a := (k.t[i] - k.t[max(i-1, 0)]) / k.span(i)
	if i == len(k.t)-1 {
		return k.form(i-1, [3]float64{0, 1 - a, a})
	}
	return k.form(i, [3]float64{1 - a, a, 0})
}

// slope is u = x'/2 at knot i.
func (k *splineKnots) slope(i int) weighted {
	w := 1 / k.span(i)
	if i == len(k.t)-1 {
		return k.form(i-1, [3]float64{0, -w, w})
	}
	return k.form(i, [3]float64{-w, w, 0})
}

// bend is x"/2 between knots i and i+1.
func (k *splineKnots) bend(i int) weighted {
	h := k.t[i+1] - k.t[i]
	a, b := 1/(h*k.span(i)), 1/(h*k.span(i+1))
	return k.form(i, [3]float64{a, -a - b, b})
}

// middle is x half way between knots i and i+1.
func (k *splineKnots) middle(i int) weighted {
	h := k.t[i+1] - k.t[i]
	a, b := h/k.span(i), h/k.span(i+1)
	return k.form(i, [3]float64{a / 4, 1 - (a+b)/4, b / 4})
}

// scaled is the form times a factor.
func (f weighted) scaled(by float64) weighted {
	for i := range f.w {
		f.w[i] *= by
	}
	return f
}

// plus adds a factor times another form of the same three unknowns, or of fewer.
func (f weighted) plus(g weighted, by float64) weighted {
	_, w := align(g, f.base)
	for i := range f.w {
		f.w[i] += by * w[i]
	}
	return f
}

// align writes a form with another base; unknowns outside it must not count.
func align(f weighted, base int) (int, [3]float64) {
	var w [3]float64
	for i, x := range f.w {
		if x != 0 {
			w[f.base+i-base] = x
		}
	}
	return base, w
}
