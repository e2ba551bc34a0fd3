package mesh_test

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"runtime"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/gltf"
	"seamwright/geom/mesh/threemf"
	"seamwright/geom/r3"
)

func boxAt(t testing.TB, size, at r3.Vec) mesh.Mesh {
	t.Helper()
	m, err := mesh.NewBox(size)
	if err != nil {
		t.Fatal(err)
	}
	for i := range m.Vertices {
		m.Vertices[i] = m.Vertices[i].Add(at)
	}
	return m
}

// shells are n tetrahedra of a millimetre, 2 mm apart.
func shells(n int) mesh.Mesh {
	const side = 1.0 / 1024
	one := mesh.Mesh{
		Vertices:  []r3.Vec{{}, {X: side}, {Y: side}, {Z: side}},
		Triangles: [][3]int32{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}},
	}
	all := make([]mesh.Mesh, n)
	for i := range all {
		at := r3.Vec{X: float64(i%100) / 512, Y: float64(i/100) / 512}
		for _, v := range one.Vertices {
			all[i].Vertices = append(all[i].Vertices, v.Add(at))
		}
		all[i].Triangles = one.Triangles
	}
	return mesh.Join(all...)
}

// What every reader says of the same mistakes, word for word. An empty text:
// the format has no such mistake, and reads the file.
var mistakes = []struct {
	name  string
	spoil func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options)
	want  map[string]string
}{
	{"sound", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		return f.encode(t, box), f.options()
	}, nil},
	{"ten thousand tiny shells", func(t testing.TB, f format, _ mesh.Mesh) ([]byte, mesh.Options) {
		return f.encode(t, shells(10_000)), f.options()
	}, all("%s: found 10000 separate shells; allowed: at most 5000 (limit Shells); to mend: leave out threads, texts and fasteners, or raise the limit")},
	{"more triangles than allowed", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		o := f.options()
		o.Limits.Triangles = 11
		return f.encode(t, box), o
	}, map[string]string{
		"binary STL": "binary STL: found 12 triangles; allowed: at most 11 (limit Triangles); to mend: export it coarser, or raise the limit",
		"ASCII STL":  "ASCII STL, line 85: found 12 triangles; allowed: at most 11 (limit Triangles); to mend: export it coarser, or raise the limit",
		"OBJ":        "OBJ, line 20: found 12 triangles; allowed: at most 11 (limit Triangles); to mend: export it coarser, or raise the limit",
		"ASCII PLY":  "ASCII PLY, line 29: found more than 11 faces; allowed: at most 11 triangles (limit Triangles); to mend: export it coarser, or raise the limit",
		"binary PLY": "binary PLY, little endian, offset 418: found more than 11 faces; allowed: at most 11 triangles (limit Triangles); to mend: export it coarser, or raise the limit",
		"GLB":        "GLB, meshes[0].primitives[0]: found 12 triangles; allowed: at most 11 (limit Triangles); to mend: export it coarser, or raise the limit",
		"3MF":        "3MF, 3D/part.model, line 22: found more than 11 triangles; allowed: at most 11 (limit Triangles); to mend: export it coarser, or raise the limit",
	}},
	{"more bytes than allowed", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		o := f.options()
		o.Limits.Bytes = 100
		return f.encode(t, box), o
	}, but(all("%s: found more than 100 bytes; allowed: at most 100 bytes (limit Bytes); to mend: export it coarser, or raise the limit"), map[string]string{
		"ASCII PLY":  "PLY: found more than 100 bytes; allowed: at most 100 bytes (limit Bytes); to mend: export it coarser, or raise the limit",
		"binary PLY": "PLY: found more than 100 bytes; allowed: at most 100 bytes (limit Bytes); to mend: export it coarser, or raise the limit",
	})},
	{"cut off in the middle", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		data := f.encode(t, box)
		return data[:len(data)/2], f.options()
	}, map[string]string{
		"binary STL": "binary STL, offset 342: found the end of the file in triangle 5 of 12; allowed: 684 bytes, 84 and 50 for each triangle; to mend: copy or export the file again: it is cut off, or no STL file",
		"ASCII STL":  "ASCII STL, line 43: found \"endface\"; allowed: endfacet; to mend: export the file again",
		"OBJ":        "OBJ, line 8: found a position of the length 1; allowed: three numbers x y z, with a weight of 1 or a colour at most; to mend: copy or export the file again: it may be cut off",
		"ASCII PLY":  "ASCII PLY, line 3: found 8 rows of the element \"vertex\" announced, and too few bytes after the header for them; allowed: a file that holds what its header announces; to mend: copy or export the file again: it is cut off",
		"binary PLY": "binary PLY, little endian, line 3: found 8 rows of the element \"vertex\" announced, and too few bytes after the header for them; allowed: a file that holds what its header announces; to mend: copy or export the file again: it is cut off",
		"GLB":        "GLB, offset 8: found a length of 676 bytes in the header and a file of 338; allowed: both the same; to mend: copy the file again: it is cut off or has grown",
		"3MF":        "3MF: found no archive that can be read: zip: not a valid zip file; allowed: a ZIP archive, whole; to mend: choose a 3MF file, or copy it again: it may be cut off",
	}},
	{"an empty file", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) { return nil, f.options() }, map[string]string{
		"binary STL": "binary STL, offset 0: found the end of the file after 0 bytes; allowed: at least the 84 bytes of a header, or a text that begins with \"solid\"; to mend: choose an STL file, or copy it again in full",
		"ASCII STL":  "binary STL, offset 0: found the end of the file after 0 bytes; allowed: at least the 84 bytes of a header, or a text that begins with \"solid\"; to mend: choose an STL file, or copy it again in full",
		"OBJ":        "OBJ: found no triangle; allowed: at least one; to mend: export a solid or a surface, not points or lines alone",
		"ASCII PLY":  "PLY, line 1: found \"\"; allowed: ply on the first line; to mend: choose a PLY file",
		"binary PLY": "PLY, line 1: found \"\"; allowed: ply on the first line; to mend: choose a PLY file",
		"GLB":        "glTF, offset 0: found the end of the JSON text; allowed: a whole document; to mend: copy or export the file again: it is cut off",
		"3MF":        "3MF: found no archive that can be read: zip: not a valid zip file; allowed: a ZIP archive, whole; to mend: choose a 3MF file, or copy it again: it may be cut off",
	}},
	{"a corner that is no number", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		box.Vertices[5] = r3.Vec{X: math.NaN(), Y: 1}
		return f.encode(t, box), f.options()
	}, map[string]string{
		"binary STL": "binary STL, offset 184: found coordinates (NaN, 1, 0); allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"ASCII STL":  "ASCII STL, line 19: found \"NaN\"; allowed: a number; to mend: export the file again",
		"OBJ":        "OBJ, line 6: found \"NaN\"; allowed: three numbers x y z, with a weight of 1 or a colour at most; to mend: export the file again",
		"ASCII PLY":  "ASCII PLY, line 15: found \"NaN\"; allowed: a number; to mend: export the file again",
		"binary PLY": "binary PLY, little endian, vertex 5, offset 238: found coordinates (NaN, 1, 0); allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"GLB":        "GLB, meshes[0].primitives[0]: found coordinates (NaN, 1, 0) of position 5; allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"3MF":        "3MF, 3D/part.model, line 7: found x = \"NaN\" of <vertex>; allowed: a number; to mend: export the file again",
	}},
	{"a corner at the end of the world", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		box.Vertices[5] = r3.Vec{X: 1 << 40, Y: 1}
		return f.encode(t, box), f.options()
	}, map[string]string{
		"binary STL": "binary STL, offset 184: found coordinates (1.099511627776e+12, 1, 0); allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"ASCII STL":  "ASCII STL, line 19: found coordinates (1.0995116e+12, 1, 0); allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"OBJ":        "OBJ, line 11: found coordinates (1.0995116e+12, 1, 0) of position 6; allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"ASCII PLY":  "ASCII PLY, vertex 5, line 15: found coordinates (1.0995116e+12, 1, 0); allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"binary PLY": "binary PLY, little endian, vertex 5, offset 238: found coordinates (1.099511627776e+12, 1, 0); allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"GLB":        "GLB, meshes[0].primitives[0]: found coordinates (1.099511627776e+12, 1, 0) of position 5; allowed: finite numbers up to 1e+09 m; to mend: export the file again",
		"3MF":        "3MF, 3D/part.model, line 23: found coordinates (1.0995116e+12, 1, 0); allowed: finite numbers up to 1e+09 m; to mend: export the file again",
	}},
	{"a corner that is not there", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		if f.name == "binary STL" || f.name == "ASCII STL" { // triangles bring their own corners
			return f.encode(t, box), f.options()
		}
		box.Triangles[7][1] = 8
		return f.encode(t, box), f.options()
	}, map[string]string{
		"OBJ":        "OBJ, line 16: found position 9; allowed: 1 to 8 or -8 to -1, the positions above this line; to mend: copy or export the file again",
		"ASCII PLY":  "ASCII PLY, face 7: found corner 8; allowed: 0 to 7, the vertices of the file; to mend: copy or export the file again",
		"binary PLY": "binary PLY, little endian, face 7: found corner 8; allowed: 0 to 7, the vertices of the file; to mend: copy or export the file again",
		"GLB":        "GLB, meshes[0].primitives[0]: found corner 8; allowed: 0 to 7, the positions of the shape; to mend: export the file again",
		"3MF":        "3MF, 3D/part.model, line 23: found a triangle with vertex 8; allowed: 0 to 7, the vertices of the object on line 1; to mend: export the file again",
	}},
	{"no triangle", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		box.Triangles = nil
		return f.encode(t, box), f.options()
	}, but(all("%s: found no triangle; allowed: at least one; to mend: export a solid or a surface, not points or lines alone"), map[string]string{
		"binary PLY": "binary PLY, little endian: found no triangle; allowed: at least one; to mend: export a solid or a surface, not points or lines alone",
		"GLB":        "GLB, accessors[1]: found a count of 0; allowed: 1 or more; to mend: export the file again",
	})},
	{"no unit", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		return f.encode(t, box), mesh.Options{}
	},
		but(all("%s: found no unit, and files of this format carry none; allowed: a declared unit; to mend: declare the unit that the file was exported in, such as mm"), map[string]string{
			"ASCII PLY":  "PLY: found no unit, and files of this format carry none; allowed: a declared unit; to mend: declare the unit that the file was exported in, such as mm",
			"binary PLY": "PLY: found no unit, and files of this format carry none; allowed: a declared unit; to mend: declare the unit that the file was exported in, such as mm",
			"GLB":        "", "3MF": "",
		})},
	{"another unit than the file's", func(t testing.TB, f format, box mesh.Mesh) ([]byte, mesh.Options) {
		return f.encode(t, box), mesh.Options{Unit: mesh.Inches}
	}, map[string]string{
		"GLB": "GLB: found coordinates in m, declared as in; allowed: the unit that the file carries; to mend: declare m, or none; if the file is wrong, export it again",
		"3MF": "3MF: found coordinates in m, declared as in; allowed: the unit that the file carries; to mend: declare m, or none; if the file is wrong, export it again",
	}},
}

// all puts the name of every format into a text.
func all(text string) map[string]string {
	m := map[string]string{}
	for _, f := range formats {
		name := f.name
		if name == "binary PLY" {
			name = "binary PLY, little endian"
		}
		m[f.name] = fmt.Sprintf(text, name)
	}
	return m
}

func but(m, other map[string]string) map[string]string {
	maps.Copy(m, other)
	return m
}

func TestEveryReaderNamesTheMistake(t *testing.T) {
	for _, row := range mistakes {
		for _, f := range formats {
			data, o := row.spoil(t, f, boxAt(t, r3.Vec{X: 1, Y: 2, Z: 3}, r3.Vec{}))
			m, _, err := f.decode(data, o)
			got := ""
			if err != nil {
				got = err.Error()
				var refused *mesh.Error
				if !errors.As(err, &refused) || len(m.Triangles) > 0 {
					t.Errorf("%s, %s: a mesh of %d triangles beside an error of type %T", row.name, f.name, len(m.Triangles), err)
				}
			} else if len(m.Triangles) != 12 {
				t.Errorf("%s, %s: %d triangles", row.name, f.name, len(m.Triangles))
			}
			if got != row.want[f.name] {
				t.Errorf("%s, %s:\n got %s\nwant %s", row.name, f.name, got, row.want[f.name])
			}
		}
	}
}

// What a file may rightly hold and no solid is: every reader reads it, and the
// check counts it.
func TestUnsoundMeshesAreReadAndReported(t *testing.T) {
	box := func() mesh.Mesh { return boxAt(t, r3.Vec{X: 1, Y: 2, Z: 3}, r3.Vec{}) }
	open := box()
	open.Triangles = open.Triangles[:11]
	flipped := box()
	flipped.Triangles[4][0], flipped.Triangles[4][1] = flipped.Triangles[4][1], flipped.Triangles[4][0]
	flat := box()
	flat.Vertices = append(flat.Vertices, flat.Vertices[0].Lerp(flat.Vertices[1], 0.5))
	flat.Triangles = append(flat.Triangles, [3]int32{0, 8, 1}, [3]int32{2, 2, 3})
	rows := []struct {
		name string
		m    mesh.Mesh
		want func(r mesh.Report) bool
	}{
		{"sound", box(), func(r mesh.Report) bool { return r.Sound() && math.Abs(r.Volume-6) < 1e-6 }},
		{"open", open, func(r mesh.Report) bool {
			return !r.Sound() && r.Open == 1 && r.HoleCount == 1 && r.Holes[0].Edges == 3
		}},
		{"one triangle turned round", flipped, func(r mesh.Report) bool { return !r.Sound() && r.Flipped == 1 }},
		{"without area", flat, func(r mesh.Report) bool { return !r.Sound() && r.ZeroArea == 1 && r.Collapsed == 1 }},
		{"cutting itself", mesh.Join(box(), boxAt(t, r3.Vec{X: 1, Y: 1, Z: 1}, r3.Vec{X: 0.5, Y: 0.25, Z: 0.25})),
			func(r mesh.Report) bool { return !r.Sound() && r.Crossings.Pairs > 0 && !r.Crossings.Bounded }},
		{"drawn twice", mesh.Join(box(), box()), func(r mesh.Report) bool { return !r.Sound() && r.Doubled == 12 }},
	}
	for _, row := range rows {
		for _, f := range formats {
			m, _, err := f.decode(f.encode(t, row.m), f.options())
			if err != nil {
				t.Errorf("%s, %s: %v", row.name, f.name, err)
				continue
			}
			r, err := mesh.Check(m, mesh.CheckOptions{})
			if err != nil || !row.want(r) {
				t.Errorf("%s, %s: %v %+v", row.name, f.name, err, r)
			}
		}
	}
}

// glTF may keep its data in other files. Without a way to get them, and for names
// that lead out of the folder, the answer says so.
func TestGLTFWithDataElsewhere(t *testing.T) {
	document := func(uri string) []byte {
		return []byte(`{"asset":{"version":"2.0"},"nodes":[{"mesh":0}],"meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],` +
			`"accessors":[{"bufferView":0,"componentType":5126,"count":3,"type":"VEC3"}],"bufferViews":[{"buffer":0,"byteLength":36}],` +
			`"buffers":[{"uri":"` + uri + `","byteLength":36}]}`)
	}
	const outside = `; allowed: a file in the same folder or below; to mend: export the file as GLB, which holds everything`
	rows := []struct{ uri, want string }{
		{"part.bin", `glTF, buffers[0]: found the file "part.bin" beside this one; allowed: a file that holds all its data; to mend: export the file as GLB, which holds everything`},
		{"../part.bin", `glTF, buffers[0]: found the file "../part.bin"` + outside},
		{"a/../../part.bin", `glTF, buffers[0]: found the file "a/../../part.bin"` + outside},
		{"%2e%2e/part.bin", `glTF, buffers[0]: found the file "%2e%2e/part.bin"` + outside},
		{"/etc/part.bin", `glTF, buffers[0]: found the file "/etc/part.bin"` + outside},
		{"file:///part.bin", `glTF, buffers[0]: found the file "file:///part.bin"` + outside},
		{"https://example.org/part.bin", `glTF, buffers[0]: found the file "https://example.org/part.bin"` + outside},
		{"C:/part.bin", `glTF, buffers[0]: found the file "C:/part.bin"` + outside},
		{`..\\part.bin`, `glTF, buffers[0]: found the file "..\\part.bin"` + outside},
		{"part%zz", `glTF, buffers[0]: found the file "part%zz"` + outside},
		{"data:text/plain,abc", `glTF, buffers[0]: found data that is not base64; allowed: data:application/octet-stream;base64,; to mend: export the file as GLB`},
	}
	for _, row := range rows {
		asked := 0
		for _, files := range []gltf.Files{nil, func(string) ([]byte, error) { asked++; return make([]byte, 36), nil }} {
			if files != nil && row.uri == "part.bin" {
				continue // that is allowed
			}
			if _, _, err := gltf.DecodeWith(document(row.uri), mesh.Options{}, files); err == nil || err.Error() != row.want {
				t.Errorf("%s:\n got %v\nwant %s", row.uri, err, row.want)
			}
		}
		if asked > 0 {
			t.Errorf("%s: the file was asked for", row.uri)
		}
	}
}

// A part of few triangles and very many vertices, used over and over, costs no
// more than its triangles.
func TestCopiesOf3MFCostTheirTriangles(t *testing.T) {
	var b strings.Builder
	b.WriteString(`<model unit="meter" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources><object id="1"><mesh><vertices>`)
	b.WriteString(strings.Repeat(`<vertex x="0" y="0" z="1"/>`, 200_000))
	b.WriteString(`<vertex x="0" y="0" z="0"/><vertex x="1" y="0" z="0"/><vertex x="0" y="1" z="0"/></vertices>`)
	b.WriteString(`<triangles><triangle v1="200000" v2="200001" v3="200002"/></triangles></mesh></object></resources><build>`)
	b.WriteString(strings.Repeat(`<item objectid="1"/>`, 20_000))
	b.WriteString(`</build></model>`)
	data := archive3MF(t, b.String())
	m, _, err := threemf.Decode(data, mesh.Options{})
	if err != nil || len(m.Triangles) != 20_000 || len(m.Vertices) != 3 {
		t.Errorf("%d triangles, %d vertices, %v", len(m.Triangles), len(m.Vertices), err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, _, err = threemf.Decode(data, mesh.Options{})
	runtime.ReadMemStats(&after)
	// 20,000 copies of 200,000 vertices would be 16 GB.
	if used := after.TotalAlloc - before.TotalAlloc; used > 500<<20 {
		t.Errorf("%d MB used, %v", used>>20, err)
	}
}
