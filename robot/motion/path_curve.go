package motion

import (
	"math"

	"seamwright/robot/kinematics"
)

// curve is a joint path over a position s, twice continuously differentiable, whose
// third derivative is continuous within each of its pieces.
type curve interface {
	// knots returns the ends of all pieces, rising; piece i lies between i and i+1.
	knots() []float64
	// at returns the joint values at s.
	at(s float64) kinematics.Q
	// jet returns the first three derivatives of piece i at s, which lies in it.
	jet(i int, s float64) (d, dd, ddd kinematics.Q)
}

// station is a place of the grid on which a path is timed, seen from the interval
// before or behind it.
type station struct{ d, dd, ddd kinematics.Q }

// gridPath is a curve with a grid that holds all of its knots.
type gridPath struct {
	curve curve
	at    []float64
	on    []int // the curve's piece on which interval i lies
}

// newGridPath says on which piece every interval of a grid lies.
func newGridPath(c curve, at []float64) gridPath {
	g := gridPath{curve: c, at: at, on: make([]int, len(at)-1)}
	knots, piece := c.knots(), 0
	for i := range g.on {
		for piece < len(knots)-2 && (at[i]+at[i+1])/2 > knots[piece+1] {
			piece++
		}
		g.on[i] = piece
	}
	return g
}

// start and end look at the ends of interval i from within it.
func (g *gridPath) start(i int) (s station) {
	s.d, s.dd, s.ddd = g.curve.jet(g.on[i], g.at[i])
	return s
}

func (g *gridPath) end(i int) (s station) {
	s.d, s.dd, s.ddd = g.curve.jet(g.on[i], g.at[i+1])
	return s
}

// bounds returns bounds on the sizes of the derivatives over piece i, whose third
// derivative runs straight: from its ends, and by how much a parabola can rise above
// the chord.
func bounds(c curve, i int) (d, dd, ddd kinematics.Q) {
	knots := c.knots()
	h := knots[i+1] - knots[i]
	d0, dd0, ddd0 := c.jet(i, knots[i])
	d1, dd1, ddd1 := c.jet(i, knots[i+1])
	for j := range d {
		ddd[j] = max(math.Abs(ddd0[j]), math.Abs(ddd1[j]))
		dd[j] = max(math.Abs(dd0[j]), math.Abs(dd1[j])) + h/8*math.Abs(ddd1[j]-ddd0[j])
		d[j] = max(math.Abs(d0[j]), math.Abs(d1[j])) + h*h/8*ddd[j]
	}
	return d, dd, ddd
}
