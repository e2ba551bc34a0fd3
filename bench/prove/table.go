package prove

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// table is a CSV file: its head and its rows, by column.
type table struct {
	head []string
	rows [][]string
}

// readTable reads a CSV text by RFC 4180. Every row has as many cells as the head.
func readTable(text string) (table, error) {
	var t table
	text = strings.TrimPrefix(text, "\ufeff")
	lines := strings.Count(text, "\n") + 1
	var cells []string // of all rows, one behind the other
	for line := 1; text != ""; line++ {
		begin := len(cells)
		var err error
		if cells, text, err = appendRow(cells, text); err != nil {
			return table{}, fmt.Errorf("row %d: %w", line, err)
		}
		row := cells[begin:len(cells):len(cells)]
		if t.head == nil {
			t.head = row
			cells = make([]string, 0, lines*len(row))
			t.rows = make([][]string, 0, lines)
			continue
		}
		if len(row) != len(t.head) {
			return table{}, fmt.Errorf("row %d has %d cells, the head has %d", line, len(row), len(t.head))
		}
		t.rows = append(t.rows, row)
	}
	if t.head == nil {
		return table{}, fmt.Errorf("an empty file")
	}
	return t, nil
}

// appendRow appends the cells of the first row of a text and returns what is left.
func appendRow(cells []string, text string) (_ []string, rest string, err error) {
	for {
		if strings.HasPrefix(text, `"`) {
			var cell string
			if cell, text, err = quoted(text[1:]); err != nil {
				return nil, "", err
			}
			cells = append(cells, cell)
		} else {
			end := strings.IndexAny(text, ",\n")
			if end < 0 {
				return append(cells, strings.TrimSuffix(text, "\r")), "", nil
			}
			cell := text[:end]
			if text[end] == '\n' {
				cell = strings.TrimSuffix(cell, "\r")
			}
			cells, text = append(cells, cell), text[end:]
		}
		switch {
		case text == "":
			return cells, "", nil
		case text[0] == ',':
			text = text[1:]
		case text[0] == '\n':
			return cells, text[1:], nil
		default:
			return nil, "", fmt.Errorf("text behind a closing quote")
		}
	}
}

// quoted returns a cell up to its closing quote, and what follows that.
func quoted(text string) (cell, rest string, err error) {
	var b strings.Builder
	for {
		end := strings.IndexByte(text, '"')
		if end < 0 {
			return "", "", fmt.Errorf("a quote that is not closed")
		}
		b.WriteString(text[:end])
		if text = text[end+1:]; !strings.HasPrefix(text, `"`) {
			return b.String(), strings.TrimPrefix(text, "\r"), nil
		}
		b.WriteByte('"')
		text = text[1:]
	}
}

// columns returns the places of columns by name; each must be there once.
func (t *table) columns(names ...string) ([]int, error) {
	at := make([]int, len(names))
	for i, name := range names {
		at[i] = -1
		for k, head := range t.head {
			if head != name {
				continue
			}
			if at[i] >= 0 {
				return nil, fmt.Errorf("two columns %q", name)
			}
			at[i] = k
		}
		if at[i] < 0 {
			return nil, fmt.Errorf("no column %q", name)
		}
	}
	return at, nil
}

// powers of ten that a float64 holds exactly.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// number reads a decimal number, dimensionless as far as it knows, such as -12.5; an
// empty cell is NaN.
func number(s string) (float64, error) {
	if s == "" {
		return math.NaN(), nil
	}
	i, negative := 0, s[0] == '-'
	if negative {
		i = 1
	}
	var digits int64
	count, behind, point := 0, 0, false
	for ; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9' && count < 15:
			digits = 10*digits + int64(c-'0')
			count++
			if point {
				behind++
			}
		case c == '.' && !point:
			point = true
		default:
			return rareNumber(s)
		}
	}
	if count == 0 {
		return 0, fmt.Errorf("%q is no number", s)
	}
	x := float64(digits) / powers[behind] // both exact: rounded once
	if negative {
		x = -x
	}
	return x, nil
}

// rareNumber reads what number does not: more digits, a power of ten.
func rareNumber(s string) (float64, error) {
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) || strings.ContainsAny(s, "xX_pP") {
		return 0, fmt.Errorf("%q is no number", cut(s))
	}
	return x, nil
}

// cut shortens a text for a message.
func cut(s string) string {
	const most = 40
	if len(s) > most {
		return s[:most] + "..."
	}
	return s
}
