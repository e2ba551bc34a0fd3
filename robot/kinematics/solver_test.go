package kinematics_test

import (
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

func solve(s *kinematics.Solver, pose se3.Pose, seed *kinematics.Q) (out kinematics.Solutions) {
	s.Solve(&pose, seed, &out)
	return out
}

func forward(c *kinematics.Chain, q kinematics.Q) (pose se3.Pose) {
	c.Forward(&q, &pose)
	return pose
}

func TestSolveHoldsTheSeedAtSingularities(t *testing.T) {
	rows := []struct {
		name, arm string
		q         kinematics.Q
		joint     int
		at        kinematics.SingularSet
	}{
		{"spherical wrist in line", "sphw6", kinematics.Q{0.4, -1, 1.1, 0.7, 0, -0.3}, 3, kinematics.AtWrist},
		{"offset wrist in line", "offw6", kinematics.Q{0.4, -1, 1.1, 0.7, 0, -0.3}, 5, kinematics.AtWrist},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			s := newSolver(t, readChain(t, row.arm))
			pose := forward(s.Chain(), row.q)
			for _, held := range []float64{row.q[row.joint], row.q[row.joint] + 0.2} {
				seed := row.q
				seed[row.joint] = held
				out := solve(s, pose, &seed)
				if out.Status != kinematics.FoundSingular || out.Singular&row.at == 0 {
					t.Fatalf("status %d, singular %d", out.Status, out.Singular)
				}
				checkPostures(t, s, pose, &out)
				n := 0
				for i := range out.N {
					if out.Held[i] == 1<<row.joint && out.Near[i]&row.at != 0 {
						if n++; out.Q[i][row.joint] != held {
							t.Errorf("joint %d is %v, seed %v", row.joint+1, out.Q[i][row.joint], held)
						}
					}
				}
				if n == 0 {
					t.Errorf("no posture with joint %d free among %d", row.joint+1, out.N)
				}
			}
		})
	}
}

// A wrist point on axis 1 leaves joint 1 free, where the arm has no offset
// there.
func TestSolveHoldsTheSeedOnAxis1(t *testing.T) {
	s := newSolver(t, newChain(t, orthoParallel([]float64{0, -0.1, 0, 0.5, 0.6, 0.7, 0.1}), "l0", "l7"))
	// Triangle of links 0.6 and sqrt(0.1^2+0.7^2) whose tip is above axis 2.
	reach := 1.0
	l3 := math.Hypot(0.1, 0.7)
	q := kinematics.Q{0.3, 0, 0, 0.2, 0.8, -0.4}
	inner := math.Acos((0.6*0.6 + l3*l3 - reach*reach) / (2 * 0.6 * l3))
	q[1] = -math.Acos((0.6*0.6 + reach*reach - l3*l3) / (2 * 0.6 * reach))
	q[2] = math.Pi - inner + math.Atan2(0.1, 0.7)
	pose := forward(s.Chain(), q)
	if near := s.Singularity(&q).Shoulder; near > 1e-12 {
		t.Fatalf("test posture is %v rad from the shoulder singularity", near)
	}
	seed := q
	seed[0] = 0.9
	out := solve(s, pose, &seed)
	if out.Status != kinematics.FoundSingular || out.Singular&kinematics.AtShoulder == 0 || out.N == 0 {
		t.Fatalf("status %d, singular %d, %d postures", out.Status, out.Singular, out.N)
	}
	checkPostures(t, s, pose, &out)
	for i := range out.N {
		if out.Q[i][0] != 0.9 || out.Held[i]&1 == 0 {
			t.Errorf("posture %d: joint 1 %v, held %b", i, out.Q[i][0], out.Held[i])
		}
	}
}

func TestSolveStretchedArm(t *testing.T) {
	for _, arm := range arms {
		t.Run(arm, func(t *testing.T) {
			s := newSolver(t, readFreeChain(t, arm))
			q := kinematics.Q{0.4, -1, 0, 0.7, 0.8, -0.3}
			if arm == "sphw6" { // link 3 points to (0.0203, 0.4318) at zero
				q[2] = -math.Atan2(0.4318, 0.0203)
			}
			if near := s.Singularity(&q); near.Elbow > 1e-12 {
				t.Fatalf("test posture is not stretched: %+v", near)
			}
			pose := forward(s.Chain(), q)
			out := solve(s, pose, &q)
			checkPostures(t, s, pose, &out)
			if d := nearestTo(q[:6], postures(&out)); d > 1e-6 {
				t.Errorf("stretched posture is missing by %v rad", d)
			}
			if out.Status != kinematics.FoundSingular || out.Singular&kinematics.AtElbow == 0 {
				t.Errorf("status %d, singular %b", out.Status, out.Singular)
			}
			same := 0
			for _, p := range postures(&out) {
				if apart(p, q[:6]) < 1e-6 {
					same++
				}
			}
			if same != 1 {
				t.Errorf("the stretched posture is listed %d times", same)
			}
		})
	}
}

// The spherical arm's wrist point reaches 0.4318 + sqrt(0.0203^2 + 0.4318^2)
// from axis 2, at a height of 0.1244 along it.
func TestSolveSaysHowFarOutOfReach(t *testing.T) {
	s := newSolver(t, readFreeChain(t, "sphw6"))
	long := 0.4318 + math.Hypot(0.0203, 0.4318)
	rows := []struct {
		name  string
		p     r3.Vec
		reach kinematics.Reach
		by    float64
	}{
		{"5 mm too far", r3.Vec{X: math.Hypot(long+0.005, 0.1244)}, kinematics.TooFar, 0.005},
		{"too far above", r3.Vec{X: 0.1244, Z: long + 0.25}, kinematics.TooFar, 0.25},
		{"too near axis 1", r3.Vec{X: 0.1, Z: 0.3}, kinematics.TooNear, 0.0244},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			out := solve(s, se3.Translation(row.p), nil)
			if out.Status != kinematics.OutOfReach || out.Reach != row.reach || math.Abs(out.Missing-row.by) > 1e-12 {
				t.Errorf("status %d, reach %d, missing %v m, want %d, %v m", out.Status, out.Reach, out.Missing, row.reach, row.by)
			}
			if out.N != 0 || out.Geometric != 0 {
				t.Errorf("%d postures, %d before limits", out.N, out.Geometric)
			}
		})
	}
}

// A wrist whose bends are 40 and 30 degrees tilts axis 6 by 10 to 70 degrees
// from axis 4, so a pose may be right in place and wrong in attitude.
func TestSolveSaysHowFarTheAttitudeIsOff(t *testing.T) {
	const deg = math.Pi / 180
	tilt := func(a float64) r3.Vec { return r3.Vec{X: math.Sin(a), Z: math.Cos(a)} }
	z, y := r3.Vec{Z: 1}, r3.Vec{Y: 1}
	r := armOf([]r3.Vec{z, y, y, y, y.Scale(math.Cos(40 * deg)).Add(z.Scale(math.Sin(40 * deg))), tilt(0)},
		[]r3.Vec{{}, {Z: 0.3}, {X: 0.5}, {X: 0.4}, {Y: 0.1}, {}, {}})
	// axis 6 at 30 degrees from axis 5, on the far side of axis 4: 70 degrees.
	r.Joints[5].Axis = y.Scale(math.Cos(70 * deg)).Add(z.Scale(math.Sin(70 * deg)))
	s := newSolver(t, newChain(t, r, "l0", "l7"))
	q := kinematics.Q{0, -0.4, 0.9, 0.2, 0, 0}
	pose := forward(s.Chain(), q)
	if out := solve(s, pose, &q); nearestTo(q[:6], postures(&out)) > 1e-6 {
		t.Fatalf("posture at the end of the range is missing, status %d", out.Status)
	}
	// Turn the flange 12 degrees further away from axis 2.
	pose.R = se3.RotAxis(y.Cross(pose.R.Apply(r.Joints[5].Axis)).Unit(), 12*deg).Mul(pose.R)
	out := solve(s, pose, &q)
	if out.Status != kinematics.OutOfReach || out.Reach != kinematics.WrongAttitude || out.Missing < 1*deg || out.Missing > 12*deg+1e-9 {
		t.Errorf("status %d, reach %d, missing %v deg", out.Status, out.Reach, out.Missing/deg)
	}
}

func TestSolveNamesTheJointThatMissesItsLimit(t *testing.T) {
	const deg = math.Pi / 180
	q := kinematics.Q{0.4, -1.2, 1.1, 0.7, 0.8, -0.3}
	r := readRobot(t, "offw6")
	// Every joint is pinned around q, joint 5 ends 3 degrees short of it.
	k := 0
	for i := range r.Joints {
		if r.Joints[i].Kind == urdf.Revolute {
			r.Joints[i].Limit.Lower, r.Joints[i].Limit.Upper = q[k]-0.01, q[k]+0.01
			if k == 4 {
				r.Joints[i].Limit.Lower, r.Joints[i].Limit.Upper = 0, q[k]-3*deg
			}
			k++
		}
	}
	s := newSolver(t, newChain(t, r, "link0", "flange"))
	out := solve(s, forward(s.Chain(), q), nil)
	if out.Status != kinematics.OutsideLimits || out.N != 0 || out.Geometric < 2 {
		t.Fatalf("status %d, %d postures, %d before limits", out.Status, out.N, out.Geometric)
	}
	if m := out.Miss; m.Joint != 4 || math.Abs(m.By-3*deg) > 1e-9 || apart(m.Q[:6], q[:6]) > 1e-9 {
		t.Errorf("miss %+v, want joint index 4 by %v", m, 3*deg)
	}
}

func TestSolveChoosesTheTurnNearestToTheSeed(t *testing.T) {
	r := readRobot(t, "offw6")
	for i := range r.Joints {
		switch r.Joints[i].Name {
		case "j6":
			r.Joints[i].Limit.Lower, r.Joints[i].Limit.Upper = -6.2, 9.2
		case "j1":
			r.Joints[i].Kind = urdf.Continuous
		}
	}
	s := newSolver(t, newChain(t, r, "link0", "flange"))
	q := kinematics.Q{0.4, -1.2, 1.1, 0.7, 0.8, 1}
	pose := forward(s.Chain(), q)
	const turn = 2 * math.Pi
	rows := []struct {
		name   string
		seed   *kinematics.Q
		q1, q6 float64
	}{
		{"no seed: middle of the range, zero", nil, 0.4, 1},
		{"seed at the posture", &q, 0.4, 1},
		{"seed far on", &kinematics.Q{40, 0, 0, 0, 0, 8}, 0.4 + 6*turn, 1 + turn},
		{"seed beyond the range", &kinematics.Q{-3 * turn, 0, 0, 0, 0, -40}, 0.4 - 3*turn, 1 - turn},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			out := solve(s, pose, row.seed)
			for i := range out.N {
				if apart(out.Q[i][:6], q[:6]) < 1e-9 {
					if math.Abs(out.Q[i][0]-row.q1) > 1e-9 || math.Abs(out.Q[i][5]-row.q6) > 1e-9 {
						t.Errorf("joints 1 and 6 are %v, %v, want %v, %v", out.Q[i][0], out.Q[i][5], row.q1, row.q6)
					}
					return
				}
			}
			t.Errorf("posture is missing among %v", postures(&out))
		})
	}
}

// Whatever Solve returns is inside the limits, and nothing inside is lost.
func TestSolveKeepsTheLimits(t *testing.T) {
	for _, arm := range arms {
		limited, free := newSolver(t, readChain(t, arm)), newSolver(t, readFreeChain(t, arm))
		for _, q := range randomPostures(2000) {
			pose := forward(limited.Chain(), q)
			out, all := solve(limited, pose, nil), solve(free, pose, nil)
			inside := 0
			for i := range all.N {
				ok := true
				for j := range 6 {
					lo, hi := limited.Chain().Turns(&all.Q[i], j)
					ok = ok && lo <= hi
				}
				if ok {
					inside++
				}
			}
			if out.N != inside || out.Geometric != all.N {
				t.Fatalf("%s %v: %d postures inside limits, want %d; %d before, want %d", arm, q, out.N, inside, out.Geometric, all.N)
			}
			for i := range out.N {
				for j := range 6 {
					if jt := limited.Chain().Joint(j); out.Q[i][j] < jt.Lower || out.Q[i][j] > jt.Upper {
						t.Fatalf("%s: joint %d is %v, limits %v to %v", arm, j+1, out.Q[i][j], jt.Lower, jt.Upper)
					}
				}
			}
		}
	}
}

func TestSolveRefusesBadInput(t *testing.T) {
	s := newSolver(t, readChain(t, "sphw6"))
	good := forward(s.Chain(), kinematics.Q{0.4, -1, 1.1, 0.7, 0.5, -0.3})
	mirrored, skewed, nan := good, good, good
	mirrored.R[0], mirrored.R[3], mirrored.R[6] = -good.R[0], -good.R[3], -good.R[6]
	skewed.R[1] += 1e-6
	nan.P.Y = math.NaN()
	for name, pose := range map[string]se3.Pose{"mirrored": mirrored, "skewed": skewed, "NaN": nan, "zero": {}} {
		if out := solve(s, pose, nil); out.Status != kinematics.InvalidInput || out.N != 0 {
			t.Errorf("%s: status %d, %d postures", name, out.Status, out.N)
		}
	}
	if out := solve(s, good, &kinematics.Q{3: math.Inf(1)}); out.Status != kinematics.InvalidInput {
		t.Errorf("infinite seed: status %d", out.Status)
	}
	if out := solve(s, good, nil); out.Status != kinematics.Found {
		t.Errorf("good pose: status %d", out.Status)
	}
}

// A file that writes right angles as 1.5708 is answered on the arm as written.
func TestSolveCorrectsRoundedFiles(t *testing.T) {
	r := readRobot(t, "sphw6")
	for i := range r.Joints {
		if o := &r.Joints[i].Origin; o.R[4] == 0 || math.Abs(o.R[4]) < 1e-9 {
			o.R = se3.RotX(math.Copysign(1.5708, o.R[7]))
		}
		r.Joints[i].Kind = map[bool]urdf.JointKind{true: urdf.Continuous, false: urdf.Fixed}[r.Joints[i].Kind == urdf.Revolute]
	}
	s := newSolver(t, newChain(t, r, "link0", "flange"))
	for _, q := range randomPostures(500) {
		pose := forward(s.Chain(), q)
		out := solve(s, pose, &q)
		checkPostures(t, s, pose, &out)
		near := s.Singularity(&q)
		if near.Shoulder*near.Elbow*near.Wrist > 1e-3 && nearestTo(q[:6], postures(&out)) > 1e-7 {
			t.Errorf("posture %v is missing", q)
		}
	}
}

func TestSolveRoundedFilesAreNotExact(t *testing.T) {
	r := readRobot(t, "sphw6")
	for i := range r.Joints {
		if r.Joints[i].Name == "j5" {
			r.Joints[i].Origin.P.X = 5e-6 // axes 4 and 5 miss each other
		}
	}
	s := newSolver(t, newChain(t, r, "link0", "flange"))
	if s.Exact() {
		t.Error("an arm whose axes miss by 5e-6 m counts as exact")
	}
	q := kinematics.Q{0.4, -1, 1.1, 0.7, 0.5, -0.3}
	pose := forward(s.Chain(), q)
	out := solve(s, pose, &q)
	checkPostures(t, s, pose, &out)
	if nearestTo(q[:6], postures(&out)) > 1e-9 {
		t.Errorf("posture is missing among %v", postures(&out))
	}
}

func TestNewSolverRefuses(t *testing.T) {
	z, y := r3.Vec{Z: 1}, r3.Vec{Y: 1}
	flat := armOf([]r3.Vec{z, z, z, z, z, z}, []r3.Vec{{}, {X: 0.3}, {X: 0.3}, {X: 0.3}, {X: 0.3}, {X: 0.3}, {}})
	long := armOf([]r3.Vec{z, z, z, z, z, z, z}, []r3.Vec{{}, {X: 0.3}, {X: 0.3}, {X: 0.3}, {X: 0.3}, {X: 0.3}, {X: 0.3}, {}})
	rows := []struct {
		name  string
		robot *urdf.Robot
		tip   string
		want  string
	}{
		{"five joints", armOf([]r3.Vec{z, y, y, z, y}, make([]r3.Vec, 6)), "l6",
			"solver: found 5 moving joints; allowed: 6 to 9, since fewer cannot put a flange in every pose; choose base and flange links with six joints or more between them"},
		{"six parallel axes", flat, "l7",
			"solver: found six joints that leave the flange a motion that none of them makes, whatever the posture; allowed: joints that can move the flange every way; check the joint origins and axes in the file, or choose other links"},
		{"seven parallel axes", long, "l8",
			"solver: found 7 joints of which no six can move the flange every way; allowed: 6 to 9 joints that can; check the joint origins and axes in the file, or choose other links"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			_, err := kinematics.NewSolver(newChain(t, row.robot, "l0", row.tip))
			if err == nil {
				t.Fatal("accepted")
			}
			if got := err.Error(); got != row.want {
				t.Errorf("got  %s\nwant %s", got, row.want)
			}
		})
	}
}

// Worked by hand on the testdata arms.
func TestSingularityAngles(t *testing.T) {
	s := newSolver(t, readFreeChain(t, "offw6"))
	q := kinematics.Q{0.3, -0.9, 0.5, 0.2, 0.25, 1}
	got := s.Singularity(&q)
	if math.Abs(got.Elbow-0.5) > 1e-12 || math.Abs(got.Wrist-0.25) > 1e-12 {
		t.Errorf("%+v, want elbow 0.5, wrist 0.25", got)
	}
	q[2], q[4] = math.Pi-0.1, -math.Pi+0.2
	got = s.Singularity(&q)
	if math.Abs(got.Elbow-0.1) > 1e-12 || math.Abs(got.Wrist-0.2) > 1e-12 {
		t.Errorf("%+v, want elbow 0.1, wrist 0.2", got)
	}
	// Straight up, axis 6 horizontal: the wrist point is above axis 1's line
	// shifted by d4 along axis 2 and d5 across the stretched arm.
	up := kinematics.Q{0, math.Pi / 2, 0, 0, 0, 0}
	pose := forward(s.Chain(), up)
	p := pose.P.AddScaled(-0.11, pose.R.Z())
	want := math.Asin(math.Abs(p.X) / p.Sub(r3.Vec{Z: 0.18}).Norm())
	if got := s.Singularity(&up).Shoulder; math.Abs(got-want) > 1e-12 {
		t.Errorf("shoulder %v, want %v", got, want)
	}
}
