package motion_test

import (
	"context"
	"encoding/json"
	"os"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
	"seamwright/robot/urdf"
)

// seamGrid is testdata/ladder_reference.json; see testdata/README.md.
type seamGrid struct {
	PartFromTip  [16]float64 `json:"part_from_tip_at_first_station"`
	StationStep  float64     `json:"station_step_m"`
	Stations     int         `json:"stations"`
	Spins        int         `json:"spins"`
	SpinStep     float64     `json:"spin_step_deg"`
	Collides     []string    `json:"collides"`
	BaseFromPart [16]float64 `json:"base_from_part"`
	Arms         map[string]struct {
		Flange [16]float64 `json:"link6_from_flange"`
		Tip    [16]float64 `json:"link6_from_tip"`
	} `json:"arms"`
	Ladders []struct {
		Arm               string  `json:"arm"`
		CollisionsRemoved bool    `json:"collisions_removed"`
		Metric            string  `json:"metric"`
		Optimum           float64 `json:"optimum"`
		NodesPerRung      []int   `json:"nodes_per_rung"`
	} `json:"ladders"`
}

func readGrid(t testing.TB) *seamGrid {
	t.Helper()
	text, err := os.ReadFile("testdata/ladder_reference.json")
	if err != nil {
		t.Fatal(err)
	}
	var g seamGrid
	if err := json.Unmarshal(text, &g); err != nil {
		t.Fatal(err)
	}
	return &g
}

func poseOf(m [16]float64) se3.Pose {
	return se3.Pose{
		R: se3.Rot{m[0], m[1], m[2], m[4], m[5], m[6], m[8], m[9], m[10]},
		P: r3.Vec{X: m[3], Y: m[7], Z: m[11]},
	}
}

func readArm(t testing.TB, file, base, flange string) *kinematics.Solver {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	robot, err := urdf.Parse(f, file)
	if err != nil {
		t.Fatal(err)
	}
	chain, err := kinematics.NewChain(robot, base, flange)
	if err != nil {
		t.Fatal(err)
	}
	solver, err := kinematics.NewSolver(chain)
	if err != nil {
		t.Fatal(err)
	}
	return solver
}

// flangePoses returns the flange poses by station and spin.
func (g *seamGrid) flangePoses(arm string) [][]se3.Pose {
	tipFromFlange := poseOf(g.Arms[arm].Tip).Inv().Mul(poseOf(g.Arms[arm].Flange))
	first, part := poseOf(g.PartFromTip), poseOf(g.BaseFromPart)
	poses := make([][]se3.Pose, g.Stations)
	for s := range poses {
		tip := first
		tip.P.X += float64(s) * g.StationStep
		for k := range g.Spins {
			spin := se3.Pose{R: se3.RotZ(float64(k) * g.SpinStep * deg)}
			poses[s] = append(poses[s], part.Mul(tip).Mul(spin).Mul(tipFromFlange))
		}
	}
	return poses
}

// fill builds the ladder of all postures inside the limits.
func (g *seamGrid) fill(l *motion.Ladder, solver *kinematics.Solver, poses [][]se3.Pose, skipColliding bool) {
	l.Reset()
	var out kinematics.Solutions
	for s := range poses {
		l.AddRung()
		for k := range poses[s] {
			if skipColliding && g.Collides[s][k] == '#' {
				continue
			}
			solver.Solve(&poses[s][k], nil, &out)
			for i := range out.N {
				l.AddNode(motion.Node{Q: out.Q[i], Spin: float64(k) * g.SpinStep * deg})
			}
		}
	}
}

// TestLadderReference compares node counts and optima with the exhaustive C++
// search described in testdata/README.md.
func TestLadderReference(t *testing.T) {
	g := readGrid(t)
	var search motion.LadderSearch
	for _, want := range g.Ladders {
		name := want.Arm + " " + want.Metric
		if want.CollisionsRemoved {
			name += " clear of the part"
		}
		t.Run(name, func(t *testing.T) {
			solver := readArm(t, want.Arm+".urdf", "link0", "flange")
			var l motion.Ladder
			g.fill(&l, solver, g.flangePoses(want.Arm), want.CollisionsRemoved)
			for r, n := range want.NodesPerRung {
				if got := len(l.Rung(r)); got != n {
					t.Errorf("station %d: %d postures, want %d", r, got, n)
				}
			}
			req := motion.LadderRequest{Ladder: &l, Joints: motion.LadderJoints(solver.Chain())}
			if want.Metric == "time" {
				req.Metric = motion.Time
			}
			var a motion.LadderAnswer
			if err := search.Solve(context.Background(), &req, &a); err != nil {
				t.Fatal(err)
			}
			near(t, "optimum", a.Cost, want.Optimum, 1e-9)
		})
	}
}

// TestTrapezoidReference: d/v + v/a and 2 sqrt(d/a), Biagiotti and Melchiorri,
// Trajectory Planning for Automatic Machines and Robots (2008), section 3.2 (from
// memory), worked by hand.
func TestTrapezoidReference(t *testing.T) {
	for _, c := range []struct {
		name                      string
		distance, speed, accel    float64
		duration, peak, at, where float64 // where at time at
	}{
		{"speed reached", 3, 1, 2, 3.5, 1, 1.75, 1.5},
		{"on the ramp", 3, 1, 2, 3.5, 1, 0.25, 0.0625},
		{"on the way down", 3, 1, 2, 3.5, 1, 3.25, 2.9375},
		{"just reached", 0.5, 1, 2, 1, 1, 0.5, 0.25},
		{"triangle", 0.08, 1, 2, 0.4, 0.4, 0.2, 0.04},
	} {
		l, err := motion.NewSevenPhase(c.distance, motion.LawLimits{Speed: c.speed, Accel: c.accel})
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name+": duration", l.Duration(), c.duration, 1e-12)
		near(t, c.name+": peak", l.Peak(), c.peak, 1e-12)
		s, _, _ := l.At(c.at)
		near(t, c.name+": place", s, c.where, 1e-12)
	}
}
