package motion

import (
	"math"

	"seamwright/robot/kinematics"
)

// jerkGrid is the grid for a law with limited jerk: the knots, the intervals between
// them divided evenly where there are few, and towards both ends ever finer: no
// interval is longer than a share of its distance from rest, down to a fraction of the
// time in which the acceleration is gathered, because there x is no parabola.
func (r *PathRequest) jerkGrid(c curve) []float64 {
	knots := c.knots()
	parts := max(1, (jerkIntervals+len(knots)-2)/(len(knots)-1))
	var g []float64
	for i := 1; i < len(knots); i++ {
		g = appendDivided(g, knots[i-1], knots[i], parts)
	}
	n := len(g)
	g = append(g, knots[len(knots)-1])
	d, _, _ := c.jet(0, g[0])
	first := r.nearRest(g[1]-g[0], g[n]-g[0], &d)
	d, _, _ = c.jet(len(knots)-2, g[n])
	last := r.nearRest(g[n]-g[n-1], g[n]-g[0], &d)
	fine := make([]float64, 0, n+len(first)+len(last)+20)
	fine = append(fine, g[0])
	for i := len(first) - 1; i >= 0; i-- {
		fine = append(fine, g[0]+first[i])
	}
	for i := 1; i < n-1; i++ {
		rest := min(g[i]-g[0], g[n]-g[i+1])
		fine = appendDivided(fine, g[i], g[i+1], max(1, steps((g[i+1]-g[i])/rest, restGrowth-1)))
	}
	fine = append(fine, g[n-1])
	for _, x := range last {
		fine = append(fine, g[n]-x)
	}
	return append(fine, g[n])
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

// jerkIntervals is the least number of intervals of a grid for limited jerk, apart
// from those near rest, which grow by restGrowth from one to the next.
const (
	jerkIntervals = 100
	restGrowth    = 1.25
)

// nearRest returns the distances from an end, falling, at which the interval there is
// divided, for derivatives d of the path at the end.
func (r *PathRequest) nearRest(interval, length float64, d *kinematics.Q) []float64 {
	limits := LawLimits{Speed: r.Wanted, Accel: r.Accel, Jerk: r.Jerk}
	for j, l := range r.Limits {
		if turns := math.Abs(d[j]); turns > 0 {
			limits.Accel, limits.Jerk = min(limits.Accel, l.Accel/turns), min(limits.jerk(), l.jerk()/turns)
		}
	}
	least := interval / 100
	if law, err := NewSevenPhase(length, limits); err == nil && law.bend > 0 {
		t := law.bend / 4
		least = min(interval/2, law.jerk*t*t*t/6)
	}
	var list []float64
	for x := interval; x > least*restGrowth; {
		x /= restGrowth
		list = append(list, x)
	}
	return list
}
