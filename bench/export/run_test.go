package export_test

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// The run as a person at the machine relies on it, read back from the files.

func TestRunBeginsAndEndsAtTheSameHome(t *testing.T) {
	forEachPlan(t, func(t *testing.T, c planned, f folderText) {
		first, last := f.steps[0], f.steps[len(f.steps)-1]
		if first.text("label") != c.job.Home || last.text("label") != c.job.Home {
			t.Errorf("the run goes from %q to %q, home is %q", first.text("label"), last.text("label"), c.job.Home)
		}
		ends := []row{last, f.trace[0], f.trace[len(f.trace)-1]}
		for i := range f.plan.Joints {
			for _, end := range ends {
				if math.Abs(end.joint(i)-first.joint(i)) > rounding {
					t.Errorf("j%d is at %v in the first row and at %v in another end", i+1, first.joint(i), end.joint(i))
				}
			}
		}
	})
}

// The arc burns on seams only, once a pass, and is out at both ends.
func TestArcBurnsOnSeamsOnly(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		var burning float64
		for k, r := range f.trace {
			on := r.text("arc") == "1"
			if on != (r.text("s_mm") != "") {
				t.Errorf("trace.csv line %d: arc %s with s_mm %q", r.line, r.text("arc"), r.text("s_mm"))
			}
			if on {
				s := f.seam(t, r.text("seam"))
				if along := r.number("s_mm"); along < 0 || along > s.Length+1e-4 {
					t.Errorf("trace.csv line %d: arc on at %v mm of %v", r.line, along, s.Length)
				}
				if k > 0 && f.trace[k-1].text("arc") == "1" {
					burning += r.number("t_s") - f.trace[k-1].number("t_s")
				}
			}
		}
		if math.Abs(burning-f.plan.Times.Arc) > 1e-3 {
			t.Errorf("the arc burns %.4f s in trace.csv, plan.json says %.4f", burning, f.plan.Times.Arc)
		}
		if f.trace[0].text("arc") != "0" || f.trace[len(f.trace)-1].text("arc") != "0" {
			t.Error("the arc burns at an end of the run")
		}
	})
}

func TestStepsLightAndPutOutTheArcInTurn(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		on, lit := false, 0
		for _, r := range f.steps {
			switch r.text("arc") {
			case "on":
				if on || r.text("settings") == "" || r.text("seam") == "" {
					t.Errorf("step %s lights the arc: burning %v, settings %q, seam %q", r.text("step"), on, r.text("settings"), r.text("seam"))
				}
				on, lit = true, lit+1
			case "off":
				if !on {
					t.Errorf("step %s puts out an arc that does not burn", r.text("step"))
				}
				on = false
			case "":
				if on && r.text("move") == "joint" {
					t.Errorf("step %s is a joint move with the arc on", r.text("step"))
				}
			default:
				t.Errorf("step %s: arc %q", r.text("step"), r.text("arc"))
			}
		}
		passes := 0
		for _, s := range f.plan.Seams {
			for _, p := range s.Passes {
				if len(p.Stations) > 0 {
					passes++
				}
				for _, c := range p.Profile.Corners {
					if c.ArcOff && c.Place > 0 {
						passes++ // put out and lit again
					}
				}
			}
		}
		if on || lit != passes || passes == 0 {
			t.Errorf("lit %d times for %d passes, burning at the end: %v", lit, passes, on)
		}
	})
}

// Every step says how fast: a share of joint speed above 0 and at most 100, or
// a tip speed, never both; on a seam the pass's own.
func TestStepsSayHowFast(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		burning := false
		for i, r := range f.steps {
			speed, share := r.text("speed_mm_s"), r.text("joint_speed_pct")
			if r.text("move") == "joint" {
				if p := r.number("joint_speed_pct"); !(p > 0 && p <= 100) || speed != "" {
					t.Errorf("step %d: %s percent, %q mm/s", i+1, share, speed)
				}
			} else if f.turnsInPlace(i) {
				if speed != "" || share != "" || !(f.plan.Steps[i].Turn > 0) {
					t.Errorf("step %d turns in a corner at %v deg/s with %q mm/s and %q percent", i+1, f.plan.Steps[i].Turn, speed, share)
				}
			} else if v := r.number("speed_mm_s"); !(v > 0) || share != "" {
				t.Errorf("step %d: %s mm/s, %q percent", i+1, speed, share)
			}
			if burning && !f.turnsInPlace(i) {
				want := f.seam(t, r.text("seam")).Passes[int(r.number("pass"))-1].Size.Travel
				if math.Abs(r.number("speed_mm_s")-want) > 1e-4 {
					t.Errorf("step %d welds at %s mm/s, the pass has %v", i+1, speed, want)
				}
			}
			burning = r.text("arc") == "on" || burning && r.text("arc") != "off"
		}
	})
}

// turnsInPlace reports whether a step turns the torch in a corner: its tip stays
// where the step before left it.
func (f folderText) turnsInPlace(i int) bool {
	return i > 0 && strings.Contains(f.steps[i].text("label"), "turned in corner") && f.steps[i].text("move") == "linear"
}

// The trace passes the end of every move that is not a via point, in order.
func TestTracePassesTheSteps(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		at := 0
		for _, step := range f.steps {
			if step.text("arc") == "" && step.text("work_deg") != "" {
				continue // a via point: the trace may pass it between two samples
			}
			next := slices.IndexFunc(f.trace[at:], func(r row) bool {
				return r.place().minus(step.place()).norm() < 1e-7 && r.rotation().angle(step.rotation()) < 1e-7
			})
			if next < 0 {
				t.Errorf("the trace does not pass step %s %q after line %d", step.text("step"), step.text("label"), at)
				continue
			}
			at += next
		}
		if end := f.trace[len(f.trace)-1].number("t_s"); math.Abs(end-f.plan.Times.Total) > 1e-5 {
			t.Errorf("the trace ends at %v s, plan.json says %v", end, f.plan.Times.Total)
		}
		if sum := f.plan.Times.Arc + f.plan.Times.Air + f.plan.Times.Wait; math.Abs(sum-f.plan.Times.Total) > 1e-5 {
			t.Errorf("arc, air and standing make %v s of %v", sum, f.plan.Times.Total)
		}
	})
}
