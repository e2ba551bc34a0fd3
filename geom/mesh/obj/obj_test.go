package obj_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/obj"
)

var inMM = mesh.Options{Unit: mesh.Millimetres}

// A box of 10 x 20 x 30 mm: faces of four corners, indices from behind, textures and
// normals to be passed over, a line that goes on.
const box = `# a box
o box
v 0 0 0
v 10 0 0
v 10 20 0
v 0 20 0
v 0 0 30
v 10 0 30
v 10 20 30
v 0 20 \
30
vn 0 0 1
f 1//1 4//1 3//1 2//1
f 5 6 7 8
f 1 2 6 5
f 2 3 7 6
f -6 -5 -1 -2
f 4 1 5 8
`

func TestFacesOfFourCorners(t *testing.T) {
	m, _, err := obj.Decode([]byte(box), inMM)
	if err != nil {
		t.Fatal(err)
	}
	if len(m.Triangles) != 12 || math.Abs(m.Volume()-6e-6) > 1e-15 {
		t.Errorf("%d triangles, %g m3", len(m.Triangles), m.Volume())
	}
}

func TestRefusals(t *testing.T) {
	for _, row := range []struct {
		name, data string
		o          mesh.Options
		want       string
	}{
		{"no unit", box, mesh.Options{}, "unit"},
		{"a vertex that is not there", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 4\n", inMM, "line 4"},
		{"a face of two", "v 0 0 0\nv 1 0 0\nf 1 2\n", inMM, "line 3"},
		{"no number", "v 0 zero 0\n", inMM, "line 1"},
		{"not finite", "v 0 NaN 0\n", inMM, "line 1"},
		{"nothing", "", inMM, "found"},
		{"too many triangles", box, mesh.Options{Unit: mesh.Millimetres, Limits: mesh.Limits{Triangles: 5}}, "Triangles"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, _, err := obj.Decode([]byte(row.data), row.o)
			var refused *mesh.Error
			if !errors.As(err, &refused) || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want one that names %q", err, row.want)
			}
		})
	}
}

func FuzzOBJ(f *testing.F) {
	f.Add([]byte(box))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, _, err := obj.Decode(data, mesh.Options{Unit: mesh.Millimetres, Limits: mesh.Limits{Triangles: 1000, Shells: 100}})
		if err == nil && m.Validate() != nil {
			t.Errorf("what was read is no mesh: %v", m.Validate())
		}
	})
}
