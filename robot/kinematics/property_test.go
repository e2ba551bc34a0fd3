package kinematics_test

import (
	"math"
	"slices"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// product is forward kinematics as the URDF specification writes it: one
// origin and one motion after the other.
func product(r *urdf.Robot, q *kinematics.Q) se3.Pose {
	at := se3.Identity()
	k := 0
	for _, j := range r.Joints {
		at = at.Mul(j.Origin)
		switch j.Kind {
		case urdf.Continuous, urdf.Revolute:
			at.R = at.R.Mul(se3.RotAxis(j.Axis, q[k]))
			k++
		case urdf.Prismatic:
			at.P = at.P.AddScaled(q[k], at.Dir(j.Axis))
			k++
		}
	}
	return at
}

func TestForwardIsTheProductOfTheFile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, flange := drawChain(t)
		c, err := kinematics.NewChain(r, "l0", flange)
		if err != nil {
			t.Fatal(err)
		}
		q := drawQ(t, c.N())
		var got se3.Pose
		c.Forward(&q, &got)
		want := product(r, &q)
		if d := largest(got, want); d > 1e-12 {
			t.Fatalf("pose %v, want %v, off by %.3g", got, want, d)
		}
		links := c.Links(&q, nil)
		if len(links) != len(r.Links) {
			t.Fatalf("%d links, want %d", len(links), len(r.Links))
		}
		if last := links[len(links)-1]; last.Link != flange || largest(last.BaseFromLink, want) > 1e-12 {
			t.Fatalf("last link %v, want %s at %v", last, flange, want)
		}
	})
}

// The Jacobian against central differences of Forward, whose own error at a
// step of 1e-5 is about 1e-10.
func TestJacobianIsTheDerivativeOfForward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, flange := drawChain(t)
		c, err := kinematics.NewChain(r, "l0", flange)
		if err != nil {
			t.Fatal(err)
		}
		checkJacobian(t, c, drawQ(t, c.N()))
	})
}

func checkJacobian(t failer, c *kinematics.Chain, q kinematics.Q) {
	t.Helper()
	var pose, same, ahead, behind se3.Pose
	var jac kinematics.Jacobian
	for i := range jac {
		for k := range jac[i] {
			jac[i][k] = math.NaN() // must all be written
		}
	}
	c.Jacobian(&q, &pose, &jac)
	if c.Forward(&q, &same); same != pose {
		t.Fatalf("pose %v, Forward gives %v", pose, same)
	}
	const h = 1e-5
	for k := range kinematics.MaxJoints {
		a, b := q, q
		if k < c.N() {
			a[k], b[k] = a[k]+h, b[k]-h
		}
		c.Forward(&a, &ahead)
		c.Forward(&b, &behind)
		d := ahead.Minus(behind)
		for i, v := range [6]float64{d.Linear.X, d.Linear.Y, d.Linear.Z, d.Angular.X, d.Angular.Y, d.Angular.Z} {
			if !(math.Abs(v/(2*h)-jac[i][k]) < 1e-8) {
				t.Fatalf("J[%d][%d] = %v, differences give %v", i, k, jac[i][k], v/(2*h))
			}
		}
	}
}

// Every posture is found again from its own pose, whatever the arm, as long as
// it is not so near to a singularity that rounding hides it.
func TestSolveFindsTheGenerator(t *testing.T) {
	for _, family := range []kinematics.Family{kinematics.SphericalWrist, kinematics.ThreeParallel} {
		t.Run(family.String(), rapid.MakeCheck(func(t *rapid.T) {
			r := drawMember(t, family)
			c, err := kinematics.NewChain(r, "l0", "l7")
			if err != nil {
				t.Fatal(err)
			}
			s, err := kinematics.NewSolver(c)
			if err != nil {
				t.Fatal(err)
			}
			if s.Family() != family || !s.Exact() {
				t.Fatalf("family %v, exact %v", s.Family(), s.Exact())
			}
			q := drawQ(t, 6)
			checkGenerator(t, s, q)
		}))
	}
}

// together reports whether a posture stands in two singularities at once.
func together(near kinematics.Singularity) bool {
	n := 0
	for _, angle := range []float64{near.Shoulder, near.Elbow, near.Wrist} {
		if angle < 1e-3 {
			n++
		}
	}
	return n > 1
}

type failer interface {
	Helper()
	Errorf(string, ...any)
	Fatalf(string, ...any)
}

func checkGenerator(t failer, s *kinematics.Solver, q kinematics.Q) {
	t.Helper()
	var pose, got se3.Pose
	s.Chain().Forward(&q, &pose)
	var out kinematics.Solutions
	s.Solve(&pose, &q, &out)
	near := s.Singularity(&q)
	if out.Status != kinematics.Found && out.Status != kinematics.FoundSingular {
		if together(near) { // Solve does not promise it there
			return
		}
		t.Fatalf("status %d for a posture's own pose, missing %.3g", out.Status, out.Missing)
	}
	best := math.Inf(1)
	for i := range out.N {
		s.Chain().Forward(&out.Q[i], &got)
		lin, ang := got.P.Dist(pose.P), got.R.AngleTo(pose.R)
		if lin > 1e-9 || ang > 1e-9 {
			t.Errorf("posture %v is off by %.3g m, %.3g rad", out.Q[i], lin, ang)
		}
		best = min(best, apart(q[:6], out.Q[i][:6]))
		if i > 0 && out.Branch[i] <= out.Branch[i-1] {
			t.Errorf("branches %v are not ascending", out.Branch[:out.N])
		}
	}
	// Nearer to a singularity the pose, rounded, no longer fixes the joints;
	// reference rows and TestSolveAtSingularities look there.
	least := min(near.Shoulder, near.Elbow, near.Wrist)
	if margin := near.Shoulder * near.Elbow * near.Wrist; margin > 1e-6 && least > 1e-5 && best > 1e-7 {
		t.Errorf("generator %v is %.3g rad from the nearest of %d postures, %+v", q, best, out.N, near)
	}
}

func TestHotCallsAllocateNothing(t *testing.T) {
	s := newSolver(t, readChain(t, "offw6"))
	c := s.Chain()
	q := kinematics.Q{0.3, -1, 1.2, -0.4, 0.9, 0.2}
	var pose se3.Pose
	var jac kinematics.Jacobian
	var out kinematics.Solutions
	links := make([]kinematics.LinkPose, 0, 16)
	c.Forward(&q, &pose)
	stretched := pose
	calls := map[string]func(){
		"Forward":     func() { c.Forward(&q, &pose) },
		"Jacobian":    func() { c.Jacobian(&q, &pose, &jac) },
		"Links":       func() { links = c.Links(&q, links[:0]) },
		"Turns":       func() { c.Turns(&q, 2) },
		"Solve":       func() { s.Solve(&stretched, &q, &out) },
		"Solve nil":   func() { s.Solve(&stretched, nil, &out) },
		"Singularity": func() { s.Singularity(&q) },
	}
	for name, call := range calls {
		if n := testing.AllocsPerRun(100, call); n != 0 {
			t.Errorf("%s allocates %v times", name, n)
		}
	}
}

func TestSolveIsSafeForConcurrentUse(t *testing.T) {
	s := newSolver(t, readFreeChain(t, "sphw6"))
	q := randomPostures(200)
	want := make([]kinematics.Solutions, len(q))
	list := make([]se3.Pose, len(q))
	for i := range q {
		s.Chain().Forward(&q[i], &list[i])
		s.Solve(&list[i], &q[i], &want[i])
	}
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			var out kinematics.Solutions
			for i := range q {
				s.Solve(&list[i], &q[i], &out)
				if out.N != want[i].N || !slices.Equal(out.Q[:out.N], want[i].Q[:out.N]) {
					t.Errorf("posture %d: other answer in another goroutine", i)
				}
			}
		})
	}
	all.Wait()
}
