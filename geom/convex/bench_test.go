package convex_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// benchPoses returns poses spread about a body of half a metre.
func benchPoses(n int) []se3.Pose {
	r := rand.New(rand.NewPCG(5, 6))
	v := func(scale float64) r3.Vec {
		return r3.Vec{X: scale * r.NormFloat64(), Y: scale * r.NormFloat64(), Z: scale * r.NormFloat64()}
	}
	poses := make([]se3.Pose, n)
	for i := range poses {
		poses[i] = se3.Pose{R: se3.Exp(v(1.5)), P: v(0.3)}
	}
	return poses
}

func BenchmarkPairs(b *testing.B) {
	kinds := []convex.Solid{
		{Kind: convex.Box, Size: r3.Vec{X: 0.6, Y: 0.1, Z: 0.08}},
		{Kind: convex.Cylinder, Radius: 0.05, Length: 0.2},
		{Kind: convex.Capsule, Radius: 0.05, Length: 0.2},
		{Kind: convex.Cone, Radius: 0.05, TopRadius: 0.02, Length: 0.1},
	}
	poses := benchPoses(1024)
	for i := range kinds {
		for j := i; j < len(kinds); j++ {
			x, y := &kinds[i], &kinds[j]
			name := x.Kind.String() + "-" + y.Kind.String()
			b.Run(name+"/distance", func(b *testing.B) {
				for k := 0; b.Loop(); k++ {
					convex.Distance(x, y, &poses[k%len(poses)])
				}
			})
			b.Run(name+"/clears", func(b *testing.B) {
				for k := 0; b.Loop(); k++ {
					convex.Clears(x, y, &poses[k%len(poses)], 0)
				}
			})
			b.Run(name+"/clearsAlong", func(b *testing.B) {
				axes := make([]r3.Vec, len(poses))
				for k := 0; b.Loop(); k++ {
					convex.ClearsAlong(x, y, &poses[k%len(poses)], 0, &axes[k%len(poses)])
				}
			})
			b.Run(name+"/depth", func(b *testing.B) {
				for k := 0; b.Loop(); k++ {
					d, _ := convex.Depth(x, y, &poses[k%len(poses)])
					if math.IsNaN(d) {
						b.Fatal(d)
					}
				}
			})
		}
	}
}
