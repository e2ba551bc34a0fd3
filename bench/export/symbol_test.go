package export_test

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/job"
	"seamwright/bench/plan"
)

// withSymbol plans a worked case with other words in place of its leg of 5 mm.
func withSymbol(t *testing.T, code, words string) (*job.Job, *plan.Plan) {
	t.Helper()
	dir := filepath.Join("..", "plan", "testdata", "scenarios")
	work := t.TempDir()
	for _, name := range []string{"s5.yaml", "settings.yaml", "arm_a.urdf"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		if name == "s5.yaml" {
			text = strings.NewReplacer("code: iso", "code: "+code, "weld: {leg: 5 mm}", words).Replace(text)
		}
		if err := os.WriteFile(filepath.Join(work, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	j, err := job.Decode("s5.yaml", files(work))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Make(context.Background(), j, nil)
	if err != nil {
		t.Fatal(err)
	}
	return j, p
}

// TestSymbolInThePlan: text, reading and drawing of the symbol that the job gives, or
// that its size makes.
func TestSymbolInThePlan(t *testing.T) {
	const atTheSeam = "made from the size in the job"
	for _, row := range []struct {
		name, code, words      string
		text, from, side       string
		caption, written, read string
	}{
		{"the drawing's", "aws", "symbol: 'fillet 5, both sides, tail \"GMAW/see <3>\"'\n    side: other",
			`AWS A2.4: z5 both sides, tail "135/see <3>"`, "drawing", "other side", "this seam: other side", ">GMAW/see &lt;3&gt;<", "both sides: fillet, leg 5 mm (throat 3.54 mm at 90 degrees between the plates); a fillet's figure without a letter is its leg by this standard"},
		{"stitches", "aws", "symbol: '5 fillet, arrow side, 60-150'",
			"AWS A2.4: z5 arrow side, 60 pitch 150", "drawing", "arrow side", "this seam: arrow side", ">60-150<", "  by ISO 2553 the same 150 mm would be the clear gap: a pitch of 210 mm, less weld"},
		{"of a leg", "iso", "weld: {leg: 5 mm}",
			"ISO 2553-A: z5 arrow side", "size", "arrow side", atTheSeam, ">z5<", "arrow side: fillet, leg 5 mm (throat 3.54 mm at 90 degrees between the plates)"},
		{"of a throat and stitches", "iso", "weld: {throat: 4 mm}\n    stitches: {length: 60 mm, gap: 90 mm, count: 9}",
			"ISO 2553-A: a4 arrow side, 9 x 60 (90)", "size", "arrow side", atTheSeam, ">9 × 60<", "arrow side: fillet, throat 4 mm (leg 5.66 mm at 90 degrees between the plates)"},
		{"none of a throat in AWS", "aws", "weld: {throat: 4 mm}", "", "", "", "", "", ""},
		{"none of stitches without their number", "iso", "weld: {leg: 5 mm}\n    stitches: {length: 60 mm, gap: 90 mm}", "", "", "", "", "", ""},
		{"none of an area", "iso", "weld: {area: 14 mm2}", "", "", "", "", "", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			j, p := withSymbol(t, row.code, row.words)
			out := filepath.Join(t.TempDir(), "out")
			for range 2 { // the second replaces the first
				if err := writePlan(out, j, p); err != nil {
					t.Fatal(err)
				}
			}
			data, err := os.ReadFile(filepath.Join(out, export.PlanFile))
			if err != nil {
				t.Fatal(err)
			}
			var d struct {
				Seams []struct {
					Symbol *struct {
						Text, From, Side, Drawing string
						Reading                   []string
					}
				}
			}
			if err := json.Unmarshal(data, &d); err != nil {
				t.Fatal(err)
			}
			got := d.Seams[0].Symbol
			if row.text == "" {
				if _, err := os.Stat(filepath.Join(out, export.SymbolDir)); got != nil || err == nil {
					t.Errorf("got %+v, %v", got, err)
				}
				var b bytes.Buffer
				if err := export.Symbol(&b, j, &j.Seams[0]); err == nil || err.Error() != "W1 has no weld symbol" || b.Len() > 0 {
					t.Errorf("drawn: %v", err)
				}
				return
			}
			if got == nil || got.Text != row.text || got.From != row.from || got.Side != row.side || got.Drawing != "symbols/W1.svg" || !strings.Contains("\n"+strings.Join(got.Reading, "\n")+"\n", "\n"+row.read+"\n") {
				t.Fatalf("got %+v", got)
			}
			svg := wellFormed(t, filepath.Join(out, filepath.FromSlash(got.Drawing)))
			for _, text := range []string{row.written, ">" + row.caption + "<"} {
				if !strings.Contains(svg, text) {
					t.Errorf("%q is not drawn:\n%s", text, svg)
				}
			}
		})
	}
}
