package stl

import (
	"bufio"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// Write writes m as a binary file in the given unit, with single-precision
// coordinates as the format has them: seven digits. The title stands at the
// beginning of the file and is cut at 80 bytes; it should name the unit, which
// the format does not carry. Normals follow from the order of the corners, 0
// for triangles without area. The error says that the unit is not declared,
// that the title begins with "solid", which would make readers take the file
// for a text, what Validate says of m, or what w answered.
func Write(w io.Writer, m mesh.Mesh, unit mesh.Unit, title string) error {
	scale := unit.Metres()
	switch {
	case scale == 0:
		return fmt.Errorf("write STL: found unit %v; allowed: mm, in, m, cm, ft or um; to mend: choose one", unit)
	case len(title) >= 5 && title[:5] == "solid":
		return fmt.Errorf("write STL: found the title %q; allowed: one that does not begin with solid; to mend: put another word first", title)
	}
	if err := m.Validate(); err != nil {
		return fmt.Errorf("write STL: %w", err)
	}
	out := bufio.NewWriterSize(w, 1<<16)
	var header [headerBytes]byte
	copy(header[:titleBytes], title)
	binary.LittleEndian.PutUint32(header[titleBytes:], uint32(len(m.Triangles)))
	if _, err := out.Write(header[:]); err != nil {
		return fmt.Errorf("write STL: %w", err)
	}
	var record [recordBytes]byte
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		normal := b.Sub(a).Cross(c.Sub(a)).Unit()
		put(record[0:], normal, 1)
		put(record[12:], a, scale)
		put(record[24:], b, scale)
		put(record[36:], c, scale)
		if _, err := out.Write(record[:]); err != nil {
			return fmt.Errorf("write STL: %w", err)
		}
	}
	if err := out.Flush(); err != nil {
		return fmt.Errorf("write STL: %w", err)
	}
	return nil
}

// put writes a vector in units of scale.
func put(b []byte, v r3.Vec, scale float64) {
	for i, x := range [...]float64{v.X, v.Y, v.Z} {
		binary.LittleEndian.PutUint32(b[4*i:], math.Float32bits(float32(x/scale)))
	}
}
