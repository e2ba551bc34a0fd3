package main

import (
	"bufio"
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"
)

// What a table is understood as, read by eye when it was written: settled, with
// open questions, and pasted from a screen with a lost minus.
func TestPoints(t *testing.T) {
	slip := strings.Replace(messy, "642,5;263,8", "642,5;-263,8", 1)
	screen := "W1 start\nX   1006.5 mm   RX  164.4 deg\nY     -1.9 mm   RY  -50.1 deg\nZ    -57.5 mm   RZ   14.6 deg\n\nW1 end\nX   1030.6 mm   RX  170.7 deg\nY   -206.9 mm   RY  -45.9 deg\nZ    -53.7 mm   RZ   15.6 deg\n"
	settled := answers("measured_in=base", "point=tip", "orientation=fixed x-y-z degrees", "joint_rows=joints", "length=mm")
	for _, c := range []struct {
		file, table string
		args        []string
		code        int
	}{
		{"points.txt", messy, append(settled, "--arm", kittiwake()), exitFit},
		{"points_slip.txt", slip, settled, exitStopped},
		{"points_open.txt", screen, nil, exitStopped},
	} {
		table := filepath.Join(t.TempDir(), "frame.csv")
		lay(t, table, c.table)
		a := call(append([]string{"points", table}, c.args...)...)
		if a.code != c.code || a.errors != "" {
			t.Errorf("%s: exit code %d, %q", c.file, a.code, a.errors)
		}
		golden(t, c.file, a, filepath.Dir(table))
	}
}

// The same table on standard input, and by new --show, gives the same; nothing
// is written and nothing is asked.
func TestPointsElsewhere(t *testing.T) {
	settled := append(answers("measured_in=base", "point=tip", "orientation=fixed x-y-z degrees", "joint_rows=joints", "length=mm"), "--arm", kittiwake())
	table, job := bench(t)
	want := call(append([]string{"points", table}, settled...)...)
	_, want.out, _ = strings.Cut(want.out, "\n")
	var out, errs bytes.Buffer
	code := runAt(context.Background(), append([]string{"points", "-"}, settled...), desk{in: bufio.NewReader(strings.NewReader(messy)), out: &out, errs: &errs})
	if head, got, _ := strings.Cut(out.String(), "\n"); code != want.code || got != want.out || head != "what was pasted: 9 rows with points" {
		t.Errorf("standard input: %d, %s\n%s", code, out.String(), errs.String())
	}
	a := typing([]string{"x"}, append([]string{"new", table, "-o", job, "--show"}, settled...)...)
	if _, got, _ := strings.Cut(a.out, "\n"); a.code != want.code || got != want.out || a.errors != "" {
		t.Errorf("new --show: %+v", a)
	}
	if got := inside(t, filepath.Dir(job)); len(got) != 1 {
		t.Errorf("the folder holds %q", got)
	}
}

func TestPointsOfWhatIsNoTable(t *testing.T) {
	dir := t.TempDir()
	words := filepath.Join(dir, "words.txt")
	lay(t, words, "nothing here\n")
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{words}, "no line has 3 numbers with the same sign between them: one row a point is needed, with tabs, semicolons, commas or blanks between the values"},
		{[]string{filepath.Join(dir, "no.csv")}, "open " + filepath.Join(dir, "no.csv") + ": no such file or directory"},
		{nil, "name one table of points, such as points.csv, or - for standard input; found 0 names"},
		{[]string{words, "--answer", "x=1"}, ""},
	} {
		a := call(append([]string{"points"}, c.args...)...)
		if a.code != exitUnusable || a.out != "" || c.want != "" && a.errors != "seamwright: "+c.want+"\n" {
			t.Errorf("%q: got %+v", c.args, a)
		}
	}
}
