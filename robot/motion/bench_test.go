package motion_test

import (
	"context"
	"testing"

	"seamwright/robot/motion"
)

// ladderCases are the ways in which a seam is searched: with no rule but the
// cost, and as for a weld, with steps bounded and spin changes priced.
var ladderCases = []struct {
	name       string
	metric     motion.Metric
	maxStep    float64 // rad
	spinWeight float64 // rad/rad or s/rad
}{
	{"travel", motion.Travel, 0, 0},
	{"time", motion.Time, 0, 0},
	{"travel weld", motion.Travel, 0.35, 0.1},
	{"time weld", motion.Time, 0.35, 0.1},
}

// BenchmarkLadder searches the grid of 91 stations and 36 spins, all postures.
func BenchmarkLadder(b *testing.B) {
	g := readGrid(b)
	for _, arm := range []string{"sphw6", "offw6"} {
		solver := readArm(b, arm+".urdf", "link0", "flange")
		var l motion.Ladder
		g.fill(&l, solver, g.flangePoses(arm), false)
		for _, c := range ladderCases {
			b.Run(arm+" "+c.name, func(b *testing.B) {
				req := motion.LadderRequest{Ladder: &l, Joints: motion.LadderJoints(solver.Chain()), Metric: c.metric, SpinWeight: c.spinWeight}
				for j := range req.Joints {
					req.Joints[j].MaxStep = c.maxStep
				}
				var search motion.LadderSearch
				var a motion.LadderAnswer
				b.ReportAllocs()
				for b.Loop() {
					if err := search.Solve(context.Background(), &req, &a); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// BenchmarkLadderWithInverse is the whole of it: inverse kinematics at 3,276
// poses and the search. The aim is 15 ms.
func BenchmarkLadderWithInverse(b *testing.B) {
	g := readGrid(b)
	for _, arm := range []string{"sphw6", "offw6"} {
		b.Run(arm, func(b *testing.B) {
			solver := readArm(b, arm+".urdf", "link0", "flange")
			poses := g.flangePoses(arm)
			var l motion.Ladder
			req := motion.LadderRequest{Ladder: &l, Joints: motion.LadderJoints(solver.Chain())}
			var search motion.LadderSearch
			var a motion.LadderAnswer
			b.ReportAllocs()
			for b.Loop() {
				g.fill(&l, solver, poses, false)
				if err := search.Solve(context.Background(), &req, &a); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkConstantSpins runs the analysis of every constant spin.
func BenchmarkConstantSpins(b *testing.B) {
	g := readGrid(b)
	solver := readArm(b, "offw6.urdf", "link0", "flange")
	var l motion.Ladder
	g.fill(&l, solver, g.flangePoses("offw6"), false)
	req := motion.LadderRequest{Ladder: &l, Joints: motion.LadderJoints(solver.Chain())}
	for j := range req.Joints {
		req.Joints[j].MaxStep = 0.35
	}
	var search motion.LadderSearch
	var reach []motion.SpinReach
	b.ReportAllocs()
	for b.Loop() {
		var err error
		if reach, err = search.ConstantSpins(context.Background(), &req, reach[:0]); err != nil {
			b.Fatal(err)
		}
	}
}
