package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// structured are arms that are General but not random: almost of a family, of a
// shape that shops have, or with sliding joints.
func structured(t testing.TB) map[string]*urdf.Robot {
	z, y, x := r3.Vec{Z: 1}, r3.Vec{Y: 1}, r3.Vec{X: 1}
	noisy := readRobot(t, "offw6")
	for i := range noisy.Joints {
		if noisy.Joints[i].Name == "j3" { // axes 2 and 3 are 1e-4 rad off parallel
			o := &noisy.Joints[i].Origin
			o.R = se3.RotX(1.5707).Mul(se3.RotX(math.Pi / 2).T()).Mul(o.R)
		}
	}
	offset := readRobot(t, "sphw6")
	for i := range offset.Joints {
		if offset.Joints[i].Name == "j6" {
			offset.Joints[i].Origin.P.X = 0.05
		}
	}
	gantry := armOf([]r3.Vec{x, y, z, z, y, x}, []r3.Vec{{}, {Y: 0.1}, {Z: 0.1}, {Z: 0.2}, {X: 0.1}, {X: 0.1, Z: 0.02}, {X: 0.2}})
	for i := range 3 {
		gantry.Joints[i].Kind, gantry.Joints[i].Limit = urdf.Prismatic, urdf.Limit{Lower: -9, Upper: 9}
	}
	slide := armOfFamily(3, kinematics.General)
	slide.Joints[2].Kind, slide.Joints[2].Limit = urdf.Prismatic, urdf.Limit{Lower: -9, Upper: 9}
	return map[string]*urdf.Robot{
		"a right angle written 1.5707":    chainOnly(noisy),
		"spherical wrist with an offset":  chainOnly(offset),
		"three parallel axes, open wrist": armOf([]r3.Vec{z, y, y, y, z, x}, []r3.Vec{{}, {Z: 0.2}, {Z: 0.6}, {Z: 0.5}, {Y: 0.12}, {Z: 0.1, Y: 0.07}, {X: 0.1}}),
		"wrist of two bends and an offset": armOf([]r3.Vec{z, y, y, x, {X: 0.8, Z: 0.6}, {X: 1}},
			[]r3.Vec{{}, {X: 0.2, Z: 0.4}, {Z: 0.7}, {X: 0.5, Z: 0.1}, {X: 0.3, Y: 0.03}, {X: 0.1}, {X: 0.1}}),
		"spherical wrist on a skew arm": armOf([]r3.Vec{z, {Y: 0.8, Z: 0.6}, {X: 0.6, Y: 0.8}, x, y, x},
			[]r3.Vec{{}, {X: 0.2, Z: 0.4}, {Z: 0.6}, {X: 0.3}, {X: 0.3}, {}, {X: 0.1}}),
		"gantry with a spherical wrist": gantry,
		"a sliding third joint":         slide,
	}
}

// tipOf returns the child of the last joint.
func tipOf(r *urdf.Robot) string { return r.Joints[len(r.Joints)-1].Child }

// Newton's method from many starts finds no posture that is not listed.
func TestGeneralSolvesStructuredArms(t *testing.T) {
	poses, starts := 40, 60
	if *fullGeneral {
		poses, starts = 400, 300
	}
	for name, r := range structured(t) {
		t.Run(name, func(t *testing.T) {
			s := newSolver(t, newChain(t, r, r.Root(), tipOf(r)))
			if s.Family() != kinematics.General {
				t.Fatalf("family %v", s.Family())
			}
			rng := rand.New(rand.NewPCG(4, 4))
			known, missing, uncertain, most := 0, 0, 0, 0
			for _, q := range randomPostures9(poses, 6, 31) {
				pose := forward(s.Chain(), q)
				out := solve(s, pose, &q)
				checkPostures(t, s, pose, &out)
				if most = max(most, out.N); out.Uncertain {
					uncertain++
				}
				reference := manyStarts(s.Chain(), pose, starts, rng)
				if nearestTo(q[:6], reference) > 1e-5 {
					reference = append(reference, q[:6])
				}
				for _, p := range reference {
					known++
					if nearestTo(p, postures(&out)) > 1e-4 {
						missing++
						t.Logf("posture %v is missing, uncertain %v, angle %.3g", p, out.Uncertain, s.Singularity(&q).Wrist)
					}
				}
			}
			t.Logf("%d of %d known postures missing, %d of %d poses uncertain, at most %d postures", missing, known, uncertain, poses, most)
			if float64(missing) > 0.001*float64(known) || uncertain > poses/20 {
				t.Errorf("%d of %d known postures missing, %d of %d poses uncertain", missing, known, uncertain, poses)
			}
		})
	}
}

// At a singular posture's own pose General still answers with a posture, and
// says that it is singular or that it may lack some.
func TestGeneralAtSingularities(t *testing.T) {
	for name, r := range structured(t) {
		t.Run(name, func(t *testing.T) {
			s := newSolver(t, newChain(t, r, r.Root(), tipOf(r)))
			for _, q := range singularPostures(s) {
				pose := forward(s.Chain(), q)
				out := solve(s, pose, &q)
				checkPostures(t, s, pose, &out)
				t.Logf("%v: %v, %d postures, uncertain %v", q[:6], out.Status, out.N, out.Uncertain)
				if out.N == 0 {
					t.Errorf("posture %v: %v", q, out.Status)
				}
				if out.Status == kinematics.Found && !out.Uncertain {
					t.Errorf("posture %v: nothing says that it is singular", q)
				}
			}
		})
	}
}

// singularPostures returns the zero posture if it is singular, and others found
// by turning one joint until the gain is lost.
func singularPostures(s *kinematics.Solver) (list []kinematics.Q) {
	angle := func(q kinematics.Q) float64 { return s.Singularity(&q).Wrist }
	if angle(kinematics.Q{}) < 1e-12 {
		list = append(list, kinematics.Q{})
	}
	for _, q := range randomPostures9(6, 6, 77) {
		best, at := math.Inf(1), 0.0
		for v := -math.Pi; v < math.Pi; v += 0.01 {
			q[4] = v
			if a := angle(q); a < best {
				best, at = a, v
			}
		}
		lo, hi := at-0.01, at+0.01
		for range 80 { // the angle is the size of something that changes sign
			a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
			q[4] = a
			va := angle(q)
			q[4] = b
			if vb := angle(q); va < vb {
				hi = b
			} else {
				lo = a
			}
		}
		if q[4] = (lo + hi) / 2; angle(q) < 1e-9 {
			list = append(list, q)
		}
	}
	return list
}
