package kinematics_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// The live comparison with Orocos KDL, a public library for robot kinematics.

type peerJoint struct {
	Kind   string     `json:"kind"`
	Origin []float64  `json:"origin"`
	Axis   [3]float64 `json:"axis"`
	Parent string     `json:"parent"`
	Child  string     `json:"child"`
}

type peerChain struct {
	Joints []peerJoint   `json:"joints"`
	Root   string        `json:"root"` // with Base and Tip: the way through a tree; empty: all joints in a line
	Base   string        `json:"base"`
	Tip    string        `json:"tip"`
	Q      [][]float64   `json:"q"`
	Seeds  [][][]float64 `json:"seeds"`
}

type peerAnswer struct {
	Poses, Jacobians [][]float64
	Solutions        [][][]float64
}

// askPeer runs testdata/peer.py. It fails, and does not skip, where the library
// is missing: a check that was not made must not read as passed.
func askPeer(t *testing.T, chains []peerChain) []peerAnswer {
	t.Helper()
	in, err := json.Marshal(map[string]any{"chains": chains})
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("/usr/bin/python3", "testdata/peer.py")
	cmd.Stdin = bytes.NewReader(in)
	var out, words bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &words
	if err := cmd.Run(); err != nil {
		t.Fatalf("asking Orocos KDL: %v\n%s\nThis check needs Debian's packages python3 and python3-pykdl: apt-get install python3-pykdl", err, words.String())
	}
	var answer struct{ Chains []peerAnswer }
	if err := json.Unmarshal(out.Bytes(), &answer); err != nil || len(answer.Chains) != len(chains) {
		t.Fatalf("Orocos KDL answered %d of %d chains, %v", len(answer.Chains), len(chains), err)
	}
	return answer.Chains
}

// peerOf writes a robot that is one line of joints for the peer.
func peerOf(r *urdf.Robot) (c peerChain) {
	for _, j := range r.Joints {
		o, p := j.Origin.R, j.Origin.P
		kind := j.Kind.String()
		if j.Kind == urdf.Revolute {
			kind = "continuous"
		}
		c.Joints = append(c.Joints, peerJoint{kind,
			[]float64{o[0], o[1], o[2], p.X, o[3], o[4], o[5], p.Y, o[6], o[7], o[8], p.Z},
			[3]float64{j.Axis.X, j.Axis.Y, j.Axis.Z}, j.Parent, j.Child})
	}
	return c
}

func TestForwardAndJacobianAgreeWithLibraryLive(t *testing.T) {
	var robots []*urdf.Robot
	var ask []peerChain
	for seed := range 200 {
		r := rapid.Custom(func(t *rapid.T) *urdf.Robot { r, _ := drawChain(t); return r }).Example(seed)
		c := peerOf(r)
		n := newChain(t, r, "l0", r.Links[len(r.Links)-1].Name).N()
		for _, q := range randomPostures9(5, n, uint64(seed)) {
			c.Q = append(c.Q, append([]float64(nil), q[:n]...))
		}
		robots, ask = append(robots, r), append(ask, c)
	}
	compareForward(t, ask, func(i int) *kinematics.Chain {
		r := robots[i]
		return newChain(t, r, "l0", r.Links[len(r.Links)-1].Name)
	})
}

// compareForward holds poses and Jacobians against the library's.
func compareForward(t *testing.T, ask []peerChain, chain func(i int) *kinematics.Chain) {
	t.Helper()
	worst, worstJ := 0.0, 0.0
	for i, answer := range askPeer(t, ask) {
		c := chain(i)
		for k, v := range ask[i].Q {
			q := qOf(v)
			var pose se3.Pose
			var jac kinematics.Jacobian
			c.Jacobian(&q, &pose, &jac)
			worst = max(worst, largest(pose, poseOf(answer.Poses[k])))
			for a := range 6 {
				for b := range c.N() {
					worstJ = max(worstJ, math.Abs(jac[a][b]-answer.Jacobians[k][a*c.N()+b]))
				}
			}
		}
	}
	t.Logf("%d random chains: largest difference %.2g in the pose, %.2g in the Jacobian", len(ask), worst, worstJ)
	if worst > 1e-12 || worstJ > 1e-12 {
		t.Errorf("largest difference %.3g in the pose, %.3g in the Jacobian", worst, worstJ)
	}
}

// randomPostures9 returns joint values in +-pi for n joints.
func randomPostures9(count, n int, seed uint64) []kinematics.Q {
	r := rand.New(rand.NewPCG(seed, 7))
	list := make([]kinematics.Q, count)
	for i := range list {
		for j := range n {
			list[i][j] = (2*r.Float64() - 1) * math.Pi
		}
	}
	return list
}

// The library's forward kinematics confirms every posture, and its solver never
// finds one that is missing.
func TestPosturesAgreeWithLibraryLive(t *testing.T) {
	for _, arm := range arms {
		r := chainOnly(readRobot(t, arm))
		s := newSolver(t, newChain(t, r, "link0", "flange"))
		generators, seeds := randomPostures9(40, 6, 11), randomPostures9(20, 6, 12)
		search, confirm := peerOf(r), peerOf(r)
		var list []kinematics.Solutions
		var want []se3.Pose
		for _, g := range generators {
			var pose se3.Pose
			var out kinematics.Solutions
			s.Chain().Forward(&g, &pose)
			s.Solve(&pose, &g, &out)
			search.Q = append(search.Q, append([]float64(nil), g[:6]...))
			var from [][]float64
			for _, q := range seeds {
				from = append(from, append([]float64(nil), q[:6]...))
			}
			search.Seeds = append(search.Seeds, from)
			list = append(list, out)
			for _, q := range postures(&out) {
				confirm.Q, want = append(confirm.Q, q), append(want, pose)
			}
		}
		answer := askPeer(t, []peerChain{search, confirm})
		for i, pose := range want {
			if d := largest(poseOf(answer[1].Poses[i]), pose); d > 1e-9 {
				t.Errorf("%s: the library puts posture %v off by %.3g", arm, confirm.Q[i], d)
			}
		}
		hits := 0
		for i, found := range answer[0].Solutions {
			ours := postures(&list[i])
			for _, q := range found {
				hits++
				if d := nearestTo(q, ours); d > 0.01 { // its residual is 1e-5 at best, more near singularities
					t.Errorf("%s pose %d: the library finds %v, %.3g rad from the nearest of ours", arm, i, q, d)
				}
			}
		}
		t.Logf("%s: %d postures confirmed, %d solutions of the library all among them", arm, len(want), hits)
		if hits < 400 || len(want) < 150 {
			t.Errorf("%s: only %d postures and %d solutions of the library compared", arm, len(want), hits)
		}
	}
}

// chainOnly drops branches beside link0..flange and makes joints continuous.
func chainOnly(r *urdf.Robot) *urdf.Robot {
	out := &urdf.Robot{Name: r.Name, Links: r.Links}
	for _, j := range r.Joints {
		if j.Child == "tcp" {
			continue
		}
		if j.Kind == urdf.Revolute {
			j.Kind = urdf.Continuous
		}
		out.Joints = append(out.Joints, j)
	}
	return out
}
