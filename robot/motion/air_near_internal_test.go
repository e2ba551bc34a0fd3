package motion

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/kinematics"
)

type point = [kinematics.MaxJoints]float64

// scanNearest is the plain way.
func scanNearest(t *nearTree, p *point) (int32, float64) {
	best, bestD := int32(-1), math.Inf(1)
	t.goal = *p
	for i := range t.points {
		if d := t.square(int32(i)); d < bestD && !t.gone[i] {
			best, bestD = int32(i), d
		}
	}
	return best, bestD
}

func TestNearestIsTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, kinematics.MaxJoints).Draw(t, "coordinates")
		// Few different values make points that coincide and equal distances.
		value := rapid.SampledFrom([]float64{-2, -1, -0.3, 0, 0.1, 1, 5})
		if rapid.Bool().Draw(t, "any value") {
			value = nil
		}
		draw := func() (p point) {
			for k := range n {
				if value != nil {
					p[k] = value.Draw(t, "v")
				} else {
					p[k] = rapid.Float64Range(-3, 3).Draw(t, "v")
				}
			}
			return p
		}
		var tree nearTree
		tree.reset(n)
		for i := range rapid.IntRange(0, 120).Draw(t, "points") {
			p := draw()
			tree.add(&p)
			if i%17 == 16 {
				tree.gone[i/2] = true
			}
			if i%50 == 49 {
				tree.build()
			}
		}
		for range 5 {
			p := draw()
			gotI, gotD := tree.nearest(&p)
			wantI, wantD := scanNearest(&tree, &p)
			if gotI != wantI || gotD != wantD {
				t.Fatalf("nearest to %v: point %d at %g, want %d at %g", p, gotI, gotD, wantI, wantD)
			}
		}
	})
}

func TestTreeOfPointsInOrderStaysShallow(t *testing.T) {
	var tree nearTree
	tree.reset(2)
	const count = 20000
	for i := range count {
		tree.add(&point{float64(i), float64(i)})
	}
	deepest := 0
	var measure func(at int32, depth int)
	measure = func(at int32, depth int) {
		deepest = max(deepest, depth)
		if c := tree.cells[at]; c.axis >= 0 {
			measure(c.below, depth+1)
			measure(c.over, depth+1)
		}
	}
	measure(0, 0)
	if limit := nearDepth(count); deepest > limit+1 {
		t.Errorf("depth %d, at most %d wanted", deepest, limit)
	}
	if i, _ := tree.nearest(&point{777.2, 777.1}); i != 777 {
		t.Errorf("nearest is %d, want 777", i)
	}
}

func TestPointsThatAllCoincide(t *testing.T) {
	var tree nearTree
	tree.reset(6)
	for range 1000 {
		tree.add(&point{1, 2, 3})
	}
	if i, d := tree.nearest(&point{1, 2, 4}); i != 0 || d != 1 {
		t.Errorf("nearest is %d at %g, want 0 at 1", i, d)
	}
}

func BenchmarkNearest(b *testing.B) {
	for _, count := range []int{100, 1000, 10000, 100000} {
		b.Run(strconv.Itoa(count), func(b *testing.B) {
			rng := rand.New(rand.NewPCG(1, 2))
			draw := func() (p point) {
				for k := range 6 {
					p[k] = 6*rng.Float64() - 3
				}
				return p
			}
			var tree nearTree
			tree.reset(6)
			for range count {
				p := draw()
				tree.add(&p)
			}
			asks := make([]point, 1000)
			for i := range asks {
				asks[i] = draw()
			}
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				tree.nearest(&asks[i%len(asks)])
			}
		})
	}
}
