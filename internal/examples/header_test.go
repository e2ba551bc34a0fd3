package examples

import (
	"math"
	"slices"
	"testing"

	"seamwright/bench/job"
)

// header is what the README of the header stand promises, seam by seam as they
// are welded. Lengths are of the invented drawing.
var header = []struct {
	name   string
	length float64 // mm
	throat float64 // mm
}{
	{"W1 part 1", 260, 5 / math.Sqrt2}, {"W1 part 2", 520 - 260 + 12, 5 / math.Sqrt2},
	{"W2 left", 170, 5 / math.Sqrt2}, {"W2 right", 170, 5 / math.Sqrt2},
	{"W3", 60, 3}, {"W3 2", 60, 3}, {"W3 3", 60, 3},
	{"W4", 2*(160+100) - 8*20 + 2*math.Pi*20 + 15, 5 / math.Sqrt2},
	{"W5", math.Pi*48.3 + 12, 5 / math.Sqrt2},
	{"W6", roundSaddle(114.3/2, 42.4/2) + 10, 0},
	{"W7", 70 + 80, 5 / math.Sqrt2}, {"W8 stitch 1", 35, 5 / math.Sqrt2}, {"W8 stitch 2", 35, 5 / math.Sqrt2},
	{"W9", 110 * 84 * degree, 3}, {"W10", math.Pi * 40, 3},
}

// roundSaddle is the length, mm, of the line where a branch of radius r (mm) meets
// a run of radius R (mm) square to it, their axes crossing: points
// (r cos a, r sin a, sqrt(R2 - r2 sin2 a)). Elementary geometry.
func roundSaddle(run, branch float64) float64 {
	const steps = 20000
	at := func(k int) (x, y, z float64) {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / steps)
		return branch * cos, branch * sin, math.Sqrt(run*run - branch*branch*sin*sin)
	}
	length := 0.0
	for k := range steps {
		x, y, z := at(k)
		u, v, w := at(k + 1)
		length += math.Hypot(math.Hypot(u-x, v-y), w-z)
	}
	return length
}

func TestHeaderStandIsWhatItSays(t *testing.T) {
	_, p := planned(t, "header-stand")
	if len(p.Seams) != len(header) {
		t.Fatalf("%d seams, want %d", len(p.Seams), len(header))
	}
	for i, want := range header {
		s := &p.Seams[i]
		if s.Name != want.name {
			t.Errorf("seam %d is %s, want %s", i, s.Name, want.name)
		}
		// Touches are up to 0.4 mm off at both ends of a side.
		if math.Abs(s.Length*1e3-want.length) > 1 {
			t.Errorf("%s is %.1f mm long, want %.1f mm", s.Name, s.Length*1e3, want.length)
		}
		if throat := s.Passes[0].Size.Throat * 1e3; want.throat > 0 && math.Abs(throat-want.throat) > 0.01 {
			t.Errorf("%s has throat %.2f mm, want %.2f mm", s.Name, throat, want.throat)
		}
	}
}

// TestExamplesShowEveryPath holds that every form of a path, and all that makes
// several seams of one, can be looked up in an example.
func TestExamplesShowEveryPath(t *testing.T) {
	shown := map[string]bool{}
	for _, name := range jobs {
		j, err := job.Decode("job.yaml", inFolder("../../examples/"+name))
		if err != nil {
			t.Fatal(err)
		}
		for i := range j.Seams {
			for field := range j.Seams[i].Fields {
				shown[field] = true
			}
		}
	}
	wanted := []string{"line", "arc", "circle", "polyline", "sides", "spline", "meeting", "tube_on_plate", "saddle",
		"radius", "plane", "corners", "closed", "start_at", "overlap", "mirror", "repeat", "split", "split.tie_in"}
	for _, field := range slices.DeleteFunc(wanted, func(f string) bool { return shown[f] }) {
		t.Errorf("no example shows %s", field)
	}
}
