package quote

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/symbol"
)

// By is who welds a seam. The zero value is "not stated".
type By uint8

// Who welds.
const (
	Arm  By = iota + 1 // the arm, though it could be welded by hand too
	Hand               // by hand in any case
)

// String returns "arm" or "hand".
func (b By) String() string {
	switch b {
	case Arm:
		return "arm"
	case Hand:
		return "hand"
	}
	return "welder not stated"
}

// Item is one line of a weld list: a kind of seam of the part.
type Item struct {
	Line     int // of the file, from 1
	Mark     string
	Symbol   symbol.Symbol
	Seam     float64 // length of the joint, m
	Count    int     // seams of this kind in a part
	Settings string  // ID of the settings set
	Passes   int     // that a weld is laid in
	By       By
	Angle    float64 // included angle between the plates of a fillet, rad
	// Area is the bead area of one weld, m2; 0 for the area of the fillet's size.
	Area float64
	// Laid is the weld as it was planned; it then stands for Symbol, Seam, Settings,
	// Passes, Angle and Area. nil for a line of a list.
	Laid *Laid
}

// Laid is a weld as a plan lays it.
type Laid struct {
	Words  string // the size in words, such as "z6"
	Passes []Pass // in the order of welding
	Fillet bool   // its metal was worked out with the face factor of the settings set
}

// Pass is one pass of a planned weld.
type Pass struct {
	Settings string  // ID of the settings set
	Area     float64 // of the bead, m2
	Length   float64 // m
}

// columns are the columns of a weld list; those that are needed come first.
var columns = []string{"mark", "weld", "seam", "settings", "count", "passes", "by", "angle", "area"}

// needed is how many of columns a list must have.
const needed = 4

// Bounds of what is read.
const (
	maxBytes    = 4 << 20
	maxProblems = 50
	maxCount    = 100000
	maxPasses   = 200
)

// The ranges of sense. Common practice, no source.
var (
	seamSense  = weld.Sense{What: "length of the joint", Low: 1e-3, High: 1000, Unit: unit.Metres}
	areaSense  = weld.Sense{What: "bead area", Low: 0.1e-6, High: 2000e-6, Unit: unit.SquareMillimetres}
	angleSense = weld.IncludedAngleSense()
)

// Parse reads a weld list. The first line names the columns, in any order,
// separated by commas, semicolons or tabs like the rest; lines that start with #
// and empty lines are passed over. Every problem is found, up to 50, each with
// its line: the error joins them, see Problems.
func Parse(data []byte) ([]Item, error) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) // byte order mark
	if len(data) > maxBytes {
		return nil, &Problem{1, "", fmt.Sprintf("%d bytes", len(data)), fmt.Sprintf("%d bytes", maxBytes), "split the list"}
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace = separator(data), '#', -1, true
	t := table{marks: map[string]int{}}
	for {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			var at *csv.ParseError
			line := 1
			if errors.As(err, &at) {
				line, err = at.StartLine, at.Err
			}
			t.add(line, "", err.Error(), "cells, those with a separator inside in quotation marks", "check the quotation marks of the line")
			break
		}
		line, _ := r.FieldPos(0)
		t.row(line, cells)
	}
	switch {
	case len(t.problems) == 0 && t.head == nil:
		t.add(1, "", "an empty list", "a line that names the columns: "+strings.Join(columns, ", "), "write it first")
	case len(t.problems) == 0 && len(t.items) == 0:
		t.add(1, "", "no welds", "a line for each kind of seam", "add the welds below the names of the columns")
	}
	if len(t.problems) > 0 {
		return nil, errors.Join(t.problems...)
	}
	return t.items, nil
}

// separator is the first of comma, semicolon and tab in the data outside
// comments.
func separator(data []byte) rune {
	for _, line := range bytes.Split(data, []byte("\n")) {
		if bytes.HasPrefix(line, []byte("#")) {
			continue
		}
		if i := bytes.IndexAny(line, ",;\t"); i >= 0 {
			return rune(line[i])
		}
	}
	return ','
}

// table gathers the lines.
type table struct {
	head     []string // column names in the order of the file
	items    []Item
	marks    map[string]int // line of each mark
	problems []error
}

func (t *table) add(line int, column, found, allowed, mend string) {
	if len(t.problems) < maxProblems {
		t.problems = append(t.problems, &Problem{line, column, found, allowed, mend})
	}
}

// row reads one line.
func (t *table) row(line int, cells []string) {
	for i := range cells {
		cells[i] = strings.TrimSpace(cells[i])
	}
	switch {
	case strings.Join(cells, "") == "":
	case t.head == nil:
		t.header(line, cells)
	case len(cells) > len(t.head):
		t.add(line, "", fmt.Sprintf("%d cells", len(cells)), fmt.Sprintf("%d, one for each column", len(t.head)), "put cells with a separator inside into quotation marks")
	default:
		t.item(line, cells)
	}
}

// header reads the names of the columns.
func (t *table) header(line int, cells []string) {
	t.head = make([]string, len(cells))
	for i, cell := range cells {
		name := strings.ToLower(cell)
		switch {
		case !slices.Contains(columns, name):
			t.add(line, "", fmt.Sprintf("a column %q", cell), strings.Join(columns, ", "), "name it so, or take it out")
		case slices.Contains(t.head, name):
			t.add(line, name, "a second column of this name", "one", "keep one")
		}
		t.head[i] = name
	}
	for _, name := range columns[:needed] {
		if !slices.Contains(t.head, name) {
			t.add(line, "", "no column "+name, "at least "+strings.Join(columns[:needed], ", "), "add the column")
		}
	}
}

// item reads one weld.
func (t *table) item(line int, cells []string) {
	before := len(t.problems)
	it := Item{Line: line, Count: 1, Passes: 1, By: Arm, Angle: math.Pi / 2}
	for i, name := range t.head {
		cell := ""
		if i < len(cells) {
			cell = cells[i]
		}
		if cell != "" {
			t.cell(&it, name, cell)
		} else if slices.Contains(columns[:needed], name) {
			t.add(line, name, "nothing", "a value on every line", "fill the cell")
		}
	}
	if first, again := t.marks[it.Mark]; again && it.Mark != "" {
		t.add(line, "mark", fmt.Sprintf("mark %q again", it.Mark), "each mark once; line "+strconv.Itoa(first)+" has it", "give each kind of seam its own mark")
	} else {
		t.marks[it.Mark] = line
	}
	if len(t.problems) == before {
		t.whole(it)
	}
	if len(t.problems) == before {
		t.items = append(t.items, it)
	}
}

// cell reads one cell that is not empty.
func (t *table) cell(it *Item, name, cell string) {
	switch name {
	case "mark":
		it.Mark = cell
	case "settings":
		it.Settings = cell
	case "weld":
		s, err := symbol.Parse(cell)
		var e *symbol.Error
		if errors.As(err, &e) {
			t.add(it.Line, name, fmt.Sprintf("%s: %s", e.Name, e.Found), e.Allowed, e.Mend)
		}
		it.Symbol = s
	case "seam":
		it.Seam = t.quantity(it.Line, name, cell, unit.Length, seamSense)
	case "angle":
		it.Angle = t.quantity(it.Line, name, cell, unit.Angle, angleSense)
	case "area":
		it.Area = t.quantity(it.Line, name, cell, unit.Area, areaSense)
	case "count":
		it.Count = t.number(it.Line, name, cell, maxCount)
	case "passes":
		it.Passes = t.number(it.Line, name, cell, maxPasses)
	case "by":
		switch strings.ToLower(cell) {
		case "arm":
			it.By = Arm
		case "hand":
			it.By = Hand
		default:
			t.add(it.Line, name, fmt.Sprintf("%q", cell), "arm, hand", "write who welds it, or leave the cell empty for the arm")
		}
	}
}

// quantity reads a quantity with its unit.
func (t *table) quantity(line int, column, cell string, k unit.Kind, sense weld.Sense) float64 {
	x, err := unit.Parse(k, cell)
	var e *unit.Error
	if errors.As(err, &e) {
		var units []string
		for _, u := range e.Allowed {
			units = append(units, u.String())
		}
		t.add(line, column, fmt.Sprintf("%q: %s", cell, e.Found), strings.Join(units, ", "), e.Mend)
		return 0
	}
	if err := sense.Check(x); err != nil {
		t.add(line, column, err.Error(), "the range named", "write the value of the drawing with its unit")
	}
	return x
}

// number reads a whole number from 1 up.
func (t *table) number(line int, column, cell string, most int) int {
	n, err := strconv.Atoi(cell)
	if err != nil || n < 1 || n > most {
		t.add(line, column, fmt.Sprintf("%q", cell), fmt.Sprintf("a whole number from 1 to %d", most), "count again, or leave the cell empty for 1")
		return 1
	}
	return n
}

// whole holds the cells of a line against each other.
func (t *table) whole(it Item) {
	for _, w := range it.Symbol.Welds() {
		if w.Kind.Groove() && it.Area == 0 {
			t.add(it.Line, "area", fmt.Sprintf("nothing for a %v groove", w.Kind), "the area of its section, which the symbol does not give", "write the area to fill, such as 66.8 mm2")
			return
		}
		if _, err := w.Run.Over(it.Seam); err != nil {
			var e *symbol.Error
			errors.As(err, &e)
			t.add(it.Line, "seam", fmt.Sprintf("%s: %s", e.Name, e.Found), e.Allowed, e.Mend)
			return
		}
	}
}
