package motion_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// balls are round obstacles in joint space: a posture is clear outside of all.
type balls struct {
	n      int
	at     []kinematics.Q
	radius []float64
}

func (b balls) Clear(q *kinematics.Q) bool { return b.ClearMove(q, q) }

// ClearMove is exact: the nearest point of a segment to a centre.
func (b balls) ClearMove(from, to *kinematics.Q) bool {
	for i := range b.at {
		if b.gap(i, from, to) < 0 {
			return false
		}
	}
	return true
}

func (b balls) gap(i int, from, to *kinematics.Q) float64 {
	dot, square := 0.0, 0.0
	for j := range b.n {
		d := to[j] - from[j]
		dot += d * (b.at[i][j] - from[j])
		square += d * d
	}
	s := 0.0
	if square > 0 {
		s = min(1, max(0, dot/square))
	}
	sum := 0.0
	for j := range b.n {
		d := from[j] + s*(to[j]-from[j]) - b.at[i][j]
		sum += d * d
	}
	return math.Sqrt(sum) - b.radius[i]
}

// clearance is the distance to the nearest ball.
func (b balls) clearance(q *kinematics.Q) float64 {
	least := math.Inf(1)
	for i := range b.at {
		least = min(least, b.gap(i, q, q))
	}
	return least
}

func joints(n int, side float64) []motion.AirJoint {
	joints := make([]motion.AirJoint, n)
	for i := range joints {
		joints[i] = motion.AirJoint{Lower: -side, Upper: side, Weight: 1}
	}
	return joints
}

// checkAirPath holds what every answer with a path promises.
func checkAirPath(t interface {
	Helper()
	Fatalf(string, ...any)
}, req *motion.AirRequest, out *motion.AirAnswer) {
	t.Helper()
	if len(out.Path) < 2 || out.Path[0] != req.Start || out.Goal < 0 || out.Path[len(out.Path)-1] != req.Goals[out.Goal] {
		t.Fatalf("path %v to goal %d does not join start and goal", out.Path, out.Goal)
	}
	if slices.Contains(out.NotClear, out.Goal) {
		t.Fatalf("goal %d is said not to be clear and reached", out.Goal)
	}
	for i, q := range out.Path {
		for j, joint := range req.Joints {
			if q[j] < joint.Lower || q[j] > joint.Upper {
				t.Fatalf("posture %d leaves the limits of joint %d: %g", i, j+1, q[j])
			}
		}
		if i > 0 && !req.Checker.ClearMove(&out.Path[i-1], &q) {
			t.Fatalf("move %d is not clear", i)
		}
	}
	if out.Length > out.First*(1+1e-9) && req.Clearance == nil {
		t.Fatalf("length %g after shortcuts, %g before", out.Length, out.First)
	}
}

func TestStraightMoveWhereItIsClear(t *testing.T) {
	world := balls{n: 2, at: []kinematics.Q{{0, 3}}, radius: []float64{1}}
	far, near := kinematics.Q{2, 0}, kinematics.Q{1, 0.5}
	req := &motion.AirRequest{Start: kinematics.Q{-2, 0}, Goals: []kinematics.Q{far, {0, 3}, near}, Joints: joints(2, 3), Checker: world}
	var out motion.AirAnswer
	if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil {
		t.Fatal(err)
	}
	checkAirPath(t, req, &out)
	if out.Status != motion.AirStraight || out.Goal != 2 || !slices.Equal(out.NotClear, []int{1}) || out.Searched.Samples != 0 {
		t.Errorf("got %+v, want the straight move to goal 2", out)
	}
	if want := math.Hypot(3, 0.5); math.Abs(out.Length-want) > 1e-12 || out.Cost != out.Length {
		t.Errorf("length %g, want %g", out.Length, want)
	}
}

func TestStartThatIsTheGoal(t *testing.T) {
	req := &motion.AirRequest{Start: kinematics.Q{1, 1}, Goals: []kinematics.Q{{1, 1}}, Joints: joints(2, 3), Checker: balls{n: 2}}
	var out motion.AirAnswer
	if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil {
		t.Fatal(err)
	}
	checkAirPath(t, req, &out)
	if out.Status != motion.AirStraight || out.Length != 0 {
		t.Errorf("got %+v, want a move of no length", out)
	}
}

// A joint that stands still is no dimension of the search.
func TestJointThatStandsStill(t *testing.T) {
	req := &motion.AirRequest{Start: kinematics.Q{0, 0, 1}, Goals: []kinematics.Q{{3, 0, 1}}, Joints: joints(3, 4), Checker: ring(true)}
	req.Joints[2].Lower, req.Joints[2].Upper = 1, 1
	var out motion.AirAnswer
	if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil {
		t.Fatal(err)
	}
	checkAirPath(t, req, &out)
	for i := range req.Joints {
		req.Joints[i].Lower, req.Joints[i].Upper = req.Start[i], req.Start[i]
	}
	req.Goals[0] = req.Start
	if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil || out.Status != motion.AirStraight {
		t.Errorf("no joint may move: %+v, %v", out, err)
	}
}

func TestEndsThatAreNotClear(t *testing.T) {
	world := balls{n: 2, at: []kinematics.Q{{1, 1}}, radius: []float64{0.5}}
	bad, good := kinematics.Q{1, 1.2}, kinematics.Q{-1, 0}
	for _, row := range []struct {
		name  string
		start kinematics.Q
		goals []kinematics.Q
		want  motion.AirStatus
		bad   []int
	}{
		{"start", bad, []kinematics.Q{good}, motion.AirStartNotClear, nil},
		{"start and goal", bad, []kinematics.Q{bad}, motion.AirStartNotClear, nil},
		{"goal", good, []kinematics.Q{bad}, motion.AirGoalNotClear, []int{0}},
		{"all goals", good, []kinematics.Q{bad, {0.9, 1}}, motion.AirGoalNotClear, []int{0, 1}},
	} {
		t.Run(row.name, func(t *testing.T) {
			req := &motion.AirRequest{Start: row.start, Goals: row.goals, Joints: joints(2, 3), Checker: world}
			out := motion.AirAnswer{Path: []kinematics.Q{{9}}}
			if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil {
				t.Fatal(err)
			}
			if out.Status != row.want || len(out.Path) != 0 || out.Goal != -1 || !slices.Equal(out.NotClear, row.bad) {
				t.Errorf("got %+v, want status %d", out, row.want)
			}
		})
	}
}

// ring is a wall of balls round the origin with a hole, or without.
func ring(hole bool) (world balls) {
	world.n = 2
	for i := range 60 {
		if angle := float64(i) * math.Pi / 30; !hole || i < 28 || i > 32 {
			world.at = append(world.at, kinematics.Q{2 * math.Cos(angle), 2 * math.Sin(angle)})
			world.radius = append(world.radius, 0.25)
		}
	}
	return world
}

func TestWayRoundThroughTheHole(t *testing.T) {
	for _, step := range []float64{0, 0.3, -1} {
		req := &motion.AirRequest{Goals: []kinematics.Q{{3, 0}}, Joints: joints(2, 4), Checker: ring(true), Step: step}
		var planner motion.AirPlanner
		var out, again motion.AirAnswer
		if err := planner.Solve(context.Background(), req, &out); err != nil {
			t.Fatal(err)
		}
		checkAirPath(t, req, &out)
		// To the hole's near edge, 2 at 166 degrees, along the wall's outside, 2.25, to
		// 41 degrees, where the goal is seen: 1.9 + 4.9 + 2.0 or a little more.
		if out.Status != motion.AirPlanned || out.Length < 8.5 || out.Length > 11 || len(out.Path) > 8 {
			t.Errorf("step %g: status %d, length %g, %d postures", step, out.Status, out.Length, len(out.Path))
		}
		if err := planner.Solve(context.Background(), req, &again); err != nil || !slices.Equal(out.Path, again.Path) || out.Searched != again.Searched {
			t.Errorf("step %g: the same request gave another answer, error %v", step, err)
		}
		req.Seed = 7
		if err := planner.Solve(context.Background(), req, &again); err != nil || again.Status != motion.AirPlanned || slices.Equal(out.Path, again.Path) {
			t.Errorf("step %g: another seed gave the same path or none, error %v", step, err)
		}
	}
}

func TestNoPathSaysHowNearItCame(t *testing.T) {
	var told []motion.AirSearched
	req := &motion.AirRequest{Goals: []kinematics.Q{{3, 0}, {0, 3}}, Joints: joints(2, 4), Checker: ring(false), MaxChecks: 40000,
		Progress: func(s motion.AirSearched) { told = append(told, s) }}
	var out motion.AirAnswer
	if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil {
		t.Fatal(err)
	}
	s := out.Searched
	if out.Status != motion.AirNoPath || len(out.Path) != 0 || out.Goal != -1 {
		t.Fatalf("got %+v, want no path", out)
	}
	if s.StartNodes < 100 || s.GoalNodes < 100 || s.Clear+50*s.ClearMove < 40000 || s.Clear > 41000 || s.Samples == 0 {
		t.Errorf("searched %+v", s)
	}
	inside, outside := math.Hypot(out.Gap.FromStart[0], out.Gap.FromStart[1]), math.Hypot(out.Gap.FromGoal[0], out.Gap.FromGoal[1])
	// The wall is half a radian thick.
	if inside > 1.8 || outside < 2.2 || out.Gap.Distance < 0.45 || out.Gap.Distance > 0.8 {
		t.Errorf("closest approach %+v", out.Gap)
	}
	if d := math.Hypot(out.Gap.FromStart[0]-out.Gap.FromGoal[0], out.Gap.FromStart[1]-out.Gap.FromGoal[1]); math.Abs(d-out.Gap.Distance) > 1e-12 {
		t.Errorf("distance %g, the postures are %g apart", out.Gap.Distance, d)
	}
	if len(told) < 2 || told[len(told)-1].Clear <= told[0].Clear {
		t.Errorf("progress was told %d times", len(told))
	}
	for _, bound := range []motion.AirRequest{{MaxNodes: 50}, {MaxChecks: 500}} {
		bound.Goals, bound.Joints, bound.Checker = req.Goals, req.Joints, req.Checker
		if err := new(motion.AirPlanner).Solve(context.Background(), &bound, &out); err != nil || out.Status != motion.AirNoPath || out.Searched.StartNodes > 60 {
			t.Errorf("bounds %d, %d: %+v, %v", bound.MaxNodes, bound.MaxChecks, out, err)
		}
	}
}

func TestSearchStopsWhenCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	req := &motion.AirRequest{Goals: []kinematics.Q{{3, 0}}, Joints: joints(2, 4), Checker: ring(false)}
	req.Progress = func(s motion.AirSearched) {
		if s.Samples > 0 {
			cancel()
		}
	}
	var out motion.AirAnswer
	err := new(motion.AirPlanner).Solve(ctx, req, &out)
	if !errors.Is(err, context.Canceled) || out.Searched.Samples > 300 || out.Searched.Samples == 0 {
		t.Errorf("got %v after %+v", err, out.Searched)
	}
}

// blind sees an obstacle only between samples: a thin wall that steps leap over.
type blind struct{ hole float64 }

func (b blind) Clear(q *kinematics.Q) bool { return math.Abs(q[0]) > 1e-4 || q[1] > b.hole }

func (b blind) ClearMove(from, to *kinematics.Q) bool {
	if (from[0] > 0) == (to[0] > 0) {
		return b.Clear(from) && b.Clear(to)
	}
	s := from[0] / (from[0] - to[0])
	return b.Clear(from) && b.Clear(to) && from[1]+s*(to[1]-from[1]) > b.hole+1e-3
}

func TestMovesThatStepsOverlookedAreRefuted(t *testing.T) {
	req := &motion.AirRequest{Start: kinematics.Q{-1, -2}, Goals: []kinematics.Q{{1, -2}}, Joints: joints(2, 3), Checker: blind{hole: 2}}
	var out motion.AirAnswer
	if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil {
		t.Fatal(err)
	}
	checkAirPath(t, req, &out)
	if out.Status != motion.AirPlanned || out.Searched.Refuted == 0 {
		t.Errorf("got %+v, want a path over the wall after some that go through it", out)
	}
	if s := out.Searched; s.StartNodes+s.GoalNodes == 0 {
		t.Errorf("searched %+v", s)
	}
}

func TestPathKeepsWideOfObstaclesWhereAsked(t *testing.T) {
	world := balls{n: 2, at: []kinematics.Q{{0, 0}}, radius: []float64{1}}
	req := &motion.AirRequest{Start: kinematics.Q{-2.5, 0}, Goals: []kinematics.Q{{2.5, 0}}, Joints: joints(2, 4), Checker: world}
	least := func(out *motion.AirAnswer) float64 {
		least := math.Inf(1)
		for i := 1; i < len(out.Path); i++ {
			least = min(least, world.gap(0, &out.Path[i-1], &out.Path[i]))
		}
		return least
	}
	var near, wide motion.AirAnswer
	var planner motion.AirPlanner
	if err := planner.Solve(context.Background(), req, &near); err != nil {
		t.Fatal(err)
	}
	req.Clearance, req.WideClearance = world.clearance, 0.6
	if err := planner.Solve(context.Background(), req, &wide); err != nil {
		t.Fatal(err)
	}
	checkAirPath(t, req, &near)
	checkAirPath(t, req, &wide)
	if a, b := least(&near), least(&wide); b < a+0.2 {
		t.Errorf("least clearance %g, %g where wide clearance is wanted", a, b)
	}
	if wide.Cost < wide.Length || wide.Length > 2*near.Length {
		t.Errorf("length %g, cost %g; %g without clearance", wide.Length, wide.Cost, near.Length)
	}
	t.Logf("clearance %g over %g, wide %g over %g", least(&near), near.Length, least(&wide), wide.Length)
}

// What a search allocates does not grow with what it asks: the checker's calls
// allocate nothing, and the planner keeps its memory.
func TestSearchAllocatesNothingPerCheck(t *testing.T) {
	req := &motion.AirRequest{Goals: []kinematics.Q{{3, 0}}, Joints: joints(2, 4), Checker: ring(false), MaxChecks: 20000}
	var planner motion.AirPlanner
	var out motion.AirAnswer
	allocs := testing.AllocsPerRun(5, func() {
		if err := planner.Solve(context.Background(), req, &out); err != nil {
			t.Fatal(err)
		}
	})
	if allocs > 20 || out.Searched.Clear < 19000 {
		t.Errorf("%g allocations in %d checks", allocs, out.Searched.Clear)
	}
}

func TestWorldsOfBalls(t *testing.T) {
	ends := map[motion.AirStatus]int{}
	defer func() {
		for _, s := range []motion.AirStatus{motion.AirStraight, motion.AirPlanned, motion.AirStartNotClear, motion.AirGoalNotClear} {
			if ends[s] == 0 {
				t.Errorf("no search ended with status %d: %v", s, ends)
			}
		}
	}()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "joints")
		angle := rapid.Float64Range(-3, 3)
		q := func() (q kinematics.Q) {
			for j := range n {
				q[j] = angle.Draw(t, "q")
			}
			return q
		}
		world := balls{n: n}
		for range rapid.IntRange(0, 12).Draw(t, "balls") {
			world.at, world.radius = append(world.at, q()), append(world.radius, rapid.Float64Range(0.1, 1.5).Draw(t, "radius"))
		}
		req := &motion.AirRequest{Start: q(), Joints: joints(n, 3), Checker: world, MaxChecks: 20000,
			Seed: rapid.Uint64().Draw(t, "seed"), Shortcuts: rapid.SampledFrom([]int{-1, 0, 10}).Draw(t, "shortcuts")}
		for range rapid.IntRange(1, 3).Draw(t, "goals") {
			req.Goals = append(req.Goals, q())
		}
		if rapid.Bool().Draw(t, "wide") {
			req.Clearance, req.WideClearance = world.clearance, 0.5
		}
		for j := range req.Joints {
			req.Joints[j].Weight = rapid.SampledFrom([]float64{0.2, 1, 3}).Draw(t, "weight")
		}
		var out motion.AirAnswer
		if err := new(motion.AirPlanner).Solve(context.Background(), req, &out); err != nil {
			t.Fatal(err)
		}
		ends[out.Status]++
		clear := 0
		for g := range req.Goals {
			if world.Clear(&req.Goals[g]) {
				clear++
			}
		}
		switch out.Status {
		case motion.AirStraight, motion.AirPlanned:
			checkAirPath(t, req, &out)
		case motion.AirStartNotClear:
			if world.Clear(&req.Start) {
				t.Fatalf("the start is clear")
			}
		case motion.AirGoalNotClear:
			if clear > 0 {
				t.Fatalf("%d goals are clear", clear)
			}
		case motion.AirNoPath:
			if len(out.Path) != 0 || out.Gap.Distance < 0 || !world.Clear(&out.Gap.FromStart) || !world.Clear(&out.Gap.FromGoal) {
				t.Fatalf("no path, and yet %+v", out)
			}
		default:
			t.Fatalf("status %d", out.Status)
		}
		if len(out.NotClear) != len(req.Goals)-clear && out.Status != motion.AirStartNotClear {
			t.Fatalf("not clear are %v, %d of %d goals are", out.NotClear, clear, len(req.Goals))
		}
	})
}

func TestRequestsThatMakeNoSense(t *testing.T) {
	good := func() *motion.AirRequest {
		return &motion.AirRequest{Start: kinematics.Q{1, 1}, Goals: []kinematics.Q{{0, 0}}, Joints: joints(2, 3), Checker: balls{n: 2}}
	}
	for _, row := range []struct {
		name  string
		spoil func(*motion.AirRequest)
		want  string
	}{
		{"no joints", func(r *motion.AirRequest) { r.Joints = nil }, "0 joints: 1 to 9 are allowed"},
		{"no checker", func(r *motion.AirRequest) { r.Checker = nil }, "no checker"},
		{"no goal", func(r *motion.AirRequest) { r.Goals = nil }, "no goal"},
		{"endless joint", func(r *motion.AirRequest) { r.Joints[1].Upper = math.Inf(1) }, "joint 2: limits -3 to +Inf: both must be finite"},
		{"limits reversed", func(r *motion.AirRequest) { r.Joints[0].Upper = -4 }, "joint 1: limits -3 to -4"},
		{"weight", func(r *motion.AirRequest) { r.Joints[0].Weight = 0 }, "joint 1: weight 0"},
		{"start outside", func(r *motion.AirRequest) { r.Start[1] = 3.1 }, "the start has joint 2 at 3.1, outside its limits -3 to 3"},
		{"goal no number", func(r *motion.AirRequest) { r.Goals[0][0] = math.NaN() }, "goal 1 has joint 1 at NaN"},
		{"step", func(r *motion.AirRequest) { r.Step = math.NaN() }, "step NaN"},
		{"reach", func(r *motion.AirRequest) { r.Reach = -1 }, "reach -1"},
		{"checks", func(r *motion.AirRequest) { r.MaxChecks = -1 }, "neither may be negative"},
		{"clearance", func(r *motion.AirRequest) { r.Clearance = balls{}.clearance }, "wide clearance 0 m"},
	} {
		t.Run(row.name, func(t *testing.T) {
			req := good()
			row.spoil(req)
			var out motion.AirAnswer
			err := new(motion.AirPlanner).Solve(context.Background(), req, &out)
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got error %v, want %q", err, row.want)
			}
		})
	}
}
