package intake

import (
	"fmt"
	"slices"
	"strings"
)

// dialect is how the fields and numbers of a table are written.
type dialect struct {
	between separator
	decimal mark
}

// leastNumbers is how many numbers make a line a point: x, y and z.
const leastNumbers = 3

// sampleLines bounds the lines on which separators are tried.
const sampleLines = 400

// sniff settles the dialect or asks for it; ok is false while it is open.
func sniff(d *desk, all []line) (dl dialect, ok bool, err error) {
	sample := all
	if len(sample) > sampleLines {
		sample = sample[:sampleLines]
	}
	between, ok, err := findSeparator(d, sample)
	if err != nil || !ok {
		return dialect{}, false, err
	}
	decimal, ok := findDecimal(d, between, all)
	return dialect{between, decimal}, ok, nil
}

// trial is what a separator makes of the sample.
type trial struct {
	between separator
	numbers int // fields that are numbers, in lines with at least three
	rows    int // such lines
	broken  int // fields of digits and marks that are no number
	width   int // most frequent count of numbers in a line
	usual   int // lines with that count
	comma   bool
	first   string // the numbers of the first such line, for a message
	line    int
}

// try reads the sample with a separator and those decimal marks.
func try(between separator, sample []line, decimals ...mark) trial {
	isNumber := func(f string) bool {
		return slices.ContainsFunc(decimals, func(m mark) bool { _, ok := m.number(f); return ok })
	}
	t := trial{between: between}
	widths := map[int]int{}
	for _, l := range sample {
		if isComment(l, between) {
			continue
		}
		var found []string
		broken := 0
		for _, f := range between.split(l.text) {
			if isNumber(f) {
				found = append(found, f)
				t.comma = t.comma || strings.Contains(f, ",")
			} else if looksNumeric(f) || strings.ContainsAny(f, ";\t|") {
				broken++
			}
		}
		if len(found) < leastNumbers {
			continue
		}
		if t.rows == 0 {
			t.first, t.line = strings.Join(found, "  "), l.number
		}
		t.rows++
		t.numbers += len(found)
		t.broken += broken
		widths[len(found)]++
	}
	for w, n := range widths {
		if n > t.usual || n == t.usual && w > t.width {
			t.width, t.usual = w, n
		}
	}
	return t
}

// sound reports whether nearly every field made sense.
func (t trial) sound() bool {
	const mostBroken = 10 // one field in so many may be a slip of the pen
	return t.rows > 0 && t.broken*mostBroken <= t.numbers
}

func (t trial) evidence() string {
	return fmt.Sprintf("%s cut %s into at least %d numbers each", t.between, plural(t.rows, "line", "lines"), leastNumbers)
}

// findSeparator settles what stands between the fields. Tabs, semicolons and
// bars have no other use between numbers; commas and blanks have.
func findSeparator(d *desk, sample []line) (separator, bool, error) {
	for _, s := range []separator{tabs, semicolons, bars} {
		if t := try(s, sample, point, comma); t.sound() {
			d.settle("separator", "fields stand between "+string(s), t.evidence(), OnlyOne)
			return s, true, nil
		}
	}
	var found []trial
	for _, c := range []dialect{{commas, point}, {commas, comma}, {blanks, point}, {blanks, comma}, {commaBlank, comma}, {pairs, comma}} {
		if t := try(c.between, sample, c.decimal); t.sound() && c.possible(t, sample) {
			found = addTrial(found, t)
		}
	}
	if len(found) == 0 {
		return "", false, fmt.Errorf("no line has %d numbers with the same sign between them: one row a point is needed, with tabs, semicolons, commas or blanks between the values", leastNumbers)
	}
	if t := found[0]; len(found) == 1 {
		d.settle("separator", "fields stand between "+string(t.between), t.evidence(), OnlyOne)
		return t.between, true, nil
	}
	q := Question{ID: "separator", Default: -1, Text: fmt.Sprintf("Commas in line %d can be read in two ways. Which numbers did you write?", found[0].line)}
	for _, t := range found {
		q.Choices = append(q.Choices, Choice{string(t.between), t.first, fmt.Sprintf("fields between %s: %d numbers in a line", t.between, t.width)})
	}
	value, ok := d.ask(q)
	return separator(value), ok, nil
}

// addTrial keeps a trial that reads other numbers than those before it.
func addTrial(found []trial, t trial) []trial {
	for _, f := range found {
		if f.between == t.between || f.first == t.first && f.numbers == t.numbers {
			return found
		}
	}
	return append(found, t)
}

// possible reports whether a comma can be both decimal mark and separator in
// the sample, for the two readings in which it would be.
func (c dialect) possible(t trial, sample []line) bool {
	switch c.between {
	case commaBlank:
		return t.comma
	case pairs:
		return t.comma && t.usual == t.rows && allPaired(sample, t.width)
	}
	return true
}

// allPaired reports whether every line with numbers falls into pairs of a whole
// number and unsigned decimals, with the same count of decimals down a column.
func allPaired(sample []line, width int) bool {
	digits := make([]int, width)
	for _, l := range sample {
		var numbers []string
		for _, f := range quoted(l.text, ",") {
			if _, ok := point.number(f); ok {
				numbers = append(numbers, f)
			}
		}
		switch {
		case len(numbers) < leastNumbers:
			continue
		case len(numbers) != 2*width:
			return false
		}
		for k := range width {
			decimals := numbers[2*k+1]
			if !whole(numbers[2*k]) || !unsigned(decimals) || digits[k] != 0 && digits[k] != len(decimals) {
				return false
			}
			digits[k] = len(decimals)
		}
	}
	return true
}
