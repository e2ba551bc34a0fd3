package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// completed returns what a shell is offered, without the words that explain it,
// and what it is told to do.
func completed(t *testing.T, args ...string) (offered, how string) {
	t.Helper()
	a := call(append([]string{"__complete"}, args...)...)
	if a.code != exitFit {
		t.Fatalf("%q: %+v", args, a)
	}
	lines := strings.Split(strings.TrimSpace(a.out), "\n")
	var out []string
	for _, l := range lines[:len(lines)-1] {
		value, _, _ := strings.Cut(l, "\t")
		out = append(out, value)
	}
	return strings.Join(out, "|"), lines[len(lines)-1]
}

// What is offered are the names in the files that were named before.
func TestCompletion(t *testing.T) {
	table, _ := bench(t)
	lay(t, filepath.Join(filepath.Dir(table), "broken.yaml"), "seams:\n  - {name: W7}\n  - {name: W8, joint: [}\n")
	lay(t, filepath.Join(filepath.Dir(table), "unfinished.yaml"), "seams:\n  - {name: W7}\n  - {name: long seam}\n")
	pairs := filepath.Join(filepath.Dir(table), "pairs.csv")
	lay(t, pairs, heads+"rest,700,0,300,180,0,0\nW1 start,1006.5,-1.9,-57.5,164.4,-50.1,14.6\nP9,1030.6,-206.9,-53.7,170.7,-45.9,15.6\n")
	keel := filepath.Join("..", "..", "examples", "keel-cradle")
	job := filepath.Join(keel, "job.yaml")
	const (
		none    = ":4"
		noSpace = ":6"
		byEnd   = ":8"
		dirs    = ":16"
		shell   = ":0"
	)
	withSets := []string{"new", pairs, "--arm", kittiwake(), "--settings", filepath.Join(keel, "settings.yaml")}
	withSets = append(withSets, answers(append([]string{"home=rest", "W1.end=P9", "W1.joint=tee", "W1.weld=leg 5 mm", "W1.base=level", "W1.upright=left", "travel=0 deg", "name=a", "code=iso"}, stated...)...)...)
	withSets = append(withSets, torchFlags("torch", "measured")[len(answers(stated...))+3:]...)
	for _, c := range []struct {
		args          []string
		offered, told string
	}{
		{[]string{"pl"}, "plan", none},
		{[]string{"plan", ""}, "yaml|yml", byEnd},
		{[]string{"plan", job, ""}, "", none},
		{[]string{"plan", job, "-o", ""}, "", dirs},
		{[]string{"plan", job, "--only", "W"}, "W1|W2|W3|W4|W5", none},
		{[]string{"plan", job, "--only", "W2", "--only", ""}, "W1|W3|W4|W5", none},
		{[]string{"plan", filepath.Join(filepath.Dir(table), "unfinished.yaml"), "--only", ""}, "W7|long seam", none},
		{[]string{"plan", filepath.Join(filepath.Dir(table), "broken.yaml"), "--only", ""}, "", none},
		{[]string{"plan", "no.yaml", "--only", ""}, "", none},
		{[]string{"plan", "--only", ""}, "", none},
		{[]string{"plan", "--units", ""}, "metric|inch", none},
		{[]string{"orient", "quat"}, "quaternion w first|quaternion w last", none},
		{[]string{"orient", "--to", "matrix"}, "matrix by rows|matrix by columns", none},
		{[]string{"size", "--leg", "5"}, "5mm|5cm|5m|5in|5ft", none},
		{[]string{"size", "--feed", "9m"}, "9m/min|9mm/s", none},
		{[]string{"size", "--feed", ""}, "", none},
		{[]string{"size", "--transfer", "s"}, "short-circuit|spray", none},
		{[]string{"completion", ""}, "bash|fish|zsh", none},
		{[]string{"quote", ""}, "csv", byEnd},
		{[]string{"gauge", ""}, "yaml|yml", byEnd},
		{[]string{"gauge", job, ""}, "csv|yaml|yml", byEnd},
		{[]string{"gauge", job, "r.csv", ""}, "", none},
		{[]string{"gauge", job, "--seam", "W2"}, "W2", none},
		{[]string{"gauge", "--seen", ""}, "none", none},
		{[]string{"gauge", "--step", "0.1"}, "0.1mm|0.1cm|0.1m|0.1in|0.1ft", none},
		{[]string{"quote", "--rates", ""}, "yaml|yml", byEnd},
		{[]string{"quote", "--units", "i"}, "inch", none},
		{[]string{"new", ""}, "", shell},
		{[]string{"new", table, "--arm", ""}, "urdf|xml", byEnd},
		{[]string{"new", table, "--like", ""}, "yaml|yml", byEnd},
		{[]string{"new", "--answer", ""}, "", none},
		{[]string{"new", "-", "--answer", ""}, "", none},
		{[]string{"new", table, "--answer", ""}, "joint_rows=", noSpace},
		{[]string{"new", table, "--answer", "joint_rows="}, "joint_rows=joints|joint_rows=poses", none},
		{[]string{"points", table, "--answer", "joint_rows=joints", "--answer", ""}, "measured_in=|length=|point=|orientation=", noSpace},
		{[]string{"points", table, "--answer", "joint_rows=joints", "--answer", "orientation=m"}, "orientation=moving z-y-x degrees|orientation=moving x-y-z degrees|orientation=moving z-y-z degrees", none},
		{append(append([]string{"new", pairs, "--arm", kittiwake()}, answers(stated...)...), "--answer", "home="), "home=rest|home=P9", none},
		{append(append([]string{"new", pairs, "--arm", kittiwake()}, answers(append([]string{"home=rest"}, stated...)...)...), "--answer", "W1.end="), "W1.end=P9|W1.end=leave out", none},
		{append(append([]string{}, withSets...), "--answer", ""), "flange_link=", noSpace},
		{append(append([]string{}, withSets...), "--answer", "flange_link=flange", "--answer", ""), "W1.settings=", noSpace},
		{append(append([]string{}, withSets...), "--answer", "flange_link=flange", "--answer", "W1.settings="), "W1.settings=4|W1.settings=5|W1.settings=6|W1.settings=8|W1.settings=21|W1.settings=90", none},
	} {
		offered, told := completed(t, c.args...)
		if offered != c.offered || told != c.told {
			t.Errorf("%q: got %q %s, want %q %s", c.args, offered, told, c.offered, c.told)
		}
	}
}

// Every shell gets a script that asks this program, and no other shell is known.
func TestCompletionScripts(t *testing.T) {
	for _, shell := range []string{"bash", "zsh", "fish"} {
		a := call("completion", shell)
		if a.code != exitFit || a.errors != "" || !strings.Contains(a.out, "__complete") || !strings.Contains(a.out, "seamwright") {
			t.Errorf("%s: exit code %d, %q", shell, a.code, a.errors)
		}
	}
	for _, args := range [][]string{{}, {"tcsh"}, {"bash", "zsh"}} {
		a := call(append([]string{"completion"}, args...)...)
		if a.code != exitUnusable || a.out != "" || a.errors != "seamwright: name one shell: bash, fish, zsh\n" {
			t.Errorf("%q: got %+v", args, a)
		}
	}
}

// A plan of some seams says so and is never fit; its tables hold these alone.
func TestPlanOnly(t *testing.T) {
	keel := filepath.Join("..", "..", "examples", "keel-cradle", "job.yaml")
	dir := filepath.Join(t.TempDir(), "out")
	a := call("plan", keel, "-o", dir, "-q", "--only", "W3", "--only", "W1")
	want := "STOP  W2, W4, W5 are left out: this plan was asked for W3, W1 only  [run-incomplete]\n      mend: plan without --only before welding; until then the run is not that of the job\n"
	if a.code != exitStopped || !strings.Contains(a.out, want) || !strings.Contains(a.out, "\nSTOPPED: 1 stop,") || !strings.Contains(a.out, "\nW1    tee") || !strings.Contains(a.out, "\nW3    tee") || strings.Contains(a.out, "\nW2 ") {
		t.Errorf("exit code %d, %s\n%s", a.code, a.errors, a.out)
	}
	if !strings.Contains(fileText(t, dir, "findings.json"), "run-incomplete") || strings.Contains(fileText(t, dir, "steps.csv"), "W2") {
		t.Error("the files do not say so")
	}
	// All seams named is the whole job.
	all := []string{"plan", keel, "-o", dir, "-q"}
	for _, w := range []string{"W1", "W2", "W3", "W4", "W5"} {
		all = append(all, "--only", w)
	}
	if a := call(all...); a.code != exitFit {
		t.Errorf("all of them: %+v", a)
	}
	a = call("plan", keel, "-o", dir, "--only", "W9")
	if a.code != exitUnusable || a.errors != "seamwright: --only W9: no seam of the job is called \"W9\"; seams are W1, W2, W3, W4, W5\n" {
		t.Errorf("got %+v", a)
	}
}
