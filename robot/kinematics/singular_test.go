package kinematics_test

import (
	"fmt"
	"math"
	"testing"

	"seamwright/robot/kinematics"
)

// At a singular posture's own pose every closed form lists that posture, seeded
// with it, and says that it is singular.
func TestClosedFormsAtSingularities(t *testing.T) {
	parts := map[string]func(kinematics.Singularity) float64{
		"shoulder": func(a kinematics.Singularity) float64 { return a.Shoulder },
		"elbow":    func(a kinematics.Singularity) float64 { return a.Elbow },
		"wrist":    func(a kinematics.Singularity) float64 { return a.Wrist },
	}
	sets := map[string]kinematics.SingularSet{"shoulder": kinematics.AtShoulder, "elbow": kinematics.AtElbow, "wrist": kinematics.AtWrist}
	for _, family := range closedForms() {
		for part, angle := range parts {
			t.Run(fmt.Sprint(family, ", ", part), func(t *testing.T) {
				tried := 0
				for seed := range uint64(4) {
					s := newSolver(t, newChain(t, armOfFamily(seed, family), "l0", "l7"))
					for _, q := range randomPostures9(3, 6, seed+40) {
						q, ok := turnedSingular(s, q, angle)
						if !ok {
							continue
						}
						tried++
						pose := forward(s.Chain(), q)
						out := solve(s, pose, &q)
						checkPostures(t, s, pose, &out)
						if d := nearestTo(q[:6], postures(&out)); d > 1e-4 {
							t.Errorf("arm %d: posture %v is %.3g rad off the nearest of %d, %v", seed, q[:6], d, out.N, out.Status)
						}
						if out.Status != kinematics.FoundSingular || out.Singular&sets[part] == 0 {
							t.Errorf("arm %d: %v, singular %b", seed, out.Status, out.Singular)
						}
					}
				}
				if tried < 3 {
					t.Errorf("only %d singular postures found", tried)
				}
			})
		}
	}
}

// turnedSingular turns one joint of q, any that can do it, until the angle is
// zero but for rounding.
func turnedSingular(s *kinematics.Solver, q kinematics.Q, angle func(kinematics.Singularity) float64) (kinematics.Q, bool) {
	for j := range 6 {
		p := q
		best, at := math.Inf(1), 0.0
		for v := -math.Pi; v < math.Pi; v += 0.02 {
			p[j] = v
			if a := angle(s.Singularity(&p)); a < best {
				best, at = a, v
			}
		}
		lo, hi := at-0.02, at+0.02
		for range 100 { // the angle is the size of something that changes sign
			a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
			p[j] = a
			va := angle(s.Singularity(&p))
			p[j] = b
			if angle(s.Singularity(&p)) > va {
				hi = b
			} else {
				lo = a
			}
		}
		if p[j] = (lo + hi) / 2; angle(s.Singularity(&p)) < 1e-13 {
			return p, true
		}
	}
	return q, false
}
