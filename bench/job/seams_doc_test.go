package job_test

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"

	"seamwright/bench/job"
)

// fences returns the pieces of YAML in a page of the documentation.
func fences(t *testing.T, file string) []string {
	t.Helper()
	page, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var pieces []string
	for _, after := range strings.Split(string(page), "```yaml\n")[1:] {
		piece, _, closed := strings.Cut(after, "```\n")
		if !closed {
			t.Fatalf("%s: a piece that does not end", file)
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

// TestSeamsPageIsReadable decodes the pieces of docs/seams.md as one document and
// holds that it shows every form of a path.
func TestSeamsPageIsReadable(t *testing.T) {
	m := small(t)
	head, _, _ := strings.Cut(m["job.yaml"], "home: home")
	var rows strings.Builder
	for i, label := range strings.Split("ABCDEFG", "") {
		fmt.Fprintf(&rows, "    - {label: %s, place: [%d, %d, 0]}\n", label, 400+40*i, 10*i*i)
	}
	members, seams := "", ""
	for _, piece := range fences(t, "../../docs/seams.md") {
		if strings.HasPrefix(piece, "members:") {
			members += piece
			continue
		}
		seams += piece
	}
	m["job.yaml"] = head + rows.String() + members + "home: home\nsettings: {file: settings.yaml}\n" +
		"defaults: {torch: {travel: push 10 deg, spin: free}, settings: 11}\nseams:\n" + seams
	j, err := job.Decode("job.yaml", m)
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, m["job.yaml"])
	}
	shown := map[job.PathKind]bool{}
	for i := range j.Seams {
		shown[j.Seams[i].Path] = true
	}
	if len(shown) != 9 {
		t.Errorf("%d forms of a path are shown, want 9: %v", len(shown), shown)
	}
}

// TestPagesNameEveryField holds that the pages of the document name every field
// that the schema has.
func TestPagesNameEveryField(t *testing.T) {
	var pages strings.Builder
	for _, file := range []string{"../../docs/schema/job.md", "../../docs/seams.md", "../../docs/procedures.md", "../../docs/heat.md", "../../docs/clearance.md"} {
		page, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		pages.Write(page)
	}
	var s map[string]any
	if err := json.Unmarshal(job.Schema(), &s); err != nil {
		t.Fatal(err)
	}
	said := pages.String()
	var walk func(at string, s any)
	walk = func(at string, s any) {
		switch s := s.(type) {
		case []any:
			for _, x := range s {
				walk(at, x)
			}
		case map[string]any:
			properties, _ := s["properties"].(map[string]any)
			for name, x := range properties {
				if !strings.Contains(said, "`"+name+"`") && !strings.Contains(said, "`"+at+"."+name+"`") && !strings.Contains(said, name+": ") {
					t.Errorf("no page names %s.%s", at, name)
				}
				walk(name, x)
			}
			for key, x := range s {
				if key != "properties" {
					walk(at, x)
				}
			}
		}
	}
	walk("", s)
}
