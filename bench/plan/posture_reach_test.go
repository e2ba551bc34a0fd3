package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/plan"
	"seamwright/robot/kinematics"
	"seamwright/weld/seam"
)

// stopOf returns the stop that names the seam's own place.
func stopOf(t *testing.T, p *plan.Plan, code finding.Code) finding.Finding {
	t.Helper()
	f := only(t, p, code)
	if f.Severity != finding.Stop {
		t.Fatalf("not a stop: %s", list([]finding.Finding{f}))
	}
	return f
}

// An arm without a closed form knows how much is missing beyond its stretched
// length only, and there it is a bound; nearer the plan says that it is not known,
// and gives no number.
func TestReachOfGeneralArmIsToldAsItIsKnown(t *testing.T) {
	turnstone := anyArms[3]
	near := stopOf(t, planOf(t, turnstone.between(t, "1350, -50, 100", "1350, 50, 100", "free")), finding.ArmCannotReach)
	if want := "W1 on the approach: no posture at any spin; how much is missing is not known of an arm without a closed form"; near.Message != want || !math.IsNaN(near.Measured) {
		t.Errorf("got %q with %g, want %q without a number", near.Message, near.Measured, want)
	}
	p := planOf(t, turnstone.between(t, "2000, -50, 100", "2000, 50, 100", "free"))
	far := stopOf(t, p, finding.ArmCannotReach)
	if !strings.Contains(far.Message, "the wrist misses by at least ") || !(far.Measured > 0) {
		t.Errorf("got %q with %g", far.Message, far.Measured)
	}
	// A bound is one only if no posture of many comes nearer to the wrist's place.
	if lack := lackOf(p, near.Where.Along); far.Measured*mm > lack {
		t.Errorf("misses by at least %.1f mm, but a posture comes within %.1f mm", far.Measured, lack/mm)
	}
}

// lackOf is the least distance, m, from the flange of a grid of postures to where
// the torch at a place of the seam would have it at any spin.
func lackOf(p *plan.Plan, along float64) float64 {
	aim := p.Seams[0].Passes[0].Aim
	least := math.Inf(1)
	for spin := 0.0; spin < 2*math.Pi; spin += math.Pi / 18 {
		aim.Spin = spin
		flange := p.Seams[0].Geometry.At(along).Encode(aim).Mul(p.Cell.FlangeFromTip.Inv())
		for _, turn := range []float64{-0.3, -0.1, 0, 0.1, 0.3} {
			for fold := 0.0; fold <= 2; fold += 0.05 {
				q := kinematics.Q{turn, fold, 1.3 - fold, 0, 0.5, 0}
				at := p.Cell.BaseFromTip(&q).Mul(p.Cell.FlangeFromTip.Inv())
				least = min(least, at.P.Dist(flange.P))
			}
		}
	}
	return least
}

// With a slide the least that is missing is that of its best place, which lies
// between the values of the grid: held against every millimetre and degree.
func TestReachOfGantryIsThatOfItsBestPlace(t *testing.T) {
	p := planOf(t, anyArms[1].between(t, "500, 2200, 1900", "500, 3200, 1900", "free"))
	f := stopOf(t, p, finding.ArmCannotReach)
	if want := "no posture at any spin, wherever slide stands; the wrist misses by "; !strings.Contains(f.Message, want) {
		t.Errorf("got %q, want it to say %q", f.Message, want)
	}
	s := &p.Seams[0]
	aim := s.Passes[0].Aim
	least := math.Inf(1)
	for slide := 1.5; slide <= 1.8+1e-9; slide += 1e-3 {
		for spin := 0; spin < 360; spin++ {
			for _, end := range []float64{1, -1} { // the slide runs along -y
				aim := seam.Aim{Work: aim.Work, Travel: aim.Travel, Spin: float64(spin) * degree}
				held := kinematics.Q{end * slide}
				var found kinematics.Solutions
				p.Cell.SolveHeld(&held, s.Geometry.At(f.Where.Along).Encode(aim), nil, &found)
				if found.N > 0 {
					t.Fatalf("a posture at slide %g, spin %d", held[0], spin)
				}
				if found.Status == kinematics.OutOfReach && found.Reach != kinematics.WrongAttitude {
					least = min(least, found.Missing)
				}
			}
		}
	}
	if math.Abs(f.Measured*mm-least) > 0.5*mm {
		t.Errorf("misses by %.2f mm, looked through every millimetre by %.2f", f.Measured, least/mm)
	}
}

// Home taught as a pose is a posture of an arm of seven axes too, and a point
// passed in the air is passed with a slide where it stands if it can be.
func TestTaughtPosesOfRedundantArms(t *testing.T) {
	f := anyArms[0].between(t, "450, -130, 30", "600, -130, 30", "free")
	f.edit(t, "{label: home, joints: [0, 20, 0, 20, 0, 60, 0]}", "{label: home, pose: [450, 0, 150, 180, 0, 0]}")
	p := planOf(t, f)
	if len(withCode(p, finding.HomeUnreachable)) > 0 || !p.Fit() {
		t.Fatalf("seven axes:\n%s", list(p.Findings))
	}
	home := p.Steps[0]
	if d := home.Pose.P.Dist(millimetres([3]float64{450, 0, 150})); d > 1e-9 {
		t.Errorf("home is %.3g m off", d)
	}
	for i := range 7 {
		j := p.Cell.Chain.Joint(i)
		if room := min(home.Q[i]-j.Lower, j.Upper-home.Q[i]); room < 20*degree {
			t.Errorf("home has %s %.1f deg from its limit", j.Name, room/degree)
		}
	}

	for _, row := range []struct {
		y     float64
		still bool
	}{{100, true}, {2400, false}} {
		f = anyArms[1].between(t, "500, -130, 1900", "700, -130, 1900", "free")
		f.edit(t, "    - {label: start", fmt.Sprintf("    - {label: beside, pose: [500, %g, 1900, 180, 0, 0]}\n    - {label: start", row.y))
		f.edit(t, "    approach: {out: 30 mm}", "    approach: {out: 30 mm}\n    through: [beside]")
		p = planOf(t, f)
		if !p.Fit() {
			t.Fatalf("gantry:\n%s", list(p.Findings))
		}
		beside := p.Steps[1]
		if beside.Label != "beside" || beside.Pose.P.Dist(millimetres([3]float64{500, row.y, 1900})) > 1e-9 {
			t.Fatalf("passed %q at %v", beside.Label, beside.Pose.P)
		}
		if still := beside.Q[0] == p.Steps[0].Q[0]; still != row.still {
			t.Errorf("at y %g mm the slide goes from %g to %g m", row.y, p.Steps[0].Q[0], beside.Q[0])
		}
	}
}

// TestSameJobSamePlanOfEveryArm: an arm without a closed form and one with free
// joints are planned alike twice, to the bit.
func TestSameJobSamePlanOfEveryArm(t *testing.T) {
	for _, row := range []struct {
		arm      int
		from, to string
	}{{3, "650, -130, 100", "850, -130, 100"}, {1, "500, -1200, 1900", "500, 1200, 1900"}, {0, "600, -200, 100", "1200, -200, 100"}} {
		a, b := planOf(t, anyArms[row.arm].between(t, row.from, row.to, "free")), planOf(t, anyArms[row.arm].between(t, row.from, row.to, "free"))
		if len(a.Trace) != len(b.Trace) || list(a.Findings) != list(b.Findings) {
			t.Fatalf("two plans of one job with %s differ", anyArms[row.arm].file)
		}
		for i := range a.Trace {
			if a.Trace[i].Q != b.Trace[i].Q || a.Trace[i].T != b.Trace[i].T {
				t.Fatalf("%s: sample %d differs", anyArms[row.arm].file, i)
			}
		}
	}
}
