package export_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"seamwright/bench/export"
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
	"seamwright/unit"
)

// keyTable is the printed table: its first line and its cells by row.
func keyTable(t *testing.T, j *job.Job, p *plan.Plan) (title string, rows [][]string) {
	t.Helper()
	var b strings.Builder
	if err := export.Keys(&b, j, p); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(b.String()), "\n")
	for _, line := range lines[1:] {
		rows = append(rows, strings.Fields(line))
	}
	return lines[0], rows
}

func number(t *testing.T, cell string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The values to key in of a plan are its poses, and their sums are the sums of
// what is printed. The job's points are in the base, mm, by fixed x-y-z degrees.
func TestKeysAreThePosesOfThePlan(t *testing.T) {
	for _, c := range plannedJobs(t) {
		if c.name != "s1.yaml" {
			continue
		}
		title, rows := keyTable(t, c.job, c.plan)
		if want := "Values to key in: the wire tip in the base frame, mm; orientation: fixed x-y-z degrees"; !strings.HasPrefix(title, want) || strings.Contains(title, "joints") {
			t.Errorf("got %q, want %q", title, want)
		}
		var sum [6]float64
		for i := range c.plan.Steps {
			s, row := &c.plan.Steps[i], rows[i+1]
			var v [6]float64
			for k := range v {
				v[k] = number(t, row[k+1])
				sum[k] += v[k]
			}
			at := r3.Vec{X: v[0], Y: v[1], Z: v[2]}.Scale(1e-3)
			turn := se3.RotZ(v[5] * unit.Deg).Mul(se3.RotY(v[4] * unit.Deg)).Mul(se3.RotX(v[3] * unit.Deg))
			if at.Dist(s.Pose.P) > 0.01e-3 || turn.AngleTo(s.Pose.R) > 0.02*unit.Deg {
				t.Errorf("step %d: %v differs from %v", i+1, row, s.Pose)
			}
		}
		for k, v := range sum {
			if got := number(t, rows[len(rows)-1][k+1]); math.Abs(got-v) > 0.001 {
				t.Errorf("sum of column %d is printed %v, adds up to %v", k, got, v)
			}
		}
		return
	}
	t.Fatal("the worked case is gone")
}

// bench6 is an invented arm with a table that turns about z, 0.8 m before it.
const bench6 = `<robot name="wagtail">
  <link name="foot"/><link name="top"/><link name="l1"/><link name="l2"/><link name="l3"/><link name="l4"/><link name="l5"/><link name="flange"/>
  <joint name="table" type="continuous"><parent link="foot"/><child link="top"/><origin xyz="0.8 0 0.3"/><axis xyz="0 0 1"/></joint>
  <joint name="j1" type="continuous"><parent link="foot"/><child link="l1"/><origin xyz="0 0 0.4"/><axis xyz="0 0 1"/></joint>
  <joint name="j2" type="continuous"><parent link="l1"/><child link="l2"/><origin xyz="0.1 0 0"/><axis xyz="0 1 0"/></joint>
  <joint name="j3" type="continuous"><parent link="l2"/><child link="l3"/><origin xyz="0 0 0.6"/><axis xyz="0 1 0"/></joint>
  <joint name="j4" type="continuous"><parent link="l3"/><child link="l4"/><origin xyz="0.3 0 0"/><axis xyz="1 0 0"/></joint>
  <joint name="j5" type="continuous"><parent link="l4"/><child link="l5"/><origin xyz="0.3 0 0"/><axis xyz="0 1 0"/></joint>
  <joint name="j6" type="continuous"><parent link="l5"/><child link="flange"/><axis xyz="1 0 0"/></joint>
</robot>`

func bench6Chain(t *testing.T, from, to string) *kinematics.Chain {
	t.Helper()
	r, err := urdf.Parse(strings.NewReader(bench6), "wagtail.urdf")
	if err != nil {
		t.Fatal(err)
	}
	c, err := kinematics.NewChain(r, from, to)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// onTable is a plan of one step whose part stands on the table.
func onTable(t *testing.T, q kinematics.Q) *plan.Plan {
	t.Helper()
	solver, err := kinematics.NewSolver(bench6Chain(t, "top", "flange"))
	if err != nil {
		t.Fatal(err)
	}
	c := cell.New(cell.Spec{Solver: solver, Table: bench6Chain(t, "top", "foot"), WorldFromFoot: se3.Translation(r3.Vec{Z: 1}),
		BaseFromPart: se3.Identity(), FlangeFromTip: se3.Translation(r3.Vec{X: 0.25})})
	return &plan.Plan{Cell: c, Steps: []plan.Step{{Label: "one", Move: plan.MoveJoint, Percent: 20, Q: q, Pose: c.BaseFromTip(&q)}}}
}

// The arm at zero with the table turned a quarter: the tip is 0.95 m out and 1 m
// up from the arm's foot, by adding up the file's numbers. In the table's top,
// 0.8 m out and 0.3 m up, that is 0.15 m along its -y and 0.7 m up.
func TestKeysOnATurningTable(t *testing.T) {
	p := onTable(t, kinematics.Q{math.Pi / 2})
	quaternion, err := se3.ParseConvention("quaternion w first")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		frame job.FrameName
		want  string
	}{
		{job.FrameBase, "1 950.00 0.00 1000.00 1.000000 0.000000 0.000000 0.000000 90.00 0.00 0.00 0.00 0.00 0.00 0.00"},
		{job.FrameWorld, "1 950.00 0.00 2000.00 1.000000 0.000000 0.000000 0.000000 90.00 0.00 0.00 0.00 0.00 0.00 0.00"},
		{job.FramePart, "1 0.00 -150.00 700.00 0.707107 0.000000 0.000000 -0.707107 90.00 0.00 0.00 0.00 0.00 0.00 0.00"},
	} {
		j := &job.Job{Keying: job.Keying{Frame: row.frame, Length: "mm", Orientation: quaternion, Speed: unit.MillimetresPerSecond}}
		title, rows := keyTable(t, j, p)
		if want := "; joints as the controller shows them, deg"; !strings.HasSuffix(title, want) {
			t.Errorf("%s: got %q, want it to end with %q", row.frame, title, want)
		}
		if got := strings.Join(rows[0], " "); got != "step x y z quaternion w quaternion x quaternion y quaternion z table j1 j2 j3 j4 j5 j6 move speed arc label" {
			t.Errorf("%s: heads %q", row.frame, got)
		}
		if got := strings.Join(rows[1], " "); got != row.want+" joint 20 percent one" {
			t.Errorf("%s: got %q, want %q", row.frame, got, row.want)
		}
	}
}

// Joint values are those that the controller shows, in its unit; without an
// orientation convention they are all there is to key in.
func TestKeysShowJointsAsTheControllerDoes(t *testing.T) {
	p := onTable(t, kinematics.Q{math.Pi / 2, 0.1, -0.2})
	j := &job.Job{Keying: job.Keying{Frame: job.FrameBase, Joints: "rad", Speed: unit.MillimetresPerSecond}}
	for range 7 {
		j.Arm.Shown = append(j.Arm.Shown, job.Shown{Sign: 1})
	}
	j.Arm.Shown[0] = job.Shown{Zero: math.Pi, Sign: -1}
	j.Arm.Shown[2] = job.Shown{Zero: -0.5, Sign: 1}
	title, rows := keyTable(t, j, p)
	if want := "Values to key in: joints as the controller shows them, rad"; title != want {
		t.Errorf("got %q, want %q", title, want)
	}
	// The table at pi/2, counted down from pi; joint 2 from -0.5.
	want := "1 1.570796 0.100000 0.300000 0.000000 0.000000 0.000000 0.000000 joint 20 percent one"
	if got := strings.Join(rows[1], " "); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
