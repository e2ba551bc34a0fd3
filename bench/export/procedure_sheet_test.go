package export_test

import (
	"bytes"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"seamwright/bench/export"
	"seamwright/unit"
)

// grooveProcedure is an invented procedure whose texts are hostile.
const grooveProcedure = `id: "WPS-70 <script>alert('1')</script>"
revision: '"><img src=x onerror=alert(1)>'
code: iso
manufacturer: Alder & Forge </td></table>
cleaning: "{{.Job}} --> <!-- &amp; ]]>"
kinds: [groove]
positions: [PA, PF]
polarity: DCEP
ranges: {heat_input: {to: 1.3 kJ/mm}, interpass: {to: 250 degC}, travel_angle: {from: drag 5 deg, to: push 15 deg}}
runs:
  - {passes: root, name: "<b>root</b>", transfer: short-circuit, current: {from: 130 A, to: 165 A}}
  - {passes: fill, current: {to: 210 A}}
qualified_by: {record: "R <i>1</i>", process: 135, current: 215 A, voltage: 25 V, travel: 5 mm/s, tests: impact}
`

// grooveSheet is the sheet of the worked V butt by that procedure.
func grooveSheet(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, file := range []string{"s7.yaml", "arm_a.urdf", "settings.yaml"} {
		b, err := os.ReadFile(filepath.Join("../plan/testdata/scenarios", file))
		if err != nil {
			t.Fatal(err)
		}
		if file == "s7.yaml" {
			text := strings.Replace(string(b), "weld: {area: 22 mm2}", "weld: {groove: {prep: single V, gap: 3 mm, root_face: 1.5 mm, angle: 60 deg}}\n    passes: {root: {settings: 15, area: 22 mm2}, fill: {settings: 16}, cap: {settings: 17, speed: 3.8 mm/s}}", 1)
			b = []byte(strings.Replace(text, "seams:\n", "procedure: {file: wps.yaml}\nseams:\n", 1))
		}
		if err := os.WriteFile(filepath.Join(dir, file), b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "wps.yaml"), []byte(grooveProcedure), 0o644); err != nil {
		t.Fatal(err)
	}
	return sheetOf(t, planFile(t, filepath.Join(dir, "s7.yaml")))
}

func sheetOf(t *testing.T, c planned) string {
	t.Helper()
	var b bytes.Buffer
	if err := export.Procedure(&b, c.job, c.plan); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// tags are the elements of a page.
var tags = regexp.MustCompile(`<[^>]*>`)

// plainText is what a reader sees, cells apart.
func plainText(page string) string {
	_, body, _ := strings.Cut(page, "</style>")
	return html.UnescapeString(strings.Join(strings.Fields(tags.ReplaceAllString(body, " | ")), " "))
}

// The sheet says what is planned, what is allowed and what is left, pass by pass:
// 150 A in 130 to 165 leaves 15; 215 A is 5 over 210; 0.7551 kJ/mm of 1.3 leaves
// 0.545 (0.8 x 19.5 x 150/3.0988/1000, worked scenario).
func TestProcedureSheetSaysTheNumbers(t *testing.T) {
	seen := strings.ReplaceAll(plainText(grooveSheet(t)), " | ", "|")
	seen = regexp.MustCompile(`\|+`).ReplaceAllString(strings.ReplaceAll(seen, "| ", "|"), "|")
	for _, want := range []string{
		"W1 pass 1|root runs|15|150 A|130 to 165 A|15 A inside|",
		"W1 pass 2, W1 pass 3|fill runs|16|215 A|at most 210 A|5 A OUTSIDE|25 V|not stated|not checked|",
		"0.7551 kJ/mm|at most 1.3 kJ/mm|0.545 kJ/mm inside|",
		"The procedure states nothing for: W1 pass 4.",
		"travel angle|push positive|all passes|push 10 deg|drag 5 deg to push 15 deg|5 deg inside|",
		"polarity|all passes|not stated in the job|electrode positive|not checked|",
		"W1 pass 2, W1 pass 3|250 degC|at most 250 degC|0 degC inside|", "measure before each pass",
		"butt, single V, gap 3 mm, root face 1.5 mm, 60 deg, plates 10 mm and 10 mm, position PA, 4 passes",
		"4.4.4|jigging and tacks|not stated|", "4.2|manufacturer|Alder & Forge </td></table>|", "4.4.11|preheat temperature|not stated|",
		"root runs|<b>root</b>|short-circuit|130 to 165 A|", "fill runs|as for all runs|as for all runs|at most 210 A|",
		"energy per length|at most 1.075 kJ/mm|OUTSIDE: 1.3 kJ/mm|", // 1.25 x 0.8 x 25 x 215/5/1000
		"Values outside:|2|", "name|date|signature|", "responsible welding coordinator|",
	} {
		if !strings.Contains(seen, want) {
			t.Errorf("the sheet does not say %q\nin\n%s", want, seen)
		}
	}
}

// Every field of the document stands on the sheet of every example, with its value
// or "not stated".
func TestProcedureSheetHasEveryField(t *testing.T) {
	sheets := 0
	for _, c := range plannedJobs(t) {
		if len(c.job.Procedures) == 0 {
			continue
		}
		sheets++
		page := sheetOf(t, c)
		system := unit.Metric
		if c.job.Keying.Length == "in" {
			system = unit.InchPound
		}
		for i := range c.job.Procedures {
			for _, f := range c.job.Procedures[i].Fields(system) {
				value := `<span class="value open">not stated</span>`
				if f.Stated() {
					value = `<span class="value">` + html.EscapeString(f.Value) + `</span>`
				}
				if want := `<span class="name">` + f.Name + `</span>` + value; !strings.Contains(html.UnescapeString(page), html.UnescapeString(want)) {
					t.Errorf("%s: no %s on the sheet", c.name, want)
				}
			}
		}
		if !strings.Contains(page, "moving arm can injure") || page != sheetOf(t, c) {
			t.Errorf("%s: no caution, or another page the second time", c.name)
		}
	}
	if sheets < 3 {
		t.Errorf("%d jobs with procedures, want 3 or more", sheets)
	}
}

// Nothing of the user's text becomes an element; the page needs nothing from
// elsewhere and runs nothing.
func TestProcedureSheetIsClosed(t *testing.T) {
	page := grooveSheet(t)
	allowed := regexp.MustCompile(`^</?(html|head|title|style|body|article|h1|h2|p|b|i|div|span|table|thead|tbody|tr|th|td|figure|figcaption|footer|svg|polygon|text)[ >]|^<!doctype html>$|^<meta [^>]*>$|^<!-- seamwright procedure -->$`)
	_, body, _ := strings.Cut(page, "</style>")
	for _, tag := range tags.FindAllString(body, -1) {
		if !allowed.MatchString(tag) {
			t.Errorf("the page holds %q", tag)
		}
	}
	for _, bad := range []string{"<script", "<img", "onerror=alert(1)>", "http:", "https:", "url(", "@import", "href=", "<b>root"} {
		if strings.Contains(page, bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	for _, opened := range []string{"table", "tr", "td", "th", "div", "span", "article", "figure", "svg"} {
		open, closed := len(regexp.MustCompile("<"+opened+"[ >]").FindAllString(page, -1)), strings.Count(page, "</"+opened+">")
		if open != closed || open == 0 {
			t.Errorf("%d %s are opened, %d closed", open, opened, closed)
		}
	}
}

// A plan by a procedure has a sheet, one without has none; a sheet of somebody
// else's is no file of ours.
func TestProcedureSheetInTheFolder(t *testing.T) {
	without := plannedJobs(t)[0]
	with := variant(t, "with", "seams:\n", "procedure: {spec: {id: P, code: iso}}\nseams:\n")
	dir := filepath.Join(t.TempDir(), "out")
	has := func() bool { _, err := os.Stat(filepath.Join(dir, export.ProcedureFile)); return err == nil }
	for _, step := range []struct {
		c    planned
		want bool
	}{{with, true}, {without, false}, {with, true}, {with, true}} {
		if err := writePlan(dir, step.c.job, step.c.plan); err != nil {
			t.Fatal(err)
		}
		if has() != step.want {
			t.Errorf("%s: a sheet %v, want %v", step.c.name, has(), step.want)
		}
	}
	write(t, filepath.Join(dir, export.ProcedureFile), "<!doctype html>\n<title>another</title>\n")
	err := writePlan(dir, with.job, with.plan)
	if err == nil || !strings.Contains(err.Error(), "holds files that are not a plan's (procedure.html)") || !has() {
		t.Errorf("a sheet of somebody else's: %v", err)
	}
}

// Seams that are alike share a row and a drawing; their names stand together.
func TestProcedureSheetJoinsWhatIsAlike(t *testing.T) {
	for _, c := range plannedJobs(t) {
		if c.name != "header-stand" {
			continue
		}
		page := sheetOf(t, c)
		drawings, seams := strings.Count(page, "<figure>"), len(c.plan.Seams)
		if drawings == 0 || drawings >= seams {
			t.Errorf("%d drawings of %d seams", drawings, seams)
		}
		for _, s := range c.plan.Seams {
			if !strings.Contains(plainText(page), s.Name) {
				t.Errorf("no %s on the sheet", s.Name)
			}
		}
		return
	}
	t.Fatal("the example is gone")
}

// A value outside is framed and told in words.
func TestProcedureSheetFramesWhatIsOutside(t *testing.T) {
	page := sheetOf(t, variant(t, "outside", "seams:\n", "procedure: {spec: {id: P, code: iso, positions: [PA]}}\nseams:\n"))
	if !regexp.MustCompile(`<tr class="outside"><td>position</td>.*OUTSIDE`).MatchString(page) {
		t.Error("position PB in a procedure for PA is not framed")
	}
}
