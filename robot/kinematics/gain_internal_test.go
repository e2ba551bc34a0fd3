package kinematics

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/r3"
)

// gainAtLeast is below leastGain for every arm and posture, and not by so much
// that it would never spare the whole decomposition.
func TestGainAtLeast(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	spared := 0
	const postures = 2000
	for n := range postures {
		c := &Chain{n: 6}
		for i := range 6 {
			dir := randomUnit(rng)
			at := randomUnit(rng).Scale(rng.Float64())
			c.lines[i] = line{dir: dir, at: at}
			c.joints[i] = Joint{Kind: Continuous, Lower: math.Inf(-1), Upper: math.Inf(1)}
			if i == n%7 { // none of a seventh of the arms
				c.joints[i] = Joint{Kind: Prismatic, Lower: -1, Upper: 1}
			}
		}
		c.zero.R[0], c.zero.R[4], c.zero.R[8] = 1, 1, 1
		c.form = compile(c.lines[:6], c.joints[:6], c.zero)
		length := c.leverLength()
		var q Q
		for i := range 6 {
			q[i] = 3 * (2*rng.Float64() - 1)
		}
		if n%2 == 0 { // near a singularity: two axes almost on one line
			c.lines[5] = c.lines[4]
			c.lines[5].at = c.lines[5].at.AddScaled(1e-4, randomUnit(rng))
			c.form = compile(c.lines[:6], c.joints[:6], c.zero)
		}
		bound, least := c.gainAtLeast(&q, length), c.leastGain(&q, length)
		if bound > least*(1+1e-6)+1e-14 {
			t.Fatalf("arm %d: at least %g, least %g", n, bound, least)
		}
		if gainAngle(bound) > 2*NearSingular {
			spared++
		}
	}
	t.Logf("spared %d of %d", spared, postures)
	if spared < postures*8/10 {
		t.Errorf("spared only %d of %d", spared, postures)
	}
}

func randomUnit(rng *rand.Rand) r3.Vec {
	return r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()}.Unit()
}
