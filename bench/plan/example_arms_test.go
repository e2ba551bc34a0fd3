package plan_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"seamwright/bench/finding"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
	"seamwright/weld"
)

// armJob is the good job's seam, elsewhere, for one of the example arms.
type armJob struct {
	file, arm  string // the arm's file and fields
	table      string // how the table stood, "" for none
	start, end r3.Vec // weld start and end in the base link, mm
	turn       string // of the torch there, deg; "" as in the good job
	home       string // joint values in chain order, deg and mm
}

const gantryArm = "base_link: portal, flange_link: flange, joint_acceleration: [1 m/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2]"

// exampleArms reach the seam in front of them; whimbrel's lies on its table.
var exampleArms = []armJob{
	{file: "turnstone.urdf", arm: "base_link: base, flange_link: flange", start: r3.Vec{X: 650, Y: -130, Z: 100}, end: r3.Vec{X: 850, Y: -130, Z: 100},
		home: "0, 0, 0, 0, 60, 0"},
	{file: "redshank.urdf", arm: "base_link: base, flange_link: flange", start: r3.Vec{X: 450, Y: -130, Z: 30}, end: r3.Vec{X: 600, Y: -130, Z: 30},
		home: "0, 0, 0, 0, 0, 60, 0"},
	{file: "fulmar.urdf", arm: gantryArm, start: r3.Vec{X: 450, Y: 300, Z: 1500}, end: r3.Vec{X: 650, Y: 300, Z: 1500}, home: "0, 0, 0, 0, 0, 60, 0"},
	onWhimbrel("[0 deg, 0 deg]", "0, 0"),
}

// onWhimbrel is a seam on whimbrel's table, which stood so when it was taught;
// at home it stands otherwise. The torch is that of the good job, turned by 130
// deg about its wire, so that its body is on the arm's side.
func onWhimbrel(table, home string) armJob {
	return armJob{file: "whimbrel.urdf", arm: "base_link: base, flange_link: flange, part_link: table_top", table: table,
		start: r3.Vec{X: 900, Y: -50, Z: 380}, end: r3.Vec{X: 1050, Y: -50, Z: 380}, turn: "-141.77, -27.57, -135.56", home: home + ", 0, -40, 90, 0, 0, 0"}
}

func (a armJob) files(t *testing.T) files {
	t.Helper()
	f := good(t)
	data, err := os.ReadFile("../../examples/arms/" + a.file)
	if err != nil {
		t.Fatal(err)
	}
	delete(f, "arm_a.urdf")
	turn := a.turn
	if turn == "" {
		turn = "134.56, -7.05, 7.11"
	}
	f.edit(t, "urdf: arm_a.urdf, base_link: base, flange_link: flange", "urdf: "+a.file+", "+a.arm)
	row := func(label string, at r3.Vec) string {
		return fmt.Sprintf("    - {label: %s, pose: [%g, %g, %g, %s]}\n", label, at.X, at.Y, at.Z, turn)
	}
	points := "  rows:\n    - {label: home, joints: [" + a.home + "]}\n" + row("W1 start", a.start) + row("W1 end", a.end)
	if a.table != "" {
		points = "  table: " + a.table + "\n" + points
	}
	f.edit(t, "  list: true\n  file: taught.csv\n", points)
	f.edit(t, "    approach: W1 in\n    retreat: W1 out\n", "")
	f[a.file] = string(data)
	return f
}

// Every example arm plans the seam: the run is whole, and the joint values of
// every row of it make the row's pose, from the plan's base link to the flange.
func TestExampleArmsPlan(t *testing.T) {
	for _, arm := range exampleArms {
		t.Run(arm.file, func(t *testing.T) {
			j := decode(t, arm.files(t))
			p := planOf(t, arm.files(t))
			if !p.Fit() || len(p.Steps) < 4 || p.Seams[0].Position.Name(weld.ISO) != weld.PB {
				t.Fatalf("%d steps, %v:\n%s", len(p.Steps), p.Seams[0].Position.Name(weld.ISO), list(p.Findings))
			}
			base := j.Arm.BaseLink
			if j.Arm.PartLink != "" {
				base = j.Arm.PartLink
			}
			chain, err := kinematics.NewChain(j.Arm.Robot, base, j.Arm.FlangeLink)
			if err != nil {
				t.Fatal(err)
			}
			checkRows(t, p, chain)
		})
	}
}

// checkRows holds every step and sample against forward kinematics, and every
// joint against its limits.
func checkRows(t *testing.T, p *plan.Plan, chain *kinematics.Chain) {
	t.Helper()
	rows := make([]plan.Sample, 0, len(p.Steps)+len(p.Trace))
	for i := range p.Steps {
		rows = append(rows, plan.Sample{Q: p.Steps[i].Q, Pose: p.Steps[i].Pose})
	}
	for i, row := range append(rows, p.Trace...) {
		flange := row.Pose.Mul(p.Cell.FlangeFromTip.Inv())
		got := flange
		chain.Forward(&row.Q, &got)
		if got.P.Dist(flange.P) > 1e-9 || got.R.AngleTo(flange.R) > 1e-9 {
			t.Errorf("row %d: joints put the flange at %v, the row says %v", i+1, got, flange)
		}
		for k := range chain.N() {
			if j := chain.Joint(k); row.Q[k] < j.Lower || row.Q[k] > j.Upper {
				t.Errorf("row %d: joint %s at %v, limits %v to %v", i+1, j.Name, row.Q[k], j.Lower, j.Upper)
			}
		}
	}
}

// A table that can stay as the seam was taught does, however it stands at home,
// and the tip comes where the arm was shown it: seen from the arm's foot, not
// from the part.
func TestTableStandsAsTaught(t *testing.T) {
	for _, stood := range [][2]float64{{0, 0}, {25, 0}, {-20, 8}} {
		job := onWhimbrel(fmt.Sprintf("[%g deg, %g deg]", stood[0], stood[1]), "90, -30")
		p := planOf(t, job.files(t))
		mo := p.Seams[0].Passes[0].Motion
		if mo == nil || len(withCode(p, finding.TableMoved))+len(withCode(p, finding.AxisMoves)) > 0 || p.Seams[0].Position.Name(weld.ISO) != weld.PB {
			t.Fatalf("stood %v: motion %v, %v\n%s", stood, mo != nil, p.Seams[0].Position.Name(weld.ISO), list(p.Findings))
		}
		for _, st := range mo.Stations {
			if turn, tilt := st.Q[0]*deg, st.Q[1]*deg; turn-stood[0] > 1e-9 || turn-stood[0] < -1e-9 || tilt-stood[1] > 1e-9 || tilt-stood[1] < -1e-9 {
				t.Fatalf("stood %v: the table is put to %v, %v deg", stood, turn, tilt)
			}
		}
		first := mo.Stations[mo.First]
		footFromTip := p.Cell.BaseFromFoot(&first.Q).Inv().Mul(first.BaseFromTip)
		if footFromTip.P.Dist(job.start.Scale(mm)) > 1e-9 {
			t.Errorf("stood %v: the weld starts at %v from the arm's foot, taught at %v mm", stood, footFromTip.P, job.start)
		}
	}
}

// A point that is passed in the air is the place in the room that was shown,
// with the table as it then stood, wherever the seam before left it.
func TestPassedPointsAreThoseOfTheRoom(t *testing.T) {
	job := onWhimbrel("[0 deg, 0 deg]", "90, -30")
	f := job.files(t)
	over := r3.Vec{X: 750, Y: 60, Z: 500}
	f.edit(t, "    - {label: W1 end,", fmt.Sprintf("    - {label: over, pose: [%g, %g, %g, 180, 0, 180], table: [20, 5]}\n    - {label: W1 end,", over.X, over.Y, over.Z))
	f.edit(t, "    base: level", "    through: [over]\n    base: level")
	p := planOf(t, f)
	for i := range p.Steps {
		s := &p.Steps[i]
		if s.Label != "over" {
			continue
		}
		if footFromTip := p.Cell.BaseFromFoot(&s.Q).Inv().Mul(s.Pose); footFromTip.P.Dist(over.Scale(mm)) > 1e-9 {
			t.Errorf("passed at %v from the arm's foot, shown at %v mm", footFromTip.P, over)
		}
		if math.Abs(s.Q[0]-20*degree) > 1e-12 || math.Abs(s.Q[1]-5*degree) > 1e-12 {
			t.Errorf("the table stands at %v, %v rad, stood at 20, 5 deg", s.Q[0], s.Q[1])
		}
		return
	}
	t.Errorf("no step passes the point:\n%s", list(p.Findings))
}

const deg = 1 / degree // deg in a radian

// One seam on the part, along the table's x, its plate's normal the table's z:
// how it lies to gravity is how the table stands. By hand; the table turns
// about its own z and tilts about the room's y.
func TestPositionFollowsTheTable(t *testing.T) {
	for _, row := range []struct {
		table string
		want  weld.PositionName
	}{
		{"[0 deg, 0 deg]", weld.PB},
		{"[70 deg, 0 deg]", weld.PB},
		{"[0 deg, 90 deg]", weld.PG}, // x points down
		{"[0 deg, -90 deg]", weld.PF},
		{"[90 deg, 90 deg]", weld.PB}, // level along the tilt's axis, open side up
		{"[-90 deg, 90 deg]", weld.PD},
	} {
		a := onWhimbrel(row.table, "0, 0")
		a.start, a.end = r3.Vec{X: -100, Y: -50, Z: 30}, r3.Vec{X: 50, Y: -50, Z: 30}
		f := a.files(t)
		f.edit(t, "measured_in: base", "measured_in: part")
		f.edit(t, "base: level", "base: {direction: [0, 0, 1]}")
		p := planOf(t, f)
		got := p.Seams[0].Position.Name(weld.ISO)
		if moved := withCode(p, finding.TableMoved); got != row.want && len(moved) == 1 {
			if !strings.HasSuffix(moved[0].Message, fmt.Sprintf("; the weld then lies in %v, as taught in %v", got, row.want)) {
				t.Errorf("%s: %v, finding %q", row.table, got, moved[0].Message)
			}
			continue // the plan tells that it is another than was taught
		}
		if got != row.want {
			t.Errorf("%s: position %v, want %v\n%s", row.table, got, row.want, list(p.Findings))
		}
	}
}
