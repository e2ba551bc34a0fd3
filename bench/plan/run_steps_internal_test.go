package plan

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/robot/motion"
	"seamwright/weld/seam"
)

// keyedMotion is a motion along a way that keeps its spin, without an arm.
func keyedMotion(t testing.TB, w seam.Way, aim seam.Aim) *Motion {
	t.Helper()
	spin, err := motion.NewSpinProfile([]float64{0}, []float64{aim.Spin})
	if err != nil {
		t.Fatal(err)
	}
	return &Motion{search: &postureSearch{track: newTrack(w, aim)}, spin: spin}
}

// The moves of a seam with sharp corners, as commanded.
func TestStepsAtCorners(t *testing.T) {
	for name, row := range map[string]struct {
		radius float64
		share  seam.Share
		want   []string
	}{
		"in place": {0, seam.Share{}, []string{
			"W1 weld start linear on", "W1 corner 100 mm linear", "W1 turned in corner 100 mm linear", "W1 weld end linear off"}},
		"shared out": {0, seam.Share{Before: 20 / deg, After: 15 / deg}, []string{
			"W1 weld start linear on", "W1 turn begins 85 mm linear", "W1 corner 100 mm linear", "W1 turned in corner 100 mm linear", "W1 turn ends 115 mm linear", "W1 weld end linear off"}},
		"all on the seam": {0, seam.Share{Before: 45 / deg, After: 45 / deg}, []string{
			"W1 weld start linear on", "W1 turn begins 85 mm linear", "W1 corner 100 mm linear", "W1 turn ends 115 mm linear", "W1 weld end linear off"}},
		"arc off": {0, seam.Share{ArcOff: true}, []string{
			"W1 weld start linear on", "W1 corner 100 mm linear off", "W1 turned in corner 100 mm linear on", "W1 weld end linear off"}},
		"round": {0.015, seam.Share{}, []string{
			"W1 weld start linear on", "W1 arc begins 85 mm linear", "W1 via 97 mm arc", "W1 arc end 109 mm arc", "W1 weld end linear off"}},
	} {
		t.Run(name, func(t *testing.T) {
			p := bentSeam{geometry: boxAround(t, row.radius, 0.2), shares: []seam.Share{row.share}}.plan(t)
			var got []string
			on := false
			for _, s := range p.Steps {
				on = on || s.Arc == "on"
				if on && s.Move != MoveJoint {
					got = append(got, strings.TrimSpace(fmt.Sprintf("%s %s %s", s.Label, s.Move, s.Arc)))
				}
				turns := strings.Contains(s.Label, "turned")
				if turns != (s.Turn > 0) || turns && (s.Speed != 0 || math.Abs(s.Turn-turnMost) > 1e-3*turnMost) {
					t.Errorf("%s at %v m/s and %v rad/s", s.Label, s.Speed, s.Turn)
				}
			}
			got = got[:len(got)-1] // the retreat
			if strings.Join(got, "\n") != strings.Join(row.want, "\n") {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(row.want, "\n"))
			}
		})
	}
}

// Chords on a circle of radius 100 mm with an error of 0.2 mm are 12.6 mm long:
// sqrt(8 R eps) (the project's welding reference, computed there). A spline
// through points of the circle is commanded by so many linear moves.
func TestChordsOfACircle(t *testing.T) {
	var at []r3.Vec
	const radius = 0.1
	for i := range 25 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 24)
		at = append(at, r3.Vec{X: radius * cos, Y: radius * sin})
	}
	path, err := curve.NewSpline(curve.SplineRequest{Points: at})
	up := seam.Plane{N: r3.Vec{Z: 1}}
	g := mustSeam(t, path, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})
	m := keyedMotion(t, mustWay(t, g), seam.Aim{Work: 45 / deg})
	// The torch may be off an even turn by 1 deg, which the 7.2 deg of such a
	// chord never are.
	want := int(math.Ceil(math.Pi * radius / 12.6e-3))
	k := m.keyed()
	if k.Points != want+1 || k.Off > chordMost*1.01 || k.Off < chordMost*0.9 {
		t.Errorf("%d points, off by %.3f mm, want %d and up to 0.2 mm", k.Points, k.Off*1e3, want+1)
	}
}

// Whatever the way, its moves follow it, with few points.
func TestMovesFollowTheWay(t *testing.T) {
	saddle, err := curve.NewSaddle(curve.SaddleRequest{
		Run:    curve.Tube{Axis: r3.Vec{Y: 1}, Radius: 0.06},
		Branch: curve.Tube{Axis: r3.Vec{Z: 1}, Radius: 0.04}, Sweep: 2 * math.Pi,
	})
	onTubes := mustSeam(t, saddle, err, seam.Cylinder{Axis: r3.Vec{Y: 1}, Outward: true}, seam.Cylinder{Axis: r3.Vec{Z: 1}, Outward: true})
	aim := seam.Aim{Work: 45 / deg, Travel: 10 / deg, Spin: 0.3}
	beside := aim
	beside.Offset, beside.Distance = 2e-3, 3e-3
	share := seam.Share{Before: 20 / deg, After: 15 / deg}
	// A round plate edge on a base plate that is tilted against it by 25 deg.
	arc, err := curve.NewArc(curve.ArcRequest{Axis: r3.Vec{Z: 1}, Start: r3.Vec{X: 0.05}, Sweep: math.Pi})
	sloped := seam.Towards{Dir: r3.Vec{X: math.Sin(25 / deg), Z: math.Cos(25 / deg)}}
	tilted := mustSeam(t, arc, err, sloped, seam.Upright{On: sloped, Side: seam.Left, Included: math.Pi / 2})
	for name, row := range map[string]struct {
		way  seam.Way
		aim  seam.Aim
		most int // key points, weld start and end included
	}{
		"line":               {mustWay(t, boxAround(t, 0, 0.1)), aim, 2},
		"sharp":              {mustWay(t, boxAround(t, 0, 0.2), share), aim, 6},
		"sharp, aimed aside": {mustWay(t, boxAround(t, 0, 0.2), share), beside, 8},
		"round":              {mustWay(t, boxAround(t, 0.015, 0.2)), aim, 5},
		"round, aimed aside": {mustWay(t, boxAround(t, 0.015, 0.2)), beside, 5},
		"tilted plate":       {mustWay(t, tilted), beside, 17},
		"saddle":             {mustWay(t, onTubes), aim, 36},
		"saddle, aside":      {mustWay(t, onTubes), beside, 38},
	} {
		t.Run(name, func(t *testing.T) {
			k := keyedMotion(t, row.way, row.aim).keyed()
			if k.Points > row.most || k.Off > chordMost*1.02 || k.Turn > knotTolerance*1.02 {
				t.Errorf("%d points, off by %.3f mm and %.2f deg; want up to %d, 0.2 mm and 1 deg", k.Points, k.Off*1e3, k.Turn*deg, row.most)
			}
			t.Logf("%d points, off by %.3f mm and %.2f deg", k.Points, k.Off*1e3, k.Turn*deg)
		})
	}
}

// A move that cuts a corner is seen: the chord of a quarter circle lies R(1 -
// cos 45 deg) off it, and the torch, which turns evenly, is true to it.
func TestMovesThatCutAreSeen(t *testing.T) {
	const radius = 0.02
	arc, err := curve.NewArc(curve.ArcRequest{Axis: r3.Vec{Z: 1}, Start: r3.Vec{X: radius}, Sweep: math.Pi / 2})
	up := seam.Plane{N: r3.Vec{Z: 1}}
	g := mustSeam(t, arc, err, up, seam.Upright{On: up, Side: seam.Left, Included: math.Pi / 2})
	m := keyedMotion(t, mustWay(t, g), seam.Aim{Work: 45 / deg})
	_, poses := m.sampled(0, g.Length(), keyedStep)
	off, turn := chordError(poses, 1)
	if want := radius * (1 - math.Cos(math.Pi/4)); math.Abs(off-want) > 1e-9 || turn > 1e-7 {
		t.Errorf("off by %v m and %v rad, want %v and 0", off, turn, want)
	}
	if off, turn = arcError(poses); off > 1e-9 || turn > 1e-7 {
		t.Errorf("the arc move is off by %v m and %v rad", off, turn)
	}
}

func TestThreeDigits(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 59.96: "60", 412.3: "412", 2221.4: "2221", 1.234: "1.23"} {
		if got := threeDigits(x); got != want {
			t.Errorf("%v is written %q, want %q", x, got, want)
		}
	}
}
