package prove_test

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/bench/prove"
)

// examples are the jobs whose plans are proved and tampered with.
var examples = []string{"dock-beam", "header-stand", "keel-cradle", "sluice-lug"}

// inFolder opens the files that a job names, relative to its own folder.
type inFolder string

func (f inFolder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), filepath.FromSlash(name)))
}

// planned is an example with the texts of its plan folder.
type planned struct {
	job   *job.Job
	plan  *plan.Plan
	files map[string]string
}

// read returns the files of a folder that is held in memory.
func (p *planned) read(name string) ([]byte, error) {
	text, ok := p.files[name]
	if !ok {
		return nil, os.ErrNotExist
	}
	return []byte(text), nil
}

var cache sync.Map // of planned, by the example's name

// example plans an example, once.
func example(t testing.TB, name string) *planned {
	t.Helper()
	made, _ := cache.LoadOrStore(name, sync.OnceValues(func() (*planned, error) { return planExample(name) }))
	p, err := made.(func() (*planned, error))()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func planExample(name string) (*planned, error) { return planFiles(inFolder("../../examples/" + name)) }

// planFiles plans the job of some files.
func planFiles(files job.Files) (*planned, error) {
	j, err := job.Decode("job.yaml", files)
	if err != nil {
		return nil, err
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		return nil, err
	}
	list, err := export.Files(j, p, "job.yaml")
	if err != nil {
		return nil, err
	}
	made := &planned{job: j, plan: p, files: map[string]string{}}
	for _, f := range list {
		made.files[f.Name] = string(f.Data)
	}
	return made, nil
}

// verdict proves a folder.
func verdict(t testing.TB, p *planned) *prove.Verdict {
	t.Helper()
	f, err := prove.Read(p.read)
	if err != nil {
		t.Fatal(err)
	}
	v, err := f.Prove(p.job)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// declared are the constraints of which some examples say themselves that they are
// not checked, or not kept.
var declared = map[string]bool{
	"temperature of the part before welding": true, // three of them state no steel
	"clear of everything: air moves":         true, // some approaches begin nearer than air moves want
}

func TestEveryExampleIsFit(t *testing.T) {
	for _, name := range examples {
		t.Run(name, func(t *testing.T) {
			v := verdict(t, example(t, name))
			for _, r := range v.Rows {
				if r.Outcome != prove.Holds && !(r.Outcome == prove.Declared || r.Outcome == prove.Told) || !declared[r.Name] && r.Outcome != prove.Holds {
					t.Errorf("%s: %v, %+v", r.Name, r.Outcome, r.Breaches)
				}
			}
			if !v.Fit {
				t.Errorf("not fit; stops %v", v.Stops)
			}
		})
	}
}
