package plan_test

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

const (
	mm     = 1e-3
	degree = 3.14159265358979323846 / 180 // rad
)

// files are the texts of a job by name.
type files map[string]string

func (f files) Open(name string) (io.ReadCloser, error) {
	text, ok := f[name]
	if !ok {
		return nil, fmt.Errorf("open %s: %w", name, os.ErrNotExist)
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

// read returns the named files of testdata under the last part of their names.
func read(t testing.TB, names ...string) files {
	t.Helper()
	f := files{}
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		f[filepath.Base(name)] = string(data)
	}
	return f
}

// good is the job without faults.
func good(t testing.TB) files {
	t.Helper()
	return read(t, "checks/job.yaml", "checks/taught.csv", "checks/settings.yaml", "checks/procedure.yaml", "scenarios/arm_a.urdf")
}

// worked is a worked case as it stands, its document under job.yaml.
func worked(t testing.TB, name string) files {
	t.Helper()
	f := read(t, "scenarios/"+name+".yaml", "scenarios/settings.yaml", "scenarios/arm_a.urdf")
	f["job.yaml"] = f[name+".yaml"]
	delete(f, name+".yaml")
	return f
}

// edit replaces one piece of text that must occur exactly once in all files.
func (f files) edit(t fataler, old, new string) {
	t.Helper()
	in := ""
	for name, text := range f {
		switch n := strings.Count(text, old); {
		case n == 1 && in == "":
			in = name
		case n > 0:
			t.Fatalf("%q stands in more than one place", old)
		}
	}
	if in == "" {
		t.Fatalf("%q stands nowhere", old)
	}
	f[in] = strings.Replace(f[in], old, new, 1)
}

func decode(t testing.TB, f files) *job.Job {
	t.Helper()
	j, err := job.Decode("job.yaml", f)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func planOf(t testing.TB, f files) *plan.Plan {
	t.Helper()
	p, err := plan.Make(context.Background(), decode(t, f), nil)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func withCode(p *plan.Plan, code finding.Code) []finding.Finding {
	var found []finding.Finding
	for _, f := range p.Findings {
		if f.Code == code {
			found = append(found, f)
		}
	}
	return found
}

// only returns the one finding of a code.
func only(t testing.TB, p *plan.Plan, code finding.Code) finding.Finding {
	t.Helper()
	found := withCode(p, code)
	if len(found) != 1 {
		t.Fatalf("%d findings %q, want 1; all are:\n%s", len(found), code, list(p.Findings))
	}
	return found[0]
}

func list(found []finding.Finding) string {
	var b strings.Builder
	for _, f := range found {
		fmt.Fprintf(&b, "%v %s [%v] %s | %g of %g %s | %s\n", f.Severity, f.Code, f.Where, f.Message, f.Measured, f.Limit, f.Unit, f.Remedy)
	}
	return b.String()
}

// fataler is what edit needs of a test.
type fataler interface {
	Helper()
	Fatalf(format string, args ...any)
}

// panics is a fataler where no test runs yet.
type panics struct{}

func (panics) Helper()                           {}
func (panics) Fatalf(format string, args ...any) { panic(fmt.Sprintf(format, args...)) }
