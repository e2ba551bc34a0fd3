package symbol

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"seamwright/unit"
)

// maxText is the longest text that is read as a symbol, in bytes.
const maxText = 200

// Parse reads a symbol in the text form and checks it. Parts stand in any
// order, with commas or semicolons between them; a part that ends with a side
// begins a weld, and the parts of a weld follow it:
//
//	[system:] SIZE or KIND [SIZE] arrow side | other side | both sides
//	  depth D, root G, angle A                          of a groove
//	  length L | N x L (GAP) | L pitch P                how far it runs
//	  contour flat | convex | concave | toes blended, finish C | G | M | R | H | U
//	chain | staggered, all round, field, broken arrow, tail "135/ISO 5817-C/PB"
//
// A size has its letter, z for a leg, a for a throat, s for a penetration; a
// fillet needs no further word. Numbers are mm and degrees unless a unit
// follows ("z 1/4 in"). Every error is an *Error.
func Parse(text string) (Symbol, error) {
	text = strings.Join(strings.Fields(text), " ")
	if len(text) > maxText {
		return Symbol{}, &Error{Name: TooLong, Text: strings.ToValidUTF8(text[:maxText], ""), Found: fmt.Sprintf("%d bytes", len(text)),
			Allowed: fmt.Sprintf("%d bytes", maxText), Mend: "write one symbol at a time"}
	}
	r := reader{said: map[string]bool{}, here: map[string]bool{}}
	err := r.read(text)
	if err == nil {
		err = r.sym.check()
	}
	if err != nil {
		err.Text = text
		return Symbol{}, err
	}
	return r.sym, nil
}

// reader builds a symbol part by part.
type reader struct {
	sym  Symbol
	at   []*Weld         // the welds that the next parts speak of
	here map[string]bool // parts given already, of these welds
	said map[string]bool // parts given already, of the symbol
}

func (r *reader) read(text string) *Error {
	if name, rest, ok := strings.Cut(text, ":"); ok && !strings.Contains(name, `"`) {
		if err := r.system(strings.TrimSpace(name)); err != nil {
			return err
		}
		text = rest
	}
	parts, err := split(text)
	if err != nil {
		return err
	}
	for _, part := range parts {
		if err := r.part(part); err != nil {
			return err
		}
	}
	if r.sym.Pattern == 0 && r.sym.Arrow.Run.Stitched() && r.sym.Other.Run.Stitched() {
		r.sym.Pattern = Chain // neither standard has a sign for it: it is what stands without one
	}
	return nil
}

func (r *reader) system(name string) *Error {
	system, ok := find(systemWords, name)
	if !ok {
		e := &Error{Name: UnknownSystem, Found: fmt.Sprintf("system %q", name), Allowed: names(systemWords), Mend: "write one of them, or leave the system out"}
		if strings.EqualFold(name, "ISO") || strings.EqualFold(name, "ISO 2553") {
			e.Mend = "say whether the drawing is of system A (solid and dashed line) or B (one line)"
		}
		return e
	}
	r.sym.System = system
	return nil
}

// split cuts the text at commas and semicolons outside quotes.
func split(text string) ([]string, *Error) {
	var parts []string
	quoted, start := false, 0
	for i := 0; i < len(text); i++ {
		switch {
		case text[i] == '"':
			quoted = !quoted
		case !quoted && (text[i] == ',' || text[i] == ';'):
			parts = append(parts, strings.TrimSpace(text[start:i]))
			start = i + 1
		}
	}
	if quoted {
		return nil, &Error{Name: BadTail, Found: "a quotation mark without its partner", Allowed: `tail "..."`, Mend: "close the quotation"}
	}
	return append(parts, strings.TrimSpace(text[start:])), nil
}

// part reads one part.
func (r *reader) part(part string) *Error {
	for _, side := range sideWords {
		if head, ok := cutSuffix(part, side.name); ok {
			return r.weld(head, side.value)
		}
	}
	first, rest, _ := strings.Cut(part, " ")
	if first = strings.ToLower(first); first == "tail" {
		return r.tail(rest)
	}
	if done, err := r.flag(strings.ToLower(part)); done {
		return err
	}
	if len(r.at) == 0 {
		return r.unplaced(part)
	}
	switch first {
	case "depth":
		return r.number(first, rest, unit.Length, func(w *Weld, x float64) { w.Depth = x })
	case "root":
		return r.number(first, rest, unit.Length, func(w *Weld, x float64) { w.Root = Opening{x, true} })
	case "angle":
		return r.number(first, rest, unit.Angle, func(w *Weld, x float64) { w.Angle = x })
	case "length":
		return r.number("length and spacing", rest, unit.Length, func(w *Weld, x float64) { w.Run = Run{Length: x} })
	case "contour":
		contour, ok := find(contourWords, rest)
		if !ok {
			return &Error{Name: BadContour, Found: fmt.Sprintf("contour %q", rest), Allowed: names(contourWords), Mend: "write one of them"}
		}
		return r.set(first, func(w *Weld) { w.Contour = contour })
	case "finish":
		finish, ok := find(finishWords, rest)
		if !ok {
			return &Error{Name: BadFinish, Found: fmt.Sprintf("finish %q", rest), Allowed: names(finishWords), Mend: "write one letter of AWS A2.4"}
		}
		return r.set(first, func(w *Weld) { w.Finish = finish })
	}
	return r.run(part)
}

// unplaced says what is wrong with a part that stands before any weld.
func (r *reader) unplaced(part string) *Error {
	if _, err := readSize(strings.ToLower(part)); err == nil || part == "" || err.Name == BareSize {
		return &Error{Name: UnknownSide, Found: fmt.Sprintf("%q without its side", part), Allowed: names(sideWords), Mend: `write the side behind it, such as "a5 arrow side"`}
	}
	return &Error{Name: UnknownPart, Found: fmt.Sprintf("%q before any weld", part), Allowed: "a size or weld with its side first", Mend: `begin with a weld, such as "a5 arrow side"`}
}

// flag reads the words that hold for the whole symbol.
func (r *reader) flag(part string) (done bool, err *Error) {
	s := &r.sym
	if pattern, ok := find(patternWords, part); ok {
		s.Pattern = pattern
		return true, once(r.said, "pattern")
	}
	switch part {
	case "all round", "all around":
		s.AllRound = true
		return true, once(r.said, "all round")
	case "field", "site":
		s.Field = true
		return true, once(r.said, "field")
	case "broken arrow":
		s.BrokenArrow = true
		return true, once(r.said, "broken arrow")
	}
	return false, nil
}

// tail reads the quoted text of a tail.
func (r *reader) tail(text string) *Error {
	inner, ok := strings.CutPrefix(text, `"`)
	inner, closed := strings.CutSuffix(inner, `"`)
	if !ok || !closed || strings.Contains(inner, `"`) {
		return &Error{Name: BadTail, Found: "tail " + text, Allowed: `tail "..."`, Mend: "put the tail into one pair of quotation marks"}
	}
	tail, err := parseTail(inner)
	if err != nil {
		return err
	}
	r.sym.Tail = tail
	return once(r.said, "tail")
}

// once refuses a part that was given before.
func once(said map[string]bool, what string) *Error {
	if said[what] {
		return &Error{Name: SaidTwice, Found: "a second " + what, Allowed: "one", Mend: "keep the one that the drawing has"}
	}
	said[what] = true
	return nil
}

// set gives a part to the welds at hand.
func (r *reader) set(what string, to func(*Weld)) *Error {
	for _, w := range r.at {
		to(w)
	}
	return once(r.here, what)
}

func (r *reader) number(what, text string, k unit.Kind, to func(*Weld, float64)) *Error {
	x, err := quantity(what, text, k)
	if err != nil {
		return err
	}
	return r.set(what, func(w *Weld) { to(w, x) })
}

// weld begins the weld of one side or of both.
func (r *reader) weld(head string, side Side) *Error {
	kind, sizeText := Fillet, head
	for _, w := range kindWords {
		for _, name := range append([]string{w.name}, w.also...) {
			if rest, ok := cutPrefix(head, name); ok && len(rest) < len(sizeText) {
				kind, sizeText = w.value, rest
			}
		}
	}
	weld := Weld{Kind: kind}
	if sizeText != "" {
		size, err := readSize(strings.ToLower(sizeText))
		if err != nil {
			return err
		}
		weld.Size = size
	}
	r.at = nil
	clear(r.here)
	for _, at := range []struct {
		side Side
		weld *Weld
	}{{ArrowSide, &r.sym.Arrow}, {OtherSide, &r.sym.Other}} {
		if side != BothSides && side != at.side {
			continue
		}
		if at.weld.Kind != 0 {
			return &Error{Name: SideTwice, Found: "a second weld on the " + at.side.String(), Allowed: "one weld a side", Mend: "write a symbol for each operation, nearest the arrow first"}
		}
		*at.weld = weld
		r.at = append(r.at, at.weld)
	}
	return nil
}

// run reads "3 x 50 (100)", "50 pitch 100".
func (r *reader) run(part string) *Error {
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
	return r.set("length and spacing", func(w *Weld) { w.Run = run })
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

// readSize reads a size with its letter, in lower case.
func readSize(text string) (Size, *Error) {
	letter, rest := text[:min(1, len(text))], text[min(1, len(text)):]
	m := map[string]Measure{"z": Leg, "a": Throat, "s": Penetration}[letter]
	switch {
	case letter >= "0" && letter <= "9":
		return Size{}, &Error{Name: BareSize, Found: fmt.Sprintf("the size %q has no letter", text), Allowed: "z for a leg, a for a throat, s for a penetration",
			Mend: fmt.Sprintf("ask what the drawing means and write z%s or a%s", text, text)}
	case m == 0:
		return Size{}, &Error{Name: UnknownKind, Found: fmt.Sprintf("%q", text), Allowed: names(kindWords) + "; or a size with z, a or s", Mend: "write the weld or the size"}
	}
	size := Size{Is: m}
	if before, after, ok := strings.Cut(rest, "a"); m == Penetration && ok {
		deep, err := quantity("penetration", before, unit.Length)
		if err != nil {
			return Size{}, err
		}
		size.Is, size.Deep, rest = Throat, deep, after
	}
	before, after, unequal := strings.Cut(rest, "x")
	var err *Error
	if size.Value, err = quantity("size", before, unit.Length); err == nil && unequal {
		size.Second, err = quantity("second leg", after, unit.Length)
	}
	return size, err
}

// cutSuffix takes a word off the end of text, in any case.
func cutSuffix(text, word string) (string, bool) {
	n := len(text) - len(word)
	if n < 0 || !strings.EqualFold(text[n:], word) || n > 0 && text[n-1] != ' ' {
		return text, false
	}
	return strings.TrimSpace(text[:n]), true
}

// cutPrefix takes a word off the start of text, in any case.
func cutPrefix(text, word string) (string, bool) {
	n := len(word)
	if n > len(text) || !strings.EqualFold(text[:n], word) || n < len(text) && text[n] != ' ' {
		return text, false
	}
	return strings.TrimSpace(text[n:]), true
}
