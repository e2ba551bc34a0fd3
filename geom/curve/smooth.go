package curve

import (
	"math"
	"sort"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Smooth is a curve with neither a corner nor an arc's steady curvature, walked
// by arc length from a table: a spline, an ellipse, a piece of a saddle. Make
// one with NewSpline, NewEllipse or NewSaddle; the zero value is no curve.
//
// Arc length is right within a nanometre over the whole curve. An open curve
// runs on straight ahead outside its ends, a closed one goes round again.
type Smooth struct {
	shape  shape
	table  []knot // at least two, rising; shared by every part and reverse
	closed bool   // whether the table goes once round
	from   float64
	length float64 // m; the part from..from+length of the table is walked
	back   bool    // from its end to its start
}

// shape is a curve by a parameter of its own, twice differentiable between the
// ends of its table.
type shape interface {
	// at returns the point (m) and its derivative (m per unit of u).
	at(u float64) (p, d r3.Vec)
	// bend returns the second derivative (m per unit of u squared).
	bend(u float64) r3.Vec

	moved(bFromA se3.Pose) shape
	mirrored(m Mirror) shape
}

// knot is a row of a table: a parameter, its arc length (m), how fast the arc
// length grows there (m per unit of u) and the curvature (1/m).
type knot struct{ u, s, speed, curvature float64 }

// newSmooth returns the whole of the table.
func newSmooth(s shape, table []knot, closed, back bool) Smooth {
	return Smooth{shape: s, table: table, closed: closed, length: table[len(table)-1].s, back: back}
}

// Length returns the length, in metres.
func (c Smooth) Length() float64 { return c.length }

// At returns the point (m) and the unit tangent at arc length s (m).
func (c Smooth) At(s float64) (p, tangent r3.Vec) {
	t, beyond := c.within(c.toTable(s))
	p, d := c.shape.at(c.param(t))
	tangent = d.Unit()
	p = p.AddScaled(beyond, tangent)
	if c.back {
		tangent = tangent.Neg()
	}
	return p, tangent
}

// Closed reports whether the curve ends where and as it begins.
func (c Smooth) Closed() bool {
	return c.closed && math.Abs(c.length-c.table[len(c.table)-1].s) <= JoinTolerance
}

// toTable returns the table's arc length (m) for one of the curve's (m); it is
// its own inverse.
func (c Smooth) toTable(s float64) float64 {
	if c.back {
		return c.from + c.length - s
	}
	return c.from + s
}

// fromTable undoes toTable.
func (c Smooth) fromTable(t float64) float64 {
	if c.back {
		return c.from + c.length - t
	}
	return t - c.from
}

// within brings a table's arc length t (m) into the table: round again where it
// is closed, else to the nearer end with the signed rest (m) beyond it.
func (c Smooth) within(t float64) (inside, beyond float64) {
	end := c.table[len(c.table)-1].s
	switch {
	case t >= 0 && t <= end:
		return t, 0
	case c.closed:
		return min(max(t-end*math.Floor(t/end), 0), end), 0
	case t < 0:
		return 0, t
	}
	return end, t - end
}

// interval returns the row of the table after which the arc length t (m) lies.
func (c Smooth) interval(t float64) int {
	return sort.Search(len(c.table)-2, func(i int) bool { return t < c.table[i+1].s })
}

// param returns the parameter at the table's arc length t (m): a cubic guess
// between two rows, then Newton's method on the integral of the speed.
func (c Smooth) param(t float64) float64 {
	i := c.interval(t)
	a, b := c.table[i], c.table[i+1]
	h, du := b.s-a.s, b.u-a.u
	f := (t - a.s) / h
	// Cubic Hermite in s with slopes du/ds = 1/speed.
	left, right := h/a.speed-du, h/b.speed-du
	u := a.u + f*du + f*(1-f)*((1-f)*left-f*right)
	for range 4 {
		_, d := c.shape.at(u)
		step := (a.s + arcLength(c.shape, a.u, u) - t) / d.Norm()
		u -= step
		if math.Abs(step) <= 1e-13*du {
			break
		}
	}
	return min(max(u, a.u), b.u)
}

// rows returns the curve's arc lengths (m), rising, at the table's rows within
// it, without its start and with its end.
func (c Smooth) rows() []float64 {
	var rows []float64
	for i := range c.table {
		k := c.table[i]
		if c.back {
			k = c.table[len(c.table)-1-i]
		}
		if s := c.fromTable(k.s); s > MinLength/2 && s < c.length-MinLength/2 {
			rows = append(rows, s)
		}
	}
	return append(rows, c.length)
}

// curvature returns the curvature (1/m) at arc length s (m): |d x b|/|d|^3.
func (c Smooth) curvature(s float64) float64 {
	t, beyond := c.within(c.toTable(s))
	if beyond != 0 {
		return 0
	}
	return curvatureAt(c.shape, c.param(t))
}

func curvatureAt(sh shape, u float64) float64 {
	_, d := sh.at(u)
	n := d.Norm()
	return d.Cross(sh.bend(u)).Norm() / (n * n * n)
}

func (c Smooth) trim(from, to float64) Curve {
	part := c
	part.from, part.length = c.from+from, to-from
	if c.back {
		part.from = c.from + c.length - to
	}
	return part
}

func (c Smooth) reversed() Curve {
	c.back = !c.back
	return c
}

func (c Smooth) moved(bFromA se3.Pose) Curve {
	c.shape = c.shape.moved(bFromA)
	return c
}

func (c Smooth) mirrored(m Mirror) Curve {
	c.shape = c.shape.mirrored(m)
	return c
}
