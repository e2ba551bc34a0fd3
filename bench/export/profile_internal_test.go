package export

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/curve"
	"seamwright/unit"
	"seamwright/weld/seam"
)

// bentProfile is a profile with a fat sharp corner at 100 mm of 200, drawn by
// hand.
func bentProfile(name string) (*plan.Seam, *plan.Pass) {
	sample := func(arc, speed, leg, travel float64) plan.ProfileSample {
		return plan.ProfileSample{Arc: arc, Speed: speed, Leg: leg, Area: 0.55 * leg * leg, Travel: travel / deg}
	}
	p := &plan.Profile{Leg: 6e-3, LegMost: 7.5e-3, Samples: []plan.ProfileSample{
		sample(0, 6e-3, 6e-3, 10), sample(0.09, 6e-3, 6e-3, 10), sample(0.0959, 6e-3, 6e-3, -5), sample(0.096, 6e-3, 8e-3, -5),
		sample(0.1, 0, 8e-3, -12), sample(0.1, 0, 8e-3, 28), sample(0.104, 6e-3, 8e-3, 20), sample(0.1041, 6e-3, 6e-3, 20),
		sample(0.2, 6e-3, 6e-3, 10),
	}, Corners: []plan.CornerTruth{{Bend: seam.Corner{Bend: curve.Bend{From: 0.1, To: 0.1, Turn: math.Pi / 2}}, Hold: 1.5}}}
	pass := plan.Pass{Number: 1, Profile: p, Size: plan.Size{Travel: 6e-3}}
	return &plan.Seam{Name: name, Length: 0.2, Passes: []plan.Pass{pass}}, &pass
}

func drawn(t *testing.T, s *plan.Seam, pass *plan.Pass, length string) string {
	t.Helper()
	var b bytes.Buffer
	if err := Profile(&b, &job.Job{Keying: job.Keying{Length: length}}, s, pass); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// lines returns the points of every polyline of a class.
func lines(t *testing.T, svg, class string) [][][2]float64 {
	t.Helper()
	var all [][][2]float64
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "polyline" {
			continue
		}
		attr := map[string]string{}
		for _, a := range e.Attr {
			attr[a.Name.Local] = a.Value
		}
		if attr["class"] != class {
			continue
		}
		var points [][2]float64
		for _, pair := range strings.Fields(attr["points"]) {
			var p [2]float64
			if _, err := fmt.Sscanf(pair, "%g,%g", &p[0], &p[1]); err != nil {
				t.Fatal(err)
			}
			points = append(points, p)
		}
		all = append(all, points)
	}
}

// What is drawn is what the profile says: the lines at their places on the scale,
// and in the warning's colour exactly what is beyond a limit.
func TestProfileIsDrawnToScale(t *testing.T) {
	s, pass := bentProfile("W1")
	svg := drawn(t, s, pass, "mm")
	plots := lines(t, svg, "line")
	if len(plots) != 3 {
		t.Fatalf("%d lines, want leg, speed and angle", len(plots))
	}
	x := func(arc float64) float64 { return profileLeft + (profileRight-profileLeft)*arc/0.2 }
	leg := panel{top: 104, high: 160, up: 1.12 * 8}
	speed := panel{top: 306, high: 90, up: 1.3 * 6}
	travel := panel{top: 438, high: 96, low: -12 - 5, up: 28 + 5}
	for i, want := range pass.Profile.Samples {
		for k, y := range []float64{leg.y(want.Leg * 1e3), speed.y(want.Speed * 1e3), travel.y(want.Travel * deg)} {
			if p := plots[k][i]; math.Abs(p[0]-x(want.Arc)) > 0.051 || math.Abs(p[1]-y) > 0.051 {
				t.Errorf("plot %d, sample %d: drawn at %v, want %v, %v", k, i, p, x(want.Arc), y)
			}
		}
	}
	red := lines(t, svg, "over")
	if len(red) != 3 {
		t.Fatalf("%d parts are beyond a limit, want the leg's, the push's and the drag's: %v", len(red), red)
	}
	for i, limit := range []float64{leg.y(7.5), travel.y(25), travel.y(-10)} {
		for _, p := range red[i] {
			if beyond := limit - p[1]; i < 2 && beyond < 0.4 || i == 2 && beyond > -0.4 {
				t.Errorf("part %d: %v is not beyond %v", i, p, limit)
			}
		}
	}
	for _, text := range []string{">corner 100 mm<", ">arc stands 1.5 s<", ">leg, mm<", ">most at a corner<", ">along the seam, mm<", ">push 20<", "gauge a trial piece"} {
		if !strings.Contains(svg, text) {
			t.Errorf("the drawing does not say %q", text)
		}
	}
}

// In inches for a job in inches; the metal alone for a bead of a given area.
func TestProfileInItsUnits(t *testing.T) {
	s, pass := bentProfile("W1")
	svg := drawn(t, s, pass, unit.Inches.String())
	for _, text := range []string{">corner 3.9 in<", ">leg, in<", ">travel speed that the arm holds, in/min<"} {
		if !strings.Contains(svg, text) {
			t.Errorf("the drawing does not say %q", text)
		}
	}
	pass.Profile.Leg, pass.Profile.LegMost = 0, 0
	svg = drawn(t, s, pass, "mm")
	if !strings.Contains(svg, ">metal along the seam, mm2<") || strings.Contains(svg, "most at a corner") || len(lines(t, svg, "over")) != 2 {
		t.Error("the metal of an area is held against a leg")
	}
}

// Whatever a seam is called, and however many corners it has, the drawing is XML
// and no text lies over another.
func TestProfileIsReadable(t *testing.T) {
	for _, name := range []string{"W1", `<b>&"' ü 漢`, "a\x00b\xffc", strings.Repeat("long ", 60), ""} {
		s, pass := bentProfile(name)
		for i := range 40 {
			at := 0.005 * float64(i)
			pass.Profile.Corners = append(pass.Profile.Corners, plan.CornerTruth{Bend: seam.Corner{Bend: curve.Bend{From: at, To: at}}, Sharp: i, Hold: 1})
		}
		d := drawing{seam: s, pass: pass}
		lines(t, d.svg(), "line")
		for i, a := range d.sheet.words {
			for _, b := range d.sheet.words[i+1:] {
				if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
					t.Errorf("%q: %q lies over %q", name, a.text, b.text)
				}
			}
		}
	}
}

func TestTicks(t *testing.T) {
	for _, row := range []struct {
		low, high float64
		n         int
		want      []float64
	}{
		{0, 9, 5, []float64{0, 2, 4, 6, 8}},
		{0, 1, 5, []float64{0, 0.2, 0.4, 0.6, 0.8, 1}},
		{-15, 30, 5, []float64{-10, 0, 10, 20, 30}},
		{0, 0.3, 5, []float64{0, 0.1, 0.2, 0.3}},
	} {
		got := ticks(row.low, row.high, row.n)
		if len(got) != len(row.want) {
			t.Errorf("%v to %v: %v, want %v", row.low, row.high, got, row.want)
			continue
		}
		for i := range got {
			if math.Abs(got[i]-row.want[i]) > 1e-12 {
				t.Errorf("%v to %v: %v, want %v", row.low, row.high, got, row.want)
			}
		}
	}
}

func TestFileNames(t *testing.T) {
	used := map[string]bool{}
	for _, row := range [][2]string{
		{"W1", "W1"}, {"w1", "w1-2"}, {"W1", "W1-3"}, {"a/b", "a-b"}, {"../x", "-x"}, {"..", "seam"}, {"", "seam-2"},
		{"naht ü", "naht -"}, {strings.Repeat("x", 200), strings.Repeat("x", 100)}, {"con pass 2", "con pass 2"},
	} {
		if got := fileName(row[0], used); got != row[1] {
			t.Errorf("%q: file %q, want %q", row[0], got, row[1])
		}
	}
}

// A folder of drawings is replaced with its plan, and never taken away with
// anything else in it.
func TestFolderOfDrawings(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	s, pass := bentProfile("W1")
	parts := func(names ...string) []part {
		list := version(1, nil)
		for _, n := range names {
			list = append(list, part{ProfileDir + "/" + n + ".svg", func(w io.Writer) error { return Profile(w, &job.Job{}, s, pass) }})
		}
		return list
	}
	for _, names := range [][]string{{"W1", "W2"}, {"W2"}, nil, {"W3"}} {
		if err := writeFolder(dir, parts(names...)); err != nil {
			t.Fatal(err)
		}
		var want []string
		for _, n := range names {
			want = append(want, n+".svg")
		}
		if len(names) > 0 {
			wantAlone(t, filepath.Join(dir, ProfileDir), want...)
		} else if _, err := os.Stat(filepath.Join(dir, ProfileDir)); !os.IsNotExist(err) {
			t.Errorf("an empty folder of drawings stays: %v", err)
		}
		wantAlone(t, filepath.Dir(dir), "out")
	}
	mine := filepath.Join(dir, ProfileDir, "mine.svg")
	if err := os.WriteFile(mine, []byte("<svg/>"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := writeFolder(dir, parts("W1")); err == nil || !strings.Contains(err.Error(), "mine.svg") {
		t.Errorf("got %v, want a word of mine.svg", err)
	}
	if _, err := os.Stat(mine); err != nil {
		t.Error(err)
	}
}
