//go:build reference

// The whole reference workload, which is too large for the repository:
//
//	REFERENCE=folder go test -tags reference -run Full -bench Full ./robot/collision
//
// The folder holds states_SCENE.jsonl for four scenes and mesh/part20k.stl;
// answers by the Flexible Collision Library 0.7.
package collision_test

import (
	"bufio"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/mesh"
	"seamwright/geom/mesh/stl"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

func fullPath(tb testing.TB, name string) string {
	tb.Helper()
	dir := os.Getenv("REFERENCE")
	if dir == "" {
		tb.Fatal("REFERENCE names no folder")
	}
	return filepath.Join(dir, name)
}

func fullPart(tb testing.TB, name string) *bvh.Tree {
	tb.Helper()
	data, err := os.ReadFile(fullPath(tb, "mesh/"+name+".stl"))
	if err != nil {
		tb.Fatal(err)
	}
	m, _, err := stl.Decode(data, mesh.Options{Unit: mesh.Metres})
	if err != nil {
		tb.Fatal(err)
	}
	tree, err := bvh.New(m.Vertices, m.Triangles)
	if err != nil {
		tb.Fatal(err)
	}
	return tree
}

func fullStates(tb testing.TB, scene string) (states []state) {
	tb.Helper()
	f, err := os.Open(fullPath(tb, "states_"+scene+".jsonl"))
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var s state
		if err := json.Unmarshal(lines.Bytes(), &s); err != nil {
			tb.Fatal(err)
		}
		states = append(states, s)
	}
	return states
}

func TestFullStates(t *testing.T) {
	scenes, part := readScenes(t), fullPart(t, "part20k")
	count := 0
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s := m.Scratch()
		r := m.Wanted(0)
		for _, st := range fullStates(t, name) {
			count++
			q := st.q()
			if got := m.Clear(s, &q, r); got != st.Valid {
				t.Errorf("%s state %d: clear %v, want %v", name, st.ID, got, st.Valid)
			}
			near, found := m.Least(s, &q, r, math.Inf(1))
			if !found || (near.Distance > 0) != st.Valid {
				t.Errorf("%s state %d: least %+v, want clear %v", name, st.ID, near, st.Valid)
			}
		}
	}
	if count != 8000 {
		t.Errorf("%d states, want 8000", count)
	}
}

func BenchmarkFullState(b *testing.B) {
	scenes, part := readScenes(b), fullPart(b, "part20k")
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		benchmarkStates(b, name, sc.model(b, part), fullStates(b, name))
	}
}

// fullSeam returns the postures along the seam of the ladder's optimum, a sample
// every 2.5 mm, and the model of the arm about the part there.
func fullSeam(tb testing.TB, arm, part string) (*collision.Model, []kinematics.Q) {
	tb.Helper()
	data, err := os.ReadFile(fullPath(tb, "ladder_"+arm+"_col_l1.json"))
	if err != nil {
		tb.Fatal(err)
	}
	var ladder struct {
		PartInBase [16]float64 `json:"part_in_base"`
		Path       []struct{ Q []float64 }
	}
	if err := json.Unmarshal(data, &ladder); err != nil {
		tb.Fatal(err)
	}
	sc := readScenes(tb)[arm+"_mesh"]
	sc.Meshes[0].T = ladder.PartInBase
	sc.Boxes = sc.Boxes[:1]
	var qs []kinematics.Q
	for _, step := range ladder.Path {
		q := (&state{Q: step.Q}).q()
		if n := len(qs); n > 0 {
			qs = append(qs, between(&qs[n-1], &q, 0.5))
		}
		qs = append(qs, q)
	}
	return sc.model(tb, fullPart(tb, part)), qs
}

// BenchmarkFullSeam asks along a seam of a part, from sample to sample.
func BenchmarkFullSeam(b *testing.B) {
	for _, part := range []string{"part20k", "part200k"} {
		for _, arm := range []string{"offw6", "sphw6"} {
			m, qs := fullSeam(b, arm, part)
			r := m.Wanted(0.001)
			for i, p := range m.Pairs() {
				switch m.Bodies()[p.A].Name {
				case "link6 5": // the wire is exempt, the rest of the torch is near
					r[i] = -1
				case "link0 0": // touches the next but one in these postures
					r[i] = -1
				}
			}
			s := m.Scratch()
			each := func(name string, f func(q *kinematics.Q)) {
				b.Run(part+"/"+arm+"/"+name, func(b *testing.B) {
					b.ReportAllocs()
					defer reportCPU(b, "cpu-ns/sample", len(qs))()
					for b.Loop() {
						for i := range qs {
							f(&qs[i])
						}
					}
				})
			}
			each("least", func(q *kinematics.Q) { m.Least(s, q, r, math.Inf(1)) })
			each("least afresh", func(q *kinematics.Q) { m.Forget(s); m.Least(s, q, r, math.Inf(1)) })
			each("least under 30 mm", func(q *kinematics.Q) { m.Least(s, q, r, 0.03) })
			each("clear", func(q *kinematics.Q) { m.Clear(s, q, r) })
			i := 0
			each("move", func(q *kinematics.Q) { m.ClearMove(s, &qs[i%180], &qs[i%180+1], r); i++ })
			each("least of move", func(q *kinematics.Q) { m.LeastMove(s, &qs[i%180], &qs[i%180+1], r, math.Inf(1)); i++ })
			b.Run(part+"/"+arm+"/between", func(b *testing.B) {
				defer reportCPU(b, "cpu-ns/sample", len(qs))()
				for b.Loop() {
					if _, err := m.Between(s, qs, r, collision.PathOptions{}); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
