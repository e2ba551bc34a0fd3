package collision_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// drawRegime wants something else of every pair, and does not look at some.
func drawRegime(t *rapid.T, m *collision.Model) collision.Regime {
	r := make(collision.Regime, len(m.Pairs()))
	for i := range r {
		r[i] = rapid.SampledFrom([]float64{-1, 0, 0.001, 0.01, 0.05}).Draw(t, "wanted")
	}
	return r
}

// Least, warm from whatever was asked before, is the least of all pairs asked
// one by one, and Clear says the same.
func TestLeastIsThatOfAllPairs(t *testing.T) {
	scenes, part := readScenes(t), packedPart(t)
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s := m.Scratch()
		rapid.Check(t, func(t *rapid.T) {
			q, r := drawQ(t, 6), drawRegime(t, m)
			limit := rapid.SampledFrom([]float64{0, 0.02, 0.2, math.Inf(1)}).Draw(t, "limit")
			want := bruteLeast(m, &q, r)
			got, found := m.Least(s, &q, r, limit)
			if found != (want.Slack() < limit) || found && math.Abs(got.Slack()-want.Slack()) > 1e-9 {
				t.Fatalf("least %+v, found %v under %g, want %+v", got, found, limit, want)
			}
			if found {
				checkNear(t, m, &got, r)
			}
			if clear := m.Clear(s, &q, r); clear != (want.Pair < 0 || want.Slack() >= 0 && bruteTouch(m, &q, r)) {
				t.Fatalf("clear %v, want %+v", clear, want)
			}
		})
	}
}

// The same on walks of small steps, where most pairs are known to be apart from
// the step before, with regimes and limits that change on the way.
func TestLeastOnAWalk(t *testing.T) {
	scenes, part, states := readScenes(t), packedPart(t), readStates(t)
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s := m.Scratch()
		rapid.Check(t, func(t *rapid.T) {
			q := states[name][rapid.IntRange(0, 119).Draw(t, "state")].q()
			to := drawQ(t, 6)
			step := rapid.SampledFrom([]float64{0, 0.0005, 0.005, 0.05}).Draw(t, "step")
			regimes := [2]collision.Regime{drawRegime(t, m), m.Wanted(0.002)}
			for i := range 8 {
				r, limit := regimes[i%2], []float64{0.01, 0.1, math.Inf(1)}[i%3]
				want := bruteLeast(m, &q, r)
				got, found := m.Least(s, &q, r, limit)
				if found != (want.Slack() < limit) || found && math.Abs(got.Slack()-want.Slack()) > 1e-9 {
					t.Fatalf("step %d: least %+v, found %v under %g, want %+v", i, got, found, limit, want)
				}
				q = between(&q, &to, step)
			}
		})
	}
}

// bruteTouch reports whether no pair that is looked at touches.
func bruteTouch(m *collision.Model, q *kinematics.Q, r collision.Regime) bool {
	touch := make(collision.Regime, len(r))
	for i := range r {
		touch[i] = min(r[i], 0)
	}
	n := bruteLeast(m, q, touch)
	return n.Pair < 0 || n.Distance > 0
}

func checkNear(t *rapid.T, m *collision.Model, n *collision.Near, r collision.Regime) {
	if n.Wanted != r[n.Pair] || math.Abs(n.A.Dist(n.B)-n.Distance) > 1e-9 {
		t.Fatalf("%+v: points %g apart, wanted %g", n, n.A.Dist(n.B), r[n.Pair])
	}
	if p := m.Pairs()[n.Pair]; p.A >= p.B {
		t.Fatalf("pair %+v", p)
	}
}

// What is not finite is not clear, and no number comes back for it.
func TestNotFinite(t *testing.T) {
	sc := readScenes(t)["sphw6_mesh"]
	m := sc.model(t, packedPart(t))
	s := m.Scratch()
	r := m.Wanted(0.01)
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		q := kinematics.Q{2: bad}
		if m.Clear(s, &q, r) {
			t.Errorf("clear at %v", q)
		}
		if near, found := m.Least(s, &q, r, math.Inf(1)); !found || near.Clear() || !math.IsNaN(near.Distance) {
			t.Errorf("least %+v, %v at %v", near, found, q)
		}
		if m.ClearMove(s, &kinematics.Q{}, &q, r) || m.LeastMove(s, &q, &kinematics.Q{}, r, math.Inf(1)).Clear {
			t.Errorf("move clear at %v", q)
		}
	}
}

// Queries allocate nothing once a Scratch has grown.
func TestNoAllocations(t *testing.T) {
	scenes, part := readScenes(t), packedPart(t)
	states := readStates(t)
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s := m.Scratch()
		r := m.Wanted(0.005)
		ask := func() {
			for i := range 20 {
				q, p := states[name][i].q(), states[name][i+1].q()
				m.Clear(s, &q, r)
				m.Least(s, &q, r, math.Inf(1))
				m.ClearMove(s, &q, &p, r)
				m.LeastMove(s, &q, &p, r, math.Inf(1))
			}
		}
		ask()
		if n := testing.AllocsPerRun(1, ask); n != 0 {
			t.Errorf("%s: %g allocations", name, n)
		}
	}
}
