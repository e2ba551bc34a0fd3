package export_test

import (
	"context"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// TestDrawingsOfPasses: a seam laid in passes has its section drawn with every bead,
// and its temperatures, in well-formed SVG; a second plan replaces the folder.
func TestDrawingsOfPasses(t *testing.T) {
	dir := filepath.Join("..", "plan", "testdata", "scenarios")
	text, err := os.ReadFile(filepath.Join(dir, "s7.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	doc := strings.Replace(string(text), "weld: {area: 22 mm2}", "weld: {groove: {prep: single V, gap: 3 mm, root_face: 1.5 mm, angle: 60 deg}}\n    passes: {root: {settings: 15, area: 22 mm2}, fill: {settings: 16, area: 19 mm2}, cap: {settings: 17}}", 1)
	doc = strings.Replace(doc, "seams:\n", "heat: {interpass_max: 150 degC}\nseams:\n", 1)
	work := t.TempDir()
	for _, name := range []string{"settings.yaml", "arm_a.urdf"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(work, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(work, "job.yaml"), []byte(doc), 0o644); err != nil {
		t.Fatal(err)
	}
	j, err := job.Decode("job.yaml", files(work))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(work, "out")
	for range 2 {
		if err := writePlan(out, j, p); err != nil {
			t.Fatal(err)
		}
	}
	section := wellFormed(t, filepath.Join(out, export.SectionDir, "W1.svg"))
	if got, want := strings.Count(section, `class="run" points=`), len(p.Seams[0].Passes); got != want {
		t.Errorf("%d beads drawn, %d passes", got, want)
	}
	// Of four passes the nozzle of the one with the least room is drawn: the root's, 0.9 mm
	// from the plates' face.
	for _, text := range []string{"The nozzle is drawn to scale as pass 1 begins, which has the least room; red is its clearance.", ">0.9 mm</text>"} {
		if !strings.Contains(section, text) {
			t.Errorf("the section does not say %q", text)
		}
	}
	if got := strings.Count(section, `class="nozzle" points=`); got != 1 {
		t.Errorf("%d nozzles drawn", got)
	}
	heat := wellFormed(t, filepath.Join(out, export.HeatDir, "W1.svg"))
	for _, text := range []string{"pass 4", "most for the next pass, 150 degC", "over 800 degC", "Hot plates burn"} {
		if !strings.Contains(heat, text) {
			t.Errorf("%q is not in the drawing of temperatures", text)
		}
	}
}

// wellFormed returns a drawing, which must be XML.
func wellFormed(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(strings.NewReader(string(data))); ; {
		if _, err := d.Token(); err == io.EOF {
			return string(data)
		} else if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
}
