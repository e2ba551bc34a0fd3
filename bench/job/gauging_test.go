package job_test

import (
	"reflect"
	"testing"

	"seamwright/bench/job"
	"seamwright/weld/accept"
)

// A table in CSV and a list in YAML say the same.
func TestGaugings(t *testing.T) {
	m := memory{
		"a.csv":  "seam,at,over,leg_base,toe_angle,length,crack,seen,step,tape_step,angle_step,travel\nW1,40 mm,20 mm,6.2 mm,120 deg,248 mm,3 mm,none,0.1 mm,1 mm,1 deg,6.8 mm/s\n\"W2 left\",,,1/4 in,,,none,,,,,\n",
		"b.yaml": "date: 2031-05-12\nstep: 0.5 mm\nreadings:\n  - {seam: W1, at: 40 mm, over: 20 mm, leg_base: 6.2 mm, toe_angle: 120 deg, length: 248 mm, crack: 3 mm, seen: none, step: 0.1 mm, tape_step: 1 mm, angle_step: 1 deg, travel: 6.8 mm/s}\n  - {seam: W2 left, leg_base: 1/4 in, crack: none}\n",
	}
	seams := []string{"W1", "W2 left"}
	a, err := job.DecodeGaugings("a.csv", m, seams, 0.0005)
	if err != nil {
		t.Fatal(err)
	}
	b, err := job.DecodeGaugings("b.yaml", m, seams, 0)
	if err != nil {
		t.Fatal(err)
	}
	if b.Date != "2031-05-12" || a.Date != "" || len(a.Rows) != 2 {
		t.Errorf("%q, %q, %d rows", a.Date, b.Date, len(a.Rows))
	}
	for i := range a.Rows {
		a.Rows[i].Place, b.Rows[i].Place = job.Place{}, job.Place{}
	}
	if !reflect.DeepEqual(a.Rows, b.Rows) {
		t.Errorf("got\n%+v\nwant\n%+v", a.Rows, b.Rows)
	}
	w1 := a.Rows[0]
	if !w1.Clean || w1.Travel != 0.0068 || len(w1.Readings) != 4 {
		t.Errorf("%+v", w1)
	}
	want := accept.Reading{Measure: accept.LegBase, Value: 0.0062, Step: 0.0001, At: 0.04, Placed: true, Extent: 0.02}
	if w1.Readings[0] != want {
		t.Errorf("got %+v, want %+v", w1.Readings[0], want)
	}
}

// Every measure of the standards has a word.
func TestEveryMeasureHasAWord(t *testing.T) {
	seen := map[accept.Measure]bool{}
	for _, w := range job.GaugeWords() {
		if seen[w.Measure] || w.Measure.String() == "measure not stated" {
			t.Errorf("%s", w.Word)
		}
		seen[w.Measure] = true
	}
	for m := accept.LegBase; m <= accept.UnfilledCrater; m++ {
		if known := m.String() != "measure not stated"; known != seen[m] {
			t.Errorf("%v: a word %v", m, seen[m])
		}
	}
}

func FuzzGaugings(f *testing.F) {
	f.Add("seam,leg_base,step\nW1,6 mm,0.1 mm\n", true)
	f.Add("seam,seam\n\"", true)
	f.Add("readings:\n  - {seam: W1, crack: none}\n", false)
	f.Fuzz(func(t *testing.T, text string, csv bool) {
		name := "r.yaml"
		if csv {
			name = "r.csv"
		}
		g, err := job.DecodeGaugings(name, memory{name: text}, []string{"W1"}, 0)
		if (g == nil) == (err == nil) {
			t.Fatalf("%v, %v", g, err)
		}
		if err != nil {
			return
		}
		for _, row := range g.Rows {
			for _, r := range row.Readings {
				if !r.Measure.Seen() && !(r.Step > 0) || row.Seam != "W1" {
					t.Fatalf("%+v", row)
				}
			}
		}
	})
}
