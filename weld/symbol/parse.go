package symbol

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"seamwright/unit"
)

// maxText is the longest text that is read as a symbol, in bytes.
const maxText = 200

// Parse reads a symbol in the text form and checks it. Parts stand in any
// order, with commas or semicolons between them; a part that ends with a side
// begins a weld, and the parts of a weld follow it. The side may stand as a part of
// its own behind the weld:
//
//	[system:] SIZE or KIND [SIZE] arrow side | other side | both sides
//	  depth D, root G, angle A                          of a groove
//	  length L | N x L (GAP) | L (GAP) | L pitch P | L-P   how far it runs
//	  contour flat | convex | concave | toes blended, finish C | G | M | R | H | U
//	chain | staggered, all round, field, broken arrow, tail "135/ISO 5817-C/PB"
//
// A size has its letter, z for a leg, a for a throat, s for a penetration; a
// fillet needs no further word. Under AWS A2.4 a figure without a letter is the leg
// of a fillet, and of a groove the depth of preparation, with the weld size behind
// it in brackets, as that standard writes them; the second number of L-P is the
// pitch there and the clear gap under ISO 2553. Numbers are mm and degrees unless a
// unit follows ("z 1/4 in"). Every error is an *Error.
func Parse(text string) (Symbol, error) { return ParseBy(text, 0) }

// ParseBy reads a symbol as Parse does, by the system of the drawing where the text
// names none.
func ParseBy(text string, by System) (Symbol, error) {
	text = strings.Join(strings.Fields(text), " ")
	if len(text) > maxText {
		return Symbol{}, &Error{Name: TooLong, Text: strings.ToValidUTF8(text[:maxText], ""), Found: fmt.Sprintf("%d bytes", len(text)),
			Allowed: fmt.Sprintf("%d bytes", maxText), Mend: "write one symbol at a time"}
	}
	r := reader{text: text, sym: Symbol{System: by}, said: map[string]bool{}, here: map[string]bool{}, places: map[string]int{}}
	err := r.read()
	if err == nil {
		if err = r.sym.check(); err != nil {
			err.Column = r.placeOf(err.of)
		}
	}
	if err != nil {
		err.Text = text
		return Symbol{}, err
	}
	return r.sym, nil
}

// reader builds a symbol part by part.
type reader struct {
	text    string
	sym     Symbol
	at      []*Weld         // the welds that the next parts speak of
	side    Side            // where those are
	pending *head           // a weld whose side has not come yet
	here    map[string]bool // parts given already, of these welds
	said    map[string]bool // parts given already, of the symbol
	places  map[string]int  // columns of what was given, by side and part
}

// piece is a part of the text and its offset there, in bytes.
type piece struct {
	text string
	at   int
}

// column turns an offset, in bytes, into a column, in characters from 1.
func (r *reader) column(at int) int { return utf8.RuneCountInString(r.text[:at]) + 1 }

func (r *reader) read() *Error {
	at := 0
	if name, _, ok := strings.Cut(r.text, ":"); ok && !strings.Contains(name, `"`) {
		if err := r.system(strings.TrimSpace(name)); err != nil {
			err.Column = 1
			return err
		}
		at = len(name) + 1
	}
	parts, err := split(r.text, at)
	if err != nil {
		err.Column = r.column(len(r.text[:strings.LastIndex(r.text, `"`)]))
		return err
	}
	for _, p := range parts {
		if err := r.part(p); err != nil {
			if err.Column == 0 {
				err.Column = r.column(p.at)
			}
			return err
		}
	}
	if r.pending != nil {
		return r.sideless()
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

// split cuts the text behind an offset, in bytes, at commas and semicolons outside
// quotes.
func split(text string, start int) ([]piece, *Error) {
	var parts []piece
	add := func(end int) {
		part := text[start:end]
		blanks := len(part) - len(strings.TrimLeft(part, " "))
		parts = append(parts, piece{strings.TrimSpace(part), start + blanks})
		start = end + 1
	}
	quoted := false
	for i := start; i < len(text); i++ {
		switch {
		case text[i] == '"':
			quoted = !quoted
		case !quoted && (text[i] == ',' || text[i] == ';'):
			add(i)
		}
	}
	if quoted {
		return nil, &Error{Name: BadTail, Found: "a quotation mark without its partner", Allowed: `tail "..."`, Mend: "close the quotation"}
	}
	add(len(text))
	return parts, nil
}

// part reads one part.
func (r *reader) part(p piece) *Error {
	if side, ok := find(sideWords, p.text); ok && r.pending != nil {
		head := *r.pending
		r.pending = nil
		return r.begin(head, side)
	}
	if r.pending != nil {
		return r.sideless()
	}
	for _, side := range sideWords {
		if text, ok := cutSuffix(p.text, side.name); ok {
			head, err := r.head(piece{text, p.at})
			if err != nil {
				return err
			}
			return r.begin(head, side.value)
		}
	}
	first, rest, _ := strings.Cut(p.text, " ")
	if first = strings.ToLower(first); first == "tail" {
		r.places["tail"] = r.column(p.at)
		return r.tail(rest)
	}
	if done, err := r.flag(strings.ToLower(p.text), p.at); done {
		return err
	}
	if done, err := r.wait(p); done {
		return err
	}
	if len(r.at) == 0 {
		return unplaced(p.text)
	}
	return r.ofWeld(first, rest, p)
}

// ofWeld reads a part that belongs to the welds at hand.
func (r *reader) ofWeld(first, rest string, p piece) *Error {
	at := r.column(p.at)
	switch first {
	case "depth":
		return r.number(first, rest, at, unit.Length, func(w *Weld, x float64) { w.Depth = x })
	case "root":
		return r.number(first, rest, at, unit.Length, func(w *Weld, x float64) { w.Root = Opening{x, true} })
	case "angle":
		return r.number(first, rest, at, unit.Angle, func(w *Weld, x float64) { w.Angle = x })
	case "length":
		return r.number("length and spacing", rest, at, unit.Length, func(w *Weld, x float64) { w.Run = Run{Length: x} })
	case "contour":
		contour, ok := find(contourWords, rest)
		if !ok {
			return &Error{Name: BadContour, Found: fmt.Sprintf("contour %q", rest), Allowed: names(contourWords), Mend: "write one of them"}
		}
		return r.set(first, at, func(w *Weld) { w.Contour = contour })
	case "finish":
		finish, ok := find(finishWords, rest)
		if !ok {
			return &Error{Name: BadFinish, Found: fmt.Sprintf("finish %q", rest), Allowed: names(finishWords), Mend: "write one letter of AWS A2.4"}
		}
		return r.set(first, at, func(w *Weld) { w.Finish = finish })
	}
	return r.run(p.text, at)
}

// unplaced says what is wrong with a part that stands before any weld.
func unplaced(part string) *Error {
	if part == "" {
		return &Error{Name: UnknownSide, Found: fmt.Sprintf("%q without its side", part), Allowed: names(sideWords), Mend: `write the side behind it, such as "a5 arrow side"`}
	}
	return &Error{Name: UnknownPart, Found: fmt.Sprintf("%q before any weld", part), Allowed: "a size or weld with its side first", Mend: `begin with a weld, such as "a5 arrow side"`}
}

// flag reads the words that hold for the whole symbol.
func (r *reader) flag(part string, at int) (done bool, err *Error) {
	s := &r.sym
	if pattern, ok := find(patternWords, part); ok {
		s.Pattern = pattern
		return true, r.once("pattern", at)
	}
	switch part {
	case "all round", "all around":
		s.AllRound = true
		return true, r.once("all round", at)
	case "field", "site":
		s.Field = true
		return true, r.once("field", at)
	case "broken arrow":
		s.BrokenArrow = true
		return true, r.once("broken arrow", at)
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

// once notes the place of a part of the symbol, an offset in bytes, and refuses one
// that was given before.
func (r *reader) once(what string, at int) *Error {
	r.places[what] = r.column(at)
	return once(r.said, what)
}

// once refuses a part that was given before.
func once(said map[string]bool, what string) *Error {
	if said[what] {
		return &Error{Name: SaidTwice, Found: "a second " + what, Allowed: "one", Mend: "keep the one that the drawing has"}
	}
	said[what] = true
	return nil
}

// set gives a part that stands at a column to the welds at hand.
func (r *reader) set(what string, at int, to func(*Weld)) *Error {
	for _, w := range r.at {
		to(w)
	}
	r.places[r.side.String()+" "+what] = at
	return once(r.here, what)
}

func (r *reader) number(what, text string, at int, k unit.Kind, to func(*Weld, float64)) *Error {
	x, err := quantity(what, text, k)
	if err != nil {
		return err
	}
	return r.set(what, at, func(w *Weld) { to(w, x) })
}

// placeOf returns the column of what a check speaks of: a part of a weld, that weld,
// or a part of the symbol; 0 where it speaks of the whole.
func (r *reader) placeOf(of part) int {
	for _, side := range []Side{of.side, BothSides} {
		for _, key := range []string{side.String() + " " + of.what, side.String(), of.what} {
			if at, ok := r.places[key]; ok {
				return at
			}
		}
	}
	return 0
}
