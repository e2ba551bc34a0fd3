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
	"encoding/binary"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
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
	var vertices []r3.Vec
	var triangles [][3]int32
	for data = data[84:]; len(data) > 0; data = data[50:] {
		n := int32(len(vertices))
		for k := 12; k < 48; k += 12 {
			f := func(i int) float64 {
				return float64(math.Float32frombits(binary.LittleEndian.Uint32(data[k+4*i:])))
			}
			vertices = append(vertices, r3.Vec{X: f(0), Y: f(1), Z: f(2)})
		}
		triangles = append(triangles, [3]int32{n, n + 1, n + 2})
	}
	tree, err := bvh.New(vertices, triangles)
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
