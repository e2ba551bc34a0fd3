package plan

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"seamwright/bench/job"
)

// benchArm is one of the example arms with a seam before it.
type benchArm struct {
	name, file string
	arm        string // as the job names it
	home       string // joint values, deg and mm
	from, to   string // ends of the seam in the base, mm
	more       string // of the seam's rows
}

// oneFile opens a job's text and its arm's file.
type oneFile struct{ job, arm, urdf string }

func (f oneFile) Open(name string) (io.ReadCloser, error) {
	switch name {
	case "job.yaml":
		return io.NopCloser(strings.NewReader(f.job)), nil
	case f.arm:
		return io.NopCloser(strings.NewReader(f.urdf)), nil
	}
	return nil, fmt.Errorf("open %s: %w", name, os.ErrNotExist)
}

// search returns the search for the one fillet of the bench arm's job.
func (b benchArm) search(t testing.TB) *postureSearch {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "arms", b.file))
	if err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprintf(`seamwright: 1
name: bench
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
    torch: {work: 45 deg, travel: push 10 deg, spin: free}
    approach: {out: 50 mm}
    retreat: {out: 50 mm}
`, b.file, b.arm, b.home, b.from, b.more, b.to, b.more)
	j, err := job.Decode("job.yaml", oneFile{text, b.file, string(data)})
	if err != nil {
		t.Fatal(err)
	}
	m, err := newMaker(j)
	if err != nil {
		t.Fatal(err)
	}
	if err := m.seams(); err != nil {
		t.Fatal(err)
	}
	return m.searchOf(0)
}

const (
	redshankHome = "0, 20, 0, 20, 0, 60, 0"
	slideAccel   = "joint_acceleration: [2000 mm/s2, 400 deg/s2, 400 deg/s2, 400 deg/s2, 600 deg/s2, 600 deg/s2, 600 deg/s2]"
)

// benchArms are seams of 1 m and more for each kind of arm, and how the free
// joints fare.
var benchArms = []benchArm{
	{"seven axes, at rest", "redshank.urdf", "base_link: base", redshankHome, "450, -500, 300", "450, 500, 300", ""},
	{"seven axes, standing elsewhere", "redshank.urdf", "base_link: base", redshankHome, "-500, -500, 300", "-500, 500, 300", ""},
	{"seven axes, moving", "redshank.urdf", "base_link: base", redshankHome, "500, -500, 100", "500, 500, 100", ""},
	{"gantry, at rest", "fulmar.urdf", "base_link: portal, " + slideAccel, "0, 0, 20, -20, 0, 60, 0", "500, -500, 1900", "500, 500, 1900", ""},
	{"gantry, moving", "fulmar.urdf", "base_link: portal, " + slideAccel, "0, 0, 20, -20, 0, 60, 0", "500, -1500, 1900", "500, 1500, 1900", ""},
	{"turning table", "whimbrel.urdf", "base_link: base, part_link: table_top", "0, 0, 0, -60, 90, -120, -90, 0", "-500, -300, 20", "500, -300, 20", ", table: [0, 0]"},
	{"no closed form", "turnstone.urdf", "base_link: base", "0, 0, 0, 0, 60, 0", "650, -500, 100", "650, 500, 100", ""},
	{"closed form", "kittiwake.urdf", "base_link: base", "0, 0, 0, 0, 60, 0", "650, -500, 100", "650, 500, 100", ""},
}

// BenchmarkPosture chooses the postures of one seam of 1 m, the gantry's moving
// of 3 m, on one core.
func BenchmarkPosture(b *testing.B) {
	for _, arm := range benchArms {
		b.Run(arm.name, func(b *testing.B) {
			s := arm.search(b)
			for b.Loop() {
				again := *s
				m, err := again.run(context.Background())
				if err != nil || m == nil {
					b.Fatalf("no way: %v", err)
				}
				b.ReportMetric(float64(again.tried.axes), "axes")
			}
		})
	}
}
