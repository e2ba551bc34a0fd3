package plan

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld/seam"
)

// track is the way of the wire tip through one pass: in along the approach,
// over the seam, out along the retreat. Along is counted from the weld start,
// negative on the approach, beyond length on the retreat; between, it is the
// length of the seam's way, which goes on while the torch turns in a corner.
//
// The orientation on approach and retreat is that of the weld start and end,
// so that the torch goes straight in and out.
type track struct {
	way       seam.Way
	stretches []stretch // of the way, in order
	aim       seam.Aim  // its Spin is not used: spin is asked for at every place
	length    float64   // m, of the way
	// in and out are the tip's displacements from weld start to approach and
	// from weld end to retreat, m, base frame.
	in, out r3.Vec
}

func newTrack(w seam.Way, aim seam.Aim) *track {
	return &track{way: w, stretches: stretchesOf(w), aim: aim, length: w.Length()}
}

// moved is the track, given in frame a, as seen from frame b.
func (t *track) moved(bFromA se3.Pose) *track {
	m := *t
	m.way = t.way.Moved(bFromA)
	m.in, m.out = bFromA.Dir(t.in), bFromA.Dir(t.out)
	return &m
}

// pose returns baseFromTip at a place along the track (m) with a spin (rad).
func (t *track) pose(along, spin float64) se3.Pose {
	aim := t.aim
	aim.Spin = spin
	switch {
	case along < 0:
		p := t.way.At(0).Frame.Encode(aim)
		p.P = p.P.AddScaled(-along/t.in.Norm(), t.in)
		return p
	case along > t.length:
		p := t.way.At(t.length).Frame.Encode(aim)
		p.P = p.P.AddScaled((along-t.length)/t.out.Norm(), t.out)
		return p
	}
	return t.way.At(along).Frame.Encode(aim)
}

// arc is the place along the track as people read it, m: the arc length of the
// seam, negative on the approach, beyond the seam's length on the retreat.
func (t *track) arc(along float64) float64 { return t.way.Arc(along) }

// seamPlace is arc, brought onto the seam.
func (t *track) seamPlace(along float64) float64 {
	return t.arc(min(max(along, 0), t.length))
}

// Spacing of the places at which a posture is chosen.
const (
	// stationStep is the usual distance between stations on the seam, m: an
	// arm's posture changes by a degree or so over it.
	stationStep = 10e-3
	// stationTurn is the usual turn of the torch between stations, rad (5 deg).
	stationTurn = 5 * math.Pi / 180
	// airStep is the largest distance between stations on approach and
	// retreat, m.
	airStep = 20e-3
	// maxStations bounds the stations of one pass; beyond it the step grows.
	maxStations = 2000
)

// stations returns the places along the track at which a posture is chosen and
// the indices of weld start and weld end among them: the ends of all stretches,
// and between them steps of at most step (m), by which the torch turns by at
// most a share of stationTurn that shrinks with step.
func (t *track) stations(step float64) (along []float64, first, last int) {
	if n := steps(t.in.Norm(), airStep); n > 0 {
		for i := range n {
			along = append(along, -t.in.Norm()*float64(n-i)/float64(n))
		}
	}
	first = len(along)
	along = append(along, 0)
	turn := stationTurn * step / stationStep
	counts := t.counts(step, turn)
	for i := range t.stretches {
		along = append(along, t.stretches[i].places(counts[i], step, turn)...)
	}
	last = len(along) - 1
	if n := steps(t.out.Norm(), airStep); n > 0 {
		for i := range n {
			along = append(along, t.length+t.out.Norm()*float64(i+1)/float64(n))
		}
	}
	return along, first, last
}

// counts is the number of steps on each stretch, evenly fewer where they would
// be more than maxStations.
func (t *track) counts(step, turn float64) []int {
	counts := make([]int, len(t.stretches))
	total := 0
	for i := range counts {
		counts[i] = t.stretches[i].count(step, turn)
		total += counts[i]
	}
	if total <= maxStations {
		return counts
	}
	for i, n := range counts {
		counts[i] = max(1, int(math.Round(float64(n)*maxStations/float64(total))))
	}
	return counts
}

func steps(length, step float64) int { return int(math.Ceil(length/step - 1e-9)) }
