package plan_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// straight is a random straight seam in front of the arm.
type straight struct {
	from, to     r3.Vec  // m
	base         r3.Vec  // normal of the base plate
	left         bool    // the upright stands left of the travel
	included     float64 // deg
	work, travel float64 // deg
	spin         string
	speed        float64 // mm/s, 0: by the size
	out          float64 // mm
}

func drawStraight(t *rapid.T) straight {
	n := func(what string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, what) }
	azimuth, climb, length := n("azimuth", -180, 180)*degree, n("climb", -25, 25)*degree, n("length", 30, 350)*mm
	along := r3.Vec{X: math.Cos(azimuth) * math.Cos(climb), Y: math.Sin(azimuth) * math.Cos(climb), Z: math.Sin(climb)}
	from := r3.Vec{X: n("x", 0.4, 0.6), Y: n("y", -0.3, 0.3), Z: n("z", -0.05, 0.25)}.AddScaled(-length/2, along)
	upright := r3.Vec{Z: 1}.Reject(along).Unit()
	lean := n("lean", -30, 30) * degree
	s := straight{from: from, to: from.AddScaled(length, along)}
	s.base = upright.Scale(math.Cos(lean)).AddScaled(math.Sin(lean), along.Cross(upright))
	s.left = rapid.Bool().Draw(t, "left")
	s.included = n("included", 60, 120)
	s.work = n("share of the open joint", 0.1, 0.9)
	s.work = max(0, 90-s.included) + s.work*(90-max(0, 90-s.included))
	s.travel = n("travel", -15, 15)
	s.spin = rapid.SampledFrom([]string{"free", "as taught", fmt.Sprintf("%.1f deg", n("spin", -60, 60))}).Draw(t, "wish")
	if rapid.Bool().Draw(t, "typed") {
		s.speed = n("speed", 4, 15)
	}
	s.out = n("out", 10, 60)
	return s
}

// files writes the seam into the good job.
func (s straight) files(t testing.TB) files {
	f := good(t)
	place := func(label string, p r3.Vec) string {
		return fmt.Sprintf("%s,%.9f,%.9f,%.9f,,,,,,,,,,,,,,,\n", label, p.X/mm, p.Y/mm, p.Z/mm)
	}
	f["taught.csv"] = f["taught.csv"][:strings.Index(f["taught.csv"], "W1 in")] + place("W1 start", s.from) + place("W1 end", s.to)
	side, aim, speed := "right", "push", ""
	if s.left {
		side = "left"
	}
	if s.travel < 0 {
		aim = "drag"
	}
	if s.speed > 0 {
		speed = fmt.Sprintf("    speed: %.6f mm/s\n", s.speed)
	}
	for _, e := range [][2]string{
		{"list: true", "list: false"}, noProcedure,
		{"base: level", fmt.Sprintf("base: {direction: [%.12f, %.12f, %.12f]}", s.base.X, s.base.Y, s.base.Z)},
		{"upright: right", fmt.Sprintf("upright: {%s: %.9f deg}", side, s.included)},
		{"{work: 45 deg, travel: push 10 deg, spin: as taught}", fmt.Sprintf("{work: %.9f deg, travel: %s %.9f deg, spin: %s}", s.work, aim, math.Abs(s.travel), s.spin)},
		{"    approach: W1 in\n    retreat: W1 out\n", fmt.Sprintf("    approach: {out: %.6f mm}\n    retreat: {out: %.6f mm}\n%s", s.out, s.out, speed)},
	} {
		f.edit(t, e[0], e[1])
	}
	return f
}

// TestStraightSeams: whatever straight seam stands before the arm, a plan that
// is fit does what was asked at every instant, and one that is not says where
// and what to do.
func TestStraightSeams(t *testing.T) {
	fit, stopped := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		s := drawStraight(r)
		j, err := job.Decode("job.yaml", s.files(t))
		if err != nil {
			r.Fatal(err)
		}
		p, err := plan.Make(context.Background(), j, nil)
		if err != nil {
			r.Fatal(err)
		}
		if !p.Fit() {
			stopped++
			saysWhere(r, p)
			return
		}
		fit++
		s.holdRoom(r, p)
		s.holdTrace(r, p)
		s.holdSteps(r, p)
	})
	t.Logf("%d fit, %d stopped", fit, stopped)
	if fit < 5 || stopped < 2 {
		t.Errorf("%d fit and %d stopped: the draw proves too little", fit, stopped)
	}
}

// holdRoom holds angles that gave way for the nozzle to the tolerance of 5 deg and to
// what they were for, and takes them over.
func (s *straight) holdRoom(r *rapid.T, p *plan.Plan) {
	pass := &p.Seams[0].Passes[0]
	work, travel := p.Seams[0].Way.At(0).Frame.WorkOf(pass.Aim)/degree, pass.Aim.Travel/degree
	const tolerance = 5 + 1e-9
	switch room := pass.Room; {
	case room.GaveWay && (math.Abs(work-s.work) > tolerance || math.Abs(travel-s.travel) > tolerance || travel*s.travel < 0):
		r.Fatalf("work %.6f travel %.6f, too far from %.6f %.6f", work, travel, s.work, s.travel)
	case room.GaveWay && (room.Clearance < room.Wanted-1e-6 || len(withCode(p, finding.AnglesGaveWay)) != 1):
		r.Fatalf("gave way for %.6f m of %.6f m:\n%s", room.Clearance, room.Wanted, list(p.Findings))
	case !room.GaveWay && room.Clearance < room.Wanted-1e-6 && len(withCode(p, finding.ClearanceBelow)) != 1:
		r.Fatalf("%.6f m of %.6f m, and nothing said", room.Clearance, room.Wanted)
	case room.GaveWay:
		s.work, s.travel = work, travel
	}
}

// saysWhere holds every stop to name its place and a remedy.
func saysWhere(r *rapid.T, p *plan.Plan) {
	for _, f := range p.Findings {
		if f.Severity == finding.Stop && (f.Where.Seam != "W1" || !strings.Contains(f.Message, "W1") || f.Remedy == "") {
			r.Fatalf("a stop without place or remedy: %s", list([]finding.Finding{f}))
		}
	}
}

// torchOf reads work and travel, deg, from the wire's direction by the formulas
// of AWS A3.0, apart from the frames of the plan.
func (s straight) torchOf(wire r3.Vec) (work, travel float64) {
	along := s.to.Sub(s.from).Unit()
	open := s.base.Cross(along) // to the left of the travel, base face to the eye
	if s.left {
		open = open.Neg() // the upright stands there, the joint opens to the right
	}
	body := wire.Neg()
	across := body.AddScaled(-body.Dot(along), along)
	return math.Atan2(across.Dot(open), across.Dot(s.base)) / degree, math.Asin(wire.Dot(along)) / degree
}

// holdTrace holds every sample of the run.
func (s straight) holdTrace(r *rapid.T, p *plan.Plan) {
	along, length := s.to.Sub(s.from).Unit(), s.to.Dist(s.from)
	planned := size(p).Travel
	fastest := 0.0
	for i, sample := range p.Trace {
		if i > 0 {
			holdStep(r, p, &p.Trace[i-1], &p.Trace[i])
		}
		if sample.Arc == math.IsNaN(sample.Along) {
			r.Fatalf("sample %d: arc %v at %v along", i, sample.Arc, sample.Along)
		}
		if !sample.Arc {
			continue
		}
		if sample.Along < -1e-9 || sample.Along > length+1e-9 {
			r.Fatalf("sample %d: arc %.6f m along a seam of %.6f m", i, sample.Along, length)
		}
		if d := sample.Pose.P.Dist(s.from.AddScaled(sample.Along, along)); d > 1e-6 {
			r.Fatalf("sample %d: tip %.3g m off the seam", i, d)
		}
		work, travel := s.torchOf(sample.Pose.R.Z())
		if math.Abs(work-s.work)*degree > 1e-6 || math.Abs(travel-s.travel)*degree > 1e-6 {
			r.Fatalf("sample %d: work %.6f travel %.6f, want %.6f %.6f", i, work, travel, s.work, s.travel)
		}
		fastest = max(fastest, sample.Speed)
	}
	if first, last := p.Trace[0], p.Trace[len(p.Trace)-1]; apart(first.Q, last.Q) > 1e-12 || first.Q != p.Steps[0].Q || first.T != 0 || math.Abs(last.T-p.Times.Total) > 1e-9 {
		r.Fatalf("the run leads from %v at %g s to %v at %g s of %g s", first.Q, first.T, last.Q, last.T, p.Times.Total)
	}
	if math.Abs(fastest-planned) > 1e-9 {
		r.Fatalf("welded at %.6f mm/s at most, planned %.6f", fastest/mm, planned/mm)
	}
	// At the planned speed but for the ramps, which lie within 0.6 mm
	// of the ends and take twice the time there at most.
	if want := length / planned; p.Times.Weld < want-1e-9 || p.Times.Weld > want+2*0.6*mm/planned {
		r.Fatalf("%.4f s of weld for %.4f m at %.4f mm/s", p.Times.Weld, length, planned/mm)
	}
}

// apart is the largest difference of a joint, rad.
func apart(a, b kinematics.Q) float64 {
	var most float64
	for i := range a {
		most = max(most, math.Abs(a[i]-b[i]))
	}
	return most
}

// holdStep holds two samples that follow each other: time runs, joints stay
// within their limits and speeds, the tip moves as fast as is said.
func holdStep(r *rapid.T, p *plan.Plan, a, b *plan.Sample) {
	dt := b.T - a.T
	if !(dt > 0) {
		r.Fatalf("time goes from %g to %g", a.T, b.T)
	}
	for i := range p.Cell.Chain.N() {
		joint := p.Cell.Chain.Joint(i)
		if b.Q[i] < joint.Lower || b.Q[i] > joint.Upper {
			r.Fatalf("%g s: %s at %.3f deg", b.T, joint.Name, b.Q[i]/degree)
		}
		if step := math.Abs(b.Q[i] - a.Q[i]); step > joint.Velocity*dt*(1+1e-6)+1e-9 {
			r.Fatalf("%g to %g s: %s steps %.4f deg, %.4f can be done", a.T, b.T, joint.Name, step/degree, joint.Velocity*dt/degree)
		}
	}
	if a.Arc && b.Arc {
		// The speed changes by 1 m/s2 at most, so that the mean of the two ends
		// is off by a dt/4 at most.
		moved, said := a.Pose.P.Dist(b.Pose.P), (a.Speed+b.Speed)/2*dt
		if math.Abs(moved-said) > dt*dt/4+1e-9 {
			r.Fatalf("%g to %g s: the tip moves %.6f mm, its speed says %.6f", a.T, b.T, moved/mm, said/mm)
		}
	}
	pose := p.Cell.BaseFromTip(&b.Q)
	if pose.P.Dist(b.Pose.P) > 1e-12 {
		r.Fatalf("%g s: the pose is not that of the joints", b.T)
	}
}

// holdSteps holds the commanded moves: home to home, arc on at the weld start
// and off at the weld end, nothing but weld moves between.
func (s straight) holdSteps(r *rapid.T, p *plan.Plan) {
	first, last := p.Steps[0], p.Steps[len(p.Steps)-1]
	if first.Label != "home" || last.Label != "home" || apart(first.Q, last.Q) > 1e-12 {
		r.Fatalf("steps from %q to %q", first.Label, last.Label)
	}
	lit := false
	var arcs []string
	for _, step := range p.Steps {
		if lit && (step.Move != plan.MoveLinear || math.Abs(step.Speed-size(p).Travel) > 1e-12) {
			r.Fatalf("%s: %s move at %.6f mm/s with the arc on", step.Label, step.Move, step.Speed/mm)
		}
		switch step.Arc {
		case "on":
			lit = true
			holdTip(r, step, s.from)
		case "off":
			lit = false
			holdTip(r, step, s.to)
		}
		if step.Arc != "" {
			arcs = append(arcs, step.Arc)
		}
	}
	if strings.Join(arcs, " ") != "on off" {
		r.Fatalf("arc %v", arcs)
	}
}

func holdTip(r *rapid.T, step plan.Step, want r3.Vec) {
	if d := step.Pose.P.Dist(want); d > 1e-6 {
		r.Fatalf("%s: tip %.3g m off", step.Label, d)
	}
}

// TestSameJobSamePlan: the same job gives the same plan, to the bit.
func TestSameJobSamePlan(t *testing.T) {
	a, b := planOf(t, worked(t, "s3")), planOf(t, worked(t, "s3"))
	if len(a.Trace) != len(b.Trace) || list(a.Findings) != list(b.Findings) {
		t.Fatal("two plans of one job differ in length")
	}
	for i := range a.Trace {
		if a.Trace[i].Q != b.Trace[i].Q || a.Trace[i].T != b.Trace[i].T {
			t.Fatalf("sample %d differs", i)
		}
	}
}
