package plan_test

import (
	"fmt"
	"math"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/plan"
	"seamwright/robot/kinematics"
)

// The cap of the V butt of the scenarios with a weave: it changes neither metal nor
// heat, which count the forward speed. Uphill at 2.21 mm/s and 1.2 Hz a cycle takes
// 1.84 mm (the trade's notes, computed).
func TestWeaveCountsForwardSpeed(t *testing.T) {
	plain := seamOf(t, planOf(t, vButt(t, "{cap: {settings: 17, speed: 3.8 mm/s}}")), "W1")
	woven := seamOf(t, planOf(t, vButt(t, "{cap: {settings: 17, speed: 3.8 mm/s, weave: {shape: triangle, amplitude: 2.5 mm, frequency: 2 Hz}}}")), "W1")
	last := len(plain.Passes) - 1
	a, b := plain.Passes[last], woven.Passes[last]
	if a.Weave != nil || b.Weave == nil || woven.Passes[0].Weave != nil {
		t.Fatal("not the cap alone weaves")
	}
	if a.Size != b.Size {
		t.Errorf("the weave changes the size: %+v, %+v", a.Size, b.Size)
	}
	near(t, "advance, mm", b.Weave.Advance*1e3, 3.8/2, 1e-4)
	near(t, "lateral, mm/s", b.Weave.Lateral*1e3, 4*2.5*2, 1e-9)
	near(t, "path over seam", b.Weave.PathRatio, math.Sqrt(1+math.Pow(4*2.5/(b.Size.Travel*1e3/2), 2)), 1e-9)

	f := worked(t, "s7")
	f.edit(t, "weld: {area: 22 mm2}", "weld: {area: 22 mm2}\n    speed: 2.21 mm/s\n    weave: {shape: sine, amplitude: 2 mm, frequency: 1.2 Hz}")
	near(t, "advance, mm", seamOf(t, planOf(t, f), "W1").Passes[0].Weave.Advance*1e3, 1.84, 0.005)
}

// The joint speed that a weave asks for is that of the arm run along the true path
// of the wire, which is solved for here step by step.
func TestWeaveJointSpeed(t *testing.T) {
	const frequency, amplitude = 3.0, 2e-3
	f := good(t)
	f.edit(t, "weld: {leg: 5 mm}", fmt.Sprintf("weld: {leg: 5 mm}\n    weave: {shape: sine, amplitude: %g mm, frequency: %g Hz}", amplitude*1e3, frequency))
	p := planOf(t, f)
	s := seamOf(t, p, "W1")
	pass := &s.Passes[0]
	w := pass.Weave
	if w.Speed == 0 {
		t.Fatal("no joint was looked at")
	}
	fastest := 0.0
	q := pass.Motion.Stations[pass.Motion.First].Q
	var before kinematics.Q
	const step = 1e-3 // s
	for k := 0; float64(k)*step*pass.Size.Travel < s.Length; k++ {
		now := float64(k) * step
		aim := pass.Aim
		along := now * pass.Size.Travel
		aim.Spin = spinNear(pass, along)
		frame := s.Way.At(along).Frame
		pose := frame.Woven(w.Weave, aim, now).Encode(aim)
		if !p.Cell.SolveNear(pose, &q) {
			t.Fatalf("no posture at %g s", now)
		}
		if k > 0 {
			fastest = max(fastest, math.Abs(q[w.Joint]-before[w.Joint])/step)
		}
		before = q
	}
	// The plan adds the fastest of both, which do not come at one time everywhere.
	if w.Speed < fastest*0.99 || w.Speed > fastest*1.15 {
		t.Errorf("joint %d: planned %.4g rad/s, run along the true path %.4g", w.Joint+1, w.Speed, fastest)
	}
}

// spinNear is the planned spin at a place (m), between its stations.
func spinNear(pass *plan.Pass, along float64) float64 {
	st := pass.Motion.Stations[pass.Motion.First : pass.Motion.Last+1]
	for i := 1; i < len(st); i++ {
		if along <= st[i].Along {
			share := (along - st[i-1].Along) / (st[i].Along - st[i-1].Along)
			return st[i-1].Spin + share*(st[i].Spin-st[i-1].Spin)
		}
	}
	return st[len(st)-1].Spin
}

// A weave that a joint cannot follow is a stop, with the frequency at which it could.
func TestWeaveTooFast(t *testing.T) {
	weave := func(frequency float64) *plan.Plan {
		f := good(t)
		f.edit(t, "weld: {leg: 5 mm}", fmt.Sprintf("weld: {leg: 5 mm}\n    weave: {shape: sine, amplitude: 20 mm, frequency: %g Hz}", frequency))
		return planOf(t, f)
	}
	for _, x := range withCode(weave(0.5), finding.WeaveSpeed) {
		if x.Severity == finding.Stop {
			t.Errorf("a slow weave is stopped: %s", x.Message)
		}
	}
	stops := 0
	for _, x := range withCode(weave(20), finding.WeaveSpeed) {
		if x.Severity == finding.Stop {
			stops++
			if !(x.Measured > x.Limit) {
				t.Errorf("%s: %g of %g", x.Message, x.Measured, x.Limit)
			}
		}
	}
	if stops != 1 {
		t.Errorf("%d stops for a weave at 20 Hz", stops)
	}
}
