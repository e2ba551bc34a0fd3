package job_test

import (
	"io"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/accept"
	"seamwright/weld/procedure"
	"seamwright/weld/thermal"
)

// folder opens files of a directory.
type folder string

func (f folder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), filepath.FromSlash(name)))
}

func decodeGood(t *testing.T) *job.Job {
	t.Helper()
	j, err := job.Decode("testdata/good/job.yaml", folder("testdata/good"))
	if err != nil {
		t.Fatal(err)
	}
	return j
}

// near allows for the rounding of unit conversions.
func near(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(1, math.Abs(b)) }

func nearAll(a, b []float64) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if !near(a[i], b[i]) {
			return false
		}
	}
	return true
}

const deg = math.Pi / 180

func TestGoodHead(t *testing.T) {
	j := decodeGood(t)
	got := []any{j.File, j.Name, j.Part, j.Drawing, j.Revision, j.Code, j.Home, j.Listed}
	want := []any{"testdata/good/job.yaml", "Hopper skirt, left hand", "HS-204 L", "HS-204 sheet 2", "010", weld.ISO, "home", true}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestGoodArm(t *testing.T) {
	a := decodeGood(t).Arm
	if a.URDF != "arm.urdf" || a.BaseLink != "base" || a.FlangeLink != "flange" || a.Robot.Name != "plover" {
		t.Errorf("got %q %q %q %q", a.URDF, a.BaseLink, a.FlangeLink, a.Robot.Name)
	}
	want := []float64{300 * deg, 301 * deg, 302 * deg, 303 * deg, 304 * deg, 305 * deg}
	if !nearAll(a.Acceleration, want) {
		t.Errorf("acceleration %v, want %v", a.Acceleration, want)
	}
	if a.Jerk != nil || !near(a.JointJerk(4), 3040*deg) || !near(a.JointAcceleration(4), 304*deg) {
		t.Errorf("jerk %v, of joint 5 %v with acceleration %v", a.Jerk, a.JointJerk(4), a.JointAcceleration(4))
	}
	if !near(a.LimitMargin, 6*deg) || !near(a.WristMargin, 11*deg) {
		t.Errorf("margins %v %v", a.LimitMargin, a.WristMargin)
	}
	shown := []job.Shown{{Sign: 1}, {Zero: -90 * deg, Sign: -1}, {Zero: 90 * deg, Sign: 1}, {Sign: 1}, {Sign: 1}, {Zero: 10 * deg, Sign: 1}}
	if !reflect.DeepEqual(a.Shown, shown) {
		t.Errorf("shown %v, want %v", a.Shown, shown)
	}
	if a.Cable == nil || !near(a.Cable.Lower, -190*deg) || !near(a.Cable.Upper, 210*deg) {
		t.Errorf("cable %v, want -190 to 210 deg", a.Cable)
	}
	if a.Payload != 8 || !reflect.DeepEqual(a.HandGuiding, []string{"Hold the button halfway.", "Keep the other hand off the elbow."}) || a.PartLink != "" {
		t.Errorf("payload %v, notes %q, part link %q", a.Payload, a.HandGuiding, a.PartLink)
	}
	if want := (job.Place{File: "testdata/good/job.yaml", Line: 10, Column: 3, Field: "arm"}); a.At != want {
		t.Errorf("at %v, want %v", a.At, want)
	}
}

func TestGoodTorchCellAndAir(t *testing.T) {
	j := decodeGood(t)
	to := j.Torch
	got := []float64{to.Body, to.Neck, to.NeckAngle, to.Turn, to.Sideways[0], to.Sideways[1], to.NozzleDiameter, to.TipRecess, to.StickOut, to.WireDiameter, to.Mass, to.ContactTipDistance()}
	want := []float64{0.210, 0.120, 35 * deg, -90 * deg, 0.001, -0.002, 0.022, 0.002, 0.013, 0.0012, 2.4, 0.015}
	if !nearAll(got, want) || !to.Measured {
		t.Errorf("torch %v measured %v, want %v", got, to.Measured, want)
	}
	a := j.Air
	if got, want := []float64{a.TipSpeed, a.JointPercent, a.TipAcceleration, a.Out}, []float64{0.2, 30, 0.9, 0.07}; !nearAll(got, want) {
		t.Errorf("air %v, want %v", got, want)
	}
	samePose(t, "world_from_base", j.Cell.WorldFromBase, se3.Pose{R: se3.RotZ(90 * deg), P: r3.Vec{X: 0.1, Z: 0.76}})
	samePose(t, "world_from_part", j.Cell.WorldFromPart, se3.Pose{R: se3.RotZ(90 * deg), P: r3.Vec{X: 0.1, Y: 0.5, Z: 0.76}})
	if !j.Cell.HasPart {
		t.Error("the part's place is not noted")
	}
}

func samePose(t *testing.T, what string, got, want se3.Pose) {
	t.Helper()
	if got.P.Sub(want.P).Norm() > 1e-12 || got.R.AngleTo(want.R) > 1e-12 {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// The part stands parallel to the base, 500 mm along the world's y, which is
// the base's x: baseFromPart is a shift of 0.5 m along x.
func TestGoodPoints(t *testing.T) {
	points := decodeGood(t).Points
	var labels []string
	for _, p := range points {
		labels = append(labels, p.Label)
	}
	if want := []string{"home", "W1 start", "W1 end", "home", "W2 a", "W2 b", "W2 c", "77", "touch"}; !reflect.DeepEqual(labels, want) {
		t.Fatalf("labels %v, want %v", labels, want)
	}
	// Typed as 0, -60, 90, 0, 60, 0: joint 2 is counted the other way from -90 deg,
	// joints 3 and 6 from 90 and 10 deg.
	homeValues := []float64{0, -30 * deg, 180 * deg, 0, 60 * deg, 10 * deg}
	for _, i := range []int{0, 3} {
		if p := points[i]; p.HasPose || !nearAll(p.Joints, homeValues) || p.Move != job.MoveJoint || p.Percent != 20 {
			t.Errorf("home %+v", p)
		}
	}
	start := points[1]
	samePose(t, "W1 start", start.Pose, se3.Pose{R: se3.RotZ(90 * deg).Mul(se3.RotX(180 * deg)), P: r3.Vec{X: 0.9302, Y: -0.2299, Z: 0.034}})
	start.Pose = se3.Pose{}
	want := job.Point{Label: "W1 start", Comment: "on the root, ground clean", HasPose: true, HasTurn: true, TipPose: true,
		Move: job.MoveLinear, Speed: 0.0082, Arc: job.ArcOn, Settings: "11", At: job.Place{File: "taught.csv", Line: 4, Column: 1}}
	if !reflect.DeepEqual(start, want) {
		t.Errorf("got %+v, want %+v", start, want)
	}
	if end := points[2]; !near(end.Blend, 0.0025) || end.Arc != job.ArcOff || end.Settings != "" {
		t.Errorf("W1 end %+v", end)
	}
	row := points[4]
	samePose(t, "W2 a", row.Pose, se3.Pose{R: se3.RotX(180 * deg), P: r3.Vec{X: 0.5, Z: 0.01}})
	row.Pose = se3.Pose{}
	want = job.Point{Label: "W2 a", Comment: "no", HasPose: true, HasTurn: true, TipPose: true, Move: job.MoveArc, Speed: row.Speed, Percent: 25,
		Blend: 0.00635, Arc: job.ArcOn, Settings: "11", At: job.Place{File: "testdata/good/job.yaml", Line: 64, Column: 7, Field: "points.rows[0]"}}
	if !reflect.DeepEqual(row, want) || !near(row.Speed, 16*0.0254/60) {
		t.Errorf("got %+v, want %+v", row, want)
	}
	touch := points[8]
	samePose(t, "touch", touch.Pose, se3.Pose{R: se3.RotIdentity(), P: r3.Vec{X: 0.501, Y: 0.002, Z: 0.003}})
	if !touch.HasPose || touch.HasTurn || !touch.TipPose {
		t.Errorf("touch %+v", touch)
	}
	// 1e1 is ten and 08 is eight, whatever older YAML readers make of them.
	samePose(t, "W2 b", points[5].Pose, se3.Pose{R: se3.RotX(180 * deg), P: r3.Vec{X: 0.51, Y: 0.008, Z: 0.01}})
}

func TestGoodSettings(t *testing.T) {
	sets := decodeGood(t).Settings
	want := procedure.Settings{ID: "011", Name: "fillet z5", Process: weld.MAG, Transfer: weld.Spray, WireDiameter: 0.001,
		WireClass: "G 42 4 M21 3Si1", Feed: 0.15, Volts: 23.5, Amps: 205, Power: 5200, Efficiency: 0.96, Convexity: 1.1,
		GasName: "M21", GasFlow: 0.00025, ContactDistance: 0.015, Phases: procedure.Phases{PreFlow: 0.2, StartDelay: 0.3, CraterFill: 0.6, PostFlow: 0.5}}
	if len(sets) != 2 || sets[0] != want {
		t.Fatalf("got %+v, want %+v", sets, want)
	}
	want = procedure.Settings{ID: "11", Process: weld.FluxCored, Transfer: weld.Globular, WireDiameter: 0.0254 / 16, Feed: sets[1].Feed}
	if sets[1] != want || !near(sets[1].Feed, 200*0.0254/60) {
		t.Errorf("got %+v, want %+v", sets[1], want)
	}
}

func TestGoodAcceptance(t *testing.T) {
	a := decodeGood(t).Acceptance
	if a == nil || a.Standard != (accept.Standard{Code: accept.ISO5817, Edition: "2023", Level: accept.C}) || a.AcrossTension != nil || a.At.Field != "acceptance" {
		t.Errorf("%+v", a)
	}
}

func TestGoodProcedure(t *testing.T) {
	p := &decodeGood(t).Procedures[0].Common
	want := &procedure.Spec{ID: "WPS-012", Revision: "03", Qualification: "WPQR-031", Family: weld.ISO,
		Processes: []weld.Process{weld.MAG, weld.MetalCored}, Transfers: []weld.Transfer{weld.Spray, weld.Pulsed},
		Joints: []weld.JointType{weld.Tee, weld.Lap}, Kinds: []weld.WeldKind{weld.Fillet},
		Positions: []weld.PositionName{weld.PA, weld.PB, weld.PF}, Progressions: []weld.Progression{weld.Uphill},
		WireClass: "G 42 4 M21 3Si1", WireDiameters: []float64{0.001, 0.0012}, GasName: "M21",
		GasFlow: weld.Between(12e-3/60, 18e-3/60), Thickness: weld.Between(0.003, 0.012), Current: weld.Between(180, 230),
		Voltage: weld.Between(22, 26), Feed: weld.AtMost(10.0 / 60), Travel: weld.Between(0.005, 0.01),
		Energy: weld.Between(0.3e6, 1.3e6), EnergyIs: thermal.HeatInput, ContactDistance: weld.Between(0.012, 0.018),
		WorkAngle: weld.Between(40*deg, 50*deg), TravelAngle: weld.Between(-5*deg, 15*deg),
		WorkDeviation: weld.AtMost(5 * deg), TravelDeviation: weld.AtMost(4 * deg),
		SinglePass: weld.AtMost(0.008), SinglePassIs: weld.Leg}
	sameSpec(t, p, want)
}

// sameSpec compares procedures, ranges to rounding. Every field of want must be
// set: the good document states whatever a procedure can limit.
func sameSpec(t *testing.T, got, want *procedure.Spec) {
	t.Helper()
	g, w := reflect.ValueOf(*got), reflect.ValueOf(*want)
	for i := range w.NumField() {
		name := w.Type().Field(i).Name
		if w.Field(i).IsZero() {
			t.Errorf("%s is not in the good document", name)
		}
		a, b := g.Field(i).Interface(), w.Field(i).Interface()
		if x, ok := a.(weld.Range); ok {
			y := b.(weld.Range)
			if !near(x.Low, y.Low) || !near(x.High, y.High) || x.HasLow != y.HasLow || x.HasHigh != y.HasHigh {
				t.Errorf("%s: got %+v, want %+v", name, x, y)
			}
		} else if !reflect.DeepEqual(a, b) {
			t.Errorf("%s: got %+v, want %+v", name, a, b)
		}
	}
}

func TestGoodSeams(t *testing.T) {
	seams := decodeGood(t).Seams
	push := job.Aim{Travel: 10 * deg, Spin: job.SpinTaught, Tolerance: 5 * deg}
	drag := push
	drag.Travel, drag.Spin = -5*deg, job.SpinFree
	circle := []string{"W2 a", "W2 b", "W2 c"}
	out := func(m float64) job.Leave { return job.Leave{Out: m} }
	want := []job.Seam{
		{Name: "W1", Joint: weld.Tee, Path: job.PathLine, Points: []string{"W1 start", "W1 end"},
			Taught: []string{"W1 start", "W1 end"}, Through: []string{"W2 a", "77"}, Base: job.Plate{Kind: job.PlateLevel}, Other: job.Plate{Kind: job.PlateLeft}, BaseThickness: 0.008, OtherThickness: 0.006,
			Weld: job.Weld{Kind: job.SizeLeg, LegBase: 0.005, LegOther: 0.005}, Gap: 0.0005, Settings: "011", Speed: 0.0068,
			Aim: job.Aim{Work: 40 * deg, WorkStated: true, Travel: 10 * deg, Spin: job.SpinFixed, SpinAngle: 30 * deg,
				Offset: -0.001, Distance: 0.016, Tolerance: 6 * deg},
			Approach: job.Leave{Point: "77"}, Retreat: out(0.08)},
		{Name: "W2", Joint: weld.Lap, Path: job.PathCircle, Points: circle, Closed: true, Radius: 0.012, Overlap: 0.015,
			Base:          job.Plate{Kind: job.PlateDirection, Direction: r3.Vec{Y: 0.6, Z: 0.8}},
			Other:         job.Plate{Kind: job.PlateTouchedVertical, Points: []string{"W2 a", "W2 b", "touch"}},
			BaseThickness: 0.008, OtherThickness: 0.007, Weld: job.Weld{Kind: job.SizeLegs, LegBase: 0.006, LegOther: 0.009},
			Gap: 0.0002, Settings: "11", Aim: drag, Approach: out(0.05), Retreat: out(0.07)},
		{Name: "W3", Joint: weld.Butt, Path: job.PathArc, Points: circle, Base: job.Plate{Kind: job.PlateTouched, Points: []string{"W2 a", "W2 b", "W2 c", "touch"}},
			BaseThickness: 0.008, OtherThickness: 0.007, Weld: job.Weld{Kind: job.SizeArea, Area: 22e-6},
			Gap: 0.0002, Settings: "11", Aim: push, Approach: out(0.05), Retreat: out(0.07)},
		{Name: "W4", Joint: weld.InsideCorner, Path: job.PathLine, Points: circle[:2], Base: job.Plate{Kind: job.PlateUp},
			Other: job.Plate{Kind: job.PlateAngleRight, Angle: 110 * deg}, BaseThickness: 0.008, OtherThickness: 0.007,
			Weld: job.Weld{Kind: job.SizeThroat, Throat: 0.0035}, Gap: 0.0002, Settings: "11", Aim: push,
			Approach: out(0.05), Retreat: job.Leave{Point: "W2 c"}},
		{Name: "W5", Joint: weld.Tee, Path: job.PathCircle, Points: circle, Closed: true, Base: job.Plate{Kind: job.PlateDown},
			Other: job.Plate{Kind: job.PlateTubeOutside}, BaseThickness: 0.008, OtherThickness: 0.007,
			Weld: job.Weld{Kind: job.SizeLeg, LegBase: 0.0047625, LegOther: 0.0047625}, Gap: 0.0002, Settings: "11", Aim: push,
			Approach: out(0.05), Retreat: out(0.07)},
	}
	if len(seams) != len(want) {
		t.Fatalf("got %d seams, want %d", len(seams), len(want))
	}
	for i := range want {
		want[i].Procedure = "WPS-012" // the only one
		want[i].GapStart, want[i].GapEnd = want[i].Gap, want[i].Gap
		sameSeam(t, seams[i], want[i])
	}
}

// sameSeam compares everything but places, numbers to rounding.
func sameSeam(t *testing.T, got, want job.Seam) {
	t.Helper()
	numbers := func(s *job.Seam) []float64 {
		var out []float64
		for _, p := range []*float64{&s.Radius, &s.Overlap, &s.Base.Direction.X, &s.Base.Direction.Y, &s.Base.Direction.Z, &s.Other.Angle,
			&s.BaseThickness, &s.OtherThickness, &s.Weld.LegBase, &s.Weld.LegOther, &s.Weld.Throat, &s.Weld.Area, &s.Gap, &s.GapStart, &s.GapEnd, &s.Speed,
			&s.Aim.Work, &s.Aim.Travel, &s.Aim.SpinAngle, &s.Aim.Offset, &s.Aim.Distance, &s.Aim.Tolerance, &s.Approach.Out, &s.Retreat.Out} {
			out = append(out, *p)
			*p = 0
		}
		return out
	}
	got.At, got.Base.At, got.Other.At, got.Weld.At, got.Fields = job.Place{}, job.Place{}, job.Place{}, job.Place{}, nil
	if g, w := numbers(&got), numbers(&want); !nearAll(g, w) {
		t.Errorf("%s: numbers %v, want %v", want.Name, g, w)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s: got %+v, want %+v", want.Name, got, want)
	}
}

func TestGoodPlaces(t *testing.T) {
	s := decodeGood(t).Seams[0]
	const file = "testdata/good/job.yaml"
	for name, got := range map[string]job.Place{
		"seam": s.At, "base": s.Base.At, "upright": s.Other.At, "weld": s.Weld.At,
		"own field": s.Fields["torch.work"], "default": s.Fields["torch.travel"], "speed": s.Fields["speed"],
	} {
		want := map[string]job.Place{
			"seam":      {File: file, Line: 99, Column: 5, Field: "seams[0]"},
			"base":      {File: file, Line: 104, Column: 11, Field: "seams[0].base"},
			"upright":   {File: file, Line: 105, Column: 14, Field: "seams[0].upright"},
			"weld":      {File: file, Line: 107, Column: 11, Field: "seams[0].weld"},
			"own field": {File: file, Line: 111, Column: 19, Field: "seams[0].torch.work"},
			"default":   {File: file, Line: 147, Column: 19, Field: "defaults.torch.travel"},
			"speed":     {File: file, Line: 110, Column: 12, Field: "seams[0].speed"},
		}[name]
		if got != want {
			t.Errorf("%s: got %v, want %v", name, got, want)
		}
	}
}
