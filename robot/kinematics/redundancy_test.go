package kinematics_test

import (
	"math"
	"slices"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// longArms are chains of seven to nine joints with what NewSolver must take as
// free and what is left.
func longArms() []struct {
	name   string
	robot  *urdf.Robot
	free   []int
	family kinematics.Family
} {
	six := func(f kinematics.Family) *urdf.Robot { return armOfFamily(4, f) }
	return []struct {
		name   string
		robot  *urdf.Robot
		free   []int
		family kinematics.Family
	}{
		{"spherical wrist on a lift", withExtra(six(kinematics.SphericalWrist), lift(0)), []int{0}, kinematics.SphericalWrist},
		{"offset wrist on a track", withExtra(six(kinematics.ThreeParallel), track(0)), []int{0}, kinematics.ThreeParallel},
		{"general arm on a lift", withExtra(six(kinematics.General), lift(0)), []int{0}, kinematics.General},
		{"mirror image on a lift", withExtra(six(kinematics.SphericalShoulder), lift(0)), []int{0}, kinematics.SphericalShoulder},
		{"slide behind the wrist", withExtra(six(kinematics.ThreeParallel), lift(6)), []int{6}, kinematics.ThreeParallel},
		{"turntable under an arm", withExtra(six(kinematics.SphericalWrist), turntable(0)), []int{0}, kinematics.SphericalWrist},
		{"track and lift", withExtra(six(kinematics.SphericalWrist), track(0), lift(1)), []int{0, 1}, kinematics.SphericalWrist},
		{"track, lift and turntable", withExtra(six(kinematics.ThreeParallel), track(0), lift(1), turntable(2)), []int{0, 1, 2}, kinematics.ThreeParallel},
		{"slide inside an arm", withExtra(six(kinematics.SphericalWrist), lift(1)), []int{1}, kinematics.SphericalWrist},
		{"shoulder, elbow and wrist", shoulderElbowWrist(0), []int{0}, kinematics.WristMeet12},
		{"shoulder, offset elbow and wrist", shoulderElbowWrist(0.05), []int{0}, kinematics.WristMeet12},
		{"seven axes on a lift", withExtra(shoulderElbowWrist(0), lift(0)), []int{0, 1}, kinematics.WristMeet12},
	}
}

// With the free joints held where a posture has them, the posture is found.
func TestLongChainsFindTheGenerator(t *testing.T) {
	for _, row := range longArms() {
		t.Run(row.name, func(t *testing.T) {
			s := newSolver(t, newChain(t, row.robot, "l0", row.robot.Links[len(row.robot.Links)-1].Name))
			n := s.Chain().N()
			var free []int
			for _, f := range s.Free() {
				free = append(free, f.Joint)
			}
			if !slices.Equal(free, row.free) || s.Family() != row.family {
				t.Fatalf("free joints %v, family %v; want %v, %v", free, s.Family(), row.free, row.family)
			}
			for _, q := range randomPostures9(30, n, 8) {
				for j := range n {
					if k := s.Chain().Joint(j); k.Kind == kinematics.Prismatic {
						q[j] = k.Lower + (q[j]/math.Pi+1)/2*(k.Upper-k.Lower)
					}
				}
				pose := forward(s.Chain(), q)
				var held, with kinematics.Solutions
				s.SolveHeld(&q, &pose, &q, &held)
				checkLong(t, s, pose, &held, q)
				if d := nearestLong(q, &held, n); d > 1e-6 {
					t.Errorf("posture %v is %.3g off the nearest of %d, status %v", q, d, held.N, held.Status)
				}
				if s.Solve(&pose, &q, &with); with != held {
					t.Errorf("Solve with a seed differs from SolveHeld at the seed")
				}
			}
		})
	}
}

// checkLong fails where a posture does not make the pose, is outside a limit or
// does not hold what is held.
func checkLong(t *testing.T, s *kinematics.Solver, pose se3.Pose, out *kinematics.Solutions, held kinematics.Q) {
	t.Helper()
	checkPostures(t, s, pose, out)
	for i := range out.N {
		for _, f := range s.Free() {
			if out.Q[i][f.Joint] != held[f.Joint] || out.Held[i]>>f.Joint&1 == 0 {
				t.Errorf("joint %d stands at %v, held at %v, set %b", f.Joint, out.Q[i][f.Joint], held[f.Joint], out.Held[i])
			}
		}
		for j := range s.Chain().N() {
			if k := s.Chain().Joint(j); out.Q[i][j] < k.Lower || out.Q[i][j] > k.Upper {
				t.Errorf("joint %d is %v, limits %v to %v", j, out.Q[i][j], k.Lower, k.Upper)
			}
		}
	}
}

// nearestLong is nearestTo for n joints.
func nearestLong(q kinematics.Q, out *kinematics.Solutions, n int) float64 {
	d := math.Inf(1)
	for i := range out.N {
		d = min(d, apart(q[:n], out.Q[i][:n]))
	}
	return d
}

// The grid covers the ranges of the free joints, in order, and a posture of a
// choice makes the pose with the free joints at the choice's values.
func TestChoicesCoverTheFreeRanges(t *testing.T) {
	for _, row := range longArms() {
		t.Run(row.name, func(t *testing.T) {
			s := newSolver(t, newChain(t, row.robot, "l0", row.robot.Links[len(row.robot.Links)-1].Name))
			if s.Choices() < 5 || s.Choices() > 1024 {
				t.Fatalf("%d choices", s.Choices())
			}
			first, last := s.ChoiceValue(0), s.ChoiceValue(s.Choices()-1)
			for _, f := range s.Free() {
				end := f.Upper
				if s.Chain().Joint(f.Joint).Kind == kinematics.Continuous {
					end -= f.Step
				}
				if first[f.Joint] != f.Lower || math.Abs(last[f.Joint]-end) > 1e-12 || !(f.Step > 0) {
					t.Errorf("%+v: grid from %v to %v", f, first[f.Joint], last[f.Joint])
				}
			}
			q := s.ChoiceValue(s.Choices() / 3)
			for _, v := range randomPostures9(1, s.Chain().N(), 21) {
				for j := range s.Chain().N() {
					if !slices.ContainsFunc(s.Free(), func(f kinematics.FreeJoint) bool { return f.Joint == j }) {
						q[j] = v[j]
					}
				}
			}
			pose := forward(s.Chain(), q)
			hits := 0
			for i := range s.Choices() {
				var out, held kinematics.Solutions
				v := s.ChoiceValue(i)
				s.SolveChoice(i, &pose, nil, &out)
				checkLong(t, s, pose, &out, v)
				hits += out.N
				if s.SolveHeld(&v, &pose, nil, &held); held.N != out.N {
					t.Errorf("choice %d: %d postures, held there %d", i, out.N, held.N)
				}
			}
			var out kinematics.Solutions
			s.SolveChoice(s.Choices()/3, &pose, &q, &out)
			if d := nearestLong(q, &out, s.Chain().N()); d > 1e-6 {
				t.Errorf("the generator's choice misses it by %.3g", d)
			}
			t.Logf("%d choices, %d postures of one pose", s.Choices(), hits)
		})
	}
}

func TestSixJointsHaveOneChoice(t *testing.T) {
	s := newSolver(t, readFreeChain(t, "offw6"))
	if s.Free() != nil || s.Choices() != 1 || s.ChoiceValue(0) != (kinematics.Q{}) {
		t.Fatalf("free %v, %d choices", s.Free(), s.Choices())
	}
	q := kinematics.Q{0.3, -1, 1.2, -0.4, 0.9, 0.2}
	pose := forward(s.Chain(), q)
	var plain, choice, held kinematics.Solutions
	s.Solve(&pose, &q, &plain)
	s.SolveChoice(0, &pose, &q, &choice)
	s.SolveHeld(&q, &pose, &q, &held)
	if plain != choice || plain != held {
		t.Error("answers differ")
	}
	for name, call := range map[string]func(){
		"SolveChoice": func() { s.SolveChoice(1, &pose, &q, &choice) },
		"ChoiceValue": func() { s.ChoiceValue(1) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s(1) does not panic", name)
				}
			}()
			call()
		}()
	}
}

func TestSolveHeldRefuses(t *testing.T) {
	s := newSolver(t, newChain(t, withExtra(armOfFamily(4, kinematics.SphericalWrist), lift(0)), "l0", "l8"))
	q := kinematics.Q{0.3, 0.3, -1, 1.2, -0.4, 0.9, 0.2}
	pose := forward(s.Chain(), q)
	var out kinematics.Solutions
	s.SolveHeld(&kinematics.Q{0.85}, &pose, nil, &out)
	if out.Status != kinematics.OutsideLimits || out.Miss.Joint != 0 || math.Abs(out.Miss.By-0.05) > 1e-12 {
		t.Errorf("5 cm above the lift: %v, %+v", out.Status, out.Miss)
	}
	s.SolveHeld(&kinematics.Q{math.NaN()}, &pose, nil, &out)
	if out.Status != kinematics.InvalidInput {
		t.Errorf("NaN: %v", out.Status)
	}
	s.SolveHeld(&q, &se3.Pose{}, nil, &out)
	if out.Status != kinematics.InvalidInput {
		t.Errorf("no pose: %v", out.Status)
	}
	// A seed outside the lift's range is taken at its end.
	s.Solve(&pose, &kinematics.Q{2}, &out)
	if out.N > 0 && out.Q[0][0] != 0.8 {
		t.Errorf("the lift stands at %v, want 0.8", out.Q[0][0])
	}
}

func TestLongCallsAllocateNothing(t *testing.T) {
	for _, row := range longArms() {
		s := newSolver(t, newChain(t, row.robot, "l0", row.robot.Links[len(row.robot.Links)-1].Name))
		q := s.ChoiceValue(s.Choices() / 2)
		pose := forward(s.Chain(), q)
		var out kinematics.Solutions
		for name, call := range map[string]func(){
			"Solve":       func() { s.Solve(&pose, &q, &out) },
			"SolveChoice": func() { s.SolveChoice(1, &pose, nil, &out) },
			"Singularity": func() { s.Singularity(&q) },
		} {
			if n := testing.AllocsPerRun(20, call); n != 0 {
				t.Errorf("%s, %s: %v allocations", row.name, name, n)
			}
		}
	}
}

// Where the seven-axis arm is straight joints 3 and 5 turn about one line, and
// straight up joints 1 and 7 too. The posture is listed all the same, held where
// it was.
func TestStraightSevenAxisArm(t *testing.T) {
	s := newSolver(t, newChain(t, shoulderElbowWrist(0), "l0", "l8"))
	for _, q := range []kinematics.Q{{}, {0.3}, {0.3, 0, 0.2, 0, 0.4, 0, -0.1}, {0.3, 0.5, 0.2, 0, 0.4, 0, -0.1}} {
		pose := forward(s.Chain(), q)
		out := solve(s, pose, &q)
		checkLong(t, s, pose, &out, q)
		if d := nearestLong(q, &out, 7); d > 1e-4 || out.Status != kinematics.FoundSingular {
			t.Errorf("posture %v is %.3g rad off the nearest of %d, %v", q[:7], d, out.N, out.Status)
		}
	}
}

// Seven axes in no order: one at an end is free, and the six others are General.
func TestSevenRandomAxes(t *testing.T) {
	extra := turntable(0)
	extra.joint.Axis = r3.Vec{X: 0.48, Y: 0.6, Z: 0.64}
	s := newSolver(t, newChain(t, withExtra(armOfFamily(6, kinematics.General), extra), "l0", "l8"))
	free := s.Free()
	if len(free) != 1 || free[0].Joint != 0 && free[0].Joint != 6 || s.Family() != kinematics.General || s.Choices() != 24 {
		t.Fatalf("free %+v, %v, %d choices", free, s.Family(), s.Choices())
	}
	for _, q := range randomPostures9(20, 7, 12) {
		pose := forward(s.Chain(), q)
		out := solve(s, pose, &q)
		checkLong(t, s, pose, &out, q)
		if d := nearestLong(q, &out, 7); d > 1e-6 {
			t.Errorf("posture %v is %.3g off the nearest of %d", q, d, out.N)
		}
	}
}
