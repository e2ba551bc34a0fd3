package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// TestAlignedWristOnStretchedArm: with the arm all but stretched, the rounding
// of a pose turns the links by far more than itself, and asks of an aligned
// skew wrist, whose axes 4, 5 and 6 lie in one plane, a hair more than it can.
// The posture is there all the same.
func TestAlignedWristOnStretchedArm(t *testing.T) {
	wrist := r3.Vec{X: 1.3, Z: 0.3}
	axis5 := se3.RotZ(0.5).Apply(r3.Vec{X: 1})
	dirs := [6]r3.Vec{{Z: 1}, {Y: 1}, {Y: 1}, {X: 1}, axis5, se3.RotZ(1).Apply(axis5)}
	points := [6]r3.Vec{{}, {Z: 0.3}, {X: 0.8, Z: 0.3}, wrist, wrist, wrist}
	var frames [6]se3.Rot
	for i := range frames {
		frames[i] = se3.RotIdentity()
	}
	c, err := kinematics.NewChain(screwArm(dirs, points, frames, se3.Translation(wrist)), "l0", "l7")
	if err != nil {
		t.Fatal(err)
	}
	s := newSolver(t, c)
	r := rand.New(rand.NewPCG(3, 5))
	var pose, got se3.Pose
	var out kinematics.Solutions
	missed := 0
	const tries = 2000
	for range tries {
		q := kinematics.Q{r.Float64()*4 - 2, r.Float64()*2 - 1, math.Pow(10, -6-r.Float64()), r.Float64()*4 - 2, 0, r.Float64()*4 - 2}
		c.Forward(&q, &pose)
		s.Solve(&pose, &q, &out)
		if out.N == 0 {
			missed++
		}
		for i := range out.N {
			c.Forward(&out.Q[i], &got)
			if lin, ang := got.P.Dist(pose.P), got.R.AngleTo(pose.R); lin > 1e-9 || ang > 1e-9 {
				t.Errorf("posture %v is off by %.3g m, %.3g rad", out.Q[i], lin, ang)
			}
		}
	}
	if missed > 0 {
		t.Errorf("%d of %d postures' own poses have no posture", missed, tries)
	}
}
