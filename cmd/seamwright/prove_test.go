package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// examplePlan plans an example in memory.
func examplePlan(t *testing.T, name string) (planning, *plan.Plan) {
	t.Helper()
	j, err := job.Decode("job.yaml", folder("../../examples/"+name))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	return planning{document: "../../examples/" + name + "/job.yaml", dir: filepath.Join(t.TempDir(), "out"), job: j}, p
}

// A planner that does not do as it says: its plan is not fit, and says why.
func TestPlanThatCannotBeProvedIsStopped(t *testing.T) {
	for _, row := range []struct {
		name  string
		spoil func(p *plan.Plan)
		says  string
	}{
		{"a joint value", func(p *plan.Plan) { p.Trace[100].Q[2] += 0.001 }, "pose by the joints"},
		{"a step left out", func(p *plan.Plan) { p.Steps = append(p.Steps[:2:2], p.Steps[3:]...) }, "arc on and off"},
		{"a pass faster than it may be", func(p *plan.Plan) { p.Seams[0].Passes[0].Size.Travel *= 1.1 }, "travel speed under the planned"},
	} {
		t.Run(row.name, func(t *testing.T) {
			a, p := examplePlan(t, "sluice-lug")
			row.spoil(p)
			files, err := provedFiles(a, p)
			if err != nil {
				t.Fatal(err)
			}
			if finding.Worst(p.Findings) != finding.Stop {
				t.Fatal("nothing stops it")
			}
			if text := string(files[0].Data); !strings.Contains(text, `"fit": false`) || !strings.Contains(text, "proof-fails") || !strings.Contains(text, row.says) {
				t.Errorf("plan.json does not say that it is not fit by %q", row.says)
			}
			v, err := proveFiles(files, a.job, p)
			if err != nil {
				t.Fatal(err)
			}
			if v.Fit || len(v.Untold) > 0 {
				t.Errorf("fit %t, untold %v", v.Fit, v.Untold)
			}
		})
	}
}

// The exit codes of the verb, from a folder that was written.
func TestProveVerb(t *testing.T) {
	a, p := examplePlan(t, "sluice-lug")
	files, err := provedFiles(a, p)
	if err != nil {
		t.Fatal(err)
	}
	if err := export.Folder(a.dir, files); err != nil {
		t.Fatal(err)
	}
	prove := func(args ...string) (int, string) {
		var out, errs bytes.Buffer
		code := run(context.Background(), append([]string{"prove"}, args...), &out, &errs)
		return code, out.String() + errs.String()
	}
	verdict := filepath.Join(t.TempDir(), "proof.json")
	if code, text := prove(a.dir, "-o", verdict); code != exitFit || !strings.Contains(text, "FIT to dry run") {
		t.Errorf("as written: %d\n%s", code, text)
	}
	if text, err := os.ReadFile(verdict); err != nil || !strings.Contains(string(text), `"fit": true`) {
		t.Errorf("proof.json: %v\n%s", err, text)
	}
	steps := filepath.Join(a.dir, "steps.csv")
	text, err := os.ReadFile(steps)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(steps, bytes.Replace(text, []byte("W1 approach"), []byte("W1 Approach"), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, text := prove(a.dir); code != exitStopped || !strings.Contains(text, "steps.csv was changed since it was written") {
		t.Errorf("changed: %d\n%s", code, text)
	}
	for _, row := range []struct {
		name string
		args []string
		says string
	}{
		{"no folder", nil, "name one plan folder"},
		{"an empty folder", []string{t.TempDir()}, "there is no plan.json"},
		{"another job", []string{a.dir, "--job", "../../examples/keel-cradle/nothing.yaml"}, "cannot be opened"},
	} {
		if code, text := prove(row.args...); code != exitUnusable || !strings.Contains(text, row.says) {
			t.Errorf("%s: %d\n%s", row.name, code, text)
		}
	}
}
