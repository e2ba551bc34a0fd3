package kinematics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

// familyArm returns an arm of a family that is no mirror image, axis by axis.
func familyArm(rng *rand.Rand, family Family) *Chain {
	u := func(a float64) float64 { return (2*rng.Float64() - 1) * a }
	origin := func(bend float64, p r3.Vec) se3.Pose { // next axis bent off this one, any way round
		return se3.Pose{R: se3.RotZ(u(3)).Mul(se3.RotX(bend)).Mul(se3.RotZ(u(3))), P: p}
	}
	var at [6]se3.Pose
	for i := range at {
		at[i] = origin(0.5+2*rng.Float64(), r3.Vec{X: 0.2 + u(0.1), Y: u(0.3), Z: u(0.3)})
	}
	at[4].P, at[5].P = r3.Vec{}, r3.Vec{}
	switch family {
	case SphericalWrist:
		at[2].R = se3.RotZ(u(3))
	case ThreeParallel:
		at[2].R, at[3].R = se3.RotZ(u(3)), se3.RotZ(u(3))
		at[4].P = r3.Vec{X: 0.1, Z: 0.1}
	case WristMeet12:
		at[1].P = r3.Vec{}
	case WristMeet23:
		at[2].P = r3.Vec{}
	case WristParallel12:
		at[1].R = se3.RotZ(u(3))
	}
	r := &urdf.Robot{Links: []urdf.Link{{Name: "l0"}}}
	for i := range at {
		j := urdf.Joint{Name: fmt.Sprint("j", i+1), Kind: urdf.Continuous, Parent: fmt.Sprint("l", i), Child: fmt.Sprint("l", i+1), Axis: r3.Vec{Z: 1}, Origin: at[i]}
		r.Links, r.Joints = append(r.Links, urdf.Link{Name: j.Child}), append(r.Joints, j)
	}
	c, err := NewChain(r, "l0", "l6")
	if err != nil {
		panic(err)
	}
	return c
}

// The closed forms and the continuation method, which share nothing but the
// chain, list the same postures.
func TestClosedFormsAgreeWithContinuation(t *testing.T) {
	for family := SphericalWrist; family.ClosedForm(); family++ {
		t.Run(family.String(), func(t *testing.T) {
			base, mirrored := family.mirrored()
			rng := rand.New(rand.NewPCG(uint64(family), 11))
			count := 0
			for range 3 {
				c := familyArm(rng, base)
				if mirrored {
					c = c.reversed()
				}
				closed, ok := newSix(c)
				general, also := newShaped(c, nil, shape{family: General, fit: exactly})
				if !ok || !also || closed.Family() != family {
					t.Fatalf("family %v", closed.Family())
				}
				if n := len(general.general.starts[0].q); n != 8 {
					t.Errorf("%d complex postures, want 8", n)
				}
				for range 40 {
					q := general.general.randomPosture(rng)
					var pose se3.Pose
					c.Forward(&q, &pose)
					if a := closed.Singularity(&q); min(a.Shoulder, a.Elbow, a.Wrist) < 1e-3 {
						continue
					}
					var a, b Solutions
					closed.Solve(&pose, &q, &a)
					general.Solve(&pose, &q, &b)
					if a.N != b.N || b.Uncertain {
						t.Errorf("closed form lists %d postures, continuation %d, uncertain %v", a.N, b.N, b.Uncertain)
					}
					for i := range a.N {
						if d := nearestOf(&a.Q[i], &b); d > 1e-8 {
							t.Errorf("posture %v of the closed form is %.3g rad off", a.Q[i], d)
						}
					}
					count += a.N
				}
			}
			t.Logf("%d postures agree", count)
		})
	}
}

func nearestOf(q *Q, list *Solutions) float64 {
	best := math.Inf(1)
	for i := range list.N {
		d := 0.0
		for j := range 6 {
			d = max(d, math.Abs(math.Remainder(q[j]-list.Q[i][j], wholeTurn)))
		}
		best = min(best, d)
	}
	return best
}

// A mirror image of a mirror image is the arm, and a chain read backwards has
// the inverse pose.
func TestReversedChain(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for family := SphericalWrist; family <= WristParallel12; family++ {
		c := familyArm(rng, family)
		back := c.reversed()
		again := back.reversed()
		for range 20 {
			var q, turned Q
			for j := range 6 {
				q[j] = (2*rng.Float64() - 1) * math.Pi
				turned[5-j] = q[j]
			}
			var a, b, d se3.Pose
			c.Forward(&q, &a)
			back.Forward(&turned, &b)
			again.Forward(&q, &d)
			if e := a.Mul(b); e.P.Norm() > 1e-13 || e.R.Angle() > 1e-13 {
				t.Errorf("pose times pose read backwards is %v", e)
			}
			if a.P.Dist(d.P) > 1e-13 || a.R.AngleTo(d.R) > 1e-13 {
				t.Errorf("twice backwards is off by %v", a.P.Dist(d.P))
			}
		}
	}
}

// leastSingular against matrices whose singular values are known by making.
func TestLeastSingular(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	for _, least := range []float64{1, 0.3, 1e-3, 1e-9, 0} {
		a := [6][6]float64{}
		for i := range 6 {
			a[i][i] = 1 + float64(i)
		}
		a[3][3] = least
		for range 30 { // turns in planes on both sides leave singular values alone
			p, q := rng.IntN(5), 5
			s, c := math.Sincos(rng.Float64() * 6)
			for k := range 6 {
				a[p][k], a[q][k] = c*a[p][k]-s*a[q][k], s*a[p][k]+c*a[q][k]
			}
			p = rng.IntN(5)
			for k := range 6 {
				a[k][p], a[k][q] = c*a[k][p]-s*a[k][q], s*a[k][p]+c*a[k][q]
			}
		}
		if got := leastSingular(&a); math.Abs(got-least) > 1e-14*10 {
			t.Errorf("least singular value %v, want %v", got, least)
		}
	}
}
