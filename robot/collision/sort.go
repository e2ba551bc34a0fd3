package collision

import (
	"cmp"
	"slices"
)

// sortSamples is the number of postures that put the pairs in order.
const sortSamples = 48

// sort puts the pairs in the order in which Clear looks at them: those first
// that touch in most of some postures within the joints' limits, and of equals
// the solids before the meshes. The order saves time and changes no answer.
func (m *Model) sort(seed uint64) {
	s := m.Scratch()
	hits := make([]int, len(m.pairings))
	for _, q := range m.postures(PairOptions{Samples: sortSamples, Seed: seed}) {
		m.place(s, &q)
		for i := range m.pairings {
			k := &m.pairings[i]
			if m.apart(s, k, blur) < blur && !m.clears(s, k, 0, &s.axes[i]) {
				hits[i]++
			}
		}
	}
	for i := range m.pairings {
		k := &m.pairings[i]
		m.order = append(m.order, quick{k.radii, int32(k.big), int32(k.small), int32(i)})
	}
	meshes := func(k quick) (n int) {
		for _, body := range [2]int32{k.big, k.small} {
			if m.bodies[body].Shape.tree != nil {
				n++
			}
		}
		return n
	}
	slices.SortStableFunc(m.order, func(a, b quick) int {
		return cmp.Or(hits[b.pair]-hits[a.pair], meshes(a)-meshes(b))
	})
}
