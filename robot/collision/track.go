package collision

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// track is what a Scratch remembers from one posture to the next: how far each
// body has come, and how far apart each pair once was. A pair that was far
// apart and has not come far since is still apart, without a look at it.
type track struct {
	groups  [groupCount]se3.Pose // where the bodies were when last looked at
	centres []r3.Vec
	come    []float64 // by body: way in the base in all, m
	apart   []float64 // by pair: distance at least, m, when its bodies had come
	when    []float64 // so far together, m
	found   []bool    // by pair: whether apart was the distance itself
}

func newTrack(m *Model) track {
	return track{
		centres: make([]r3.Vec, len(m.bodies)),
		come:    make([]float64, len(m.bodies)),
		apart:   make([]float64, len(m.pairs)),
		when:    make([]float64, len(m.pairs)),
		found:   make([]bool, len(m.pairs)),
	}
}

// forget makes the track know nothing.
func (t *track) forget() {
	for i := range t.apart {
		t.apart[i], t.found[i] = math.Inf(-1), false
	}
}

// follow adds the way from the posture looked at before to where the bodies
// are placed: for any point of a body at most that of its middle, and the
// change of its group's axes times its ball's radius.
func (m *Model) follow(s *Scratch) {
	t := &s.track
	var turned [groupCount]float64
	for g := 1; g <= m.frames.n; g++ {
		was, is := &t.groups[g].R, &s.groups[g].R
		var sum float64
		for i := range is {
			d := is[i] - was[i]
			sum += d * d
		}
		turned[g] = math.Sqrt(sum / 2) // the largest change of a unit vector
	}
	for i := range m.moving {
		b := &m.moving[i]
		d := s.centres[b.body].Sub(t.centres[b.body])
		t.come[b.body] += math.Sqrt(d.Dot(d)) + turned[b.group]*m.crates[b.body].radius
		t.centres[b.body] = s.centres[b.body]
	}
	t.groups = s.groups
}

// known returns a distance, m, that pair i keeps at least by what was known of it
// before.
func (t *track) known(i int, k *pairing) float64 {
	return t.apart[i] - (t.come[k.a] + t.come[k.b] - t.when[i]) - blur
}

// learn takes note of a distance, m, that pair i has where the bodies are, or, if
// it was not found, keeps at least.
func (t *track) learn(i int, k *pairing, distance float64, found bool) {
	t.apart[i], t.when[i], t.found[i] = distance, t.come[k.a]+t.come[k.b], found
}

// nearest returns the pair that had the least slack when its distance was last
// found, -1 if none was.
func (t *track) nearest(r Regime) int {
	at, least := -1, math.Inf(1)
	for i, found := range t.found {
		if found && r[i] >= 0 && t.apart[i]-r[i] < least {
			at, least = i, t.apart[i]-r[i]
		}
	}
	return at
}
