package drawings

import (
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the drawings instead of comparing them")

// folder is where the documents look for the drawings.
const folder = "../../docs/img/"

// drawings lists them all by file name.
func drawings() map[string]*sheet {
	return map[string]*sheet{
		"frames.svg":    frames(),
		"tip.svg":       tip(),
		"work.svg":      work(),
		"travel.svg":    travel(),
		"spin.svg":      spin(),
		"seam.svg":      seam(),
		"positions.svg": positions(),
		"stitches.svg":  stitches(),
		"law.svg":       law(),
	}
}

func TestDrawingsAreCurrent(t *testing.T) {
	for name, s := range drawings() {
		t.Run(name, func(t *testing.T) {
			if *update {
				if err := os.WriteFile(folder+name, []byte(s.svg()), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			file, err := os.ReadFile(folder + name)
			if err != nil {
				t.Fatal(err)
			}
			if string(file) != s.svg() {
				t.Errorf("docs/img/%s differs from what the code draws: run go test ./internal/drawings -update and look at it", name)
			}
		})
	}
}

func TestDrawingsAreXML(t *testing.T) {
	for name, s := range drawings() {
		d := xml.NewDecoder(strings.NewReader(s.svg()))
		for {
			_, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
	}
}

func TestDocumentsShowEveryDrawing(t *testing.T) {
	var text string
	for _, page := range []string{"conventions.md", "seams.md", "motion.md"} {
		data, err := os.ReadFile("../../docs/" + page)
		if err != nil {
			t.Fatal(err)
		}
		text += string(data)
	}
	for name := range drawings() {
		if !strings.Contains(text, "img/"+name) {
			t.Errorf("none of docs/conventions.md, docs/seams.md and docs/motion.md shows img/%s", name)
		}
	}
}
