package export_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
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
// 0.01 mm of the root line shifted by the aim offset, at its own place along;
// beside a sharp corner turned ahead and lagging as plan.json says, in it on the
// way from the one to the other.
func TestTorchIsTrueToTheSeam(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		var worstAngle, worstPlace float64
		rows := 0
		for _, r := range f.trace {
			if r.text("arc") == "0" {
				continue
			}
			s := f.seam(t, r.text("seam"))
			pass := s.Passes[int(r.number("pass"))-1]
			torch := s.torchAt(r.number("s_mm"), int(r.number("pass"))-1, r.wire(), aimed{pass.Work, pass.Travel})
			wanted := pass.Work
			if pass.Bisector != nil {
				wanted = 90 - torch.Included/2 + *pass.Bisector
			}
			work, travel := readAngles(torch, r.wire())
			off := math.Max(math.Abs(work-wanted), math.Abs(travel-pass.Travel))
			// A pass aimed above the root is backed off along its wire, and taken as far ahead
			// as a wire that leans loses by that, so that it is aimed square across.
			want := torch.Root.plus(torch.Open.times(pass.Offset / 1e3)).minus(r.wire().times((pass.Distance - f.plan.Distance + pass.Above) / 1e3)).
				plus(torch.Travel.times(pass.Above / 1e3 * math.Sin(pass.Travel*math.Pi/180)))
			apart := r.place().minus(want).norm()
			if !(off <= 0.01 && apart <= 0.01e-3) {
				t.Errorf("trace.csv line %d: work %.3f, travel %.3f where %.3f, %.3f are wanted; %.4f mm off the seam", r.line, work, travel, wanted, pass.Travel, apart*1e3)
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

// checkStepAngles reads a step at the place of the seam nearest to its tip: the
// angles of the row are those to the true joint. At a sharp corner the torch
// arrives at the joint before it and leaves, when it has turned, at the one
// behind it.
func (f folderText) checkStepAngles(t *testing.T, r row) {
	t.Helper()
	s := f.seam(t, r.text("seam"))
	off := math.Inf(1)
	for _, side := range s.jointsNear(r.place(), s.Passes[int(r.number("pass"))-1].Offset/1e3) {
		work, travel := readAngles(side, r.wire())
		off = min(off, max(math.Abs(work-r.number("work_deg")), math.Abs(travel-r.number("travel_deg"))))
	}
	if !(off <= 0.01) {
		t.Errorf("steps.csv line %d: the pose's angles are %.3f deg off what the row says, work %s, travel %s", r.line, off, r.text("work_deg"), r.text("travel_deg"))
	}
}

// The moves of steps.csv, drawn as a controller runs them: straight lines, and
// circles through start, via point and end. Every place at which the trace has
// the arc on lies within 0.2 mm of them (the project's rule for paths, common
// practice, no source).
func TestTraceFollowsTheCommandedMoves(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		var worst float64
		for _, seam := range f.plan.Seams {
			moves := f.weldMoves(seam.Name)
			for _, r := range f.trace {
				if r.text("arc") == "0" || r.text("seam") != seam.Name {
					continue
				}
				off := math.Inf(1)
				for _, m := range moves {
					off = min(off, m.distance(r.place()))
				}
				if worst = max(worst, off); !(off <= 0.202e-3) {
					t.Errorf("trace.csv line %d: %.3f mm off every commanded move", r.line, off*1e3)
				}
			}
		}
		t.Logf("at most %.3f mm off the commanded moves", worst*1e3)
	})
}

// The metal along a seam is the wire fed while the arc burns and travels or
// stands in a corner: volume balance. What is laid in start delay and crater is
// not in the profile, nor what is laid while the tip gathers speed and stops, for
// which 0.15 s are allowed (each takes 2 sqrt(v/j), 0.06 s for 8 mm/s and 10 m/s3, or
// somewhat more where a joint asks for it).
func TestProfileHoldsTheMetal(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		for _, s := range f.plan.Seams {
			for _, p := range s.Passes {
				var lit, laid float64
				for k := 1; k < len(f.trace); k++ {
					a, b := f.trace[k-1], f.trace[k]
					if a.text("arc") == "1" && b.text("arc") == "1" && b.text("seam") == s.Name && b.text("pass") == strconv.Itoa(p.Number) {
						lit += b.number("t_s") - a.number("t_s")
					}
				}
				stops := 1.0
				for _, c := range p.Profile.Corners {
					if c.ArcOff && c.Place > 0 {
						stops++
					}
				}
				lit -= stops * (p.Size.Start + p.Size.Crater)
				for k := 1; k < len(p.Profile.Samples); k++ {
					a, b := p.Profile.Samples[k-1], p.Profile.Samples[k]
					laid += (a.Area + b.Area) / 2 * (b.Along - a.Along)
				}
				flow := math.Pi / 4 * p.Size.Wire * p.Size.Wire * p.Size.Feed * 1e3 / 60 * p.Size.Efficiency // mm3/s
				if laid < 0.995*flow*(lit-0.15) || laid > 1.005*flow*lit {
					t.Errorf("%s pass %d: %.0f mm3 along the seam, %.0f mm3 of wire in %.2f s", s.Name, p.Number, laid, flow*lit, lit)
				}
			}
		}
	})
}

// A seam in plan.json closes on itself: every piece begins where the one before
// it ends, with the joint that it ends with but at a sharp corner, and the frame
// at the seam's end is the one carried along its last piece.
func TestEndFrameFollowsFromStartAndPath(t *testing.T) {
	forEachPlan(t, func(t *testing.T, _ planned, f folderText) {
		for i := range f.plan.Seams {
			s := &f.plan.Seams[i]
			same := func(what string, got, want frameText, within float64) {
				for k, d := range []vec{
					got.Root.minus(want.Root), got.Travel.minus(want.Travel), got.Normal.minus(want.Normal), got.Open.minus(want.Open),
				} {
					if d.norm() > within {
						t.Errorf("%s: part %d of %s is off by %.3g", s.Name, k, what, d.norm())
					}
				}
			}
			at := 0.0
			for k := range s.Path {
				same("the start of a piece", s.pieceAt(k, 0), s.startOf(k), 1e-6)
				end := s.pieceAt(k, s.Path[k].Length)
				at += s.Path[k].Length
				if k == len(s.Path)-1 {
					same("the end", end, s.End, 1e-6)
					continue
				}
				next := s.startOf(k + 1)
				if sharp := s.cornerAt(at); sharp == nil {
					same("a joint of two pieces", next, end, 1e-5)
				} else if next.Root.minus(end.Root).norm() > 1e-8 {
					t.Errorf("%s: the piece behind the corner at %v mm begins elsewhere", s.Name, at)
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
	for _, c := range s.Passes[0].Profile.Corners {
		if c.sharp() && to > c.At-ramp && from < c.At+ramp {
			return false // the tip stops at a sharp corner
		}
	}
	pass := s.Passes[int(b.number("pass"))-1]
	want := pass.Size.Travel
	if along := (to - from) / dt; math.Abs(along-want) > 0.01*want {
		t.Errorf("line %d: %.3f mm/s along the seam, %.3f is commanded", b.line, along, want)
	}
	if said := b.number("speed_mm_s"); math.Abs(said-want) > 0.01*want {
		t.Errorf("line %d: the row says %.3f mm/s, %.3f is commanded", b.line, said, want)
	}
	if s.Path[0].Kind == "line" && len(s.Path) == 1 {
		if tip := b.place().minus(a.place()).norm() * 1e3 / dt; math.Abs(tip-want) > 0.01*want {
			t.Errorf("line %d: the tip moves at %.3f mm/s, %.3f is commanded", b.line, tip, want)
		}
	}
	return true
}
