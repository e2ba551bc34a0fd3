package motion_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// turningJoint is a joint with limits (rad), weight 1, top speed 1 rad/s and a
// largest step (rad).
func turningJoint(lower, upper, maxStep float64) motion.LadderJoint {
	return motion.LadderJoint{Lower: lower, Upper: upper, Turning: true, Weight: 1, Velocity: 1, MaxStep: maxStep}
}

// ladderOf builds a ladder with one joint from rungs of joint values, rad.
func ladderOf(rungs ...[]float64) *motion.Ladder {
	var l motion.Ladder
	for _, rung := range rungs {
		l.AddRung()
		for _, q := range rung {
			l.AddNode(motion.Node{Q: kinematics.Q{q}})
		}
	}
	return &l
}

func solve(t *testing.T, req *motion.LadderRequest) motion.LadderAnswer {
	t.Helper()
	var search motion.LadderSearch
	var answer motion.LadderAnswer
	if err := search.Solve(context.Background(), req, &answer); err != nil {
		t.Fatal(err)
	}
	return answer
}

// exhaustive finds the cheapest path over rungs from..to by trying every node
// of every rung and every start turn, one joint value at a time, with the rules
// written down anew: wide joints go the short way round.
type exhaustive struct {
	req  *motion.LadderRequest
	best float64
}

func (e *exhaustive) over(from, to int) float64 {
	e.best = math.Inf(1)
	for i := range e.req.Ladder.Rung(from) {
		e.starts(from, to, e.req.Ladder.Rung(from)[i], 0)
	}
	return e.best
}

// starts tries every whole turn of joint j and the joints after it.
func (e *exhaustive) starts(from, to int, n motion.Node, j int) {
	if j == len(e.req.Joints) {
		e.climb(from, to, n, n.Cost)
		return
	}
	joint := e.req.Joints[j]
	if !joint.Turning {
		if n.Q[j] >= joint.Lower && n.Q[j] <= joint.Upper {
			e.starts(from, to, n, j+1)
		}
		return
	}
	for k := -4; k <= 4; k++ {
		shifted := n
		shifted.Q[j] += 2 * math.Pi * float64(k)
		if shifted.Q[j] >= joint.Lower && shifted.Q[j] <= joint.Upper {
			e.starts(from, to, shifted, j+1)
		}
	}
}

// climb goes on from node a, with its joint values unwrapped, on rung r.
func (e *exhaustive) climb(r, to int, a motion.Node, cost float64) {
	if r == to {
		e.best = min(e.best, cost)
		return
	}
	for _, b := range e.req.Ladder.Rung(r + 1) {
		if step, ok := e.step(a, &b); ok {
			e.climb(r+1, to, b, cost+step+b.Cost)
		}
	}
}

func (e *exhaustive) step(a motion.Node, b *motion.Node) (cost float64, ok bool) {
	for j, joint := range e.req.Joints {
		if joint.Turning {
			wide := joint.Upper-joint.Lower >= 2*math.Pi
			around := a.Q[j] // a wide joint takes the value nearest to where it stands
			if !wide {
				around = (joint.Lower + joint.Upper) / 2 // the only one that can fit
			}
			for b.Q[j] > around+math.Pi {
				b.Q[j] -= 2 * math.Pi
			}
			for b.Q[j] < around-math.Pi {
				b.Q[j] += 2 * math.Pi
			}
		}
		d := math.Abs(b.Q[j] - a.Q[j])
		if b.Q[j] < joint.Lower || b.Q[j] > joint.Upper || (joint.MaxStep > 0 && d > joint.MaxStep) {
			return 0, false
		}
		if e.req.Metric == motion.Time {
			cost = max(cost, d/joint.Velocity)
		} else {
			cost += joint.Weight * d
		}
	}
	spin := math.Abs(b.Spin - a.Spin)
	for spin > math.Pi {
		spin = math.Abs(spin - 2*math.Pi)
	}
	return cost + e.req.SpinWeight*spin, true
}

// anyRequest draws a small ladder with narrow, wide, endless and sliding joints.
func anyRequest(t *rapid.T) *motion.LadderRequest {
	req := &motion.LadderRequest{
		Ladder:     &motion.Ladder{},
		Metric:     rapid.SampledFrom([]motion.Metric{motion.Travel, motion.Time}).Draw(t, "metric"),
		SpinWeight: rapid.SampledFrom([]float64{0, 0.3}).Draw(t, "spin weight"),
	}
	ranges := [][2]float64{{-1.2, 1.9}, {-2.9, 2.9}, {-3.6, 0.6}, {-4.7, 4.7}, {-3.5, 3}, {-6.2, 6.3}, {math.Inf(-1), math.Inf(1)}}
	joints := rapid.IntRange(1, 4).Draw(t, "joints")
	if rapid.Bool().Draw(t, "six") {
		joints = 6
	}
	for range joints {
		limits := rapid.SampledFrom(ranges).Draw(t, "limits")
		j := turningJoint(limits[0], limits[1], rapid.SampledFrom([]float64{0, 1, 2.5, 3.5}).Draw(t, "step"))
		j.Turning = rapid.IntRange(0, 5).Draw(t, "turning") > 0
		j.Weight = rapid.SampledFrom([]float64{0, 1, 1.7}).Draw(t, "weight")
		j.Velocity = rapid.Float64Range(0.5, 4).Draw(t, "velocity")
		req.Joints = append(req.Joints, j)
	}
	for range rapid.IntRange(1, 6).Draw(t, "rungs") {
		req.Ladder.AddRung()
		for range rapid.SampledFrom([]int{0, 1, 1, 2, 2, 3}).Draw(t, "nodes") {
			n := motion.Node{Spin: rapid.Float64Range(-3, 3).Draw(t, "spin")}
			n.Cost = rapid.SampledFrom([]float64{0, 0, 0.4, 1.1, math.Inf(1)}).Draw(t, "cost")
			for j := range joints {
				n.Q[j] = rapid.Float64Range(-3.1, 3.1).Draw(t, "q")
			}
			req.Ladder.AddNode(n)
		}
	}
	return req
}

func TestLadderEqualsExhaustiveSearch(t *testing.T) {
	var search motion.LadderSearch
	var answer motion.LadderAnswer
	rapid.Check(t, func(t *rapid.T) {
		req := anyRequest(t)
		if err := search.Solve(context.Background(), req, &answer); err != nil {
			t.Fatal(err)
		}
		e := exhaustive{req: req}
		last := req.Ladder.Rungs() - 1
		want := e.over(0, last)
		if found := answer.Status == motion.LadderFound; found != !math.IsInf(want, 1) {
			t.Fatalf("status %d, exhaustive optimum %g", answer.Status, want)
		}
		if answer.Status == motion.LadderFound && math.Abs(answer.Cost-want) > 1e-9 {
			t.Fatalf("cost %.12g, exhaustive %.12g", answer.Cost, want)
		}
		checkWindows(t, &e, &answer, last)
	})
}

// TestLadderWindings does the same where joints wind: they drift over a turn or
// two in small steps, so that the cheapest shadow often does not fit the limits.
func TestLadderWindings(t *testing.T) {
	var search motion.LadderSearch
	var answer motion.LadderAnswer
	dearer := 0
	rapid.Check(t, func(t *rapid.T) {
		req := &motion.LadderRequest{Ladder: &motion.Ladder{}, Metric: rapid.SampledFrom([]motion.Metric{motion.Travel, motion.Time}).Draw(t, "metric")}
		joints := rapid.IntRange(1, 2).Draw(t, "joints")
		for range joints {
			span := rapid.Float64Range(6.3, 13).Draw(t, "span")
			lower := rapid.Float64Range(-9, 0).Draw(t, "lower")
			req.Joints = append(req.Joints, turningJoint(lower, lower+span, 0))
		}
		drift := rapid.Float64Range(0.5, 2.5).Draw(t, "drift")
		for r := range rapid.IntRange(3, 7).Draw(t, "rungs") {
			req.Ladder.AddRung()
			for k := range 2 {
				n := motion.Node{Cost: float64(k) * rapid.Float64Range(0, 2).Draw(t, "cost")}
				for j := range joints {
					direction := float64(1 - 2*k) // one way and the other
					n.Q[j] = direction*drift*float64(r) + rapid.Float64Range(-0.6, 0.6).Draw(t, "q")
				}
				req.Ladder.AddNode(n)
			}
		}
		if err := search.Solve(context.Background(), req, &answer); err != nil {
			t.Fatal(err)
		}
		e := exhaustive{req: req}
		last := req.Ladder.Rungs() - 1
		want := e.over(0, last)
		if found := answer.Status == motion.LadderFound; found != !math.IsInf(want, 1) || (found && math.Abs(answer.Cost-want) > 1e-9) {
			t.Fatalf("status %d, cost %.12g, exhaustive %.12g", answer.Status, answer.Cost, want)
		}
		checkWindows(t, &e, &answer, last)
		for j := range req.Joints { // the shadow alone: the same joints without an end
			req.Joints[j].Lower, req.Joints[j].Upper = math.Inf(-1), math.Inf(1)
		}
		cost, status := answer.Cost, answer.Status
		if err := search.Solve(context.Background(), req, &answer); err != nil {
			t.Fatal(err)
		}
		if status == motion.LadderFound && answer.Cost < cost-1e-9 {
			dearer++
		}
	})
	if dearer == 0 {
		t.Error("no path was dearer than its shadow: the cases do not test whole turns")
	}
}

// TestLadderOffersTurns: a short path of a joint with two turns either way fits
// at four start turns; the answer stands in the middle and offers the others.
func TestLadderOffersTurns(t *testing.T) {
	req := &motion.LadderRequest{Ladder: ladderOf([]float64{3}, []float64{-3}), Joints: []motion.LadderJoint{turningJoint(-720*deg, 720*deg, 1)}}
	a := solve(t, req)
	step := 2*math.Pi - 6
	// through 3 rad to 3 + step: at -1, 0 and the turns beside them; 0 and -1 are
	// equally far from the limits and the lower counts
	near(t, "start", a.Q[0][0], 3-2*math.Pi, 1e-12)
	near(t, "end", a.Q[1][0], 3-2*math.Pi+step, 1e-12)
	if want := (motion.TurnRange{Lo: -1, Hi: 2}); a.Turns[0] != want {
		t.Errorf("got turns %+v, want %+v", a.Turns[0], want)
	}
	near(t, "cost", a.Cost, step, 1e-12)
}

// checkWindows compares the stretches of the answer with exhaustive ones.
func checkWindows(t *rapid.T, e *exhaustive, a *motion.LadderAnswer, last int) {
	can := func(from, to int) bool { return !math.IsInf(e.over(from, to), 1) }
	furthest, fromEnd, longest := -1, last+1, -1
	for r := 0; r <= last; r++ {
		if can(0, r) {
			furthest = r
		}
		if can(last-r, last) {
			fromEnd = last - r
		}
		for f := 0; f <= r; f++ {
			if can(f, r) {
				longest = max(longest, r-f)
			}
		}
	}
	if a.Furthest != furthest || a.FromEnd != fromEnd || a.Longest.To-a.Longest.From != longest {
		t.Fatalf("furthest %d, from end %d, longest %v: exhaustive %d, %d, length %d", a.Furthest, a.FromEnd, a.Longest, furthest, fromEnd, longest)
	}
	at, fewest := 0, 0 // cover by the longest stretch from each shared rung
	for coverable := true; coverable; {
		to := at
		for to < last && can(at, to+1) {
			to++
		}
		coverable = can(at, at) && (to > at || last == 0)
		if fewest++; to == last {
			if !coverable {
				fewest = 0
			}
			break
		} else if !coverable {
			fewest = 0
		}
		at = to
	}
	if len(a.Windows) != fewest {
		t.Fatalf("windows %v, exhaustive %d", a.Windows, fewest)
	}
	for i, w := range a.Windows {
		if !can(w.From, w.To) || (i > 0 && w.From > a.Windows[i-1].To) {
			t.Fatalf("windows %v: number %d cannot be done or does not share a rung", a.Windows, i)
		}
	}
}

// TestLadderTurns: one joint with limits of 270 degrees that winds by 359
// degrees, as in a box welded all round; only one start turn fits.
func TestLadderTurns(t *testing.T) {
	var rungs [][]float64
	for a := 96.0; a >= -263; a-- {
		rungs = append(rungs, []float64{math.Remainder(a, 360) * deg})
	}
	req := &motion.LadderRequest{Ladder: ladderOf(rungs...), Joints: []motion.LadderJoint{turningJoint(-270*deg, 270*deg, 0.1)}}
	a := solve(t, req)
	if a.Status != motion.LadderFound {
		t.Fatalf("got %+v, want a path", a)
	}
	start, end := a.Q[0][0]/deg, a.Q[len(a.Q)-1][0]/deg
	if math.Abs(start-96) > 1e-9 || math.Abs(end+263) > 1e-9 || a.Turns[0] != (motion.TurnRange{}) {
		t.Errorf("got start %g, end %g, turns %v; want 96, -263 and no other turn", start, end, a.Turns[0])
	}
}

func TestLadderBlocks(t *testing.T) {
	inf := math.Inf(1)
	wide, narrow := turningJoint(-4.7, 4.7, 0.5), turningJoint(-2, 2, 0.5)
	forbidden := ladderOf([]float64{0}, nil)
	forbidden.AddNode(motion.Node{Cost: inf})
	var winding [][]float64 // 0 to 10 rad: more than the range of 9.4, and only one start fits
	for u := 0.0; u < 10.1; u += 0.4 {
		winding = append(winding, []float64{math.Remainder(u, 2*math.Pi)})
	}
	for _, c := range []struct {
		name             string
		ladder           *motion.Ladder
		joint            motion.LadderJoint
		furthest, starts int
		want             motion.Block
	}{
		{"empty rung", ladderOf([]float64{0}, nil, []float64{0}), narrow, 0, 0, motion.Block{Kind: motion.BlockNoNode, Rung: 1, Joint: -1}},
		{"all rungs empty", ladderOf(nil, nil), narrow, -1, 0, motion.Block{Kind: motion.BlockNoNode, Rung: 0, Joint: -1}},
		{"forbidden", forbidden, narrow, 0, 0, motion.Block{Kind: motion.BlockForbidden, Rung: 1, Joint: -1}},
		{"limit", ladderOf([]float64{1.8}, []float64{2.1}), narrow, 0, 0, motion.Block{Kind: motion.BlockLimit, Rung: 1, Joint: 0, Value: 2.1, Limit: 2}},
		{"limit at once", ladderOf([]float64{2.1}), narrow, -1, 0, motion.Block{Kind: motion.BlockLimit, Rung: 0, Joint: 0, Value: 2.1, Limit: 2}},
		{"step", ladderOf([]float64{0}, []float64{0.75, 1}), narrow, 0, 0, motion.Block{Kind: motion.BlockStep, Rung: 1, Joint: 0, Value: 0.75, Limit: 0.5}},
		{"winding", ladderOf(winding...), wide, 11, 2, motion.Block{Kind: motion.BlockLimit, Rung: 12, Joint: 0, Value: 4.8, Limit: 4.7}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := solve(t, &motion.LadderRequest{Ladder: c.ladder, Joints: []motion.LadderJoint{c.joint}})
			if a.Status != motion.LadderBlocked || a.Furthest != c.furthest || len(a.Windows) != c.starts {
				t.Fatalf("got status %d, furthest %d, windows %v; want blocked, %d, %d", a.Status, a.Furthest, a.Windows, c.furthest, c.starts)
			}
			b := a.Block
			if math.Abs(b.Value-c.want.Value) > 1e-12 {
				t.Errorf("got value %g, want %g", b.Value, c.want.Value)
			}
			b.Value = c.want.Value
			if b != c.want {
				t.Errorf("got %+v, want %+v", b, c.want)
			}
		})
	}
}

func TestLadderCancel(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	req := &motion.LadderRequest{Ladder: ladderOf([]float64{0}, []float64{0}, []float64{0}), Joints: []motion.LadderJoint{turningJoint(-1, 1, 0)}}
	req.Progress = func(done, rungs int) {
		if rungs != 3 {
			t.Errorf("got %d rungs, want 3", rungs)
		}
		if done == 2 {
			cancel()
		}
	}
	var search motion.LadderSearch
	var answer motion.LadderAnswer
	if err := search.Solve(ctx, req, &answer); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want the context's error", err)
	}
}

func TestLadderRefuses(t *testing.T) {
	nan := math.NaN()
	ok := turningJoint(-1, 1, 0)
	bad := func(change func(*motion.LadderJoint)) []motion.LadderJoint {
		j := ok
		change(&j)
		return []motion.LadderJoint{j}
	}
	one := ladderOf([]float64{0})
	for name, req := range map[string]motion.LadderRequest{
		"no ladder":    {Joints: []motion.LadderJoint{ok}},
		"no rungs":     {Ladder: &motion.Ladder{}, Joints: []motion.LadderJoint{ok}},
		"no joints":    {Ladder: one},
		"metric":       {Ladder: one, Joints: []motion.LadderJoint{ok}, Metric: 7},
		"spin weight":  {Ladder: one, Joints: []motion.LadderJoint{ok}, SpinWeight: -1},
		"limits":       {Ladder: one, Joints: bad(func(j *motion.LadderJoint) { j.Lower = 2 })},
		"half endless": {Ladder: one, Joints: bad(func(j *motion.LadderJoint) { j.Upper = math.Inf(1) })},
		"turns":        {Ladder: one, Joints: bad(func(j *motion.LadderJoint) { j.Upper = 1000 })},
		"step":         {Ladder: one, Joints: bad(func(j *motion.LadderJoint) { j.MaxStep = -1 })},
		"weight":       {Ladder: one, Joints: bad(func(j *motion.LadderJoint) { j.Weight = nan })},
		"velocity":     {Ladder: one, Metric: motion.Time, Joints: bad(func(j *motion.LadderJoint) { j.Velocity = 0 })},
		"joint value":  {Ladder: ladderOf([]float64{nan}), Joints: []motion.LadderJoint{ok}},
	} {
		t.Run(name, func(t *testing.T) {
			var search motion.LadderSearch
			var answer motion.LadderAnswer
			if err := search.Solve(context.Background(), &req, &answer); err == nil {
				t.Errorf("no error, answer %+v", answer)
			}
		})
	}
}

// TestLadderAllocatesNothing: once warm, a search of the same size uses the
// memory that it has.
func TestLadderAllocatesNothing(t *testing.T) {
	var rungs [][]float64
	for r := range 50 {
		var rung []float64
		for k := range 40 {
			rung = append(rung, math.Remainder(float64(r)*0.1+float64(k)*0.15, 2*math.Pi))
		}
		rungs = append(rungs, rung)
	}
	found := motion.LadderRequest{Ladder: ladderOf(rungs...), Joints: []motion.LadderJoint{turningJoint(-4.7, 4.7, 0.5)}}
	blocked := found
	blocked.Joints = []motion.LadderJoint{turningJoint(-4.7, 4.7, 0.01)}
	var search motion.LadderSearch
	var answer motion.LadderAnswer
	ctx := context.Background()
	if n := testing.AllocsPerRun(5, func() {
		if search.Solve(ctx, &found, &answer) != nil || answer.Status != motion.LadderFound {
			t.Fatal("not found")
		}
		if search.Solve(ctx, &blocked, &answer) != nil || answer.Status != motion.LadderBlocked {
			t.Fatal("not blocked")
		}
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}
