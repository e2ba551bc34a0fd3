package convex_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

func TestSmoke(t *testing.T) {
	a, _ := convex.NewBox(r3.Vec{X: 1, Y: 1, Z: 1})
	b, _ := convex.NewCylinder(0.1, 1)
	p := se3.Translation(r3.Vec{X: 1})
	g := convex.Distance(&a, &b, &p)
	if math.Abs(g.Distance-0.4) > 1e-12 {
		t.Fatal(g)
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		p.R = se3.Exp(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
		p.P = r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()}
		g = convex.Distance(&a, &b, &p)
		if math.Abs(g.A.Dist(g.B)-g.Distance) > 1e-12 {
			t.Fatal(g)
		}
	}
}
