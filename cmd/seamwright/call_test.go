package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the tables into testdata; read the difference before committing it")

// answer is what the program says to a call.
type answer struct {
	code        int
	out, errors string
}

func call(args ...string) answer { return callWith(context.Background(), args...) }

func callWith(ctx context.Context, args ...string) answer {
	var out, errs bytes.Buffer
	code := run(ctx, args, &out, &errs)
	return answer{code, out.String(), errs.String()}
}

// scenario is one of the worked shop cases.
func scenario(name string) string {
	return filepath.Join("..", "..", "bench", "plan", "testdata", "scenarios", name)
}

// copied lays the files of the worked shop cases into a new folder, the text
// old of s1.yaml replaced by new, and returns the job's name.
func copied(t *testing.T, old, new string) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"s1.yaml", "arm_a.urdf", "settings.yaml"} {
		b, err := os.ReadFile(scenario(name))
		if err != nil {
			t.Fatal(err)
		}
		text := string(b)
		if name == "s1.yaml" && old != "" {
			if !strings.Contains(text, old) {
				t.Fatalf("s1.yaml does not hold %q", old)
			}
			text = strings.Replace(text, old, new, 1)
		}
		lay(t, filepath.Join(dir, name), text)
	}
	return filepath.Join(dir, "s1.yaml")
}

func lay(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// inside are the names in a folder, none where it is not there.
func inside(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// wantPlan checks that a folder is there with the files of a plan, whatever is
// drawn beside them, or not at all, and that nothing else lies beside it.
func wantPlan(t *testing.T, dir string, there bool) {
	t.Helper()
	var want, beside []string
	if there {
		want, beside = []string{"findings.json", "plan.json", "steps.csv", "trace.csv"}, []string{filepath.Base(dir)}
	}
	drawn := func(name string) bool {
		return slices.Contains([]string{"heat", "profile", "section", "symbols"}, name)
	}
	if got := slices.DeleteFunc(inside(t, dir), drawn); !slices.Equal(got, want) {
		t.Errorf("the folder holds %q, want %q", got, want)
	}
	if got := inside(t, filepath.Dir(dir)); !slices.Equal(got, beside) {
		t.Errorf("beside the folder lies %q, want %q", got, beside)
	}
}
