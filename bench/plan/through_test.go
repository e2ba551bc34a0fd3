package plan_test

import (
	"testing"

	"seamwright/bench/finding"
)

// TestThroughPoints: the run passes stated points in joint moves before the
// approach, and says which it cannot.
func TestThroughPoints(t *testing.T) {
	f := good(t)
	f.edit(t, "    approach: W1 in\n", "    approach: W1 in\n    through: [home, W1 out]\n")
	p := planOf(t, f)
	if !p.Fit() {
		t.Fatalf("not fit: %s", list(p.Findings))
	}
	var got []string
	for _, s := range p.Steps {
		got = append(got, s.Label+" "+string(s.Move))
	}
	want := []string{"home joint", "home joint", "W1 out joint", "W1 approach joint", "W1 weld start linear", "W1 weld end linear", "W1 retreat linear", "home joint"}
	if len(got) != len(want) {
		t.Fatalf("steps %q, want %q", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("step %d is %q, want %q", i+1, got[i], want[i])
		}
	}
	taught := p.Steps[2].Pose.P
	if d := taught.Dist(p.Steps[6].Pose.P); d > 1e-3 { // the retreat is planned at the taught place
		t.Errorf("the point is passed %.2f mm away", d/mm)
	}

	f.edit(t, "through: [home, W1 out]", "through: [far]")
	f["taught.csv"] += "far,4000,0,2000,180,0,0,,,,,,,,,,,,\n"
	p = planOf(t, f)
	passed := false
	for _, x := range withCode(p, finding.PointOutsideReach) {
		passed = passed || x.Severity == finding.Stop && x.Message == `W1: the arm cannot pass point "far" on its way to the approach; the run leaves it out`
	}
	if !passed {
		t.Errorf("no stop for a point that cannot be passed: %s", list(p.Findings))
	}
}
