package kinematics_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// clearPosture returns a posture of the arm that is 0.3 rad from every singularity.
func clearPosture(s *kinematics.Solver) kinematics.Q {
	for _, q := range randomPostures9(100, s.Chain().N(), 5) {
		for j := range s.Chain().N() {
			if k := s.Chain().Joint(j); k.Kind == kinematics.Prismatic {
				q[j] = k.Lower + (q[j]/math.Pi+1)/2*(k.Upper-k.Lower)
			}
		}
		if away := s.Singularity(&q); min(away.Wrist, away.Elbow, away.Shoulder) > 0.3 {
			return q
		}
	}
	panic("no posture clear of singularities")
}

// A posture is followed over small steps of the flange, its free joints still,
// to one that makes the pose.
func TestSolveNearContinues(t *testing.T) {
	arms := longArms()
	for _, f := range append(closedForms(), kinematics.General) {
		arms = append(arms, arms[0])
		arms[len(arms)-1].name, arms[len(arms)-1].robot = f.String(), armOfFamily(3, f)
	}
	for _, row := range arms {
		t.Run(row.name, func(t *testing.T) {
			s := newSolver(t, newChain(t, row.robot, "l0", row.robot.Links[len(row.robot.Links)-1].Name))
			n := s.Chain().N()
			q := clearPosture(s)
			start := forward(s.Chain(), q)
			for i := range 12 {
				pose := se3.Pose{R: start.R.Mul(se3.RotZ(5e-3 * float64(i))), P: start.P.AddScaled(1e-3*float64(i), r3.Vec{X: 0.6, Z: -0.8})}
				before := q
				if away := s.Singularity(&q); i > 3 && min(away.Wrist, away.Elbow, away.Shoulder) < 0.2 {
					break
				}
				if !s.SolveNear(&pose, &q) {
					t.Fatalf("step %d: no posture", i)
				}
				if d := largest(forward(s.Chain(), q), pose); d > 1e-9 {
					t.Errorf("step %d: flange %.2g off", i, d)
				}
				for _, f := range s.Free() {
					if q[f.Joint] != before[f.Joint] {
						t.Errorf("step %d: free joint %d moved", i, f.Joint)
					}
				}
				for j := range n {
					if d := math.Abs(q[j] - before[j]); d > 0.1 {
						t.Errorf("step %d: joint %d moved by %.2g", i, j, d)
					}
				}
			}
		})
	}
}

// Where it does not arrive, or only outside the limits, q stays.
func TestSolveNearSaysNo(t *testing.T) {
	s := newSolver(t, readChain(t, "offw6"))
	q := kinematics.Q{0.3, -1, 1.2, -0.4, 0.9, 0.2}
	good := forward(s.Chain(), q)
	edge := q
	edge[5] = s.Chain().Joint(5).Upper
	beyond := edge
	beyond[5] += 0.01
	for name, row := range map[string]struct {
		pose se3.Pose
		q    kinematics.Q
	}{
		"too far":            {se3.Pose{R: good.R, P: good.P.Add(r3.Vec{X: 50})}, q},
		"outside the limits": {forward(s.Chain(), beyond), edge},
		"no pose":            {se3.Pose{}, q},
		"not a number":       {good, kinematics.Q{math.NaN()}},
	} {
		after := row.q
		if s.SolveNear(&row.pose, &after) {
			t.Errorf("%s: found %v", name, after)
		}
		for j := range after {
			if after[j] != row.q[j] && !math.IsNaN(row.q[j]) {
				t.Errorf("%s: joint %d changed", name, j)
			}
		}
	}
	still := q
	if !s.SolveNear(&good, &still) || apart(still[:6], q[:6]) > 1e-12 {
		t.Errorf("at the pose itself: %v", still)
	}
}
