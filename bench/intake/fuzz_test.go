package intake_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"seamwright/bench/intake"
)

// FuzzRead answers every question with its first choice: no table may panic,
// ask without end, or become points that the strict form loses.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"label,x,y,z,r1,r2,r3\nW1 start,430.2,-229.9,34.0,139.8,-9.0,36.0\n",
		"home;0;-60;90;0;60;0\nW1;430,2;-229,9;34,0;139,8;-9,0;36,0\n", "430,2, -229,9, 34,0\n", "1,250;2,300;3,400\n",
		"W1 root 1 430.2 -229.9 34.0 # on the root\n", "#1,1,2,3\n#2,2,3,4\n", "x [mm]\ty/m\tz (in)\tqw qx\n1\t2\t3\n",
		"\xff\xfe1\x00;\x002\x00;\x003\x00", "\"a\"\"b\",1,2,3\n\"", "|1|2|3|\n", "x=1 y=2 z=3\n", "A;1 mm;2 in;3 rad\n",
		"label,x,y,z,r1,r2,r3,j1,j2,j3,j4,j5,j6\nA,1,2,3,4,5,6,1,2,3,4,5,6\n", "a;1;2;3;1;0;0;0;1;0;0;0;1\n", "\x00\x00", "% 1 2 3\n",
		"W1 start\nX 430.2 mm RX 139.8\nY -229.9 RY -9\nZ 34 RZ 36\n", "Point 1\nJ1: 0  J2: -25  J3: 10\nJ4: 0 J5: 65 J6: 0\n", "1 s x=1 y=2 z=3\n1 e x=2 y=3 z=4\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		known := intake.Known{Reach: 1, Answers: intake.Answers{}}
		for range 200 {
			table, questions, err := intake.Read(data, known)
			if err != nil {
				return
			}
			if len(questions) > 0 {
				for _, q := range questions {
					if q.Text == "" || len(q.Choices) == 0 || q.Default >= len(q.Choices) {
						t.Fatalf("a question that cannot be answered: %+v", q)
					}
				}
				known.Answers[questions[0].ID] = questions[0].Choices[0].Value
				continue
			}
			points, _ := intake.Apply(table)
			intake.Suspicions(points, table.Stated)
			intake.Canonical(points, table.Stated)
			return
		}
		if strings.Count(string(data), "\n") < 100 {
			t.Fatalf("questions without end: %q", data)
		}
	})
}

// oneSeam writes a seam of many points.
func oneSeam(count int) []byte {
	var b bytes.Buffer
	for i := range count {
		fmt.Fprintf(&b, "W1 root %d;%d,5;-200;30;139,8;-9,0;36,0\n", i, 400+i%300)
	}
	return b.Bytes()
}

// A table at the bounds is read in a bounded time.
func TestLargeTables(t *testing.T) {
	var rows bytes.Buffer
	for i := range 15000 {
		fmt.Fprintf(&rows, "W%d start;%.1f;%.1f;%.1f;139,8;-9,0;36,0\n", i, 400+float64(i%300), -200+float64(i%100), 30.0)
	}
	for name, data := range map[string][]byte{
		"many rows":        bytes.ReplaceAll(rows.Bytes(), []byte("."), []byte(",")),
		"one long line":    bytes.Repeat([]byte("1,"), 500000),
		"one long field":   bytes.Repeat([]byte("7"), 1<<20),
		"many blank lines": append(bytes.Repeat([]byte("\n"), 1<<20), "1;2;3\n"...),
		"many quotes":      bytes.Repeat([]byte(`"`), 1<<20),
		"many comments":    bytes.Repeat([]byte("# 1 2 3\n"), 100000),
		"many marks":       bytes.Repeat([]byte("1,2;3\t4 | 5\n"), 80000),
		"one long seam":    oneSeam(15000),
	} {
		begun := time.Now()
		known := intake.Known{Answers: intake.Answers{"measured_in": "base", "point": "tip", "length": "mm", "orientation": "fixed x-y-z degrees"}}
		if table, _, err := intake.Read(data, known); err == nil && table.Open == 0 {
			points, _ := intake.Apply(table)
			intake.Suspicions(points, table.Stated)
		}
		took := time.Since(begun)
		t.Logf("%s: %v", name, took)
		if took > 10*time.Second { // far above what it takes, far below hanging
			t.Errorf("%s took %v", name, took)
		}
	}
}

func TestBounds(t *testing.T) {
	wide := strings.Repeat("1;", intake.MaxColumns+3) + "1\n"
	long := strings.Repeat("1;2;3\n", intake.MaxRows+1)
	for name, c := range map[string]struct{ data, want string }{
		"nothing":        {"", "the table is empty: paste or hand over at least one row with a position or joint values"},
		"blanks":         {" \n\t\n", "the table is empty: paste or hand over at least one row with a position or joint values"},
		"bytes":          {strings.Repeat("1", intake.MaxBytes+1), "the table has 2097153 bytes, allowed are 2097152: hand over the points alone, or split the table"},
		"columns":        {wide, "line 1 has more than 64 fields: hand over the columns of the points alone"},
		"rows":           {long, "the table has more than 20000 rows: split it"},
		"not text":       {"1;2;3\x00\x00\x01", "the table has zero bytes: it is not text; save it as CSV or plain text and hand over that file"},
		"half character": {"\xff\xfe1", "the UTF-16 text ends in the middle of a character: copy or save the table again"},
	} {
		if _, _, err := intake.Read([]byte(c.data), intake.Known{}); err == nil || err.Error() != c.want {
			t.Errorf("%s: got %v, want %s", name, err, c.want)
		}
	}
}

// An unread table and one with open questions give no points.
func TestApplyNeedsAnswers(t *testing.T) {
	if points, problems := intake.Apply(intake.Table{}); points != nil || len(problems) != 1 {
		t.Errorf("got %v, %v", points, problems)
	}
	table, questions, err := intake.Read([]byte("A;430.2;1;2\n"), intake.Known{})
	if err != nil || len(questions) == 0 || table.Open != len(questions) {
		t.Fatalf("got %v, %v, %d", questions, err, table.Open)
	}
	if points, problems := intake.Apply(table); points != nil || len(problems) != 1 || !strings.Contains(problems[0].Found, "open question") {
		t.Errorf("got %v, %v", points, problems)
	}
}

func BenchmarkRead(b *testing.B) {
	var rows bytes.Buffer
	for i := range 60 {
		fmt.Fprintf(&rows, "W%d start;%d,2;-229,9;34,0;139,8;-9,0;36,0\n", i, 400+i)
	}
	known := intake.Known{Reach: 1, Answers: intake.Answers{"measured_in": "base", "point": "tip", "length": "mm", "orientation": "fixed x-y-z degrees"}}
	for b.Loop() {
		if _, _, err := intake.Read(rows.Bytes(), known); err != nil {
			b.Fatal(err)
		}
	}
}
