package export

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// version is a plan folder whose four files all name one version; step sees
// what is on disk while a file is being written.
func version(n int, step func(name string)) []part {
	var parts []part
	for _, name := range []string{PlanFile, StepsFile, TraceFile, FindingsFile} {
		parts = append(parts, part{name, func(w io.Writer) error {
			if step != nil {
				step(name)
			}
			_, err := fmt.Fprintf(w, "{\"seamwright_plan\": 1, \"version\": %d}\n%s", n, strings.Repeat("x", 1<<17))
			return err
		}})
	}
	return parts
}

// versionOf is the version that all four files of dir name; an error where dir
// is not one whole plan.
func versionOf(dir string) (int, error) {
	var n [4]int
	for i, name := range []string{PlanFile, StepsFile, TraceFile, FindingsFile} {
		b, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return 0, err
		}
		if _, err := fmt.Sscanf(string(b), "{\"seamwright_plan\": 1, \"version\": %d}\n", &n[i]); err != nil || len(b) < 1<<17 {
			return 0, fmt.Errorf("%s is not whole (%d bytes, %v)", name, len(b), err)
		}
	}
	if n[0] != n[1] || n[0] != n[2] || n[0] != n[3] {
		return 0, fmt.Errorf("files of versions %v", n)
	}
	return n[0], nil
}

func wantVersion(t *testing.T, dir string, want int) {
	t.Helper()
	if got, err := versionOf(dir); err != nil || got != want {
		t.Errorf("version %d, %v in the folder, want %d", got, err, want)
	}
}

func wantAlone(t *testing.T, parent string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(parent)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%s holds %q, want %q", parent, got, want)
	}
}

// The order of a replacement: while any of the new files is written the older
// plan is whole under its name, and no new file has the folder's name.
func TestOlderPlanIsWholeWhileTheNewOneIsWritten(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "out")
	first := 0
	if err := writeFolder(dir, version(1, func(string) {
		first++
		if _, err := os.Lstat(dir); !os.IsNotExist(err) {
			t.Errorf("the folder is there before its files are: %v", err)
		}
	})); err != nil {
		t.Fatal(err)
	}
	second := 0
	if err := writeFolder(dir, version(2, func(string) {
		second++
		wantVersion(t, dir, 1)
	})); err != nil {
		t.Fatal(err)
	}
	if first != 4 || second != 4 {
		t.Errorf("looked %d and %d times, want 4 and 4", first, second)
	}
	wantVersion(t, dir, 2)
	wantAlone(t, parent, "out")
}

func TestFailureMidwayLeavesTheOlderPlan(t *testing.T) {
	broken := errors.New("no number")
	for _, bad := range []string{PlanFile, StepsFile, TraceFile, FindingsFile} {
		t.Run(bad, func(t *testing.T) {
			parent := t.TempDir()
			dir := filepath.Join(parent, "out")
			fail := version(2, nil)
			for i := range fail {
				if fail[i].name == bad {
					fail[i].write = func(w io.Writer) error {
						io.WriteString(w, "half")
						return broken
					}
				}
			}
			if err := writeFolder(dir, fail); !errors.Is(err, broken) || !strings.HasPrefix(err.Error(), bad+": ") {
				t.Errorf("got %v", err)
			}
			wantAlone(t, parent)
			if err := writeFolder(dir, version(1, nil)); err != nil {
				t.Fatal(err)
			}
			if err := writeFolder(dir, fail); !errors.Is(err, broken) {
				t.Errorf("got %v, want %v", err, broken)
			}
			wantVersion(t, dir, 1)
			wantAlone(t, parent, "out")
		})
	}
}

// A disk that is full is told, and nothing is left.
func TestFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Fatalf("this check needs a system with /dev/full: %v", err)
	}
	defer full.Close()
	dir := filepath.Join(t.TempDir(), "out")
	parts := version(1, nil)
	parts[2].write = func(io.Writer) error {
		w := bufio.NewWriter(full)
		io.WriteString(w, "half")
		return w.Flush()
	}
	if err := writeFolder(dir, parts); err == nil || !strings.Contains(err.Error(), "no space left") {
		t.Errorf("got %v", err)
	}
	wantAlone(t, filepath.Dir(dir))
}

// A file that the user lays into the older folder while the new plan is being
// written is not lost.
func TestFileLaidInMeanwhileIsKept(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "out")
	if err := writeFolder(dir, version(1, nil)); err != nil {
		t.Fatal(err)
	}
	err := writeFolder(dir, version(2, func(name string) {
		if name == TraceFile {
			if err := os.WriteFile(filepath.Join(dir, "notes.txt"), []byte("mine"), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}))
	if err == nil || !strings.Contains(err.Error(), "the plan is written, but the older folder") {
		t.Errorf("got %v", err)
	}
	wantVersion(t, dir, 2)
	kept, _ := filepath.Glob(filepath.Join(parent, ".out-new-*", "notes.txt"))
	if len(kept) != 1 {
		t.Errorf("the user's file is in %v", kept)
	}
}

// Where two names cannot be exchanged in one step the older folder is moved
// aside, and comes back where the new one cannot take its name.
func TestMoveAside(t *testing.T) {
	parent := t.TempDir()
	dir, fresh := filepath.Join(parent, "out"), filepath.Join(parent, "fresh")
	for n, d := range map[int]string{1: dir, 2: fresh} {
		if err := writeFolder(d, version(n, nil)); err != nil {
			t.Fatal(err)
		}
	}
	older, err := moveAside(dir, fresh)
	if err != nil {
		t.Fatal(err)
	}
	wantVersion(t, dir, 2)
	wantVersion(t, older, 1)
	if _, err := moveAside(dir, filepath.Join(parent, "gone")); err == nil {
		t.Error("a folder that is not there took the name")
	}
	wantVersion(t, dir, 2)
	wantAlone(t, parent, filepath.Base(older), "out")
}

// killedWriter names the folder that a child of the next test writes into.
const killedWriter = "SEAMWRIGHT_TEST_KILLED_WRITER"

// A run that is killed at any moment leaves one whole plan under the folder's
// name, and the next run clears what it left beside it.
func TestKilledWriterLeavesOneWholePlan(t *testing.T) {
	if dir := os.Getenv(killedWriter); dir != "" {
		for n := 2; ; n++ {
			if err := writeFolder(dir, version(n, nil)); err != nil {
				t.Fatal(err)
			}
		}
	}
	parent := t.TempDir()
	dir := filepath.Join(parent, "out")
	if err := writeFolder(dir, version(1, nil)); err != nil {
		t.Fatal(err)
	}
	replaced := 0
	for k := range 25 {
		child := exec.Command(os.Args[0], "-test.run=^TestKilledWriterLeavesOneWholePlan$")
		child.Env = append(os.Environ(), killedWriter+"="+dir)
		if err := child.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(30+7*k) * time.Millisecond)
		if err := child.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		if err := child.Wait(); err == nil || child.ProcessState.ExitCode() != -1 {
			t.Fatalf("the child ended by itself: %v", err)
		}
		n, err := versionOf(dir)
		if err != nil {
			t.Fatalf("after kill %d: %v", k, err)
		}
		if n > 1 {
			replaced++
		}
	}
	if replaced == 0 {
		t.Fatal("no child got as far as replacing the plan")
	}
	if err := writeFolder(dir, version(0, nil)); err != nil {
		t.Fatal(err)
	}
	wantVersion(t, dir, 0)
	wantAlone(t, parent, "out")
}
