package collision

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// bout is a motion of all joints about the posture where the bodies are
// placed, straight in joint space: each joint goes up to step either way.
type bout struct {
	number int                           // of bouts before this in the Scratch
	step   [kinematics.MaxJoints]float64 // rad or m
	// The velocity of each group while the joints go their step in unit time:
	// turn about the base's origin (rad) and motion there (m), in the base.
	turn, slide [groupCount]r3.Vec
}

// journey is what is known of a body in a bout.
type journey struct {
	bout int // the number of the bout it is known for
	// How far the body travels at most in the frame of each group by the joints'
	// travel and the axes' distances, and the same of second order: how far it
	// is pulled from where its velocity would lead. m.
	path, pull [groupCount]float64
	ends       [2]r3.Vec // of the spine, m, in the base
}

// set begins a bout of step, rad or m, about where the bodies are placed.
func (b *bout) set(m *Model, s *Scratch, step *[kinematics.MaxJoints]float64) {
	b.number++
	b.step = *step
	for j := range m.frames.n {
		axis := &s.groups[j+1]
		z := axis.R.Z().Scale(step[j])
		if m.frames.sliding[j] {
			b.turn[j+1], b.slide[j+1] = b.turn[j], b.slide[j].Add(z)
			continue
		}
		b.turn[j+1] = b.turn[j].Add(z)
		b.slide[j+1] = b.slide[j].Sub(z.Cross(axis.P))
	}
}

// journey returns what is known of body i in the bout.
func (m *Model) journey(s *Scratch, i int) *journey {
	to := &s.journeys[i]
	if to.bout == s.bout.number {
		return to
	}
	p := &m.placed[i]
	mid, spine := s.centres[i], m.pose(s, i).Dir(p.hull.spine)
	to.bout = s.bout.number
	to.ends = [2]r3.Vec{mid.Add(spine), mid.Sub(spine)}
	to.path[p.group], to.pull[p.group] = 0, 0
	for j := p.group - 1; j >= 0; j-- {
		m.pass(s, p, to, j, j+1, j)
	}
	for j := p.group; j < m.frames.n; j++ {
		m.pass(s, p, to, j, j, j+1)
	}
	return to
}

// pass carries a journey over joint j, from group near to group far. The
// distance from the axis is that where the body is placed, and grows by what
// the joints between move the body; it is never beyond that at any posture,
// unless a sliding joint is beyond its limits.
//
// A point of the body moves at the sum of the joints' speeds times its
// distances r from their axes. Its acceleration at steady joint speeds v is at
// most the sum of v_j^2 r_j for each joint and 2 v_i v_j r_j for each two of
// them, j the one nearer to the body (derivation: the velocity of a chain of
// axes, differentiated once).
func (m *Model) pass(s *Scratch, p *placed, to *journey, j, near, far int) {
	to.path[far], to.pull[far] = to.path[near], to.pull[near]
	step := math.Abs(s.bout.step[j])
	if step == 0 {
		return
	}
	r := 1.0
	if !m.frames.sliding[j] {
		axis := &s.groups[j+1]
		r = math.Sqrt(max(offAxis(to.ends[0], axis), offAxis(to.ends[1], axis))) + p.hull.girth + to.path[near]
		if s.within {
			r = min(r, p.weights[j])
		}
	}
	to.path[far] += step * r
	to.pull[far] += step * (step*r + 2*to.path[near]) / 2
}

// travel returns how far (m) the bodies of a pair travel on each other at most
// in the bout.
func (m *Model) travel(s *Scratch, k *pairing) float64 {
	return min(m.travelOf(s, k.a, k.b), m.travelOf(s, k.b, k.a))
}

// travelOf returns how far (m) body a travels in the frame of body b: by its
// path, or by its velocity where it is placed and what pulls it from there.
func (m *Model) travelOf(s *Scratch, a, b int) float64 {
	to, g, other := m.journey(s, a), m.placed[a].group, m.placed[b].group
	turn := s.bout.turn[g].Sub(s.bout.turn[other])
	slide := s.bout.slide[g].Sub(s.bout.slide[other])
	one, two := slide.Add(turn.Cross(to.ends[0])), slide.Add(turn.Cross(to.ends[1]))
	fast := math.Sqrt(max(one.Dot(one), two.Dot(two))) + m.placed[a].hull.girth*turn.Norm()
	return min(to.path[other], fast+to.pull[other])
}

// offAxis returns the squared distance (m2) of a point from a frame's z axis.
func offAxis(p r3.Vec, axis *se3.Pose) float64 {
	d := p.Sub(axis.P).Cross(axis.R.Z())
	return d.Dot(d)
}
