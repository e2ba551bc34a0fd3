package intake

import "slices"

// Known is what the caller knows beside the table.
type Known struct {
	Reach   float64 // of the arm with its torch, m; 0 where unknown
	Slides  []bool  // one for each joint of the arm in order, true where it slides; nil where unknown
	Answers Answers
}

// Words are what the points section of a job document states about a table;
// empty where the table needs none.
type Words struct {
	MeasuredIn  string // base, world or part
	Point       string // tip or flange
	Length      string // mm, m or in
	Orientation string // words of se3.ParseConvention
	Joints      string // deg or rad
	Speeds      string // a unit of speed
	Slides      []bool // as in Known: joints whose values are lengths
}

// Table is a table with what was found out about it.
type Table struct {
	Facts  []Fact
	Stated Words
	Open   int // questions that are left

	sheet *sheet
}

// Problem is a place of the table that cannot be taken as it is.
type Problem struct {
	Line  int // 0 for the table as a whole
	Found string
	Mend  string
}

// Read reads a table as far as it can be read without guessing, and returns the
// questions that are left, the most pressing first. Questions that rest on
// another's answer come in a later round. It fails where the bytes hold no
// table, are beyond MaxBytes, MaxRows or MaxColumns, or where an answer fits
// none of the choices.
func Read(data []byte, known Known) (Table, []Question, error) {
	d := &desk{answers: known.Answers}
	text, err := decodeText(d, data)
	if err != nil {
		return Table{}, nil, err
	}
	s := &sheet{desk: d, known: known, stated: Words{Slides: known.Slides}}
	all := lines(text)
	if table, named := unfold(d, all); named {
		all = table
	}
	if err := s.read(all); err != nil {
		return Table{}, nil, err
	}
	if d.wrong != nil {
		return Table{}, nil, d.wrong
	}
	return Table{Facts: d.facts, Stated: s.stated, Open: len(d.questions), sheet: s}, d.questions, nil
}

// read goes on from stage to stage until a stage leaves a question that the
// next rests on.
func (s *sheet) read(all []line) error {
	if !s.remarks(all) {
		return nil
	}
	dl, ok, err := sniff(s.desk, all)
	if err != nil || !ok {
		return err
	}
	s.dialect = dl
	if err := s.cut(all); err != nil || s.open() {
		return err
	}
	if !s.align() {
		return nil
	}
	s.layOut(s.place())
	if s.open() {
		return nil
	}
	s.mixed()
	s.both()
	if s.open() {
		return nil
	}
	s.units()
	return nil
}

func (s *sheet) open() bool { return len(s.questions) > 0 }

// Row is a line of the table as it was cut.
type Row struct {
	Line  int
	Cells []string
	// Kinds says what each cell is, with the names of the strict form: label,
	// x, r1, j3...; "-" for one that is left out, empty where it is not known
	// yet. It is as long as Cells, or nil.
	Kinds []string
}

// Rows returns the lines with points as far as they are understood, also while
// questions are open.
func (t Table) Rows() []Row {
	if t.sheet == nil {
		return nil
	}
	var out []Row
	for _, r := range t.sheet.records {
		row := Row{Line: r.line, Cells: slices.Clone(r.cells)}
		if r.roles != nil {
			row.Kinds = make([]string, len(r.cells))
			for c := range min(len(r.cells), len(r.roles)) {
				row.Kinds[c] = string(r.roles[c])
			}
		}
		out = append(out, row)
	}
	return out
}

// problem notes what cannot be taken.
func (s *sheet) problem(line int, found, mend string) {
	s.problems = append(s.problems, Problem{line, found, mend})
}

// has reports whether any row has a number of that kind.
func (s *sheet) has(kind func(role) bool) bool {
	for _, r := range s.records {
		for c, x := range r.roles {
			if kind(x) && r.cell(c) != "" {
				return true
			}
		}
	}
	return false
}

// columnsOf returns the columns of a row with roles of that kind, in the order
// of their numbers.
func columnsOf(r record, kind func(role) bool) []int {
	var out []int
	for c, x := range r.roles {
		if kind(x) {
			out = append(out, c)
		}
	}
	slices.SortFunc(out, func(a, b int) int { return compareRoles(r.roles[a], r.roles[b]) })
	return out
}

func compareRoles(a, b role) int {
	if a.isAxis() {
		return int(a[0]) - int(b[0])
	}
	return a.index() - b.index()
}
