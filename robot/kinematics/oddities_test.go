package kinematics_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// Files in the manners in which arms are published, all of one invented arm:
// shoulder 0.5 m up and 0.15 m out, upper arm 0.6 m, elbow 0.12 m, forearm
// 0.6 m, wrist to flange 0.08 m.

const limit = `<limit lower="-3" upper="3" effort="100" velocity="2"/>`

// odd is one joint as text.
type odd struct{ name, kind, from, to, xyz, rpy, axis, more string }

func (j odd) String() string {
	return fmt.Sprintf("<joint name=%q type=%q><parent link=%q/><child link=%q/><origin xyz=%q rpy=%q/><axis xyz=%q/>%s</joint>\n",
		j.name, j.kind, j.from, j.to, j.xyz, j.rpy, j.axis, j.more)
}

// plain returns the arm with every axis written in the base's directions.
func plain() []odd {
	rows := [][2]string{{"0 0 0.4", "0 0 1"}, {"0.15 0 0.1", "0 1 0"}, {"0 0 0.6", "0 1 0"}, {"0.1 0 0.12", "1 0 0"}, {"0.5 0 0", "0 1 0"}, {"0.08 0 0", "1 0 0"}}
	return line6(func(i int) odd { return odd{xyz: rows[i][0], rpy: "0 0 0", axis: rows[i][1]} })
}

// turned returns the arm with every axis along its own z.
func turned(right string) []odd {
	rows := [][2]string{{"0 0 0.4", "0 0 0"}, {"0.15 0 0.1", "-" + right + " 0 0"}, {"0 -0.6 0", "0 0 0"},
		{"0.1 -0.12 0", "0 " + right + " 0"}, {"0 0 0.5", "0 -" + right + " 0"}, {"0.08 0 0", "0 " + right + " 0"}}
	return line6(func(i int) odd { return odd{xyz: rows[i][0], rpy: rows[i][1], axis: "0 0 1"} })
}

// line6 names six joints and their links.
func line6(of func(i int) odd) (list []odd) {
	names := []string{"base_link", "link_1", "link_2", "link_3", "link_4", "link_5", "link_6"}
	for i := range 6 {
		j := of(i)
		j.name, j.kind, j.from, j.to, j.more = fmt.Sprint("joint_", i+1), "revolute", names[i], names[i+1], limit
		list = append(list, j)
	}
	return list
}

// fixed returns a joint that does not move.
func fixed(from, to, xyz, rpy string) odd {
	return odd{name: from + "-" + to, kind: "fixed", from: from, to: to, xyz: xyz, rpy: rpy, axis: "0 0 0"}
}

// with returns joint i of list changed by f.
func with(list []odd, i int, f func(*odd)) []odd {
	f(&list[i])
	return list
}

// fileOf writes joints, their links and anything more as a file.
func fileOf(joints []odd, more string) string {
	var links, rest strings.Builder
	seen := map[string]bool{}
	for _, j := range joints {
		for _, l := range []string{j.from, j.to} {
			if !seen[l] && !strings.Contains(more, `<link name="`+l+`"`) {
				fmt.Fprintf(&links, "<link name=%q/>\n", l)
			}
			seen[l] = true
		}
		rest.WriteString(j.String())
	}
	return "<?xml version=\"1.0\"?>\n<robot name=\"odd\">\n" + links.String() + rest.String() + more + "</robot>\n"
}

// At zero the flange is 0.83 m out and 1.22 m up, with the base's axes in the
// plain file; by adding up the numbers.
func TestOddFiles(t *testing.T) {
	zero := r3.Vec{X: 0.83, Z: 1.22}
	axis := func(v string) func(*odd) { return func(j *odd) { j.axis = v } }
	rows := []struct {
		name      string
		file      string
		base, tip string
		family    kinematics.Family
		exact     bool
		at        r3.Vec // of the tip in the base, every joint at zero
	}{
		{"axes in the base's directions", fileOf(plain(), ""), "base_link", "link_6", kinematics.SphericalWrist, true, zero},
		{"fixed chains before and after", fileOf(append([]odd{fixed("floor", "stand", "1 0 0", "0 0 0"), fixed("stand", "base_link", "0 0 0.5", "0 0 0")},
			append(plain(), fixed("link_6", "flange", "0 0 0", "0 1.5707963267948966 0"), fixed("flange", "torch", "0 0 0.3", "0 0 0"))...), ""),
			"floor", "torch", kinematics.SphericalWrist, true, r3.Vec{X: 2.13, Z: 1.72}},
		{"every axis along its own z", fileOf(turned("1.5707963267948966"), ""), "base_link", "link_6", kinematics.SphericalWrist, true, zero},
		{"axes the other way", fileOf(with(with(with(plain(), 0, axis("0 0 -1")), 2, axis("0 -1 0")), 5, axis("-1 0 0")), ""), "base_link", "link_6", kinematics.SphericalWrist, true, zero},
		{"axes not of unit length", fileOf(with(with(plain(), 0, axis("0 0 2")), 4, axis("0 0.5 0")), ""), "base_link", "link_6", kinematics.SphericalWrist, true, zero},
		{"package paths and inertia", fileOf(plain(), `<link name="base_link"><inertial><mass value="40"/><inertia ixx="1" ixy="0" ixz="0" iyy="1" iyz="0" izz="1"/></inertial>`+
			`<visual><geometry><mesh filename="package://odd_arm/meshes/base.stl" scale="0.001 0.001 0.001"/></geometry></visual></link>`), "base_link", "link_6", kinematics.SphericalWrist, true, zero},
		{"first of two tools", fileOf(append(plain(), fixed("link_6", "torch", "0.3 0 0", "0 0 0"), fixed("link_6", "gripper", "0 0 0.2", "0 0 0")), ""), "base_link", "torch", kinematics.SphericalWrist, true, r3.Vec{X: 1.13, Z: 1.22}},
		{"second of two tools", fileOf(append(plain(), fixed("link_6", "torch", "0.3 0 0", "0 0 0"), fixed("link_6", "gripper", "0 0 0.2", "0 0 0")), ""), "base_link", "gripper", kinematics.SphericalWrist, true, r3.Vec{X: 0.83, Z: 1.42}},
		{"joints without end", fileOf(with(with(plain(), 3, func(j *odd) { j.kind, j.more = "continuous", "" }), 5, func(j *odd) { j.kind, j.more = "continuous", "" }), ""), "base_link", "link_6", kinematics.SphericalWrist, true, zero},
		{"hung under a world link", fileOf(append([]odd{fixed("world", "base_link", "0 0 3", "3.141592653589793 0 0")}, plain()...), ""), "world", "link_6", kinematics.SphericalWrist, true, r3.Vec{X: 0.83, Z: 3 - 1.22}},
		{"right angles written 1.5708", fileOf(turned("1.5708"), ""), "base_link", "link_6", kinematics.SphericalWrist, false, zero},
		{"right angles written 1.57", fileOf(turned("1.57"), ""), "base_link", "link_6", kinematics.General, true, zero},
		{"an axis 0.3 um off the wrist point", fileOf(with(plain(), 5, func(j *odd) { j.xyz = "0.08 0.0000003 0" }), ""), "base_link", "link_6", kinematics.SphericalWrist, false, zero},
		{"an axis 0.1 mm off the wrist point", fileOf(with(plain(), 5, func(j *odd) { j.xyz = "0.08 0.0001 0" }), ""), "base_link", "link_6", kinematics.General, true, zero},
		{"on a rail", fileOf(append([]odd{{name: "rail", kind: "prismatic", from: "rail_bed", to: "base_link", xyz: "0 0 0", rpy: "0 0 0", axis: "0 1 0", more: `<limit lower="0" upper="4" effort="1" velocity="1"/>`}}, plain()...), ""), "rail_bed", "link_6", kinematics.SphericalWrist, true, zero},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			r, err := urdf.Parse(strings.NewReader(row.file), "odd.urdf")
			if err != nil {
				t.Fatal(err)
			}
			s := newSolver(t, newChain(t, r, row.base, row.tip))
			if s.Family() != row.family || s.Exact() != row.exact {
				t.Errorf("family %v, exact %v; want %v, %v", s.Family(), s.Exact(), row.family, row.exact)
			}
			slack := 1e-12
			if !row.exact || row.family == kinematics.General {
				slack = 2e-3 // what the rounding of the file moves
			}
			if at := forward(s.Chain(), kinematics.Q{}); at.P.Dist(row.at) > slack {
				t.Errorf("tip at %v, want %v", at.P, row.at)
			}
			checkRoundTrips(t, s)
		})
	}
}

// checkRoundTrips fails where a posture is not found from its pose.
func checkRoundTrips(t *testing.T, s *kinematics.Solver) {
	t.Helper()
	n := s.Chain().N()
	for _, q := range randomPostures9(20, n, 55) {
		for j := range n {
			if k := s.Chain().Joint(j); k.Kind != kinematics.Continuous {
				q[j] = k.Lower + (q[j]/math.Pi+1)/2*(k.Upper-k.Lower)
			}
		}
		if a := s.Singularity(&q); min(a.Shoulder, a.Elbow, a.Wrist) < 0.02 {
			continue
		}
		out := solve(s, forward(s.Chain(), q), &q)
		checkPostures(t, s, forward(s.Chain(), q), &out)
		if d := nearestLong(q, &out, n); d > 1e-7 {
			t.Errorf("posture %v is missing by %.3g, %v", q, d, out.Status)
		}
	}
}

func TestOddFilesThatAreRefused(t *testing.T) {
	rows := []struct{ name, file, want string }{
		{"no limit", fileOf(with(plain(), 1, func(j *odd) { j.more = "" }), ""), `joint "joint_2" limit: found none`},
		{"copied joint", fileOf(with(plain(), 2, func(j *odd) { j.more = limit + `<mimic joint="joint_2"/>` }), ""), `joint "joint_3" mimic: found a joint that copies another`},
		{"no unit", fileOf(with(plain(), 2, func(j *odd) { j.xyz = "0 0 600mm" }), ""), `joint "joint_3" origin xyz: found "0 0 600mm"`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			_, err := urdf.Parse(strings.NewReader(row.file), "odd.urdf")
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got  %v\nwant %s", err, row.want)
			}
		})
	}
}

// Two ways of writing one arm answer alike.
func TestOddFilesOfOneArmAgree(t *testing.T) {
	read := func(file string) *kinematics.Solver {
		r, err := urdf.Parse(strings.NewReader(file), "odd.urdf")
		if err != nil {
			t.Fatal(err)
		}
		return newSolver(t, newChain(t, r, "base_link", "link_6"))
	}
	a, b := read(fileOf(plain(), "")), read(fileOf(turned("1.5707963267948966"), ""))
	// The links' frames differ, the axes do not: the flange of the second is
	// turned as at zero.
	var q kinematics.Q
	turn := se3.Pose{R: forward(a.Chain(), q).R.T().Mul(forward(b.Chain(), q).R)}
	for _, q := range randomPostures9(50, 6, 3) {
		pose := forward(a.Chain(), q)
		if d := largest(pose.Mul(turn), forward(b.Chain(), q)); d > 1e-12 {
			t.Errorf("flanges differ by %.3g", d)
		}
		x, y := solve(a, pose, &q), solve(b, pose.Mul(turn), &q)
		if x.N != y.N || x.Branch != y.Branch {
			t.Errorf("%d postures, the other file gives %d", x.N, y.N)
		}
	}
}
