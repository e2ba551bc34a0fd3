package job_test

import (
	"flag"
	"os"
	"strings"
	"testing"

	"seamwright/bench/job"
)

var update = flag.Bool("update", false, "write the messages into testdata/broken.txt; read the difference before committing it")

// broken is one case of testdata/broken.txt: changes of the small document and
// the message that they must bring.
type broken struct {
	name    string
	changes []string
	want    string
}

// readBroken reads the cases. A case begins with "== name"; lines with " => "
// are changes, "file: old => new" with \n for a line end, \t for a tab, \xff for
// that byte, (nothing) and (no file); the
// others are the message.
func readBroken(t *testing.T) []broken {
	t.Helper()
	data, err := os.ReadFile("testdata/broken.txt")
	if err != nil {
		t.Fatal(err)
	}
	var cases []broken
	for _, part := range strings.Split("\n"+string(data), "\n== ")[1:] {
		lines := strings.Split(strings.TrimSpace(part), "\n")
		c := broken{name: lines[0]}
		var want []string
		for _, line := range lines[1:] {
			if strings.Contains(line, " => ") {
				c.changes = append(c.changes, line)
			} else {
				want = append(want, line)
			}
		}
		c.want = strings.Join(want, "\n")
		cases = append(cases, c)
	}
	return cases
}

// apply changes the small document.
func (c broken) apply(t *testing.T) memory {
	t.Helper()
	m := small(t)
	escapes := strings.NewReplacer(`\n`, "\n", `\t`, "\t", `\xff`, "\xff", "(nothing)", "")
	for _, change := range c.changes {
		file, edit, _ := strings.Cut(change, ": ")
		before, after, _ := strings.Cut(edit, " => ")
		before, after = escapes.Replace(before), escapes.Replace(after)
		text, ok := m[file]
		switch {
		case after == "(no file)":
			delete(m, file)
		case before == "(all)":
			m[file] = after
		case ok && strings.Contains(text, before):
			m[file] = strings.Replace(text, before, after, 1)
		default:
			t.Fatalf("%s: %q is not in %s", c.name, before, file)
		}
	}
	return m
}

// Everything that is wrong is said at once, in the order of the file.
func TestTwelveFaultsAtOnce(t *testing.T) {
	for _, c := range readBroken(t) {
		if c.name != "twelve faults at once" {
			continue
		}
		_, err := job.Decode("job.yaml", c.apply(t))
		ps, ok := err.(*job.Problems)
		if !ok || len(ps.List) != 12 || len(c.changes) != 12 {
			t.Fatalf("%d changes brought %v, want 12 problems", len(c.changes), err)
		}
		for i := 1; i < len(ps.List); i++ {
			a, b := ps.List[i-1].Place, ps.List[i].Place
			if a.File > b.File || a.File == b.File && (a.Line > b.Line || a.Line == b.Line && a.Column > b.Column) {
				t.Errorf("%v stands before %v", a, b)
			}
		}
		return
	}
	t.Fatal("the case is gone")
}

func TestManyFaultsAreCounted(t *testing.T) {
	m := small(t)
	m["taught.csv"] = "label,x,y,z,r1,r2,r3\nW1 start,1,2,3,4,5,6\nW1 end,1,2,3,4,5,7\n" + strings.Repeat("a,1,2,3,4,5,x\n", 3000)
	j, err := job.Decode("job.yaml", m)
	ps, ok := err.(*job.Problems)
	if j != nil || !ok || len(ps.List) != 50 || ps.More != 2950 {
		t.Fatalf("job %v, error %T, want 50 problems and 2950 more", j, err)
	}
	if lines := strings.Split(err.Error(), "\n"); len(lines) != 51 || lines[50] != "and 2950 more" {
		t.Errorf("%d lines, the last %q", len(lines), lines[len(lines)-1])
	}
}

func TestBrokenDocuments(t *testing.T) {
	cases := readBroken(t)
	if len(cases) < 40 {
		t.Errorf("%d cases, at least 40 wanted", len(cases))
	}
	var out strings.Builder
	for i, c := range cases {
		j, err := job.Decode("job.yaml", c.apply(t))
		got := ""
		switch {
		case err == nil:
			t.Errorf("%s: accepted", c.name)
		case j != nil:
			t.Errorf("%s: a job beside an error", c.name)
		default:
			got = err.Error()
		}
		if !*update && got != c.want {
			t.Errorf("%s:\ngot\n%s\nwant\n%s", c.name, got, c.want)
		}
		if i > 0 {
			out.WriteString("\n")
		}
		out.WriteString("== " + c.name + "\n" + strings.Join(c.changes, "\n") + "\n" + got + "\n")
	}
	if *update {
		if err := os.WriteFile("testdata/broken.txt", []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
