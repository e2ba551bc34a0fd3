package plan_test

import (
	"context"
	"strings"
	"testing"

	"seamwright/bench/plan"
)

// A wrist whose axes 4 and 6 miss each other by 30 mm, one way and another: no
// closed form. The good job is planned with it all the same.
func TestArmWithoutClosedForm(t *testing.T) {
	f := good(t)
	f.edit(t, `<origin xyz="0 0 0.24" rpy="0 0 0"/>`, `<origin xyz="0.03 0.02 0.24" rpy="0.2 0.1 0"/>`)
	f.edit(t, `<origin xyz="0 0 0.04" rpy="0 0 0"/>`, `<origin xyz="0.03 0 0.04" rpy="0.3 0 0"/>`)
	p := planOf(t, f)
	if p.Cell.Solver.Family().ClosedForm() {
		t.Fatalf("the arm is solved as %v", p.Cell.Solver.Family())
	}
	if p.Seams[0].Passes[0].Motion == nil || !p.Fit() {
		t.Errorf("no way:\n%s", list(p.Findings))
	}
}

// TestArmThatCannotTurn: six joints that leave the flange a motion that none
// makes are refused in words.
func TestArmThatCannotTurn(t *testing.T) {
	f := good(t)
	for _, axis := range []string{"j2", "j3", "j4", "j5"} { // all about z, as joint 1
		f["arm_a.urdf"] = turnAxis(t, f["arm_a.urdf"], axis)
	}
	_, err := plan.Make(context.Background(), decode(t, f), nil)
	if err == nil {
		t.Fatal("planned")
	}
	for _, want := range []string{"arm_a.urdf", "allowed: six to nine joints", "job.yaml:4:"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("got %q, want it to say %q", err, want)
		}
	}
}

// turnAxis makes a joint of a file turn about z.
func turnAxis(t *testing.T, urdf, joint string) string {
	t.Helper()
	head, rest, ok := strings.Cut(urdf, `name="`+joint+`"`)
	if !ok {
		t.Fatalf("no joint %s", joint)
	}
	before, after, ok := strings.Cut(rest, `<axis xyz="`)
	_, after, closed := strings.Cut(after, `"`)
	if !ok || !closed {
		t.Fatalf("joint %s has no axis", joint)
	}
	return head + `name="` + joint + `"` + before + `<axis xyz="0 0 1"` + after
}
