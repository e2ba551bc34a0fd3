package thermal

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Peak is the hottest that a place of the plate gets while the arc goes by.
type Peak struct {
	Temperature float64 // degrees C; above the metal's melting temperature it means only "molten"
	Behind      float64 // how far the arc is past the place by then, m
	Time        float64 // the same in time, s
}

// besides is how far from the line of the run a place has a peak.
var besides = validity{"distance from the line of the run", 1e-6, 20, 1e-3, "mm", "ask for a place beside the run"}

// Peak returns the hottest that a place gets that lies to the side of the run
// by y and deep by z (m). On the line of the run itself, within a
// thousandth of a millimetre, the formula has no peak, which is a RangeError. Derived
// from Temperature, whose source it shares.
func (f Field) Peak(y, z float64) (Peak, error) {
	if err := f.place(y, z); err != nil {
		return Peak{}, fmt.Errorf("peak temperature: %w", err)
	}
	if f.plate == ThinPlate {
		z = 0
	}
	if err := besides.check(math.Hypot(y, z)); err != nil {
		return Peak{}, fmt.Errorf("peak temperature: %w", err)
	}
	behind := f.hottest(y, z)
	return Peak{f.Temperature(r3.Vec{X: -behind, Y: y, Z: z}), behind, behind / f.v}, nil
}

// place checks a place across the run (m).
func (f Field) place(y, z float64) error {
	if err := placeSpan.Check(y); err != nil {
		return err
	}
	if f.plate == ThinPlate {
		return nil
	}
	deepest := placeSpan.High
	if f.plate == FinitePlate {
		deepest = f.d
	}
	return validity{"depth", 0, deepest, 1e-3, "mm", "0 is the face that the arc is on"}.check(z)
}

// hottest returns how far behind the arc (m) the field is hottest along a line
// beside the run: it rises once and falls once, so a widening search brackets
// the place and golden sections narrow it down.
func (f Field) hottest(y, z float64) float64 {
	if f.plate == ThinPlate {
		z = 0
	}
	at := func(behind float64) float64 { return f.rise(r3.Vec{X: -behind, Y: y, Z: z}) }
	// Thick or thin, the place is within a factor of a few of kappa r^2.
	low, mid := 0.0, f.kappa*(y*y+z*z)/8
	high := 2 * mid
	for at(high) > at(mid) {
		low, mid, high = mid, high, 2*high
	}
	const (
		golden = 0.6180339887498949 // (sqrt 5 - 1)/2
		enough = 1e-8               // of the distance: the peak is flat, so its height is exact
	)
	a, b := high-golden*(high-low), low+golden*(high-low)
	ta, tb := at(a), at(b)
	for high-low > enough*high {
		if ta > tb {
			high, b, tb = b, a, ta
			a = high - golden*(high-low)
			ta = at(a)
		} else {
			low, a, ta = a, b, tb
			b = low + golden*(high-low)
			tb = at(b)
		}
	}
	return (low + high) / 2
}

// CoolingTime returns the time in which a place beside the run (y to the side,
// z deep, m) cools from one temperature to a lower one (degrees C), s, once the
// arc has gone by: from 800 to 500 it is t8/5. A place that never gets as hot
// as the upper one, and a lower one that it never falls to, is a RangeError.
//
// On the line of the run in thick plate T - T0 = q/(2 pi lambda |xi|), so that
// t8/5 = Q/(2 pi lambda) [1/(500-T0) - 1/(800-T0)] whatever the speed. Derived from
// Temperature, whose source it shares.
func (f Field) CoolingTime(y, z, from, to float64) (float64, error) {
	hot, err := f.whenCooled(y, z, from)
	if err == nil && !(to < from) {
		err = &RangeError{"lower temperature", meltings.print(to), meltings.print(from) + " and less", "swap the two"}
	}
	cold := 0.0
	if err == nil {
		cold, err = f.whenCooled(y, z, to)
	}
	if err != nil {
		return 0, fmt.Errorf("cooling time: %w", err)
	}
	return cold - hot, nil
}

// leastRise is the least rise over the plate far away whose time is looked for,
// K: below it the steady field of an endless run means nothing.
const leastRise = 1

// whenCooled returns how long after the arc (s) a place has cooled to a
// temperature (degrees C).
func (f Field) whenCooled(y, z, temperature float64) (float64, error) {
	if err := f.place(y, z); err != nil {
		return 0, err
	}
	rise := temperature - f.t0
	if !(rise >= leastRise) || math.IsInf(rise, 0) {
		return 0, &RangeError{"temperature", meltings.print(temperature), meltings.print(f.t0+leastRise) + " and more",
			"the plate does not cool below the temperature that it has far away"}
	}
	at := func(behind float64) float64 { return f.rise(r3.Vec{X: -behind, Y: y, Z: z}) }
	low, step := 0.0, f.metal.Diffusivity()/f.v
	if y != 0 || z != 0 && f.plate != ThinPlate {
		low = f.hottest(y, z)
		if peak := at(low); peak < rise {
			return 0, &RangeError{"temperature", meltings.print(temperature), meltings.print(f.t0+peak) + " and less, the hottest that the place gets",
				"ask for a place nearer to the run"}
		}
		step = max(step, low)
	}
	high := low + step
	for at(high) > rise {
		low, high = high, high+2*(high-low)
	}
	for high-low > 1e-12*high {
		if middle := (low + high) / 2; at(middle) > rise {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2 / f.v, nil
}
