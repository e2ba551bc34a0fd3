package collision_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

func newChain(tb testing.TB, r *urdf.Robot, base, flange string) *kinematics.Chain {
	tb.Helper()
	c, err := kinematics.NewChain(r, base, flange)
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

func box(tb testing.TB, x, y, z float64) collision.Shape {
	tb.Helper()
	t, err := bvh.NewBox(r3.Vec{X: x, Y: y, Z: z})
	if err != nil {
		tb.Fatal(err)
	}
	return collision.OfTree(t)
}

func drawQ(t *rapid.T, n int) (q kinematics.Q) {
	for j := range n {
		q[j] = rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "q")
	}
	return q
}

// The poses are those of the chain's own links, at every link of the list.
func TestPosesAreThoseOfTheLinks(t *testing.T) {
	chain := newChain(t, readRobot(t, "sphw6"), "link0", "flange")
	random := rand.New(rand.NewPCG(1, 1))
	links := chain.Links(&kinematics.Q{}, nil)
	var bodies []collision.Body
	for i := range links {
		bodies = append(bodies, collision.Body{
			Name: links[i].Link, Link: i, Shape: box(t, 0.01, 0.01, 0.01),
			LinkFromBody: se3.Pose{R: se3.RotX(random.Float64()).Mul(se3.RotZ(random.Float64())), P: r3.Vec{X: random.Float64()}},
		})
	}
	m, _, err := collision.NewModel(chain, bodies, collision.PairOptions{})
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		q := drawQ(t, chain.N())
		links = chain.Links(&q, links[:0])
		for i, got := range m.Poses(&q, nil) {
			want := links[i].BaseFromLink.Mul(bodies[i].LinkFromBody)
			if d := got.Minus(want); d.Linear.Norm()+d.Angular.Norm() > 1e-12 {
				t.Fatalf("body on %s at %v: got %v, want %v", links[i].Link, q, got, want)
			}
		}
	})
}
