package collision_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// benchmarkStates asks of each state, and of the valid ones alone, whether
// anything touches.
func benchmarkStates(b *testing.B, name string, m *collision.Model, states []state) {
	var all, valid []kinematics.Q
	for _, st := range states {
		if all = append(all, st.q()); st.Valid {
			valid = append(valid, st.q())
		}
	}
	benchmarkClear(b, name+"/all", m, all)
	benchmarkClear(b, name+"/valid", m, valid)
}

func benchmarkClear(b *testing.B, name string, m *collision.Model, qs []kinematics.Q) {
	s, r := m.Scratch(), m.Wanted(0)
	b.Run(name, func(b *testing.B) {
		b.ReportAllocs()
		defer reportCPU(b, "cpu-ns/state", len(qs))()
		for b.Loop() {
			for i := range qs {
				m.Clear(s, &qs[i], r)
			}
		}
	})
}

func BenchmarkState(b *testing.B) {
	scenes, part, states := readScenes(b), packedPart(b), readStates(b)
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		benchmarkStates(b, name, sc.model(b, part), states[name])
	}
}

// benchmarkMoves times a question about moves of a scene: a tenth of the way
// from one valid state to another.
func benchmarkMoves(b *testing.B, share float64, ask func(name string) func(from, to *kinematics.Q)) {
	states := readStates(b)
	for _, name := range sceneNames(readScenes(b)) {
		b.Run(name, func(b *testing.B) {
			random := rand.New(rand.NewPCG(5, 1))
			f := ask(name)
			var from, to []kinematics.Q
			for len(from) < 64 {
				p, q := states[name][random.IntN(120)], states[name][random.IntN(120)]
				if !p.Valid {
					continue
				}
				a, z := p.q(), q.q()
				from, to = append(from, a), append(to, between(&a, &z, share))
			}
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				f(&from[i%64], &to[i%64])
				i++
			}
		})
	}
}

func BenchmarkClearMove(b *testing.B) {
	scenes, part := readScenes(b), packedPart(b)
	for _, share := range []float64{0.1, 1} {
		benchmarkMoves(b, share, func(name string) func(from, to *kinematics.Q) {
			sc := scenes[name]
			m := sc.model(b, part)
			s, r := m.Scratch(), m.Wanted(0.005)
			return func(from, to *kinematics.Q) { m.ClearMove(s, from, to, r) }
		})
	}
}

func BenchmarkLeastMove(b *testing.B) {
	scenes, part := readScenes(b), packedPart(b)
	for _, share := range []float64{0.1, 1} {
		benchmarkMoves(b, share, func(name string) func(from, to *kinematics.Q) {
			sc := scenes[name]
			m := sc.model(b, part)
			s, r := m.Scratch(), m.Wanted(0.005)
			return func(from, to *kinematics.Q) { m.LeastMove(s, from, to, r, math.Inf(1)) }
		})
	}
}

func BenchmarkLeast(b *testing.B) {
	scenes, part := readScenes(b), packedPart(b)
	benchmarkMoves(b, 1, func(name string) func(from, to *kinematics.Q) {
		sc := scenes[name]
		m := sc.model(b, part)
		s, r := m.Scratch(), m.Wanted(0.005)
		return func(from, to *kinematics.Q) { m.Least(s, from, r, math.Inf(1)) }
	})
}
