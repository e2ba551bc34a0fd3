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
// short for the arcs at its ends, naming the line and the room there is; and
// where the path turns straight back.
func Rounded(radius float64, points ...r3.Vec) (Chain, error) {
	radii := make([]float64, len(points))
	for i := range radii {
		radii[i] = radius
	}
	return RoundedEach(radii, points...)
}

// RoundedEach is as Rounded with a radius (m) for each point: some corners of a
// path may be round and others sharp (0). The radius of the first and the last
// point of an open path is not used; in a closed one the first point's is.
func RoundedEach(radii []float64, points ...r3.Vec) (Chain, error) {
	sharp, err := Polyline(points...)
	if err != nil {
		return sharp, err
	}
	if len(radii) != len(points) {
		return Chain{}, fmt.Errorf("curve: %d corner radii for %d points: each point needs one, 0 where it stays sharp", len(radii), len(points))
	}
	n := len(sharp.pieces)
	closed := n > 2 && points[0].Dist(points[n]) <= JoinTolerance
	lines := make([]Line, n)
	for i, piece := range sharp.pieces {
		lines[i] = piece.(Line)
	}
	corners := make([]corner, n+1)
	for i := 1; i <= n; i++ {
		if i == n && !closed {
			break
		}
		radius, turn := radii[i%n], lines[i-1].dir.Angle(lines[i%n].dir)
		if !(radius >= 0) || math.IsInf(radius, 1) {
			return Chain{}, fmt.Errorf("curve: corner radius of %.3g mm at point %d: 0 or more is needed", radius*mm, i%n+1)
		}
		if radius > 0 && turn > math.Pi-1e-3 {
			return Chain{}, fmt.Errorf("curve: the path turns straight back at point %d: no radius rounds that", i+1)
		}
		if turn > straight {
			corners[i] = corner{radius: radius, cut: radius * math.Tan(turn/2)}
		}
	}
	if closed {
		corners[0] = corners[n]
	}
	return rounded(lines, corners, closed)
}

// corner is how a corner is rounded: by an arc of a radius (m) that shortens the
// line on each side by cut (m). The zero value stays sharp.
type corner struct{ radius, cut float64 }

// rounded builds the chain of the lines, shortened at their ends, and the arcs
// between them; corner i begins line i.
func rounded(lines []Line, corners []corner, closed bool) (Chain, error) {
	n := len(lines)
	var pieces []Curve
	for i, line := range lines {
		a, b := corners[i], corners[i+1]
		begin, end := a.cut, line.length-b.cut
		if end-begin < -JoinTolerance {
			return Chain{}, tooShort(i, line.length, a, b)
		}
		if end-begin >= MinLength {
			pieces = append(pieces, line.trim(begin, end))
		}
		if b.cut == 0 || i == n-1 && !closed {
			continue
		}
		next := lines[(i+1)%n]
		from, _ := line.At(end)
		axis := line.dir.Cross(next.dir).Unit()
		pieces = append(pieces, Arc{
			centre: from.AddScaled(b.radius, axis.Cross(line.dir)),
			axis:   axis, x: axis.Cross(line.dir).Neg(), y: line.dir,
			radius: b.radius, sweep: line.dir.Angle(next.dir),
		})
	}
	return NewChain(pieces...)
}

// tooShort says that line i of the given length (m) has no room for the corners
// at its ends.
func tooShort(i int, length float64, a, b corner) error {
	radii := fmt.Sprintf("corners of radius %.6g mm", max(a.radius, b.radius)*mm)
	if a.radius > 0 && b.radius > 0 && a.radius != b.radius {
		radii = fmt.Sprintf("corners of radius %.6g mm and %.6g mm", a.radius*mm, b.radius*mm)
	}
	return fmt.Errorf("curve: line %d is %.6g mm long, but %s at its ends take %.6g mm: the largest radius that fits is %.6g mm",
		i+1, length*mm, radii, (a.cut+b.cut)*mm, max(a.radius, b.radius)*length/(a.cut+b.cut)*mm)
}
