package stl_test

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/stl"
	"seamwright/geom/r3"
)

var inMM = mesh.Options{Unit: mesh.Millimetres}

// binary is a box of 10 x 20 x 30 mm as a binary file.
func binary(t testing.TB) []byte {
	t.Helper()
	box, err := mesh.NewBox(r3.Vec{X: 0.01, Y: 0.02, Z: 0.03})
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := stl.Write(&b, box, mesh.Millimetres, "box"); err != nil {
		t.Fatal(err)
	}
	data := b.Bytes()
	copy(data, "solid of trouble") // as many exporters write it
	return data
}

const text = `solid wedge
facet normal 0 0 1
 outer loop
  vertex 0 0 0
  vertex 10 0 0
  vertex 0 10 0
 endloop
endfacet
endsolid wedge
`

// A binary file that begins with "solid" is binary, and comes back as it was.
func TestBinaryComesBack(t *testing.T) {
	m, notes, err := stl.Decode(binary(t), inMM)
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Triangles) != 12 || len(m.Vertices) != 8 || notes.Format != "binary STL" {
		t.Errorf("%d triangles, %d vertices, %s", len(m.Triangles), len(m.Vertices), notes.Format)
	}
	if v := m.Volume(); math.Abs(v-6e-6) > 1e-12 {
		t.Errorf("volume %g m3, want 6e-6", v)
	}
}

func TestTextIsRead(t *testing.T) {
	m, _, err := stl.Decode([]byte(text), inMM)
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Triangles) != 1 || math.Abs(m.Area()-50e-6) > 1e-15 {
		t.Errorf("%d triangles of %g m2", len(m.Triangles), m.Area())
	}
}

func TestRefusals(t *testing.T) {
	whole := binary(t)
	nan := bytes.Clone(whole)
	copy(nan[84+12:], []byte{0, 0, 0xc0, 0x7f})
	for _, row := range []struct {
		name string
		data []byte
		o    mesh.Options
		want string
	}{
		{"no unit", whole, mesh.Options{}, "unit"},
		{"truncated", whole[:300], inMM, "offset"},
		{"nothing", nil, inMM, "found"},
		{"not a number", nan, inMM, "offset"},
		{"too many triangles", whole, mesh.Options{Unit: mesh.Millimetres, Limits: mesh.Limits{Triangles: 11}}, "Triangles"},
		{"text cut in a loop", []byte(text[:60]), inMM, "line"},
		{"text with a word for a number", []byte(strings.Replace(text, "10 0 0", "ten 0 0", 1)), inMM, "line 5"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, _, err := stl.Decode(row.data, row.o)
			var refused *mesh.Error
			if !errors.As(err, &refused) || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want one that names %q", err, row.want)
			}
		})
	}
}

func FuzzSTL(f *testing.F) {
	f.Add(binary(f))
	f.Add([]byte(text))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, _, err := stl.Decode(data, mesh.Options{Unit: mesh.Millimetres, Limits: mesh.Limits{Triangles: 1000, Shells: 100}})
		if err == nil && m.Validate() != nil {
			t.Errorf("what was read is no mesh: %v", m.Validate())
		}
	})
}
