package job

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// poseColumn, jointColumn and tableColumn match the columns of numbers.
var (
	poseColumn  = regexp.MustCompile(`^([xyz]|r[1-9])$`)
	turnColumn  = regexp.MustCompile(`^r[1-9]$`)
	jointColumn = regexp.MustCompile(`^j[1-9][0-9]?$`)
	tableColumn = regexp.MustCompile(`^t[1-9]$`)
)

// maxColumns bounds the columns: there are 45 names in all.
const maxColumns = 64

var plainColumns = []string{"label", "move", "speed", "percent", "blend", "arc", "settings", "comment"}

// table reads the taught points of one CSV file: comma separated, the columns
// named in the first row.
type table struct {
	d      *pointsDraft
	ps     *Problems
	file   string
	reader *csv.Reader
	header []string
	pose   []int // where x, y, z, r1, r2... stand
	joints []int // where j1, j2... stand
	stood  []int // where t1, t2... stand: the joints of a turning table
	// labelsOnly says that the columns of numbers are wrong; said which units
	// were found missing, each reported once.
	labelsOnly bool
	said       map[string]bool
}

// readCSV appends the rows of the file. It returns false where labels may be
// missing because the file could not be read to its end.
func (d *pointsDraft) readCSV(ps *Problems, file string, data []byte) bool {
	if !utf8.Valid(data) {
		ps.add(Place{file, 1, 1, ""}, "bytes that are not UTF-8 text", "UTF-8", "save the file as CSV with the encoding UTF-8")
		return false
	}
	t := newTable(ps, file, data)
	t.d = d
	return t.readHeader() && t.readRows()
}

// newTable reads a table from its beginning.
func newTable(ps *Problems, file string, data []byte) *table {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace = '#', -1, true
	return &table{ps: ps, file: file, reader: r, said: map[string]bool{}}
}

// next returns the next row, nil at the end; ok is false where it cannot be
// read.
func (t *table) next() (cells []string, ok bool) {
	cells, err := t.reader.Read()
	if errors.Is(err, io.EOF) {
		return nil, true
	}
	if bad := (*csv.ParseError)(nil); errors.As(err, &bad) {
		t.ps.add(Place{t.file, bad.Line, bad.Column, ""}, "a quote in the wrong place", `quotes round a whole value, "" for a quote inside`, "mend the quotes; the rows below were not read")
		return nil, false
	}
	for i, cell := range cells {
		cells[i] = strings.TrimSpace(cell)
	}
	return cells, true
}

// at returns the place of a cell of the row read last, its column counted in
// bytes.
func (t *table) at(i int) Place {
	p := Place{File: t.file}
	p.Line, p.Column = t.reader.FieldPos(i)
	if i < len(t.header) {
		p.Field = clean(cut(t.header[i]))
	}
	return p
}

// atRow returns the place of the row read last.
func (t *table) atRow() Place {
	p := t.at(0)
	p.Field = ""
	return p
}

func (t *table) readHeader() bool {
	header, ok := t.next()
	switch {
	case !ok:
		return false
	case header == nil:
		t.ps.add(Place{t.file, 1, 1, ""}, "an empty file", "a first row with the names of the columns", "write label,x,y,z,r1,r2,r3 or label,j1,j2... above the rows")
		return false
	case len(header) == 1 && strings.ContainsAny(header[0], ";\t"):
		t.ps.add(t.atRow(), "columns divided by semicolons or tabs", "commas between columns, points for decimals", "save the file as CSV with commas")
		return false
	case len(header) > maxColumns:
		t.ps.add(t.atRow(), counted(len(header), "column"), fmt.Sprintf("%d at most", maxColumns), "check that the first row has the names of the columns")
		return false
	}
	t.header = header
	before := t.ps.count()
	for i, name := range header {
		if slices.Contains(header[:i], name) {
			t.ps.add(t.at(i), "the column a second time", "each column once", "rename or delete one of the two")
		} else if !slices.Contains(plainColumns, name) && !poseColumn.MatchString(name) && !jointColumn.MatchString(name) && !tableColumn.MatchString(name) {
			t.ps.add(t.at(i), "a column that does not exist here", strings.Join(plainColumns, ", ")+"; x, y, z, r1, r2...; j1, j2...; t1, t2... of a turning table", orNearest(name, plainColumns, "rename or delete it"))
		}
	}
	t.pose = t.columns(poseColumn, t.poseNames())
	t.joints = t.columns(jointColumn, numbered("j", t.count(jointColumn)))
	t.stood = t.columns(tableColumn, numbered("t", t.count(tableColumn)))
	if t.ps.count() == before && len(t.pose) == 0 && len(t.joints) == 0 {
		t.ps.add(t.atRow(), "neither pose nor joint columns", "x, y, z, r1, r2... or j1, j2...", "name the columns in the first row")
	}
	t.labelsOnly = t.ps.count() > before
	if !slices.Contains(header, "label") {
		t.ps.add(t.atRow(), "no column label", "a column label", "add a column with a name for each point")
		return false
	}
	return true
}

// poseNames lists the pose columns that the header must have.
func (t *table) poseNames() []string {
	turns := t.count(turnColumn)
	switch {
	case t.count(poseColumn) == 0:
		return nil
	case turns > 0 && t.d.oriented:
		turns = t.d.convention.Len()
	}
	return append([]string{"x", "y", "z"}, numbered("r", turns)...)
}

// count returns how many columns have a name of that kind.
func (t *table) count(kind *regexp.Regexp) int {
	n := 0
	for _, name := range t.header {
		if kind.MatchString(name) {
			n++
		}
	}
	return n
}

// numbered returns r1, r2... as many as wanted.
func numbered(letter string, count int) []string {
	var names []string
	for i := range count {
		names = append(names, letter+strconv.Itoa(i+1))
	}
	return names
}

// columns returns where the wanted columns stand and reports those that are
// missing and others of their kind.
func (t *table) columns(kind *regexp.Regexp, wanted []string) []int {
	var out []int
	for _, name := range wanted {
		i := slices.Index(t.header, name)
		if i < 0 {
			t.ps.add(t.atRow(), "no column "+name, "all of "+strings.Join(wanted, ", "), "add the column; number columns from 1 without a gap")
		}
		out = append(out, i)
	}
	for i, name := range t.header {
		if kind.MatchString(name) && !slices.Contains(wanted, name) {
			t.ps.add(t.at(i), "a column too many", strings.Join(wanted, ", "), "delete it, number columns without a gap, or correct the words for the orientation")
		}
	}
	return out
}
