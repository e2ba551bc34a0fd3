package draft_test

import (
	"flag"
	"io"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"seamwright/bench/draft"
	"seamwright/bench/job"
)

var update = flag.Bool("update", false, "write the document made from the example's points into testdata; read the difference before committing it")

// exampleInput is the table of the example job, with the answers that a person
// who has its drawing gives.
func exampleInput(t testing.TB) (draft.Input, map[string]string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "keel-cradle", "taught.csv"))
	if err != nil {
		t.Fatal(err)
	}
	answers := torch()
	maps.Copy(answers, map[string]string{"measured_in": "base", "point": "tip", "orientation": "fixed x-y-z degrees", "length": "mm",
		"W2.base": "touched wall", "W2.upright": "touched end", "W2.joint": "inside corner", "W5.joint": "lap", "W1.weld": "leg 6 mm"})
	return input(t, string(data), answers), map[string]string{"joint": "tee", "weld": "leg 5 mm"}
}

// From the points of the example alone come the seams that its own document,
// written by hand, describes: paths, taught points, plates, ways in and out.
func TestExampleFromItsPoints(t *testing.T) {
	in, rest := exampleInput(t)
	got, err := decode(t, settle(t, in, rest), nil)
	if err != nil {
		t.Fatal(err)
	}
	want, err := job.Decode("job.yaml", example{})
	if err != nil {
		t.Fatal(err)
	}
	if got.Home != want.Home || got.Code != want.Code || len(got.Points) != len(want.Points) || len(got.Seams) != len(want.Seams) {
		t.Fatalf("home %q, code %v, %d points, %d seams", got.Home, got.Code, len(got.Points), len(got.Seams))
	}
	for i, g := range got.Seams {
		w := want.Seams[i]
		same := g.Name == w.Name && g.Joint == w.Joint && g.Path == w.Path && reflect.DeepEqual(g.Points, w.Points) && reflect.DeepEqual(g.Taught, w.Taught) &&
			g.Base.Kind == w.Base.Kind && reflect.DeepEqual(g.Base.Points, w.Base.Points) && g.Other.Kind == w.Other.Kind && reflect.DeepEqual(g.Other.Points, w.Other.Points) &&
			g.Approach == w.Approach && g.Retreat == w.Retreat && g.Weld.LegBase == w.Weld.LegBase && g.Overlap == w.Overlap
		if !same {
			t.Errorf("got  %+v\nwant %+v", g, w)
		}
	}
}

// example opens the files of the example job.
type example struct{}

func (example) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join("..", "..", "examples", "keel-cradle", filepath.FromSlash(name)))
}

// The whole document, read by eye when it was written.
func TestDocument(t *testing.T) {
	in, rest := exampleInput(t)
	d := settle(t, in, rest)
	got := fileOf(t, d, draft.JobFile) + "\n"
	name := filepath.Join("testdata", "example.yaml")
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
	again, rest := exampleInput(t)
	if twice := fileOf(t, settle(t, again, rest), draft.JobFile) + "\n"; twice != got {
		t.Error("the same answers give another document")
	}
}
