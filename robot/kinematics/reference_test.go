package kinematics_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

var arms = []string{"sphw6", "offw6"}

// Source: poses and Jacobians of the two testdata arms by Orocos KDL 1.5.1
// (testdata/README.md).
func TestForwardAndJacobianAgreeWithLibraryRows(t *testing.T) {
	for _, arm := range arms {
		c := readChain(t, arm)
		eachRow(t, "fk_"+arm+".jsonl.gz", func(row struct{ Q, T, J []float64 }) {
			q := qOf(row.Q)
			var pose, again se3.Pose
			var jac kinematics.Jacobian
			c.Forward(&q, &pose)
			c.Jacobian(&q, &again, &jac)
			if pose != again {
				t.Errorf("%s %v: Jacobian gives another pose", arm, row.Q)
			}
			if d := largest(pose, poseOf(row.T)); d > 1e-12 {
				t.Errorf("%s %v: pose is off by %.3g", arm, row.Q, d)
			}
			for r := range 6 {
				for k := range 6 {
					if d := math.Abs(jac[r][k] - row.J[6*r+k]); d > 1e-12 {
						t.Errorf("%s %v: J[%d][%d] is off by %.3g", arm, row.Q, r, k, d)
					}
				}
			}
		})
	}
}

// Source: all inverse solutions of the two testdata arms, each verified with
// Orocos KDL 1.5.1, completeness tried with its Levenberg-Marquardt solver from
// 60 random seeds on 300 poses an arm (testdata/README.md). Compared modulo
// whole turns within 1e-6 rad, near singularities within 1e-4 rad; at an exact
// wrist singularity, where the rows hold joint 4 or 6 at zero, by Forward only.
func TestSolveAgreesWithLibraryRows(t *testing.T) {
	for _, arm := range arms {
		s := newSolver(t, readFreeChain(t, arm))
		compared, free := 0, 0
		eachRow(t, "ik_"+arm+".jsonl.gz", func(row struct {
			ID        int
			Kind      string
			T, Q      []float64
			Seed      []float64
			Solutions [][]float64
		}) {
			pose, seed := poseOf(row.T), qOf(row.Seed)
			var out kinematics.Solutions
			s.Solve(&pose, &seed, &out)
			checkPostures(t, s, pose, &out)
			held := uint16(0)
			for i := range out.N {
				held |= out.Held[i]
			}
			if held != 0 {
				free++
				for i := range out.N {
					for j := range 6 {
						if out.Held[i]>>j&1 == 1 && out.Q[i][j] != seed[j] {
							t.Errorf("%s %d: free joint %d is %v, seed %v", arm, row.ID, j+1, out.Q[i][j], seed[j])
						}
					}
				}
				return
			}
			tol := 1e-6
			if row.Kind != "random" {
				tol = 1e-4
			}
			got := postures(&out)
			for _, want := range row.Solutions {
				if d := nearestTo(want, got); d > tol {
					t.Errorf("%s %d %s: posture %v is missing, nearest is %.3g rad off", arm, row.ID, row.Kind, want, d)
				}
			}
			for _, q := range got {
				if d := nearestTo(q, row.Solutions); d > tol {
					t.Errorf("%s %d %s: posture %v is not among the rows', %.3g rad off", arm, row.ID, row.Kind, q, d)
				}
			}
			if (len(row.Solutions) == 0) != (out.Status == kinematics.OutOfReach) {
				t.Errorf("%s %d: %d solutions and status %d", arm, row.ID, len(row.Solutions), out.Status)
			}
			compared++
		})
		t.Logf("%s: %d rows compared, %d with a free joint", arm, compared, free)
		if compared < 400 || free == 0 || free > 20 {
			t.Errorf("%s: %d rows compared, %d with a free joint", arm, compared, free)
		}
	}
}

// Source: M. Brandstoetter, A. Angerer, M. Hofbaur, "An analytical solution of
// the inverse kinematics problem of industrial serial manipulators with an
// ortho-parallel basis and a spherical wrist", Austrian Robotics Workshop 2014:
// seven parameters; poses and all solutions computed from its formulas by a
// separate program (testdata/README.md).
func TestSolveAgreesWithOrthoParallelRows(t *testing.T) {
	n := 0
	eachRow(t, "opw_cases.jsonl.gz", func(row struct {
		P, Q, T   []float64
		Solutions [][]float64
	}) {
		n++
		s := newSolver(t, newChain(t, orthoParallel(row.P), "l0", "l7"))
		pose, q := poseOf(row.T), qOf(row.Q)
		var got se3.Pose
		s.Chain().Forward(&q, &got)
		if d := largest(got, pose); d > 1e-12 {
			t.Errorf("%v %v: pose is off by %.3g", row.P, row.Q, d)
		}
		var out kinematics.Solutions
		s.Solve(&pose, &q, &out)
		checkPostures(t, s, pose, &out)
		list := postures(&out)
		for _, want := range row.Solutions {
			if d := nearestTo(want, list); d > 1e-6 {
				t.Errorf("%v: posture %v is missing, nearest is %.3g rad off", row.P, want, d)
			}
		}
		for _, q := range list {
			if d := nearestTo(q, row.Solutions); d > 1e-6 {
				t.Errorf("%v: posture %v is not among the rows', %.3g rad off", row.P, q, d)
			}
		}
	})
	if n != 300 {
		t.Errorf("%d rows, want 300", n)
	}
}

// orthoParallel builds the arm of the paper's seven parameters a1 a2 b c1 c2
// c3 c4, which stands straight up with every joint at zero.
func orthoParallel(p []float64) *urdf.Robot {
	a1, a2, b, c1, c2, c3, c4 := p[0], p[1], p[2], p[3], p[4], p[5], p[6]
	y, z := r3.Vec{Y: 1}, r3.Vec{Z: 1}
	return armOf([]r3.Vec{z, y, y, z, y, z}, []r3.Vec{
		{}, {X: a1, Z: c1}, {Z: c2}, {X: a2, Y: b, Z: c3}, {}, {}, {Z: c4}})
}

// armOf builds an arm with links l0 to l7 from its axes and the shifts between
// their origins, all in the base's axes with every joint at zero.
func armOf(axes, shifts []r3.Vec) *urdf.Robot {
	r := &urdf.Robot{Name: "arm", Links: []urdf.Link{{Name: "l0"}}}
	for i, shift := range shifts {
		j := urdf.Joint{Name: "j" + string(rune('1'+i)), Kind: urdf.Fixed, Parent: r.Links[i].Name,
			Child: "l" + string(rune('1'+i)), Origin: se3.Translation(shift)}
		if i < len(axes) {
			j.Kind, j.Axis = urdf.Continuous, axes[i]
		}
		r.Links = append(r.Links, urdf.Link{Name: j.Child})
		r.Joints = append(r.Joints, j)
	}
	return r
}

// Source: K. M. Lynch, F. C. Park, Modern Robotics (Cambridge, 2017), Example
// 4.5: screw axes of a six-joint arm in the space frame, and the pose printed
// for (0, -pi/2, 0, 0, pi/2, 0) with three decimals.
func TestForwardModernRoboticsExample45(t *testing.T) {
	const w1, w2, l1, l2, h1, h2 = 0.109, 0.082, 0.425, 0.392, 0.089, 0.095
	y := r3.Vec{Y: 1}
	axes := []r3.Vec{{Z: 1}, y, y, y, {Z: -1}, y}
	at := []r3.Vec{{}, {Z: h1}, {X: l1, Z: h1}, {X: l1 + l2, Z: h1}, {X: l1 + l2, Y: w1}, {X: l1 + l2, Z: h1 - h2}}
	shifts := []r3.Vec{at[0]}
	for i := 1; i < 6; i++ {
		shifts = append(shifts, at[i].Sub(at[i-1]))
	}
	r := armOf(axes, append(shifts, r3.Vec{}))
	last := &r.Joints[6].Origin
	last.P = r3.Vec{X: l1 + l2, Y: w1 + w2, Z: h1 - h2}.Sub(at[5])
	last.R = se3.Rot{-1, 0, 0, 0, 0, 1, 0, 1, 0}
	c := newChain(t, r, "l0", "l7")
	q := kinematics.Q{0, -math.Pi / 2, 0, 0, math.Pi / 2, 0}
	var got se3.Pose
	c.Forward(&q, &got)
	want := se3.Pose{R: se3.Rot{0, -1, 0, 1, 0, 0, 0, 0, 1}, P: r3.Vec{X: 0.095, Y: 0.109, Z: 0.988}}
	if d := largest(got, want); d > 1e-12 {
		t.Errorf("pose %v, want %v", got, want)
	}
	if s := newSolver(t, c); s.Family() != kinematics.ThreeParallel {
		t.Errorf("family %v", s.Family())
	}
}

// Source: P. Corke, Robotics, Vision and Control, forward kinematics of a
// six-axis arm at the configuration qn, printed with four digits: Denavit and
// Hartenberg's standard table d, a, alpha.
func TestForwardCorkeSixAxisArm(t *testing.T) {
	const h = math.Pi / 2
	table := [6][3]float64{{0, 0, h}, {0, 0.4318, 0}, {0.15005, 0.0203, -h}, {0.4318, 0, h}, {0, 0, -h}, {0, 0, 0}}
	z := r3.Vec{Z: 1}
	r := armOf([]r3.Vec{z, z, z, z, z, z}, make([]r3.Vec, 7))
	for i, row := range table {
		r.Joints[i+1].Origin = se3.Pose{R: se3.RotX(row[2]), P: r3.Vec{X: row[1], Z: row[0]}}
	}
	c := newChain(t, r, "l0", "l7")
	q := kinematics.Q{0, math.Pi / 4, math.Pi, 0, math.Pi / 4, 0}
	var got se3.Pose
	c.Forward(&q, &got)
	want := se3.Pose{R: se3.Rot{0, 0, 1, 0, 1, 0, -1, 0, 0}, P: r3.Vec{X: 0.5963, Y: -0.15005, Z: -0.01435}}
	if d := largest(got, want); d > 5e-5 {
		t.Errorf("pose %v, want %v", got, want)
	}
	if s := newSolver(t, c); s.Family() != kinematics.SphericalWrist {
		t.Errorf("family %v", s.Family())
	}
}
