package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"seamwright/bench/draft"
)

// messy is a table as a spreadsheet saves it: byte-order mark, semicolons,
// decimal commas, lines that end in CR LF, heads that tell nothing, and a home
// in joint values among poses. The part is invented.
const messy = "\ufeffName;X;Y;Z;A;B;C\r\n" +
	"home;0;-25;10;0;65;0\r\n" +
	"W1 in;924,5;12,5;28,7;166,7;-48,4;15,9\r\n" +
	"W1 start;1006,5;-1,9;-57,5;164,4;-50,1;14,6\r\n" +
	"W1 end;1030,6;-206,9;-53,7;170,7;-45,9;15,6\r\n" +
	"W1 out;905,3;-189,9;70,0;158,5;-41,5;17,3\r\n" +
	"W5 in;611,2;10,6;21,3;-172,6;-47,8;11,3\r\n" +
	"W5 start;670,9;35,1;-53,1;-174,4;-37,1;8,6\r\n" +
	"W5 end;642,5;263,8;-53,4;-171,8;-44,1;7,2\r\n" +
	"W5 out;573,5;235,3;31,5;-162,5;-35,9;0,3\r\n"

// kittiwake is an invented arm of the examples.
func kittiwake() string { return filepath.Join("..", "..", "examples", "arms", "kittiwake.urdf") }

// bench lays the messy table into a new folder and returns its name and that of
// a folder for the job, which is not there yet.
func bench(t *testing.T) (table, job string) {
	t.Helper()
	dir := t.TempDir()
	table = filepath.Join(dir, "frame.csv")
	lay(t, table, messy)
	return table, filepath.Join(dir, "job")
}

// typing calls the program with a person who types the lines.
func typing(lines []string, args ...string) answer {
	var out, errs bytes.Buffer
	in := strings.Join(lines, "\n") + "\n"
	code := runAt(context.Background(), args, desk{in: bufio.NewReader(strings.NewReader(in)), out: &out, errs: &errs, asks: true})
	return answer{code, out.String(), errs.String()}
}

// lines are what a person types to make a job of the messy table.
func lines() []string {
	return []string{kittiwake(), // arm
		"1", "1", "tip", "", // joints, base, tip, orientation
		"", "measured", "215 mm", "118 mm", "35 deg", "20 mm", "2 mm", "14 mm", // flange, torch
		"", "", "tee", "leg 5 mm", "", "", "", // name, code, joint, size, base, upright, travel
		"", "", "", // settings, procedure, write
	}
}

// flags are the same answers, given ahead.
func flags() []string {
	var out []string
	for _, a := range []string{"joint_rows=joints", "measured_in=base", "point=tip", "torch=measured", "torch.body=215 mm", "torch.neck=118 mm", "torch.neck_angle=35 deg",
		"torch.nozzle=20 mm", "torch.tip_recess=2 mm", "torch.stick_out=14 mm", "joint=tee", "weld=leg 5 mm"} {
		out = append(out, "--answer", a)
	}
	return append(out, "--arm", kittiwake(), "--yes")
}

func fileText(t *testing.T, name ...string) string {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(name...))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// From a messy table to a plan that stops for the template alone, and to one
// that is fit when the template is filled in.
func TestNewFromTableToPlan(t *testing.T) {
	table, job := bench(t)
	a := typing(lines(), "new", table, "-o", job)
	if a.code != exitFit || !strings.HasPrefix(a.out, job+" written. Next: seamwright plan ") {
		t.Fatalf("exit code %d, %q\n%s", a.code, a.out, a.errors)
	}
	want := []string{"job.yaml", "original", "procedure.yaml", "settings.yaml", "taught.csv"}
	if got := inside(t, job); !slices.Equal(got, want) {
		t.Errorf("the folder holds %q", got)
	}
	if got := inside(t, filepath.Dir(job)); !slices.Equal(got, []string{"frame.csv", "job"}) {
		t.Errorf("beside it lies %q", got)
	}
	if fileText(t, job, "original") != messy {
		t.Error("the original is not as it was given")
	}
	plan := func() answer {
		return call("plan", filepath.Join(job, "job.yaml"), "-o", filepath.Join(job, "plan"), "-q")
	}
	a = plan()
	if a.code != exitStopped || a.errors != "" || !strings.Contains(a.out, "STOPPED: 1 stop,") || !strings.Contains(a.out, "[value-to-fill-in]") {
		t.Errorf("exit code %d, %q\n%s", a.code, a.errors, a.out)
	}
	settings := filepath.Join(job, "settings.yaml")
	filled := strings.NewReplacer("name: fill in ", "name: z5 ", "wire: 0.5 mm", "wire: 1.0 mm", "feed: 2 m/min", "feed: 9.0 m/min", "# volts:", "volts:", "# amps:", "amps:", "# crater_time:", "crater_time:").Replace(fileText(t, settings))
	lay(t, settings, filled)
	if a = plan(); a.code != exitFit || !strings.Contains(a.out, "FIT to dry run: 0 stop") {
		t.Errorf("filled in: exit code %d, %q\n%s", a.code, a.errors, a.out)
	}
}

// The whole screen, read by eye when it was written.
func TestNewScreen(t *testing.T) {
	table, job := bench(t)
	typed := lines()
	typed = slices.Insert(typed, 1, "?", "2", "b", "nonsense") // explained, answered, taken back, and a slip
	a := typing(typed, "new", table, "-o", job)
	golden(t, "new.txt", a, job)
	golden(t, "new_job.txt", answer{exitFit, fileText(t, job, "job.yaml"), ""}, job)
}

// golden compares what the program said with a file of testdata.
func golden(t *testing.T, name string, a answer, dir string) {
	t.Helper()
	if a.code == exitUnusable {
		t.Fatalf("exit code %d\n%s", a.code, a.errors)
	}
	up, _ := filepath.Abs(filepath.Join("..", ".."))
	rel, _ := filepath.Rel(dir, up)
	got := strings.NewReplacer(filepath.ToSlash(rel), "ROOT", dir, "DIR", kittiwake(), "KITTIWAKE").Replace(a.errors + a.out)
	name = filepath.Join("testdata", name)
	if *update {
		lay(t, name, got)
	}
	if want := fileText(t, name); got != want {
		t.Errorf("%s: got:\n%s\nwant:\n%s", name, got, want)
	}
}

// What is typed, what is given ahead and what is pasted make the same files but
// for the words that say so.
func TestNewAhead(t *testing.T) {
	table, job := bench(t)
	if a := call(append([]string{"new", table, "-o", job}, flags()...)...); a.code != exitFit {
		t.Fatalf("%+v", a)
	}
	typed := job + "2"
	if a := typing(lines(), "new", table, "-o", typed); a.code != exitFit {
		t.Fatalf("%+v", a)
	}
	if got, want := fileText(t, job, "job.yaml"), fileText(t, typed, "job.yaml"); got != want {
		t.Errorf("ahead:\n%s\ntyped:\n%s", got, want)
	}
	pasted := job + "3"
	var out, errs bytes.Buffer
	code := runAt(context.Background(), append([]string{"new", "-", "-o", pasted}, flags()...), desk{in: bufio.NewReader(strings.NewReader(messy)), out: &out, errs: &errs})
	if code != exitFit || fileText(t, pasted, "original") != messy || fileText(t, pasted, "taught.csv") != fileText(t, job, "taught.csv") {
		t.Errorf("exit code %d, %s", code, errs.String())
	}
}

// Without a terminal the open questions are listed with their flags; --yes
// takes the defaults and lists what has none.
func TestNewWithoutTerminal(t *testing.T) {
	table, job := bench(t)
	a := call("new", table, "-o", job, "--arm", kittiwake())
	want := `seamwright: 1 question is open, and there is no terminal to ask at; answer it with a flag:

  Line 2 stands apart from the other points. What are these numbers: 0  -25  10  0  65  0?
    --answer joint_rows=joints
        six joint values
        - six numbers that a joint can reach; they lie away from the other points, or their words speak of joint values
    --answer joint_rows=poses
        x, y, z and three turns, like the other rows
        - the columns are the same
`
	if a.code != exitUnusable || a.errors != want || a.out != "" {
		t.Errorf("got %+v\nwant %s", a, want)
	}
	args := slices.DeleteFunc(flags(), func(s string) bool { return s == "--yes" })
	a = call(append([]string{"new", table, "-o", job}, args...)...)
	if !strings.Contains(a.errors, "\n    --answer 'orientation=fixed x-y-z degrees'  (default)\n") || !strings.HasSuffix(a.errors, "\n\n  --yes takes the defaults\n") {
		t.Errorf("got %s", a.errors)
	}
	a = call("new", table, "-o", job, "--arm", kittiwake(), "--answer", "joint_rows=joints", "--yes")
	if a.code != exitUnusable || !strings.HasPrefix(a.errors, "seamwright: 2 questions are open, and there is no default; answer them with flags:\n\n  Where are the positions measured from?\n") {
		t.Errorf("got %+v", a)
	}
	if got := inside(t, filepath.Dir(job)); !slices.Equal(got, []string{"frame.csv"}) {
		t.Errorf("the folder holds %q", got)
	}
}

// A person may stop at any question, or the input may end: nothing is written,
// and the answers so far are shown as flags.
func TestNewStopped(t *testing.T) {
	table, job := bench(t)
	for name, typed := range map[string][]string{"q": append(lines()[:4], "q"), "at the end": append(lines()[:22], "q")} {
		a := typing(typed, "new", table, "-o", job)
		if a.code != exitUnusable || !strings.HasSuffix(a.errors, "seamwright: stopped; nothing was written\n") || !strings.Contains(a.errors, "To go on from here, add: --arm ") ||
			!strings.Contains(a.errors, " --answer joint_rows=joints --answer measured_in=base --answer point=tip") {
			t.Errorf("%s: got %+v", name, a)
		}
		if got := inside(t, filepath.Dir(job)); !slices.Equal(got, []string{"frame.csv"}) {
			t.Errorf("%s: the folder holds %q", name, got)
		}
	}
	var out, errs bytes.Buffer
	code := runAt(context.Background(), []string{"new", table, "-o", job}, desk{in: bufio.NewReader(strings.NewReader("")), out: &out, errs: &errs, asks: true})
	if code != exitUnusable || !strings.HasSuffix(errs.String(), "seamwright: stopped; nothing was written\n") {
		t.Errorf("an input that ends: %d, %s", code, errs.String())
	}
}

// A person who presses Ctrl-C at a question is not kept waiting.
func TestNewCancelledAtAQuestion(t *testing.T) {
	table, job := bench(t)
	hands, typed := io.Pipe()
	defer typed.Close()
	ctx, cancel := context.WithCancel(context.Background())
	var out, errs bytes.Buffer
	done := make(chan int, 1)
	go func() {
		done <- runAt(ctx, []string{"new", table, "-o", job}, desk{in: bufio.NewReader(hands), out: &out, errs: &errs, asks: true})
	}()
	if _, err := io.WriteString(typed, "?\n"); err != nil {
		t.Fatal(err)
	}
	cancel()
	select {
	case code := <-done:
		if code != exitUnusable || !strings.HasSuffix(errs.String(), "seamwright: cancelled; nothing was written\n") {
			t.Errorf("exit code %d, %s", code, errs.String())
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it waits for an answer")
	}
}

// A job that is followed answers for arm, torch, cell and the controller's way
// to write poses, and names the settings.
func TestNewLike(t *testing.T) {
	dir := t.TempDir()
	table := filepath.Join(dir, "points.txt")
	lay(t, table, "W1 in 924.5 12.5 28.7 166.7 -48.4 15.9\nW1 start 1006.5 -1.9 -57.5 164.4 -50.1 14.6\nW1 end 1030.6 -206.9 -53.7 170.7 -45.9 15.6\nW1 out 905.3 -189.9 70.0 158.5 -41.5 17.3\nhome 700 0 300 180 0 0\n")
	job := filepath.Join(dir, "deep", "job")
	old := filepath.Join("..", "..", "examples", "keel-cradle", "job.yaml")
	a := call("new", table, "-o", job, "--like", old, "--yes", "--answer", "W1.joint=tee", "--answer", "W1.weld=leg 6 mm", "--answer", "W1.settings=6", "--answer", "joint_rows=poses")
	if a.code != exitFit {
		t.Fatalf("%+v", a)
	}
	if got := inside(t, job); !slices.Equal(got, []string{"job.yaml", "original", "taught.csv"}) {
		t.Errorf("the folder holds %q", got)
	}
	if a = call("plan", filepath.Join(job, "job.yaml"), "-o", filepath.Join(job, "plan"), "-q"); a.code != exitFit {
		t.Errorf("%+v", a)
	}
}

// A folder that is no longer empty when the job is written keeps what it holds,
// and nothing is left beside it.
func TestWriteFolderOverwritesNothing(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "job")
	files := []draft.File{{Name: "job.yaml", Data: []byte("a")}}
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	lay(t, filepath.Join(dir, "mine.txt"), "mine")
	if err := writeFolder(dir, files); err == nil || fileText(t, dir, "mine.txt") != "mine" {
		t.Errorf("got %v", err)
	}
	if err := os.Remove(filepath.Join(dir, "mine.txt")); err != nil {
		t.Fatal(err)
	}
	// A file that cannot be written leaves nothing: here its name is a path.
	if err := writeFolder(dir, append(files, draft.File{Name: "no/such/folder", Data: nil})); err == nil {
		t.Error("written")
	}
	if got := inside(t, parent); !slices.Equal(got, []string{"job"}) || len(inside(t, dir)) != 0 {
		t.Errorf("left %q, %q", got, inside(t, dir))
	}
	if err := writeFolder(dir, files); err != nil || fileText(t, dir, "job.yaml") != "a" {
		t.Errorf("an empty folder: %v", err)
	}
}

// The device that holds nothing is no terminal.
func TestTerminal(t *testing.T) {
	null, err := os.Open(os.DevNull)
	if err != nil {
		t.Fatal(err)
	}
	defer null.Close()
	if terminal(null) {
		t.Error("the null device counts as a terminal")
	}
	r, w, err := os.Pipe()
	if err = errors.Join(err); err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	defer w.Close()
	if terminal(r) {
		t.Error("a pipe counts as a terminal")
	}
}
