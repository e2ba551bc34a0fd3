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
