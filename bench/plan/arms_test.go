package plan_test

import (
	"context"
	"strings"
	"testing"

	"seamwright/bench/plan"
)

// TestArmWithoutClosedForm: an arm that is not planned for is refused in words.
func TestArmWithoutClosedForm(t *testing.T) {
	f := good(t)
	// A wrist whose axes 4 and 6 miss each other by 30 mm, one way and another.
	f.edit(t, `<origin xyz="0 0 0.24" rpy="0 0 0"/>`, `<origin xyz="0.03 0.02 0.24" rpy="0.2 0.1 0"/>`)
	f.edit(t, `<origin xyz="0 0 0.04" rpy="0 0 0"/>`, `<origin xyz="0.03 0 0.04" rpy="0.3 0 0"/>`)
	_, err := plan.Make(context.Background(), decode(t, f), nil)
	if err == nil {
		t.Fatal("planned")
	}
	for _, want := range []string{"arm_a.urdf, an arm of 6 joints", "allowed: a six-axis arm with a closed-form inverse", "job.yaml:4:"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("got %q, want it to say %q", err, want)
		}
	}
}
