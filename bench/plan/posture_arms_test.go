package plan_test

import (
	"context"
	"fmt"
	"math"
	"os"
	"testing"

	"pgregory.net/rapid"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
	"seamwright/weld/seam"
)

// anyArm is an example arm with the room in which seams are drawn for it.
type anyArm struct {
	file, arm   string // the arm's file, and how the job names its links
	home        string // joint values, deg and mm
	low, high   r3.Vec // corners of the room, mm, base frame
	taughtTable string // of the seam's rows
}

// anyArms stand for every kind: seven axes, on a gantry, beside a turning table
// of two axes, and without a closed form.
var anyArms = []anyArm{
	{"redshank.urdf", "base_link: base", "0, 20, 0, 20, 0, 60, 0", r3.Vec{X: 350, Y: -500, Z: 0}, r3.Vec{X: 650, Y: 500, Z: 300}, ""},
	{"fulmar.urdf", "base_link: portal, joint_acceleration: [2000 mm/s2, 400 deg/s2, 400 deg/s2, 400 deg/s2, 600 deg/s2, 600 deg/s2, 600 deg/s2]",
		"0, 0, 20, -20, 0, 60, 0", r3.Vec{X: 300, Y: -1900, Z: 1600}, r3.Vec{X: 700, Y: 1900, Z: 2000}, ""},
	{"whimbrel.urdf", "base_link: base, part_link: table_top", "0, 0, 0, -60, 90, -120, -90, 0", r3.Vec{X: -400, Y: -400, Z: 0}, r3.Vec{X: 400, Y: 400, Z: 150}, ", table: [0, 0]"},
	{"turnstone.urdf", "base_link: base", "0, 0, 0, 0, 60, 0", r3.Vec{X: 450, Y: -500, Z: 0}, r3.Vec{X: 900, Y: 500, Z: 400}, ""},
}

// draw draws the job of one straight fillet in the room.
func (a anyArm) draw(r *rapid.T) files {
	at := func(what string) r3.Vec {
		within := func(axis string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(r, what+axis) }
		return r3.Vec{X: within(".x", a.low.X, a.high.X), Y: within(".y", a.low.Y, a.high.Y), Z: within(".z", a.low.Z, a.high.Z)}
	}
	from := at("from")
	yaw, length := rapid.Float64Range(-math.Pi, math.Pi).Draw(r, "yaw"), rapid.Float64Range(50, 350).Draw(r, "length")
	to := from.Add(r3.Vec{X: length * math.Cos(yaw), Y: length * math.Sin(yaw)})
	spin := rapid.SampledFrom([]string{"free", "0 deg", "70 deg"}).Draw(r, "spin")
	place := func(v r3.Vec) string { return fmt.Sprintf("%.3f, %.3f, %.3f", v.X, v.Y, v.Z) }
	return a.between(r, place(from), place(to), spin)
}

// between is the job of one straight fillet between two places, mm.
func (a anyArm) between(t interface{ Fatal(...any) }, from, to, spin string) files {
	data, err := os.ReadFile("../../examples/arms/" + a.file)
	if err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprintf(`seamwright: 1
name: stool foot
code: iso
arm: {urdf: %s, %s, flange_link: flange}
torch: {body: 210 mm, neck: 120 mm, neck_angle: 35 deg, nozzle: 22 mm, tip_recess: 2 mm, stick_out: 13 mm}
points:
  measured_in: base
  point: tip
  length: mm
  orientation: fixed x-y-z degrees
  joints: deg
  rows:
    - {label: home, joints: [%s]}
    - {label: start, pose: [%s, 180, 0, 0]%s}
    - {label: end, pose: [%s, 180, 0, 0]%s}
home: home
settings:
  sets:
    - {id: 11, name: z5, process: 135, transfer: spray, wire: 1.0 mm, gas: M21, gas_flow: 15 L/min, feed: 9.0 m/min, volts: 23.5 V, amps: 205 A, efficiency: 96 percent, start_time: 0.3 s, crater_time: 0.5 s}
seams:
  - name: W1
    joint: tee
    line: [start, end]
    base: level
    upright: left
    weld: {leg: 5 mm}
    settings: 11
    torch: {work: 45 deg, travel: push 10 deg, spin: %s}
    approach: {out: 30 mm}
    retreat: {out: 30 mm}
`, a.file, a.arm, a.home, from, a.taughtTable, to, a.taughtTable, spin)
	return files{"job.yaml": text, a.file: string(data)}
}

// TestEveryArm: whatever straight seam stands before an arm of any kind, every
// station of the way that is found has the torch where it is wanted, keeps the
// limits and lies near the one before it, and the run goes through it all in
// time; where none is found the plan says where and what to do.
func TestEveryArm(t *testing.T) {
	var found, stopped [4]int
	rapid.Check(t, func(r *rapid.T) {
		i := rapid.SampledFrom([]int{0, 0, 1, 1, 2, 3}).Draw(r, "arm")
		j, err := job.Decode("job.yaml", anyArms[i].draw(r))
		if err != nil {
			r.Fatal(err)
		}
		p, err := plan.Make(context.Background(), j, nil)
		if err != nil {
			r.Fatal(err)
		}
		if p.Seams[0].Passes[0].Motion == nil {
			stopped[i]++
			saysWhere(r, p)
			return
		}
		found[i]++
		holdStations(r, p)
		for k := 1; k < len(p.Trace); k++ {
			holdStep(r, p, &p.Trace[k-1], &p.Trace[k])
		}
	})
	t.Logf("found %v, stopped %v", found, stopped)
	for i, n := range found {
		if n == 0 {
			t.Errorf("%s: no way was found for any seam", anyArms[i].file)
		}
	}
}

// holdStations holds the stations of the one pass against the wanted poses and
// the joints.
func holdStations(r *rapid.T, p *plan.Plan) {
	s := &p.Seams[0]
	m, aim := s.Passes[0].Motion, s.Passes[0].Aim
	length := s.Way.Length()
	for i := range m.Stations {
		st := &m.Stations[i]
		at := min(max(st.Along, 0), length)
		out := st.Along - at // m beside the weld, back along the wire
		aim := seam.Aim{Work: aim.Work, Travel: aim.Travel, Offset: aim.Offset, Spin: st.Spin}
		want := s.Way.At(at).Frame.Encode(aim)
		want.P = want.P.AddScaled(-math.Abs(out), want.R.Z())
		got := p.Cell.BaseFromTip(&st.Q)
		if d := got.P.Dist(want.P); d > 1e-9 {
			r.Fatalf("station %d: the tip is %.3g m off", i, d)
		}
		if a := got.R.AngleTo(want.R); a > 1e-9 {
			r.Fatalf("station %d: the torch is %.3g rad off", i, a)
		}
		for k := range p.Cell.Chain.N() {
			joint := p.Cell.Chain.Joint(k)
			if st.Q[k] < joint.Lower || st.Q[k] > joint.Upper {
				r.Fatalf("station %d: %s at %g", i, joint.Name, st.Q[k])
			}
			most := 25 * degree // the bound of the search, and what smoothing adds
			if joint.Kind == kinematics.Prismatic {
				most *= 0.3
			}
			if i > 0 && math.Abs(st.Q[k]-m.Stations[i-1].Q[k]) > 1.5*most {
				r.Fatalf("station %d: %s steps by %g", i, joint.Name, st.Q[k]-m.Stations[i-1].Q[k])
			}
		}
	}
}
