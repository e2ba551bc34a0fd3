package threemf

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"

	"seamwright/geom/mesh"
)

// reader goes through an XML text element by element, and keeps the line and
// the depth.
type reader struct {
	d     *decoder
	xml   *xml.Decoder
	depth int
}

// tag is the beginning of an element.
type tag struct{ xml.StartElement }

func (t *tag) attr(local string) string {
	for _, a := range t.Attr {
		if a.Name.Local == local {
			return a.Value
		}
	}
	return ""
}

func (d *decoder) reader(data []byte) *reader {
	return &reader{d: d, xml: xml.NewDecoder(bytes.NewReader(data))}
}

// token returns the next beginning or end of an element, nil at the end of the
// text. Document types, which could define entities, are refused, as the core
// specification does.
func (r *reader) token() (xml.Token, error) {
	for {
		t, err := r.xml.Token()
		line, _ := r.xml.InputPos()
		r.d.Place.Line = line
		switch {
		case errors.Is(err, io.EOF):
			return nil, nil
		case err != nil:
			found := "no XML: " + err.Error()
			var s *xml.SyntaxError
			if errors.As(err, &s) {
				found = "no XML: " + s.Msg
			}
			return nil, r.d.Fault(found, "well-formed XML in UTF-8", "copy or export the file again")
		}
		switch t.(type) {
		case xml.Directive:
			return nil, r.d.Fault("a document type", "none", "export the file again")
		case xml.StartElement, xml.EndElement:
			return t, nil
		}
	}
}

// each calls visit for the elements of the outermost level.
func (r *reader) each(visit func(*tag) error) error {
	for {
		t, err := r.token()
		if err != nil || t == nil {
			return err
		}
		if start, ok := t.(xml.StartElement); ok {
			if err := r.inside(start, visit); err != nil {
				return err
			}
		}
	}
}

// children calls visit for each child of the element that was begun, up to its
// end. Visit has to go through the children of its element in turn; a nil one
// goes through all of them. Skipped elements are told to ignore, if any.
func (r *reader) children(visit func(*tag) error, ignore func(*tag)) error {
	for {
		t, err := r.token()
		if err != nil {
			return err
		}
		start, ok := t.(xml.StartElement)
		if !ok {
			return nil // its end; the decoder matches names
		}
		each := visit
		if each == nil {
			if ignore != nil {
				ignore(&tag{start})
			}
			each = func(*tag) error { return r.children(nil, ignore) }
		}
		if err := r.inside(start, each); err != nil {
			return err
		}
	}
}

func (r *reader) inside(start xml.StartElement, visit func(*tag) error) error {
	if r.depth++; r.depth > r.d.Limits.Depth {
		return r.d.Exceeded("Depth", fmt.Sprintf("elements nested more than %d deep", r.d.Limits.Depth), fmt.Sprintf("at most %d", r.d.Limits.Depth), "export the file again")
	}
	err := visit(&tag{start})
	r.depth--
	return err
}

// skip passes over the rest of an element and notes it once.
func (r *reader) skip(t *tag) error {
	name := fmt.Sprintf("<%s>", t.Name.Local)
	known := len(name) > 40 || len(r.d.ignored) >= 20
	for _, i := range r.d.ignored {
		known = known || i == name
	}
	if !known {
		r.d.ignored = append(r.d.ignored, name)
	}
	return r.children(nil, nil)
}

// number reads an attribute as a number.
func (r *reader) number(t *tag, name string) (float64, error) {
	text := t.attr(name)
	x, ok := mesh.ParseNumber([]byte(text))
	if !ok {
		return 0, r.d.Fault(fmt.Sprintf("%s = %s of <%s>", name, mesh.Quote([]byte(text)), t.Name.Local), "a number", "export the file again")
	}
	return x, nil
}

// whole reads an attribute as a whole number from 0 to 2147483647.
func (r *reader) whole(t *tag, name string) (int32, error) {
	x, err := r.number(t, name)
	if err == nil && (x < 0 || x > 1<<31-1 || x != float64(int32(x))) {
		return 0, r.d.Fault(fmt.Sprintf("%s = %s of <%s>", name, mesh.Quote([]byte(t.attr(name))), t.Name.Local), "a whole number from 0", "export the file again")
	}
	return int32(x), err
}
