package picture

import (
	"bytes"
	"context"
	"os"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

const (
	corneredJobs  = "../../bench/export/testdata/jobs"
	profileTarget = "../../docs/img/profile.svg"
)

// The profile in docs/conventions.md is what a plan writes for a seam with two
// corners, one with the arc on and one with the arc out.
func TestProfilePictureIsCurrent(t *testing.T) {
	j, err := job.Decode("cornered.yaml", inFolder(corneredJobs))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	s := &p.Seams[0]
	var got bytes.Buffer
	if err := export.Profile(&got, j, s, &s.Passes[0]); err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(profileTarget, got.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	file, err := os.ReadFile(profileTarget)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(file, got.Bytes()) {
		t.Errorf("docs/img/profile.svg differs from what the plan gives: run go test ./internal/picture -update and look at it")
	}
}
