package section

import "math"

// faceSteps is the number of straight steps in which the face of a bead is held,
// even so that its middle is a corner. A face of 8 mm radius that turns by 90
// degrees is then true within 10 um.
const faceSteps = 16

// face is the free surface of a bead: a circular arc between its toes, the shape
// that surface tension gives a short bead (model; common practice, no source).
// Turn is the angle of the arc, rad, negative for a hollow face.
type face struct {
	from, to spot
	turn     float64
	shape    []Point // the face itself where it is not the arc alone: see filmed
}

// segmentShare returns the area between a chord and an arc of an angle (rad), in
// faceSteps straight steps, over the square of the chord, dimensionless:
// (n sin(turn/n) - sin turn)/(8 sin^2(turn/2)). Odd in the angle.
func segmentShare(turn float64) float64 {
	const n = faceSteps
	if math.Abs(turn) < 1e-4 { // the series is then exact to 1e-8
		return turn / 12 * (1 - 1.0/(n*n))
	}
	s := math.Sin(turn / 2)
	return (n*math.Sin(turn/n) - math.Sin(turn)) / (8 * s * s)
}

// turnFor returns the angle (rad) whose segmentShare is share, and false beyond
// the half circle.
//
// Newton's method from the right, where the convex function sends it to the root
// without overshooting: the share is above turn/12 (1 - 1/n^2).
func turnFor(share float64) (float64, bool) {
	const n = faceSteps
	want := math.Abs(share)
	if !(want <= segmentShare(math.Pi)) {
		return math.Copysign(math.Pi, share), false
	}
	turn := min(math.Pi, 12*want/(1-1.0/(n*n)))
	for range 20 {
		if turn < 1e-4 {
			break
		}
		s, c := math.Sincos(turn / 2)
		f := segmentShare(turn)
		slope := (math.Cos(turn/n)-math.Cos(turn))/(8*s*s) - f*c/s
		step := (f - want) / slope
		turn -= step
		if math.Abs(step) < 1e-13 {
			break
		}
	}
	return math.Copysign(turn, share), true
}

// points appends the face from one toe to the other.
func (f face) points(out []Point) []Point {
	if f.shape != nil {
		return append(out, f.shape...)
	}
	return bulge(out, f.from.Point, f.to.Point, f.turn, faceSteps)
}

// bulge appends the circular arc of a turn (rad) from one point to another in a
// number of straight steps, both ends included: it stands off the straight line to
// the right of the way, or to the left for a negative turn.
//
// The steps are of one length, chord sin(turn/2n)/sin(turn/2), and each turns from
// the last by turn/n; this keeps its digits for arcs that are nearly straight.
func bulge(out []Point, from, to Point, turn float64, steps int) []Point {
	n := float64(steps)
	share := 1 / n // of the chord
	if math.Abs(turn) > 1e-9 {
		share = math.Sin(turn/(2*n)) / math.Sin(turn/2)
	}
	sin, cos := math.Sincos(turn/(2*n) - turn/2)
	d := to.sub(from)
	step := d.turned(sin, cos)
	step = Point{share * step.X, share * step.Y}
	sin, cos = math.Sincos(turn / n)
	out = append(out, from)
	p := from
	for range steps - 1 {
		p = p.along(1, step)
		out = append(out, p)
		step = step.turned(sin, cos)
	}
	return append(out, to)
}

// clearance is by how much the ground stays under an arc, m: 1 um, so that no outline is
// pinched off. Near the toes, where every face comes down to the ground, a twentieth
// of the way to the toe is enough.
const clearance = 1e-6

// clears reports whether the ground lies under the arc everywhere between its toes.
func (f face) clears(s surface) bool {
	d := f.to.sub(f.from.Point)
	chord := math.Sqrt(d.dot(d))
	along, out := Point{d.X / chord, d.Y / chord}, Point{d.Y / chord, -d.X / chord}
	// The circle: its centre is deep under (or over, for a hollow face) the
	// middle of the chord.
	var radius, deep float64
	if flat := math.Abs(f.turn) < 1e-9; !flat {
		radius = chord / (2 * math.Sin(math.Abs(f.turn)/2))
		deep = radius * math.Cos(f.turn/2)
	}
	for _, p := range s.corners(f.from, f.to) {
		q := p.sub(f.from.Point)
		if e := q.sub(d); q.dot(q) < apart*apart || e.dot(e) < apart*apart {
			continue // the toe itself
		}
		off, height := q.dot(out), 0.0
		x := q.dot(along) - chord/2
		// Beside the chord, as in the wedge under a toe, there is no arc.
		if radius > 0 && math.Abs(x) < chord/2 {
			height = math.Copysign(math.Sqrt(max(0, radius*radius-x*x))-deep, f.turn)
		}
		if off > height-min(clearance, math.Abs(chord/2-math.Abs(x))/20) {
			return false
		}
	}
	return true
}

// outline returns the bead on a surface, counter-clockwise.
func (f face) outline(s surface) Polygon {
	under := s.corners(f.from, f.to)
	out := make(Polygon, 0, faceSteps+1+len(under))
	for _, p := range f.points(make([]Point, 0, faceSteps+1)) {
		out = appendApart(out, p)
	}
	for i := len(under) - 1; i >= 0; i-- {
		out = appendApart(out, under[i])
	}
	if out[0].sub(out[len(out)-1]).norm() < apart {
		out = out[:len(out)-1]
	}
	return out
}
