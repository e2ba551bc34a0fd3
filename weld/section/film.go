package section

import (
	"math"
	"slices"
)

// film is how thin a bead may get over a ridge that stands out of its arc, m: 20
// um, so that the bead stays one outline. Molten metal wets what lies between its
// toes (model; common practice, no source).
const film = 20e-6

// filmed returns the face of a bead of an area (m2) between two places whose arc
// would dip under ridges of the ground: the arc where it is free, a film over the
// ground elsewhere. The arc turns so that the area is right. It fails where the
// ground overhangs, and where the area does not make a film.
//
// Bisection on the turn, within 1e-12 of the area.
func filmed(s surface, f face, area float64) (face, bool) {
	d := f.to.sub(f.from.Point)
	chord := math.Sqrt(d.dot(d))
	along, out := Point{d.X / chord, d.Y / chord}, Point{d.Y / chord, -d.X / chord}
	ground := []Point{{}} // along the chord and off it, m
	for _, p := range append(slices.Clone(s.corners(f.from, f.to)), f.to.Point) {
		q := p.sub(f.from.Point)
		next := Point{q.dot(along), q.dot(out)}
		last := ground[len(ground)-1]
		if steep := next.X-last.X < clearance; next.X < last.X-apart || steep && next.Y > last.Y+clearance && next.X < chord-clearance {
			return f, false // it overhangs, or stands upright in the way
		}
		ground = append(ground, next)
	}
	under := s.under(f.from, f.to)
	var over, arc []Point
	low, high := -math.Pi, math.Pi
	for range 60 {
		f.turn = (low + high) / 2
		arc = bulge(arc[:0], Point{}, Point{chord, 0}, f.turn, faceSteps)
		over = filmOver(over[:0], arc, ground, chord)
		// The face is told along the chord from the first toe: above it counts.
		got := under
		for i := 1; i < len(over); i++ {
			got += float64((over[i].X - over[i-1].X) * (over[i].Y + over[i-1].Y) / 2)
		}
		if math.Abs(got-area) < 1e-12*area {
			break
		}
		if got < area {
			low = f.turn
		} else {
			high = f.turn
		}
		if high-low < 1e-14 {
			break
		}
	}
	if f.turn < -math.Pi+1e-9 || f.turn > math.Pi-1e-9 {
		return f, false
	}
	f.shape = make([]Point, 0, len(over))
	for _, q := range over {
		f.shape = append(f.shape, f.from.along(q.X, along).along(q.Y, out))
	}
	f.shape[0], f.shape[len(f.shape)-1] = f.from.Point, f.to.Point
	return f, true
}

// filmOver appends a face along and off its chord (m): the higher of an arc, told
// with its left side up, and of a film on the ground, at every step of the arc and
// every corner of the ground.
func filmOver(out, arc, ground []Point, chord float64) []Point {
	height := func(line []Point, i int, x float64) float64 {
		a, b := line[i], line[i+1]
		if b.X-a.X < apart {
			return b.Y
		}
		return a.Y + float64((b.Y-a.Y)*(x-a.X)/(b.X-a.X))
	}
	out = append(out, Point{})
	i, j := 0, 0 // pieces of arc and ground
	for i < len(arc)-1 && j < len(ground)-1 {
		x := min(arc[i+1].X, ground[j+1].X)
		thin := film * min(1, x/film, (chord-x)/film) // no film at the toes
		y := max(-height(arc, i, x), height(ground, j, x)+max(0, thin))
		out = append(out, Point{x, y})
		if arc[i+1].X <= x {
			i++
		}
		if ground[j+1].X <= x {
			j++
		}
	}
	out[len(out)-1] = Point{chord, 0}
	return out
}
