package kinematics_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// manyStarts collects postures by Newton's method on Forward from random
// starts: the check on General that shares nothing with it but the chain.
func manyStarts(c *kinematics.Chain, pose se3.Pose, starts int, rng *rand.Rand) [][]float64 {
	var list [][]float64
	for range starts {
		var q kinematics.Q
		for j := range 6 {
			q[j] = within(rng, math.Pi)
		}
		if newtonTo(c, pose, &q) && nearestTo(q[:6], list) > 1e-5 {
			list = append(list, append([]float64(nil), q[:6]...))
		}
	}
	return list
}

// newtonTo improves q with steps by Gauss's elimination, of at most 0.5 rad,
// and reports whether it arrives within 1e-11.
func newtonTo(c *kinematics.Chain, pose se3.Pose, q *kinematics.Q) bool {
	for range 40 {
		var at se3.Pose
		var jac kinematics.Jacobian
		c.Jacobian(q, &at, &jac)
		d := pose.Minus(at)
		e := [6]float64{d.Linear.X, d.Linear.Y, d.Linear.Z, d.Angular.X, d.Angular.Y, d.Angular.Z}
		off := 0.0
		for _, v := range e {
			off = max(off, math.Abs(v))
		}
		if off < 1e-11 {
			return true
		}
		for k := range 6 {
			p := k
			for i := k; i < 6; i++ {
				if math.Abs(jac[i][k]) > math.Abs(jac[p][k]) {
					p = i
				}
			}
			jac[p], jac[k], e[p], e[k] = jac[k], jac[p], e[k], e[p]
			for i := k + 1; i < 6; i++ {
				f := jac[i][k] / jac[k][k]
				for l := k; l < 6; l++ {
					jac[i][l] -= f * jac[k][l]
				}
				e[i] -= f * e[k]
			}
		}
		most := 0.0
		for k := 5; k >= 0; k-- {
			for l := k + 1; l < 6; l++ {
				e[k] -= jac[k][l] * e[l]
			}
			e[k] /= jac[k][k]
			most = max(most, math.Abs(e[k]))
		}
		if math.IsNaN(most) {
			return false
		}
		scale := min(1, 0.5/most)
		for j := range 6 {
			q[j] += scale * e[j]
		}
	}
	return false
}

// fullGeneral asks for the full measurement.
var fullGeneral = flag.Bool("full-general", false, "measure the completeness of General on 1000 poses of each random arm and 400 of each structured one, two minutes")

// TestGeneralIsComplete measures how many of the postures that many starts find
// General lists, on five random arms. The full measurement takes minutes; see
// fullGeneral.
func TestGeneralIsComplete(t *testing.T) {
	poses, starts := 40, 80
	if *fullGeneral {
		poses, starts = 1000, 300
	}
	for seed := range uint64(5) {
		s := newSolver(t, newChain(t, armOfFamily(seed, kinematics.General), "l0", "l7"))
		if s.Family() != kinematics.General {
			t.Fatalf("arm %d is %v", seed, s.Family())
		}
		rng := rand.New(rand.NewPCG(seed, 99))
		var known, missing, found, uncertain int
		var times []float64 // of CPU, ns
		for _, q := range randomPostures9(poses, 6, seed+100) {
			pose := forward(s.Chain(), q)
			start := cpuTime()
			out := solve(s, pose, &q)
			times = append(times, cpuTime()-start)
			checkPostures(t, s, pose, &out)
			ours := postures(&out)
			found += len(ours)
			if out.Uncertain {
				uncertain++
			}
			reference := manyStarts(s.Chain(), pose, starts, rng)
			if nearestTo(q[:6], reference) > 1e-5 {
				reference = append(reference, q[:6])
			}
			for _, p := range reference {
				known++
				if d := nearestTo(p, ours); d > 1e-4 {
					missing++
					t.Logf("arm %d: posture %v is missing, nearest %.2g rad, uncertain %v, gain angle %.3g", seed, p, d, out.Uncertain, s.Singularity(&q).Wrist)
				}
			}
		}
		slices.Sort(times)
		t.Logf("arm %d: %d of %d known postures missing on %d poses, %d listed, %d poses uncertain; CPU time median %.2f ms, 99 %% below %.2f ms, longest %.2f ms",
			seed, missing, known, poses, found, uncertain, times[poses/2]*1e-6, times[poses*99/100]*1e-6, times[poses-1]*1e-6)
		if float64(missing) > 0.001*float64(known) {
			t.Errorf("arm %d: %d of %d known postures missing", seed, missing, known)
		}
	}
}

// Beyond the length of the arm General says how far at least; nearer it says
// that it does not know.
func TestGeneralSaysWhatItKnowsOutOfReach(t *testing.T) {
	for seed := range uint64(5) {
		s := newSolver(t, newChain(t, armOfFamily(seed, kinematics.General), "l0", "l7"))
		side := r3.Vec{X: 0.6, Z: 0.8}
		far := forward(s.Chain(), kinematics.Q{})
		foot := far.P
		far.P = foot.AddScaled(20, side)
		lack := math.Inf(1) // the nearest that any of many postures comes
		for _, q := range randomPostures9(3000, 6, seed) {
			lack = min(lack, forward(s.Chain(), q).P.Dist(far.P))
		}
		out := solve(s, far, nil)
		if out.Status != kinematics.OutOfReach || out.Reach != kinematics.TooFar || out.Missing < lack-3 || out.Missing > lack || out.Uncertain {
			t.Errorf("arm %d: %v, %v, missing %v m, want at most %v", seed, out.Status, out.Reach, out.Missing, lack)
		}
		near := far
		for d := 0.0; ; d += 0.1 {
			near.P = foot.AddScaled(d, side)
			if out = solve(s, near, nil); out.Status != kinematics.OutOfReach {
				continue
			}
			if out.N != 0 || (out.Reach == kinematics.NotKnown) != (out.Missing == 0) {
				t.Errorf("arm %d: %v, missing %v m", seed, out.Reach, out.Missing)
			}
			if out.Reach == kinematics.TooFar {
				break
			}
		}
	}
}
