package kinematics

import "math"

// arc is an angle in the first octant with its cosine and sine.
type arc struct{ cos, sin, angle float64 }

// arcs are those whose sine is a multiple of 1/64; up to 46 are asked for, and
// 64 need no check of the index.
var arcs = func() (list [64]arc) {
	for i := range list {
		s := float64(i) / 64
		list[i] = arc{math.Sqrt((1 - s) * (1 + s)), s, math.Asin(s)}
	}
	return list
}()

// quarters is how the four ways of folding a direction into the first octant
// unfold its angle: base + sign * angle. 1 stands for |y| > |x|, 2 for x < 0.
var quarters = [4]struct{ base, sign float64 }{{0, 1}, {math.Pi / 2, -1}, {math.Pi, -1}, {math.Pi / 2, 1}}

// directions collects unit directions and turns all of them into angles at
// once: a loop without branches lets the processor work on several.
type directions struct {
	n    int
	y, x [32]uint64 // bits of float64, which save moves; after angles, y holds the angle, rad
}

// add notes the direction (x, y) and returns its place. A Solve needs 28
// places at most.
func (d *directions) add(y, x float64) uint8 {
	i := d.n & 31
	d.y[i], d.x[i] = math.Float64bits(y), math.Float64bits(x)
	d.n = i + 1
	return uint8(i)
}

// angle returns the angle (rad, -pi to pi) at place i, once angles has run.
func (d *directions) angle(i uint8) float64 { return math.Float64frombits(d.y[i&31]) }

// angles replaces each direction by its angle, within 4e-16 rad and, near an
// angle of zero, 4 units in the last place. It turns a direction back by a
// known angle and takes the series of the arc sine for the 0.011 rad at most
// that are left; that needs no division, and a length off 1 by e harms by
// 0.011 e only. NaN gives NaN.
func (d *directions) angles() {
	y, x := d.y[:d.n&31], d.x[:]
	for i := range y {
		yb, xb := y[i], x[i]
		ab, bb := yb&^signBit, xb&^signBit // magnitudes, which order as integers do
		swap, back := (bb-ab)>>63, xb>>63
		exchange := -swap & (ab ^ bb)
		num, den := math.Float64frombits(ab^exchange), math.Float64frombits(bb^exchange)
		e := &arcs[math.Float64bits(num*64+rounder)&63]
		r := num*e.cos - den*e.sin
		z := r * r
		a := e.angle + (r + r*z*(1.0/6+z*(3.0/40+z*(15.0/336))))
		q := &quarters[(swap|back<<1)&3]
		a = q.base + q.sign*a
		y[i] = math.Float64bits(a) | yb&signBit
	}
}
