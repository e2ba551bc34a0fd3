package motion

import (
	"math"

	"seamwright/robot/kinematics"
)

// airTree holds postures that can be reached from a root, each by a straight
// joint move from its parent (in the tree of the goals, to it). Parents come
// before their children.
type airTree struct {
	near   nearTree // weighted postures, by number
	q      []kinematics.Q
	parent []int32 // -1 for a root
	proven []bool  // the move between a posture and its parent is proven
	// failed counts the branches of a posture that were not clear, halved by every
	// one that was, dimensionless. The more, the shorter the next one: where space
	// is tight long branches fail, and each costs as much as a long one that grows.
	failed []float64
	alive  int
}

func (t *airTree) reset(n int) {
	t.near.reset(n)
	t.q, t.parent, t.proven, t.alive = t.q[:0], t.parent[:0], t.proven[:0], 0
	t.failed = t.failed[:0]
}

// add appends a posture and returns its number.
func (t *airTree) add(q, weighted *kinematics.Q, parent int32, proven bool) int32 {
	t.near.add((*[kinematics.MaxJoints]float64)(weighted))
	t.q, t.parent, t.proven = append(t.q, *q), append(t.parent, parent), append(t.proven, proven)
	t.failed = append(t.failed, 0)
	t.alive++
	return int32(len(t.q) - 1)
}

// fell takes a posture and all that grew from it out of the tree.
func (t *airTree) fell(i int32) {
	gone := t.near.gone
	gone[i] = true
	t.alive--
	for k := int(i) + 1; k < len(t.q); k++ {
		if p := t.parent[k]; p >= 0 && gone[p] && !gone[k] {
			gone[k] = true
			t.alive--
		}
	}
	if 2*t.alive < len(t.q) {
		t.near.build()
	}
}

// root returns the root that posture i grew from.
func (t *airTree) root(i int32) int32 {
	for t.parent[i] >= 0 {
		i = t.parent[i]
	}
	return i
}

// closest returns the closest approach of two trees: a posture of each and
// their distance, weighted rad.
func closest(a, b *airTree) (i, j int32, distance float64) {
	i, j = -1, -1
	small, large := a, b
	if len(b.q) < len(a.q) {
		small, large = b, a
	}
	best := math.Inf(1)
	for k := range small.q {
		if small.near.gone[k] {
			continue
		}
		if m, d := large.near.nearest(&small.near.points[k]); d < best {
			i, j, best = int32(k), m, d
		}
	}
	if small == b {
		i, j = j, i
	}
	return i, j, math.Sqrt(best)
}
