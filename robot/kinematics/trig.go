package kinematics

import "math"

// Sine and cosine without branches on the angle. Joint angles are as good as
// random to the processor, and the standard library's choice of an octant by
// jumps then costs more than the polynomials: measured on one core of a 3.3 GHz
// server, 7 against 22 ns. Coefficients: FDLIBM (Sun Microsystems, 1993),
// k_sin.c, k_cos.c; from memory, checked against package math in the tests.
const (
	s1 = -1.66666666666666324348e-01
	s2 = 8.33333333332248946124e-03
	s3 = -1.98412698298579493134e-04
	s4 = 2.75573137070700676789e-06
	s5 = -2.50507602534068634195e-08
	s6 = 1.58969099521155010221e-10

	c1 = 4.16666666666666019037e-02
	c2 = -1.38888888888741095749e-03
	c3 = 2.48015872894767294178e-05
	c4 = -2.75573143513906633035e-07
	c5 = 2.08757232129817482790e-09
	c6 = -1.13596475577881948265e-11
)

const (
	// rounder pushes a number's fraction out of the mantissa: x + rounder has
	// the nearest integer to x in its low bits, for |x| < 2^51.
	rounder = 3 << 51
	// pi/2 in three parts, the first two of 33 bits, so that their products
	// with an integer below 2^20 are exact.
	halfPi1 = 1.57079632673412561417e+00
	halfPi2 = 6.07710050630396597660e-11
	halfPi3 = 2.02226624879595063154e-21
	// wideAngle (rad) is where sincos hands over to package math.
	wideAngle = 1e5
	signBit   = 1 << 63
)

// sincos returns the sine and cosine of x (rad), each within 2.3e-16 and 2
// units in the last place of package math's for |x| < wideAngle; beyond, and for NaN, they are math.Sincos's.
func sincos(x float64) (sin, cos float64) {
	angle := [1]float64{x}
	var s, c [1]float64
	sincosAll(angle[:], s[:], c[:])
	return s[0], c[0]
}

// sincosAll is sincos of every angle in x (rad). s and c are as long as x. One
// loop instead of calls lets the processor work on several angles at once.
func sincosAll(x, s, c []float64) {
	s, c = s[:len(x)], c[:len(x)]
	for i, x := range x {
		if !(math.Abs(x) < wideAngle) {
			s[i], c[i] = math.Sincos(x)
			continue
		}
		k := x*(2/math.Pi) + rounder
		quadrant := math.Float64bits(k)
		k -= rounder
		r := x - float64(k*halfPi1) - float64(k*halfPi2) - float64(k*halfPi3)
		z := r * r
		z2 := z * z
		sin := r + r*z*(s1+z*s2+z2*(s3+z*s4+z2*(s5+z*s6)))
		cos := 1 - (0.5*z - z2*(c1+z*c2+z2*(c3+z*c4+z2*(c5+z*c6))))
		sb, cb := math.Float64bits(sin), math.Float64bits(cos)
		exchange := -(quadrant & 1) & (sb ^ cb)
		s[i] = math.Float64frombits(sb ^ exchange ^ quadrant>>1<<63)
		c[i] = math.Float64frombits(cb ^ exchange ^ (quadrant+1)>>1<<63)
	}
}
