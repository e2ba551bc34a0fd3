package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// gaugeJob writes an invented job of one seam of 400 mm and returns its name:
// code, what it is accepted by, and the rest of the seam.
func gaugeJob(t *testing.T, code, acceptance, seam string) string {
	t.Helper()
	arm, err := filepath.Abs(filepath.Join("..", "..", "examples", "arms", "kittiwake.urdf"))
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "job.yaml")
	lay(t, name, fmt.Sprintf(`seamwright: 1
name: Gate stop
revision: A
code: %s
arm: {urdf: %s, base_link: base, flange_link: flange}
torch: {body: 215 mm, neck: 118 mm, neck_angle: 35 deg, nozzle: 20 mm, tip_recess: 2 mm, stick_out: 14 mm}
points:
  measured_in: base
  point: tip
  length: mm
  orientation: fixed x-y-z degrees
  joints: deg
  rows:
    - {label: home, joints: [0, -60, 90, 0, 60, 0]}
    - {label: a, place: [700, -200, 0]}
    - {label: b, place: [700, 200, 0]}
home: home
settings: {sets: [{id: 11, process: 135, transfer: spray, wire: 1.2 mm, feed: 8 m/min, efficiency: 97 percent, convexity: 1.1}]}
%s
seams:
  - {name: W1, line: [a, b], base: level, settings: 11, torch: {travel: push 10 deg}, %s}
`, code, arm, acceptance, seam))
	return name
}

// tee is the rest of a tee seam with a size and plates of a thickness in mm.
func tee(weld string, thickness float64) string {
	return fmt.Sprintf("joint: tee, upright: left, thickness: {base: %g mm, upright: %g mm}, weld: %s", thickness, thickness, weld)
}

var columns = regexp.MustCompile(`  +`)

// row returns the cells of the verdict on an imperfection.
func row(t *testing.T, out, name string) []string {
	t.Helper()
	for line := range strings.Lines(out) {
		if cells := columns.Split(strings.TrimSpace(line), -1); cells[0] == name && len(cells) > 3 {
			return cells
		}
	}
	t.Fatalf("no verdict on %s in\n%s", name, out)
	return nil
}

// V094 to V101 of the reference page through files and command: the source stands
// in each row. A reading has a step of 0.1 mm.
func TestGaugeOnReferenceLimits(t *testing.T) {
	level := func(edition, level string) string {
		return fmt.Sprintf("acceptance: {standard: ISO 5817:%s, level: %s}", edition, level)
	}
	const groove = "joint: butt, thickness: {base: 10 mm}, weld: {groove: {prep: single V, gap: 2 mm, root_face: 1 mm, angle: 60 deg}}"
	const aws = "acceptance: {standard: AWS D1.1:2020, load: static}"
	for _, c := range []struct {
		name, code, acceptance, seam, readings string // readings: columns, then values
		imperfection, verdict, limit, source   string
	}{
		{"V094", "iso", level("2023", "C"), tee("{throat: 5 mm}", 8), "convexity,face\n2.3 mm,10 mm", "excessive convexity", "accepted", "2.5 mm", "ISO 5817:2023 Table 1, 503, level C, as a public extract has it (read)"},
		{"V095", "iso", level("2023", "B"), tee("{throat: 5 mm}", 8), "undercut\n0.5 mm", "undercut", "REJECTED", "0.4 mm", "ISO 5817:2023 Table 1, 5011, level B, as a public extract has it (read)"},
		{"V096", "iso", level("2023", "C"), tee("{throat: 5 mm}", 8), "throat,at,over\n4.3 mm,100 mm,20 mm", "insufficient throat", "accepted", "0.8 mm", "ISO 5817:2023 Table 1, 5213, level C, as a public extract has it (read)"},
		{"V097", "iso", level("2023", "B"), tee("{throat: 6 mm}", 8), "leg_base,leg_upright\n8 mm,10.6 mm", "unequal legs", "REJECTED", "2.4 mm", "ISO 5817:2023 Table 1, 512, level B, as a public extract has it (read)"},
		{"V098 of 2023", "iso", level("2023", "C"), groove, "root_excess,root_width\n3 mm,4 mm", "excess penetration", "REJECTED", "2.8 mm", "ISO 5817:2023 Table 1, 504, level C, as a public extract has it (read)"},
		{"V098 of 2014", "iso", level("2014", "C"), groove, "root_excess,root_width\n3 mm,4 mm", "excess penetration", "accepted", "3.4 mm", "ISO 5817:2014 Table 1, 504, level C, as a public extract has it (read)"},
		{"V099", "aws", aws, tee("{leg: 8 mm}", 12), "leg_base,at,over\n5.2 mm,100 mm,32 mm", "undersize", "accepted", "3 mm", "AWS D1.1:2020 Table 8.1, item 6 (read)"},
		{"V100", "aws", aws, tee("{leg: 8 mm}", 12), "undercut,at,over\n1.5 mm,100 mm,40 mm", "undercut", "accepted", "2 mm", "AWS D1.1:2020 Table 8.1, item 7 (read)"},
		{"V101", "iso", "acceptance: {standard: ISO 5817:2023, execution: EXC2}", tee("{throat: 5 mm}", 8), "overlap,face\n1.8 mm,10 mm", "overlap", "accepted", "2 mm", "ISO 5817:2023 Table 1, 506, level D, as a public extract has it (read)"},
		{"half a step from the limit", "iso", level("2023", "C"), tee("{throat: 5 mm}", 8), "undercut\n0.5 mm", "undercut", "UNDECIDED", "0.5 mm", "ISO 5817:2023 Table 1, 5011, level C, as a public extract has it (read)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := gaugeJob(t, c.code, c.acceptance, c.seam)
			heads, values, _ := strings.Cut(c.readings, "\n")
			table := filepath.Join(filepath.Dir(job), "readings.csv")
			lay(t, table, "seam,step,"+heads+"\nW1,0.1 mm,"+values+"\n")
			a := call("gauge", job, table, "--date", "2031-05-12", "--no-learning")
			if a.code != exitStopped || a.errors != "" { // never 0: most was not read
				t.Fatalf("exit code %d: %s", a.code, a.errors)
			}
			cells := row(t, a.out, c.imperfection)
			if cells[1] != c.verdict || cells[3] != c.limit || cells[len(cells)-1] != c.source {
				t.Errorf("got %q, want %s, %s, %s", cells, c.verdict, c.limit, c.source)
			}
			if !strings.Contains(a.out, "It does not replace visual testing by a qualified inspector") || !strings.Contains(a.out, "not read, so not passed: ") {
				t.Errorf("the sheet passes for more than it is:\n%s", a.out)
			}
		})
	}
}

// The trade's number: z got 5.5, wanted 6.0: 0.84 of the speed, (5.5/6)^2.
func TestGaugeCorrectsTheSpeed(t *testing.T) {
	job := gaugeJob(t, "iso", "", tee("{leg: 6 mm}", 8))
	a := call("gauge", job, "--seam", "W1", "--leg", "5.5 mm, 5.5 mm", "--step", "0.1 mm", "--travel", "10 mm/s", "--feed", "9 m/min", "--date", "2031-05-12", "--no-learning")
	want := "  speed: leg 5.5 mm at 10.00 mm/s where 6.0 mm is wanted: 0.84 times the speed, 8.40 mm/s\n"
	if a.code != exitStopped || !strings.Contains(a.out, want) || !strings.Contains(a.out, "NOT JUDGED: the job has no acceptance") {
		t.Errorf("%+v", a)
	}
	a = call("gauge", job, "--seam", "W1", "--leg", "6.9 mm, 5.3 mm", "--step", "0.1 mm", "--date", "2031-05-12", "--no-learning")
	if !strings.Contains(a.out, "shift it 0.8 mm towards the upright, offset -0.8 mm") || !strings.Contains(a.out, "within what this gauge can tell: leave it") {
		t.Errorf("%s", a.out)
	}
}

// keelCopy lays the worked example into a new folder and returns the folder.
func keelCopy(t *testing.T) string {
	t.Helper()
	root := t.TempDir()
	for _, from := range []string{"arms", "keel-cradle"} {
		if err := os.CopyFS(filepath.Join(root, from), os.DirFS(filepath.Join("..", "..", "examples", from))); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(root, "keel-cradle")
}

// edited replaces a piece of a file.
func edited(t *testing.T, name, old, new string) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), old) {
		t.Fatalf("%s does not hold %q", name, old)
	}
	lay(t, name, strings.Replace(string(data), old, new, 1))
}

// The whole way: gauge, learn, plan with it, gauge again.
func TestGaugeTeachesThePlan(t *testing.T) {
	dir := keelCopy(t)
	job, readings, learned := filepath.Join(dir, "job.yaml"), filepath.Join(dir, "readings.csv"), filepath.Join(dir, "learned.yaml")
	a := call("gauge", job, readings, "--date", "2031-05-12")
	if a.code != exitStopped || a.errors != "" {
		t.Fatalf("%+v", a)
	}
	sameAsFile(t, "gauge.txt", strings.ReplaceAll(a.out, dir, "DIR"))
	first := fileText(t, dir, "learned.yaml")
	sameAsFile(t, "learned.yaml", first)
	if got := inside(t, dir); strings.Contains(strings.Join(got, " "), "-new-") {
		t.Errorf("the folder holds %q", got)
	}
	// Entered again, nothing changes, to the byte.
	if a = call("gauge", job, readings, "--date", "2031-05-12"); !strings.Contains(a.out, "entered before and not counted again") || fileText(t, dir, "learned.yaml") != first {
		t.Errorf("a second run changes the file:\n%s", a.out)
	}
	// The plan takes it only where the job says so.
	out := filepath.Join(t.TempDir(), "plan")
	if a = call("plan", job, "-o", out, "-q"); strings.Contains(a.out, "settings-learned") {
		t.Errorf("planned with what was learned without being told:\n%s", a.out)
	}
	edited(t, job, "home: home\n", "home: home\nlearned: learned.yaml\n")
	if a = call("plan", job, "-o", out, "-q"); a.code != exitFit || !strings.Contains(a.out, "NOTE  settings set 5 is planned with what 3 gauge readings taught") {
		t.Fatalf("%+v", a)
	}
	// The next day's readings are added below the others.
	a = call("gauge", job, "--seam", "W3", "--leg", "5 mm, 5 mm", "--step", "0.1 mm", "--date", "2031-05-13")
	second := fileText(t, dir, "learned.yaml")
	if a.code != exitStopped || !strings.Contains(a.out, "Settings set 5, 4 readings that count, 1 new") {
		t.Errorf("%+v", a)
	}
	for line := range strings.Lines(first) {
		if strings.HasPrefix(line, "      - {") && !strings.Contains(second, line) {
			t.Errorf("a reading is gone: %s", line)
		}
	}
	if strings.Count(second, "      - {") != strings.Count(first, "      - {")+1 {
		t.Errorf("got\n%s", second)
	}
	// An outlier is told and does not count.
	a = call("gauge", job, "--seam", "W3", "--leg", "6.5 mm, 6.5 mm", "--step", "0.1 mm", "--date", "2031-05-13")
	if !strings.Contains(a.out, "  OUTLIER  W3: its legs hold 1.69 times the metal that this set has laid so far") || !strings.Contains(fileText(t, dir, "learned.yaml"), "left_out: ") || !strings.Contains(a.out, "4 readings that count, 0 new") {
		t.Errorf("%s", a.out)
	}
	// Another file, and today's date.
	other := filepath.Join(dir, "other.yaml")
	before := time.Now().Format(time.DateOnly)
	a = call("gauge", job, "--seam", "W3", "--leg", "5 mm, 5 mm", "--step", "0.1 mm", "--learned", other)
	kept, after := fileText(t, dir, "other.yaml"), time.Now().Format(time.DateOnly)
	if !strings.Contains(kept, "{date: "+before) && !strings.Contains(kept, "{date: "+after) || !strings.Contains(a.out, "Kept in "+other) {
		t.Errorf("%s", a.out)
	}
	// A file of something else is neither read nor written over.
	lay(t, learned, "sets: []\n")
	if a = call("gauge", job, readings, "--date", "2031-05-12"); a.code != exitUnusable || fileText(t, dir, "learned.yaml") != "sets: []\n" {
		t.Errorf("%+v", a)
	}
}

// A weld of which everything was read and is good passes, and only that.
func TestGaugeAcceptsWhatIsRead(t *testing.T) {
	job := gaugeJob(t, "iso", "acceptance: {standard: ISO 5817:2014, level: C}", tee("{throat: 4 mm}", 8))
	all := "date: 2031-05-12\nstep: 0.1 mm\ntape_step: 1 mm\nangle_step: 1 deg\nreadings:\n" +
		"  - {seam: W1, at: 40 mm, leg_base: 5.8 mm, leg_upright: 5.9 mm, throat: 4.3 mm, convexity: 0.4 mm, undercut: 0.2 mm, toe_angle: 120 deg}\n" +
		"  - {seam: W1, length: 401 mm, pore: 0 mm, crater: 0 mm, overlap: 0 mm, misalignment: 0 mm, root_gap: 0 mm, seen: none}\n"
	table := filepath.Join(filepath.Dir(job), "readings.yaml")
	lay(t, table, all)
	a := call("gauge", job, table, "--no-learning")
	if a.code != exitFit || !strings.Contains(a.out, "\nACCEPTED as read\nArithmetic on the readings") || strings.Contains(a.out, "not read") {
		t.Errorf("%+v", a)
	}
	lay(t, table, strings.Replace(all, "undercut: 0.2 mm", "undercut: 0.7 mm", 1))
	a = call("gauge", job, table, "--no-learning")
	if a.code != exitStopped || !strings.Contains(a.out, "\nREJECTED: W1 undercut\n") {
		t.Errorf("%+v", a)
	}
	lay(t, table, strings.Replace(all, ", overlap: 0 mm", "", 1))
	a = call("gauge", job, table, "--no-learning")
	if a.code != exitStopped || !strings.Contains(a.out, "\nNOT ACCEPTED YET: W1 1 not read\n") {
		t.Errorf("%+v", a)
	}
}

func TestGaugeOfBadInput(t *testing.T) {
	job := gaugeJob(t, "iso", "acceptance: {standard: ISO 5817:2014, level: C}", tee("{throat: 4 mm}", 8))
	in := func(name, text string) string {
		path := filepath.Join(filepath.Dir(job), name)
		lay(t, path, text)
		return path
	}
	one := func(more ...string) []string { return append([]string{job, "--seam", "W1"}, more...) }
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"nothing", nil, "name one job document, such as job.yaml"},
		{"a job alone", []string{job}, `name a file of readings, or give one weld: --seam W1 --leg "6.2 mm, 5.8 mm" --step "0.1 mm"`},
		{"file and flags", []string{job, "r.csv", "--seam", "W1"}, "give a file of readings, or one weld by flags, not both; --step and --date go with either"},
		{"no such seam", []string{job, "--seam", "W9", "--leg", "5 mm, 5 mm", "--step", "0.1 mm"}, `--seam W9: no seam of the job is called "W9"; seams are W1`},
		{"no reading", one("--step", "0.1 mm"), "give a reading, such as --leg, --throat or --undercut"},
		{"no step", one("--leg", "5 mm, 5 mm"), `give the step of the gauge, for a reading is no finer: --step "0.1 mm"`},
		{"one leg", one("--leg", "5 mm", "--step", "0.1 mm"), `--leg: "5 mm" is one length; give the leg on the base plate and that on the upright, such as --leg "6.2 mm, 5.8 mm"`},
		{"no unit", one("--throat", "4", "--step", "0.1 mm"), `--throat: "4" is not a length: it has no unit; allowed: mm, cm, m, in, ft; write the unit, such as "4 mm" or "4 in"`},
		{"below 0", one("--undercut", "-1 mm", "--step", "0.1 mm"), `--undercut: "-1 mm": 0 or more is allowed`},
		{"something seen", one("--seen", "crack"), `--seen: "crack"; write none where nothing was seen, and the rest into a file of readings`},
		{"date", one("--leg", "5 mm, 5 mm", "--step", "0.1 mm", "--date", "12.5.2031"), `--date: "12.5.2031" is no date; write year-month-day, such as 2031-05-12`},
		{"table", []string{job, in("a.csv", "seam,leg_base,step\nW1,5,0.1 mm\nW2,5 mm,0.1 mm\nW1,,0.1 mm\nW1,5 mm,\n")}, strings.Join([]string{
			`a.csv:2:4: leg_base: found "5" (it has no unit); allowed: a length in mm, cm, m, in or ft; write the unit, such as "5 mm" or "5 in"`,
			`a.csv:3:1: seam: found "W2", which is no seam of the job; allowed: one of W1; write one of these names, or add the seam of the job`,
			`a.csv:4:1: found a row without a reading; allowed: what was read, such as leg_base: 6.2 mm, or seen: none; add what was read, or delete the row`,
			`a.csv:5:1: step: found no step for leg on the base plate; allowed: the step of the tool, for a reading is no finer; add step: 0.1 mm to the row, or for all rows`}, "\n")},
		{"columns", []string{job, in("b.csv", "seam,leg_bas,step,step\nW1,5 mm,0.1 mm,\n")}, "b.csv:1:6: leg_bas: found a column that does not exist here; allowed: seam, at, over, travel, feed, seen, leg_base, leg_upright, throat, face, convexity, undercut, overlap, length, pitch, excess, root_excess, root_width, underfill, root_hollow, toe_angle, misalignment, root_gap, pore, crater, pores_25, pores_300, crack, crater_crack, lack_of_fusion, burn_through, stray_arc, spatter, unfilled_crater, step, tape_step, angle_step; did you mean \"leg_base\"?\nb.csv:1:19: step: found the column a second time; allowed: each column once; rename or delete one of the two"},
		{"no rows", []string{job, in("c.csv", "seam,throat,step\n")}, "c.csv:1:1: found no rows below the names of the columns; allowed: at least one reading; add what was read"},
		{"empty", []string{job, in("d.csv", "")}, "d.csv:1:1: found an empty file; allowed: a first row with the names of the columns; write seam,at,leg_base,leg_upright,throat,step above the rows"},
		{"semicolons", []string{job, in("e.csv", "seam;throat;step\nW1;4 mm;0.1 mm\n")}, "e.csv:1:1: found columns divided by semicolons or tabs; allowed: commas between columns, points for decimals; save the file as CSV with commas"},
		{"too many values", []string{job, in("g.csv", "seam,throat,step\nW1,4 mm,0.1 mm,1 mm\n")}, "g.csv:2:1: found 4 values; allowed: 3 values, as many as there are columns; delete commas; decimals take a point, not a comma"},
		{"yaml", []string{job, in("f.yaml", "step: 0.1 mm\nreadings:\n  - {seam: W1, leg_base: 5 mm, crack: some}\n  - {seam: W1, length: 400 mm}\n")}, strings.Join([]string{
			`f.yaml:3:39: readings[0].crack: found "some" (it does not begin with a number); allowed: none, or how long it is, as a length in mm, cm, m, in or ft; write a number and a unit, such as "6 mm"`,
			`f.yaml:4:5: readings[1].tape_step: found no step for length; allowed: the step of the tool, for a reading is no finer; add tape_step: 1 mm to the row, or for all rows`}, "\n")},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := call(append([]string{"gauge"}, c.args...)...)
			if a.code != exitUnusable || a.out != "" || a.errors != "seamwright: "+c.want+"\n" {
				t.Errorf("got %d, %q\n%s\nwant\n%s", a.code, a.out, a.errors, c.want)
			}
		})
	}
	if got := inside(t, filepath.Dir(job)); strings.Contains(strings.Join(got, " "), learnedName) {
		t.Errorf("something was learned: %q", got)
	}
}
