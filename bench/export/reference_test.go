package export_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

// The plan folder held against the outside: poses against Orocos KDL, torch
// angles against the formulas of the trade's definitions, speeds and times
// against the contract of the command. Everything is read back from the files.

type libraryAnswer struct {
	Steps, Trace [][]float64
	Limits       [][3]*float64
}

// askLibrary recomputes the poses of a plan folder with Orocos KDL. It fails,
// and does not skip, where the library is missing: a check that was not made
// must not read as passed.
func askLibrary(t *testing.T, urdf, dir string) libraryAnswer {
	t.Helper()
	cmd := exec.Command("/usr/bin/python3", "testdata/kdl_poses.py", urdf, dir)
	var out, words bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &words
	if err := cmd.Run(); err != nil {
		t.Fatalf("asking Orocos KDL: %v\n%s\nThis check needs Debian's packages python3 and python3-pykdl: apt-get install python3-pykdl", err, words.String())
	}
	var a libraryAnswer
	if err := json.Unmarshal(out.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

// forEachPlan runs a check on every job's folder, read back from disk.
func forEachPlan(t *testing.T, check func(t *testing.T, c planned, f folderText)) {
	t.Helper()
	for _, c := range plannedJobs(t) {
		t.Run(c.name, func(t *testing.T) { check(t, c, writtenFolder(t, c)) })
	}
}

// Every row of steps.csv and trace.csv: the library's forward kinematics of the
// row's joints times flange_from_tip is the row's pose within 1 um and 1e-6 rad
// (contract of the command), the joints are inside the URDF's limits, and no
// joint turns faster than it can.
func TestPosesAgreeWithLibrary(t *testing.T) {
	forEachPlan(t, func(t *testing.T, c planned, f folderText) {
		a := askLibrary(t, filepath.Join(c.dir, f.plan.Arm), f.dir)
		worstP := comparePoses(t, "steps.csv", f.steps, a.Steps)
		worstT := comparePoses(t, "trace.csv", f.trace, a.Trace)
		t.Logf("%d steps and %d samples: largest differences %s and %s", len(f.steps), len(f.trace), worstP, worstT)
		checkLimits(t, f.steps, a.Limits)
		checkLimits(t, f.trace, a.Limits)
		checkJointSpeeds(t, f.trace, a.Limits)
	})
}

func comparePoses(t *testing.T, name string, rows []row, poses [][]float64) string {
	t.Helper()
	if len(rows) != len(poses) {
		t.Fatalf("%s: %d rows, the library answered %d", name, len(rows), len(poses))
	}
	var worstP, worstR float64
	for i, r := range rows {
		p := poses[i]
		apart := r.place().minus(vec{p[3], p[7], p[11]}).norm()
		turn := r.rotation().angle(rotation{p[0], p[1], p[2], p[4], p[5], p[6], p[8], p[9], p[10]})
		worstP, worstR = max(worstP, apart), max(worstR, turn)
		if !(apart <= 1e-6 && turn <= 1e-6) {
			t.Errorf("%s line %d: the joints give a pose %.3g m and %.3g rad off the row's", name, r.line, apart, turn)
		}
	}
	return fmt.Sprintf("%.2g m, %.2g rad", worstP, worstR)
}

// rounding is the last printed digit of a joint value, rad or m.
const rounding = 1e-7

func checkLimits(t *testing.T, rows []row, limits [][3]*float64) {
	t.Helper()
	for _, r := range rows {
		for i, l := range limits {
			if l[0] == nil {
				continue
			}
			if q := r.joint(i); q < *l[0]-rounding || q > *l[1]+rounding {
				t.Errorf("line %d: j%d at %.4f is outside %.4f to %.4f", r.line, i+1, q, *l[0], *l[1])
			}
		}
	}
}

func checkJointSpeeds(t *testing.T, trace []row, limits [][3]*float64) {
	t.Helper()
	for k := 1; k < len(trace); k++ {
		dt := trace[k].number("t_s") - trace[k-1].number("t_s")
		for i, l := range limits {
			moved := math.Abs(trace[k].joint(i) - trace[k-1].joint(i))
			if most := *l[2]*(dt+1e-6) + rounding; moved > most {
				t.Errorf("line %d: j%d turns %.5f rad in %.4f s, %.5f at most", trace[k].line, i+1, moved, dt, most)
			}
		}
	}
}

// frameAt is the joint at a place (mm) of a seam, from plan.json alone: along
// a line it is that of the start, on an arc the start's turned about the axis.
// The root follows the path, from which the travel may differ a little where
// the plates are known better than the path.
func (s *seamText) frameAt(along float64) frameText {
	f := s.Start
	p := s.Path[0]
	if p.Kind == "line" {
		f.Root = p.From.plus(p.To.minus(p.From).times(along / s.Length))
		return f
	}
	angle := along / p.Radius
	f.Root = p.Centre.plus(p.From.minus(p.Centre).turned(p.Axis, angle))
	f.Travel, f.Normal, f.Open = f.Travel.turned(p.Axis, angle), f.Normal.turned(p.Axis, angle), f.Open.turned(p.Axis, angle)
	return f
}

func (f folderText) seam(t *testing.T, name string) *seamText {
	t.Helper()
	i := slices.IndexFunc(f.plan.Seams, func(s seamText) bool { return s.Name == name })
	if i < 0 {
		t.Fatalf("plan.json has no seam %q", name)
	}
	return &f.plan.Seams[i]
}

// readAngles derives work and travel angle, deg, from the wire's direction.
// Formulas: AWS A3.0's definitions of work and travel angle, by way of a
// textbook (Modern Welding, 2013, 3.7) and a public glossary (READ, secondary):
//
//	T = asin(w.t)  push positive;  e = -w;  e_p = normalise(e - (e.t)t);  W = acos(e_p.m)
func readAngles(f frameText, wire vec) (work, travel float64) {
	e := wire.times(-1)
	square := e.minus(f.Travel.times(e.dot(f.Travel))).unit()
	work = math.Acos(math.Min(1, square.dot(f.Normal)))
	if square.dot(f.Open) < 0 {
		work = -work // leans to the other side
	}
	return work * 180 / math.Pi, math.Asin(wire.dot(f.Travel)) * 180 / math.Pi
}

// The reading itself, on the worked rows of the trade's angle formulas:
// t = (1,0,0), m = (0,0,1), b = (0,1,0); the directions were computed in a
// separate program and printed to five digits.
func TestReadAnglesOnWorkedRows(t *testing.T) {
	f := frameText{Travel: vec{1, 0, 0}, Normal: vec{0, 0, 1}, Open: vec{0, 1, 0}}
	for _, c := range []struct {
		wire         vec
		work, travel float64
	}{
		{vec{0.17365, -0.69636, -0.69636}, 45, 10},
		{vec{-0.17365, -0.69636, -0.69636}, 45, -10},
		{vec{0.08716, -0.64034, -0.76313}, 40, 5},
		{vec{0.17365, 0, -0.98481}, 0, 10},
		{vec{-0.1, -0.6, -0.75}.unit(), 38.660, -5.944},
	} {
		work, travel := readAngles(f, c.wire)
		if math.Abs(work-c.work) > 1e-3 || math.Abs(travel-c.travel) > 1e-3 {
			t.Errorf("%v: got %.4f, %.4f, want %v, %v", c.wire, work, travel, c.work, c.travel)
		}
	}
}

// On a seam: torch angles within 0.01 deg of the wanted ones, the tip within
// 0.01 mm of the root line shifted by the aim offset, at its own place along.
func TestTorchIsTrueToTheSeam(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		var worstAngle, worstPlace float64
		rows := 0
		for _, r := range f.trace {
			if r.text("arc") == "0" {
				continue
			}
			s := f.seam(t, r.text("seam"))
			if len(s.Path) != 1 {
				t.Fatalf("a path of %d pieces: this check knows one", len(s.Path))
			}
			pass := s.Passes[int(r.number("pass"))-1]
			frame := s.frameAt(r.number("s_mm"))
			work, travel := readAngles(frame, r.wire())
			off := math.Max(math.Abs(work-pass.Work), math.Abs(travel-pass.Travel))
			want := frame.Root.plus(frame.Open.times(pass.Offset / 1e3)).minus(r.wire().times((pass.Distance - f.plan.Distance) / 1e3))
			apart := r.place().minus(want).norm()
			if !(off <= 0.01 && apart <= 0.01e-3) {
				t.Errorf("trace.csv line %d: work %.3f, travel %.3f where %.3f, %.3f are wanted; %.4f mm off the seam", r.line, work, travel, pass.Work, pass.Travel, apart*1e3)
			}
			worstAngle, worstPlace = max(worstAngle, off), max(worstPlace, apart)
			rows++
		}
		for _, r := range f.steps {
			if r.text("work_deg") == "" {
				continue
			}
			f.checkStepAngles(t, r)
		}
		if rows < 50 {
			t.Fatalf("only %d samples on a seam", rows)
		}
		t.Logf("%d samples: largest differences %.2g deg, %.2g mm", rows, worstAngle, worstPlace*1e3)
	})
}

// checkStepAngles reads a step at the place of the seam nearest to its tip.
func (f folderText) checkStepAngles(t *testing.T, r row) {
	t.Helper()
	s := f.seam(t, r.text("seam"))
	out := r.place().minus(s.Start.Root)
	along := out.dot(s.Start.Travel) * 1e3
	if p := s.Path[0]; p.Kind == "arc" {
		at, start := r.place().minus(p.Centre), s.Start.Root.minus(p.Centre)
		along = math.Atan2(start.cross(at).dot(p.Axis), start.dot(at.minus(p.Axis.times(at.dot(p.Axis))))) * p.Radius
	}
	work, travel := readAngles(s.frameAt(along), r.wire())
	if math.Abs(work-r.number("work_deg")) > 0.01 || math.Abs(travel-r.number("travel_deg")) > 0.01 {
		t.Errorf("steps.csv line %d: the pose has work %.3f, travel %.3f, the row says %s, %s", r.line, work, travel, r.text("work_deg"), r.text("travel_deg"))
	}
}

// A seam in plan.json closes on itself: the frame at its end is the frame at
// its start carried along the path.
func TestEndFrameFollowsFromStartAndPath(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		for i := range f.plan.Seams {
			s := &f.plan.Seams[i]
			got := s.frameAt(s.Length)
			for k, d := range []vec{
				got.Root.minus(s.End.Root), got.Travel.minus(s.End.Travel), got.Normal.minus(s.End.Normal), got.Open.minus(s.End.Open),
			} {
				if d.norm() > 1e-6 {
					t.Errorf("%s: part %d of the end frame is off by %.3g", s.Name, k, d.norm())
				}
			}
		}
	})
}

// ramp is how far from the ends of a seam the speed may differ, mm.
const ramp = 2

// The trace keeps the contract of the command: at most 20 ms apart in the air
// and 2 mm on a seam, and the commanded speed within 1 % along the seam.
func TestTraceIsDenseAndKeepsTheSpeed(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		held := 0
		for k := 1; k < len(f.trace); k++ {
			a, b := f.trace[k-1], f.trace[k]
			dt := b.number("t_s") - a.number("t_s")
			switch {
			case !(dt > 0):
				t.Errorf("line %d: %.6f s after the line before", b.line, dt)
			case a.text("arc") == "0" || b.text("arc") == "0":
				if dt > 0.020+1e-6 {
					t.Errorf("line %d: %.1f ms after the line before, in the air", b.line, dt*1e3)
				}
				continue
			}
			if apart := b.number("s_mm") - a.number("s_mm"); apart < 0 || apart > 2+1e-4 {
				t.Errorf("line %d: %.3f mm after the line before, on a seam", b.line, apart)
			}
			if f.speedHeld(t, a, b, dt) {
				held++
			}
		}
		if held < 20 {
			t.Fatalf("only %d pairs of samples at the commanded speed", held)
		}
	})
}

// speedHeld checks a pair of samples that lies inside the ramps of its seam.
func (f folderText) speedHeld(t *testing.T, a, b row, dt float64) bool {
	t.Helper()
	s := f.seam(t, b.text("seam"))
	from, to := a.number("s_mm"), b.number("s_mm")
	if from < ramp || to > s.Length-ramp {
		return false
	}
	pass := s.Passes[int(b.number("pass"))-1]
	want := pass.Size.Travel
	if along := (to - from) / dt; math.Abs(along-want) > 0.01*want {
		t.Errorf("line %d: %.3f mm/s along the seam, %.3f is commanded", b.line, along, want)
	}
	if said := b.number("speed_mm_s"); math.Abs(said-want) > 0.01*want {
		t.Errorf("line %d: the row says %.3f mm/s, %.3f is commanded", b.line, said, want)
	}
	if s.Path[0].Kind == "line" {
		if tip := b.place().minus(a.place()).norm() * 1e3 / dt; math.Abs(tip-want) > 0.01*want {
			t.Errorf("line %d: the tip moves at %.3f mm/s, %.3f is commanded", b.line, tip, want)
		}
	}
	return true
}
