package collision

import (
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// Moved by its depth a body is free, whether solids, meshes or one inside the
// other.
func TestDepthFrees(t *testing.T) {
	deep := 0
	rapid.Check(t, func(t *rapid.T) {
		m, joints := drawModel(t)
		for i := range m.bodies {
			if rapid.Bool().Draw(t, "mesh") {
				tree, err := bvh.NewBox(m.bodies[i].Shape.solid.Size)
				if err != nil {
					t.Fatal(err)
				}
				m.bodies[i].Shape = OfTree(tree)
			}
		}
		s := m.Scratch()
		var q kinematics.Q
		for j := range joints {
			q[j] = rapid.Float64Range(-1, 1.5).Draw(t, "q")
		}
		m.place(s, &q)
		for i := range m.pairings {
			k := &m.pairings[i]
			near, _ := m.gap(s, i, 1)
			a, _ := m.within(s, k.a, k.b, r3.Vec{})
			b, _ := m.within(s, k.b, k.a, r3.Vec{})
			if near.Distance > 0 && !a && !b {
				continue
			}
			deep++
			depth, way := m.depth(s, k)
			if !(depth > 0) || !m.parted(s, k, way.Scale(depth+1e-9)) {
				t.Fatalf("pair %d: moved by %g along %v it is not free", i, depth, way)
			}
		}
	})
	if deep < 50 {
		t.Errorf("only %d pairs touch", deep)
	}
}
