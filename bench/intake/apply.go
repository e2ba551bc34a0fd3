package intake

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/unit"
)

// Apply turns the rows of a table without open questions into points. What it
// cannot take it reports as problems, line by line; rows with problems are left
// out.
func Apply(t Table) ([]Point, []Problem) {
	s := t.sheet
	switch {
	case s == nil:
		return nil, []Problem{{Found: "a table that was not read", Mend: "read it first"}}
	case t.Open > 0:
		return nil, []Problem{{Found: plural(t.Open, "open question", "open questions"), Mend: "answer them and read the table again"}}
	}
	b := builder{sheet: s, problems: slices.Clone(s.problems)}
	if words := s.stated.Orientation; words != "" {
		b.convention, _ = se3.ParseConvention(words) // made by String
	}
	var points []Point
	for i, r := range s.records {
		if p, ok := b.point(i, r); ok {
			points = append(points, p)
		}
	}
	return points, b.problems
}

// builder makes points of records.
type builder struct {
	*sheet
	convention se3.Convention
	problems   []Problem
}

func (b *builder) report(line int, mend, format string, args ...any) {
	b.problems = append(b.problems, Problem{line, fmt.Sprintf(format, args...), mend})
}

// point makes the point of a record; ok is false where it has a problem.
func (b *builder) point(i int, r record) (p Point, ok bool) {
	if r.roles == nil {
		return Point{}, false // its layout was reported
	}
	before := len(b.problems)
	p = Point{Line: r.line, Pose: se3.Identity(), Comment: r.note}
	for c, cell := range r.cells {
		if cell == "" {
			continue
		}
		x := noRole
		if c < len(r.roles) {
			x = r.roles[c]
		}
		b.word(&p, x, cell, c, r)
	}
	if p.Label == "" {
		p.Label = strconv.Itoa(i + 1)
	}
	if n := len([]rune(p.Label)); n > maxLabel {
		b.report(r.line, "shorten it", "a label of %d characters, allowed are %d", n, maxLabel)
	}
	axes := b.filled(r, role.isAxis)
	turns := b.filled(r, role.isTurn)
	joints := b.filled(r, role.isJoint)
	switch {
	case len(axes) > 0 && len(turns) == 0 && b.stated.Point == "flange":
		b.report(r.line, "write the turns as well, or measure the wire tip", "a position of the flange without its orientation, which does not tell where the wire tip was")
	case len(axes) > 0:
		b.place(&p, r, axes)
		b.turn(&p, r, turns)
	case len(turns) > 0:
		b.report(r.line, "write x, y and z as well", "an orientation without a position")
	case len(joints) > 0:
		b.jointValues(&p, r, joints)
	default:
		b.report(r.line, "write them, or delete the row", "neither a position nor joint values")
	}
	return p, len(b.problems) == before
}

// maxLabel bounds labels and comments, in characters, as the job document does.
const maxLabel = 200

// filled returns the filled columns of a kind.
func (b *builder) filled(r record, kind func(role) bool) []int {
	return slices.DeleteFunc(columnsOf(r, kind), func(c int) bool { return r.cell(c) == "" })
}

// word takes a cell that is no position, turn or joint value.
func (b *builder) word(p *Point, x role, cell string, c int, r record) {
	lower := strings.ToLower(cell)
	switch {
	case x == label && b.wordy[c] && looksNumeric(cell) && !unsigned(cell) && !approachName.MatchString(cell):
		b.report(r.line, "write the name, or put the values back under their heads", "the number %q where other rows have a name", clip(cell))
	case x == label:
		p.Label = cell
	case x == settings:
		p.Settings = cell
	case x == remark:
		p.Comment = strings.TrimSpace(strings.TrimSuffix(cell+"; "+p.Comment, "; "))
		if n := len([]rune(p.Comment)); n > maxLabel {
			p.Comment = string([]rune(p.Comment)[:maxLabel])
		}
	case x == move && isMove(lower):
		p.Move = strings.Replace(lower, "circular", "arc", 1)
	case x == move:
		b.report(r.line, "write joint, linear or arc", "the kind of move %q", clip(cell))
	case x == arc && isArc(lower):
		p.Arc = strings.TrimPrefix(lower, "arc ")
	case x == arc:
		b.report(r.line, "write on or off", "%q for the arc", clip(cell))
	case x == speed:
		p.Speed, _ = b.measure(r, c, unit.Speed, b.stated.Speeds)
	case x == blend:
		p.Blend, p.HasBlend = b.measure(r, c, unit.Length, b.stated.Length)
	case x == percent:
		v, ok := b.number(r, c)
		if p.Percent = v; !ok || v < 1 || v > 100 {
			b.report(r.line, "write a number from 1 to 100", "the percent speed %q", clip(cell))
		}
	case x == noRole && (looksNumeric(cell) || c >= b.width):
		b.report(r.line, "delete it, or give its column a head", "the value %q, which no column explains", clip(cell))
	}
}

// measure reads a quantity into SI, with the unit of the cell, of the head or
// of the table, in this order.
func (b *builder) measure(r record, c int, of unit.Kind, table string) (float64, bool) {
	x, ok := b.number(r, c)
	if !ok {
		b.report(r.line, "write a number with a "+b.dialect.decimal.String(), "%q in place of a number", clip(r.cells[c]))
		return 0, false
	}
	symbol := b.unitAt(r, c)
	if symbol == "" {
		symbol = table
	}
	sc, known := scaleOf(symbol)
	if !known || sc.kind != of {
		b.report(r.line, "correct the unit", "%q in %s, which is no unit of %v", clip(r.cells[c]), symbol, of)
		return 0, false
	}
	return x * sc.si, true
}

func (b *builder) place(p *Point, r record, columns []int) {
	const axes = 3
	if len(columns) != axes {
		b.report(r.line, "write x, y and z", "a position with %s", plural(len(columns), "number", "numbers"))
		return
	}
	var v [axes]float64
	for k, c := range columns {
		v[k], _ = b.measure(r, c, unit.Length, b.stated.Length)
	}
	p.HasPlace = true
	p.Pose.P = r3.Vec{X: v[0], Y: v[1], Z: v[2]}
}

func (b *builder) turn(p *Point, r record, columns []int) {
	if len(columns) == 0 {
		return
	}
	want := b.convention.Units()
	if len(columns) != len(want) {
		b.report(r.line, "write all of them, or none", "%s of orientation, %v takes %d", plural(len(columns), "number", "numbers"), b.convention, len(want))
		return
	}
	v := make([]float64, len(columns))
	for k, c := range columns {
		x, ok := b.number(r, c)
		u := b.unitAt(r, c)
		switch {
		case !ok:
			b.report(r.line, "write a number with a "+b.dialect.decimal.String(), "%q in place of a number", clip(r.cells[c]))
			return
		case u != "" && u != want[k]:
			b.report(r.line, "correct the unit", "%q in %s among turns in %s", clip(r.cells[c]), u, want[k])
			return
		}
		v[k] = x
	}
	rot, err := b.convention.Decode(v)
	if err != nil {
		b.report(r.line, "check the numbers and the convention", "numbers that are no orientation: %v", err)
		return
	}
	p.Turn, p.HasTurn, p.Pose.R = v, true, rot
}

func (b *builder) jointValues(p *Point, r record, columns []int) {
	if n := len(b.known.Slides); n > 0 && len(columns) != n {
		b.report(r.line, fmt.Sprintf("write %d, one for each joint of the arm", n), "%s", plural(len(columns), "joint value", "joint values"))
		return
	}
	for k, c := range columns {
		x := r.roles[c]
		if x.index() != k {
			b.report(r.line, "write all joint values", "no value for joint %d", k+1)
			return
		}
		of, table := unit.Angle, b.stated.Joints
		if b.slides(x) {
			of, table = unit.Length, b.stated.Length
		}
		v, _ := b.measure(r, c, of, table)
		p.Joints = append(p.Joints, v)
	}
	if largest(p.Joints) > 2*mostJoint*unit.Deg {
		b.report(r.line, "check the number and the unit", "a joint value of %.4g deg", largest(p.Joints)/unit.Deg)
	}
}

// roundTo keeps twelve digits: more than any controller shows, fewer than the
// noise of a change of unit.
func roundTo(x float64) string {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return "0"
	}
	text := strconv.FormatFloat(x, 'g', 12, 64)
	y, _ := strconv.ParseFloat(text, 64)
	return strconv.FormatFloat(y, 'f', -1, 64)
}
