package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// poses is how many random postures a benchmark cycles through: enough that
// the processor cannot learn them.
const poses = 4096

// randomPostures returns joint values in +-pi, always the same ones.
func randomPostures(n int) []kinematics.Q {
	r := rand.New(rand.NewPCG(1, 2))
	list := make([]kinematics.Q, n)
	for i := range list {
		for j := range 6 {
			list[i][j] = (2*r.Float64() - 1) * math.Pi
		}
	}
	return list
}

func benchmarkForward(b *testing.B, arm string) {
	c, q := readChain(b, arm), randomPostures(poses)
	var pose se3.Pose
	b.ReportAllocs()
	defer reportCPU(b)()
	for i := 0; b.Loop(); i++ {
		c.Forward(&q[i%poses], &pose)
	}
}

func BenchmarkForwardSpherical(b *testing.B)     { benchmarkForward(b, "sphw6") }
func BenchmarkForwardThreeParallel(b *testing.B) { benchmarkForward(b, "offw6") }

func benchmarkJacobian(b *testing.B, arm string) {
	c, q := readChain(b, arm), randomPostures(poses)
	var pose se3.Pose
	var jac kinematics.Jacobian
	b.ReportAllocs()
	defer reportCPU(b)()
	for i := 0; b.Loop(); i++ {
		c.Jacobian(&q[i%poses], &pose, &jac)
	}
}

func BenchmarkJacobianSpherical(b *testing.B)     { benchmarkJacobian(b, "sphw6") }
func BenchmarkJacobianThreeParallel(b *testing.B) { benchmarkJacobian(b, "offw6") }

// benchmarkSolve finds all postures of random reachable poses from random
// seeds, without limits.
func benchmarkSolve(b *testing.B, arm string) {
	s, q := newSolver(b, readFreeChain(b, arm)), randomPostures(poses+1)
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
}

func BenchmarkSolveSpherical(b *testing.B)     { benchmarkSolve(b, "sphw6") }
func BenchmarkSolveThreeParallel(b *testing.B) { benchmarkSolve(b, "offw6") }
