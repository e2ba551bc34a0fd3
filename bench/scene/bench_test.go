package scene_test

import (
	"bytes"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/geom/mesh"
	"seamwright/geom/mesh/stl"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// BenchmarkLargeShape: the scene of an example with a shape of 200,000 triangles.
func BenchmarkLargeShape(b *testing.B) {
	j := decode(b, "keel-cradle")
	ball, err := mesh.NewCapsule(0.2, 0, 9.9e-6)
	if err != nil {
		b.Fatal(err)
	}
	var file bytes.Buffer
	if err := stl.Write(&file, ball, mesh.Millimetres, "ball"); err != nil {
		b.Fatal(err)
	}
	read, _, err := stl.Decode(file.Bytes(), mesh.Options{Unit: mesh.Millimetres})
	if err != nil {
		b.Fatal(err)
	}
	b.Logf("%d triangles", len(read.Triangles))
	j.Shapes = append(j.Shapes, job.Shape{Name: "ball", Kind: job.ShapeMesh, LinkFromShape: se3.Translation(r3.Vec{Z: 2}), Mesh: job.MeshFile{File: "ball.stl", Unit: mesh.Millimetres, Mesh: read}})
	c := cellOf(b, j)
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := stl.Decode(file.Bytes(), mesh.Options{Unit: mesh.Millimetres}); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("mend", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := scene.Mend("ball", j.Shapes[len(j.Shapes)-1].Mesh); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("scene", func(b *testing.B) {
		for b.Loop() {
			if _, err := scene.New(j, c); err != nil {
				b.Fatal(err)
			}
		}
	})
}
