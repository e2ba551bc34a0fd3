package gltf_test

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/mesh/gltf"
)

// buffer is a tetrahedron of 1 m over the axes: corners, then indices.
func buffer() []byte {
	var b bytes.Buffer
	binary.Write(&b, binary.LittleEndian, [][3]float32{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}, {0, 0, 1}})
	binary.Write(&b, binary.LittleEndian, [][3]uint16{{0, 2, 1}, {0, 1, 3}, {0, 3, 2}, {1, 2, 3}})
	return b.Bytes()
}

// document is a scene of the tetrahedron, moved 2 m up its own y.
func document(uri string) string {
	return fmt.Sprintf(`{"asset":{"version":"2.0"},"scene":0,"scenes":[{"nodes":[0]}],
"nodes":[{"mesh":0,"translation":[0,2,0]}],
"meshes":[{"primitives":[{"attributes":{"POSITION":0},"indices":1}]}],
"accessors":[{"bufferView":0,"componentType":5126,"count":4,"type":"VEC3","min":[0,0,0],"max":[1,1,1]},{"bufferView":1,"componentType":5123,"count":12,"type":"SCALAR"}],
"bufferViews":[{"buffer":0,"byteOffset":0,"byteLength":48},{"buffer":0,"byteOffset":48,"byteLength":24}],
"buffers":[{%s"byteLength":72}]}`, uri)
}

func inline() []byte {
	return []byte(document(`"uri":"data:application/octet-stream;base64,` + base64.StdEncoding.EncodeToString(buffer()) + `",`))
}

// binaryFile is the same as GLB.
func binaryFile() []byte {
	text := []byte(document(""))
	for len(text)%4 != 0 {
		text = append(text, ' ')
	}
	data := buffer()
	var b bytes.Buffer
	b.WriteString("glTF")
	binary.Write(&b, binary.LittleEndian, []uint32{2, uint32(12 + 8 + len(text) + 8 + len(data)), uint32(len(text)), 0x4E4F534A})
	b.Write(text)
	binary.Write(&b, binary.LittleEndian, []uint32{uint32(len(data)), 0x004E4942})
	b.Write(data)
	return b.Bytes()
}

// glTF is in metres with y up; here z is up.
func TestSceneIsTurnedUp(t *testing.T) {
	for name, data := range map[string][]byte{"text": inline(), "binary": binaryFile()} {
		m, notes, err := gltf.Decode(data, mesh.Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(m.Triangles) != 4 || math.Abs(m.Volume()-1.0/6) > 1e-6 || notes.Unit != mesh.Metres {
			t.Errorf("%s: %d triangles, %g m3, %v", name, len(m.Triangles), m.Volume(), notes.Unit)
		}
		if b := m.Box(); math.Abs(b.Min.Z-2) > 1e-6 || math.Abs(b.Max.Z-3) > 1e-6 || math.Abs(b.Min.Y+1) > 1e-6 {
			t.Errorf("%s: box %+v, want z from 2 to 3 and y from -1", name, b)
		}
	}
}

func TestRefusals(t *testing.T) {
	glb := binaryFile()
	for _, row := range []struct {
		name string
		data []byte
		o    mesh.Options
	}{
		{"another unit than metres", inline(), mesh.Options{Unit: mesh.Inches}},
		{"truncated", glb[:len(glb)-10], mesh.Options{}},
		{"no JSON", []byte("{"), mesh.Options{}},
		{"an accessor beyond its view", []byte(strings.Replace(string(inline()), `"count":12`, `"count":13`, 1)), mesh.Options{}},
		{"a node of itself", []byte(strings.Replace(string(inline()), `{"mesh":0,`, `{"mesh":0,"children":[0],`, 1)), mesh.Options{}},
		{"too many triangles", inline(), mesh.Options{Limits: mesh.Limits{Triangles: 3}}},
		{"nothing", nil, mesh.Options{}},
	} {
		t.Run(row.name, func(t *testing.T) {
			m, _, err := gltf.Decode(row.data, row.o)
			var refused *mesh.Error
			if !errors.As(err, &refused) {
				t.Errorf("got %d triangles and %v, want a refusal", len(m.Triangles), err)
			}
		})
	}
}

func FuzzGLTF(f *testing.F) {
	f.Add(inline())
	f.Add(binaryFile())
	f.Fuzz(func(t *testing.T, data []byte) {
		m, _, err := gltf.Decode(data, mesh.Options{Limits: mesh.Limits{Triangles: 1000, Shells: 100}})
		if err == nil && m.Validate() != nil {
			t.Errorf("what was read is no mesh: %v", m.Validate())
		}
	})
}
