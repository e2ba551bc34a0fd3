package seam_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"seamwright/geom/curve"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// taughtTorches are the taught poses of scenario S1.
func taughtTorches(t testing.TB) []se3.Pose {
	var poses []se3.Pose
	for _, p := range scenarioNamed(t, "S1").Taught {
		poses = append(poses, p.pose())
	}
	return poses
}

// From touches alone: three exact points on the base plate of S1, two on its
// upright, told vertical, and the outward sides by the torch as taught.
func TestTouchedPlatesOfS1(t *testing.T) {
	sc := scenarioNamed(t, "S1")
	truth := sc.truth(t).At(0)
	onBase := func(along, out float64) r3.Vec {
		return truth.Origin.AddScaled(along, truth.T).AddScaled(out, truth.B)
	}
	onUpright := func(along, up float64) r3.Vec {
		return truth.Origin.AddScaled(along, truth.T).AddScaled(up, truth.M)
	}
	torch := seam.TowardTorch(taughtTorches(t)...)
	base, err := seam.Touched([]r3.Vec{onBase(0, 0.02), onBase(0.25, 0.02), onBase(0.1, 0.12)}, 0.3e-3, torch)
	if err != nil {
		t.Fatal(err)
	}
	upright, err := seam.TouchedVertical([]r3.Vec{onUpright(0.01, 0.03), onUpright(0.24, 0.06)}, zDir, 0.3e-3, torch)
	if err != nil {
		t.Fatal(err)
	}
	for _, k := range []struct {
		got  seam.Known
		want r3.Vec
	}{{base, truth.M}, {upright, truth.B}} {
		if n := k.got.Face.Normal(truth.Origin, truth.T); n.Angle(k.want) > 0.05*degree {
			t.Errorf("normal %v, want %v", n, k.want)
		}
		if !strings.Contains(k.got.Decided, "towards the torch as taught at 4 points") || !(k.got.Sigma > 0) {
			t.Errorf("decided %q within %v", k.got.Decided, k.got.Sigma)
		}
	}
	s := mustSeam(t, seam.Spec{Path: sc.truth(t).Path(), Joint: weld.Tee, Base: base.Face, Other: upright.Face})
	aim := seam.Aim{Work: 45 * degree, Travel: 10 * degree}
	if gap := s.At(0).Encode(aim).R.AngleTo(truth.Encode(aim).R); gap > 0.05*degree {
		t.Errorf("target off by %v deg", gap/degree)
	}
}

func TestOutwardEvidence(t *testing.T) {
	down := se3.Pose{R: se3.RotColumns(xDir, yDir.Neg(), zDir.Neg())} // torch above, wire down
	up := se3.Pose{R: se3.RotIdentity()}
	side := se3.Pose{R: se3.RotColumns(yDir, zDir, xDir)}
	tests := []struct {
		name string
		o    seam.Outward
		want r3.Vec
		word string // of the error
	}{
		{"torch above", seam.TowardTorch(down), zDir, ""},
		{"torch below", seam.TowardTorch(up), zDir.Neg(), ""},
		{"one beside, one above", seam.TowardTorch(side, down), zDir, ""},
		{"torch beside", seam.TowardTorch(side), r3.Vec{}, "stays open"},
		{"torches contradict", seam.TowardTorch(up, down), r3.Vec{}, "contradicted"},
		{"no torch", seam.TowardTorch(), r3.Vec{}, "nothing says"},
		{"no evidence", seam.Outward{}, r3.Vec{}, "nothing says"},
		{"side", seam.TowardSide(r3.Vec{X: 1, Z: -1}, "the floor side"), zDir.Neg(), ""},
		{"side of no length", seam.TowardSide(r3.Vec{}, "nowhere"), r3.Vec{}, "stays open"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			k, err := seam.Direction(r3.Vec{Z: -3}, &tt.o)
			if tt.word != "" {
				if err == nil || !strings.Contains(err.Error(), tt.word) {
					t.Fatalf("error %v, want one that says %q", err, tt.word)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if n := k.Face.Normal(r3.Vec{}, xDir); n.Dist(tt.want) > 1e-15 {
				t.Errorf("normal %v, want %v", n, tt.want)
			}
		})
	}
}

// Every taught scenario tells by its torches where its upright stands: across
// from the side to which n_upright points.
func TestStandsBehindTorch(t *testing.T) {
	for _, sc := range scenarios(t) {
		truth := sc.truth(t)
		var poses []se3.Pose
		for _, p := range sc.Taught {
			poses = append(poses, p.pose())
		}
		side, why, err := seam.StandsBehind(truth.Path(), truth.Base(), poses...)
		if sc.ID == "S7" { // a butt joint: the torch stands over it
			if err == nil || !strings.Contains(err.Error(), "stays open") {
				t.Errorf("S7: %v %v, want it left open", side, err)
			}
			continue
		}
		want := seam.Left
		if f := truth.At(0); f.B.Dot(f.M.Cross(f.T)) > 0 {
			want = seam.Right
		}
		if err != nil || side != want || !strings.Contains(why, "torch as taught at 4 points") {
			t.Errorf("%s %s: %v (%s), %v; want %v", sc.ID, sc.Seam, side, why, err, want)
		}
	}
}

func TestUpAndDown(t *testing.T) {
	climb := straight(t, r3.Vec{}, r3.Vec{X: 0.1, Z: 0.1})
	up, err := seam.Up(climb, zDir.Scale(9.81))
	if err != nil {
		t.Fatal(err)
	}
	_, travel := climb.At(0)
	want := r3.Vec{X: -1, Z: 1}.Unit()
	if n := up.Face.Normal(r3.Vec{}, travel); n.Dist(want) > 1e-15 {
		t.Errorf("up: %v, want %v", n, want)
	}
	down, err := seam.Down(climb, zDir)
	if err != nil {
		t.Fatal(err)
	}
	if n := down.Face.Normal(r3.Vec{}, travel); n.Dist(want.Neg()) > 1e-15 {
		t.Errorf("down: %v, want %v", n, want.Neg())
	}
	s := mustSeam(t, seam.Spec{Path: climb, Joint: weld.Butt, Base: up.Face})
	if got := s.OffSquare(); got > 1e-12 {
		t.Errorf("up is made square to the travel, yet off by %v", got)
	}
}

func TestKnownRefuses(t *testing.T) {
	level := straight(t, r3.Vec{}, r3.Vec{X: 0.2})
	steep := straight(t, r3.Vec{}, r3.Vec{X: 0.02, Z: 0.2})
	slope := straight(t, r3.Vec{}, r3.Vec{X: 0.2, Z: 0.05})
	circle, err := curve.NewCircle(r3.Vec{}, zDir, xDir, 0)
	if err != nil {
		t.Fatal(err)
	}
	torch := seam.TowardSide(zDir, "up")
	plate := seam.Plane{N: zDir}
	three := []r3.Vec{{}, {X: 0.2}, {Y: 0.2}}
	tests := []struct {
		name string
		err  error
		word string
	}{
		{"up on a steep seam", err1(seam.Up(steep, zDir)), "climbs 84 deg"},
		{"no up", err1(seam.Up(level, r3.Vec{})), "names no direction"},
		{"level without up", err1(seam.Level(level, r3.Vec{X: math.NaN()})), "names no direction"},
		{"no path", err1(seam.Down(nil, zDir)), "no path"},
		{"level on a slope", err1(seam.Level(slope, zDir)), "climbs 14.0 deg"},
		{"direction of no length", err1(seam.Direction(r3.Vec{}, nil)), "names none"},
		{"stands on nothing", err1(seam.Stands(nil, seam.Left, 1)), "not the plate"},
		{"stands nowhere", err1(seam.Stands(plate, 0, 1)), "left or right"},
		{"stands at no angle", err1(seam.Stands(plate, seam.Left, 0)), "15 to 165"},
		{"touched on a line", err1(seam.Touched([]r3.Vec{{}, {X: 1}, {X: 2}}, 1e-3, torch)), "one line"},
		{"touched twice", err1(seam.Touched(three[:2], 1e-3, torch)), "at least 3"},
		{"touched too narrow", err1(seam.Touched([]r3.Vec{{}, {X: 0.2}, {X: 0.1, Y: 0.01}}, 1.5e-3, torch)), "touch further apart"},
		{"touched, side unknown", err1(seam.Touched(three, 1e-3, seam.Outward{})), "nothing says"},
		{"vertical, one above the other", err1(seam.TouchedVertical([]r3.Vec{{}, {Z: 0.1}}, zDir, 1e-3, torch)), "seen from above"},
		{"vertical, no up", err1(seam.TouchedVertical(three, r3.Vec{}, 1e-3, torch)), "names no direction"},
		{"vertical, too close", err1(seam.TouchedVertical([]r3.Vec{{}, {X: 0.01}}, zDir, 1.5e-3, torch)), "touch further apart"},
		{"vertical, side unknown", err1(seam.TouchedVertical([]r3.Vec{{}, {X: 0.1}}, zDir, 1e-3, torch)), "stays open"},
		{"tube of no wall", tubeError(circle, 0, torch), "outside or inside"},
		{"tube, side unknown", tubeError(circle, seam.Outside, seam.Outward{}), "nothing says"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.err == nil || !strings.Contains(tt.err.Error(), tt.word) {
				t.Errorf("error %v, want one that says %q", tt.err, tt.word)
			}
		})
	}
	if _, err := seam.Touched(three[:2], 1e-3, torch); !errors.Is(err, fit.ErrDegenerate) {
		t.Errorf("%v must say that the points are degenerate", err)
	}
}

func err1(_ seam.Known, err error) error { return err }

func tubeError(path curve.Arc, wall seam.Wall, o seam.Outward) error {
	_, _, err := seam.TubeOnPlate(path, wall, o)
	return err
}

func TestParseSide(t *testing.T) {
	for _, s := range []seam.Side{seam.Left, seam.Right} {
		if got, err := seam.ParseSide(" " + strings.ToUpper(s.String())); err != nil || got != s {
			t.Errorf("%v: %v, %v", s, got, err)
		}
	}
	if _, err := seam.ParseSide("port"); err == nil || !strings.Contains(err.Error(), "left or right") {
		t.Errorf("error %v", err)
	}
}

// In an outside corner the torch halves the outer faces: the bisector of a box
// corner, top face up and side face to +Y, points up and out.
func TestOutsideCorner(t *testing.T) {
	s := mustSeam(t, seam.Spec{
		Path: straight(t, r3.Vec{}, r3.Vec{X: 0.2}), Joint: weld.OutsideCorner,
		Base: seam.Plane{N: zDir}, Other: seam.Plane{N: yDir},
	})
	f := s.At(0)
	if want := yDir.Add(zDir).Unit(); f.Bisector.Dist(want) > 1e-15 || math.Abs(f.Included-math.Pi/2) > 1e-15 {
		t.Errorf("bisector %v included %v, want %v and 90 deg", f.Bisector, f.Included/degree, want)
	}
	if got := f.Encode(seam.Aim{Work: f.BisectingWork()}).R.Z().Neg(); got.Dist(f.Bisector) > 1e-15 {
		t.Errorf("torch body along %v, want the bisector", got)
	}
}

// Butt plates that are not quite in line: the torch that halves them leans to
// the left or right of travel by half the misfit.
func TestButtOutOfLine(t *testing.T) {
	for _, lean := range []float64{6, -6} {
		other := se3.RotX(-lean * degree).Apply(zDir) // to +Y, the left, for +6
		s := mustSeam(t, seam.Spec{
			Path: straight(t, r3.Vec{}, r3.Vec{X: 0.2}), Joint: weld.Butt,
			Base: seam.Plane{N: zDir}, Other: seam.Plane{N: other},
		})
		f := s.At(0)
		if f.B.Dist(yDir) > 1e-12 {
			t.Errorf("B %v, want the left of travel", f.B)
		}
		if got := f.BisectingWork() / degree; math.Abs(got-lean/2) > 1e-9 {
			t.Errorf("bisecting work %v, want %v", got, lean/2)
		}
	}
}
