package intake

import (
	"fmt"
	"strings"
)

// mostThousands is a number that neither a place of an arm in millimetres nor
// an angle in degrees reaches: 20 m. It tells thousands from decimals.
const mostThousands = 20000

// marked counts how the numbers of a table agree with one decimal mark.
type marked struct {
	read    int // numbers
	failed  int // fields of digits that are no number with this mark
	grouped int // numbers in which the other mark would separate thousands
	huge    int // of these, beyond mostThousands
	example string
}

// findDecimal settles the decimal mark or asks for it.
func findDecimal(d *desk, between separator, all []line) (mark, bool) {
	if between == commaBlank || between == pairs {
		d.settle("decimal", comma.String(), "commas stand for decimals and between fields", OnlyOne)
		return comma, true
	}
	p, c := count(point, between, all), count(comma, between, all)
	switch {
	case clear(p, c):
		return settleDecimal(d, point, p, c), true
	case clear(c, p):
		return settleDecimal(d, comma, c, p), true
	case p.failed == 0 && c.failed == 0 && p.grouped == 0 && c.grouped == 0:
		d.settle("decimal", "no decimals, or none that matter", "every number reads the same with point and comma", OnlyOne)
		return point, true
	case p.failed > 0 || c.failed > 0:
		value, ok := d.ask(mixedQuestion(p, c))
		return mark((value + " ")[0]), ok
	}
	// All fields can be read both ways: the mark always has three digits
	// behind it.
	decided, other, by := point, c, c.example
	if p.grouped > 0 {
		decided, other, by = comma, p, p.example
	}
	if other.huge*2 >= other.grouped && other.huge > 0 {
		d.settle("decimal", decided.String(), fmt.Sprintf("with thousands %q would be more than %d", by, mostThousands), OnlyOne)
		return decided, true
	}
	value, ok := d.ask(decimalQuestion(decided, by))
	return mark((value + " ")[0]), ok
}

// clear reports whether the fields that only this mark can read outnumber by
// far those that speak for the other.
func clear(this, other marked) bool {
	const far = 3
	return other.failed > 0 && other.failed >= far*(this.failed+this.grouped-this.huge)
}

// settleDecimal settles a mark that is clear.
func settleDecimal(d *desk, m mark, this, other marked) mark {
	evidence := fmt.Sprintf("%q is no number otherwise", other.example)
	if this.failed > 0 {
		evidence += "; " + plural(this.failed, "other field does not fit and is reported", "other fields do not fit and are reported")
	}
	d.settle("decimal", m.String(), evidence, OnlyOne)
	return m
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// mixedQuestion asks where some fields speak for the point and some for the
// comma.
func mixedQuestion(p, c marked) Question {
	return Question{ID: "decimal", Default: -1, Text: "Some numbers have a decimal point, some a decimal comma. Which is right?", Choices: []Choice{
		{string(point), point.String(), against(c)},
		{string(comma), comma.String(), against(p)},
	}}
}

// against says what cannot be read with a mark.
func against(other marked) string {
	if other.failed == 0 {
		return "the other mark can read every field too, some with thousands"
	}
	return fmt.Sprintf("%s only so, such as %q", plural(other.failed, "field can be read", "fields can be read"), other.example)
}

// decimalQuestion asks whether three digits behind a mark are decimals.
func decimalQuestion(m mark, example string) Question {
	decimals := strings.Replace(example, string(m), ".", 1)
	return Question{ID: "decimal", Default: 0, Text: fmt.Sprintf("Is %q a number with three decimals, or are there thousands in it?", example),
		Choices: []Choice{
			{string(m), fmt.Sprintf("three decimals: %s", decimals), "every number with a " + name(m) + " has three digits behind it"},
			{string(m.other()), fmt.Sprintf("thousands: %s", strings.ReplaceAll(example, string(m), "")), "the " + name(m) + " would separate thousands"},
		}}
}

func name(m mark) string {
	if m == comma {
		return "comma"
	}
	return "point"
}

// count reads all fields with one mark.
func count(m mark, between separator, all []line) marked {
	var out marked
	for _, l := range all {
		if isComment(l, between) {
			continue
		}
		for _, f := range between.split(l.text) {
			if !looksNumeric(f) {
				continue
			}
			out.add(m, f)
		}
	}
	return out
}

func (out *marked) add(m mark, field string) {
	n, _ := splitUnit(field)
	x, ok := m.parse(n)
	if !ok {
		if _, other := m.other().parse(n); other {
			out.failed++
			out.keep(n, out.failed)
		}
		return
	}
	out.read++
	if y, other := m.other().parse(n); other && y != x && strings.Contains(n, string(m.other())) {
		out.grouped++
		if x > mostThousands || x < -mostThousands {
			out.huge++
		}
		if out.failed == 0 {
			out.keep(n, out.grouped)
		}
	}
}

// keep remembers the first field that tells the marks apart.
func (out *marked) keep(field string, seen int) {
	if seen == 1 {
		out.example = field
	}
}
