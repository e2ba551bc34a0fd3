package thermal

import "math"

// besselSplit is where the power series hands over to the integral. Up to here
// the series loses one digit of sixteen to cancellation, and it grows beyond.
const besselSplit = 2

// scaledK0 returns e^x K0(x), dimensionless, for x > 0, with a relative error
// below 1e-14: K0 is the modified Bessel function of the second kind, order 0.
// Scaled it neither overflows nor underflows where K0 does. At 0 it is
// infinite.
//
// Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions,
// 9.6.13 (series) and 9.6.24 (integral), from memory; checked against published
// tables and SciPy.
func scaledK0(x float64) float64 {
	if x <= besselSplit {
		return math.Exp(x) * seriesK0(x)
	}
	return integralK0(x)
}

// seriesK0 returns K0(x) as -(ln(x/2) + gamma) I0(x) + sum of H_k (x^2/4)^k /
// (k!)^2, H_k being 1 + 1/2 + ... + 1/k.
func seriesK0(x float64) float64 {
	const gamma = 0.57721566490153286060651209008240243 // Euler's constant
	y := x * x / 4
	term, harmonic, i0, rest := 1.0, 0.0, 1.0, 0.0
	for k := 1.0; term > 1e-18*i0; k++ {
		term *= y / (k * k)
		harmonic += 1 / k
		i0 += term
		rest += term * harmonic
	}
	return -(math.Log(x/2)+gamma)*i0 + rest
}

// integralK0 returns e^x K0(x) as the integral of exp(-x (cosh t - 1)) over
// t from 0 on, by the trapezoidal rule, whose error falls exponentially with the
// inverse of the step for a function analytic in a strip. A strip of half-width
// w gives exp(2 x sin^2(w/2) - 2 pi w/h): 1.4 is the widest that serves here,
// and for large x the best is 2 pi/(h x), which gives exp(-2 (pi/h)^2 / x). The
// step keeps either below 1e-17.
func integralK0(x float64) float64 {
	const narrow = 31 // from here on the best strip is narrower than 1.4
	h := 0.7 / math.Sqrt(x)
	if x < narrow {
		h = 8.8 / (40 + 0.83*x)
	}
	// rise is cosh(k h) - 1 = 2 sinh^2(k h/2), by its three-term recurrence.
	s := math.Sinh(h / 2)
	first := 2 * s * s
	sum, before, rise := 0.5, 0.0, first
	for {
		term := math.Exp(-x * rise)
		sum += term
		if term < 1e-18 {
			return h * sum
		}
		before, rise = rise, 2*(1+first)*rise-before+2*first
	}
}
