package collision

import (
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// Inside is a pair of bodies of which one may lie wholly inside the other, a
// mesh, whose skin it does not touch.
type Inside struct {
	Pair         int // index in Pairs
	Inner, Outer int // indices in Bodies
}

// Inside finds at joint values q (rad or m), among the pairs that the regime
// looks at, bodies wholly inside a closed mesh. Distances do not show these: they
// are those of surfaces. unknown lists the pairs where it cannot be told: one
// body is within the box of another, whose mesh is not closed. Solids are filled,
// so what is inside a solid touches it and is not listed. It is meant for the
// posture that a run starts from; after that nothing gets inside without
// touching. It panics where the regime has not one number for each pair, and
// finds nothing where q is not finite.
func (m *Model) Inside(s *Scratch, q *kinematics.Q, r Regime) (inside, unknown []Inside) {
	m.mustFit(r)
	if !m.frames.finite(q) {
		return nil, nil
	}
	m.place(s, q)
	for i := range m.pairings {
		k := &m.pairings[i]
		if r[i] < 0 || m.apart(s, k, blur) >= blur {
			continue
		}
		for _, ab := range [2][2]int{{k.a, k.b}, {k.b, k.a}} {
			in := Inside{Pair: i, Inner: ab[0], Outer: ab[1]}
			switch within, known := m.within(s, ab[0], ab[1], r3.Vec{}); {
			case !known:
				unknown = append(unknown, in)
			case within:
				inside = append(inside, in)
			}
		}
	}
	return inside, unknown
}

// within reports whether one body, moved by shift (m, in the base), is wholly
// inside the mesh of another, whose skin it does not touch; known is false where
// that mesh is not closed and a point of the body is within its box.
func (m *Model) within(s *Scratch, inner, outer int, shift r3.Vec) (inside, known bool) {
	mesh := m.bodies[outer].Shape.tree
	if mesh == nil {
		return false, true
	}
	p := m.pose(s, outer).Inv().Apply(m.pose(s, inner).Apply(m.somePoint(inner)).Add(shift))
	lo, hi := mesh.Bounds()
	if !(p.X >= lo.X && p.Y >= lo.Y && p.Z >= lo.Z && p.X <= hi.X && p.Y <= hi.Y && p.Z <= hi.Z) {
		return false, true
	}
	if k := (pairing{a: outer, b: inner}); !m.shiftedClear(s, &k, shift) {
		return false, true // the skins touch or cross, so not wholly inside
	}
	return mesh.Contains(p)
}

// somePoint returns a point of a body, m in its frame.
func (m *Model) somePoint(i int) r3.Vec {
	if t := m.bodies[i].Shape.tree; t != nil {
		a, b, c := t.Triangle(0)
		return a.Add(b).Add(c).Scale(1.0 / 3)
	}
	return r3.Vec{}
}

// shiftedClear reports whether the skins of a pair are apart where b is moved
// by shift, m in the base.
func (m *Model) shiftedClear(s *Scratch, k *pairing, shift r3.Vec) bool {
	b := m.pose(s, k.b)
	kept := b.P
	b.P = kept.Add(shift)
	var axis r3.Vec
	clear := m.clears(s, k, 0, &axis)
	b.P = kept
	return clear
}
