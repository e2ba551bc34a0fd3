package bvh

import "seamwright/geom/r3"

const (
	sampleCount = 12   // corners from which a search starts
	sampleFrom  = 4096 // triangles among which they are chosen, at most
)

// spread chooses corners far from each other: each the farthest from those
// before it.
func (t *Tree) spread() []sample {
	step := (len(t.tris) + sampleFrom - 1) / sampleFrom
	var all []sample
	for i := 0; i < len(t.tris); i += step {
		tri := &t.tris[i]
		for _, p := range [3]r3.Vec{tri.a, tri.b, tri.c} {
			all = append(all, sample{p, int32(i)})
		}
	}
	away := make([]float64, len(all)) // squared distance to the chosen ones, m2
	for i := range all {
		d := all[i].at.Sub(t.mid)
		away[i] = d.Dot(d)
	}
	var chosen []sample
	for len(chosen) < sampleCount {
		far := 0
		for i := range away {
			if away[i] > away[far] {
				far = i
			}
		}
		if len(chosen) > 0 && away[far] == 0 {
			break // fewer corners than samples
		}
		chosen = append(chosen, all[far])
		for i := range all {
			d := all[i].at.Sub(all[far].at)
			if dd := d.Dot(d); len(chosen) == 1 || dd < away[i] {
				away[i] = dd
			}
		}
	}
	return chosen
}
