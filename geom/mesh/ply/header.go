package ply

import (
	"fmt"
	"strconv"
	"strings"

	"seamwright/geom/mesh"
)

// kind is one of the three ways in which a body is written.
type kind uint8

const (
	ascii kind = iota
	littleEndian
	bigEndian
)

func (k kind) String() string {
	return [...]string{"ASCII PLY", "binary PLY, little endian", "binary PLY, big endian"}[k]
}

// header is what stands above the data.
type header struct {
	kind     kind
	elements []element
	lines    int // of the header
	size     int // of the header in bytes
}

type element struct {
	name       string
	count      int
	line       int
	properties []property
}

type property struct {
	name      string
	list      bool
	countKind scalar // of a list
	kind      scalar // of the value, or of those of a list
}

// leastRow returns how many bytes a row takes at least.
func (e *element) leastRow(s source) int {
	n := 0
	for _, p := range e.properties {
		if p.list {
			n += s.least(p.countKind)
		} else {
			n += s.least(p.kind)
		}
	}
	return n
}

const (
	// maxHeader bounds the lines of a header, comments included.
	maxHeader = 10_000
	// maxProperties bounds elements and properties.
	maxProperties = 256
)

// readHeader reads up to end_header.
func readHeader(b *mesh.Builder, data []byte) (*header, error) {
	b.Place = mesh.Place{Line: 1}
	if !hasMagic(data) {
		return nil, b.Fault(mesh.Quote(data[:min(len(data), 8)]), "ply on the first line", "choose a PLY file")
	}
	h := &header{}
	lines := mesh.NewLines(data, 0)
	_, _ = lines.Next()
	hasFormat := false
	for {
		line, more := lines.Next()
		b.Place.Line = lines.Number
		if !more || lines.Number > maxHeader {
			return nil, b.Fault("no end_header", fmt.Sprintf("end_header within %d lines", maxHeader), "copy or export the file again: it is cut off")
		}
		fields := strings.Fields(string(line[:min(len(line), 4096)]))
		if len(fields) == 0 {
			continue
		}
		var err error
		switch fields[0] {
		case "comment", "obj_info":
		case "format":
			hasFormat = true
			err = h.format(b, fields)
		case "element":
			err = h.element(b, fields)
		case "property":
			err = h.property(b, fields)
		case "end_header":
			if !hasFormat {
				return nil, b.Fault("a header without a format", "a line such as format ascii 1.0", "export the file again")
			}
			h.lines = lines.Number
			h.size = len(data) - lines.Rest()
			return h, nil
		default:
			err = b.Fault(mesh.Quote([]byte(fields[0])), "comment, format, element, property or end_header", "export the file again")
		}
		if err != nil {
			return nil, err
		}
	}
}

func (h *header) format(b *mesh.Builder, fields []string) error {
	if len(fields) == 3 && fields[2] == "1.0" {
		for k, name := range []string{"ascii", "binary_little_endian", "binary_big_endian"} {
			if fields[1] == name {
				h.kind = kind(k)
				return nil
			}
		}
	}
	return b.Fault(mesh.Quote([]byte(strings.Join(fields, " "))), "format ascii, binary_little_endian or binary_big_endian 1.0", "export the file again")
}

func (h *header) element(b *mesh.Builder, fields []string) error {
	allowed := "element, a name and how many rows it has"
	if len(fields) != 3 || len(h.elements) >= maxProperties {
		return b.Fault(mesh.Quote([]byte(strings.Join(fields, " "))), allowed, "export the file again")
	}
	n, err := strconv.ParseInt(fields[2], 10, 32)
	if err != nil || n < 0 {
		return b.Fault(mesh.Quote([]byte(fields[2])), allowed+", up to 2147483647", "export the file again")
	}
	for _, e := range h.elements {
		if e.name == fields[1] {
			return b.Fault("the element "+mesh.Quote([]byte(e.name))+" again", "each element once", "export the file again")
		}
	}
	h.elements = append(h.elements, element{name: fields[1], count: int(n), line: b.Place.Line})
	return nil
}

func (h *header) property(b *mesh.Builder, fields []string) error {
	if len(h.elements) == 0 {
		return b.Fault("a property above the first element", "elements first", "export the file again")
	}
	e := &h.elements[len(h.elements)-1]
	fault := b.Fault(mesh.Quote([]byte(strings.Join(fields, " "))), "property TYPE NAME or property list TYPE TYPE NAME", "export the file again")
	if len(e.properties) >= maxProperties {
		return fault
	}
	var p property
	ok := false
	switch {
	case len(fields) == 3:
		p.kind, ok = scalarOf(fields[1])
	case len(fields) == 5 && fields[1] == "list":
		p.list = true
		var count bool
		p.countKind, count = scalarOf(fields[2])
		p.kind, ok = scalarOf(fields[3])
		ok = ok && count && p.countKind < float32Kind
	}
	if !ok {
		return fault
	}
	p.name = fields[len(fields)-1]
	for _, q := range e.properties {
		if q.name == p.name {
			return b.Fault("the property "+mesh.Quote([]byte(p.name))+" again", "each property once", "export the file again")
		}
	}
	e.properties = append(e.properties, p)
	return nil
}
