package job_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// The part stands parallel to the base, 500 mm along the base's x; the base is
// turned by 90 deg in the world and stands at (100, 0, 760) mm.
func TestGoodShapes(t *testing.T) {
	j := decodeGood(t)
	at := func(x, y, z float64) se3.Pose { return se3.Translation(r3.Vec{X: x, Y: y, Z: z}) }
	turned := func(angle, x, y, z float64) se3.Pose {
		return se3.Pose{R: se3.RotZ(angle * deg), P: r3.Vec{X: x, Y: y, Z: z}}
	}
	want := []struct {
		shape job.Shape
		pose  se3.Pose
	}{
		{job.Shape{Name: "skirt", Kind: job.ShapeMesh, Part: true, OnPart: true}, at(0.5, 0, 0)},
		{job.Shape{Name: "block", Kind: job.ShapeBox, Size: r3.Vec{X: 0.01, Y: 0.02, Z: 0.03}}, at(0.001, 0.002, 0.003)},
		{job.Shape{Name: "shelf", Kind: job.ShapePlate, Size: r3.Vec{X: 0.4, Y: 0.2, Z: 0.012}}, turned(-90, 0, 0.1, -0.76)},
		{job.Shape{Name: "drum", Kind: job.ShapeCylinder, Diameter: 0.08, Length: 0.3}, at(0, 0, 0)},
		{job.Shape{Name: "pole", Kind: job.ShapePost, Diameter: 0.05, Length: 0.9}, at(0, 0, 0)},
		{job.Shape{Name: "square pole", Kind: job.ShapePost, Size: r3.Vec{X: 0.06, Y: 0.06, Z: 0.9}}, at(0, 0, 0)},
		{job.Shape{Name: "clamp 1", Kind: job.ShapeClamp, OnPart: true, Size: r3.Vec{X: 0.06, Y: 0.04, Z: 0.09},
			Clamp: job.Clamp{Bar: 0.025, Reach: 0.12, TipDiameter: 0.02, TipLength: 0.06}}, turned(90, 0.54, -0.08, 0)},
		{job.Shape{Name: "bench", Kind: job.ShapeTable, Size: r3.Vec{X: 1.2, Y: 0.8, Z: 0.03}, LegSide: 0.08, LegHeight: 0.7}, turned(-90, 0, -0.6, -0.03)},
		{job.Shape{Name: "shop floor", Kind: job.ShapeFloor}, turned(-90, 0, 0, -0.81)},
	}
	if len(j.Shapes) != len(want) {
		t.Fatalf("%d shapes, want %d", len(j.Shapes), len(want))
	}
	for i, w := range want {
		got := j.Shapes[i]
		samePose(t, w.shape.Name, got.LinkFromShape, w.pose)
		got.LinkFromShape, got.Mesh, got.At = se3.Pose{}, job.MeshFile{}, job.Place{}
		got.Size = rounded(got.Size)
		w.shape.Size = rounded(w.shape.Size)
		if !reflect.DeepEqual(got, w.shape) {
			t.Errorf("got %+v, want %+v", got, w.shape)
		}
	}
	skirt := j.Shapes[0].Mesh
	if skirt.File != "shapes/skirt.ply" || skirt.Unit != mesh.Centimetres || len(skirt.Mesh.Triangles) != 4 || skirt.Mesh.Box().Size().Dist(r3.Vec{X: 0.1, Y: 0.1, Z: 0.1}) > 1e-12 {
		t.Errorf("skirt %v %v %v", skirt.File, skirt.Unit, skirt.Mesh)
	}
}

// rounded takes the rounding of unit conversions away.
func rounded(v r3.Vec) r3.Vec {
	const step = 1e-9 // m
	return r3.Vec{X: math.Round(v.X / step), Y: math.Round(v.Y / step), Z: math.Round(v.Z / step)}
}

func TestGoodTorchShape(t *testing.T) {
	to := decodeGood(t).Torch
	got := []float64{to.TaperEnd, to.TaperOver, to.NozzleLength, to.NeckDiameter, to.BodyDiameter}
	if want := []float64{0.017, 0.014, 0.066, 0.023, 0.052}; !nearAll(got, want) || len(to.Assumed) > 0 {
		t.Errorf("torch %v, want %v; assumed %v", got, want, to.Assumed)
	}
	if len(to.Cable) != 1 || to.Cable[0].Link != "flange" || to.Cable[0].From != (r3.Vec{Z: 0.04}) || to.Cable[0].To.Dist(r3.Vec{X: -0.16, Z: -0.06}) > 1e-15 || !near(to.Cable[0].Radius(), 0.05) {
		t.Errorf("cable %+v", to.Cable)
	}
}

func TestGoodClearance(t *testing.T) {
	c := decodeGood(t).Clearance
	got := []float64{c.Nozzle, c.Torch, c.Air, c.Cable, c.Arm, c.Self}
	if want := []float64{0.0025, 0.006, 0.025, 0.004, 0.0508, 0.008}; !nearAll(got, want) {
		t.Errorf("clearance %v, want %v", got, want)
	}
	if len(c.Stated) != 6 || len(c.Ignore) != 2 || len(c.Keep) != 1 {
		t.Errorf("stated %v, ignore %v, keep %v", c.Stated, c.Ignore, c.Keep)
	}
	if n := c.Ignore[1]; n.A != "arm" || n.B != "shop floor" {
		t.Errorf("ignore %+v", n)
	}
}

// The arm's meshes are in metres times their scale; here 300 x 60 x 80 mm.
func TestGoodArmShapes(t *testing.T) {
	a := decodeGood(t).Arm
	if a.Shapes != job.ShapesCollision || len(a.Meshes) != 2 || len(a.Packages) != 1 || a.Packages[0] != (job.Package{Name: "plover_shapes", Folder: "shapes"}) {
		t.Fatalf("shapes %q, %d meshes, packages %v", a.Shapes, len(a.Meshes), a.Packages)
	}
	for _, name := range []string{"package://plover_shapes/forearm.obj", "shapes/forearm.obj"} {
		m := a.Meshes[name]
		if m.File != "shapes/forearm.obj" || m.Unit != mesh.Metres || m.Mesh.Box().Size().Dist(r3.Vec{X: 300, Y: 60, Z: 80}) > 1e-12 {
			t.Errorf("%s: %v %v %v", name, m.File, m.Unit, m.Mesh.Box())
		}
	}
}

// What a document that says nothing of shapes has.
func TestSmallShapes(t *testing.T) {
	j, err := job.Decode("job.yaml", small(t))
	if err != nil {
		t.Fatal(err)
	}
	if j.Arm.Shapes != job.ShapesNone || j.Shapes != nil || !reflect.DeepEqual(j.Clearance, job.DefaultClearance()) {
		t.Errorf("arm %q, shapes %v, clearance %+v", j.Arm.Shapes, j.Shapes, j.Clearance)
	}
	to := j.Torch
	if got, want := []float64{to.NozzleLength, to.NeckDiameter, to.BodyDiameter}, []float64{0.07, 0.026, 0.06}; !nearAll(got, want) ||
		!reflect.DeepEqual(to.Assumed, []string{"nozzle_length", "neck_diameter", "body_diameter"}) {
		t.Errorf("torch %v, want %v; assumed %v", got, want, to.Assumed)
	}
}

// Every file is remembered with its digest, the document first; the digests are
// those of the files as they lie in testdata.
func TestInputs(t *testing.T) {
	j := decodeGood(t)
	var names []string
	for _, in := range j.Inputs {
		names = append(names, in.File)
		data, err := os.ReadFile(filepath.Join("testdata/good", in.File))
		if err != nil {
			t.Fatal(err)
		}
		if in.Bytes != int64(len(data)) || in.SHA256 != sha256.Sum256(data) {
			t.Errorf("%s: %d bytes %x", in.File, in.Bytes, in.SHA256)
		}
	}
	want := []string{"job.yaml", "settings.yaml", "procedure.yaml", "taught.csv", "arm.urdf", "shapes/skirt.ply", "shapes/forearm.obj"}
	if !reflect.DeepEqual(names, want) {
		t.Errorf("inputs %v, want %v", names, want)
	}
}

// One byte more in a file changes the entry of that file and of no other.
func TestInputDigest(t *testing.T) {
	m := small(t)
	m["settings.yaml"] += "\n"
	before, err := job.Decode("job.yaml", small(t))
	if err != nil {
		t.Fatal(err)
	}
	after, err := job.Decode("job.yaml", m)
	if err != nil {
		t.Fatal(err)
	}
	for i, in := range after.Inputs {
		if same := in == before.Inputs[i]; same == (in.File == "settings.yaml") {
			t.Errorf("%s: %x and %x", in.File, in.SHA256, before.Inputs[i].SHA256)
		}
	}
}

// On a turning table what is measured in part turns with it; the rest stands with
// the arm's foot. A shape of the part that does not turn is refused.
func TestShapesOnATurningTable(t *testing.T) {
	m := onTable(t)
	m.swap(t, "job.yaml", "home: home", `shapes:
  - {name: lump, is: part, box: {size: [10 mm, 10 mm, 10 mm]}, measured_in: part, at: [1 mm, 2 mm, 3 mm]}
  - {name: jig, box: {size: [10 mm, 10 mm, 10 mm]}, measured_in: part}
  - {name: post, post: {side: 10 mm, height: 1 m}, measured_in: world, at: [2 m, 0 mm, 0 mm]}
home: home`)
	j, err := job.Decode("job.yaml", m)
	if err != nil {
		t.Fatal(err)
	}
	for i, on := range []bool{true, true, false} {
		if j.Shapes[i].OnPart != on {
			t.Errorf("%s: on the part %v, want %v", j.Shapes[i].Name, j.Shapes[i].OnPart, on)
		}
	}
	samePose(t, "lump", j.Shapes[0].LinkFromShape, se3.Translation(r3.Vec{X: 0.001, Y: 0.002, Z: 0.003}))
	samePose(t, "post", j.Shapes[2].LinkFromShape, se3.Translation(r3.Vec{X: 2}))

	m.swap(t, "job.yaml", "{name: post, post", "{name: post, is: part, post")
	_, err = job.Decode("job.yaml", m)
	want := `job.yaml:25:22: shapes[2].is: found a shape of the part that is measured in world, where a turning table carries the part; allowed: part: the part's shapes turn with the table; say measured_in: part, and count the place from arm.part_link`
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %v", err, want)
	}
}

// Files of triangles are read within bounds that hold for all together.
func TestMeshBounds(t *testing.T) {
	limits := mesh.DefaultLimits()
	var big strings.Builder
	big.WriteString("v 0 0 0\nv 1 0 0\nv 0 1 0\n")
	big.WriteString(strings.Repeat("f 1 2 3\n", limits.Triangles/2+1))
	m := small(t)
	m["job.yaml"] = strings.Replace(m["job.yaml"], "home: home", "shapes:\n  - {name: a, mesh: {file: a.obj, unit: mm}, measured_in: base}\n  - {name: b, mesh: {file: b.obj, unit: mm}, measured_in: base}\nhome: home", 1)
	m["a.obj"], m["b.obj"] = big.String(), big.String()
	_, err := job.Decode("job.yaml", m)
	if want := `shapes[1].mesh.file: found "b.obj", OBJ`; err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "2000000 in all files of a job together") {
		t.Errorf("got %.400v, want %q in it", err, want)
	}
}

// The same file named twice is read once.
func TestMeshOnce(t *testing.T) {
	m := small(t)
	m["job.yaml"] = strings.Replace(m["job.yaml"], "home: home", "shapes:\n  - {name: a, mesh: {file: a.obj, unit: mm}, measured_in: base}\n  - {name: b, mesh: {file: a.obj, unit: mm}, measured_in: base, at: [1 m, 0 m, 0 m]}\n  - {name: c, mesh: {file: a.obj, unit: in}, measured_in: base}\nhome: home", 1)
	m["a.obj"] = "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n"
	j, err := job.Decode("job.yaml", m)
	if err != nil {
		t.Fatal(err)
	}
	a, b, c := j.Shapes[0].Mesh.Mesh, j.Shapes[1].Mesh.Mesh, j.Shapes[2].Mesh.Mesh
	if &a.Vertices[0] != &b.Vertices[0] || a.Vertices[1].X != 1e-3 || c.Vertices[1].X != 0.0254 {
		t.Errorf("got %v %v %v", a, b, c)
	}
	n := 0
	for _, in := range j.Inputs {
		if in.File == "a.obj" {
			n++
		}
	}
	if n != 1 {
		t.Errorf("a.obj is entered %d times", n)
	}
}

// Ten thousand tiny shells are a scan or a mistake, not a part.
func TestTenThousandShells(t *testing.T) {
	var b strings.Builder
	for i := range 10000 {
		fmt.Fprintf(&b, "v %d 0 0\nv %d.5 0 0\nv %d 0.5 0\nf -3 -2 -1\n", i, i, i)
	}
	m := small(t)
	m["job.yaml"] = strings.Replace(m["job.yaml"], "home: home", "shapes: [{name: a, mesh: {file: a.obj, unit: mm}, measured_in: base}]\nhome: home", 1)
	m["a.obj"] = b.String()
	_, err := job.Decode("job.yaml", m)
	if want := `shapes[0].mesh.file: found "a.obj", OBJ: 10000 separate shells; allowed: at most 5000; leave out threads, texts and fasteners`; err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("got %.400v, want %q in it", err, want)
	}
}

// A glTF file keeps its numbers in a file of its own; both are read, entered, and
// part of the digest by which the shape is known.
func TestShapeInTwoFiles(t *testing.T) {
	numbers := func(height float32) string {
		var b bytes.Buffer
		for _, x := range []float32{0, 0, 0, 1, 0, 0, 0, height, 0} {
			if err := binary.Write(&b, binary.LittleEndian, x); err != nil {
				t.Fatal(err)
			}
		}
		return b.String()
	}
	read := func(bin string) *job.Job {
		t.Helper()
		m := small(t)
		m["job.yaml"] = strings.Replace(m["job.yaml"], "home: home", "shapes: [{name: a, mesh: {file: drawn/a.gltf}, measured_in: base}]\nhome: home", 1)
		m["drawn/a.gltf"] = `{"asset": {"version": "2.0"}, "scene": 0, "scenes": [{"nodes": [0]}], "nodes": [{"mesh": 0}],
"meshes": [{"primitives": [{"attributes": {"POSITION": 0}}]}],
"accessors": [{"bufferView": 0, "componentType": 5126, "count": 3, "type": "VEC3", "min": [0, 0, 0], "max": [1, 2, 0]}],
"bufferViews": [{"buffer": 0, "byteLength": 36}], "buffers": [{"uri": "a.bin", "byteLength": 36}]}`
		m["drawn/a.bin"] = bin
		j, err := job.Decode("job.yaml", m)
		if err != nil {
			t.Fatal(err)
		}
		return j
	}
	j := read(numbers(2))
	shape := j.Shapes[0].Mesh
	// y of the file is up, which is z here; metres.
	if want := (r3.Vec{X: 1, Z: 2}); shape.Mesh.Box().Size().Dist(want) > 1e-12 || shape.Unit != mesh.Metres || shape.Format != "glTF" {
		t.Errorf("%s in %v, size %v, want %v", shape.Format, shape.Unit, shape.Mesh.Box().Size(), want)
	}
	var names []string
	for _, in := range j.Inputs {
		names = append(names, in.File)
	}
	if got := strings.Join(names, " "); !strings.Contains(got, "drawn/a.gltf drawn/a.bin") {
		t.Errorf("inputs %s", got)
	}
	if other := read(numbers(1)).Shapes[0].Mesh; other.SHA256 == shape.SHA256 {
		t.Error("another file of numbers has the same digest")
	}
}
