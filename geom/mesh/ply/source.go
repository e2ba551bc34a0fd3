package ply

import (
	"encoding/binary"
	"fmt"
	"math"

	"seamwright/geom/mesh"
)

// scalar is the type of a number in the file.
type scalar uint8

const (
	int8Kind scalar = iota
	uint8Kind
	int16Kind
	uint16Kind
	int32Kind
	uint32Kind
	float32Kind // from here on no whole numbers
	float64Kind
)

// scalarOf returns the type of a name, in the old or the new spelling.
func scalarOf(name string) (scalar, bool) {
	for k, names := range [...][2]string{
		{"char", "int8"}, {"uchar", "uint8"}, {"short", "int16"}, {"ushort", "uint16"},
		{"int", "int32"}, {"uint", "uint32"}, {"float", "float32"}, {"double", "float64"},
	} {
		if name == names[0] || name == names[1] {
			return scalar(k), true
		}
	}
	return 0, false
}

// size returns the bytes of a number in a binary file.
func (k scalar) size() int { return [...]int{1, 1, 2, 2, 4, 4, 4, 8}[k] }

// source gives the numbers of the body one after the other.
type source interface {
	start(b *mesh.Builder) error // of a row
	number(b *mesh.Builder, k scalar) (float64, error)
	skip(b *mesh.Builder, k scalar) error
	end(b *mesh.Builder) error // of a row
	least(k scalar) int        // bytes that a number takes at least
	bytes() int                // left
	left() amount              // that no row took
}

// amount is what was left over: bytes or lines.
type amount int

func (a amount) in(k kind) string {
	if k == ascii {
		return fmt.Sprintf("%d lines", a)
	}
	return fmt.Sprintf("%d bytes", a)
}

// body returns the source of the numbers behind the header.
func (h *header) body(b *mesh.Builder, data []byte) (source, error) {
	if h.kind == ascii {
		return &textSource{lines: mesh.NewLines(data[h.size:], h.lines)}, nil
	}
	s := &binarySource{data: data, at: h.size, order: binary.LittleEndian}
	if h.kind == bigEndian {
		s.order = binary.BigEndian
	}
	return s, nil
}

// textSource reads one row a line.
type textSource struct {
	lines *mesh.Lines
	rest  []byte
}

func (t *textSource) start(b *mesh.Builder) error {
	for {
		line, more := t.lines.Next()
		b.Place = mesh.Place{Line: t.lines.Number}
		if !more {
			return b.Fault("the end of the file", "as many rows as the header announces", "copy or export the file again: it is cut off")
		}
		if w, _ := mesh.Word(line); len(w) > 0 {
			t.rest = line
			return nil
		}
	}
}

func (t *textSource) word(b *mesh.Builder) ([]byte, error) {
	var w []byte
	w, t.rest = mesh.Word(t.rest)
	if len(w) == 0 {
		return nil, b.Fault("the end of the line", "a number for each property", "copy or export the file again")
	}
	return w, nil
}

func (t *textSource) number(b *mesh.Builder, k scalar) (float64, error) {
	w, err := t.word(b)
	if err != nil {
		return 0, err
	}
	x, ok := mesh.ParseNumber(w)
	if !ok || k < float32Kind && x != math.Trunc(x) {
		allowed := "a number"
		if k < float32Kind {
			allowed = "a whole number"
		}
		return 0, b.Fault(mesh.Quote(w), allowed, "export the file again")
	}
	return x, nil
}

func (t *textSource) skip(b *mesh.Builder, _ scalar) error {
	_, err := t.word(b)
	return err
}

func (t *textSource) end(b *mesh.Builder) error {
	if w, _ := mesh.Word(t.rest); len(w) > 0 {
		return b.Fault(mesh.Quote(w)+" after the last property", "a number for each property and no more", "export the file again")
	}
	return nil
}

func (t *textSource) least(scalar) int { return 2 } // a digit and a blank or the line's end

func (t *textSource) bytes() int { return t.lines.Rest() + 1 } // the last line may have no end

func (t *textSource) left() amount {
	n := amount(0)
	for {
		line, more := t.lines.Next()
		if !more {
			return n
		}
		if w, _ := mesh.Word(line); len(w) > 0 {
			n++
		}
	}
}

// binarySource reads numbers of fixed size.
type binarySource struct {
	data  []byte
	at    int
	order binary.ByteOrder
}

func (s *binarySource) start(b *mesh.Builder) error {
	b.Place = mesh.Place{Offset: int64(s.at), HasOffset: true}
	return nil
}

func (s *binarySource) take(b *mesh.Builder, k scalar) ([]byte, error) {
	b.Place.Offset = int64(s.at)
	n := k.size()
	if len(s.data)-s.at < n {
		b.Place.Offset = int64(len(s.data))
		return nil, b.Fault("the end of the file", "as many rows as the header announces", "copy or export the file again: it is cut off")
	}
	s.at += n
	return s.data[s.at-n : s.at], nil
}

func (s *binarySource) number(b *mesh.Builder, k scalar) (float64, error) {
	v, err := s.take(b, k)
	if err != nil {
		return 0, err
	}
	switch k {
	case int8Kind:
		return float64(int8(v[0])), nil
	case uint8Kind:
		return float64(v[0]), nil
	case int16Kind:
		return float64(int16(s.order.Uint16(v))), nil
	case uint16Kind:
		return float64(s.order.Uint16(v)), nil
	case int32Kind:
		return float64(int32(s.order.Uint32(v))), nil
	case uint32Kind:
		return float64(s.order.Uint32(v)), nil
	case float32Kind:
		return float64(math.Float32frombits(s.order.Uint32(v))), nil
	default:
		return math.Float64frombits(s.order.Uint64(v)), nil
	}
}

func (s *binarySource) skip(b *mesh.Builder, k scalar) error {
	_, err := s.take(b, k)
	return err
}

func (s *binarySource) end(*mesh.Builder) error { return nil }

func (s *binarySource) least(k scalar) int { return k.size() }

func (s *binarySource) bytes() int { return len(s.data) - s.at }

func (s *binarySource) left() amount { return amount(s.bytes()) }
