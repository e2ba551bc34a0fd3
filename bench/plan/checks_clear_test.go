package plan_test

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/plan"
	"seamwright/bench/scene"
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// box is a shape of the document, of a size at a corner, mm in the base frame.
func box(name string, size, at r3.Vec) string {
	return fmt.Sprintf("  - {name: %s, box: {size: [%g mm, %g mm, %g mm]}, measured_in: base, at: [%g mm, %g mm, %g mm]}\n", name, size.X, size.Y, size.Z, at.X, at.Y, at.Z)
}

// among is the good job with shapes about it, and other sections.
func among(shapes string, sections ...string) func(*testing.T) files {
	return func(t *testing.T) files {
		f := good(t)
		f.edit(t, slim, wide)
		f.edit(t, "home: home\n", "home: home\nshapes:\n"+shapes+strings.Join(sections, ""))
		return f
	}
}

// shell is a box of six walls without a way out, from its low to its high corner
// inside, mm.
func shell(low, high r3.Vec) string {
	const wall = 10
	size := high.Sub(low)
	return box("front", r3.Vec{X: wall, Y: size.Y, Z: size.Z}, r3.Vec{X: low.X - wall, Y: low.Y, Z: low.Z}) +
		box("rear", r3.Vec{X: wall, Y: size.Y, Z: size.Z}, r3.Vec{X: high.X, Y: low.Y, Z: low.Z}) +
		box("right", r3.Vec{X: size.X, Y: wall, Z: size.Z}, r3.Vec{X: low.X, Y: low.Y - wall, Z: low.Z}) +
		box("left", r3.Vec{X: size.X, Y: wall, Z: size.Z}, r3.Vec{X: low.X, Y: high.Y, Z: low.Z}) +
		box("bottom", r3.Vec{X: size.X, Y: size.Y, Z: wall}, r3.Vec{X: low.X, Y: low.Y, Z: low.Z - wall}) +
		box("top", r3.Vec{X: size.X, Y: size.Y, Z: wall}, r3.Vec{X: low.X, Y: low.Y, Z: high.Z})
}

// besideSeam is a bar beside the good job's seam, along x, whose upper edge towards
// it lies so far (mm) out from the seam and 2 mm above it.
func besideSeam(out float64) string {
	return box("bar", r3.Vec{X: 20, Y: 40, Z: 12}, r3.Vec{X: 545, Y: -230 + out, Z: 20})
}

// fromEdge is the distance (mm) of a nozzle of 22 mm, aimed at the seam with a work
// angle (deg) from the level base plate, from the upper edge of such a bar: the
// nozzle's axis and the edge are two lines, and seen along the seam the axis rises
// at 90 deg less the work angle from the seam.
func fromEdge(out, work float64) float64 {
	rise := (90 - work) * degree
	return math.Abs(out*math.Sin(rise)-2*math.Cos(rise)) - 11
}

const byEdge = "two lines in space: see fromEdge"

var clearFaults = []fault{
	{name: "a block in the torch's way", from: among(box("block", r3.Vec{X: 20, Y: 20, Z: 100}, r3.Vec{X: 545, Y: -215, Z: 35})),
		code: finding.Collision, severity: finding.Stop, where: "W1 pass 1 at 108 mm",
		message: "W1 at 108 mm: nozzle touches block", source: "the block begins 115 mm from the weld start, in the torch's plane"},
	{name: "more room wanted than there is", from: among(besideSeam(30), "clearance: {nozzle: 30 mm}\n"),
		code: finding.ClearanceBelow, severity: finding.Stop, where: "W1 pass 1 at 128 mm", measured: "8.79899", limit: "30", unit: "mm",
		message: "W1 at 128 mm: nozzle is 8.8 mm from bar; wanted are 30.0 mm", source: byEdge + fmt.Sprintf(": %.5f mm", fromEdge(30, 45))},
	{name: "angles that give way", from: among(besideSeam(15.43)), edits: [][2]string{{wide, "nozzle: 14 mm"}},
		code: finding.AnglesGaveWay, severity: finding.Caution, where: "W1", measured: "2.5", limit: "5", unit: "deg",
		message: "W1: work 42.5 deg with 10.0 deg push in place of 45.0 deg with 10.0 deg push: nearer to what was asked for, the torch has less room than is wanted",
		source:  byEdge + fmt.Sprintf(": %.2f mm at 45 deg, %.2f mm at 42.5 deg, 4 mm more than a nozzle of 22 mm has", fromEdge(15.43, 45)+4, fromEdge(15.43, 42.5)+4)},
	{name: "order left to the plan", from: func(t *testing.T) files {
		f := good(t)
		f.edit(t, "home: home\n", "home: home\nair: {order: shortest}\n")
		f["job.yaml"] += `  - name: W2
    joint: tee
    line: [W1 end, W1 start]
    base: level
    upright: left
    thickness: {base: 8 mm, upright: 6 mm}
    weld: {leg: 5 mm}
    settings: 11
    torch: {work: 45 deg, travel: push 10 deg, spin: free}
`
		return f
	}, code: finding.AirOrderChosen, severity: finding.Note, where: "air.order", measured: "7.79169", limit: "7.79169", unit: "s",
		message: "the seams are welded in the order W1, W2: 7.8 s of straight joint moves in place of 7.8 s as listed; no order takes less",
		source:  "TestShortestOrder tries every order"},
	{name: "home in a block", from: among(box("block", r3.Vec{X: 60, Y: 60, Z: 40}, r3.Vec{X: 400, Y: -30, Z: 255})),
		code: finding.HomeInCollision, severity: finding.Stop, where: `point "home"`,
		measured: "7.06543", limit: "0", unit: "mm", message: `home "home": nozzle is 7.1 mm deep in block`,
		remedy: "teach home again: j3 turned by -0.7 deg, or the tip drawn 7.1 mm up would be free; by hand, slowly, looking",
		source: "top of the block 295 mm; tip 275.943 mm high, its wire 5 deg off plumb: lowest place of the nozzle 275.943 + 13 cos 5 - 11 sin 5 = 287.934 mm"},
	{name: "home in a shell", from: among(shell(r3.Vec{X: 220, Y: -130, Z: 180}, r3.Vec{X: 540, Y: 130, Z: 720})),
		code: finding.NoAirPath, severity: finding.Stop, where: "W1",
		message: "W1 approach: no way through the air was found that is clear; on the straight one nozzle touches right", source: "the shell has no way out"},
}

// TestClearOfEverything: a job with things about it is planned clear of them, in
// the eyes of a check that shares only the bodies with the planner: at every
// sample of the run and at eight places between each two.
func TestClearOfEverything(t *testing.T) {
	for _, row := range []struct {
		name, shapes, home string
		does               func(p *plan.Plan) bool
	}{
		{"a bar beside the seam", besideSeam(25), "0", func(p *plan.Plan) bool { return true }},
		{"a wall on the way from home", box("wall", r3.Vec{X: 650, Y: 20, Z: 420}, r3.Vec{X: 150, Y: 150, Z: 0}), "60",
			func(p *plan.Plan) bool { return strings.HasSuffix(p.Steps[1].Label, "via 1") }},
		{"a wall where the torch as taught has its body", box("wall", r3.Vec{X: 400, Y: 10, Z: 140}, r3.Vec{X: 400, Y: -100, Z: 30}), "0",
			func(p *plan.Plan) bool { return len(withCode(p, finding.SpinChanged)) == 1 }},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := among(row.shapes, "clearance: {nozzle: 2 mm}\n")(t)
			f.edit(t, wide, "nozzle: 14 mm") // a wider one meets the plates where its angles give way
			f["taught.csv"] = strings.ReplaceAll(f["taught.csv"], "home,,,,,,,0,", "home,,,,,,,"+row.home+",")
			j, p := decode(t, f), planOf(t, f)
			if !row.does(p) {
				t.Error("nothing stood in the way")
			}
			for _, f := range p.Findings {
				if f.Severity == finding.Stop {
					t.Errorf("%s: %s", f.Code, f.Message)
				}
			}
			s, err := scene.New(j, p.Cell)
			if err != nil {
				t.Fatal(err)
			}
			clearBetween(t, s, p)
		})
	}
}

// clearBetween looks at a run between its samples.
func clearBetween(t *testing.T, s *scene.Scene, p *plan.Plan) {
	t.Helper()
	scratch, least := s.Model.Scratch(), math.Inf(1)
	for i := 1; i < len(p.Trace); i++ {
		a, b := &p.Trace[i-1], &p.Trace[i]
		wanted := s.Leaving(0) // nothing comes nearer than this, in the air neither
		for k := range 9 {
			var q kinematics.Q
			for j := range q {
				q[j] = a.Q[j] + (b.Q[j]-a.Q[j])*float64(k)/8
			}
			if near, found := s.Model.Least(scratch, &q, wanted, 0.02); found {
				least = min(least, near.Slack())
			}
		}
	}
	if least < -0.05*mm || math.IsInf(least, 1) {
		t.Errorf("least slack %.3f mm, want 0 or more, and something near", least/mm)
	}
}

// TestClearanceIsNothingWithoutBodies: what has no bodies is said to be endless, and
// no clearance is made up.
func TestClearanceIsNothingWithoutBodies(t *testing.T) {
	p := planOf(t, good(t))
	for _, c := range p.Seams[0].Passes[0].Clear {
		if !math.IsInf(c.Least, 1) {
			t.Errorf("%+v in a job without bodies", c)
		}
	}
	for i := range p.Trace {
		if !math.IsInf(p.Trace[i].Clearance, 1) {
			t.Fatalf("clearance %g at %g s in a job without bodies", p.Trace[i].Clearance, p.Trace[i].T)
		}
	}
}

// TestClearanceInTheTrace: the trace tells the least distance from what stands
// about, by a distance known by hand: when the nozzle passes the bar.
func TestClearanceInTheTrace(t *testing.T) {
	p := planOf(t, among(besideSeam(30))(t))
	least := math.Inf(1)
	for i := range p.Trace {
		if p.Trace[i].Arc {
			least = min(least, p.Trace[i].Clearance)
		}
	}
	if want := fromEdge(30, 45) * mm; math.Abs(least-want) > 0.001*mm {
		t.Errorf("least clearance with the arc on %.4f mm, by hand %.4f mm", least/mm, want/mm)
	}
}

// TestHomeInsideAMesh: a torch wholly inside a closed mesh touches nothing and is not
// free.
func TestHomeInsideAMesh(t *testing.T) {
	f := good(t)
	f["cave.obj"] = block(20, 12) // 800 x 600 x 400 mm
	f.edit(t, "home: home\n", "home: home\nshapes:\n  - {name: cave, mesh: {file: cave.obj, unit: mm}, measured_in: base, at: [100 mm, -300 mm, 210 mm]}\n")
	var said []string
	for _, found := range withCode(planOf(t, f), finding.HomeInCollision) {
		said = append(said, found.Message)
	}
	if want := `home "home": nozzle is wholly inside cave`; !strings.Contains(strings.Join(said, "; "), want) {
		t.Errorf("found %q, want among them %q", said, want)
	}
}

// fillet is a seam between two of the points A, B, C and D, with its weld as written.
type fillet struct{ name, from, to, weld string }

// fillets is the good job with more seams.
func fillets(t *testing.T, more ...fillet) files {
	f := good(t)
	f["taught.csv"] = strings.Replace(f["taught.csv"], "home,", "A,480,150,30,,,,,,,,,,,,,,,\nB,620,150,30,,,,,,,,,,,,,,,\nC,480,300,30,,,,,,,,,,,,,,,\nD,620,300,30,,,,,,,,,,,,,,,\nhome,", 1)
	f["taught.csv"] = f["taught.csv"][:strings.LastIndex(f["taught.csv"], "home,")]
	f.edit(t, "  list: true\n", "")
	for _, s := range more {
		f["job.yaml"] += "  - {name: " + s.name + ", joint: tee, line: [" + s.from + ", " + s.to + "], base: level, upright: left, thickness: {base: 8 mm, upright: 6 mm}, " + s.weld + ", settings: 11, torch: {work: 45 deg, travel: push 10 deg, spin: free}}\n"
	}
	return f
}

// TestShortestOrder: no order of the seams takes less time in the air than the one
// that the plan chooses, each of them planned as the document would have it.
func TestShortestOrder(t *testing.T) {
	f := fillets(t, fillet{"W2", "C", "D", "weld: {leg: 5 mm}"}, fillet{"W3", "B", "A", "weld: {leg: 5 mm}"})
	least, slowest := math.Inf(1), 0.0
	for _, order := range []string{"W1, W2, W3", "W1, W3, W2", "W2, W1, W3", "W2, W3, W1", "W3, W1, W2", "W3, W2, W1"} {
		listed := maps.Clone(f)
		listed["job.yaml"] += "order: [" + order + "]\n"
		air := planOf(t, listed).Times.Air
		least, slowest = min(least, air), max(slowest, air)
	}
	f.edit(t, "home: home\n", "home: home\nair: {order: shortest}\n")
	got := planOf(t, f).Times.Air
	if got > least+1e-6 || slowest < least+0.1 {
		t.Errorf("%.3f s in the air; the orders take %.3f to %.3f s", got, least, slowest)
	}
}

// TestShortestOrderKeepsWhatIsSaid: another order says of each seam what the listed one
// says, also where they have different numbers of passes, and lists stitches in turn.
func TestShortestOrderKeepsWhatIsSaid(t *testing.T) {
	const stitched5 = "weld: {leg: 5 mm}, stitches: {length: 30 mm, pitch: 55 mm}"
	f := fillets(t, fillet{"W3", "B", "A", stitched5}, fillet{"W4", "D", "C", stitched5},
		fillet{"W2", "C", "D", "weld: {leg: 8 mm}, passes: {most: {area: 14 mm2}}"})
	said := func(p *plan.Plan) map[string][]string {
		by := map[string][]string{}
		for _, of := range p.Findings {
			if of.Where.Seam != "" && of.Code != finding.WindingStart {
				by[of.Where.Seam] = append(by[of.Where.Seam], of.Message)
			}
		}
		return by
	}
	names := func(p *plan.Plan) (seams, stitched []string) {
		for i := range p.Seams {
			if name := p.DrawnName(i); len(seams) == 0 || seams[len(seams)-1] != name {
				seams = append(seams, name)
			}
		}
		for i := range p.Stitched {
			stitched = append(stitched, p.Stitched[i].Name)
		}
		return seams, stitched
	}
	chosen := maps.Clone(f)
	chosen.edit(t, "home: home\n", "home: home\nair: {order: shortest}\n")
	want, got := planOf(t, f), planOf(t, chosen)
	for seam, list := range said(want) {
		if other := said(got)[seam]; !slices.Equal(other, list) {
			t.Errorf("of %s is said %q, as listed %q", seam, other, list)
		}
	}
	listed, _ := names(want)
	seams, stitched := names(got)
	if slices.Equal(seams, listed) {
		t.Fatalf("order %q: as listed, the test wants another", seams)
	}
	seams = slices.DeleteFunc(seams, func(s string) bool { return !slices.Contains(stitched, s) })
	if !slices.Equal(seams, stitched) {
		t.Errorf("stitched seams are listed as %q and welded as %q", stitched, seams)
	}
}

// TestOrderCountsThePointsOnTheWay: what the moves over a point that a seam is come to
// through take more is in the time that is told with the order.
func TestOrderCountsThePointsOnTheWay(t *testing.T) {
	times := func(edit func(files)) (told, air float64) {
		f := fillets(t, fillet{"W3", "B", "A", "weld: {leg: 5 mm}"}, fillet{"W2", "C", "D", "weld: {leg: 5 mm}, through: [home]"})
		edit(f)
		f.edit(t, "home: home\n", "home: home\nair: {order: shortest}\n")
		p := planOf(t, f)
		chosen := only(t, p, finding.AirOrderChosen)
		return chosen.Measured, p.Times.Air
	}
	told, air := times(func(files) {})
	less, lessAir := times(func(f files) { f.edit(t, ", through: [home]", "") })
	if told < less+0.05 || math.Abs((told-less)-(air-lessAir)) > 1e-6 {
		t.Errorf("told are %.4f s and %.4f s without the point, which is %.4f s; in the run it is %.4f s", told, less, told-less, air-lessAir)
	}
}

// TestOrderOfTooManySeams: beyond what is searched the listed order stays, and that is
// said.
func TestOrderOfTooManySeams(t *testing.T) {
	var more []fillet
	for i := range 200 {
		more = append(more, fillet{fmt.Sprintf("F%d", i), "C", "D", "weld: {leg: 5 mm}"})
	}
	f := fillets(t, more...)
	f.edit(t, "home: home\n", "home: home\nair: {order: shortest}\n")
	said := only(t, planOf(t, f), finding.AirOrderChosen)
	if want := "the seams are welded as listed: an order is searched for up to 200 of them, and these are 201"; said.Message != want {
		t.Errorf("said %q, want %q", said.Message, want)
	}
}

// TestEndlessJointComesFromTwoTurnsAway: a joint without limits is brought home from
// more than a turn away.
func TestEndlessJointComesFromTwoTurnsAway(t *testing.T) {
	f := fillets(t, fillet{"W2", "C", "D", "weld: {leg: 5 mm}, through: [wound]"})
	f.edit(t, "home,,,,,,,0,-20,100,0,70,0,", "wound,,,,,,,0,-20,100,0,70,800,joint,,20,,,\nhome,,,,,,,0,-20,100,0,70,0,")
	f["arm_a.urdf"] = strings.Replace(f["arm_a.urdf"], `<joint name="j6" type="revolute">`, `<joint name="j6" type="continuous">`, 1)
	most := 0.0
	for _, s := range planOf(t, f).Trace {
		most = max(most, s.Q[5])
	}
	if math.Abs(most-800*math.Pi/180) > 1e-9 {
		t.Errorf("j6 turns to %.3f rad, want 800 deg", most)
	}
}

// TestReachIsToldThoughSomethingIsInTheWay: where the arm cannot reach, a body beside
// the seam changes nothing of what is said.
func TestReachIsToldThoughSomethingIsInTheWay(t *testing.T) {
	beyond := func(f files) files {
		f.edit(t, "W1 end,680,-230,30", "W1 end,1400,-230,30")
		return f
	}
	free := only(t, planOf(t, beyond(good(t))), finding.ArmCannotReach)
	among := only(t, planOf(t, beyond(among(besideSeam(21.09))(t))), finding.ArmCannotReach)
	if free.Message != among.Message || free.Where != among.Where {
		t.Errorf("said %q, without the bar %q", among.Message, free.Message)
	}
}
