package plan

import (
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld/seam"
)

// track is the way of the wire tip through one pass: in along the approach,
// over the seam, out along the retreat. Along is counted from the weld start,
// negative on the approach, beyond length on the retreat.
//
// The orientation on approach and retreat is that of the weld start and end,
// so that the torch goes straight in and out.
type track struct {
	geometry *seam.Seam
	aim      seam.Aim // its Spin is not used: spin is asked for at every place
	length   float64  // m
	// in and out are the tip's displacements from weld start to approach and
	// from weld end to retreat, m, base frame.
	in, out r3.Vec
}

// pose returns baseFromTip at a place along the track (m) with a spin (rad).
func (t *track) pose(along, spin float64) se3.Pose {
	aim := t.aim
	aim.Spin = spin
	switch {
	case along < 0:
		p := t.geometry.At(0).Encode(aim)
		p.P = p.P.AddScaled(-along/t.in.Norm(), t.in)
		return p
	case along > t.length:
		p := t.geometry.At(t.length).Encode(aim)
		p.P = p.P.AddScaled((along-t.length)/t.out.Norm(), t.out)
		return p
	}
	return t.geometry.At(along).Encode(aim)
}

// Spacing of the places at which a posture is chosen.
const (
	// stationStep is the usual distance between stations on the seam, m: an
	// arm's posture changes by a degree or so over it.
	stationStep = 10e-3
	// stationTurn is the usual change of direction between stations on a curve,
	// rad (5 deg).
	stationTurn = 5 * math.Pi / 180
	// airStep is the largest distance between stations on approach and
	// retreat, m.
	airStep = 20e-3
	// maxStations bounds the stations of one pass; beyond it the step grows.
	maxStations = 2000
)

// stations returns the places along the track at which a posture is chosen and
// the indices of weld start and weld end among them. Step is the largest
// distance between stations on a straight seam, m; on a curve the turn between
// them shrinks with it.
func (t *track) stations(step float64) (along []float64, first, last int) {
	if n := steps(t.in.Norm(), airStep); n > 0 {
		for i := range n {
			along = append(along, -t.in.Norm()*float64(n-i)/float64(n))
		}
	}
	first = len(along)
	n := max(1, min(maxStations, t.weldSteps(step)))
	for i := range n + 1 {
		along = append(along, t.length*float64(i)/float64(n))
	}
	last = len(along) - 1
	if n := steps(t.out.Norm(), airStep); n > 0 {
		for i := range n {
			along = append(along, t.length+t.out.Norm()*float64(i+1)/float64(n))
		}
	}
	return along, first, last
}

func (t *track) weldSteps(step float64) int {
	n := steps(t.length, step)
	if k := curve.Curvature(t.geometry.Path(), 0); k > 0 {
		n = max(n, steps(t.length*k, stationTurn*step/stationStep))
	}
	return n
}

func steps(length, step float64) int { return int(math.Ceil(length/step - 1e-9)) }
