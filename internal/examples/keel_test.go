package examples

import (
	"math"
	"strings"
	"testing"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/weld"
)

const degree = math.Pi / 180 // rad

// keel is what the README of the keel cradle promises, seam by seam. Lengths
// are of the invented drawing: W3 runs 188 mm along the
// ramp's climb and 94 mm across it, W4 round a radius of 44.45 mm and 12 mm on.
var keel = []struct {
	name     string
	joint    weld.JointType
	path     job.PathKind
	position weld.PositionName
	length   float64 // mm
	leg      float64 // mm
}{
	{"W1", weld.Tee, job.PathLine, weld.PB, 210, 6},
	{"W2", weld.InsideCorner, job.PathLine, weld.PF, 110, 5},
	{"W3", weld.Tee, job.PathLine, weld.PB, math.Hypot(math.Hypot(188, 94), 188*math.Tan(climbKeel)), 5},
	{"W4", weld.Tee, job.PathCircle, weld.PB, 2*math.Pi*44.45 + 12, 5},
	{"W5", weld.Lap, job.PathLine, weld.PB, 230, 5},
}

// climbKeel is the ramp's climb along the part, rad.
const climbKeel = 3.5 * degree

func TestKeelCradleIsWhatItSays(t *testing.T) {
	j, p := planned(t, "keel-cradle")
	if len(p.Seams) != len(keel) {
		t.Fatalf("%d seams, want %d", len(p.Seams), len(keel))
	}
	for i, want := range keel {
		s, doc := &p.Seams[i], &j.Seams[i]
		if s.Name != want.name || doc.Joint != want.joint || doc.Path != want.path {
			t.Errorf("seam %d is %s, %v, %v; want %s, %v, %v", i, s.Name, doc.Joint, doc.Path, want.name, want.joint, want.path)
		}
		if got := s.Position.Name(weld.ISO); got != want.position {
			t.Errorf("%s is welded in %v, want %v", s.Name, got, want.position)
		}
		if math.Abs(s.Length*1e3-want.length) > 1 {
			t.Errorf("%s is %.1f mm long, want %.1f mm", s.Name, s.Length*1e3, want.length)
		}
		if leg := s.Passes[0].Size.LegBase * 1e3; math.Abs(leg-want.leg) > 1e-6 {
			t.Errorf("%s has leg %.2f mm, want %.2f mm", s.Name, leg, want.leg)
		}
	}
	if got := p.Seams[1].Position.Progression; got != weld.Uphill {
		t.Errorf("W2 is welded %v, want uphill", got)
	}
	if len(j.Settings) < 5 || len(j.Procedures) == 0 {
		t.Errorf("%d settings sets, procedures %d; want five or more and a procedure", len(j.Settings), len(j.Procedures))
	}
	if tilt := p.Cell.Up(&kinematics.Q{}).Angle(r3.Vec{Z: 1}); math.Abs(tilt-0.6*degree) > 0.05*degree {
		t.Errorf("the arm stands %.2f deg out of plumb, want 0.6", tilt/degree)
	}
}

func TestKeelCradleSeamAlongNoAxis(t *testing.T) {
	_, p := planned(t, "keel-cradle")
	inBase := p.Seams[2].Geometry.At(0).T
	inWorld := p.Cell.WorldFromFoot.Dir(inBase)
	for _, dir := range []r3.Vec{inBase, inWorld} {
		for name, axis := range map[string]r3.Vec{"x": {X: 1}, "y": {Y: 1}, "z": {Z: 1}} {
			if off := min(dir.Angle(axis), dir.Angle(axis.Neg())); off < 20*degree {
				t.Errorf("W3 runs %.1f deg from %s", off/degree, name)
			}
		}
	}
	// 188 mm along the ramp's climb and 94 mm across it.
	want := math.Atan(math.Tan(climbKeel) * 188 / math.Hypot(188, 94))
	if climb := math.Asin(inWorld.Z); math.Abs(climb-want) > 0.3*degree {
		t.Errorf("W3 climbs %.2f deg, want %.2f", climb/degree, want/degree)
	}
}

// TestPlansFindTheTruth holds the plans against the poses that the examples'
// points were made from: as taught they are off as a hand is, as planned they
// are right within what the stepped touches are good for.
func TestPlansFindTheTruth(t *testing.T) {
	for _, name := range taught {
		t.Run(name, func(t *testing.T) {
			_, p := planned(t, name)
			truth := readTruth(t, name)
			seen := 0
			for i := range p.Seams {
				for k := range p.Seams[i].Taught {
					seen++
					checkTaught(t, &p.Seams[i].Taught[k], truth)
				}
			}
			if seen != len(truth) || seen < 12 {
				t.Errorf("%d taught points in the plan, %d true poses", seen, len(truth))
			}
		})
	}
}

func checkTaught(t *testing.T, taught *plan.Taught, truth map[string]se3.Pose) {
	t.Helper()
	want, ok := truth[taught.Label]
	if !ok {
		t.Errorf("%s has no true pose", taught.Label)
		return
	}
	off, turn := taught.BaseFromTip.P.Dist(want.P)*1e3, taught.BaseFromTip.R.AngleTo(want.R)/degree
	if off < 1 || off > 3 || turn < 3 || turn > 10 {
		t.Errorf("%s is taught %.2f mm and %.2f deg off; a hand is 1 to 3 mm and 3 to 10 deg off", taught.Label, off, turn)
	}
	if taught.Role == plan.RoleApproach || taught.Role == plan.RoleRetreat {
		return // taught as they are, not put right
	}
	// Touches are at most 0.4 mm off, and ends are where the touches say.
	// On a via point the place along the seam stays the hand's.
	along := 0.5
	if taught.Role == plan.RoleVia {
		along = 3
	}
	off = taught.Wanted.P.Dist(want.P) * 1e3
	wire := taught.Wanted.R.Z().Angle(want.R.Z()) / degree
	limit := 1.0 // deg: two touches 0.4 mm off over the shortest plates touched
	switch {
	case taught.Role == plan.RoleVia:
		limit = 3 / 44.45 / degree // 3 mm round the tube turn the joint as far
	case strings.HasPrefix(taught.Label, "W9 "): // of the header stand
		// The end of a cubic through four touches, 110 mm * 28 deg = 53.8 mm apart,
		// leans by (11/6 + 3 + 3/2 + 1/3) * 0.4 mm / 53.8 mm at most. Derivative of
		// the interpolating cubic at its end, elementary.
		limit = 20. / 3 * 0.4 / 53.8 / degree
	}
	if off > along || wire > limit {
		t.Errorf("%s is planned %.2f mm and %.2f deg off, want %.1f mm and %.1f deg at most", taught.Label, off, wire, along, limit)
	}
}
