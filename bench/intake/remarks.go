package intake

import (
	"fmt"
	"strings"
)

// commentSigns open a line that holds no point.
var commentSigns = []string{"#", "//", "%", "!"}

// isComment reports whether a line is a comment; a semicolon opens one where it
// is not the separator.
func isComment(l line, between separator) bool {
	text := strings.TrimSpace(l.text)
	switch {
	case l.point:
		return false
	case strings.HasPrefix(text, ";"):
		return between != semicolons
	}
	return commentSign(text) != ""
}

func commentSign(text string) string {
	for _, s := range commentSigns {
		if strings.HasPrefix(text, s) {
			return s
		}
	}
	return ""
}

// uncommented takes the signs of a comment off a line.
func uncommented(text string) string { return strings.TrimLeft(text, "#/%!; \t") }

// remarks asks about lines that begin like a comment and hold a point: left out
// on purpose, or labels such as "#1". It reports whether reading can go on.
func (s *sheet) remarks(all []line) bool {
	var at []int
	for i, l := range all {
		if commentSign(strings.TrimSpace(l.text)) != "" && numbersInARow(uncommented(l.text)) >= leastNumbers {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return true
	}
	first := all[at[0]]
	q := Question{ID: "comment_rows", Default: 0,
		Text: fmt.Sprintf("Line %d begins like a comment but holds numbers: %q. Was it left out on purpose?", first.number, clip(strings.TrimSpace(first.text))),
		Choices: []Choice{
			{"leave out", "left out on purpose", fmt.Sprintf("%s like this among %d", plural(len(at), "line", "lines"), len(all))},
			{"points", "no, it is a point", ""},
		}}
	if len(at)*2 > len(all) {
		q.Default = 1
	}
	value, ok := s.ask(q)
	if ok && value == "points" {
		for _, i := range at {
			all[i].point = true
			if text := uncommented(all[i].text); text[0] < '0' || text[0] > '9' {
				all[i].text = text // else the sign belongs to a label such as "#1"
			}
		}
	}
	return ok
}

// numbersInARow counts the longest run of numbers in a text, whatever stands
// between them.
func numbersInARow(text string) int {
	most, run := 0, 0
	for _, f := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t,;|", r) }) {
		if _, ok := point.number(f); ok {
			run++
			most = max(most, run)
		} else {
			run = 0
		}
	}
	return most
}
