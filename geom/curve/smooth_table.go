package curve

import (
	"fmt"
	"math"
)

// gauss holds the nodes on -1..1 right of the middle and their weights of
// Gauss-Legendre quadrature with five nodes; gaussMiddle is the middle's weight
// (Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4; from
// memory, checked by a test against exact integrals).
var gauss = [2]struct{ node, weight float64 }{
	{0.5384693101056830910, 0.4786286704993664680},
	{0.9061798459386639928, 0.2369268850561890875},
}

const gaussMiddle = 128.0 / 225

// arcLength returns the length (m) of the shape from parameter a to b, negative
// where b < a, by one Gauss-Legendre quadrature of its speed.
func arcLength(sh shape, a, b float64) float64 {
	half, middle := (b-a)/2, (a+b)/2
	_, d := sh.at(middle)
	sum := gaussMiddle * d.Norm()
	for _, g := range gauss {
		_, lo := sh.at(middle - half*g.node)
		_, hi := sh.at(middle + half*g.node)
		sum += g.weight * (lo.Norm() + hi.Norm())
	}
	return half * sum
}

const (
	// lengthError is the largest difference (m) between the length of an
	// interval of a table and the sum of its halves'; a curve has some hundred
	// intervals, so its length is right within a nanometre.
	lengthError = 1e-12
	// tableTurn is the largest turn (rad) of the direction over an interval.
	tableTurn = 0.1
	// tableDepth bounds how often an interval is halved: 2^40 parts.
	tableDepth = 40
)

// newTable returns the table of the shape over the parameters in breaks, rising,
// at least two: a row at each break and between them so many that lengths and
// turns stay within lengthError and tableTurn. It fails where the shape stops
// or turns on the spot.
func newTable(sh shape, breaks []float64) ([]knot, error) {
	_, d := sh.at(breaks[0])
	table := []knot{{u: breaks[0], speed: d.Norm(), curvature: curvatureAt(sh, breaks[0])}}
	var err error
	for _, to := range breaks[1:] {
		if table, err = refine(sh, table, to, tableDepth); err != nil {
			return nil, err
		}
	}
	if length := table[len(table)-1].s; !(length >= MinLength) {
		p, _ := sh.at(breaks[0])
		return nil, fmt.Errorf("curve: the curve from %v is %.3g m long: at least %g m is needed", p, length, MinLength)
	}
	return table, nil
}

// refine appends rows from the last one to the parameter to, halving at most
// depth times.
func refine(sh shape, table []knot, to float64, depth int) ([]knot, error) {
	last := table[len(table)-1]
	middle := (last.u + to) / 2
	_, d0 := sh.at(last.u)
	_, d1 := sh.at(middle)
	p, d2 := sh.at(to)
	whole := arcLength(sh, last.u, to)
	halves := arcLength(sh, last.u, middle) + arcLength(sh, middle, to)
	turn := d0.Angle(d1) + d1.Angle(d2)
	if math.Abs(whole-halves) <= lengthError && turn <= tableTurn && d2.Norm() > 0 {
		return append(table, knot{u: to, s: last.s + whole, speed: d2.Norm(), curvature: curvatureAt(sh, to)}), nil
	}
	if depth == 0 {
		return nil, fmt.Errorf("curve: the curve turns on the spot at %v: no torch can follow that; leave out the point that doubles back, or join two curves in a corner there", p)
	}
	table, err := refine(sh, table, middle, depth-1)
	if err != nil {
		return nil, err
	}
	return refine(sh, table, to, depth-1)
}
