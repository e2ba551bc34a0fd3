package kinematics

import "math"

// Sine and cosine without branches on the angle. Joint angles are as good as
// random to the processor, and the standard library's choice of an octant by
// jumps then costs more than the sums. Here a table gives both for the nearest
// 64th of a turn; the rest of the angle, below 0.0491 rad, takes few terms of
// the series, and the theorem of addition joins the two.

// bearing is a direction: cosine and sine, and what these float64 lack.
type bearing struct{ cos, sin, cosLow, sinLow float64 }

// ring holds the directions of k/64 of a turn.
var ring = func() (list [64]bearing) {
	for k := range list {
		c, s := quarterSines[16-k%16], quarterSines[k%16]
		b := bearing{c[0], s[0], c[1], s[1]}
		for range k / 16 {
			b = bearing{-b.sin, b.cos, -b.sinLow, b.cosLow}
		}
		list[k] = b
	}
	return list
}()

// quarterSines holds the sine of k/64 of a turn and what that float64 lacks;
// computed from the series with 60 digits.
var quarterSines = [17][2]float64{
	{0, 0},
	{0.0980171403295606, -1.634582362244256e-18},
	{0.19509032201612828, -7.991079068461731e-18},
	{0.2902846772544624, -1.892797870777425e-17},
	{0.3826834323650898, -1.0050772696461588e-17},
	{0.47139673682599764, 6.516678136069013e-18},
	{0.5555702330196022, 4.709410940561677e-17},
	{0.6343932841636455, 1.0420901929280035e-17},
	{0.7071067811865476, -4.833646656726457e-17},
	{0.773010453362737, -3.256590703364977e-17},
	{0.8314696123025452, 1.4073856984728024e-18},
	{0.881921264348355, -1.9843248405890562e-17},
	{0.9238795325112867, 1.7645047084336677e-17},
	{0.9569403357322088, 4.05538698618757e-17},
	{0.9807852804032304, 1.8546939997825006e-17},
	{0.9951847266721969, -4.248691367830441e-17},
	{1, 0},
}

const (
	// rounder pushes a number's fraction out of the mantissa: x + rounder has
	// the nearest integer to x in its low bits, for |x| < 2^51.
	rounder = 3 << 51
	// a 64th of a turn in three parts, the first two of 33 bits, so that their
	// products with an integer below 2^20 are exact. From FDLIBM (Sun
	// Microsystems, 1993), e_rem_pio2.c; from memory, checked against package
	// math in the tests.
	part1 = 1.57079632673412561417e+00 / 16
	part2 = 6.07710050630396597660e-11 / 16
	part3 = 2.02226624879595063154e-21 / 16
	// s7 is the last coefficient of the sine's series, less what makes good
	// most of the term that follows it.
	s7 = -1.0/5040 + 0.00205/362880
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
		k := x*(32/math.Pi) + rounder
		b := &ring[math.Float64bits(k)&63]
		k -= rounder
		r := x - float64(k*part1) - float64(k*part2) - float64(k*part3)
		z := r * r
		sin := r + r*z*(-1.0/6+z*(1.0/120+z*s7))
		less := z * (-1.0/2 + z*(1.0/24+z*(-1.0/720+z*(1.0/40320)))) // cosine less 1
		s[i] = b.sin + (b.sinLow + (b.sin*less + b.cos*sin))
		c[i] = b.cos + (b.cosLow + (b.cos*less - b.sin*sin))
	}
}
