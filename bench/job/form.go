package job

import (
	"fmt"
	"slices"
	"strings"
)

// form is how one value of a document is written. Forms make up the table from
// which documents are read, messages are worded and the schema is made; each
// holds the pointer to what it fills.
type form interface {
	// read checks the node and fills the value; what is wrong goes to ps.
	read(ps *Problems, n node)
	// say returns what is allowed and an example, for messages.
	say() (allowed, example string)
	// schema returns the form as a JSON Schema.
	schema() schema
}

// wrongKind reports a node that is no value of the form at all.
func wrongKind(f form, ps *Problems, n node) {
	allowed, example := f.say()
	ps.add(n.at, n.found(), allowed, "write for example "+example)
}

// wrong is why a word is not taken; empty parts are filled by the form.
type wrong struct{ found, allowed, mend string }

// single is the form of one word, number or quantity.
type single struct {
	allowed, example string
	json             schema
	take             func(text string) *wrong
}

func (s single) say() (string, string) { return s.allowed, s.example }
func (s single) schema() schema        { return s.json }

func (s single) read(ps *Problems, n node) {
	if n.shape != word {
		wrongKind(s, ps, n)
		return
	}
	if w := s.take(n.text); w != nil {
		ps.add(n.at, orElse(w.found, n.found()), orElse(w.allowed, s.allowed), orElse(w.mend, "write for example "+s.example))
	}
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}

// many is the form of a list with low to high items (high 0: any number).
type many[T any] struct {
	dst       *[]T
	low, high int
	what      string // such as "points"
	item      func(*T) form
	example   string // "": so many times the item's
}

func manyOf[T any](dst *[]T, low, high int, what string, item func(*T) form) many[T] {
	return many[T]{dst: dst, low: low, high: high, what: what, item: item}
}

// like returns the form with an example of its own.
func (m many[T]) like(example string) many[T] {
	m.example = example
	return m
}

func (m many[T]) say() (string, string) {
	_, example := m.item(new(T)).say()
	count := fmt.Sprintf("%d to %d", m.low, m.high)
	switch {
	case m.high == m.low:
		count = fmt.Sprint(m.low)
	case m.high == 0 || m.high > maxJoints: // bounds of memory are no news to a reader
		count = fmt.Sprintf("%d or more", m.low)
	}
	list := "[" + strings.Join(slices.Repeat([]string{example}, max(m.low, 1)), ", ") + "]"
	return "a list of " + count + " " + m.what, orElse(m.example, list)
}

func (m many[T]) schema() schema {
	s := schema{"type": "array", "items": m.item(new(T)).schema(), "minItems": m.low}
	if m.high > 0 {
		s["maxItems"] = m.high
	}
	return s
}

func (m many[T]) read(ps *Problems, n node) {
	if n.shape != series {
		wrongKind(m, ps, n)
		return
	}
	if len(n.items) < m.low || m.high > 0 && len(n.items) > m.high {
		allowed, example := m.say()
		ps.add(n.at, fmt.Sprintf("a list of %d", len(n.items)), allowed, "write for example "+example)
		if m.high > 0 {
			n.items = n.items[:min(len(n.items), m.high)]
		}
	}
	out := make([]T, len(n.items))
	for i, item := range n.items {
		if item.shape != refused {
			m.item(&out[i]).read(ps, item)
		}
	}
	*m.dst = out
}

// either is the form of a value that is a word or a group of fields.
type either struct {
	word  single
	group record
}

func (e either) say() (string, string) {
	allowed, _ := e.group.say()
	return e.word.allowed + "; or " + allowed, e.word.example
}

func (e either) schema() schema {
	return schema{"oneOf": []schema{e.word.schema(), e.group.schema()}}
}

func (e either) read(ps *Problems, n node) {
	switch n.shape {
	case word:
		if e.group.at != nil {
			*e.group.at = n.at
		}
		spoken := e.word
		spoken.allowed, _ = e.say()
		spoken.read(ps, n)
	case group:
		e.group.read(ps, n)
	default:
		wrongKind(e, ps, n)
	}
}

// placed fills at with the place of the value that f reads.
type placed struct {
	form
	at *Place
}

func (p placed) read(ps *Problems, n node) {
	*p.at = n.at
	p.form.read(ps, n)
}

// oneOrMany is the form of a list that may be written as its only item.
type oneOrMany[T any] struct{ many[T] }

func (o oneOrMany[T]) say() (string, string) {
	itemAllowed, example := o.item(new(T)).say()
	allowed, _ := o.many.say()
	return itemAllowed + "; or " + allowed, example
}

func (o oneOrMany[T]) schema() schema {
	return schema{"oneOf": []schema{o.item(new(T)).schema(), o.many.schema()}}
}

func (o oneOrMany[T]) read(ps *Problems, n node) {
	switch n.shape {
	case series:
		o.many.read(ps, n)
		return
	case group:
		if _, plain := o.item(new(T)).(single); plain {
			break
		}
		fallthrough
	case word:
		o.many.read(ps, node{shape: series, items: []node{n}, at: n.at})
		return
	}
	wrongKind(o, ps, n)
}
