package collision_test

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"
)

// readStates returns the states of testdata by scene.
func readStates(tb testing.TB) map[string][]state {
	tb.Helper()
	states := map[string][]state{}
	for lines := json.NewDecoder(bytes.NewReader(unpacked(tb, "testdata/states.jsonl.gz"))); lines.More(); {
		var s state
		if err := lines.Decode(&s); err != nil {
			tb.Fatal(err)
		}
		states[s.Scene] = append(states[s.Scene], s)
	}
	return states
}

// TestStates compares with the Flexible Collision Library 0.7: see
// testdata/README.md.
func TestStates(t *testing.T) {
	scenes, part := readScenes(t), packedPart(t)
	count := 0
	states := readStates(t)
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s := m.Scratch()
		r := m.Wanted(0)
		for _, st := range states[name] {
			count++
			q := st.q()
			if got := m.Clear(s, &q, r); got != st.Valid {
				t.Errorf("%s state %d: clear %v, want %v", name, st.ID, got, st.Valid)
			}
			if near, found := m.Least(s, &q, r, math.Inf(1)); !found || (near.Distance > 0) != st.Valid {
				t.Errorf("%s state %d: least %+v, want clear %v", name, st.ID, near, st.Valid)
			}
		}
	}
	if count != 480 {
		t.Errorf("%d states, want 480", count)
	}
}
