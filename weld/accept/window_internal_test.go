package accept

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestWorstWindow: small cases by hand, and against a window slid in small
// steps.
func TestWorstWindow(t *testing.T) {
	for _, row := range []struct {
		name   string
		in     []stretch
		window float64
		want   float64
	}{
		{"none", nil, 0.3, 0},
		{"one", []stretch{{0.1, 0.04, true}}, 0.3, 0.04},
		{"longer than the window", []stretch{{0.1, 0.4, true}}, 0.3, 0.3},
		{"overlap counts once", []stretch{{0.1, 0.04, true}, {0.12, 0.04, true}}, 0.3, 0.06},
		{"far apart", []stretch{{0, 0.03, true}, {0.5, 0.02, true}}, 0.3, 0.03},
		{"no place is the worst place", []stretch{{0, 0.03, true}, {0, 0.02, false}}, 0.3, 0.05},
	} {
		if got := worstWindow(row.in, row.window); math.Abs(got-row.want) > 1e-12 {
			t.Errorf("%s: %g, want %g", row.name, got, row.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		var in []stretch
		for range rapid.IntRange(1, 6).Draw(t, "n") {
			in = append(in, stretch{float64(rapid.IntRange(0, 100).Draw(t, "at")) / 100, float64(rapid.IntRange(1, 30).Draw(t, "extent")) / 100, true})
		}
		const cell = 0.005
		var bad [400]bool // cells of the weld that are imperfect
		for _, s := range in {
			for i := range bad {
				if middle := (float64(i) + 0.5) * cell; middle > s.at && middle < s.at+s.extent {
					bad[i] = true
				}
			}
		}
		window, want := rapid.SampledFrom([]float64{0.1, 0.3}).Draw(t, "window"), 0
		for start := range bad {
			n := 0
			for i := start; i < min(start+int(math.Round(window/cell)), len(bad)); i++ {
				if bad[i] {
					n++
				}
			}
			want = max(want, n)
		}
		if got := worstWindow(in, window); math.Abs(got-float64(want)*cell) > 1e-9 {
			t.Fatalf("%g, want %g of %v", got, float64(want)*cell, in)
		}
	})
}
