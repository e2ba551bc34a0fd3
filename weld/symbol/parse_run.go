package symbol

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// dashed is a length and a second number with a dash between them, as drawings have
// them; the inch's own dash, as in 1-1/2 in, stands in none.
var dashed = regexp.MustCompile(`^((?:[0-9]+ ?[xX] ?)?[0-9.]+ ?(mm|cm|m|in|ft|")?) ?[-–] ?([0-9.]+ ?(mm|cm|m|in|ft|")?)$`)

// runs reports whether a part is a length with a spacing, rather than a size.
func (r *reader) runs(part string) bool {
	if part[0] < '0' || part[0] > '9' {
		return false
	}
	counted := len(r.at) > 0 && strings.Contains(part, "x")
	return counted || strings.Contains(part, " pitch ") || strings.Contains(part, "(") || dashed.MatchString(part)
}

// run reads "3 x 50 (100)", "50 (100)", "50 pitch 100", "50-100".
func (r *reader) run(part string, at int) *Error {
	bad := func(found string) *Error {
		return &Error{Name: UnknownPart, Found: found, Allowed: `"3 x 50 (100)" with the clear gap, "50 pitch 100" centre to centre, or "length 300"`, Mend: "write the length so, or take the part out"}
	}
	elements, spacing, is := part, "", Pitch
	if before, after, ok := strings.Cut(part, " pitch "); ok {
		elements, spacing = before, after
	} else if before, after, ok := strings.Cut(part, "("); ok {
		elements, spacing, is = before, strings.TrimSuffix(after, ")"), ClearGap
		if !strings.HasSuffix(after, ")") {
			return bad(fmt.Sprintf("%q without its closing bracket", part))
		}
	} else if m := dashed.FindStringSubmatch(part); m != nil {
		var err *Error
		if is, err = r.spacingOf(part); err != nil {
			return err
		}
		elements, spacing = shareUnit(m)
	} else {
		return bad(fmt.Sprintf("%q", part))
	}
	run := Run{SpacingIs: is}
	if n, length, ok := strings.Cut(elements, "x"); ok {
		count, err := strconv.Atoi(strings.TrimSpace(n))
		if err != nil || count < 1 {
			return bad(fmt.Sprintf("%q elements", strings.TrimSpace(n)))
		}
		run.Elements, elements = count, length
	}
	var err *Error
	if run.Length, err = quantity("length", elements, unit.Length); err != nil {
		return err
	}
	if run.Spacing, err = quantity(is.String(), spacing, unit.Length); err != nil {
		return err
	}
	return r.set("length and spacing", at, func(w *Weld) { w.Run = run })
}

// spacingOf says what the second number of "60-150" is: by the system, never by
// guess.
func (r *reader) spacingOf(part string) (SpacingKind, *Error) {
	switch r.sym.System.Family() {
	case weld.AWS:
		return Pitch, nil
	case weld.ISO:
		return ClearGap, nil
	}
	m := dashed.FindStringSubmatch(part)
	return 0, &Error{Name: NoSystem, Found: fmt.Sprintf("%q, whose second number is a pitch by AWS A2.4 and a clear gap by ISO 2553", part), Allowed: names(systemWords),
		Mend: fmt.Sprintf("name the system of the drawing in front, or write %s pitch %s or %s (%s)", m[1], m[3], m[1], m[3])}
}

// shareUnit gives a unit that stands behind one of two numbers to the other, too.
func shareUnit(m []string) (length, spacing string) {
	length, spacing = m[1], m[3]
	switch {
	case m[2] == "" && m[4] != "":
		length += " " + m[4]
	case m[4] == "" && m[2] != "":
		spacing += " " + m[2]
	}
	return strings.ToLower(length), spacing
}

// bare is a number without a unit.
var bare = regexp.MustCompile(`^[0-9.]+$`)

// quantity reads a length in mm, or an angle in degrees, unless a unit stands
// behind the number.
func quantity(what, text string, k unit.Kind) (float64, *Error) {
	text = strings.TrimSpace(text)
	usual := unit.Millimetres
	if k == unit.Angle {
		usual = unit.Degrees
	}
	full := text
	if bare.MatchString(text) {
		full += " " + usual.String()
	}
	x, err := unit.Parse(k, full)
	if err != nil {
		return 0, &Error{Name: BadNumber, Found: fmt.Sprintf("%s %q", what, text), Allowed: "a number in " + usual.String() + " or with its unit", Mend: "write it like 50 or 2 in"}
	}
	return x, nil
}
