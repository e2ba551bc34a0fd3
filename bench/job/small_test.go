package job_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"

	"seamwright/bench/job"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// memory holds files by name.
type memory map[string]string

func (m memory) Open(name string) (io.ReadCloser, error) {
	text, ok := m[name]
	if !ok {
		return nil, fmt.Errorf("open %s: %w", name, os.ErrNotExist)
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

// small returns the smallest useful document and its files.
func small(t testing.TB) memory {
	t.Helper()
	m := memory{}
	for _, name := range []string{"job.yaml", "taught.csv", "settings.yaml", "arm.urdf"} {
		data, err := os.ReadFile(filepath.Join("testdata", "small", name))
		if err != nil {
			t.Fatal(err)
		}
		m[name] = string(data)
	}
	return m
}

func decodeSmall(t *testing.T, m memory) *job.Job {
	t.Helper()
	j, err := job.Decode("job.yaml", m)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// Everything that the small document leaves out has its default.
func TestSmallHasDefaults(t *testing.T) {
	j := decodeSmall(t, small(t))
	if j.Part != "" || j.Drawing != "" || j.Revision != "" || j.Procedures != nil || j.Listed {
		t.Errorf("got %q %q %q %v %v, want nothing", j.Part, j.Drawing, j.Revision, j.Procedures, j.Listed)
	}
	if a := j.Arm; !reflect.DeepEqual(a.Acceleration, []float64{job.DefaultJointAcceleration}) ||
		a.LimitMargin != job.DefaultLimitMargin || a.WristMargin != job.DefaultWristMargin {
		t.Errorf("arm %+v", a)
	}
	if to := j.Torch; to.Turn != 0 || to.Sideways != [2]float64{} || to.WireDiameter != 0 || !to.Measured {
		t.Errorf("torch %+v", to)
	}
	if j.Cell.WorldFromBase != se3.Identity() || j.Cell.HasPart {
		t.Errorf("cell %+v", j.Cell)
	}
	if want := (job.Air{Order: job.OrderListed, TipSpeed: job.DefaultTipSpeed, JointPercent: job.DefaultJointPercent,
		TipAcceleration: job.DefaultTipAcceleration, Out: job.DefaultOut}); j.Air != want {
		t.Errorf("air %+v, want %+v", j.Air, want)
	}
	want := job.Seam{Name: "W1", Joint: weld.Tee, Path: job.PathLine, Points: []string{"W1 start", "W1 end"},
		Base: job.Plate{Kind: job.PlateLevel}, Other: job.Plate{Kind: job.PlateLeft},
		Weld: job.Weld{Kind: job.SizeLeg, LegBase: 0.005, LegOther: 0.005}, Settings: "11",
		Aim:      job.Aim{Travel: 10 * deg, Spin: job.SpinTaught, Tolerance: job.DefaultTolerance},
		Approach: job.Leave{Out: job.DefaultOut}, Retreat: job.Leave{Out: job.DefaultOut}}
	sameSeam(t, j.Seams[0], want)
}

func TestPoseOfTheTorch(t *testing.T) {
	m := small(t)
	m["job.yaml"] = strings.Replace(m["job.yaml"], "  body: 210 mm\n  neck: 120 mm\n  neck_angle: 35 deg\n",
		"  flange_from_tip: {at: [72 mm, 0 mm, 335 mm], orientation: quaternion w first, turn: [0, 1, 0, 0]}\n", 1)
	to := decodeSmall(t, m).Torch
	want := se3.Pose{R: se3.RotX(180 * deg)}
	want.P.X, want.P.Z = 0.072, 0.335
	samePose(t, "flange_from_tip", to.FlangeFromTip, want)
	if to.Measured {
		t.Error("a typed pose counts as measured")
	}
}

// The base stands turned a quarter about the world's z, 0.1 m along its x:
// the world's point (0.1, 0.5) is the base's (0.5, 0).
func TestPointsInTheWorld(t *testing.T) {
	m := small(t)
	m["job.yaml"] = strings.Replace(m["job.yaml"], "measured_in: base", "measured_in: world", 1) +
		"cell: {world_from_base: {at: [100 mm, 0 mm, 760 mm], orientation: fixed x-y-z degrees, turn: [0, 0, 90]}}\n"
	m["taught.csv"] = "label,x,y,z,r1,r2,r3\nW1 start,100,500,760,0,0,90\nW1 end,100,600,760,0,0,90\n"
	j := decodeSmall(t, m)
	want := se3.Identity()
	want.P.X = 0.5
	samePose(t, "W1 start", j.Points[0].Pose, want)
}

func TestSlidingJoints(t *testing.T) {
	m := small(t)
	m["arm.urdf"] = strings.Replace(m["arm.urdf"], `name="j1" type="revolute"`, `name="j1" type="prismatic"`, 1)
	m["job.yaml"] = strings.Replace(m["job.yaml"], "flange_link: flange",
		"flange_link: flange, joint_acceleration: [2 m/s2, 3 rad/s2, 3 rad/s2, 3 rad/s2, 3 rad/s2, 3 rad/s2]", 1)
	m["job.yaml"] = strings.Replace(m["job.yaml"], "[0, -60", "[250, -60", 1)
	j := decodeSmall(t, m)
	if got := j.Points[2].Joints; !nearAll(got, []float64{0.25, -60 * deg, 90 * deg, 0, 60 * deg, 0}) {
		t.Errorf("joints %v", got)
	}
	if !nearAll(j.Arm.Acceleration, []float64{2, 3, 3, 3, 3, 3}) {
		t.Errorf("acceleration %v", j.Arm.Acceleration)
	}
	if a := &j.Arm; len(a.Jerk) != 0 || !near(a.JointJerk(0), 20) || !near(a.JointJerk(1), 30) {
		t.Errorf("jerk %v, as a rule %v and %v", a.Jerk, a.JointJerk(0), a.JointJerk(1))
	}
}

func TestJointJerk(t *testing.T) {
	for written, want := range map[string][]float64{
		"3000 deg/s3": {3000 * deg},
		"[1 rad/s3, 2 rad/s3, 3 rad/s3, 4 rad/s3, 5 rad/s3, 6 rad/s3]": {1, 2, 3, 4, 5, 6},
	} {
		m := small(t)
		m["job.yaml"] = strings.Replace(m["job.yaml"], "flange_link: flange", "flange_link: flange, joint_jerk: "+written, 1)
		a := decodeSmall(t, m).Arm
		if !nearAll(a.Jerk, want) || !near(a.JointJerk(5), want[len(want)-1]) {
			t.Errorf("%s: jerk %v, of joint 6 %v", written, a.Jerk, a.JointJerk(5))
		}
	}
}

// YAML written elsewhere must mean here what it says there.
func TestSpellingsThatMustNotMatter(t *testing.T) {
	base := decodeSmall(t, small(t))
	for name, change := range map[string]func(string) string{
		"byte-order mark": func(s string) string { return "\ufeff" + s },
		"line ends":       func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") },
		"document start":  func(s string) string { return "---\n" + s },
		"quoted id":       func(s string) string { return strings.Replace(s, "settings: 11", `settings: "11"`, 1) },
		"comments":        func(s string) string { return "# one\n" + s + "# two\n" },
		"folded name":     func(s string) string { return strings.Replace(s, "name: Bracket", "name: >\n  Bracket\n", 1) },
		"capitals":        func(s string) string { return strings.Replace(s, "code: iso", "code: ISO", 1) },
	} {
		m := small(t)
		m["job.yaml"] = change(m["job.yaml"])
		j := decodeSmall(t, m)
		if j.Name != base.Name || j.Code != base.Code || !reflect.DeepEqual(j.Settings, base.Settings) ||
			j.Seams[0].Settings != base.Seams[0].Settings || len(j.Points) != len(base.Points) {
			t.Errorf("%s: the job differs", name)
		}
	}
}

// Touched places need no orientation: x, y and z are enough, in a file without
// the columns of the orientation or with these empty.
func TestPlacesInATable(t *testing.T) {
	for name, table := range map[string]string{
		"no columns":    "label,x,y,z\nW1 start,1,2,3\nW1 end,4,5,6\n",
		"empty columns": "label,x,y,z,r1,r2,r3\nW1 start,1,2,3,,,\nW1 end,4,5,6,7,8,9\n",
	} {
		m := small(t)
		m["taught.csv"] = table
		p := decodeSmall(t, m).Points
		want := se3.Identity()
		want.P.X, want.P.Y, want.P.Z = 0.001, 0.002, 0.003
		samePose(t, name, p[0].Pose, want)
		if !p[0].HasPose || p[0].HasTurn || p[1].HasTurn != (name == "empty columns") {
			t.Errorf("%s: got %+v", name, p[:2])
		}
	}
}

// No text changes because YAML of some age has a use for it.
func TestTextStaysAsWritten(t *testing.T) {
	for _, want := range []string{"011", "08", "1.10", "no", "on", "Yes", "true", "1e3", "0x1F", "0o17", "0b11", "1_000", "2001-01-01",
		"+5", "12:30:45", ".5", ".inf", ".nan", "1/4 in", "a: b", "a #b", "it's", `say "z5"`, "Träger", "=", "-", "[1]"} {
		written := want
		if strings.ContainsAny(want, ":#[-") && want != "2001-01-01" && want != "12:30:45" {
			written = "'" + want + "'"
		}
		m := small(t)
		m["job.yaml"] = strings.Replace(m["job.yaml"], "name: Bracket", "name: "+written, 1)
		if got := decodeSmall(t, m).Name; got != want {
			t.Errorf("name: %s: got %q", written, got)
		}
	}
}

// The energy that a procedure limits is what its code says it is.
func TestEnergyOfProcedures(t *testing.T) {
	for _, c := range []struct {
		code, field string
		want        thermal.Quantity
	}{
		{"iso", "heat_input", thermal.HeatInput},
		{"iso", "arc_energy", thermal.ArcEnergy},
		{"aws", "heat_input", thermal.AWSHeatInput},
	} {
		m := small(t)
		m["job.yaml"] = strings.Replace(m["job.yaml"], "code: iso", "code: "+c.code, 1) + "procedure: {spec: {id: P, code: " + c.code + ", ranges: {" + c.field + ": {to: 1.5 kJ/mm}}}}\n"
		if p := decodeSmall(t, m).Procedures[0].Common; p.EnergyIs != c.want || p.Energy != weld.AtMost(1.5e6) {
			t.Errorf("%s %s: got %v %v", c.code, c.field, p.EnergyIs, p.Energy)
		}
	}
}

// What one pass may lay is a leg or a throat; a length alone is a leg.
func TestSinglePassOfProcedures(t *testing.T) {
	for text, want := range map[string]struct {
		size float64
		kind weld.SizeKind
	}{
		"8 mm":              {0.008, weld.Leg},
		"{leg: 7 mm}":       {0.007, weld.Leg},
		"{throat: 5 mm}":    {0.005, weld.Throat},
		"{leg: 5/16 in}":    {0.0079375, weld.Leg},
		"{throat: 5.5 mm }": {0.0055, weld.Throat},
	} {
		m := small(t)
		m["job.yaml"] += "procedure: {spec: {id: P, code: iso, single_pass_max: " + text + "}}\n"
		p := decodeSmall(t, m).Procedures[0].Common
		if r := p.SinglePass; r.HasLow || !r.HasHigh || !near(r.High, want.size) || p.SinglePassIs != want.kind {
			t.Errorf("%s: got %+v of the %v", text, r, p.SinglePassIs)
		}
	}
}

// The ends of a range of travel angles may be written in either order.
func TestTravelAnglesOfProcedures(t *testing.T) {
	for text, want := range map[string][2]float64{
		"{from: drag 5 deg, to: push 15 deg}": {-5 * deg, 15 * deg},
		"{from: push 15 deg, to: drag 5 deg}": {-5 * deg, 15 * deg},
		"{from: drag 5 deg, to: drag 15 deg}": {-15 * deg, -5 * deg},
		"{from: 0 deg, to: push 0.2 rad}":     {0, 0.2},
	} {
		m := small(t)
		m["job.yaml"] += "procedure: {spec: {id: P, code: iso, ranges: {travel_angle: " + text + "}}}\n"
		r := decodeSmall(t, m).Procedures[0].Common.TravelAngle
		if !nearAll([]float64{r.Low, r.High}, want[:]) || !r.HasLow || !r.HasHigh {
			t.Errorf("%s: got %+v, want %v", text, r, want)
		}
	}
}

// A procedure that says little limits little: no range appears out of nothing.
func TestSilentProcedure(t *testing.T) {
	m := small(t)
	m["job.yaml"] += "procedure: {spec: {id: P, code: iso}}\n"
	if got, want := decodeSmall(t, m).Procedures, []procedure.WPS{{Common: procedure.Spec{ID: "P", Family: weld.ISO}}}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// A plate takes as many touched points as a person cares to touch, up to 12.
func TestTouchedPoints(t *testing.T) {
	for count := 2; count <= 12; count++ {
		labels := strings.Repeat("W1 start, ", count-1) + "W1 end"
		for _, with := range []string{"", ", with: vertical"} {
			if count == 2 && with == "" {
				continue
			}
			m := small(t)
			m["job.yaml"] = strings.Replace(m["job.yaml"], "base: level", "base: {touched: ["+labels+"]"+with+"}", 1)
			if got := decodeSmall(t, m).Seams[0].Base; len(got.Points) != count || (got.Kind == job.PlateTouchedVertical) != (with != "") {
				t.Errorf("%d points%s: got %v %v", count, with, got.Kind, got.Points)
			}
		}
	}
}

// failing is a file whose disk fails after a few bytes.
type failing struct{ memory }

func (f failing) Open(name string) (io.ReadCloser, error) {
	if name == "taught.csv" {
		return io.NopCloser(io.MultiReader(strings.NewReader("label,"), iotest.ErrReader(errors.New("the disk\nfails")))), nil
	}
	return f.memory.Open(name)
}

func TestFailingDisk(t *testing.T) {
	j, err := job.Decode("job.yaml", failing{small(t)})
	const want = `job.yaml:18:9: points.file: found "taught.csv", which cannot be read (the disk fails); allowed: a file that can be read; check the disk and the rights on the file`
	if j != nil || err == nil || err.Error() != want {
		t.Errorf("got %v, %v, want %s", j, err, want)
	}
}

func TestManyFaultsInTheArm(t *testing.T) {
	m := small(t)
	m["arm.urdf"] = "<robot name=\"a\">" + strings.Repeat("<link/>", 150) + "</robot>"
	_, err := job.Decode("job.yaml", m)
	var ps *job.Problems
	if !errors.As(err, &ps) || ps.List[0].Place.File != "arm.urdf" || len(ps.List) != 50 || ps.More < 100-50 {
		t.Errorf("got %v", err)
	}
}
