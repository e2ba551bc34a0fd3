package plan_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
)

// The good job's arm written in the manners in which arms are published. The
// plan must not change but where the file says something else.

// armFile parses the arm's file of a job.
func armFile(t *testing.T, f files) *urdf.Robot {
	t.Helper()
	r, err := urdf.Parse(strings.NewReader(f["arm_a.urdf"]), "arm_a.urdf")
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// text writes links and joints as a file, with more before its end.
func text(t *testing.T, r *urdf.Robot, more string) string {
	t.Helper()
	fixed, err := se3.ParseConvention("fixed x-y-z radians")
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "<robot name=%q>\n", r.Name)
	for _, l := range r.Links {
		fmt.Fprintf(&b, "<link name=%q/>\n", l.Name)
	}
	for _, j := range r.Joints {
		var v [3]float64
		fixed.Encode(j.Origin.R, v[:])
		p := j.Origin.P
		fmt.Fprintf(&b, "<joint name=%q type=%q><parent link=%q/><child link=%q/><origin xyz=\"%.17g %.17g %.17g\" rpy=\"%.17g %.17g %.17g\"/>",
			j.Name, j.Kind, j.Parent, j.Child, p.X, p.Y, p.Z, v[0], v[1], v[2])
		fmt.Fprintf(&b, "<axis xyz=\"%.17g %.17g %.17g\"/>", j.Axis.X, j.Axis.Y, j.Axis.Z)
		if l := j.Limit; j.Kind == urdf.Revolute {
			fmt.Fprintf(&b, "<limit lower=\"%.17g\" upper=\"%.17g\" velocity=\"%.17g\" effort=\"%.17g\"/>", l.Lower, l.Upper, l.Velocity, l.Effort)
		}
		b.WriteString("</joint>\n")
	}
	return b.String() + more + "</robot>\n"
}

// turnedFrames turns the frame of every link behind a moving joint, so that no
// axis lies along a coordinate.
func turnedFrames(r *urdf.Robot) {
	before := se3.RotIdentity()
	for i := range r.Joints {
		j := &r.Joints[i]
		after := se3.RotIdentity()
		if j.Kind != urdf.Fixed {
			after = se3.RotZ(0.3 + float64(i)).Mul(se3.RotX(0.7 - float64(i)))
		}
		j.Origin = se3.Pose{R: before.T().Mul(j.Origin.R).Mul(after), P: before.T().Apply(j.Origin.P)}
		j.Axis = after.T().Apply(j.Axis)
		before = after
	}
}

// against counts joint i the other way round.
func against(r *urdf.Robot, i int) {
	j := &r.Joints[i]
	j.Axis, j.Limit.Lower, j.Limit.Upper = j.Axis.Neg(), -j.Limit.Upper, -j.Limit.Lower
}

// rezeroed puts joint i's zero where it stood at a value, rad.
func rezeroed(r *urdf.Robot, i int, at float64) {
	j := &r.Joints[i]
	j.Origin.R = j.Origin.R.Mul(se3.RotAxis(j.Axis, at))
	j.Limit.Lower, j.Limit.Upper = j.Limit.Lower-at, j.Limit.Upper-at
}

// sameRun compares the commanded moves of two plans: poses, and joint values
// but for signs and zeros (rad), shown = sign * (q - zero).
func sameRun(t *testing.T, got, want *plan.Plan, shown []job.Shown) {
	t.Helper()
	if len(got.Steps) != len(want.Steps) || len(want.Steps) < 4 || got.Fit() != want.Fit() {
		t.Fatalf("%d steps, fit %v; want %d, %v:\n%s", len(got.Steps), got.Fit(), len(want.Steps), want.Fit(), list(got.Findings))
	}
	for i := range want.Steps {
		a, b := &got.Steps[i], &want.Steps[i]
		if a.Pose.P.Dist(b.Pose.P) > 1e-8 || a.Pose.R.AngleTo(b.Pose.R) > 1e-8 {
			t.Errorf("step %d at %v, want %v", i+1, a.Pose, b.Pose)
		}
		for k := range 6 {
			v := a.Q[k]
			if shown != nil {
				v = shown[k].Of(v)
			}
			if math.Abs(v-b.Q[k]) > 1e-6 {
				t.Errorf("step %d: joint %d at %v, want %v", i+1, k+1, v, b.Q[k])
			}
		}
	}
}

func TestOddFilesThroughTheDocument(t *testing.T) {
	want := planOf(t, good(t))
	for _, row := range []struct {
		name   string
		change func(t *testing.T, f files, r *urdf.Robot) (more string)
	}{
		{"rotated origins", func(_ *testing.T, _ files, r *urdf.Robot) string { turnedFrames(r); return "" }},
		{"fixed chains before and after", func(t *testing.T, f files, r *urdf.Robot) string {
			f.edit(t, "base_link: base", "base_link: floor")
			f.edit(t, "flange_link: flange", "flange_link: tool0")
			return `<link name="floor"/><link name="stand"/><link name="plate"/><link name="tool0"/>
<joint name="f1" type="fixed"><parent link="floor"/><child link="stand"/><origin xyz="0.2 0 0.5" rpy="0 0 1.5"/></joint>
<joint name="f2" type="fixed"><parent link="stand"/><child link="base"/><origin xyz="` + fmt.Sprintf("%.17g %.17g", -0.2*math.Cos(1.5), 0.2*math.Sin(1.5)) + ` -0.5" rpy="0 0 -1.5"/></joint>
<joint name="f3" type="fixed"><parent link="flange"/><child link="plate"/><origin xyz="0 0 0.1" rpy="0 3 0"/></joint>
<joint name="f4" type="fixed"><parent link="plate"/><child link="tool0"/><origin xyz="` + fmt.Sprintf("%.17g 0 %.17g", 0.1*math.Sin(3), -0.1*math.Cos(3)) + `" rpy="0 -3 0"/></joint>
`
		}},
		{"package paths", func(t *testing.T, f files, r *urdf.Robot) string {
			f.edit(t, "flange_link: flange}", "flange_link: flange, shapes: none}")
			r.Links = slices.DeleteFunc(r.Links, func(l urdf.Link) bool { return l.Name == "link2" })
			return `<link name="link2"><visual><geometry><mesh filename="package://arm_a/meshes/link2.stl" scale="0.001 0.001 0.001"/></geometry></visual></link>`
		}},
		{"two tools, the first", func(t *testing.T, f files, _ *urdf.Robot) string {
			f.edit(t, "flange_link: flange", "flange_link: torch_plate")
			return twoTools
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			r := armFile(t, f)
			more := row.change(t, f, r)
			f["arm_a.urdf"] = text(t, r, more)
			sameRun(t, planOf(t, f), want, nil)
		})
	}
}

// twoTools hang on the last link, the second 50 mm further out.
const twoTools = `<link name="torch_plate"/><link name="long_plate"/>
<joint name="t1" type="fixed"><parent link="link6"/><child link="torch_plate"/><origin xyz="0 0 0.06"/></joint>
<joint name="t2" type="fixed"><parent link="link6"/><child link="long_plate"/><origin xyz="0 0 0.11"/></joint>
`

// With the second of two tools the flange is taken 50 mm back for the same seam.
func TestSecondOfTwoTools(t *testing.T) {
	f := good(t)
	f["arm_a.urdf"] = text(t, armFile(t, f), twoTools)
	f.edit(t, "flange_link: flange", "flange_link: long_plate")
	p, want := planOf(t, f), planOf(t, good(t))
	first, was := p.Seams[0].Passes[0].Motion.Stations[0], want.Seams[0].Passes[0].Motion.Stations[0]
	if first.BaseFromTip.P.Dist(was.BaseFromTip.P) > 1e-9 {
		t.Errorf("tip at %v, want %v", first.BaseFromTip.P, was.BaseFromTip.P)
	}
	if first.Q == was.Q {
		t.Error("the arm stands as with the first tool")
	}
}

// A file that counts joints the other way round, or from another zero, than the
// controller: the document says so, taught joint values stay the controller's,
// and the arm makes the same run.
func TestShownJointsThroughTheDocument(t *testing.T) {
	f := good(t)
	r := armFile(t, f)
	against(r, 0)
	against(r, 4)
	rezeroed(r, 2, math.Pi/2)
	f["arm_a.urdf"] = text(t, r, "")
	f.edit(t, "flange_link: flange}", "flange_link: flange, signs: [-1, 1, 1, 1, -1, 1], zeros: [0 deg, 0 deg, -90 deg, 0 deg, 0 deg, 0 deg]}")
	shown := []job.Shown{{Sign: -1}, {Sign: 1}, {Zero: -math.Pi / 2, Sign: 1}, {Sign: 1}, {Sign: -1}, {Sign: 1}}
	p, plain := planOf(t, f), planOf(t, good(t))
	sameRun(t, p, plain, shown)
	if p.Steps[0].Q == plain.Steps[0].Q {
		t.Error("steps hold what the controller shows; they must hold the file's values")
	}
}

// What a file lacks is said with its place.
func TestOddFilesAreRefusedThroughTheDocument(t *testing.T) {
	const limit = `<limit lower="-2.0943951023931953" upper="2.0943951023931953" velocity="2.6" effort="200"/>`
	for _, row := range []struct{ name, old, new, want string }{
		{"no limit", limit, "", `joint "j2" limit: found none; allowed: lower, upper, effort and velocity of a revolute joint`},
		{"no speed", limit, `<limit lower="-2" upper="2" effort="200"/>`, `job.yaml:4:6: arm: found joint "j2" of arm_a.urdf states no speed limit; allowed: a velocity above 0 for every joint`},
		{"no range", limit, `<limit velocity="2.6" effort="200"/>`, `joint "j2" limit lower: found none`},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := good(t)
			f.edit(t, row.old, row.new)
			j, err := job.Decode("job.yaml", f)
			if err == nil {
				_, err = plan.Make(context.Background(), j, nil)
			}
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got  %v\nwant %s", err, row.want)
			}
		})
	}
}
