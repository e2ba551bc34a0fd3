package ply_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/ply"
)

var inMM = mesh.Options{Unit: mesh.Millimetres}

// tetra is a tetrahedron over the axes, 10 mm each, with a property in between.
const tetra = `ply
format ascii 1.0
comment invented
element vertex 4
property float x
property uchar red
property float y
property float z
element face 4
property list uchar int vertex_indices
end_header
0 7 0 0
10 7 0 0
0 7 10 0
0 7 0 10
3 0 2 1
3 0 1 3
3 0 3 2
3 1 2 3
`

// packed is the same in binary of a byte order.
func packed(order binary.ByteOrder, name string) []byte {
	var b bytes.Buffer
	head, _, _ := strings.Cut(tetra, "end_header")
	b.WriteString(strings.Replace(head, "ascii", name, 1) + "end_header\n")
	for _, v := range [][3]float32{{0, 0, 0}, {10, 0, 0}, {0, 10, 0}, {0, 0, 10}} {
		binary.Write(&b, order, v[0])
		b.WriteByte(7)
		binary.Write(&b, order, v[1:])
	}
	for _, f := range [][3]int32{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}} {
		b.WriteByte(3)
		binary.Write(&b, order, f)
	}
	return b.Bytes()
}

func TestEveryEncoding(t *testing.T) {
	for name, data := range map[string][]byte{
		"ascii": []byte(tetra), "little": packed(binary.LittleEndian, "binary_little_endian"), "big": packed(binary.BigEndian, "binary_big_endian"),
	} {
		m, _, err := ply.Decode(data, inMM)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(m.Triangles) != 4 || math.Abs(m.Volume()-1e-6/6) > 1e-13 {
			t.Errorf("%s: %d triangles, %g m3", name, len(m.Triangles), m.Volume())
		}
	}
}

func TestRefusals(t *testing.T) {
	little := packed(binary.LittleEndian, "binary_little_endian")
	for _, row := range []struct {
		name string
		data []byte
		o    mesh.Options
		want string
	}{
		{"no unit", []byte(tetra), mesh.Options{}, "unit"},
		{"truncated", little[:len(little)-5], inMM, "offset"},
		{"a count that lies", []byte(strings.Replace(tetra, "vertex 4", "vertex 4000000000", 1)), inMM, "found"},
		{"a corner that is not there", []byte(strings.Replace(tetra, "3 1 2 3", "3 1 2 9", 1)), inMM, "face 3"},
		{"another file", []byte("plyx\n"), inMM, "found"},
		{"nothing", nil, inMM, "found"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, _, err := ply.Decode(row.data, row.o)
			var refused *mesh.Error
			if !errors.As(err, &refused) || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want one that names %q", err, row.want)
			}
		})
	}
}

func FuzzPLY(f *testing.F) {
	f.Add([]byte(tetra))
	f.Add(packed(binary.LittleEndian, "binary_little_endian"))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, _, err := ply.Decode(data, mesh.Options{Unit: mesh.Millimetres, Limits: mesh.Limits{Triangles: 1000, Shells: 100}})
		if err == nil && m.Validate() != nil {
			t.Errorf("what was read is no mesh: %v", m.Validate())
		}
	})
}
