package drawings

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"seamwright/unit"
	"seamwright/weld/symbol"
)

// symbolFolder is where docs/symbols.md looks for its drawings, and symbolPage that
// page.
const (
	symbolFolder = folder + "symbols/"
	symbolPage   = "../../docs/symbols.md"
)

// picture is one symbol that the page shows, as text and by its file.
type picture struct{ text, file string }

// elementary lists the elementary symbols, with the figures that go with them, in the
// systems that have them: a row of the page's table for each.
func elementary(t *testing.T) [][]picture {
	t.Helper()
	var rows [][]picture
	for _, row := range []struct{ kind, iso, aws string }{
		{"fillet", "a5", "6"},
		{"square", "square s6 | root 2", "square (6) | root 2"},
		{"v", "V s10 | root 2, angle 60", "V 8(10) | root 2, angle 60"},
		{"bevel", "bevel s8 | root 2, angle 45", "bevel 6(8) | root 2, angle 45"},
		{"u", "U s10 | root 2, angle 20", "U 8(10) | root 2, angle 20"},
		{"j", "J s8 | root 2, angle 20", "J 6(8) | root 2, angle 20"},
		{"flare-v", "flare-V s6", "flare-V (6)"},
		{"flare-bevel", "flare-bevel s6", "flare-bevel (6)"},
		{"v-root-face", "V with root face s8 | root 2, angle 60", ""},
		{"bevel-root-face", "bevel with root face s8 | root 2, angle 45", ""},
	} {
		cells := []picture{}
		for _, system := range []struct{ words, file, weld string }{
			{"ISO-A", "iso-a", row.iso}, {"ISO-B", "iso-b", row.iso}, {"AWS", "aws", row.aws},
		} {
			if system.weld == "" {
				cells = append(cells, picture{})
				continue
			}
			size, rest, figures := strings.Cut(system.weld, " | ")
			text := system.words + ": " + size + " arrow side"
			if figures {
				text += ", " + rest
			}
			cells = append(cells, picture{text, row.kind + "-" + system.file + ".svg"})
		}
		rows = append(rows, cells)
	}
	return rows
}

// composed lists symbols with what else they carry.
func composed() []picture {
	return []picture{
		{"ISO-A: a5 other side", "other-side-iso-a.svg"},
		{"ISO-A: a5 both sides", "both-sides-iso-a.svg"},
		{"ISO-A: a5 arrow side; a3 other side", "two-welds-iso-a.svg"},
		{"AWS: 6 both sides", "both-sides-aws.svg"},
		{"ISO-A: a5 arrow side, 3 x 60 (90)", "stitches-iso-a.svg"},
		{"AWS: 6 arrow side, 60-150", "stitches-aws.svg"},
		{"ISO-A: a5 both sides, 3 x 60 (90), staggered", "staggered-iso-a.svg"},
		{"AWS: 6 both sides, 60-150, staggered", "staggered-aws.svg"},
		{"ISO-A: s8a6 arrow side, all round", "all-round-iso-a.svg"},
		{`ISO-A: a5 arrow side, field, tail "135/ISO 5817-C/PB"`, "field-tail-iso-a.svg"},
		{`AWS: 6 arrow side, contour flat, finish G, tail "GMAW"`, "finish-aws.svg"},
		{"ISO-A: a5 arrow side, contour toes blended", "toes-iso-a.svg"},
		{"AWS: bevel arrow side, root 2, angle 45, broken arrow; 6 other side", "broken-arrow-aws.svg"},
	}
}

// rows writes the tables of the page.
func tableRows(t *testing.T) []string {
	t.Helper()
	show := func(p picture) string {
		if p.file == "" {
			return "none: V or bevel with its depth"
		}
		return fmt.Sprintf("![%s](img/symbols/%s)<br>`%s`", strings.ReplaceAll(p.text, `"`, ""), p.file, p.text)
	}
	var out []string
	for _, row := range elementary(t) {
		out = append(out, fmt.Sprintf("| %s | %s | %s |", show(row[0]), show(row[1]), show(row[2])))
	}
	for _, p := range composed() {
		out = append(out, fmt.Sprintf("| %s | `%s` |", strings.TrimSuffix(show(p), "<br>`"+p.text+"`"), p.text))
	}
	return out
}

// TestSymbolsAreCurrent draws every symbol of the page again and compares it with its
// file; nothing else may lie there.
func TestSymbolsAreCurrent(t *testing.T) {
	var kept []string
	for _, p := range slices.Concat(append(elementary(t), composed())...) {
		if p.file == "" {
			continue
		}
		kept = append(kept, p.file)
		s, err := symbol.Parse(p.text)
		if err != nil {
			t.Fatal(err)
		}
		svg, err := s.SVG(unit.Metric)
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := errors.Join(os.MkdirAll(symbolFolder, 0o755), os.WriteFile(symbolFolder+p.file, []byte(svg), 0o644)); err != nil {
				t.Fatal(err)
			}
		}
		if file, err := os.ReadFile(symbolFolder + p.file); err != nil || string(file) != svg {
			t.Errorf("%s differs from what the code draws (%v): run go test ./internal/drawings -update and look at it", p.file, err)
		}
	}
	files, err := filepath.Glob(symbolFolder + "*")
	if err != nil || len(files) != len(kept) {
		t.Errorf("%d files for %d symbols, %v", len(files), len(kept), err)
	}
}

// TestSymbolPageShowsEverySymbol: the tables of the page are these rows.
func TestSymbolPageShowsEverySymbol(t *testing.T) {
	page, err := os.ReadFile(symbolPage)
	if err != nil {
		t.Fatal(err)
	}
	rows := tableRows(t)
	if got := strings.Count(string(page), "](img/symbols/"); got != strings.Count(strings.Join(rows, ""), "](img/symbols/") {
		t.Errorf("the page shows %d symbols", got)
	}
	for _, row := range rows {
		if !strings.Contains(string(page), row+"\n") {
			t.Errorf("%s lacks\n%s", symbolPage, row)
		}
	}
}

// TestEveryElementarySymbolIsShown: no kind of weld is left out of the table.
func TestEveryElementarySymbolIsShown(t *testing.T) {
	seen := map[symbol.Kind]bool{}
	for _, row := range elementary(t) {
		s, err := symbol.Parse(row[0].text)
		if err != nil {
			t.Fatal(err)
		}
		seen[s.Arrow.Kind] = true
	}
	for k := symbol.Fillet; k <= symbol.BevelRootFace; k++ {
		if !seen[k] {
			t.Errorf("%v is not shown", k)
		}
	}
}
