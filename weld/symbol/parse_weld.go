package symbol

import (
	"fmt"
	"strings"

	"seamwright/unit"
)

// head is a weld as it is named before its side.
type head struct {
	weld Weld
	piece
}

// begin begins the weld of one side or of both.
func (r *reader) begin(h head, side Side) *Error {
	r.at, r.side = nil, side
	r.places[side.String()] = r.column(h.at)
	clear(r.here)
	if h.weld.Depth != 0 { // said with the size
		r.here["depth"] = true
	}
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
		*at.weld = h.weld
		r.at = append(r.at, at.weld)
	}
	return nil
}

// sideless says that the side of the pending weld is missing.
func (r *reader) sideless() *Error {
	return &Error{Name: UnknownSide, Column: r.column(r.pending.at), Found: fmt.Sprintf("%q without its side", r.pending.text), Allowed: names(sideWords),
		Mend: fmt.Sprintf(`write the side behind it, such as "%s arrow side"`, r.pending.text)}
}

// wait reads a part that may be a weld whose side follows as the next part.
func (r *reader) wait(p piece) (done bool, err *Error) {
	if p.text == "" || r.runs(p.text) {
		return false, nil
	}
	h, err := r.head(p)
	switch {
	case err == nil:
		r.pending = &h
		return true, nil
	case err.Name == BareSize || err.Name == TwoSizes || err.Name == BadNumber && h.weld.Kind != 0:
		return true, err
	}
	return false, nil // something else
}

// head reads "a5", "fillet a5", "a5 fillet", "V s10", "V". Beside an error it has the
// weld as far as it was named.
func (r *reader) head(p piece) (head, *Error) {
	h := head{Weld{}, p}
	size := p.text
	for _, w := range kindWords {
		for _, name := range append([]string{w.name}, w.also...) {
			for _, cut := range []func(string, string) (string, bool){cutPrefix, cutSuffix} {
				if rest, ok := cut(p.text, name); ok && len(rest) < len(size) {
					h.weld.Kind, size = w.value, rest
				}
			}
		}
	}
	fits := Weld{Kind: h.weld.Kind}
	if fits.Kind == 0 {
		fits.Kind = Fillet
	}
	if size != "" {
		if err := fits.size(strings.ToLower(size), r.sym.System); err != nil {
			err.Column = r.column(p.at + max(0, strings.Index(p.text, size)))
			return h, err
		}
	}
	h.weld = fits
	return h, nil
}

// size reads a weld's size, in lower case: with its letter, or without one as AWS
// A2.4 writes it.
func (w *Weld) size(text string, system System) *Error {
	bare := text[0] >= '0' && text[0] <= '9' || text[0] == '('
	switch {
	case bare && system != AWSA24:
		return w.bareSize(text, system)
	case bare && w.Kind.Groove():
		return w.depthAndSize(text)
	case bare:
		text = Leg.Letter() + text
	}
	size, err := readSize(text)
	w.Size = size
	return err
}

// depthAndSize reads the depth of preparation of a groove and its weld size in
// brackets, either of which may be missing.
func (w *Weld) depthAndSize(text string) *Error {
	depth, rest, bracket := strings.Cut(text, "(")
	if depth = strings.TrimSpace(depth); depth != "" {
		x, err := quantity("depth of preparation", depth, unit.Length)
		if err != nil {
			return err
		}
		w.Depth = x
	}
	if !bracket {
		return nil
	}
	inner, closed := strings.CutSuffix(rest, ")")
	if !closed {
		return &Error{Name: BadNumber, Found: fmt.Sprintf("%q without its closing bracket", text), Allowed: "the depth of preparation with the weld size behind it in brackets", Mend: "write it like 8(10)"}
	}
	x, err := quantity("weld size", inner, unit.Length)
	w.Size = Size{Is: Penetration, Value: x}
	return err
}

// readSize reads a size with its letter, in lower case.
func readSize(text string) (Size, *Error) {
	letter, rest := text[:min(1, len(text))], text[min(1, len(text)):]
	m := map[string]Measure{"z": Leg, "a": Throat, "s": Penetration}[letter]
	if m == 0 {
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
	if err := twoSizes(letter, rest); err != nil {
		return Size{}, err
	}
	before, after, unequal := strings.Cut(rest, "x")
	var err *Error
	if size.Value, err = quantity("size", before, unit.Length); err == nil && unequal {
		size.Second, err = quantity("second leg", after, unit.Length)
	}
	return size, err
}

// bareSize refuses a size without its letter.
func (w *Weld) bareSize(text string, system System) *Error {
	mend, byAWS := fmt.Sprintf("ask what the drawing means and write z%s or a%s", text, text), "the leg"
	if w.Kind.Groove() {
		mend, byAWS = "ask what the drawing means and write s"+strings.Trim(text, "()"), "the depth of preparation, in brackets the weld size"
	}
	if system == 0 {
		mend += "; by AWS A2.4 it is " + byAWS + ": write AWS: in front if the drawing is of that system"
	}
	return &Error{Name: BareSize, Found: fmt.Sprintf("the size %q has no letter", text), Allowed: "z for a leg, a for a throat, s for a penetration", Mend: mend}
}

// twoSizes refuses a throat and a leg in one size, in the order in which no fillet
// can have them, too.
func twoSizes(letter, rest string) *Error {
	second := map[string]string{"a": "z", "z": "a"}[letter]
	before, after, both := strings.Cut(rest, orNone(second))
	if !both {
		return nil
	}
	leg, throat := after, before
	if letter == "z" {
		leg, throat = before, after
	}
	z, err := quantity("leg", leg, unit.Length)
	if err != nil {
		return err
	}
	a, err := quantity("throat", throat, unit.Length)
	switch {
	case err != nil:
		return err
	case a >= z:
		return &Error{Name: TwoSizes, Found: fmt.Sprintf("a throat of %s over a leg of %s", mm(a), mm(z)), Allowed: "one size; a throat is below its leg", Mend: "ask which of the two the drawing has"}
	}
	return &Error{Name: TwoSizes, Found: fmt.Sprintf("a throat of %s and a leg of %s", mm(a), mm(z)), Allowed: "one size", Mend: "write the one that the drawing has; the other follows from the angle between the plates"}
}

// orNone returns a text that stands in no size where there is none.
func orNone(letter string) string {
	if letter == "" {
		return "\n"
	}
	return letter
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
