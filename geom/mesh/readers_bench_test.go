package mesh_test

import (
	"math"
	"testing"

	"seamwright/geom/mesh"
)

// BenchmarkReaders reads a ball of some 200,000 triangles in every format.
func BenchmarkReaders(b *testing.B) {
	ball, err := mesh.NewCapsule(0.1, 0, 0.2*(1-math.Cos(math.Pi/448)))
	if err != nil {
		b.Fatal(err)
	}
	for _, f := range formats {
		data := f.encode(b, ball)
		b.Run(f.name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			for b.Loop() {
				if m, _, err := f.decode(data, f.options()); err != nil || len(m.Triangles) != len(ball.Triangles) {
					b.Fatal(len(m.Triangles), err)
				}
			}
			b.ReportMetric(float64(len(ball.Triangles)), "triangles")
		})
	}
}
