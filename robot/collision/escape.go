package collision

import (
	"math"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// Hit is a pair of bodies that is not clear at some posture.
type Hit struct {
	Near Near
	// Depth is how far (m) and Way in which unit direction of the base body B of
	// the pair has to be moved to be free of A: 0 for bodies that are apart, only
	// not by what is wanted. It is never too short, and need not be the shortest:
	// for two solids the least over the directions square to faces and edges
	// (see convex.Depth), for meshes over 26 directions, to 0.1 mm.
	Depth float64
	Way   r3.Vec
}

// EscapeOptions say which moves are tried. The zero value tries single joints.
type EscapeOptions struct {
	// Tip lists the directions of the base, of any length, in which the tip is
	// tried, such as back along the wire, and up.
	Tip []r3.Vec
	// Shift returns the posture (rad or m) that has the tip moved by so much (m,
	// in the base), near q; ok is false where the arm cannot. nil: the tip is not
	// tried.
	Shift func(q kinematics.Q, by r3.Vec) (shifted kinematics.Q, ok bool)
}

// How far and how finely moves are tried.
const (
	farthestTurn  = math.Pi / 2 // of a turning joint, rad
	farthestSlide = 0.5         // of a sliding joint and of the tip, m
	tries         = 180         // steps of the first search: 0.5 deg, 2.8 mm
	fine          = 1.0 / 64    // of a step, to which the move is found: 0.01 deg, 0.04 mm
)

// Free is a move that leads from a posture that is not clear to one that is,
// with nothing else in the way: on it only the pairs that were not clear to begin
// with may come near or touch. What they do there is not known, so it is for a
// person to make, slowly.
type Free struct {
	Found bool
	Joint int          // the joint that moves, -1 where the tip does
	Tip   int          // index in EscapeOptions.Tip, -1 where a joint moves
	By    float64      // rad or m; of the tip m
	Q     kinematics.Q // where the move ends, rad or m
	Moves float64      // how far any point of the bodies travels at most, m
	Near  Near         // the place of least slack there, up to 0.1 m
}

// Escape is what is known of a posture that is not clear.
type Escape struct {
	Hits   []Hit    // every pair that is not clear, least slack first
	Inside []Inside // bodies wholly inside a closed mesh, whose skin is no hit
	Joint  Free     // the single joint whose move travels least
	Tip    Free     // the shortest of the moves of the tip that were asked for
}

// Escape says at joint values q (rad or m) which pairs are not clear, how deep
// they are in each other, and which small moves free them. Moves are tried step
// by step from short to long, so that a narrow place of freedom between two
// steps may be passed over. Where the posture is clear the answer is empty; where
// q is not finite, too. It allocates. It panics where the regime has not one
// number for each pair.
func (m *Model) Escape(s *Scratch, q *kinematics.Q, r Regime, o EscapeOptions) (e Escape) {
	e.Joint, e.Tip = Free{Joint: -1, Tip: -1}, Free{Joint: -1, Tip: -1}
	m.mustFit(r)
	if !m.frames.finite(q) {
		return e
	}
	e.Inside, _ = m.Inside(s, q, r)
	e.Hits = m.hits(s, q, r)
	if len(e.Hits) == 0 && len(e.Inside) == 0 {
		return e
	}
	way := append(Regime(nil), r...) // what is wanted on the way
	for _, h := range e.Hits {
		way[h.Near.Pair] = -1
	}
	for _, in := range e.Inside {
		way[in.Pair] = -1
	}
	x := exit{m: m, s: s, q: *q, r: r, way: way}
	for j := range m.frames.n {
		for _, sign := range [2]float64{1, -1} {
			f := x.search(func(share float64) (kinematics.Q, bool) { return x.joint(j, sign*share) })
			if f.Found && (!e.Joint.Found || f.Moves < e.Joint.Moves) {
				f.Joint, f.Tip, f.By = j, -1, f.Q[j]-q[j]
				e.Joint = f
			}
		}
	}
	for i, direction := range o.Tip {
		if o.Shift == nil || direction.Norm() == 0 {
			continue
		}
		u := direction.Unit()
		f := x.search(func(share float64) (kinematics.Q, bool) { return o.Shift(*q, u.Scale(share*farthestSlide)) })
		f.By *= farthestSlide
		if f.Found && (!e.Tip.Found || f.By < e.Tip.By) {
			f.Joint, f.Tip = -1, i
			e.Tip = f
		}
	}
	return e
}

// hits lists the pairs that are not clear.
func (m *Model) hits(s *Scratch, q *kinematics.Q, r Regime) (hits []Hit) {
	m.place(s, q)
	for i := range m.pairings {
		if r[i] < 0 {
			continue
		}
		near, found := m.gap(s, i, max(r[i], blur)*2)
		if near.Wanted = r[i]; !found || near.Clear() {
			continue
		}
		h := Hit{Near: near}
		if near.Distance == 0 {
			h.Depth, h.Way = m.depth(s, &m.pairings[i])
		}
		at := len(hits)
		for at > 0 && h.less(&hits[at-1]) {
			at--
		}
		hits = append(hits[:at], append([]Hit{h}, hits[at:]...)...)
	}
	return hits
}

// less orders hits by their slack, and those that touch by their depth.
func (h *Hit) less(other *Hit) bool {
	if a, b := h.Near.Slack(), other.Near.Slack(); a != b {
		return a < b
	}
	return h.Depth > other.Depth
}

// depth returns how far (m) and in which direction of the base b has to be
// moved to be free of a.
func (m *Model) depth(s *Scratch, k *pairing) (depth float64, way r3.Vec) {
	a, b := &m.bodies[k.a].Shape, &m.bodies[k.b].Shape
	if a.tree == nil && b.tree == nil {
		pose := m.pose(s, k.a).Inv().Mul(*m.pose(s, k.b))
		depth, way = convex.Depth(&a.solid, &b.solid, &pose)
		return depth, m.pose(s, k.a).Dir(way)
	}
	depth = k.radii + s.centres[k.a].Dist(s.centres[k.b]) // frees b whatever the direction
	for i := range 27 {
		u := r3.Vec{X: float64(i%3 - 1), Y: float64(i/3%3 - 1), Z: float64(i/9 - 1)}.Unit()
		if u == (r3.Vec{}) || way != (r3.Vec{}) && !m.parted(s, k, u.Scale(depth)) {
			continue // not free even so far
		}
		low, high := 0.0, depth
		for high-low > 0.1e-3 {
			if mid := (low + high) / 2; m.parted(s, k, u.Scale(mid)) {
				high = mid
			} else {
				low = mid
			}
		}
		if high < depth || way == (r3.Vec{}) {
			depth, way = high, u
		}
	}
	return depth, way
}

// parted reports whether a pair neither touches, nor one is inside the other,
// where b is moved by shift, m in the base.
func (m *Model) parted(s *Scratch, k *pairing, shift r3.Vec) bool {
	if !m.shiftedClear(s, k, shift) {
		return false
	}
	a, _ := m.within(s, k.b, k.a, shift)
	b, _ := m.within(s, k.a, k.b, shift.Neg())
	return !a && !b
}
