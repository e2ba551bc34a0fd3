package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// Every posture of random arms of every closed form is found again from its
// pose, and every posture found makes the pose.
func TestClosedFormsFindTheGenerator(t *testing.T) {
	for _, family := range closedForms() {
		t.Run(family.String(), func(t *testing.T) {
			most := 0
			for seed := range uint64(30) {
				s := newSolver(t, newChain(t, armOfFamily(seed, family), "l0", "l7"))
				if s.Family() != family || !s.Exact() {
					t.Fatalf("arm %d: family %v, exact %v", seed, s.Family(), s.Exact())
				}
				for _, q := range randomPostures9(20, 6, seed) {
					checkGenerator(t, s, q)
					out := solve(s, forward(s.Chain(), q), &q)
					most = max(most, out.N)
					if out.Uncertain {
						t.Errorf("arm %d: a closed form is uncertain", seed)
					}
				}
			}
			if most != 8 {
				t.Errorf("at most %d postures found, want 8", most)
			}
		})
	}
}

// Where a family says that a posture is far from its singularities the Jacobian
// is not singular, and where its angle goes to zero the determinant does.
func TestSingularityFollowsTheDeterminant(t *testing.T) {
	for _, family := range append(closedForms(), kinematics.General) {
		t.Run(family.String(), func(t *testing.T) {
			s := newSolver(t, newChain(t, armOfFamily(1, family), "l0", "l7"))
			lowest, highest := math.Inf(1), 0.0
			for _, q := range randomPostures9(2000, 6, 3) {
				a := s.Singularity(&q)
				angles := math.Sin(a.Shoulder) * math.Sin(a.Elbow) * math.Sin(a.Wrist)
				if family == kinematics.General {
					angles = math.Sin(a.Wrist)
				}
				ratio := math.Abs(determinant(s.Chain(), &q)) / angles
				lowest, highest = min(lowest, ratio), max(highest, ratio)
			}
			t.Logf("determinant over the sines: %.3g to %.3g m3", lowest, highest)
			if !(lowest > 0) || highest > 3 {
				t.Errorf("determinant over the sines: %.3g to %.3g m3, want above 0 and bounded", lowest, highest)
			}
		})
	}
}

// determinant returns that of the Jacobian, by expansion on pivots.
func determinant(c *kinematics.Chain, q *kinematics.Q) float64 {
	var pose se3.Pose
	var j kinematics.Jacobian
	c.Jacobian(q, &pose, &j)
	det := 1.0
	for k := range 6 {
		p := k
		for i := k; i < 6; i++ {
			if math.Abs(j[i][k]) > math.Abs(j[p][k]) {
				p = i
			}
		}
		if p != k {
			j[p], j[k] = j[k], j[p]
			det = -det
		}
		det *= j[k][k]
		for i := k + 1; i < 6; i++ {
			f := j[i][k] / j[k][k]
			for l := k; l < 6; l++ {
				j[i][l] -= f * j[k][l]
			}
		}
	}
	return det
}

// Postures of one branch stay on it: along a way of the joints that keeps clear
// of singularities the posture is found under the same branch all along.
func TestBranchesHoldAlongAWay(t *testing.T) {
	for _, family := range append(closedForms(), kinematics.General) {
		t.Run(family.String(), func(t *testing.T) {
			s := newSolver(t, newChain(t, armOfFamily(2, family), "l0", "l7"))
			rng := rand.New(rand.NewPCG(5, 5))
			steps := 0
			for range 40 {
				q := randomPostures9(1, 6, rng.Uint64())[0]
				var by kinematics.Q
				for j := range 6 {
					by[j] = within(rng, 0.02)
				}
				branch, have := kinematics.Branch(0), false
				for range 10 {
					for j := range 6 {
						q[j] += by[j]
					}
					if a := s.Singularity(&q); min(a.Shoulder, a.Elbow, a.Wrist) < 0.06 {
						have = false
						continue
					}
					out := solve(s, forward(s.Chain(), q), &q)
					now, found := branchOf(&out, q)
					if !found {
						t.Fatalf("posture %v is missing", q)
					}
					if have && now != branch {
						t.Fatalf("posture %v is on branch %b, was on %b a step before", q, now, branch)
					}
					branch, have = now, true
					steps++
				}
			}
			if steps < 100 {
				t.Errorf("only %d steps looked at", steps)
			}
		})
	}
}

// branchOf returns the branch under which q is listed.
func branchOf(out *kinematics.Solutions, q kinematics.Q) (kinematics.Branch, bool) {
	for i := range out.N {
		if apart(out.Q[i][:6], q[:6]) < 1e-6 {
			return out.Branch[i], true
		}
	}
	return 0, false
}
