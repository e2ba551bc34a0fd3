package kinematics_test

import (
	"testing"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// compareWithPeer has the library confirm every posture of some poses and
// search for more from random seeds; none that it finds may be missing.
func compareWithPeer(t *testing.T, r *urdf.Robot, poses, seeds int) {
	t.Helper()
	s := newSolver(t, newChain(t, r, r.Root(), tipOf(r)))
	n := s.Chain().N()
	search, confirm := peerOf(r), peerOf(r)
	from := randomPostures9(seeds, n, 12)
	var list []kinematics.Solutions
	var want []se3.Pose
	for _, g := range randomPostures9(poses, n, 11) {
		for j := range n {
			if s.Chain().Joint(j).Kind == kinematics.Prismatic {
				g[j] *= 0.1
			}
		}
		pose := forward(s.Chain(), g)
		out := solve(s, pose, &g)
		search.Q = append(search.Q, append([]float64(nil), g[:n]...))
		var values [][]float64
		for _, q := range from {
			values = append(values, append([]float64(nil), q[:n]...))
		}
		search.Seeds = append(search.Seeds, values)
		list = append(list, out)
		for i := range out.N {
			confirm.Q, want = append(confirm.Q, append([]float64(nil), out.Q[i][:n]...)), append(want, pose)
		}
	}
	answer := askPeer(t, []peerChain{search, confirm})
	for i, pose := range want {
		if d := largest(poseOf(answer[1].Poses[i]), pose); d > 1e-9 {
			t.Errorf("the library puts posture %v off by %.3g", confirm.Q[i], d)
		}
	}
	hits := 0
	for i, found := range answer[0].Solutions {
		pose := poseOf(answer[0].Poses[i])
		for _, v := range found {
			q, out := qOf(v), &list[i]
			var held kinematics.Solutions
			if n > 6 { // the library takes the free joints elsewhere
				if s.SolveHeld(&q, &pose, &q, &held); held.Status == kinematics.OutsideLimits {
					continue
				}
				out = &held
			} else if !newtonTo(s.Chain(), pose, &q) { // its residual is 1e-5: improved, or no solution
				continue
			}
			hits++
			if d := nearestLong(q, out, n); d > 0.02 {
				t.Errorf("pose %d: the library finds %v, %.3g rad from the nearest of ours", i, v, d)
			}
		}
	}
	t.Logf("%d postures confirmed, %d solutions of the library all among them", len(want), hits)
	if len(want) < poses || hits < poses {
		t.Errorf("only %d postures and %d solutions of the library compared", len(want), hits)
	}
}

func TestFamiliesAgreeWithLibraryLive(t *testing.T) {
	for _, family := range append(closedForms(), kinematics.General) {
		t.Run(family.String(), func(t *testing.T) { compareWithPeer(t, armOfFamily(7, family), 30, 10) })
	}
}

func TestLongArmsAgreeWithLibraryLive(t *testing.T) {
	for name, r := range map[string]*urdf.Robot{
		"shoulder, elbow and wrist":        chainOnly(shoulderElbowWrist(0)),
		"shoulder, offset elbow and wrist": chainOnly(shoulderElbowWrist(0.05)),
		"offset wrist on a lift":           withExtra(chainOnly(readRobot(t, "offw6")), wideLift()),
		"general arm on a lift":            withExtra(armOfFamily(7, kinematics.General), wideLift()),
	} {
		t.Run(name, func(t *testing.T) { compareWithPeer(t, r, 30, 10) })
	}
}

// wideLift is a lift whose limits the library, which knows none, does not leave.
func wideLift() extraJoint {
	l := lift(0)
	l.joint.Limit = urdf.Limit{Lower: -50, Upper: 50}
	return l
}
