package examples

import (
	"bytes"
	"context"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// jobs are the folders of the example jobs below examples.
var jobs = []string{"dock-beam", "header-stand", "keel-cradle", "sluice-lug"}

// taught are those with points that were guided by hand, and the truth behind them.
var taught = []string{"header-stand", "keel-cradle", "sluice-lug"}

// bent are the seams of an example that bend, each with a drawing of its own.
var bent = map[string][]string{
	"header-stand": {"W4", "W5", "W6", "W7", "W9", "W10"},
	"keel-cradle":  {"W4"},
}

// inFolder opens the files that a job names, relative to its own folder.
type inFolder string

func (f inFolder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), filepath.FromSlash(name)))
}

// planned decodes and plans an example.
func planned(t testing.TB, name string) (*job.Job, *plan.Plan) {
	t.Helper()
	j, err := job.Decode("job.yaml", inFolder("../../examples/"+name))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j, p
}

func TestEveryExampleIsListed(t *testing.T) {
	found, err := filepath.Glob("../../examples/*/job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if len(found) != len(jobs) {
		t.Errorf("examples are %v, tested are %v", found, jobs)
	}
	for _, name := range jobs {
		for _, file := range []string{"README.md", "job.yaml", "settings.yaml"} {
			if _, err := os.Stat("../../examples/" + name + "/" + file); err != nil {
				t.Error(err)
			}
		}
	}
}

func TestExamplesAreFit(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			_, p := planned(t, name)
			for _, f := range p.Findings {
				if f.Severity == finding.Stop {
					t.Errorf("%s: %s", f.Code, f.Message)
				}
			}
			for i := range p.Seams {
				if p.Seams[i].Passes[0].Motion == nil {
					t.Errorf("%s has no posture", p.Seams[i].Name)
				}
			}
		})
	}
}

// TestExamplesSayWhatTheyKnow holds that the reports are of use: they name what
// hand guiding got wrong, and what nobody looked at.
func TestExamplesSayWhatTheyKnow(t *testing.T) {
	for _, name := range taught {
		_, p := planned(t, name)
		count := map[finding.Code]int{}
		for _, f := range p.Findings {
			count[f.Code]++
		}
		for _, code := range []finding.Code{finding.PointOffSeam, finding.TaughtAngleOff, finding.NotOnMachine} {
			if count[code] == 0 {
				t.Errorf("%s: no finding %s", name, code)
			}
		}
	}
}

// heated are the seams of an example of which it is drawn how they heat and cool:
// those of which the plan knows enough.
var heated = map[string][]string{
	"keel-cradle":  {"W1", "W2", "W3", "W4", "W5"},
	"header-stand": {"W1 part 1", "W1 part 2", "W2 left", "W2 right", "W3", "W3 2", "W3 3", "W4", "W5", "W6", "W7", "W8 stitch 1", "W8 stitch 2", "W9", "W10"},
	"sluice-lug":   {"W1", "W2", "W3"},
	"dock-beam":    {"F1", "S1 stitch 1", "S1 stitch 2", "S1 stitch 3", "B1"},
}

// inPasses are the seams of an example that are laid in several passes.
var inPasses = map[string][]string{"dock-beam": {"F1", "B1"}}

// signed are the seams of an example that have a weld symbol: fillets of a leg, or in
// ISO a throat.
var signed = map[string][]string{
	"keel-cradle":  {"W1", "W2", "W3", "W4", "W5"},
	"header-stand": {"W1", "W2 left", "W3", "W4", "W5", "W6", "W7", "W9", "W10"},
	"sluice-lug":   {"W1", "W2", "W3"},
	"dock-beam":    {"F1", "S1"},
}

func TestExamplesPlanTheSameBytesTwice(t *testing.T) {
	for _, name := range jobs {
		t.Run(name, func(t *testing.T) {
			first, second := written(t, name), written(t, name)
			want := []string{"plan.json", "steps.csv", "trace.csv", "findings.json", "procedure.html"}
			for _, seam := range bent[name] {
				want = append(want, "profile/"+seam+".svg")
			}
			for _, seam := range heated[name] {
				want = append(want, "heat/"+seam+".svg")
			}
			for _, seam := range inPasses[name] {
				want = append(want, "section/"+seam+".svg")
			}
			for _, seam := range signed[name] {
				want = append(want, "symbols/"+seam+".svg")
			}
			if len(first) != len(want) || len(second) != len(want) {
				t.Errorf("%d and %d files, want %v", len(first), len(second), want)
			}
			for _, file := range want {
				if len(first[file]) < 200 {
					t.Errorf("%s has %d bytes", file, len(first[file]))
				}
				if !bytes.Equal(first[file], second[file]) {
					t.Errorf("%s differs between two runs", file)
				}
			}
		})
	}
}

// written is the folder that a plan of the example writes, by file name.
func written(t *testing.T, name string) map[string][]byte {
	t.Helper()
	j, p := planned(t, name)
	dir := filepath.Join(t.TempDir(), "out")
	made, err := export.Files(j, p, "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := export.Folder(dir, made); err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	err = fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			files[name], err = os.ReadFile(filepath.Join(dir, name))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}
