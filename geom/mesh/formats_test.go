package mesh_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/gltf"
	"seamwright/geom/mesh/obj"
	"seamwright/geom/mesh/ply"
	"seamwright/geom/mesh/stl"
	"seamwright/geom/mesh/threemf"
	"seamwright/geom/r3"
)

// format is one way to write a mesh into a file, and its reader. Every reader is
// shown the same meshes, sound and not.
type format struct {
	name   string
	unit   mesh.Unit // to be declared; Undeclared where the file carries it
	encode func(testing.TB, mesh.Mesh) []byte
	decode func([]byte, mesh.Options) (mesh.Mesh, mesh.Notes, error)
}

var formats = []format{
	{"binary STL", mesh.Metres, binarySTL, stl.Decode},
	{"ASCII STL", mesh.Metres, textSTL, stl.Decode},
	{"OBJ", mesh.Metres, textOBJ, obj.Decode},
	{"ASCII PLY", mesh.Metres, textPLY, ply.Decode},
	{"binary PLY", mesh.Metres, binaryPLY, ply.Decode},
	{"GLB", mesh.Undeclared, binaryGLB, gltf.Decode},
	{"3MF", mesh.Undeclared, packed3MF, threemf.Decode},
}

func (f format) options() mesh.Options { return mesh.Options{Unit: f.unit} }

func floats(v r3.Vec) [3]float32 { return [3]float32{float32(v.X), float32(v.Y), float32(v.Z)} }

func little(t testing.TB, b *bytes.Buffer, all ...any) {
	t.Helper()
	for _, x := range all {
		if err := binary.Write(b, binary.LittleEndian, x); err != nil {
			t.Fatal(err)
		}
	}
}

// binarySTL does not use the package's writer, which refuses unsound meshes.
func binarySTL(t testing.TB, m mesh.Mesh) []byte {
	var b bytes.Buffer
	b.Write(make([]byte, 80))
	little(t, &b, uint32(len(m.Triangles)))
	for _, c := range m.Triangles {
		little(t, &b, [3]float32{}, floats(m.Vertices[c[0]]), floats(m.Vertices[c[1]]), floats(m.Vertices[c[2]]), uint16(0))
	}
	return b.Bytes()
}

func textSTL(_ testing.TB, m mesh.Mesh) []byte {
	var b bytes.Buffer
	b.WriteString("solid part\n")
	for _, c := range m.Triangles {
		b.WriteString(" facet normal 0 0 0\n  outer loop\n")
		for _, i := range c {
			v := floats(m.Vertices[i])
			fmt.Fprintf(&b, "   vertex %v %v %v\n", v[0], v[1], v[2])
		}
		b.WriteString("  endloop\n endfacet\n")
	}
	b.WriteString("endsolid part\n")
	return b.Bytes()
}

func textOBJ(_ testing.TB, m mesh.Mesh) []byte {
	var b bytes.Buffer
	for _, p := range m.Vertices {
		v := floats(p)
		fmt.Fprintf(&b, "v %v %v %v\n", v[0], v[1], v[2])
	}
	for _, c := range m.Triangles {
		fmt.Fprintf(&b, "f %d %d %d\n", c[0]+1, c[1]+1, c[2]+1)
	}
	return b.Bytes()
}

func headPLY(kind string, m mesh.Mesh) string {
	return fmt.Sprintf("ply\nformat %s 1.0\nelement vertex %d\nproperty float x\nproperty float y\nproperty float z\n"+
		"element face %d\nproperty list uchar int vertex_indices\nend_header\n", kind, len(m.Vertices), len(m.Triangles))
}

func textPLY(_ testing.TB, m mesh.Mesh) []byte {
	var b bytes.Buffer
	b.WriteString(headPLY("ascii", m))
	for _, p := range m.Vertices {
		v := floats(p)
		fmt.Fprintf(&b, "%v %v %v\n", v[0], v[1], v[2])
	}
	for _, c := range m.Triangles {
		fmt.Fprintf(&b, "3 %d %d %d\n", c[0], c[1], c[2])
	}
	return b.Bytes()
}

func binaryPLY(t testing.TB, m mesh.Mesh) []byte {
	var b bytes.Buffer
	b.WriteString(headPLY("binary_little_endian", m))
	for _, p := range m.Vertices {
		little(t, &b, floats(p))
	}
	for _, c := range m.Triangles {
		little(t, &b, uint8(3), c)
	}
	return b.Bytes()
}

// binaryGLB writes the mesh as it is; the reader turns its y into z.
func binaryGLB(t testing.TB, m mesh.Mesh) []byte {
	var data bytes.Buffer
	for _, p := range m.Vertices {
		little(t, &data, floats(p))
	}
	for _, c := range m.Triangles {
		little(t, &data, c)
	}
	n, k := 12*len(m.Vertices), 3*len(m.Triangles)
	text := fmt.Sprintf(`{"asset":{"version":"2.0"},"scenes":[{"nodes":[0]}],"nodes":[{"mesh":0}],`+
		`"meshes":[{"primitives":[{"attributes":{"POSITION":0},"indices":1}]}],`+
		`"accessors":[{"bufferView":0,"componentType":5126,"count":%d,"type":"VEC3"},{"bufferView":1,"componentType":5125,"count":%d,"type":"SCALAR"}],`+
		`"bufferViews":[{"buffer":0,"byteLength":%d},{"buffer":0,"byteOffset":%d,"byteLength":%d}],"buffers":[{"byteLength":%d}]}`,
		len(m.Vertices), k, n, n, 4*k, n+4*k)
	text += strings.Repeat(" ", (4-len(text)%4)%4)
	var b bytes.Buffer
	b.WriteString("glTF")
	little(t, &b, uint32(2), uint32(28+len(text)+data.Len()), uint32(len(text)), uint32(0x4E4F534A))
	b.WriteString(text)
	little(t, &b, uint32(data.Len()), uint32(0x004E4942))
	b.Write(data.Bytes())
	return b.Bytes()
}

func model3MF(m mesh.Mesh) string {
	var b strings.Builder
	b.WriteString(`<model unit="meter" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources><object id="1"><mesh><vertices>` + "\n")
	for _, p := range m.Vertices {
		v := floats(p)
		fmt.Fprintf(&b, "<vertex x=\"%v\" y=\"%v\" z=\"%v\"/>\n", v[0], v[1], v[2])
	}
	b.WriteString("</vertices><triangles>\n")
	for _, c := range m.Triangles {
		fmt.Fprintf(&b, "<triangle v1=\"%d\" v2=\"%d\" v3=\"%d\"/>\n", c[0], c[1], c[2])
	}
	b.WriteString(`</triangles></mesh></object></resources><build><item objectid="1"/></build></model>`)
	return b.String()
}

func packed3MF(t testing.TB, m mesh.Mesh) []byte {
	return archive3MF(t, model3MF(m))
}

func archive3MF(t testing.TB, model string) []byte {
	const relations = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Target="/3D/part.model" Id="r" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>`
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, part := range [][2]string{{"_rels/.rels", relations}, {"3D/part.model", model}} {
		w, err := z.Create(part[0])
		if err == nil {
			_, err = w.Write([]byte(part[1]))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
