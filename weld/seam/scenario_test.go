package seam_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

const degree = math.Pi / 180

// scenario is one seam of testdata/scenarios.json, in millimetres and degrees.
type scenario struct {
	ID          string
	Seam        string
	TrueStart   [3]float64 `json:"true_start"`
	TrueEnd     [3]float64 `json:"true_end"`
	Length      float64
	T           [3]float64
	NBase       [3]float64 `json:"n_base"`
	NUpright    [3]float64 `json:"n_upright"`
	Want        struct{ Work, Travel float64 }
	SpinTaught  [2]float64 `json:"spin_taught"`
	TargetStart [3]float64 `json:"target_start_fixed_xyz"`
	TargetEnd   [3]float64 `json:"target_end_fixed_xyz"`
	TargetToolZ [3]float64 `json:"target_tool_z"`
	Taught      []taught
}

type taught struct {
	Point        string
	XYZ          [3]float64
	FixedXYZ     [3]float64 `json:"fixed_xyz"`
	ActualWork   float64    `json:"actual_work"`
	ActualTravel float64    `json:"actual_travel"`
	AcrossSeamMM float64    `json:"across_seam_mm"`
}

func scenarios(t testing.TB) []scenario {
	t.Helper()
	data, err := os.ReadFile("testdata/scenarios.json")
	if err != nil {
		t.Fatal(err)
	}
	var file []struct {
		ID    string
		Seams []scenario
	}
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	var all []scenario
	for _, f := range file {
		for _, s := range f.Seams {
			s.ID = f.ID
			all = append(all, s)
		}
	}
	if len(all) != 9 {
		t.Fatalf("%d seams in the scenarios, want 9", len(all))
	}
	return all
}

func scenarioNamed(t testing.TB, id string) scenario {
	for _, s := range scenarios(t) {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("no scenario %s", id)
	return scenario{}
}

func vec(a [3]float64) r3.Vec  { return r3.Vec{X: a[0], Y: a[1], Z: a[2]} }
func mm(a [3]float64) r3.Vec   { return vec(a).Scale(1e-3) }
func norm(a [3]float64) r3.Vec { return vec(a).Unit() }

// fixedXYZ is the rotation by turns (deg) about fixed X, then Y, then Z.
func fixedXYZ(a [3]float64) se3.Rot {
	return se3.RotZ(a[2] * degree).Mul(se3.RotY(a[1] * degree)).Mul(se3.RotX(a[0] * degree))
}

// toFixedXYZ is its inverse, in degrees, away from b = +-90.
func toFixedXYZ(r se3.Rot) [3]float64 {
	return [3]float64{
		math.Atan2(r[7], r[8]) / degree,
		math.Atan2(-r[6], math.Hypot(r[0], r[3])) / degree,
		math.Atan2(r[3], r[0]) / degree,
	}
}

// turnGap is the difference of two angles in degrees, -180..180.
func turnGap(a, b float64) float64 { return math.Remainder(a-b, 360) }

func (s scenario) joint() weld.JointType {
	switch s.ID {
	case "S2":
		return weld.Lap
	case "S7":
		return weld.Butt
	}
	return weld.Tee
}

// truth is the seam of the true start, direction and normals.
func (s scenario) truth(t testing.TB) *seam.Seam {
	t.Helper()
	start := mm(s.TrueStart)
	line, err := curve.NewLine(start, start.AddScaled(s.Length*1e-3, norm(s.T)))
	if err != nil {
		t.Fatal(err)
	}
	spec := seam.Spec{Path: line, Joint: s.joint(), Base: seam.Plane{N: norm(s.NBase)}, Other: seam.Plane{N: norm(s.NUpright)}}
	if s.ID == "S7" {
		spec.Other = nil
	}
	sm, err := seam.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	return sm
}

func (p taught) pose() se3.Pose {
	return se3.Pose{R: fixedXYZ(p.FixedXYZ), P: mm(p.XYZ)}
}

// The targets are printed to 0.01 deg, so each of the three numbers may be off
// by 0.005 deg; t and the normals are printed to 1e-5 (0.0003 deg), which the
// three numbers amplify by at most 1/cos(b) = 1.5 here. 0.0065 deg is thus the
// tightest claim these data can prove. Positions are the path's own ends.
func TestScenarioTargets(t *testing.T) {
	var worst float64
	for _, s := range scenarios(t) {
		sm := s.truth(t)
		aim := seam.Aim{Work: s.Want.Work * degree, Travel: s.Want.Travel * degree}
		for _, end := range []struct {
			name  string
			arc   float64
			spin  float64
			angle [3]float64
			point [3]float64
		}{
			{"start", 0, s.SpinTaught[0], s.TargetStart, s.TrueStart},
			{"end", sm.Length(), s.SpinTaught[1], s.TargetEnd, s.TrueEnd},
		} {
			aim.Spin = end.spin * degree
			got := sm.At(end.arc).Encode(aim)
			angles := toFixedXYZ(got.R)
			for k := range angles {
				gap := math.Abs(turnGap(angles[k], end.angle[k]))
				worst = max(worst, gap)
				if gap > 0.0065 {
					t.Errorf("%s %s %s: fixed XYZ %.4f, want %v", s.ID, s.Seam, end.name, angles, end.angle)
					break
				}
			}
			if d := got.P.Dist(mm(end.point)); d > 1e-5 {
				t.Errorf("%s %s %s: tip %.3f mm off", s.ID, s.Seam, end.name, d*1e3)
			}
			if d := got.R.Z().Dist(vec(s.TargetToolZ)); d > 1.2e-4 { // 4 digits, three of them
				t.Errorf("%s %s %s: wire %v, want %v", s.ID, s.Seam, end.name, got.R.Z(), s.TargetToolZ)
			}
		}
	}
	t.Logf("largest difference of one angle: %.4f deg", worst)
}

// Taught poses are rounded to 0.1 deg and 0.1 mm after their true work, travel
// and distance were computed. Three angles off by 0.05 deg move the wire by at
// most 0.15 deg less what lies about it; the two components across by 0.05 mm
// each may move the tip by up to 0.07 mm, but none does so by 0.05.
func TestScenarioTaughtPoses(t *testing.T) {
	var worstAngle, worstAcross float64
	for _, s := range scenarios(t) {
		sm := s.truth(t)
		wanted := seam.Aim{Work: s.Want.Work * degree, Travel: s.Want.Travel * degree}
		arcs := map[string][2]float64{ // arc length, stand-off along the wanted wire, m
			"approach": {0, 0.050}, "weld start": {0, 0}, "weld end": {sm.Length(), 0}, "retreat": {sm.Length(), 0.080},
		}
		for _, p := range s.Taught {
			place, ok := arcs[p.Point]
			if !ok {
				t.Fatalf("%s: point %q", s.ID, p.Point)
			}
			f := sm.At(place[0])
			wanted.Distance = place[1]
			f.Origin = f.Encode(wanted).P
			got := f.Decode(p.pose())
			work, travel := got.Work/degree, got.Travel/degree
			worstAngle = max(worstAngle, math.Abs(work-p.ActualWork), math.Abs(travel-p.ActualTravel))
			if math.Abs(work-p.ActualWork) > 0.2 || math.Abs(travel-p.ActualTravel) > 0.2 {
				t.Errorf("%s %s %s: work %.2f travel %.2f, want %.1f %.1f", s.ID, s.Seam, p.Point, work, travel, p.ActualWork, p.ActualTravel)
			}
			gap := math.Abs(got.Across()*1e3 - p.AcrossSeamMM)
			worstAcross = max(worstAcross, gap)
			if gap > 0.05 {
				t.Errorf("%s %s %s: %.3f mm across, want %.2f", s.ID, s.Seam, p.Point, got.Across()*1e3, p.AcrossSeamMM)
			}
		}
	}
	t.Logf("largest difference: %.3f deg, %.3f mm", worstAngle, worstAcross)
}
