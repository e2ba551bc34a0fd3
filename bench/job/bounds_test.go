package job_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"seamwright/bench/job"
)

// Hostile and merely huge files are answered in words and in little time.
func TestHugeFilesAreBounded(t *testing.T) {
	var rows strings.Builder
	for i := range 20001 {
		fmt.Fprintf(&rows, "P%d,%d.5,2,3,4,5,6\n", i, i)
	}
	many := func(item string, n int) string { return strings.Repeat(item, n) }
	for _, c := range []struct{ name, file, text, want string }{
		{"bytes", "job.yaml", many("# comment\n", 30000), "job.yaml: found \"job.yaml\" with more than 262144 bytes; allowed: a file of that size at most; check that it is the right file, and split it"},
		{"fields", "job.yaml", many("a: b\n", 40000), "more than 10000 fields"},
		{"unknown fields", "job.yaml", many("sea{i}: b\n", 9000), "the field a second time"},
		{"open brackets", "job.yaml", many("[", 200000), "more than 24 levels"},
		{"dashes", "job.yaml", many("- ", 100000), "more than 24 levels"},
		{"indents", "job.yaml", indents(600), "more than 24 levels"},
		{"seams", "job.yaml", "seams:\n" + many("- {}\n", 45000), "a list of 45000"},
		{"labels", "job.yaml", "seams:\n- circle: [" + many("a,", 120000) + "a]\n", "a list of 120001"},
		{"one long text", "job.yaml", "name: " + many("x", 200000) + "\n", "a text of 200000 characters"},
		{"one long name", "job.yaml", many("x", 200000) + ": 1\n", "a field that does not exist here"},
		{"question marks", "job.yaml", many("? ", 100000), "more than 24 levels"},
		{"colons", "job.yaml", many("a: ", 80000), "more than 10000 fields"},
		{"rows", "taught.csv", "label,x,y,z,r1,r2,r3\n" + rows.String(), "more than 20000 rows"},
		{"columns", "taught.csv", "label," + many("j1,", 50000) + "x\n", "50002 columns"},
		{"table bytes", "taught.csv", many("# comment\n", 900000), "with more than 8388608 bytes"},
	} {
		m := small(t)
		m[c.file] = c.text
		began := time.Now()
		_, err := job.Decode("job.yaml", m)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %.300v, want %q in it", c.name, err, c.want)
		}
		const patience = 15 * time.Second // a second or two on a quiet machine
		if d := time.Since(began); d > patience {
			t.Errorf("%s took %v", c.name, d)
		} else {
			t.Logf("%s: %v", c.name, d)
		}
	}
}

// indents returns a mapping with so many levels.
func indents(levels int) string {
	var b strings.Builder
	for i := range levels {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// A leg within bounds is read as written, in any unit; outside it is refused.
func TestLegBounds(t *testing.T) {
	base := small(t)
	rapid.Check(t, func(r *rapid.T) {
		si := rapid.Float64Range(-0.1, 0.1).Draw(r, "leg")
		u := rapid.SampledFrom([]string{"mm", "cm", "m", "in"}).Draw(r, "unit")
		scale := map[string]float64{"mm": 1e-3, "cm": 1e-2, "m": 1, "in": 0.0254}[u]
		m := memory{}
		for name, text := range base {
			m[name] = strings.Replace(text, "leg: 5 mm", fmt.Sprintf("leg: %.12f %s", si/scale, u), 1)
		}
		j, err := job.Decode("job.yaml", m)
		switch {
		case si >= 0.00101 && si <= 0.0499:
			if err != nil || math.Abs(j.Seams[0].Weld.LegBase-si) > 1e-11 {
				r.Fatalf("%v %s: got %v, %v", si/scale, u, j, err)
			}
		case (si <= 0.00099 || si >= 0.0501) && (err == nil || !strings.Contains(err.Error(), "allowed: 1 mm to 50 mm")):
			r.Fatalf("%v %s: got %v", si/scale, u, err)
		}
	})
}

// Poses come out of the frame in which they were measured wherever the base
// stands: a point's distance from another never changes.
func TestFramesKeepDistances(t *testing.T) {
	base := small(t)
	rapid.Check(t, func(r *rapid.T) {
		n := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(r, name) }
		frame := rapid.SampledFrom([]string{"base", "world", "part"}).Draw(r, "frame")
		pose := func() string {
			return fmt.Sprintf("{at: [%.3f mm, %.3f mm, %.3f mm], orientation: moving z-y-x degrees, turn: [%.3f, %.3f, %.3f]}",
				n("x", -1e3, 1e3), n("y", -1e3, 1e3), n("z", -1e3, 1e3), n("a", -180, 180), n("b", -89, 89), n("c", -180, 180))
		}
		m := memory{"arm.urdf": base["arm.urdf"], "settings.yaml": base["settings.yaml"], "taught.csv": base["taught.csv"]}
		m["job.yaml"] = strings.Replace(base["job.yaml"], "measured_in: base", "measured_in: "+frame, 1) +
			"cell: {world_from_base: " + pose() + ", world_from_part: " + pose() + "}\n"
		j, err := job.Decode("job.yaml", m)
		if err != nil {
			r.Fatal(err)
		}
		a, b := j.Points[0].Pose, j.Points[1].Pose
		if d := a.P.Sub(b.P).Norm(); math.Abs(d-0.3) > 1e-12 {
			r.Fatalf("the points are %v m apart, want 0.3", d)
		}
		if frame == "base" && math.Abs(a.P.X-0.4302) > 1e-15 {
			r.Fatalf("a point in the base moved to %v", a.P)
		}
		if frame == "world" { // back into the world it must be what was typed
			if w := j.Cell.WorldFromBase.Mul(a).P; math.Abs(w.X-0.4302)+math.Abs(w.Y+0.2299)+math.Abs(w.Z-0.034) > 1e-12 {
				r.Fatalf("in the world at %v", w)
			}
		}
	})
}

func BenchmarkDecode(b *testing.B) {
	m := small(b)
	for b.Loop() {
		if _, err := job.Decode("job.yaml", m); err != nil {
			b.Fatal(err)
		}
	}
}
