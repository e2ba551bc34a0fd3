// Package stl reads and writes STL files, binary and ASCII.
//
// STL carries no unit, and every triangle brings its own three corners. Reading
// merges equal corners and changes nothing else. A file is binary if its length
// is the one that the count in its header asks for, whatever it begins with:
// many binary files begin with the word "solid". Stored normals are not used;
// the order of the corners says which side is outside.
//
// The format has no standard. Layout and grammar are those of the description
// by 3D Systems (1989) as commonly repeated, from memory.
package stl

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

const (
	titleBytes  = 80             // the free text that a binary file begins with
	headerBytes = titleBytes + 4 // and the count of triangles
	recordBytes = 50             // normal, three corners, attribute
)

// Read reads a whole file from r, within the limits, and decodes it.
func Read(r io.Reader, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	return mesh.ReadAll(r, "STL", o, Decode)
}

// Decode reads a whole file. The unit has to be declared. Errors are
// *mesh.Error with the offset of binary files and the line of ASCII ones.
func Decode(data []byte, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	if isBinary(data) {
		return decodeBinary(data, o)
	}
	return decodeText(data, o)
}

// isBinary tells the two kinds apart: by the count and the length where these
// fit, else a text begins with "solid" and has no NUL byte near its beginning.
func isBinary(data []byte) bool {
	if len(data) >= headerBytes && int64(len(data)) == wanted(data) {
		return true
	}
	text := bytes.TrimLeft(data, " \t\r\n\ufeff")
	word, _ := mesh.Word(text)
	if len(word) > 5 {
		word = word[:5]
	}
	return !bytes.EqualFold(word, []byte("solid")) || bytes.IndexByte(data[:min(len(data), 512)], 0) >= 0
}

// wanted returns the length that the count in the header asks for, in bytes.
func wanted(data []byte) int64 {
	return headerBytes + recordBytes*int64(binary.LittleEndian.Uint32(data[titleBytes:]))
}

func decodeBinary(data []byte, o mesh.Options) (mesh.Mesh, mesh.Notes, error) {
	b, err := mesh.NewBuilder("binary STL", int64(len(data)), o, mesh.Undeclared)
	if err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	if err := checkLength(b, data); err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	n := int((int64(len(data)) - headerBytes) / recordBytes)
	if err := b.Expect(n); err != nil {
		return mesh.Mesh{}, mesh.Notes{}, err
	}
	if bytes.HasPrefix(data, []byte("solid")) {
		b.Say("the file begins with \"solid\" and is binary all the same: its length is the one that its count asks for")
	}
	against, attributes := 0, 0
	for i := range n {
		at := headerBytes + recordBytes*i
		b.Place = mesh.Place{Offset: int64(at), HasOffset: true}
		record := data[at : at+recordBytes]
		var p [3]r3.Vec
		var t [3]int32
		for k := range p {
			p[k] = vector(record[12+12*k:])
			if t[k], err = b.Vertex(p[k]); err != nil {
				return mesh.Mesh{}, mesh.Notes{}, err
			}
		}
		if vector(record).Dot(p[1].Sub(p[0]).Cross(p[2].Sub(p[0]))) < 0 {
			against++
		}
		if record[48] != 0 || record[49] != 0 {
			attributes++
		}
		if err := b.Triangle(t[0], t[1], t[2]); err != nil {
			return mesh.Mesh{}, mesh.Notes{}, err
		}
	}
	if attributes > 0 {
		b.Say("%d triangles have attribute bytes, such as colours: ignored", attributes)
	}
	sayAgainst(b, against)
	return b.Done()
}

// checkLength holds the length of a binary file against its count.
func checkLength(b *mesh.Builder, data []byte) error {
	b.Place = mesh.Place{Offset: int64(len(data)), HasOffset: true}
	defer func() { b.Place = mesh.Place{} }()
	if len(data) < headerBytes {
		return b.Fault(fmt.Sprintf("the end of the file after %d bytes", len(data)),
			"at least the 84 bytes of a header, or a text that begins with \"solid\"", "choose an STL file, or copy it again in full")
	}
	n := binary.LittleEndian.Uint32(data[titleBytes:])
	switch want := wanted(data); {
	case int64(len(data)) < want:
		return b.Fault(fmt.Sprintf("the end of the file in triangle %d of %d", (len(data)-headerBytes)/recordBytes, n),
			fmt.Sprintf("%d bytes, 84 and 50 for each triangle", want), "copy or export the file again: it is cut off, or no STL file")
	case int64(len(data)) > want:
		b.Place.Offset = want
		return b.Fault(fmt.Sprintf("%d bytes after the last of %d triangles", int64(len(data))-want, n),
			fmt.Sprintf("%d bytes, 84 and 50 for each triangle", want), "export the file again: its count is wrong, or it is no STL file")
	}
	return nil
}

func sayAgainst(b *mesh.Builder, against int) {
	if against > 0 {
		b.Say("the stored normals of %d triangles point against the order of their corners: the order of the corners was used", against)
	}
}

func vector(b []byte) r3.Vec {
	at := func(i int) float64 {
		return float64(math.Float32frombits(binary.LittleEndian.Uint32(b[i:])))
	}
	return r3.Vec{X: at(0), Y: at(4), Z: at(8)}
}
