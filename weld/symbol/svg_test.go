package symbol_test

import (
	"encoding/xml"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"

	"seamwright/unit"
	"seamwright/weld/symbol"
)

// draw returns the drawing of a text, read as XML.
func draw(t *testing.T, text string, u unit.System) string {
	t.Helper()
	svg, err := parse(t, text).SVG(u)
	if err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("%s: %v", text, err)
		}
	}
	return svg
}

// fillet finds the triangle of a fillet: root at the line, end of the upright,
// end of the foot.
var fillet = regexp.MustCompile(`d="M ([0-9.]+) ([0-9.]+) L ([0-9.]+) ([0-9.]+) L ([0-9.]+) ([0-9.]+) Z"/>`)

// triangle is where a fillet symbol stands.
type triangle struct{ x, y, upX, upY, footX, footY float64 }

func triangles(t *testing.T, svg string) []triangle {
	t.Helper()
	var out []triangle
	for _, m := range fillet.FindAllStringSubmatch(svg, -1) {
		var g triangle
		if _, err := fmt.Sscan(strings.Join(m[1:], " "), &g.x, &g.y, &g.upX, &g.upY, &g.footX, &g.footY); err != nil {
			t.Fatal(err)
		}
		out = append(out, g)
	}
	return out
}

// TestFilletSymbol: the upright is at the left on either side of the line, and
// each system puts the sides where its rule says (A2.4:2020 6.1 and 6.3, and
// ISO 2553 system A, READ in secondary pages).
func TestFilletSymbol(t *testing.T) {
	const above, below = -1, 1
	for _, row := range []struct {
		text string
		want []int
	}{
		{"ISO 2553-A: a5 arrow side", []int{above}},
		{"ISO 2553-A: a5 other side", []int{below}},
		{"ISO 2553-A: a5 both sides", []int{above, below}},
		{"ISO 2553-B: a5 arrow side", []int{below}},
		{"ISO 2553-B: a5 other side", []int{above}},
		{"AWS A2.4: z6 arrow side", []int{below}},
		{"AWS A2.4: z6 other side", []int{above}},
		{"AWS A2.4: z6 both sides", []int{below, above}},
	} {
		got := triangles(t, draw(t, row.text, unit.Metric))
		if len(got) != len(row.want) {
			t.Errorf("%s: %d triangles, want %d", row.text, len(got), len(row.want))
			continue
		}
		for i, g := range got {
			if g.upX != g.x || g.footX <= g.x || g.footY != g.y || (g.upY-g.y)*float64(row.want[i]) <= 0 {
				t.Errorf("%s: triangle %+v, want the upright at the left and the weld at %d", row.text, g, row.want[i])
			}
		}
	}
}

// TestDashedLine: system A has it, unless both sides are the same.
func TestDashedLine(t *testing.T) {
	for text, want := range map[string]bool{
		"ISO 2553-A: a5 arrow side":                true,
		"ISO 2553-A: a5 other side":                true,
		"ISO 2553-A: a5 both sides":                false,
		"ISO 2553-A: a5 arrow side; a4 other side": true,
		"ISO 2553-B: a5 arrow side":                false,
		"AWS A2.4: z6 other side":                  false,
	} {
		if got := strings.Contains(draw(t, text, unit.Metric), "stroke-dasharray"); got != want {
			t.Errorf("%s: dashed line %v, want %v", text, got, want)
		}
	}
}

// TestStaggeredDrawing: AWS sets the two symbols off against each other, ISO
// has a sign through the line.
func TestStaggeredDrawing(t *testing.T) {
	aws := triangles(t, draw(t, "AWS A2.4: z6 both sides, 50 pitch 100, staggered", unit.Metric))
	chain := triangles(t, draw(t, "AWS A2.4: z6 both sides, 50 pitch 100, chain", unit.Metric))
	if len(aws) != 2 || aws[0].x == aws[1].x || len(chain) != 2 || chain[0].x != chain[1].x {
		t.Errorf("staggered %+v, chain %+v", aws, chain)
	}
	iso, plain := draw(t, "ISO 2553-A: a5 both sides, 3 x 50 (100), staggered", unit.Metric), draw(t, "ISO 2553-A: a5 both sides, 3 x 50 (100)", unit.Metric)
	if got := strings.Count(iso, "<path") - strings.Count(plain, "<path"); got != 1 {
		t.Errorf("staggered has %d more strokes, want 1", got)
	}
}

// TestFigures: what is written beside the symbol.
func TestFigures(t *testing.T) {
	for _, row := range []struct {
		text  string
		units unit.System
		want  []string
	}{
		{"ISO 2553-A: a5 arrow side, 3 x 50 (100)", unit.Metric, []string{"a5", "3 × 50", "(100)"}},
		{"ISO 2553-B: z7 arrow side, length 300", unit.Metric, []string{"z7", "300"}},
		{"ISO 2553-A: s8a6 arrow side", unit.Metric, []string{"s8a6"}},
		{"ISO 2553-A: V s10 arrow side, root 0, angle 60", unit.Metric, []string{"s10", "0", "60°"}},
		{"AWS A2.4: z6 arrow side, 50 pitch 100", unit.Metric, []string{"6", "50-100"}},
		{"AWS A2.4: z6x9 arrow side", unit.Metric, []string{"6 x 9"}},
		{`AWS A2.4: z 5/16 in arrow side, 1-1/2 in pitch 6 in, tail "GMAW/WPS <7>"`, unit.InchPound, []string{"5/16", "1-1/2-6", "GMAW/WPS &lt;7&gt;"}},
		{"AWS A2.4: z7 arrow side", unit.InchPound, []string{"0.276"}},
		{"AWS A2.4: V s10 arrow side, depth 8, angle 60, contour flat, finish G", unit.Metric, []string{"8(10)", "60°", "G"}},
	} {
		svg := draw(t, row.text, row.units)
		got := regexp.MustCompile(`<text [^>]*>([^<]*)</text>`).FindAllStringSubmatch(svg, -1)
		var texts []string
		for _, g := range got {
			texts = append(texts, g[1])
		}
		for _, want := range row.want {
			if !strings.Contains("|"+strings.Join(texts, "|")+"|", "|"+want+"|") {
				t.Errorf("%s: writes %q, want %q", row.text, texts, want)
			}
		}
		if len(texts) != len(row.want) {
			t.Errorf("%s: writes %q, want %q", row.text, texts, row.want)
		}
	}
}

// TestEveryKindIsDrawn: each weld and contour adds a stroke in each system.
func TestEveryKindIsDrawn(t *testing.T) {
	for _, kind := range []string{"square", "V", "bevel", "U", "J", "flare-V", "flare-bevel"} {
		for _, system := range []string{"ISO 2553-A", "ISO 2553-B", "AWS A2.4"} {
			one, two := draw(t, system+": "+kind+" arrow side", unit.Metric), draw(t, system+": "+kind+" arrow side, contour convex", unit.Metric)
			if strings.Count(two, "<path") != strings.Count(one, "<path")+1 || strings.Contains(one, `d=""`) {
				t.Errorf("%s in %s: %d strokes, with contour %d", kind, system, strings.Count(one, "<path"), strings.Count(two, "<path"))
			}
		}
	}
	marks := draw(t, "ISO 2553-B: bevel with root face arrow side, all round, field, broken arrow", unit.Metric)
	if strings.Count(marks, "<circle") != 1 || strings.Count(marks, `fill="black"/>`) != 2 { // arrow head and flag
		t.Errorf("all round, field: %s", marks)
	}
}

func TestDrawingRefusals(t *testing.T) {
	if _, err := parse(t, "a5 arrow side").SVG(unit.Metric); err == nil || err.Error() != "weld symbol: system not stated: a symbol to draw without its system; allowed: ISO 2553-A, ISO 2553-B, AWS A2.4; name the system of the drawing" {
		t.Errorf("got %v", err)
	}
	if _, err := parse(t, "ISO-A: a5 arrow side").SVG(unit.InchPound); err == nil || err.Error() != "weld symbol: mixed code families: inches in a symbol of ISO 2553-A; allowed: mm; draw it in metric units" {
		t.Errorf("got %v", err)
	}
	if _, err := (symbol.Symbol{System: symbol.ISO2553A}).SVG(unit.Metric); err == nil || !strings.Contains(err.Error(), symbol.NoWeld) {
		t.Errorf("got %v", err)
	}
}
