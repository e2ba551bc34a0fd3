package collision

import (
	"errors"
	"fmt"
	"math"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// Model is a chain, the bodies on its links, and the pairs of bodies that are
// looked at. Use NewModel.
type Model struct {
	frames   frames
	bodies   []Body
	placed   []placed
	moving   []mover // the bodies that are not fixed to the base
	crates   []crate // of each body
	pairs    []Pair
	pairings []pairing
	order    []quick // the pairs, those that touch most often first
}

// placed is a body in its group of links.
type placed struct {
	group         int
	groupFromBody se3.Pose
	mid           r3.Vec // of the hull, in the group, m
	hull          *hull
	weights       [kinematics.MaxJoints]float64 // see frames.weights
}

// mover is a moving body and the middle of its hull in its group, m.
type mover struct {
	body, group int32
	mid         r3.Vec
}

// crate is the box of a body's hull and the radii of balls about its middle: one
// that holds the body and one that it holds, m, 0 for none. A full crate is the
// body itself.
type crate struct {
	half          r3.Vec
	radius, inner float64
	full          bool
}

// Scratch holds what queries remember: the poses of the last posture and the
// nearest triangles of each pair, where the next search starts. One Scratch
// serves one goroutine and the model that made it.
type Scratch struct {
	groups  [groupCount]se3.Pose
	centres []r3.Vec   // of the bodies' balls, in the base, m
	poses   []se3.Pose // base from body, where posed; see Model.pose
	posed   []bool

	warm []bvh.Pair // by pair: the triangles that were nearest
	axes []r3.Vec   // by pair: a direction that parted two solids, in a's frame
	hit  int        // the pair that was not clear last, -1: none
	list []candidate

	track track

	// Of a move: see survey.
	within   bool                  // the sliding joints stay within their limits
	rate     [][groupCount]float64 // by body: travel over the whole move, m
	bout     bout                  // the piece of the move that is looked at
	journeys []journey             // by body
	spans    []span
	ids      []int32
	rows     [][]float64           // by depth of a path's cutting, by pair: slack at least, m
	departed [][groupCount]float64 // by body: travel by which a path leaves straight moves, m
}

// NewModel returns the model of bodies on a chain's links. The choices list
// every pair of bodies in the order of Pair.A and then Pair.B, with the reason
// why it is looked at or left out; those kept, in this order, are the model's
// Pairs. The slice of bodies is not kept. It refuses an unnamed body or a name
// given twice, a link outside the chain's list, a body without a shape or with
// a pose that is not finite, and options that name unknown bodies.
func NewModel(chain *kinematics.Chain, bodies []Body, choose PairOptions) (*Model, []Choice, error) {
	if chain == nil {
		return nil, nil, errors.New("found no chain; allowed: the chain from base to flange; give it")
	}
	if choose.Samples < 0 {
		return nil, nil, fmt.Errorf("found %d sampled postures; allowed: 0 for %d, or more; correct the number", choose.Samples, defaultSamples)
	}
	m := &Model{frames: newFrames(chain), bodies: append([]Body(nil), bodies...)}
	group, groupFromLink := groupsOfLinks(chain, &m.frames)
	names := map[string]int{}
	for i := range m.bodies {
		b := &m.bodies[i]
		if err := checkBody(b, len(group)); err != nil {
			return nil, nil, fmt.Errorf("body %d %q: %w", i, b.Name, err)
		}
		if before, twice := names[b.Name]; twice {
			return nil, nil, fmt.Errorf("body %d %q: found the name of body %d; allowed: a name of its own; rename one", i, b.Name, before)
		}
		names[b.Name] = i
		m.placed = append(m.placed, placed{group: group[b.Link], groupFromBody: groupFromLink[b.Link].Mul(b.LinkFromBody), hull: &b.Shape.hull})
		p := &m.placed[i]
		p.mid = p.groupFromBody.Apply(p.hull.mid)
		p.weights = m.frames.weights(p)
	}
	for i := range m.placed {
		m.crates = append(m.crates, m.bodies[i].Shape.crate())
		if m.placed[i].group > 0 {
			m.moving = append(m.moving, mover{int32(i), int32(m.placed[i].group), m.placed[i].mid})
		}
	}
	choices, err := m.choose(choose)
	if err != nil {
		return nil, nil, err
	}
	m.keep(choices)
	m.sort(choose.Seed)
	return m, choices, nil
}

// keep takes the pairs that are looked at.
func (m *Model) keep(choices []Choice) {
	for _, c := range choices {
		if c.Reason.Kept() {
			m.pairs = append(m.pairs, c.Pair)
			m.pairings = append(m.pairings, newPairing(m, c.Pair))
		}
	}
}

func checkBody(b *Body, links int) error {
	p := b.LinkFromBody
	sum := p.P.X + p.P.Y + p.P.Z
	for _, x := range p.R {
		sum += x
	}
	d := p.R.Mul(p.R.T())
	switch {
	case b.Name == "":
		return errors.New("found no name; allowed: any words; name it")
	case b.Link < 0 || b.Link >= links:
		return fmt.Errorf("found link %d; allowed: 0 to %d, the chain's links; correct it", b.Link, links-1)
	case !b.Shape.made:
		return errors.New("found no shape; allowed: a shape of a mesh or a solid; give one")
	case math.IsNaN(sum) || math.IsInf(sum, 0):
		return errors.New("found a pose that is not finite; allowed: numbers; correct it")
	case math.Abs(d[0]-1)+math.Abs(d[4]-1)+math.Abs(d[8]-1)+math.Abs(d[1])+math.Abs(d[2])+math.Abs(d[5]) > 1e-9:
		return errors.New("found an orientation that is no rotation; allowed: three unit axes square to each other; correct it")
	}
	return nil
}

// Scratch returns what one goroutine needs to ask the model.
func (m *Model) Scratch() *Scratch {
	s := &Scratch{
		poses:   make([]se3.Pose, len(m.bodies)),
		posed:   make([]bool, len(m.bodies)),
		centres: make([]r3.Vec, len(m.bodies)),
		warm:    make([]bvh.Pair, len(m.pairs)),
		axes:    make([]r3.Vec, len(m.pairs)),
		list:    make([]candidate, 0, len(m.pairs)),
		track:   newTrack(m),

		rate:     make([][groupCount]float64, len(m.bodies)),
		journeys: make([]journey, len(m.bodies)),
		departed: make([][groupCount]float64, len(m.bodies)),
	}
	for i := range m.placed { // for good where the group is 0
		s.posed[i] = m.placed[i].group == 0
		s.poses[i], s.centres[i] = m.placed[i].groupFromBody, m.placed[i].mid
	}
	m.Forget(s)
	return s
}

// Forget makes a Scratch as good as new, so that what is asked next does not
// depend, not even in its rounding, on what was asked before.
func (m *Model) Forget(s *Scratch) {
	s.hit = -1
	clear(s.axes)
	s.track.forget()
	for i := range s.warm {
		s.warm[i] = bvh.NoPair()
	}
}

// Bodies returns the model's bodies, in the order in which they were given. The
// slice is the model's: do not write to it.
func (m *Model) Bodies() []Body { return m.bodies }

// Pairs returns the pairs that are looked at, in the order of a Regime. The
// slice is the model's: do not write to it.
func (m *Model) Pairs() []Pair { return m.pairs }

// Poses appends to dst the pose in the base of each body at joint values q
// (rad or m), in the order of Bodies, and returns the longer slice.
func (m *Model) Poses(q *kinematics.Q, dst []se3.Pose) []se3.Pose {
	var groups [groupCount]se3.Pose
	m.frames.place(q, &groups)
	for i := range m.placed {
		dst = append(dst, groups[m.placed[i].group].Mul(m.placed[i].groupFromBody))
	}
	return dst
}

// place puts every body where it is at joint values q, rad or m.
func (m *Model) place(s *Scratch, q *kinematics.Q) {
	m.frames.place(q, &s.groups)
	for i := range m.moving {
		b := &m.moving[i]
		g := &s.groups[b.group]
		s.posed[b.body] = false
		s.centres[b.body] = r3.Vec{
			X: g.R[0]*b.mid.X + g.R[1]*b.mid.Y + g.R[2]*b.mid.Z + g.P.X,
			Y: g.R[3]*b.mid.X + g.R[4]*b.mid.Y + g.R[5]*b.mid.Z + g.P.Y,
			Z: g.R[6]*b.mid.X + g.R[7]*b.mid.Y + g.R[8]*b.mid.Z + g.P.Z,
		}
	}
}

// pose returns the pose in the base of body i where it is placed.
func (m *Model) pose(s *Scratch, i int) *se3.Pose {
	if !s.posed[i] {
		m.settle(s, i)
	}
	return &s.poses[i]
}

// settle finds the pose of body i, which few questions ask for.
func (m *Model) settle(s *Scratch, i int) {
	p := &m.placed[i]
	s.posed[i] = true
	s.poses[i] = s.groups[p.group].Mul(p.groupFromBody)
}

// span returns the limits of joint j, rad or m, half a turn either way where it
// turns without end.
func (f *frames) span(j int) (lower, upper float64) {
	if math.IsInf(f.lower[j], 0) || math.IsInf(f.upper[j], 0) {
		return -math.Pi, math.Pi
	}
	return f.lower[j], f.upper[j]
}
