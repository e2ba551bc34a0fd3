package plan

import (
	"context"
	"fmt"
	"io"
	"math"
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
	under      string // what the arm stands on, in the words of its file
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

// twenty returns a job of 20 straight fillets of 250 mm each, in all directions
// about a place (mm), their centres closer together by the factor spread.
func (b benchArm) twenty(t testing.TB, x, y, z, spread float64) *maker {
	t.Helper()
	var list []fillet
	for i := range 20 {
		sin, cos := math.Sincos(float64(i) * 18 / deg)
		at := [2]float64{x + spread*(75*float64(i%4)-112.5), y + spread*(-300+150*float64(i/4))}
		list = append(list, fillet{
			fmt.Sprintf("%.1f, %.1f, %g", at[0]-125*cos, at[1]-125*sin, z), fmt.Sprintf("%.1f, %.1f, %g", at[0]+125*cos, at[1]+125*sin, z),
		})
	}
	return b.maker(t, list)
}

// search returns the search for the one fillet of the bench arm's job.
func (b benchArm) search(t testing.TB) *postureSearch {
	t.Helper()
	return b.maker(t, []fillet{{b.from, b.to}}).searchOf(passAt{})
}

// fillet is a straight fillet by its ends in the base, mm.
type fillet struct{ from, to string }

// maker returns the maker of a job of fillets, up to where arms matter.
func (b benchArm) maker(t testing.TB, list []fillet) *maker {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "examples", "arms", b.file))
	if err != nil {
		t.Fatal(err)
	}
	j, err := job.Decode("job.yaml", oneFile{b.text(list), b.file, strings.Replace(string(data), "</robot>", b.under+"</robot>", 1)})
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
	return m
}

// text is the document of a job of fillets.
func (b benchArm) text(list []fillet) string {
	var rows, seams strings.Builder
	for i, f := range list {
		fmt.Fprintf(&rows, "    - {label: W%[1]d start, pose: [%[2]s, 180, 0, 0]%[4]s}\n    - {label: W%[1]d end, pose: [%[3]s, 180, 0, 0]%[4]s}\n", i+1, f.from, f.to, b.more)
		fmt.Fprintf(&seams, `  - name: W%[1]d
    joint: tee
    line: [W%[1]d start, W%[1]d end]
    base: level
    upright: left
    weld: {leg: 5 mm}
    settings: 11
    torch: {work: 45 deg, travel: push 10 deg, spin: free}
    approach: {out: 50 mm}
    retreat: {out: 50 mm}
`, i+1)
	}
	return fmt.Sprintf(`seamwright: 1
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
%shome: home
settings:
  sets:
    - {id: 11, name: z5, process: 135, transfer: spray, wire: 1.0 mm, gas: M21, gas_flow: 15 L/min, feed: 9.0 m/min, volts: 23.5 V, amps: 205 A, efficiency: 96 percent, start_time: 0.3 s, crater_time: 0.5 s}
seams:
%s`, b.file, b.arm, b.home, rows.String(), seams.String())
}

// onTrackAndLift puts an arm on a lift that stands on a track.
const onTrackAndLift = `<link name="floor"/><link name="car"/>
<joint name="track" type="prismatic"><parent link="floor"/><child link="car"/><axis xyz="0 1 0"/><limit lower="-2" upper="2" velocity="0.5" effort="100"/></joint>
<joint name="lift" type="prismatic"><parent link="car"/><child link="base"/><axis xyz="0 0 1"/><limit lower="0" upper="0.8" velocity="0.2" effort="100"/></joint>
`

const (
	redshankHome = "0, 20, 0, 20, 0, 60, 0"
	slideAccel   = "joint_acceleration: [2000 mm/s2, 400 deg/s2, 400 deg/s2, 400 deg/s2, 600 deg/s2, 600 deg/s2, 600 deg/s2]"
)

// benchArms are seams of 1 m and more for each kind of arm, and what its free
// joints do there.
var benchArms = []struct {
	benchArm
	axes axesMay
}{
	{benchArm{name: "seven axes, at rest", file: "redshank.urdf", arm: "base_link: base", home: redshankHome, from: "400, -500, 100", to: "400, 500, 100"}, rest},
	{benchArm{name: "seven axes, standing elsewhere", file: "redshank.urdf", arm: "base_link: base", home: redshankHome, from: "450, -500, 100", to: "450, 500, 100"}, standStill},
	{benchArm{name: "seven axes, moving", file: "redshank.urdf", arm: "base_link: base", home: redshankHome, from: "500, -500, 200", to: "500, 500, 200"}, move},
	{benchArm{name: "gantry, at rest", file: "fulmar.urdf", arm: "base_link: portal, " + slideAccel, home: "0, 0, 20, -20, 0, 60, 0", from: "500, -500, 1900", to: "500, 500, 1900"}, rest},
	{benchArm{name: "gantry, moving over 3 m", file: "fulmar.urdf", arm: "base_link: portal, " + slideAccel, home: "0, 0, 20, -20, 0, 60, 0", from: "500, -1500, 1900", to: "500, 1500, 1900"}, move},
	{benchArm{name: "nine axes, moving", file: "redshank.urdf", under: onTrackAndLift, arm: "base_link: floor, joint_acceleration: [1 m/s2, 1 m/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2, 5 rad/s2]",
		home: "0, 0, " + redshankHome, from: "500, -500, 1000", to: "500, 500, 1000"}, move},
	{benchArm{name: "turning table", file: "whimbrel.urdf", arm: "base_link: base, part_link: table_top", home: "0, 0, 0, -60, 90, -120, -90, 0", from: "-500, -300, 20", to: "500, -300, 20", more: ", table: [0, 0]"}, rest},
	{benchArm{name: "no closed form", file: "turnstone.urdf", arm: "base_link: base", home: "0, 0, 0, 0, 60, 0", from: "650, -500, 100", to: "650, 500, 100"}, rest},
	{benchArm{name: "closed form", file: "kittiwake.urdf", arm: "base_link: base", home: "0, 0, 0, 0, 60, 0", from: "650, -500, 100", to: "650, 500, 100"}, rest},
}

// TestFreeJointsDoNoMoreThanTheyMust: they stand at rest where that carries
// through, elsewhere where that does, and move only where nothing else will.
func TestFreeJointsDoNoMoreThanTheyMust(t *testing.T) {
	for _, arm := range benchArms {
		s := arm.search(t)
		m, err := s.run(context.Background())
		if err != nil || m == nil {
			t.Fatalf("%s: no way: %v", arm.name, err)
		}
		if s.tried.axes != arm.axes {
			t.Errorf("%s: found in manner %d, want %d", arm.name, s.tried.axes, arm.axes)
		}
		moves := false
		for _, f := range s.axes {
			at := m.Stations[0].Q[f.Joint]
			for i := range m.Stations {
				moves = moves || math.Abs(m.Stations[i].Q[f.Joint]-at) > 1e-9
			}
			if arm.axes == rest && math.Abs(at-s.rest[f.Joint]) > 1e-9 {
				t.Errorf("%s: joint %d stands at %g, wanted at %g", arm.name, f.Joint+1, at, s.rest[f.Joint])
			}
		}
		if moves != (arm.axes == move) {
			t.Errorf("%s: free joints move: %v", arm.name, moves)
		}
	}
}

// BenchmarkPosture chooses the postures of one seam of 1 m, the gantry's moving
// one of 3 m, on one core.
func BenchmarkPosture(b *testing.B) {
	for _, arm := range benchArms {
		b.Run(arm.name, func(b *testing.B) {
			s := arm.search(b)
			defer reportCPU(b)()
			for b.Loop() {
				again := *s
				if m, err := again.run(context.Background()); err != nil || m == nil {
					b.Fatalf("no way: %v", err)
				}
			}
		})
	}
}

// helped are jobs of 20 seams out of reach of which a shift brings all in, and
// of which none does.
var helped = []struct {
	name          string
	arm           int // of benchArms
	x, y, z       float64
	spread        float64
	serves, quick bool
}{
	{"closed form", 8, 1000, 0, 40, 1, true, true},
	{"closed form, too far", 8, 2200, 0, 40, 1, false, false},
	{"seven axes", 0, 850, 0, 100, 0.7, true, true},
	{"seven axes, too far", 0, 2200, 0, 100, 0.7, false, false},
	{"gantry", 3, 1300, 0, 1900, 1, true, false},
	{"gantry, too far", 3, 3000, 0, 1900, 1, false, false},
	{"turning table, too far", 6, 0, -2000, 20, 0.7, false, false},
	{"no closed form", 7, 1100, 0, 100, 1, true, false},
	{"no closed form, too far", 7, 2200, 0, 100, 1, false, true},
}

// TestShiftServesEveryArm: from the shift that is found every seam can be run.
func TestShiftServesEveryArm(t *testing.T) {
	ctx := context.Background()
	for _, row := range helped {
		if testing.Short() || !row.quick {
			continue // BenchmarkShift goes through all
		}
		t.Run(row.name, func(t *testing.T) {
			m := benchArms[row.arm].twenty(t, row.x, row.y, row.z, row.spread)
			shift, ok, err := m.findShift(ctx)
			if err != nil || (ok == foundShift) != row.serves {
				t.Fatalf("shift %+v, found %v, %v; want %v", shift, ok, err, row.serves)
			}
			if ok != foundShift {
				return
			}
			newFromOld := shift.newFromOld(m.plan.Cell.Up(&m.home), false)
			for i := range m.plan.Seams {
				s := m.searchOf(passAt{i, 0})
				s.track = s.track.moved(newFromOld)
				if mo, err := s.run(ctx); err != nil || mo == nil {
					t.Errorf("seam %d cannot be run from %+v: %v", i+1, shift, err)
				}
			}
		})
	}
}

// BenchmarkShift looks for what helps a job of 20 seams: a shift, torch angles and
// second starts, on all cores.
func BenchmarkShift(b *testing.B) {
	for _, row := range helped {
		b.Run(row.name, func(b *testing.B) {
			m := benchArms[row.arm].twenty(b, row.x, row.y, row.z, row.spread)
			if err := m.postures(context.Background(), nil); err != nil {
				b.Fatal(err)
			}
			defer reportCPU(b)()
			for b.Loop() {
				m.shifted = nil
				if err := m.help(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
