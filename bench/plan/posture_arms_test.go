package plan_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// armCase is one of the example arms with a straight fillet that it can weld.
type armCase struct {
	name       string
	arm        string // the arm's file and links, as the job names them
	home       string // joint values, deg, mm
	from, to   string // the seam's ends in the base, mm
	more       string // of the seam's rows
	spin       string
	withLength bool
}

// everyArm are a general arm of six joints, one of seven, one under a gantry and
// one beside a turning table, all invented: examples/arms.
var everyArm = []armCase{
	{name: "turnstone", arm: "urdf: turnstone.urdf, base_link: base, flange_link: flange", home: "0, 0, 0, 0, 60, 0", from: "650, -200, 100", to: "650, 200, 100"},
	{name: "redshank", arm: "urdf: redshank.urdf, base_link: base, flange_link: flange", home: "0, 20, 0, 20, 0, 60, 0", from: "550, -200, 100", to: "550, 200, 100"},
	{name: "fulmar", arm: "urdf: fulmar.urdf, base_link: portal, flange_link: flange, joint_acceleration: [2000 mm/s2, 400 deg/s2, 400 deg/s2, 400 deg/s2, 600 deg/s2, 600 deg/s2, 600 deg/s2]", home: "0, 0, 20, -20, 0, 60, 0", from: "500, -200, 1900", to: "500, 200, 1900"},
	{name: "whimbrel", arm: "urdf: whimbrel.urdf, base_link: base, part_link: table_top, flange_link: flange", home: "0, 0, 0, -60, 90, -120, -90, 0", from: "-100, 150, 20", to: "100, 150, 20", more: ", table: [0, 0]"},
}

func (c armCase) files(t testing.TB) files {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "arms", c.name+".urdf"))
	if err != nil {
		t.Fatal(err)
	}
	spin := c.spin
	if spin == "" {
		spin = "free"
	}
	job := fmt.Sprintf(`seamwright: 1
name: stool foot
code: iso
arm: {%s}
torch: {body: 210 mm, neck: 120 mm, neck_angle: 35 deg, nozzle: 22 mm, tip_recess: 2 mm, stick_out: 13 mm}
points:
  measured_in: base
  point: tip
  length: mm
  orientation: fixed x-y-z degrees
  joints: deg
  rows:
    - {label: home, joints: [%s]}
    - {label: W1 start, pose: [%s, 180, 0, 0]%s}
    - {label: W1 end, pose: [%s, 180, 0, 0]%s}
home: home
settings:
  sets:
    - {id: 11, name: z5, process: 135, transfer: spray, wire: 1.0 mm, gas: M21, gas_flow: 15 L/min, feed: 9.0 m/min, volts: 23.5 V, amps: 205 A, efficiency: 96 percent, start_time: 0.3 s, crater_time: 0.5 s}
seams:
  - name: W1
    joint: tee
    line: [W1 start, W1 end]
    base: level
    upright: left
    weld: {leg: 5 mm}
    settings: 11
    torch: {work: 45 deg, travel: push 10 deg, spin: %s}
    approach: {out: 50 mm}
    retreat: {out: 50 mm}
`, c.arm, c.home, c.from, c.more, c.to, c.more, spin)
	return files{"job.yaml": job, c.name + ".urdf": string(data)}
}

func TestEveryArmPlans(t *testing.T) {
	for _, c := range everyArm {
		t.Run(c.name, func(t *testing.T) {
			p := planOf(t, c.files(t))
			s := p.Seams[0]
			m := s.Passes[0].Motion
			if m == nil {
				t.Fatalf("no way:\n%s", list(p.Findings))
			}
			t.Logf("stations %d knots %d, reach %+v\nfirst %v\nlast %v\n%s", len(m.Stations), len(m.Knots), s.Passes[0].Reach, m.Stations[0].Q, m.Stations[len(m.Stations)-1].Q, list(p.Findings))
		})
	}
	_ = strings.Join
}
