package kinematics_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// seamPoses are the poses of a straight seam of 0.6 m, 10 mm a step, along a
// line that begins at the posture q, at 36 turns about the flange's z axis:
// [turn][station].
func seamPoses(c *kinematics.Chain, q kinematics.Q, along r3.Vec) [][]se3.Pose {
	start := forward(c, q)
	list := make([][]se3.Pose, 36)
	for k := range list {
		for i := range 61 {
			p := se3.Pose{R: start.R.Mul(se3.RotZ(float64(k) * math.Pi / 18)), P: start.P.AddScaled(10e-3*float64(i), along)}
			list[k] = append(list[k], p)
		}
	}
	return list
}

// Followed along seams a general arm shows the postures that it shows pose by
// pose, and says as well where it doubts.
func TestSolveAlongFindsTheSame(t *testing.T) {
	var poses, doubt, differ int
	for seed := range uint64(5) {
		s := newSolver(t, newChain(t, armOfFamily(seed, kinematics.General), "l0", "l7"))
		for i, q := range randomPostures9(2, 6, seed+7) {
			for k, run := range seamPoses(s.Chain(), q, r3.Vec{X: 0.6, Y: float64(i) - 0.5, Z: 0.3}.Unit()) {
				if k%12 != 0 {
					continue
				}
				var trail kinematics.Trail
				for _, pose := range run {
					var out kinematics.Solutions
					s.SolveAlong(&trail, nil, &pose, &q, &out)
					checkPostures(t, s, pose, &out)
					afresh := solve(s, pose, &q)
					poses++
					if out.Uncertain || afresh.Uncertain {
						doubt++
						continue
					}
					same := out.N == afresh.N && out.Geometric == afresh.Geometric && out.Reach == afresh.Reach && out.Missing == afresh.Missing
					for _, p := range postures(&afresh) {
						same = same && nearestTo(p, postures(&out)) < 1e-6
					}
					if !same {
						differ++
						t.Errorf("arm %d: along %d postures of %d, afresh %d of %d", seed, out.N, out.Geometric, afresh.N, afresh.Geometric)
					}
				}
			}
		}
	}
	t.Logf("%d poses, %d different, %d in doubt", poses, differ, doubt)
	if doubt*1000 > poses {
		t.Errorf("%d of %d poses in doubt", doubt, poses)
	}
}

// A trail of another arm is no trail, and the closed forms need none.
func TestTrailBelongsToItsArm(t *testing.T) {
	a := newSolver(t, newChain(t, armOfFamily(1, kinematics.General), "l0", "l7"))
	b := newSolver(t, newChain(t, armOfFamily(2, kinematics.General), "l0", "l7"))
	q := kinematics.Q{0.3, -1, 1.2, -0.4, 0.9, 0.2}
	var trail kinematics.Trail
	var out kinematics.Solutions
	pose := forward(a.Chain(), q)
	a.SolveAlong(&trail, nil, &pose, &q, &out)
	out, pose = kinematics.Solutions{}, forward(b.Chain(), q)
	b.SolveAlong(&trail, nil, &pose, &q, &out)
	if want := solve(b, pose, &q); out != want {
		t.Errorf("with another arm's trail %+v, without %+v", out, want)
	}
	closed := newSolver(t, readFreeChain(t, "offw6"))
	out, pose = kinematics.Solutions{}, forward(closed.Chain(), q)
	closed.SolveAlong(&trail, nil, &pose, &q, &out)
	if want := solve(closed, pose, &q); out != want {
		t.Errorf("closed form: %+v, Solve says %+v", out, want)
	}
	lifted := newSolver(t, newChain(t, withExtra(armOfFamily(4, kinematics.General), lift(0)), "l0", "l8"))
	long := kinematics.Q{0.4, 0.3, -1, 1.2, -0.4, 0.9, 0.2}
	for range 2 {
		pose = forward(lifted.Chain(), long)
		lifted.SolveAlong(&trail, &long, &pose, &long, &out)
		if d := nearestLong(long, &out, 7); d > 1e-9 {
			t.Errorf("on a lift the posture is missed by %.3g", d)
		}
		long[0] += 0.01
	}
}

// BenchmarkSolveAlong goes along seams with a general arm.
func BenchmarkSolveAlong(b *testing.B) {
	for _, row := range []struct {
		name  string
		trail *kinematics.Trail
	}{{"trail", new(kinematics.Trail)}, {"afresh", nil}} {
		b.Run(row.name, func(b *testing.B) {
			s := newSolver(b, newChain(b, armOfFamily(3, kinematics.General), "l0", "l7"))
			q := randomPostures9(1, 6, 7)[0]
			runs := seamPoses(s.Chain(), q, r3.Vec{X: 0.6, Z: 0.8})
			var out kinematics.Solutions
			b.ReportAllocs()
			defer reportCPU(b)()
			for i := 0; b.Loop(); i++ {
				run := runs[i/len(runs[0])%len(runs)]
				s.SolveAlong(row.trail, nil, &run[i%len(run)], &q, &out)
			}
		})
	}
}
