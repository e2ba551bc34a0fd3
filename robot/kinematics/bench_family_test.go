package kinematics_test

import (
	"testing"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// BenchmarkSolveFamily finds all postures of random reachable poses, for a
// random arm of each family.
func BenchmarkSolveFamily(b *testing.B) {
	for _, family := range append(closedForms(), kinematics.General) {
		b.Run(family.String(), func(b *testing.B) {
			s, q := newSolver(b, newChain(b, armOfFamily(7, family), "l0", "l7")), randomPostures(poses+1)
			list := make([]se3.Pose, poses)
			for i := range list {
				s.Chain().Forward(&q[i], &list[i])
			}
			var out kinematics.Solutions
			found, n := 0, 0
			b.ReportAllocs()
			defer reportCPU(b)()
			for ; b.Loop(); n++ {
				s.Solve(&list[n%poses], &q[n%poses+1], &out)
				found += out.N
			}
			b.ReportMetric(float64(found)/float64(n), "postures/op")
		})
	}
}

// BenchmarkNewSolver recognises an arm of each family, and learns the last.
func BenchmarkNewSolver(b *testing.B) {
	for _, family := range []kinematics.Family{kinematics.SphericalWrist, kinematics.WristMeet12, kinematics.SphericalShoulder, kinematics.General} {
		b.Run(family.String(), func(b *testing.B) {
			c := newChain(b, armOfFamily(7, family), "l0", "l7")
			defer reportCPU(b)()
			for b.Loop() {
				newSolver(b, c)
			}
		})
	}
}

// BenchmarkLongChain solves an arm of seven joints at choices of its free one,
// at other values, and builds its solver.
func BenchmarkLongChain(b *testing.B) {
	for name, r := range map[string]struct {
		arm *kinematics.Chain
	}{
		"lift":     {newChain(b, withExtra(chainOnly(readRobot(b, "offw6")), lift(0)), "l0", "l8")},
		"shoulder": {newChain(b, shoulderElbowWrist(0), "l0", "l8")},
		"within":   {newChain(b, withExtra(armOfFamily(4, kinematics.SphericalWrist), lift(1)), "l0", "l8")},
	} {
		s := newSolver(b, r.arm)
		q := s.ChoiceValue(s.Choices() / 2)
		for j := 1; j < 7; j++ {
			q[j] += 0.3 + 0.1*float64(j)
		}
		for _, f := range s.Free() {
			q[f.Joint] = s.ChoiceValue(s.Choices() / 2)[f.Joint]
		}
		pose := forward(s.Chain(), q)
		var out kinematics.Solutions
		b.Run(name+"/choice", func(b *testing.B) {
			for b.Loop() {
				s.SolveChoice(s.Choices()/2, &pose, &q, &out)
			}
		})
		b.Run(name+"/held", func(b *testing.B) {
			held := q
			held[s.Free()[0].Joint] += 1e-3
			for b.Loop() {
				s.SolveHeld(&held, &pose, &q, &out)
			}
		})
		b.Run(name+"/new", func(b *testing.B) {
			for b.Loop() {
				newSolver(b, r.arm)
			}
		})
	}
}
