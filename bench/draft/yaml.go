package draft

import (
	"regexp"
	"strings"
)

// plainText is what YAML takes for a text without quotes in any place of a
// document: it begins with a letter or digit and holds no sign that YAML knows.
var plainText = regexp.MustCompile(`^[\p{L}0-9][\p{L}0-9 ./_+()°-]*$`)

// plainNumber is a number as it may stand without quotes.
var plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)

// quoted writes a text as a YAML scalar on one line.
func quoted(text string) string {
	if plainNumber.MatchString(text) {
		return text
	}
	if plainText.MatchString(text) && !strings.HasSuffix(text, " ") && !strings.EqualFold(text, "null") {
		return text
	}
	return "'" + strings.ReplaceAll(text, "'", "''") + "'"
}

// listOf writes texts as a YAML list on one line.
func listOf(texts []string) string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = quoted(t)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// page is a document while it is written: lines with comments.
type page struct{ b strings.Builder }

// commentAt is the column, in characters, beyond which a comment stands above
// its line; wide the width to which comments are filled.
const (
	commentAt = 40
	wide      = 96
)

// put writes a line with a comment behind it, or above it where it is long.
func (p *page) put(text, note string) {
	note = oneLine(note)
	indent := text[:len(text)-len(strings.TrimLeft(text, " "))]
	n := len([]rune(text))
	switch {
	case note == "":
		p.b.WriteString(text + "\n")
	case max(n, commentAt)+len([]rune(note)) <= wide:
		p.b.WriteString(text + strings.Repeat(" ", max(1, commentAt-n)) + "# " + note + "\n")
	default:
		p.say(strings.Replace(indent, "- ", "  ", 1), note)
		p.b.WriteString(text + "\n")
	}
}

// say writes a comment of its own, filled to the width.
func (p *page) say(indent, note string) {
	const least = 30 // letters of a line, however far it is indented
	width := max(wide-len(indent)-2, least)
	line := ""
	flush := func() {
		if line != "" {
			p.b.WriteString(indent + "# " + line + "\n")
		}
		line = ""
	}
	for _, word := range strings.Fields(oneLine(note)) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > width {
			flush()
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	flush()
}

// blank writes an empty line.
func (p *page) blank() { p.b.WriteString("\n") }
