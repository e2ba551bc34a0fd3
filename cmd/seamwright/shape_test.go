package main

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/stl"
	"seamwright/geom/r3"
)

// box is an OBJ file of a box of 40 x 30 x 20: eight corners, twelve faces.
const box = `v 0 0 0
v 40 0 0
v 0 30 0
v 40 30 0
v 0 0 20
v 40 0 20
v 0 30 20
v 40 30 20
f 1 3 4
f 1 4 2
f 5 6 8
f 5 8 7
f 1 2 6
f 1 6 5
f 3 7 8
f 3 8 4
f 2 4 8
f 2 8 6
f 1 5 7
f 1 7 3
`

// Volumes and sizes by hand: 40 x 30 x 20 = 24000; 1 in = 25.4 mm.
func TestShape(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct {
		name, file, text string
		args             []string
		code             int
		out              string
	}{
		{"a sound box", "box.obj", box, []string{"--unit", "mm"}, exitFit, `
file        box.obj, OBJ, numbers in mm
size        40.00 x 30.00 x 20.00 mm  (1.575 x 1.181 x 0.787 in)
from        0.00, 0.00, 0.00 mm  (0.000, 0.000, 0.000 in)
to          40.00, 30.00, 20.00 mm  (1.575, 1.181, 0.787 in)
triangles   12, as read 12; 8 vertices; 1 shell, closed
volume      24 cm3 (1.465 in3)
`},
		{"the same in inches", "box.obj", box, []string{"--unit", "in"}, exitFit, `
file        box.obj, OBJ, numbers in in
size        1016.00 x 762.00 x 508.00 mm  (40.000 x 30.000 x 20.000 in)
from        0.00, 0.00, 0.00 mm  (0.000, 0.000, 0.000 in)
to          1016.00, 762.00, 508.00 mm  (40.000, 30.000, 20.000 in)
triangles   12, as read 12; 8 vertices; 1 shell, closed
volume      3.933e+05 cm3 (2.4e+04 in3)
`},
		{"a face twice, one turned over, a side open", "odd.obj", strings.Replace(box, "f 1 5 7\nf 1 7 3\n", "f 1 3 4\n", 1), []string{"--unit", "mm"}, exitStopped, `
file        odd.obj, OBJ, numbers in mm
size        40.00 x 30.00 x 20.00 mm  (1.575 x 1.181 x 0.787 in)
from        0.00, 0.00, 0.00 mm  (0.000, 0.000, 0.000 in)
to          40.00, 30.00, 20.00 mm  (1.575, 1.181, 0.787 in)
triangles   10, as read 11; 8 vertices; 1 shell, 1 of them open
mended      1 triangles that stood there twice dropped
hole        100.0 mm (3.94 in) round, about (0.0, 15.0, 10.0 mm)
`},
		{"a face turned over", "odd.obj", strings.Replace(box, "f 1 3 4", "f 1 4 3", 1), []string{"--unit", "mm"}, exitFit, `
file        odd.obj, OBJ, numbers in mm
size        40.00 x 30.00 x 20.00 mm  (1.575 x 1.181 x 0.787 in)
from        0.00, 0.00, 0.00 mm  (0.000, 0.000, 0.000 in)
to          40.00, 30.00, 20.00 mm  (1.575, 1.181, 0.787 in)
triangles   12, as read 12; 8 vertices; 1 shell, closed
volume      24 cm3 (1.465 in3)
mended      1 triangles turned over
`},
		{"metres for millimetres", "far.obj", box, []string{"--unit", "m"}, exitFit, `
file        far.obj, OBJ, numbers in m
size        40000.00 x 30000.00 x 20000.00 mm  (1574.803 x 1181.102 x 787.402 in)
from        0.00, 0.00, 0.00 mm  (0.000, 0.000, 0.000 in)
to          40000.00, 30000.00, 20000.00 mm  (1574.803, 1181.102, 787.402 in)
triangles   12, as read 12; 8 vertices; 1 shell, closed
volume      2.4e+10 cm3 (1.465e+09 in3)
`},
		{"micrometres for millimetres", "near.obj", box, []string{"--unit", "um"}, exitStopped, `
file        near.obj, OBJ, numbers in um
size        0.04 x 0.03 x 0.02 mm  (0.002 x 0.001 x 0.001 in)
from        0.00, 0.00, 0.00 mm  (0.000, 0.000, 0.000 in)
to          0.04, 0.03, 0.02 mm  (0.002, 0.001, 0.001 in)
triangles   12, as read 12; 8 vertices; 1 shell, closed
volume      2.4e-08 cm3 (1.465e-09 in3)
odd         units suspect: the longest side of the box is 0.04 mm, under 1 mm; if the file is in m or in, declare that
`},
	} {
		lay(t, filepath.Join(dir, c.file), c.text)
		a := call(append([]string{"shape", filepath.Join(dir, c.file)}, c.args...)...)
		if want := strings.TrimPrefix(c.out, "\n"); a.code != c.code || a.out != want || a.errors != "" {
			t.Errorf("%s: code %d, want %d\ngot\n%swant\n%serrors %s", c.name, a.code, c.code, a.out, want, a.errors)
		}
	}
}

// What cannot be used is said with the file, and nothing is printed.
func TestShapeUnusable(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	lay(t, "box.obj", box)
	lay(t, "flat.obj", "v 0 0 0\nv 1 0 0\nv 2 0 0\nf 1 2 3\n")
	lay(t, "cut.stl", "solid a\nfacet normal 0 0 1\n")
	for _, c := range []struct {
		name string
		args []string
		want string
	}{
		{"no file", nil, "seamwright: 0 files: name one file of triangles, such as cradle.stl\n"},
		{"two files", []string{"a.stl", "b.stl"}, "seamwright: 2 files: name one file of triangles, such as cradle.stl\n"},
		{"no unit", []string{"box.obj"}, "seamwright: box.obj: found no unit; allowed: the unit in which the file was exported: mm, in, m, cm, ft or um; say --unit mm, or what the drawing office says; a file of this kind does not carry it\n"},
		{"another unit", []string{"box.obj", "--unit", "furlong"}, "seamwright: --unit: mesh unit: found \"furlong\"; allowed: mm, in, m, cm, ft or um; to mend: say which unit the file was exported in\n"},
		{"not there", []string{"gone.stl", "--unit", "mm"}, "seamwright: gone.stl: found \"gone.stl\", which cannot be opened (no such file or directory); allowed: a file that can be read, named from the document's folder; check the name and the folder\n"},
		{"another kind", []string{"part.step", "--unit", "mm"}, "seamwright: part.step: found \"part.step\"; allowed: a file of triangles that ends in .stl, .obj, .ply, .gltf, .glb or .3mf; export the shape in one of these forms\n"},
		{"cut off", []string{"cut.stl", "--unit", "mm"}, "seamwright: cut.stl: found \"cut.stl\", ASCII STL, line 2: the end of the file; allowed: outer here, and endsolid at the end; copy or export the file again: it is cut off\n"},
		{"no area", []string{"flat.obj", "--unit", "mm"}, "seamwright: flat.obj: found \"flat.obj\", whose triangles all have no area; allowed: a shape; check the unit, and export the shape again\n"},
	} {
		if a := call(append([]string{"shape"}, c.args...)...); a.code != exitUnusable || a.out != "" || a.errors != c.want {
			t.Errorf("%s: got %+v, want %q", c.name, a, c.want)
		}
	}
}

// The volume of a ball by its formula, within what flats of 0.01 mm leave off.
func TestShapeOfABall(t *testing.T) {
	ball, err := mesh.NewCapsule(0.05, 0, 1e-5)
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "ball.stl")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	if err := stl.Write(f, ball.Transformed(mesh.Affine{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}, T: r3.Vec{X: 1}}), mesh.Millimetres, "ball, mm"); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	a := call("shape", name, "--unit", "mm")
	if a.code != exitFit {
		t.Fatalf("got %+v", a)
	}
	_, rest, _ := strings.Cut(a.out, "volume      ")
	volume, err := strconv.ParseFloat(strings.Fields(rest)[0], 64)
	if want := 4. / 3 * math.Pi * 125; err != nil || volume > want+0.05 || volume < want*(1-3*1e-5/0.05)-0.05 {
		t.Errorf("volume %v cm3, want %.2f: %v", volume, want, err)
	}
}
