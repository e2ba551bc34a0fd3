package job_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// onTable is the small document with a table beside its arm: 1 m along the
// foot's x, its top turns about z, below it a tilt about the foot's x.
func onTable(t testing.TB) memory {
	t.Helper()
	m := small(t)
	m.swap(t, "arm.urdf", `<link name="base"/>`, `<link name="base"/><link name="cradle"/><link name="top"/>
<joint name="tilt" type="revolute"><parent link="base"/><child link="cradle"/><origin xyz="1 0 0"/><axis xyz="1 0 0"/><limit lower="-2" upper="2" velocity="1" effort="1"/></joint>
<joint name="turn" type="continuous"><parent link="cradle"/><child link="top"/><axis xyz="0 0 1"/></joint>`)
	m.swap(t, "job.yaml", "flange_link: flange}", "flange_link: flange, part_link: top}")
	m.swap(t, "job.yaml", "joints: [0, -60, 90", "joints: [5, 0, 0, -60, 90")
	m.swap(t, "job.yaml", "file: taught.csv", "table: [0 deg, 0 deg]\n  file: taught.csv")
	m["taught.csv"] = "label,x,y,z,r1,r2,r3\nW1 start,1300,0,100,0,0,0\nW1 end,1300,100,100,0,0,0\n"
	return m
}

// swap replaces the first of a text that must be there.
func (m memory) swap(t testing.TB, file, old, new string) {
	t.Helper()
	if !strings.Contains(m[file], old) {
		t.Fatalf("%q is not in %s", old, file)
	}
	m[file] = strings.Replace(m[file], old, new, 1)
}

// A tip seen by the arm 300 mm beyond the table's middle and 100 mm up, with the
// table turned this way and that: by hand, in the top's frame.
func TestPointsOnATurningTable(t *testing.T) {
	for _, row := range []struct {
		name        string
		table       string
		want        r3.Vec
		turned      se3.Rot // base from the arm's foot
		turn, tilt  float64
		measured    string
		worldFromAt string // cell.world_from_base, "" for none
	}{
		{name: "as at zero", table: "[0 deg, 0 deg]", want: r3.Vec{X: 0.3, Z: 0.1}, turned: se3.RotIdentity()},
		{name: "turned a quarter", table: "[90 deg, 0 deg]", want: r3.Vec{Y: -0.3, Z: 0.1}, turned: se3.RotZ(-90 * deg), turn: 90 * deg},
		{name: "tilted a quarter", table: "[0 deg, 90 deg]", want: r3.Vec{X: 0.3, Y: 0.1}, turned: se3.RotX(-90 * deg), tilt: 90 * deg},
		{name: "in the part's frame", table: "[90 deg, 90 deg]", want: r3.Vec{X: 1.3, Z: 0.1}, turned: se3.RotIdentity(), turn: 90 * deg, tilt: 90 * deg, measured: "part"},
		{name: "in the world", table: "[90 deg, 0 deg]", want: r3.Vec{Y: -0.3, Z: -0.66}, turned: se3.RotZ(-90 * deg), turn: 90 * deg, measured: "world", worldFromAt: "760 mm"},
	} {
		t.Run(row.name, func(t *testing.T) {
			m := onTable(t)
			m.swap(t, "job.yaml", "table: [0 deg, 0 deg]", "table: "+row.table)
			if row.measured != "" {
				m.swap(t, "job.yaml", "measured_in: base", "measured_in: "+row.measured)
			}
			if row.worldFromAt != "" {
				m["job.yaml"] += "cell: {world_from_base: {at: [0 mm, 0 mm, " + row.worldFromAt + "], orientation: fixed x-y-z degrees, turn: [0, 0, 0]}}\n"
			}
			j := decodeSmall(t, m)
			samePose(t, "W1 start", j.Points[0].Pose, se3.Pose{R: row.turned, P: row.want})
			if want := []float64{row.turn, row.tilt}; !nearAll(j.Points[0].Table, want) {
				t.Errorf("table %v, want %v", j.Points[0].Table, want)
			}
			if home := j.Points[2]; !nearAll(home.Joints[:3], []float64{5 * deg, 0, 0}) || len(home.Joints) != 8 || !nearAll(home.Table, []float64{5 * deg, 0}) {
				t.Errorf("home %v, table %v", home.Joints, home.Table)
			}
			if j.Arm.PartLink != "top" || j.Arm.BaseLink != "base" {
				t.Errorf("links %q, %q", j.Arm.PartLink, j.Arm.BaseLink)
			}
		})
	}
}

// A row's own table goes before that of all rows; columns of a file and inline
// rows say it in the unit of joint values.
func TestATableOfItsOwnForARow(t *testing.T) {
	m := onTable(t)
	m["taught.csv"] = "label,x,y,z,r1,r2,r3,t1,t2\nW1 start,1300,0,100,0,0,0,90,0\nW1 end,1300,100,100,0,0,0,,\n"
	m.swap(t, "job.yaml", "  rows:\n", "  rows:\n    - {label: W1 touch, place: [1300, 0, 100], table: [0, 90]}\n")
	p := decodeSmall(t, m).Points
	samePose(t, "own in a file", p[0].Pose, se3.Pose{R: se3.RotZ(-90 * deg), P: r3.Vec{Y: -0.3, Z: 0.1}})
	samePose(t, "empty in a file", p[1].Pose, se3.Pose{R: se3.RotIdentity(), P: r3.Vec{X: 0.3, Y: 0.1, Z: 0.1}})
	if at := p[2].Pose.P; at.Dist(r3.Vec{X: 0.3, Y: 0.1}) > 1e-12 || p[2].HasTurn {
		t.Errorf("own inline at %v", at)
	}
}

// A plate's direction is carried as the seam's first point is.
func TestDirectionsOnATurningTable(t *testing.T) {
	m := onTable(t)
	m.swap(t, "job.yaml", "table: [0 deg, 0 deg]", "table: [90 deg, 0 deg]")
	m.swap(t, "job.yaml", "base: level", "base: {direction: [1, 0, 0]}")
	if got := decodeSmall(t, m).Seams[0].Base.Direction; got.Dist(r3.Vec{Y: -1}) > 1e-12 {
		t.Errorf("direction %v, want -y", got)
	}
}

// What the controller shows is turned into the file's values: those of the table
// as well, and lengths of joints that slide.
func TestShownJointsOnATable(t *testing.T) {
	m := onTable(t)
	m.swap(t, "arm.urdf", `name="j1" type="revolute"`, `name="j1" type="prismatic"`)
	m.swap(t, "job.yaml", "part_link: top}", "part_link: top, zeros: [-90 deg, 0 deg, 250 mm, 0 deg, 0 deg, 0 deg, 0 deg, 0 deg], signs: [-1, 1, -1, 1, 1, 1, 1, 1],"+
		" joint_acceleration: [3 rad/s2, 3 rad/s2, 2 m/s2, 3 rad/s2, 3 rad/s2, 3 rad/s2, 3 rad/s2, 3 rad/s2]}")
	m.swap(t, "job.yaml", "joints: [5, 0, 0", "joints: [5, 0, 100")
	m.swap(t, "job.yaml", "table: [0 deg, 0 deg]", "table: [-180 deg, 0 deg]")
	p := decodeSmall(t, m).Points
	if want := []float64{-95 * deg, 0, 0.15, -60 * deg, 90 * deg, 0, 60 * deg, 0}; !nearAll(p[2].Joints, want) {
		t.Errorf("joints %v, want %v", p[2].Joints, want)
	}
	// Shown at -180 deg the top stands at -90 + 180 = 90 deg.
	samePose(t, "W1 start", p[0].Pose, se3.Pose{R: se3.RotZ(-90 * deg), P: r3.Vec{Y: -0.3, Z: 0.1}})
}

func TestShownBothWays(t *testing.T) {
	for _, s := range []job.Shown{{Sign: 1}, {Zero: 1.5, Sign: -1}, {Zero: -0.25, Sign: 1}} {
		for _, v := range []float64{-2, 0, 0.5} {
			if got := s.Of(s.File(v)); !near(got, v) {
				t.Errorf("%+v: %v comes back as %v", s, v, got)
			}
		}
		if s.File(0) != s.Zero {
			t.Errorf("%+v: shown at 0 it stands at %v", s, s.File(0))
		}
	}
}

// The table may hang below the base link or on a common root, on a stem that
// joints move too.
func TestWhereATableMayHang(t *testing.T) {
	const stem = `<link name="root"/><link name="floor"/><joint name="cart" type="prismatic"><parent link="root"/><child link="floor"/><limit lower="0" upper="1" velocity="1" effort="1"/></joint>
<joint name="stand" type="fixed"><parent link="floor"/><child link="base"/></joint>`
	for _, from := range []string{"base", "floor"} {
		m := onTable(t)
		m.swap(t, "arm.urdf", `<parent link="base"/><child link="cradle"/>`, fmt.Sprintf(`<parent link=%q/><child link="cradle"/>`, from))
		if from == "floor" {
			m.swap(t, "arm.urdf", `<link name="base"/>`, `<link name="base"/>`+stem)
		}
		j := decodeSmall(t, m)
		if got := j.Points[0].Table; !reflect.DeepEqual(got, []float64{0, 0}) {
			t.Errorf("on %s: table %v", from, got)
		}
	}
}
