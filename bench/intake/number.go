package intake

import (
	"regexp"
	"strconv"
	"strings"
)

// mark is how decimals are written.
type mark byte

const (
	point mark = '.'
	comma mark = ','
)

func (m mark) other() mark { return point + comma - m }

func (m mark) String() string {
	if m == comma {
		return "decimal comma"
	}
	return "decimal point"
}

// numeral is a number in the forms that are read, the decimal mark written as
// a point and the other mark as a comma.
var (
	numeral = regexp.MustCompile(`^[+-]?([0-9]+(\.[0-9]*)?|\.[0-9]+)([eE][+-]?[0-9]{1,2})?$`)
	grouped = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}(,[0-9]{3})+(\.[0-9]*)?$`)
	spaced  = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}([ '’][0-9]{3})+(\.[0-9]*)?$`)
)

// maxNumber bounds numbers, as the job document does.
const maxNumber = 1e6

// maxNumeral bounds a cell that may be a number, in bytes.
const maxNumeral = 40

// parse reads the number of a cell, without its unit.
func (m mark) parse(s string) (float64, bool) {
	if s == "" || len(s) > maxNumeral {
		return 0, false
	}
	if m == comma {
		s = strings.Map(func(r rune) rune {
			switch r {
			case ',':
				return '.'
			case '.':
				return ','
			}
			return r
		}, s)
	}
	switch {
	case numeral.MatchString(s):
	case grouped.MatchString(s):
		s = strings.ReplaceAll(s, ",", "")
	case spaced.MatchString(s):
		s = strings.NewReplacer(" ", "", "'", "", "’", "").Replace(s)
	default:
		return 0, false
	}
	x, err := strconv.ParseFloat(s, 64)
	if err != nil || x > maxNumber || x < -maxNumber {
		return 0, false
	}
	return x, true
}

// numberish reports whether a text has a digit and nothing but what numbers are
// made of and separated with.
func numberish(s string) bool {
	digit := false
	for _, r := range s {
		if r >= '0' && r <= '9' {
			digit = true
		} else if !strings.ContainsRune("-+.,'’ eE;:|", r) {
			return false
		}
	}
	return digit
}

// withUnit matches a number and the unit behind it in one cell.
var withUnit = regexp.MustCompile(`^(.*[0-9.,])\s*([a-zA-Zµ°"%][a-zA-Z/%"²]*)$`)

// splitUnit takes a known unit off the end of a cell.
func splitUnit(cell string) (number, unit string) {
	if cell == "" || len(cell) > maxNumeral || strings.IndexByte("0123456789.,", cell[len(cell)-1]) >= 0 {
		return cell, "" // the most frequent case, and the quickest to see
	}
	if m := withUnit.FindStringSubmatch(cell); m != nil && numberish(m[1]) {
		if u, ok := unitWord(m[2]); ok {
			return strings.TrimSpace(m[1]), u
		}
	}
	return cell, ""
}

// number reads the number of a cell, with or without a unit.
func (m mark) number(cell string) (float64, bool) {
	n, _ := splitUnit(cell)
	return m.parse(n)
}

// endName and approachName match names of points that look like numbers: "1 e", the end of
// seam 1, and "1 in", its approach.
var (
	endName      = regexp.MustCompile(`(?i)^[0-9]+ ?e$`)
	approachName = regexp.MustCompile(`(?i)^[0-9]+ in$`)
)

// looksNumeric reports whether a cell is made of a number's characters alone.
func looksNumeric(cell string) bool {
	n, _ := splitUnit(cell)
	return len(n) <= maxNumeral && numberish(n) && !endName.MatchString(n)
}
