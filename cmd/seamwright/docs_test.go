package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"seamwright/bench/draft"
)

// docs/points.md lists every question by its name, and no other.
func TestDocsListEveryQuestion(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", "docs", "points.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, below, begins := strings.Cut(string(text), "Questions about the table:")
	tables, _, ends := strings.Cut(below, "\n## ")
	if !begins || !ends {
		t.Fatal("the tables of questions are gone")
	}
	var listed []string
	for _, row := range regexp.MustCompile("(?m)^\\| ((?:`[a-z_.]+`(?:, )?)+) \\|.*$").FindAllStringSubmatch(tables, -1) {
		for _, name := range strings.Split(row[1], ", ") {
			listed = append(listed, strings.Trim(name, "`"))
		}
	}
	for _, flagged := range []string{"settings_file", "procedure_file"} {
		if strings.Contains(tables, "`"+flagged+"`") {
			listed = append(listed, flagged)
		}
	}
	for _, id := range draft.IDs() {
		if !slices.Contains(listed, id) {
			t.Errorf("%s is not listed", id)
		}
	}
	for _, id := range listed {
		if !draft.Known(id) {
			t.Errorf("%s is listed and no question", id)
		}
	}
}

// The examples of the pages that show calls are what the program answers. A call
// stands after "$ " in a block of the console, run from the root of the project.
func TestDocsShowWhatIsAnswered(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	for _, page := range []string{"quote.md", "gauge.md", "clearance.md"} {
		name := filepath.Join("docs", page)
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		blocks := strings.Split(string(data), "```console\n")
		if len(blocks) < 2 {
			t.Errorf("%s shows no call", page)
		}
		for i, block := range blocks[1:] {
			_, after, ends := strings.Cut(block, "```\n")
			if !ends {
				t.Fatalf("%s: a block that does not end", page)
			}
			shown := strings.TrimSuffix(block, "```\n"+after)
			got := answered(t, shown)
			if *update {
				blocks[i+1] = got + "```\n" + after
			} else if got != shown {
				t.Errorf("%s shows\n%s\nthe program answers\n%s", page, shown, got)
			}
		}
		if *update {
			lay(t, name, strings.Join(blocks, "```console\n"))
		}
	}
}

// answered runs the calls of a block and returns the block with their answers.
func answered(t *testing.T, block string) string {
	t.Helper()
	var out strings.Builder
	for line := range strings.Lines(block) {
		words, isCall := strings.CutPrefix(line, "$ seamwright ")
		if !isCall {
			continue
		}
		a := call(arguments(words)...)
		if a.code == exitUnusable {
			t.Errorf("%q: %s", line, a.errors)
		}
		out.WriteString(line + a.out)
	}
	return out.String()
}

// arguments splits a call as a shell does, with double quotes.
func arguments(line string) []string {
	var out []string
	for i, part := range strings.Split(strings.TrimSpace(line), "\"") {
		if i%2 == 1 {
			out = append(out, part)
		} else {
			out = append(out, strings.Fields(part)...)
		}
	}
	return out
}
