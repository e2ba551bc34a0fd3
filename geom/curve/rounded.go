package curve

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// straight is the turn (rad) below which a corner is no corner: its arc would
// leave the straight line by less than a micrometre at a radius of a metre.
const straight = 1e-6

// Rounded returns the lines through the points (m) with an arc of the given
// radius (m) tangent to both lines in place of every corner, as a hollow
// section or a bent plate has. A first point equal to the last (within
// JoinTolerance) closes the path; then that corner is rounded too and the path
// begins where its arc ends. A radius of 0 leaves sharp corners.
//
// It fails where Polyline does, for a radius below 0 and where a line is too
// short for the arcs at its ends, naming the line and the largest radius that
// fits; and where the path turns straight back.
func Rounded(radius float64, points ...r3.Vec) (Chain, error) {
	sharp, err := Polyline(points...)
	if err != nil || radius == 0 {
		return sharp, err
	}
	if !(radius > 0) || math.IsInf(radius, 1) {
		return Chain{}, fmt.Errorf("curve: corner radius of %.3g m: 0 or more is needed", radius)
	}
	n := len(sharp.pieces)
	lines := make([]Line, n)
	for i, piece := range sharp.pieces {
		lines[i] = piece.(Line)
	}
	closed := n > 2 && points[0].Dist(points[n]) <= JoinTolerance
	cut := make([]float64, n+1) // m, shortening on each side of corner i, which begins line i
	for i := 1; i <= n; i++ {
		if i == n && !closed {
			break
		}
		turn := lines[i-1].dir.Angle(lines[i%n].dir)
		if turn > math.Pi-1e-3 {
			return Chain{}, fmt.Errorf("curve: the path turns straight back at point %d: no radius rounds that", i+1)
		}
		if turn > straight {
			cut[i] = radius * math.Tan(turn/2)
		}
	}
	if closed {
		cut[0] = cut[n]
	}
	return rounded(lines, cut, radius, closed)
}

// rounded builds the chain of lines shortened by cut (m) at their ends and the
// arcs of the given radius (m) between them.
func rounded(lines []Line, cut []float64, radius float64, closed bool) (Chain, error) {
	n := len(lines)
	var pieces []Curve
	for i, line := range lines {
		begin, end := cut[i], line.length-cut[i+1]
		if end-begin < -JoinTolerance {
			return Chain{}, fmt.Errorf("curve: line %d is %.6g m long, but corners of radius %.6g m at its ends take %.6g m: the largest radius that fits is %.6g m",
				i+1, line.length, radius, cut[i]+cut[i+1], radius*line.length/(cut[i]+cut[i+1]))
		}
		if end-begin >= MinLength {
			pieces = append(pieces, line.trim(begin, end))
		}
		if cut[i+1] == 0 || i == n-1 && !closed {
			continue
		}
		next := lines[(i+1)%n]
		from, _ := line.At(end)
		to := next.dir
		axis := line.dir.Cross(to).Unit()
		pieces = append(pieces, Arc{
			centre: from.AddScaled(radius, axis.Cross(line.dir)),
			axis:   axis, x: axis.Cross(line.dir).Neg(), y: line.dir,
			radius: radius, sweep: line.dir.Angle(to),
		})
	}
	return NewChain(pieces...)
}
