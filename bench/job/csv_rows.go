package job

import (
	"fmt"
	"slices"

	"seamwright/unit"
)

// readRows reads the rows below the header.
func (t *table) readRows() bool {
	for count := 0; ; count++ {
		cells, ok := t.next()
		switch {
		case !ok:
			return false
		case cells == nil && count == 0:
			t.ps.add(Place{t.file, 1, 1, ""}, "no rows below the names of the columns", "at least one point", "add the taught points")
			return false
		case cells == nil:
			return true
		case count >= maxPoints:
			t.ps.add(t.atRow(), fmt.Sprintf("more than %d rows", maxPoints), "as many at most", "split the job")
			return false
		}
		t.d.rows = append(t.d.rows, t.row(cells))
	}
}

// row reads one row. Where it is broken only its label counts, so that names
// that refer to it are not reported as well.
func (t *table) row(cells []string) row {
	r := row{at: t.atRow()}
	if len(cells) != len(t.header) {
		t.ps.add(r.at, counted(len(cells), "value"), fmt.Sprintf("%d, as many as there are columns", len(t.header)), "add or delete commas; decimals take a point, not a comma")
		r.broken = true
	}
	for i, cell := range cells[:min(len(cells), len(t.header))] {
		name := t.header[i]
		if f := t.cell(&r, name, t.at(i)); f != nil && (name == "label" || cell != "" && !r.broken) {
			f.read(t.ps, node{shape: word, text: cell, at: t.at(i)})
		}
	}
	if r.broken || t.labelsOnly {
		r.broken = true
		return r
	}
	before := t.ps.count()
	r.joints, r.table = t.numbers(cells, t.joints), t.numbers(cells, t.stood)
	const axes = 3 // x, y and z come first
	if r.pose = t.numbers(cells, t.turns(cells)); len(r.pose) == axes {
		r.place, r.pose = r.pose, nil
	}
	switch posed := r.pose != nil || r.place != nil; {
	case posed && r.joints != nil:
		t.ps.add(r.at, "a pose and joint values", "one of the two in a row", "empty the columns of the other")
	case !posed && r.joints == nil:
		t.ps.add(r.at, "neither a pose nor joint values", "one of the two in a row", "fill the columns, or delete the row")
	}
	r.broken = t.ps.count() > before
	return r
}

// turns returns the pose columns that count in a row: without r1, r2... where
// all of these are empty, which makes the row a place.
func (t *table) turns(cells []string) []int {
	const axes = 3
	if len(t.pose) > axes && !slices.ContainsFunc(t.pose[axes:], func(i int) bool { return cells[i] != "" }) {
		return t.pose[:axes]
	}
	return t.pose
}

// cell returns the form of a cell, nil for columns of numbers and unknown ones.
func (t *table) cell(r *row, column string, at Place) form {
	p := &r.point
	switch column {
	case "label":
		return named(&r.label, "W1 start")
	case "move":
		return oneOf(&p.Move, moves...)
	case "arc":
		return oneOf(&p.Arc, arcs...)
	case "settings":
		return named(&r.settings, "11")
	case "comment":
		return text(&p.Comment, "on the root")
	case "percent":
		return number(&p.Percent, percents, "20")
	case "speed":
		return t.scaled(&p.Speed, "speeds", t.d.speeds, unit.Speed, airSpeed)
	case "blend":
		return t.scaled(&p.Blend, "length", t.d.length, unit.Length, blendRadius)
	}
	return nil
}

// scaled is the form of a plain number in the unit that the field of the
// document states.
func (t *table) scaled(dst *float64, field, symbol string, k unit.Kind, within span) form {
	s := single{allowed: "a number in " + orElse(symbol, "a unit that points."+field+" states"), example: "20"}
	s.take = func(text string) *wrong {
		if symbol == "" {
			if t.said[field] {
				return nil
			}
			t.said[field] = true
			return &wrong{found: quote(text) + ", whose unit is not stated", mend: "add " + field + " to points in the document, such as " + field + ": " + symbols(k)[0]}
		}
		if _, w := parseNumber(text); w != nil {
			return w
		}
		return quantity(k, dst, within, "20").take(text + " " + symbol)
	}
	return s
}

// numbers reads the cells of the columns, nil where all are empty.
func (t *table) numbers(cells []string, columns []int) []float64 {
	filled := func(i int) bool { return cells[i] != "" }
	if !slices.ContainsFunc(columns, filled) {
		return nil
	}
	out := make([]float64, len(columns))
	for k, i := range columns {
		number(&out[k], span{-maxNumber, maxNumber}, "430.2").read(t.ps, node{shape: word, text: cells[i], at: t.at(i)})
	}
	return out
}
