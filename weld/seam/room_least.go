package seam

import (
	"math"

	"seamwright/geom/r3"
)

// Sway is how far a weave takes the wire to either side.
type Sway struct {
	Amplitude float64 // half the width, m; 0 for a stringer bead
	// Plane is the turn of the weave about the seam (rad): 0 is square to the wire,
	// positive lifts the left edge.
	Plane float64
}

// to returns the shift of the wire to the left edge, m, for a torch that lies along e
// from the wire's end up.
func (s Sway) to(t, e r3.Vec) r3.Vec {
	left := e.Cross(t).Unit()
	sin, cos := math.Sincos(s.Plane)
	return left.Scale(cos).AddScaled(sin, t.Cross(left)).Scale(s.Amplitude)
}

// Least is where along a seam the clearance is least.
type Least struct {
	Gap
	At  int     // of Places
	U   float64 // place of the way, m
	Arc float64 // and on the seam, m
}

// Places returns how many places of the seam are looked at: one of a straight seam,
// for the joint is the same all along.
func (r *Room) Places() int { return len(r.places) }

// Place returns the place of the way (m) of place i of Places.
func (r *Room) Place(i int) (u float64) { return r.places[i].u }

// Least returns the least clearance all along the seam with the torch aimed by a and
// swaying by s, the first place of equals.
func (r *Room) Least(a Aim, s Sway) Least {
	least := Least{Gap: Gap{Clearance: math.Inf(1)}}
	for i := range r.places {
		if g := r.At(i, a, s); g.Clearance < least.Clearance-roomTie {
			least = Least{Gap: g, At: i, U: r.places[i].u, Arc: r.places[i].place.Arc}
		}
	}
	return least
}

// Clears reports whether the clearance is at least m (m) all along the seam. It looks
// first at place first of Places, where the clearance is likely to be short.
func (r *Room) Clears(a Aim, s Sway, m float64, first int) bool {
	if r.At(first, a, s).Clearance < m {
		return false
	}
	for i := range r.places {
		if i != first && r.At(i, a, s).Clearance < m {
			return false
		}
	}
	return true
}

// At returns the gap at place i of Places, the least over the width of the sway.
func (r *Room) At(i int, a Aim, s Sway) Gap {
	p := &r.places[i]
	tip := p.place.Frame.Encode(a)
	if s.Amplitude == 0 {
		return r.gapAt(p, &tip)
	}
	middle, side := tip.P, s.to(p.place.Frame.T, tip.R.Z().Neg())
	g := Gap{Clearance: math.Inf(1)}
	for _, k := range [3]float64{0, 1, -1} {
		tip.P = middle.AddScaled(k, side)
		if got := r.gapAt(p, &tip); got.Clearance < g.Clearance-roomTie {
			g = got
		}
	}
	return g
}
