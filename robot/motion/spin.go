package motion

import (
	"fmt"
	"math"
	"sort"
)

// SpinProfile is a smooth turn about the wire along a pass. It is constant, or a
// cubic that is once continuously differentiable, passes through its knots and
// neither overshoots nor turns back between two of them.
//
// Method: F. N. Fritsch and R. E. Carlson, Monotone Piecewise Cubic Interpolation,
// SIAM J. Numer. Anal. 17(2), 1980 (from memory).
//
// A profile leaves the ladder's grid of spins, so postures must be solved and
// checked again along it.
type SpinProfile struct {
	at    []float64 // m
	spin  []float64 // rad, unwrapped
	slope []float64 // rad/m
}

// NewSpinProfile returns the profile through spin (rad) at the stations at (m,
// rising, one or more). Neighbouring spins are taken the short way round. For a
// smooth turn from a stepped one give it the knots of SpinKnots only.
func NewSpinProfile(at, spin []float64) (SpinProfile, error) {
	p := SpinProfile{at: at}
	var err error
	if p.spin, err = unwrapSpin(at, spin); err != nil {
		return SpinProfile{}, err
	}
	n := len(at)
	p.slope = make([]float64, n)
	if n == 1 {
		return p, nil
	}
	secant := make([]float64, n-1)
	for i := range secant {
		secant[i] = (p.spin[i+1] - p.spin[i]) / (at[i+1] - at[i])
	}
	p.slope[0], p.slope[n-1] = secant[0], secant[n-2]
	for i := 1; i < n-1; i++ {
		if secant[i-1]*secant[i] > 0 {
			p.slope[i] = (secant[i-1] + secant[i]) / 2
		}
	}
	for i, d := range secant {
		limitSlopes(&p.slope[i], &p.slope[i+1], d)
	}
	return p, nil
}

// limitSlopes brings the end slopes of an interval with secant slope d into the
// circle of radius 3 in which the cubic is monotone (Fritsch and Carlson).
func limitSlopes(left, right *float64, d float64) {
	if d == 0 {
		*left, *right = 0, 0
		return
	}
	a, b := *left/d, *right/d
	if r := math.Hypot(a, b); r > 3 {
		*left, *right = 3*a/r*d, 3*b/r*d
	}
}

// unwrapSpin checks stations and spins and returns the spins with whole turns
// added so that neighbours differ by at most half a turn.
func unwrapSpin(at, spin []float64) ([]float64, error) {
	if len(at) == 0 || len(at) != len(spin) {
		return nil, fmt.Errorf("motion: spin: %d stations and %d spins: one spin for each of one or more stations is needed", len(at), len(spin))
	}
	out := make([]float64, len(spin))
	for i := range at {
		if math.IsNaN(spin[i]) || math.IsInf(spin[i], 0) || math.IsInf(at[i], 0) || (i > 0 && !(at[i] > at[i-1])) {
			return nil, fmt.Errorf("motion: spin: station %d at %g m with spin %g rad: stations must rise and spins be finite", i, at[i], spin[i])
		}
		out[i] = spin[i]
		if i > 0 {
			out[i] = out[i-1] + math.Remainder(spin[i]-out[i-1], turn)
		}
	}
	return out, nil
}

// Constant reports whether the profile is the same everywhere.
func (p SpinProfile) Constant() bool {
	for _, s := range p.spin {
		if s != p.spin[0] {
			return false
		}
	}
	return true
}

// At returns the spin (rad, unwrapped) and its slope (rad/m) at station s (m).
// Before the first and after the last knot the spin is held.
func (p SpinProfile) At(s float64) (spin, slope float64) {
	last := len(p.at) - 1
	if s <= p.at[0] || last == 0 {
		return p.spin[0], 0
	}
	if s >= p.at[last] {
		return p.spin[last], 0
	}
	i := max(sort.SearchFloat64s(p.at, s), 1)
	h := p.at[i] - p.at[i-1]
	t := (s - p.at[i-1]) / h
	y0, y1, m0, m1 := p.spin[i-1], p.spin[i], p.slope[i-1]*h, p.slope[i]*h
	// cubic Hermite form, written as the chord plus what bends away from it
	c, d := 3*(y1-y0)-2*m0-m1, m0+m1-2*(y1-y0)
	return y0 + t*(m0+t*(c+t*d)), (m0 + t*(2*c+3*t*d)) / h
}

// SmoothSpin returns the profile to use for a pass: a constant spin if one runs
// the whole pass, the one nearest on the average to the ladder's choice, else a
// smooth one within tolerance (rad, 0 or more) of it at every station: through
// the knots of SpinKnots and, where the cubic bends away too far, through the
// worst station as well. At (m) and spin (rad) are the ladder's choice by
// station, reach is what ConstantSpins found.
func SmoothSpin(at, spin []float64, reach []SpinReach, tolerance float64) (SpinProfile, error) {
	knots, err := SpinKnots(at, spin, tolerance)
	if err != nil {
		return SpinProfile{}, err
	}
	if constant, ok := nearestConstant(spin, reach); ok {
		return NewSpinProfile(at[:1], []float64{constant})
	}
	u, err := unwrapSpin(at, spin)
	if err != nil {
		return SpinProfile{}, err
	}
	use := make([]bool, len(at))
	for _, k := range knots {
		use[k.Station] = true
	}
	for {
		var s, v []float64
		for i := range at {
			if use[i] {
				s, v = append(s, at[i]), append(v, u[i])
			}
		}
		p, err := NewSpinProfile(s, v)
		if err != nil {
			return p, err
		}
		worst, miss := 0, tolerance+knotSlack
		for i := range at {
			if got, _ := p.At(at[i]); !use[i] && math.Abs(got-u[i]) > miss {
				worst, miss = i, math.Abs(got-u[i])
			}
		}
		if use[worst] {
			return p, nil
		}
		use[worst] = true
	}
}

// nearestConstant returns the spin (rad) that runs the whole pass and is nearest
// on the average to spin (rad), the first of equals.
func nearestConstant(spin []float64, reach []SpinReach) (best float64, ok bool) {
	distance := math.Inf(1)
	for _, r := range reach {
		sum := 0.0
		for _, s := range spin {
			sum += spinStep(s, r.Spin)
		}
		if r.Whole && sum < distance {
			best, distance, ok = r.Spin, sum, true
		}
	}
	return best, ok
}
