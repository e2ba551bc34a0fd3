package motion

import (
	"math"

	"seamwright/robot/kinematics"
)

// coarseGrid is the knots, with the intervals between them divided evenly where there
// are few.
func coarseGrid(knots []float64) []float64 {
	parts := max(1, steps(jerkIntervals, float64(len(knots)-1)))
	var g []float64
	for i := 1; i < len(knots); i++ {
		g = appendDivided(g, knots[i-1], knots[i], parts)
	}
	return append(g, knots[len(knots)-1])
}

// jerkGrid is the grid for a law with limited jerk, made from a motion without that
// limit on coarseGrid: finer where that is not at the wanted speed, so that the jerk
// can change in a share of the time in which acceleration is gathered; and towards
// both ends ever finer: no interval is longer than a share of its distance from rest,
// down to a share of the first gathering, because there x is no parabola.
func (r *PathRequest) jerkGrid(c curve, fast *profile) []float64 {
	knots, g := c.knots(), fast.at
	n := len(g) - 1
	d, _, _ := c.jet(0, g[0])
	path := span{g[0], g[n]}
	first := r.nearRest(g[1]-g[0], path, &d)
	d, _, _ = c.jet(len(knots)-2, g[n])
	last := r.nearRest(g[n]-g[n-1], path, &d)
	fine := make([]float64, 0, 2*n+len(first)+len(last))
	fine = append(fine, g[0])
	for i := len(first) - 1; i >= 0; i-- {
		fine = append(fine, g[0]+first[i])
	}
	lag := r.lag()
	for i := 1; i < n-1; i++ {
		parts := 1
		if !r.calm(fast, i) {
			parts = max(1, min(mostParts, steps(fast.piece[i].time, lag/4)))
		}
		fine = appendGraded(fine, span{g[i], g[i+1]}, path, parts)
	}
	fine = append(fine, g[n-1])
	for _, x := range last {
		fine = append(fine, g[n]-x)
	}
	return append(fine, g[n])
}

// calm reports whether a motion has the wanted speed in interval i and in those
// beside it.
func (r *PathRequest) calm(fast *profile, i int) bool {
	for k := max(0, i-1); k <= min(i+1, len(fast.piece)-1); k++ {
		if p := &fast.piece[k]; min(p.v0, p.v1) < r.Wanted*(1-1e-9) {
			return false
		}
	}
	return true
}

// lag is the shortest time in which the path or a joint gathers its acceleration, s.
func (r *PathRequest) lag() float64 {
	lag := math.Inf(1)
	if j := (LawLimits{Jerk: r.Jerk}).jerk(); !math.IsInf(j, 1) {
		lag = r.Accel / j
	}
	for _, l := range r.Limits {
		if j := l.jerk(); !math.IsInf(j, 1) {
			lag = min(lag, l.Accel/j)
		}
	}
	return lag
}

// steps is how many steps of at most step make a length.
func steps(length, step float64) int { return int(math.Ceil(length/step - timeSlack)) }

// appendDivided appends the starts of so many even parts of the interval from a to b.
func appendDivided(g []float64, a, b float64, parts int) []float64 {
	for k := range parts {
		f := float64(k) / float64(parts)
		g = append(g, a*(1-f)+b*f)
	}
	return g
}

// span is a stretch of path positions.
type span struct{ from, to float64 }

// size is the largest position, which rounding counts from.
func (s span) size() float64 { return max(math.Abs(s.from), math.Abs(s.to)) }

// What path positions are told apart by, as shares of the largest, dimensionless: those
// of a request by coarsest, so that those of its grid may be by finest, some fifty
// roundings.
const (
	coarsest = 1e-10
	finest   = 1e-14
)

// appendGraded appends the starts of so many even parts of an interval of the path, or
// of more where one would be longer than its share of the distance from rest; in halves
// where that takes many.
func appendGraded(g []float64, s, path span, parts int) []float64 {
	length, rest := s.to-s.from, (restGrowth-1)*min(s.from-path.from, path.to-s.to)
	if length > mostParts*rest {
		middle := s.from + length/2
		g = appendGraded(g, span{s.from, middle}, path, (parts+1)/2)
		return appendGraded(g, span{middle, s.to}, path, (parts+1)/2)
	}
	return appendDivided(g, s.from, s.to, max(parts, steps(length, rest)))
}

// jerkIntervals is the least number of intervals of a grid for limited jerk and
// mostParts the largest number of parts of one; those near rest grow by restGrowth from
// one to the next.
const (
	jerkIntervals = 100
	mostParts     = 8
	restGrowth    = 1.25
)

// nearRest returns the distances from an end, falling, at which the interval there is
// divided, for derivatives d of the path at the end.
func (r *PathRequest) nearRest(interval float64, path span, d *kinematics.Q) []float64 {
	limits := LawLimits{Speed: r.Wanted, Accel: r.Accel, Jerk: r.Jerk}
	for j, l := range r.Limits {
		if turns := math.Abs(d[j]); turns > 0 {
			limits.Accel, limits.Jerk = min(limits.Accel, l.Accel/turns), min(limits.jerk(), l.jerk()/turns)
		}
	}
	least := interval / 100
	if law, err := NewSevenPhase(path.to-path.from, limits); err == nil && law.bend > 0 {
		t := law.bend / 4
		least = min(interval/2, law.jerk*t*t*t/6)
	}
	least = max(least, finest*path.size())
	var list []float64
	for x := interval; x > least*restGrowth; {
		x /= restGrowth
		list = append(list, x)
	}
	return list
}
