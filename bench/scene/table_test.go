package scene_test

import (
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// texts are files by name; what is not among them is one of the examples.
type texts map[string]string

func (f texts) Open(name string) (io.ReadCloser, error) {
	if text, ok := f[name]; ok {
		return io.NopCloser(strings.NewReader(text)), nil
	}
	return os.Open("../../examples/" + name)
}

// onTable is a job on whimbrel, whose turning table carries a block and a clamp; a
// post and the floor stand beside it.
const onTable = `
seamwright: 1
name: lid
code: iso
arm: {urdf: arms/whimbrel.urdf, base_link: base, flange_link: flange, part_link: table_top}
torch: {body: 200 mm, neck: 120 mm, neck_angle: 35 deg, nozzle: 20 mm, tip_recess: 2 mm, stick_out: 14 mm}
points:
  measured_in: part
  point: tip
  length: mm
  joints: deg
  table: [0 deg, 0 deg]
  rows:
    - {label: home, joints: [0, 0, 0, -30, 60, 0, 60, 0]}
    - {label: a, place: [0, 0, 40]}
    - {label: b, place: [100, 0, 40]}
home: home
settings: {file: keel-cradle/settings.yaml}
shapes:
  - {name: block, is: part, box: {size: [100 mm, 100 mm, 40 mm]}, measured_in: part, at: [120 mm, -50 mm, 0 mm]}
  - {name: clamp, box: {size: [20 mm, 20 mm, 60 mm]}, measured_in: part, at: [-150 mm, -10 mm, 0 mm]}
  - {name: post, post: {side: 100 mm, height: 1200 mm}, measured_in: base, at: [1150 mm, 600 mm, -450 mm]}
  - {name: shop floor, floor: {height: -450 mm}}
seams:
  - {name: W1, joint: tee, line: [a, b], base: level, upright: left, weld: {leg: 5 mm}, settings: "6", torch: {travel: push 10 deg}}
`

func tableScene(t *testing.T) *scene.Scene {
	t.Helper()
	j, err := job.Decode("job.yaml", texts{"job.yaml": onTable})
	if err != nil {
		t.Fatal(err)
	}
	return scenes(t, j, cellOf(t, j))
}

// What is measured in part turns with the table, what is measured in base does
// not: the block comes near the post as the table turns about its middle, which
// stands 1150 mm before the arm's foot and 600 mm from the post's.
func TestShapesTurnWithTheTable(t *testing.T) {
	s := tableScene(t)
	i := pairOf(t, s, "block", "post")
	r := s.Model.Wanted(-1)
	r[i] = 1
	for _, row := range []struct {
		turn float64 // deg
		want float64 // mm
	}{
		// The block reaches from 120 to 220 mm along the table's x, 50 to either side,
		// the post from 550 mm along its y at zero, 50 to either side.
		{0, math.Hypot(120-50, 550-50)},
		{90, 550 - 220},
		{180, math.Hypot(120-50, 550-50)},
		{270, 550 + 120},
	} {
		q := kinematics.Q{row.turn * math.Pi / 180}
		near, _ := s.Model.Least(s.Model.Scratch(), &q, r, 10)
		// The chain leads from the top down: its first joint is the table's turn.
		if got := near.Distance / mm; math.Abs(got-row.want) > 1e-6 {
			t.Errorf("turned by %v deg: %.6f mm, want %.6f", row.turn, got, row.want)
		}
	}
}

func TestLimitsOnATurningTable(t *testing.T) {
	s := tableScene(t)
	for _, row := range []struct{ a, b, want string }{
		{"block", "post", "self"}, {"clamp", "shop floor", "self"}, {"block", "cradle", "self"},
		{"nozzle", "block", "nozzle"}, {"nozzle", "cradle", "nozzle"}, {"nozzle", "table_top", "nozzle"},
		{"link3", "block", "arm"}, {"link3", "table_top", "arm"}, {"link3", "shop floor", "arm"},
		{"base", "table_top", "self"}, {"link2", "link4", "self"},
	} {
		if l := s.Limit(scene.Weld, pairOf(t, s, row.a, row.b)); l.Field != row.want {
			t.Errorf("%s and %s: %+v, want %s", row.a, row.b, l, row.want)
		}
	}
	for _, pair := range [][2]string{{"block", "clamp"}, {"block", "table_top"}, {"post", "shop floor"}, {"post", "base"}} {
		if indexOf(s, pair[0], pair[1]) >= 0 {
			t.Errorf("%s and %s do not move on each other and are looked at", pair[0], pair[1])
		}
	}
	for _, b := range s.Model.Bodies() {
		if b.Name == "block" && (b.Link != 0 || b.LinkFromBody.P.Dist(r3.Vec{X: 0.17, Z: 0.02}) > 1e-12) {
			t.Errorf("block on link %d at %v", b.Link, b.LinkFromBody)
		}
	}
}
