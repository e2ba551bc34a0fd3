package mesh

import (
	"bytes"
	"fmt"
	"io"
)

// Options say how a file is to be read.
type Options struct {
	// Unit is what one unit of the file means. Formats that carry no unit need
	// it. For the others it may stay Undeclared, and an error says so where it
	// contradicts what the file carries.
	Unit Unit
	// Limits bound what is read.
	Limits Limits
}

// Limits bound what a reader takes in. A field that is 0 means its default,
// which DefaultLimits shows; there is no way to read without bounds. An error
// that comes from one names it.
type Limits struct {
	Bytes     int64 // bytes of the file
	Unpacked  int64 // bytes of everything unpacked from a compressed file
	Triangles int   // triangles, those of repeated parts counted each time
	Corners   int   // corners of one face
	Depth     int   // nesting of elements, objects or nodes
	Shells    int   // shells of the whole
}

// DefaultLimits returns the limits that stand in for zeros: 256 MiB, unpacked
// 1 GiB, 2 million triangles, 1,000 corners a face, a depth of 64 and 5,000
// shells.
func DefaultLimits() Limits {
	return Limits{Bytes: 256 << 20, Unpacked: 1 << 30, Triangles: 2_000_000, Corners: 1000, Depth: 64, Shells: 5000}
}

// orDefault returns the limits with defaults in place of zeros and below.
func (l Limits) orDefault() Limits {
	d := DefaultLimits()
	pick(&d.Bytes, l.Bytes)
	pick(&d.Unpacked, l.Unpacked)
	pick(&d.Triangles, l.Triangles)
	pick(&d.Corners, l.Corners)
	pick(&d.Depth, l.Depth)
	pick(&d.Shells, l.Shells)
	return d
}

func pick[T int | int64](to *T, v T) {
	if v > 0 {
		*to = v
	}
}

// Error is what a reader says of a file that it refuses.
type Error struct {
	Format  string // such as "binary STL"
	Place   Place
	Limit   string // the field of Limits that was exceeded, else empty
	Found   string
	Allowed string
	Mend    string
}

// Place is where in a file something stands. Fields that do not apply are zero.
type Place struct {
	Part      string // the file within an archive, or the element, such as "accessors[3]"
	Line      int    // of a text, from 1
	Offset    int64  // in bytes, from 0, where HasOffset
	HasOffset bool
}

// String returns the place in words, such as "line 12".
func (p Place) String() string {
	var b bytes.Buffer
	add := func(format string, v any) {
		if b.Len() > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, format, v)
	}
	if p.Part != "" {
		add("%s", p.Part)
	}
	if p.Line > 0 {
		add("line %d", p.Line)
	}
	if p.HasOffset {
		add("offset %d", p.Offset)
	}
	return b.String()
}

// Error returns format, place, what was found, what is allowed and how to mend
// it, in one line.
func (e *Error) Error() string {
	at := ""
	if p := e.Place.String(); p != "" {
		at = ", " + p
	}
	limit := ""
	if e.Limit != "" {
		limit = " (limit " + e.Limit + ")"
	}
	return fmt.Sprintf("%s%s: found %s; allowed: %s%s; to mend: %s", e.Format, at, e.Found, e.Allowed, limit, e.Mend)
}

// Notes say what a reader made of a file beyond its mesh.
type Notes struct {
	Format string   // such as "binary STL"
	Unit   Unit     // the unit that the coordinates were read in
	Said   []string // what was ignored, merged or cut, one sentence each
}

// ReadAll reads r to its end, within the limit Bytes, and then decodes.
func ReadAll(r io.Reader, format string, o Options, decode func([]byte, Options) (Mesh, Notes, error)) (Mesh, Notes, error) {
	limit := o.Limits.orDefault().Bytes
	data, err := io.ReadAll(io.LimitReader(r, limit+1))
	if err != nil {
		return Mesh{}, Notes{}, fmt.Errorf("%s, offset %d: reading failed: %w", format, len(data), err)
	}
	return decode(data, o)
}
