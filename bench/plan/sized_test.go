package plan_test

import (
	"math"
	"testing"

	"seamwright/bench/plan"
)

// The sizes alone are those of the whole plan.
func TestSized(t *testing.T) {
	f := good(t)
	seams, err := plan.Sized(decode(t, f))
	if err != nil {
		t.Fatal(err)
	}
	p := planOf(t, f)
	if len(seams) != len(p.Seams) {
		t.Fatalf("%d seams, want %d", len(seams), len(p.Seams))
	}
	for i := range seams {
		a, b := &seams[i], &p.Seams[i]
		if a.Name != b.Name || a.Length != b.Length || len(a.Passes) != len(b.Passes) {
			t.Errorf("%s %g, want %s %g", a.Name, a.Length, b.Name, b.Length)
		}
		for k := range a.Passes {
			x, y := a.Passes[k].Size, b.Passes[k].Size
			if x.Area != y.Area || x.Travel != y.Travel || math.IsNaN(x.Travel) || a.Passes[k].Motion != nil {
				t.Errorf("%s pass %d: %+v, want %+v", a.Name, k+1, x, y)
			}
		}
	}
}
