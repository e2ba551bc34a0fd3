package export_test

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// planned is a job with its plan and the folder that the job stands in.
type planned struct {
	name string
	dir  string
	job  *job.Job
	plan *plan.Plan
}

// jobFiles are all jobs whose plans are checked: the worked shop cases, the
// round seams of this package and the project's examples.
func jobFiles(t *testing.T) []string {
	t.Helper()
	var list []string
	for _, pattern := range []string{
		"../plan/testdata/scenarios/s*.yaml",
		"testdata/jobs/*.yaml",
		"../../examples/*/job.yaml",
	} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, found...)
	}
	var jobs []string
	for _, file := range list {
		if filepath.Base(file) != "settings.yaml" {
			jobs = append(jobs, file)
		}
	}
	if len(jobs) < 7 {
		t.Fatalf("found %d jobs only: %v", len(jobs), jobs)
	}
	return jobs
}

var plannedOnce struct {
	sync.Once
	list []planned
}

// plannedJobs plans every job once.
func plannedJobs(t *testing.T) []planned {
	t.Helper()
	plannedOnce.Do(func() {
		for _, file := range jobFiles(t) {
			plannedOnce.list = append(plannedOnce.list, planFile(t, file))
		}
	})
	if len(plannedOnce.list) == 0 {
		t.Fatal("the jobs could not be planned")
	}
	return plannedOnce.list
}

func planFile(t *testing.T, file string) planned {
	t.Helper()
	dir, base := filepath.Split(file)
	j, err := job.Decode(base, files(dir))
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	name := base
	if base == "job.yaml" {
		name = filepath.Base(filepath.Clean(dir))
	}
	return planned{name: name, dir: dir, job: j, plan: p}
}

// files opens the files that a job names.
type files string

func (f files) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), name))
}

// written is one file of a plan folder, as it is written.
func written(t *testing.T, c planned, name string) []byte {
	t.Helper()
	files, err := export.Files(c.job, c.plan, c.job.File)
	if err != nil {
		t.Fatalf("%s: %v", c.name, err)
	}
	for _, f := range files {
		if f.Name == name {
			return f.Data
		}
	}
	t.Fatalf("%s: no %s", c.name, name)
	return nil
}

// writePlan writes a plan into a folder.
func writePlan(dir string, j *job.Job, p *plan.Plan) error {
	files, err := export.Files(j, p, j.File)
	if err != nil {
		return err
	}
	return export.Folder(dir, files)
}

// variant plans the first worked shop case with the text old replaced by new.
func variant(t *testing.T, name, old, new string) planned {
	t.Helper()
	dir := t.TempDir()
	for _, file := range []string{"s1.yaml", "arm_a.urdf", "settings.yaml"} {
		b, err := os.ReadFile(filepath.Join("../plan/testdata/scenarios", file))
		if err != nil {
			t.Fatal(err)
		}
		if file == "s1.yaml" {
			if !bytes.Contains(b, []byte(old)) {
				t.Fatalf("s1.yaml does not hold %q", old)
			}
			b = bytes.Replace(b, []byte(old), []byte(new), 1)
		}
		if err := os.WriteFile(filepath.Join(dir, file), b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	c := planFile(t, filepath.Join(dir, "s1.yaml"))
	c.name = name
	return c
}
