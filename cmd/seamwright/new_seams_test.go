package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// A vertical seam without touches: either plate that the wire as taught stands
// for makes a joint that the torch was taught on the right side of.
func TestNewVerticalSeam(t *testing.T) {
	dir := t.TempDir()
	table := filepath.Join(dir, "vertical.csv")
	lay(t, table, heads+"home,700,0,300,180,0,0\nW2 in,940.0,-169.8,136.0,101.7,-84.1,39.3\nW2 start,1035.1,-244.3,-13.7,-166.5,-85.6,-44.4\n"+
		"W2 end,1035.3,-246.8,94.4,31.4,-84.8,110.6\nW2 out,928.9,-161.6,97.5,119.7,-88.0,18.0\n")
	args := []string{"new", table, "--arm", kittiwake(), "--yes"}
	for _, f := range jobFlags() {
		if !strings.HasPrefix(f, "W1.base") && !strings.HasPrefix(f, "W1.upright") && f != "--answer" && f != "--arm" && f != "ARM" && f != "--yes" {
			args = append(args, "--answer", strings.Replace(f, "W1.", "W2.", 1))
		}
	}
	offered, _ := completed(t, append(append([]string{}, args...), "--answer", "W2.base=direction")...)
	plates := strings.Split(offered, "|")
	if len(plates) != 2 {
		t.Fatalf("offered %q", offered)
	}
	for i, plate := range plates {
		job := filepath.Join(dir, []string{"left", "right"}[i])
		if a := call(append(append([]string{}, args...), "-o", job, "--answer", plate)...); a.code != exitFit {
			t.Fatalf("%+v", a)
		}
		a := call("plan", filepath.Join(job, "job.yaml"), "-o", filepath.Join(job, "plan"), "-q")
		if a.code != exitStopped || !strings.Contains(a.out, "STOPPED: 1 stop,") || strings.Contains(a.out, "[taught-on-other-side]") || !strings.Contains(a.out, "  PF  ") {
			t.Errorf("%s: exit code %d\n%s%s", plate, a.code, a.out, a.errors)
		}
	}
}

// A name that is no arm is said at once, and asked again.
func TestNewAsksAgainForTheArm(t *testing.T) {
	table, job := bench(t)
	a := typing(append([]string{"no.urdf", table}, lines()...), "new", table, "-o", job)
	for _, want := range []string{"The arm's file: open no.urdf: no such file or directory.", "file: found no element; allowed: one <robot> element; to mend: choose a URDF file."} {
		if !strings.Contains(strings.ReplaceAll(a.errors, "\n    ", " "), want) {
			t.Errorf("%q is not in\n%s", want, a.errors)
		}
	}
	if a.code != exitFit {
		t.Errorf("exit code %d", a.code)
	}
}
