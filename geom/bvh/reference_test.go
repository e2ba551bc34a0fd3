package bvh_test

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"io"
	"math"
	"os"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
)

func unpacked(t *testing.T, name string) []byte {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// packedMesh reads a mesh in the form that testdata/README.md describes.
func packedMesh(t *testing.T, name string) (m mesh) {
	t.Helper()
	data := unpacked(t, name)
	le := binary.LittleEndian
	vertices, triangles := int(le.Uint32(data)), int(le.Uint32(data[4:]))
	data = data[8:]
	for range vertices {
		f := func(i int) float64 { return float64(math.Float32frombits(le.Uint32(data[4*i:]))) }
		m.vertices = append(m.vertices, r3.Vec{X: f(0), Y: f(1), Z: f(2)})
		data = data[12:]
	}
	for range triangles {
		f := func(i int) int32 { return int32(le.Uint16(data[2*i:])) }
		m.triangles = append(m.triangles, [3]int32{f(0), f(1), f(2)})
		data = data[6:]
	}
	if len(data) != 0 {
		t.Fatalf("%s: %d bytes left", name, len(data))
	}
	return m
}

// TestReference compares with the Flexible Collision Library 0.7 (OBBRSS
// trees): see testdata/README.md.
func TestReference(t *testing.T) {
	part, torch := packedMesh(t, "part.mesh.gz").tree(t), packedMesh(t, "torch.mesh.gz").tree(t)
	lines := json.NewDecoder(bytes.NewReader(unpacked(t, "distance.jsonl.gz")))
	count := 0
	for ; lines.More(); count++ {
		var c reference
		if err := lines.Decode(&c); err != nil {
			t.Fatal(err)
		}
		start := bvh.Pair{A: int32(count * 17 % part.Len()), B: int32(count * 31 % torch.Len())}
		c.check(t, part, torch, start)
	}
	if count != 200 {
		t.Fatalf("%d cases, want 200", count)
	}
}
