package mesh

import (
	"cmp"
	"math"
	"slices"
)

// findMates returns for each side the one that continues its surface across the
// edge, or -1. Where two triangles share an edge they continue each other.
// Where more do, as where two bodies touch, those belong together that have
// the body between them: around the edge, triangles that begin a body and
// triangles that end one take turns. Where they do not, nobody can say, and
// there is no mate.
func (m Mesh) findMates(a Adjacency) []int32 {
	mates := make([]int32, 3*len(m.Triangles))
	for i := range mates {
		mates[i] = -1
	}
	var around []wing
	for e := range a.Edges {
		sides := a.Sides(int32(e))
		switch {
		case len(sides) == 2:
			mates[sides[0]], mates[sides[1]] = sides[1], sides[0]
		case len(sides) > 2 && len(sides)%2 == 0:
			around = m.wings(around[:0], a.Edges[e], sides)
			for i, w := range around {
				if w.ends { // it ends the body that the one before it begins
					before := around[(i+len(around)-1)%len(around)]
					mates[w.side], mates[before.side] = before.side, w.side
				}
			}
		}
	}
	return mates
}

// wing is a triangle at an edge, seen along the edge: the angle (rad) at which
// it stands off, and whether going round by increasing angles a body ends there
// or begins.
type wing struct {
	angle float64
	ends  bool
	side  int32
}

// sameAngle is the difference, in rad, below which two triangles at an edge
// count as lying on each other.
const sameAngle = 1e-6

// wings appends the triangles at an edge, in order around it; nothing if those
// that begin and those that end a body do not take turns, or one has no area.
func (m Mesh) wings(out []wing, e Edge, sides []int32) []wing {
	origin := m.Vertices[e.A]
	along := m.Vertices[e.B].Sub(origin).Unit()
	first := len(out)
	x, y := along, along
	for i, s := range sides {
		third := m.Vertices[m.Triangles[s/3][(s%3+2)%3]]
		off := third.Sub(origin).Reject(along)
		if off.Norm() <= degenerateHeight {
			return out[:first]
		}
		if i == 0 {
			x = off.Unit()
			y = along.Cross(x)
		}
		angle := math.Atan2(off.Dot(y), off.Dot(x))
		if angle < -sameAngle {
			angle += 2 * math.Pi
		}
		// Seen from outside the triangle is counter-clockwise: if it runs along
		// the edge, its body lies at smaller angles.
		from, _ := m.ends(s)
		out = append(out, wing{angle, from == e.A, s})
	}
	around := out[first:]
	slices.SortFunc(around, func(p, q wing) int { return cmp.Or(cmp.Compare(p.angle, q.angle), cmp.Compare(p.side, q.side)) })
	for i := 1; i < len(around); i++ { // of two that lie on each other, the end comes first
		if p, q := &around[i-1], &around[i]; q.angle-p.angle < sameAngle && q.ends && !p.ends {
			*p, *q = *q, *p
		}
	}
	for i, w := range around {
		if w.ends == around[(i+1)%len(around)].ends {
			return out[:first]
		}
	}
	return out
}
