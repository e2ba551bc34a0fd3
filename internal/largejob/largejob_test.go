package largejob_test

import (
	"context"
	"os"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/internal/largejob"
)

// triangles is how many the part has, about.
const triangles = 200_000

func read(t testing.TB, triangles int) largejob.Files {
	t.Helper()
	urdf, err := os.ReadFile("../../examples/arms/kittiwake.urdf")
	if err != nil {
		t.Fatal(err)
	}
	f, err := largejob.New(urdf, triangles)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestLargeJobIsWhole(t *testing.T) {
	j, err := job.Decode("job.yaml", read(t, triangles))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	var length float64
	for i := range p.Seams {
		if s := &p.Seams[i]; s.Passes[0].Motion == nil {
			t.Errorf("%s is not reached: %+v", s.Name, s.Passes[0].Reach)
		} else {
			length += s.Length
		}
	}
	if length < 4.999 || len(p.Seams) != largejob.Seams {
		t.Errorf("%d seams of %.3f m together, want 20 of 5 m", len(p.Seams), length)
	}
	for _, f := range p.Findings {
		if f.Severity >= finding.Stop {
			t.Errorf("%v: %s", f.Code, f.Message)
		}
	}
}

func BenchmarkPlan(b *testing.B) {
	j, err := job.Decode("job.yaml", read(b, triangles))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := plan.Make(context.Background(), j, nil); err != nil {
			b.Fatal(err)
		}
	}
}
