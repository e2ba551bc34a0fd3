package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Exit code 0: nothing stops the job. 1: a plan is written, and findings stop
// it.
func TestPlanExitCodes(t *testing.T) {
	for _, c := range []struct {
		name, old, new string
		code           int
		want           []string
	}{
		{"fit", "", "", exitFit, []string{"FIT to dry run: 0 stop"}},
		{
			"words on the arm", "flange_link: flange", "flange_link: flange, payload: 5 kg, hand_guiding: [hold the button halfway]", exitFit,
			[]string{"\npayload of the arm 5.00 kg\n", "\nguiding the arm by hand\n      hold the button halfway\n", "[torch-above-payload]"},
		},
		{
			"in stitches", "    settings: 11", "    settings: 11\n    stitches: {length: 40 mm, gap: 50 mm}", exitFit,
			[]string{"W1: 4 stitches of 40 mm at 70 mm, 160 mm welded of 250 mm, ends welded\n", "\nW1 stitch 4 ", "[stitch-pitch-closed-up]"},
		},
		{
			"stitches taken up again", "    settings: 11", "    settings: 11\n    stitches: {length: 40 mm, gap: 50 mm, ends: as drawn, offset: 12.5 mm}\n    restart: {at: 120 mm}", exitFit,
			[]string{"W1: 3 stitches of 40 mm at 90 mm, 120 mm welded of 250 mm, pitch kept, first at 12.5 mm; 2 left in this run\n", "[weld-taken-up-again]", "[stitch-end-bare]"},
		},
		{
			"typed speed too fast for the leg", "    settings: 11", "    settings: 11\n    speed: 12 mm/s", exitStopped,
			[]string{"[leg-below-drawing]", "5.0 mm needs 8.23 mm/s", "STOPPED: 1 stop"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "out")
			a := call("plan", copied(t, c.old, c.new), "-o", dir)
			if a.code != c.code || a.errors != "" {
				t.Errorf("exit code %d, %q", a.code, a.errors)
			}
			for _, want := range c.want {
				if !strings.Contains(a.out, want) {
					t.Errorf("%q is not in:\n%s", want, a.out)
				}
			}
			wantPlan(t, dir, true)
		})
	}
}

// A seam that bends gets a line of what comes out at its corners, and a drawing.
// The angles by hand, asin(sin 10 cos a + sin 45 cos 10 sin a) for a turn of a
// ahead (-20 deg) or lagging (10): -4.3 and 17.0 deg.
func TestPlanOfBends(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	a := call("plan", "../../bench/export/testdata/jobs/cornered.yaml", "-o", dir)
	if a.code != exitFit {
		t.Fatalf("exit code %d: %s", a.code, a.errors)
	}
	for _, want := range []string{
		"\nbox of plate round 2 corners: leg 6.0 mm to 8.5 mm, torch 4.3 drag to 17.0 push, turning at up to 60 deg/s, arc stands 1.3 s in all; 8 points to key in\n",
		"\nhollow section round 1 bend: leg 6.0 mm to 6.0 mm, torch 10.0 push to 10.0 push, turning at up to 23 deg/s; 5 points to key in\n",
	} {
		if !strings.Contains(a.out, want) {
			t.Errorf("%q is not in:\n%s", want, a.out)
		}
	}
	if strings.Contains(a.out, "bracket round") {
		t.Error("a seam that is one bend as a whole has a line of its own")
	}
	for _, name := range []string{"box of plate", "hollow section", "bracket"} {
		if _, err := os.Stat(filepath.Join(dir, "profile", name+".svg")); err != nil {
			t.Error(err)
		}
	}
}

// Exit code 2: one message in words, and nothing is written.
func TestPlanOfUnusableInput(t *testing.T) {
	dir := t.TempDir()
	lay(t, filepath.Join(dir, "broken.yaml"), "seamwright: [1\nname: a\n")
	lay(t, filepath.Join(dir, "empty.yaml"), "")
	good := copied(t, "", "")
	badArm := copied(t, "", "")
	lay(t, filepath.Join(filepath.Dir(badArm), "arm_a.urdf"), "<robot")
	noArm := copied(t, "", "")
	if err := os.Remove(filepath.Join(filepath.Dir(noArm), "arm_a.urdf")); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string // after plan; -o DIR is added where the row does not say it
		want string   // start of the message, after the program's name
	}{
		{"no job", nil, "name one job document, such as job.yaml; found 0 names\n"},
		{"two jobs", []string{good, good}, "name one job document, such as job.yaml; found 2 names\n"},
		{"empty name", []string{""}, "name one job document, such as job.yaml; found an empty name\n"},
		{"empty folder name", []string{good, "-o", ""}, "say where the plan goes: -o DIR, an empty or a new folder\n"},
		{"unknown flag", []string{good, "--fast"}, "unknown flag: --fast\n"},
		{"unknown units", []string{good, "--units", "cubit"}, `"cubit" is not a system of units: allowed are metric and inch-pound` + "\n"},
		{"missing file", []string{filepath.Join(dir, "gone.yaml")}, `gone.yaml: found "gone.yaml", which cannot be opened (no such file or directory); allowed: `},
		{"a folder", []string{dir}, filepath.Base(dir) + `: found "` + filepath.Base(dir) + `", which cannot be read (is a directory)`},
		{"broken YAML", []string{filepath.Join(dir, "broken.yaml")}, "broken.yaml:2:1: found text that is not YAML ("},
		{"empty file", []string{filepath.Join(dir, "empty.yaml")}, "empty.yaml:1:1: found an empty file; allowed: "},
		{"missing arm", []string{noArm}, `s1.yaml:4:13: arm.urdf: found "arm_a.urdf", which cannot be opened (no such file or directory); allowed: a URDF file that can be read`},
		{"broken arm", []string{badArm}, "arm_a.urdf:1:7: file: found broken XML: unexpected EOF; allowed: "},
		{"unknown link", []string{copied(t, "flange_link: flange", "flange_link: hand")}, `s1.yaml:4:55: arm.flange_link: found "hand"; allowed: a link of arm_a.urdf: base, link1,`},
		{"misspelt field", []string{copied(t, "retreat: W1", "retreet: W1")}, "s1.yaml:"},
		{"unit missing", []string{copied(t, "leg: 5 mm", "leg: 5")}, "s1.yaml:34:17: seams[0].weld.leg: found \"5\" (it has no unit); allowed: a length in mm, cm, m, in or ft; write the unit, such as \"5 mm\" or \"5 in\"\n"},
		{"two mistakes", []string{copied(t, "leg: 5 mm}\n    settings: 11", "leg: 5}\n    settings: 99")}, "s1.yaml:34:17: seams[0].weld.leg: found \"5\" (it has no unit); allowed: a length in mm, cm, m, in or ft; write the unit, such as \"5 mm\" or \"5 in\"\ns1.yaml:35:15: seams[0].settings: found \"99\", which is no settings set; allowed: one of 3, 11,"},
	} {
		t.Run(c.name, func(t *testing.T) {
			parent := t.TempDir()
			out := filepath.Join(parent, "out")
			args := append([]string{"plan"}, c.args...)
			if !strings.Contains(strings.Join(args, " "), " -o") {
				args = append(args, "-o", out)
			}
			a := call(args...)
			if a.code != exitUnusable || a.out != "" {
				t.Errorf("exit code %d, output %q", a.code, a.out)
			}
			if !strings.HasPrefix(a.errors, "seamwright: "+c.want) || !strings.HasSuffix(a.errors, "\n") {
				t.Errorf("got  %q\nwant %q", a.errors, "seamwright: "+c.want)
			}
			wantPlan(t, out, false)
		})
	}
}

func TestPlanNeedsAFolder(t *testing.T) {
	a := call("plan", scenario("s1.yaml"))
	if want := "seamwright: say where the plan goes: -o DIR, an empty or a new folder\n"; a.code != exitUnusable || a.errors != want || a.out != "" {
		t.Errorf("got %+v, want %q", a, want)
	}
}

// A folder that cannot take the plan is told before the planning begins, which
// a cancelled context shows: planning would end by it.
func TestFolderIsLookedAtBeforePlanning(t *testing.T) {
	parent := t.TempDir()
	lay(t, filepath.Join(parent, "notes.txt"), "mine")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	a := callWith(ctx, "plan", scenario("s1.yaml"), "-o", parent)
	want := "seamwright: " + parent + " holds files that are not a plan's (notes.txt); name an empty or a new folder\n"
	if a.code != exitUnusable || a.errors != want {
		t.Errorf("got %+v, want %q", a, want)
	}
	if b, err := os.ReadFile(filepath.Join(parent, "notes.txt")); err != nil || string(b) != "mine" {
		t.Errorf("the user's file holds %q, %v", b, err)
	}
}

// Cancelled before or in the middle, a run writes nothing and says so.
func TestCancelledPlanWritesNothing(t *testing.T) {
	job := filepath.Join(twentySeams(t), "job.yaml")
	begun := time.Now()
	if a := call("plan", job, "-o", filepath.Join(t.TempDir(), "out")); a.code != exitFit {
		t.Fatalf("got %+v", a)
	}
	whole := time.Since(begun)
	cancelled := 0
	for _, share := range []float64{0, 0.1, 0.2, 0.4, 0.6} {
		ctx, cancel := context.WithCancel(context.Background())
		if share == 0 {
			cancel()
		}
		time.AfterFunc(time.Duration(share*float64(whole)), cancel)
		dir := filepath.Join(t.TempDir(), "out")
		a := callWith(ctx, "plan", job, "-o", dir)
		switch a.code {
		case exitFit: // it was quicker than before
		case exitUnusable:
			cancelled++
			if a.out != "" || a.errors != "seamwright: cancelled; nothing was written\n" {
				t.Errorf("cancelled at %.0f %%: got %+v", share*100, a)
			}
		default:
			t.Errorf("cancelled at %.0f %%: exit code %d", share*100, a.code)
		}
		wantPlan(t, dir, a.code == exitFit)
		cancel()
	}
	if cancelled < 2 {
		t.Errorf("only %d of 5 runs were cancelled in time", cancelled)
	}
}

// explosive stands for a mistake of the program.
type explosive struct{}

func (explosive) Write([]byte) (int, error) { panic("out of range") }

func TestPanicIsCaught(t *testing.T) {
	var errs bytes.Buffer
	code := run(context.Background(), []string{"orient"}, explosive{}, &errs)
	if code != exitUnusable {
		t.Errorf("exit code %d", code)
	}
	for _, want := range []string{"seamwright: a mistake of this program, not of your files: out of range\n", "Please report it"} {
		if !strings.Contains(errs.String(), want) {
			t.Errorf("%q is not in:\n%s", want, errs.String())
		}
	}
}

// The whole table of a worked case, read by eye when it was written.
func TestPlanTable(t *testing.T) {
	for _, c := range []struct {
		file string
		args []string
	}{
		{"s1.txt", nil},
		{"s1_inch.txt", []string{"--units", "inch"}},
	} {
		t.Run(c.file, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "out")
			a := call(append([]string{"plan", scenario("s1.yaml"), "-o", dir}, c.args...)...)
			if a.code != exitFit || a.errors != "" {
				t.Fatalf("exit code %d, %q", a.code, a.errors)
			}
			got := strings.ReplaceAll(a.out, dir, "DIR")
			name := filepath.Join("testdata", c.file)
			if *update {
				lay(t, name, got)
			}
			want, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("got:\n%s\nwant:\n%s", got, want)
			}
		})
	}
}

func TestHelpAndUnknownVerbs(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		out  string
		errs string
	}{
		{nil, exitFit, "It plans and checks; it never moves an arm.", ""},
		{[]string{"--help"}, exitFit, "Usage:\n  seamwright", ""},
		{[]string{"plan", "--help"}, exitFit, "Exit code 0: fit. 1: planned, but findings stop it. 2: the input cannot be used.", ""},
		{[]string{"weld"}, exitUnusable, "", "seamwright: unknown command \"weld\" for \"seamwright\"\n"},
		{[]string{"--weld"}, exitUnusable, "", "seamwright: unknown flag: --weld\n"},
	} {
		a := call(c.args...)
		if a.code != c.code || !strings.Contains(a.out, c.out) || a.errors != c.errs {
			t.Errorf("%q: got %+v", c.args, a)
		}
	}
}
