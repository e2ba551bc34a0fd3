package section

import (
	"math"
	"slices"
	"sort"
)

// surface is what lies open to the arc in the plane of a section: plates and
// beads, told from the base plate (or the plate at positive X) to the other, with
// the open side on the right of the way.
type surface struct {
	at    []Point
	run   []float64 // m, length of the way to each corner
	swept []float64 // m2, sum of the cross products of successive corners up to each
}

func newSurface(at []Point) surface {
	s := surface{at: at}
	measure(&s)
	return s
}

// measure fills in the sums for the corners of a surface.
func measure(s *surface) {
	s.run = append(slices.Grow(s.run[:0], len(s.at)), 0)
	s.swept = append(slices.Grow(s.swept[:0], len(s.at)), 0)
	var run, swept float64
	for i := 1; i < len(s.at); i++ {
		d := s.at[i].sub(s.at[i-1])
		run += math.Sqrt(d.dot(d))
		swept += s.at[i-1].cross(s.at[i])
		s.run, s.swept = append(s.run, run), append(s.swept, swept)
	}
}

// length returns the length of the whole way, m.
func (s surface) length() float64 { return s.run[len(s.run)-1] }

// spot is a place on a surface: on the straight piece behind corner i.
type spot struct {
	Point
	i   int
	run float64 // m
}

// spot returns the place at a length of way (m) within the surface.
func (s surface) spot(run float64) spot {
	i := sort.SearchFloat64s(s.run, run) - 1
	i = min(max(i, 0), len(s.at)-2)
	f := (run - s.run[i]) / (s.run[i+1] - s.run[i])
	return spot{s.at[i].between(s.at[i+1], min(max(f, 0), 1)), i, run}
}

// under returns the area between the surface and the straight line from a to b,
// m2, positive where the surface lies below the line.
func (s surface) under(a, b spot) float64 {
	if a.i == b.i {
		return 0
	}
	way := a.cross(s.at[a.i+1]) + s.swept[b.i] - s.swept[a.i+1] + s.at[b.i].cross(b.Point) + b.cross(a.Point)
	return -way / 2
}

// corners returns the corners between two places, without the places.
func (s surface) corners(a, b spot) []Point { return s.at[a.i+1 : b.i+1] }

// cover writes into out, whose memory it reuses, the surface with a face, told
// from a to b with both ends, over the part between them.
func (s surface) cover(out *surface, a, b spot, face []Point) {
	out.at = append(slices.Grow(out.at[:0], len(s.at)+len(face)), s.at[:a.i+1]...)
	for _, p := range face {
		out.at = appendApart(out.at, p)
	}
	for _, p := range s.at[b.i+1:] {
		out.at = appendApart(out.at, p)
	}
	measure(out)
}

// apart is the least distance of two corners, m: nearer ones are one.
const apart = 1e-9

// appendApart appends a corner that is not the last one again.
func appendApart(at []Point, p Point) []Point {
	if n := len(at); n > 0 {
		if d := at[n-1].sub(p); math.Abs(d.X) < apart && math.Abs(d.Y) < apart {
			return at
		}
	}
	return append(at, p)
}

// nearest returns the shortest distance of the surface from a point, m.
func (s surface) nearest(p Point) float64 {
	best := math.Inf(1)
	for i := 1; i < len(s.at); i++ {
		a, d := s.at[i-1], s.at[i].sub(s.at[i-1])
		f := min(max(p.sub(a).dot(d)/d.dot(d), 0), 1)
		best = min(best, p.sub(a.along(f, d)).norm())
	}
	return best
}
