package intake

import (
	"fmt"
	"slices"
	"strings"
)

// record is a line with a point, cut into cells.
type record struct {
	line  int
	cells []string
	roles []role // of each cell; shared by rows of one layout
	note  string // comment behind the values
	apart bool   // joint values under the heads of poses: units of heads do not count
}

// sheet is the table while it is read.
type sheet struct {
	*desk
	known   Known
	dialect dialect
	heads   []head // of each column; empty texts where there are none
	headed  bool
	records []record
	width   int

	quaternion bool         // heads name w, x, y and z
	wordy      []bool       // columns that hold words in most rows
	taken      map[int]bool // columns in which some rows have a position
	stated     Words
	problems   []Problem
}

// headLines is how many lines down the heads of columns are looked for.
const headLines = 30

// cut fills heads and records from the lines.
func (s *sheet) cut(all []line) error {
	firstPoint := slices.IndexFunc(all, func(l line) bool { return s.isPoint(l) })
	if firstPoint < 0 {
		return fmt.Errorf("no line has %d numbers: one row a point is needed, with x, y, z or joint values", leastNumbers)
	}
	at := s.findHeads(all, firstPoint)
	for i, l := range all {
		if isComment(l, s.dialect.between) || i == at || s.headed && s.isHead(all[at], l) {
			continue
		}
		if err := s.add(l, i < firstPoint); err != nil {
			return err
		}
	}
	return nil
}

func (s *sheet) numbersIn(fields []string) int {
	n := 0
	for _, f := range fields {
		if _, ok := s.dialect.decimal.number(f); ok {
			n++
		}
	}
	return n
}

func (s *sheet) isPoint(l line) bool {
	return !isComment(l, s.dialect.between) && s.numbersIn(s.dialect.between.split(l.text)) >= leastNumbers
}

// isHead reports whether a line repeats the heads, as in a table pasted twice.
func (s *sheet) isHead(heads, l line) bool {
	return strings.TrimSpace(heads.text) == strings.TrimSpace(l.text)
}

// findHeads looks for the line with the heads of the columns above the first
// point; -1 where there is none. It may be written as a comment.
func (s *sheet) findHeads(all []line, firstPoint int) int {
	for i := max(0, firstPoint-headLines); i < firstPoint; i++ {
		heads := s.readHeads(uncommented(all[i].text))
		known := 0
		for _, h := range heads {
			if h.counts() {
				known++
			}
		}
		if known >= leastNumbers {
			s.heads, s.headed = heads, true
			s.settle("heads", fmt.Sprintf("line %d holds the heads of the columns", all[i].number), fmt.Sprintf("%d known words, such as %q", known, firstKnown(heads)), Stated)
			s.unitsBelow(all[i+1 : firstPoint])
			return i
		}
	}
	return s.unknownHeads(all, firstPoint)
}

// unknownHeads takes the line just above the first point as heads where it has
// a word above each number.
func (s *sheet) unknownHeads(all []line, firstPoint int) int {
	i := firstPoint - 1
	if i < 0 || isComment(all[i], s.dialect.between) {
		return -1
	}
	cells := s.dialect.between.split(all[firstPoint].text)
	heads := s.readHeads(all[i].text)
	if len(heads) < len(cells) {
		return -1
	}
	for k, c := range cells {
		if _, ok := s.dialect.decimal.number(c); ok && heads[k].text == "" {
			return -1
		}
	}
	s.heads, s.headed = heads, true
	s.settle("heads", fmt.Sprintf("line %d holds the heads of the columns", all[i].number), "it has a word above each number", OnlyOne)
	return i
}

func firstKnown(heads []head) string {
	i := slices.IndexFunc(heads, head.counts)
	return heads[i].text
}

// readHeads cuts a line into heads. Between blanks a unit in brackets belongs
// to the word before it.
func (s *sheet) readHeads(text string) []head {
	var fields []string
	if s.dialect.between == blanks {
		for _, f := range quoted(text, " ") {
			if n := len(fields); n > 0 && f != "" && strings.ContainsAny(f[:1], "[(") {
				fields[n-1] += " " + f
				continue
			}
			fields = append(fields, f)
		}
	} else {
		fields = s.dialect.between.headSplit(text)
	}
	var heads []head
	for _, f := range fields {
		heads = append(heads, readHead(f))
	}
	return heads
}

// headSplit cuts heads: no decimal stands between them.
func (s separator) headSplit(text string) []string {
	if s == commaBlank || s == pairs {
		s = commas
	}
	return s.split(text)
}

// unitsBelow reads a line of units just under the heads.
func (s *sheet) unitsBelow(rest []line) {
	if len(rest) == 0 {
		return
	}
	fields := s.dialect.between.headSplit(rest[0].text)
	if s.dialect.between == blanks {
		fields = quoted(rest[0].text, " ")
	}
	var units []string
	for _, f := range fields {
		u, ok := unitWord(strings.Trim(f, "[]() -"))
		if !ok && strings.Trim(f, "[]() -") != "" {
			return
		}
		units = append(units, u)
	}
	if shift := len(s.heads) - len(units); s.dialect.between == blanks && shift > 0 {
		units = append(make([]string, shift), units...) // the label has no unit
	}
	for i := range min(len(units), len(s.heads)) {
		if units[i] != "" {
			s.heads[i].unit = units[i]
		}
	}
}

// add cuts one line into a record; a line of words alone is a heading.
func (s *sheet) add(l line, above bool) error {
	text, note := cutNote(l.text)
	cells := s.dialect.between.split(text)
	if s.dialect.between != blanks && len(cells) > 1 && cells[len(cells)-1] == "" && len(cells) > s.headWidth() {
		cells = cells[:len(cells)-1]
	}
	switch {
	case len(cells) > MaxColumns:
		return fmt.Errorf("line %d has more than %d fields: hand over the columns of the points alone", l.number, MaxColumns)
	case len(s.records) >= MaxRows:
		return fmt.Errorf("the table has more than %d rows: split it", MaxRows)
	case s.numbersIn(cells) == 0 && (above || len(cells) <= 1):
		if s.justUnits(cells) {
			return nil
		}
		s.settle("heading", fmt.Sprintf("line %d is no point: %q", l.number, clip(strings.TrimSpace(l.text))), "it holds no numbers", OnlyOne)
		return nil
	}
	s.records = append(s.records, record{line: l.number, cells: cells, note: note})
	s.width = max(s.width, len(cells))
	return nil
}

// headWidth is how many columns have heads; without heads, none are promised.
func (s *sheet) headWidth() int { return len(s.heads) }

// justUnits reports whether a line holds the units of the columns.
func (s *sheet) justUnits(cells []string) bool {
	for _, c := range strings.Fields(strings.Join(cells, " ")) {
		if _, ok := unitWord(strings.Trim(c, "[]() -")); !ok {
			return false
		}
	}
	return true
}

// cutNote takes a comment off the end of a line.
func cutNote(text string) (rest, note string) {
	for _, s := range []string{" #", "\t#", " //", "\t//"} {
		if i := strings.LastIndex(text, s); i > 0 && strings.Count(text[:i], `"`)%2 == 0 {
			if rest := text[i+len(s):]; !strings.HasPrefix(strings.TrimSpace(rest), ",") && !startsWithDigit(rest) {
				return text[:i], strings.TrimSpace(strings.Trim(strings.TrimSpace(rest), ",;\t"))
			}
		}
	}
	return text, ""
}

// startsWithDigit tells a label such as "root #1" from a comment.
func startsWithDigit(s string) bool { return s != "" && s[0] >= '0' && s[0] <= '9' }
