package motion_test

import (
	"context"
	"math"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// The box: a hollow section 200 x 150 mm with corners of 15 mm radius, centred at
// (500, 20, 30) mm and turned by 14 degrees, welded all round to its base plate
// from the middle of a long side, 674 mm and 15 mm of overlap, work 45 and push
// 10 degrees. Arm and part are invented; testdata/README.md.
const (
	boxLong, boxShort = 0.17, 0.12 // straight parts, m
	boxRadius         = 0.015      // m
	boxStep           = 0.001      // m
	boxStations       = 690        // 0 to 689 mm
)

// boxAt returns place, travel direction and the upright's outward normal at
// distance d (m) from the start of the first long side, in the arm's base frame.
func boxAt(d float64) (p, travel, normal r3.Vec) {
	at := se3.Translation(r3.Vec{X: -boxLong / 2, Y: -boxShort/2 - boxRadius})
	const arc = boxRadius * math.Pi / 2
	for i := 0; d > 0; i++ {
		straight := []float64{boxLong, boxShort}[i%2]
		run := min(d, straight)
		at = at.Mul(se3.Translation(r3.Vec{X: run}))
		d -= run
		run = min(d, arc)
		s, c := math.Sincos(run / boxRadius)
		at = at.Mul(se3.Pose{R: se3.RotZ(run / boxRadius), P: r3.Vec{X: boxRadius * s, Y: boxRadius * (1 - c)}})
		d -= run
	}
	at = se3.Pose{R: se3.RotZ(14 * deg), P: r3.Vec{X: 0.5, Y: 0.02, Z: 0.03}}.Mul(at)
	return at.P, at.R.X(), at.R.Y().Neg()
}

// boxTip returns the tip pose at spin 0: wire at work 45 and push 10 degrees, x
// along the travel as far as the wire allows.
func boxTip(d float64) se3.Pose {
	p, travel, normal := boxAt(d)
	into := normal.Add(r3.Vec{Z: 1}).Neg().Unit()
	z := into.Scale(math.Cos(10 * deg)).Add(travel.Scale(math.Sin(10 * deg)))
	x := travel.Sub(z.Scale(z.Dot(travel))).Unit()
	return se3.Pose{R: se3.RotColumns(x, z.Cross(x), z), P: p}
}

// boxLadder holds all postures at 24 spins, in degrees -180 to 165, given in rad.
func boxLadder(t testing.TB) *motion.LadderRequest {
	solver := readArm(t, "arm_a.urdf", "base", "flange")
	tipFromFlange := se3.Pose{R: se3.RotY(35 * deg), P: r3.Vec{X: 0.072, Z: 0.335}}.Inv()
	var l motion.Ladder
	var out kinematics.Solutions
	for s := range boxStations {
		l.AddRung()
		tip := boxTip(boxLong/2 + float64(s)*boxStep)
		for k := range 24 {
			spin := float64(15*k-180) * deg
			flange := tip.Mul(se3.Pose{R: se3.RotZ(spin)}).Mul(tipFromFlange)
			solver.Solve(&flange, nil, &out)
			for i := range out.N {
				l.AddNode(motion.Node{Q: out.Q[i], Spin: spin})
			}
		}
	}
	req := &motion.LadderRequest{Ladder: &l, Joints: motion.LadderJoints(solver.Chain())}
	for j := range req.Joints {
		req.Joints[j].MaxStep = 0.5
	}
	return req
}

// TestBoxAllRound: the worked answer of the case is that of 24 spins only -45
// degrees runs the whole seam in one go, and only if joint 6 starts at +96
// degrees, ending at -263 of -270; -60 to -120 meet joint 6's limit 104 to 114 mm
// before the end (of 689 mm, here counted to the last station reached); all
// others fail within 240 mm.
func TestBoxAllRound(t *testing.T) {
	req := boxLadder(t)
	var search motion.LadderSearch
	reach, err := search.ConstantSpins(context.Background(), req, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(reach) != 24 {
		t.Fatalf("%d spins, want 24", len(reach))
	}
	for _, r := range reach {
		left := (boxStations - 1 - r.Furthest) // mm
		switch spin := math.Round(r.Spin / deg); {
		case spin == -45:
			if !r.Whole {
				t.Errorf("spin -45 stops at %d mm, want the whole seam", r.Furthest)
			}
		case spin >= -120 && spin <= -60:
			if r.Whole || left < 104 || left > 114 || r.Block.Kind != motion.BlockLimit || r.Block.Joint != 5 {
				t.Errorf("spin %g stops %d mm before the end at %+v, want 104 to 114 mm, joint 6's limit", spin, left, r.Block)
			}
		case r.Whole || r.Furthest > 240:
			t.Errorf("spin %g reaches %d mm, want 240 at most", spin, r.Furthest)
		}
	}
	checkBoxPath(t, &search, req)
}

func checkBoxPath(t *testing.T, search *motion.LadderSearch, req *motion.LadderRequest) {
	t.Helper()
	var held, free, stuck motion.LadderAnswer
	for _, c := range []struct {
		spin   float64
		answer *motion.LadderAnswer
	}{{-45 * deg, &held}, {-60 * deg, &stuck}} {
		if err := search.SolveAtSpin(context.Background(), req, c.spin, c.answer); err != nil {
			t.Fatal(err)
		}
	}
	if held.Status != motion.LadderFound {
		t.Fatal("no path at spin -45")
	}
	near(t, "joint 6 at the start", held.Q[0][5]/deg, 96, 0.5)
	near(t, "joint 6 at the end", held.Q[boxStations-1][5]/deg, -263, 0.5)
	if held.Turns[5] != (motion.TurnRange{}) {
		t.Errorf("other start turns %+v, want none", held.Turns[5])
	}
	if stuck.Status != motion.LadderBlocked || len(stuck.Windows) != 2 {
		t.Errorf("spin -60: status %d in windows %v, want blocked and two", stuck.Status, stuck.Windows)
	}
	if err := search.Solve(context.Background(), req, &free); err != nil {
		t.Fatal(err)
	}
	if free.Status != motion.LadderFound || free.Cost > held.Cost {
		t.Errorf("free spin: status %d, cost %g; want a path no dearer than %g", free.Status, free.Cost, held.Cost)
	}
}

// BenchmarkBox searches the box with joint 6's whole turns at stake.
func BenchmarkBox(b *testing.B) {
	req := boxLadder(b)
	var search motion.LadderSearch
	var a motion.LadderAnswer
	b.ReportAllocs()
	for b.Loop() {
		if err := search.Solve(context.Background(), req, &a); err != nil {
			b.Fatal(err)
		}
	}
}
