package seam_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

func genDir() *rapid.Generator[r3.Vec] {
	return rapid.Custom(func(t *rapid.T) r3.Vec {
		c := rapid.Float64Range(-1, 1)
		v := rapid.Custom(func(t *rapid.T) r3.Vec {
			return r3.Vec{X: c.Draw(t, "x"), Y: c.Draw(t, "y"), Z: c.Draw(t, "z")}
		}).Filter(func(v r3.Vec) bool { return v.Norm() > 0.1 }).Draw(t, "v")
		return v.Unit()
	})
}

func genPose() *rapid.Generator[se3.Pose] {
	return rapid.Custom(func(t *rapid.T) se3.Pose {
		p := genDir().Draw(t, "place")
		return se3.Pose{R: se3.RotAxis(genDir().Draw(t, "axis"), rapid.Float64Range(-3.1, 3.1).Draw(t, "angle")), P: p}
	})
}

// genSeam draws a seam of any joint, path, face and reading, anywhere in space.
func genSeam() *rapid.Generator[*seam.Seam] {
	return rapid.Custom(func(t *rapid.T) *seam.Seam {
		var path curve.Curve
		var err error
		switch rapid.IntRange(0, 2).Draw(t, "path") {
		case 0:
			path, err = curve.NewLine(r3.Vec{}, r3.Vec{X: 0.2})
		case 1:
			path, err = curve.NewCircle(r3.Vec{}, r3.Vec{Z: 1}, r3.Vec{X: 0.06}, 0.01)
		default:
			path, err = curve.Rounded(0.02, r3.Vec{}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.1}, r3.Vec{Y: 0.15})
		}
		if err != nil {
			t.Fatal(err)
		}
		tilt := se3.RotAxis(r3.Vec{X: 1}, rapid.Float64Range(-0.3, 0.3).Draw(t, "tilt")) // base not quite square to the travel
		base := rapid.SampledFrom([]seam.Face{
			seam.Plane{N: zDir}, seam.Plane{N: tilt.Apply(zDir)}, seam.Towards{Dir: tilt.Apply(zDir)},
		}).Draw(t, "base")
		joint := rapid.SampledFrom([]weld.JointType{weld.Tee, weld.Lap, weld.InsideCorner, weld.OutsideCorner, weld.Butt, weld.Edge}).Draw(t, "joint")
		spec := seam.Spec{
			Path: path, Base: base, Joint: joint,
			Keep: rapid.SampledFrom([]seam.Keep{seam.KeepTravel, seam.KeepPlates}).Draw(t, "keep"),
		}
		if joint != weld.Butt && joint != weld.Edge {
			up, err := seam.Stands(base, rapid.SampledFrom([]seam.Side{seam.Left, seam.Right}).Draw(t, "side"), rapid.Float64Range(20, 160).Draw(t, "included")*degree)
			if err != nil {
				t.Fatal(err)
			}
			spec.Other = up.Face
			if arc, ok := path.(curve.Arc); ok && rapid.Bool().Draw(t, "tube") {
				spec.Other = seam.Cylinder{Point: arc.Centre().AddScaled(3, zDir), Axis: zDir, Outward: rapid.Bool().Draw(t, "outside")}
			}
		}
		s, err := seam.New(spec)
		if err != nil {
			t.Fatal(err)
		}
		return s.Moved(genPose().Draw(t, "bFromA"))
	})
}

func genAim() *rapid.Generator[seam.Aim] {
	return rapid.Custom(func(t *rapid.T) seam.Aim {
		return seam.Aim{
			Work:     rapid.Float64Range(-80, 80).Draw(t, "work") * degree,
			Travel:   rapid.Float64Range(-80, 80).Draw(t, "travel") * degree,
			Spin:     rapid.Float64Range(-179.9, 179.9).Draw(t, "spin") * degree,
			Offset:   rapid.Float64Range(-0.02, 0.02).Draw(t, "offset"),
			Distance: rapid.Float64Range(-0.02, 0.02).Draw(t, "distance"),
		}
	})
}

func TestDecodeUndoesEncode(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genSeam().Draw(t, "seam")
		f := s.At(rapid.Float64Range(0, 1).Draw(t, "fraction") * s.Length())
		a := genAim().Draw(t, "aim")
		pose := f.Encode(a)
		r := f.Decode(pose)
		for _, gap := range []float64{r.Work - a.Work, r.Travel - a.Travel, r.Spin - a.Spin, r.Offset - a.Offset, r.Distance - a.Distance} {
			if !(math.Abs(gap) < 1e-9) {
				t.Fatalf("decoded %+v, want %+v", r.Aim, a)
			}
		}
		if r.AlongWire || r.Grazing {
			t.Fatalf("flags %+v", r)
		}
		// The tip's own place comes back too.
		p := f.Origin.AddScaled(r.Along, f.T).AddScaled(r.AcrossB, f.B).AddScaled(r.AcrossM, f.M)
		if p.Dist(pose.P) > 1e-12 {
			t.Fatalf("tip at %v, want %v", p, pose.P)
		}
		if back := f.Encode(r.Aim); back.R.AngleTo(pose.R) > 1e-9 {
			t.Fatalf("encoded again %v, want %v", back, pose)
		}
	})
}

func TestFrameIsSquareAndRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genSeam().Draw(t, "seam")
		arc := rapid.Float64Range(0, 1).Draw(t, "fraction") * s.Length()
		f := s.At(arc)
		for name, gap := range map[string]float64{
			"T.M": f.T.Dot(f.M), "T.B": f.T.Dot(f.B), "M.B": f.M.Dot(f.B), "T.Bisector": f.T.Dot(f.Bisector),
			"|T|": f.T.Norm() - 1, "|M|": f.M.Norm() - 1, "|B|": f.B.Norm() - 1, "|Bisector|": f.Bisector.Norm() - 1,
			"bisecting work": f.BisectingWork() - (math.Pi/2 - f.Included/2),
		} {
			if math.Abs(gap) > 1e-12 {
				t.Fatalf("%s off by %v in %+v", name, gap, f)
			}
		}
		pose := f.Pose()
		if pose.R.X() != f.T || pose.R.Z() != f.Bisector || pose.R.X().Cross(pose.R.Y()).Dist(pose.R.Z()) > 1e-12 {
			t.Fatalf("pose %v of %+v", pose, f)
		}
		if s.Other() != nil {
			p, travel := s.Path().At(arc)
			if o := s.Other().Normal(p, travel); o.Dot(f.B) <= 0 {
				t.Fatalf("B %v does not point out of the other plate, normal %v", f.B, o)
			}
		} else if f.B.Dist(f.M.Cross(f.T)) > 1e-12 {
			t.Fatalf("B %v of a %v joint is not to the left of travel", f.B, s.Joint())
		}
	})
}

// Moving the seam moves its targets, whatever the faces.
func TestMovedSeamMovesTargets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genSeam().Draw(t, "seam")
		bFromA := genPose().Draw(t, "again")
		a := genAim().Draw(t, "aim")
		arc := rapid.Float64Range(0.01, 0.99).Draw(t, "fraction") * s.Length()
		want := bFromA.Mul(s.At(arc).Encode(a))
		got := s.Moved(bFromA).At(arc).Encode(a)
		if got.R.AngleTo(want.R) > 1e-9 || got.P.Dist(want.P) > 1e-9 {
			t.Fatalf("moved %v, want %v", got, want)
		}
	})
}

// Walking the seam the other way swaps left and right, not the joint: same
// work, travel with its sign changed, spin turned by half.
func TestReversedSeamReadsTheOtherWay(t *testing.T) {
	s := teeAlongX(t)
	back := mustSeam(t, seam.Spec{Path: curve.Reversed(s.Path()), Joint: s.Joint(), Base: s.Base(), Other: s.Other()})
	pose := s.At(0.05).Encode(seam.Aim{Work: 40 * degree, Travel: 12 * degree, Spin: 20 * degree})
	arc, r := back.Read(pose)
	if math.Abs(arc-0.15) > 1e-12 || math.Abs(r.Work-40*degree) > 1e-12 || math.Abs(r.Travel+12*degree) > 1e-12 || math.Abs(r.Spin+160*degree) > 1e-12 {
		t.Errorf("at %v: %+v, want 0.15, 40, -12, -160 deg", arc, r.Aim)
	}
}

func TestSigns(t *testing.T) {
	s := teeAlongX(t) // travel X, base faces Z, open to Y
	f := s.At(0)
	if w := f.Encode(seam.Aim{Work: 45 * degree, Travel: 10 * degree}).R.Z(); !(w.X > 0 && w.Y < 0 && w.Z < 0) {
		t.Errorf("push: the wire %v must point with the travel and into the joint", w)
	}
	if p := f.Encode(seam.Aim{Offset: 0.001}).P; p.Dist(r3.Vec{Y: 0.001}) > 1e-15 {
		t.Errorf("offset 1 mm puts the tip at %v, want out on the base plate", p)
	}
	if p := f.Encode(seam.Aim{Distance: 0.002}).P; p.Dist(r3.Vec{Z: 0.002}) > 1e-15 {
		t.Errorf("distance +2 mm puts the tip at %v, want backed off", p)
	}
	straight := f.Encode(seam.Aim{})
	if straight.R.X().Dist(xDir) > 1e-15 {
		t.Errorf("spin 0: x along %v, want the travel", straight.R.X())
	}
	// Right-handed about the wire, which points down: clockwise from above.
	if x := f.Encode(seam.Aim{Spin: 90 * degree}).R.X(); x.Dist(yDir.Neg()) > 1e-15 {
		t.Errorf("spin 90: x along %v, want -Y", x)
	}
}

func TestDegeneratePoses(t *testing.T) {
	f := teeAlongX(t).At(0)
	along := f.Encode(seam.Aim{Work: 45 * degree, Travel: 90 * degree, Spin: 0.3})
	r := f.Decode(along)
	if !r.AlongWire || math.Abs(r.Travel-math.Pi/2) > 1e-9 || r.Work != 0 {
		t.Errorf("wire along the travel: %+v", r)
	}
	if back := f.Encode(r.Aim); back.R.AngleTo(along.R) > 1e-9 {
		t.Errorf("the pose does not come back: %v, want %v", back.R, along.R)
	}
	graze := f.Encode(seam.Aim{Work: 89.9 * degree, Distance: 0.005})
	r = f.Decode(graze)
	if !r.Grazing || r.Distance != 0 || r.Offset != r.AcrossB {
		t.Errorf("wire along the plate: %+v", r)
	}
	if math.Abs(r.Work-89.9*degree) > 1e-12 {
		t.Errorf("work %v, want 89.9 deg", r.Work/degree)
	}
}

// A tube on a plate, told by the circle, equals an upright on the inner side of
// a circle told by a side word.
func TestTubeEqualsSideWord(t *testing.T) {
	path, err := curve.NewCircle(r3.Vec{X: 0.4, Z: 0.1}, zDir, r3.Vec{X: 0.46, Z: 0.1}, 0.012)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		wall seam.Wall
		side seam.Side
	}{{seam.Outside, seam.Left}, {seam.Inside, seam.Right}} { // walked right-handed about up, the centre is on the left
		base, tube, err := seam.TubeOnPlate(path, tt.wall, seam.TowardSide(zDir, "up"))
		if err != nil {
			t.Fatal(err)
		}
		a := mustSeam(t, seam.Spec{Path: path, Joint: weld.Tee, Base: base.Face, Other: tube.Face})
		up, err := seam.Up(path, zDir)
		if err != nil {
			t.Fatal(err)
		}
		stands, err := seam.Stands(up.Face, tt.side, math.Pi/2)
		if err != nil {
			t.Fatal(err)
		}
		b := mustSeam(t, seam.Spec{Path: path, Joint: weld.Tee, Base: up.Face, Other: stands.Face})
		for i := range 10 {
			s := path.Length() * float64(i) / 9
			if fa, fb := a.At(s), b.At(s); fa.B.Dist(fb.B) > 1e-12 || fa.M.Dist(fb.M) > 1e-12 {
				t.Fatalf("%v at %v: %+v and %+v", tt.wall, s, fa, fb)
			}
		}
	}
}

func TestNewRefuses(t *testing.T) {
	line := straight(t, r3.Vec{}, r3.Vec{X: 0.2})
	zigzag, err := curve.Polyline(r3.Vec{}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.2})
	if err != nil {
		t.Fatal(err)
	}
	hairpin, err := curve.Polyline(r3.Vec{}, r3.Vec{X: 0.1, Y: 0.01}, r3.Vec{Y: 0.02})
	if err != nil {
		t.Fatal(err)
	}
	up := seam.Plane{N: zDir}
	tests := []struct {
		name string
		spec seam.Spec
		word string
	}{
		{"no path", seam.Spec{Joint: weld.Tee, Base: up}, "no path"},
		{"no base", seam.Spec{Path: line, Joint: weld.Tee}, "base plate is not known"},
		{"no other", seam.Spec{Path: line, Joint: weld.Lap, Base: up}, "needs its other plate"},
		{"no joint", seam.Spec{Path: line, Base: up, Other: seam.Plane{N: yDir}}, "joint type 0"},
		{"bad keep", seam.Spec{Path: line, Joint: weld.Butt, Base: up, Keep: 9}, "keep 9"},
		{"base along travel", seam.Spec{Path: line, Joint: weld.Butt, Base: seam.Plane{N: xDir}}, "normal of the base plate lies 0 deg"},
		{"other along travel", seam.Spec{Path: line, Joint: weld.Tee, Base: up, Other: seam.Plane{N: xDir.Neg()}}, "normal of the other plate lies 0 deg"},
		{"parallel faces of a tee", seam.Spec{Path: line, Joint: weld.Tee, Base: up, Other: up}, "meet at 180.0 deg"},
		{"opposed faces of a tee", seam.Spec{Path: line, Joint: weld.Tee, Base: up, Other: seam.Plane{N: zDir.Neg()}}, "meet at 0.0 deg"},
		{"square plates of a butt", seam.Spec{Path: line, Joint: weld.Butt, Base: up, Other: seam.Plane{N: yDir}}, "meet at 90.0 deg"},
		{"normal of no length", seam.Spec{Path: line, Joint: weld.Butt, Base: seam.Plane{}}, "no normal"},
		{"normal not unit", seam.Spec{Path: line, Joint: weld.Butt, Base: seam.Plane{N: r3.Vec{Z: 2}}}, "no normal"},
		{"not a number", seam.Spec{Path: line, Joint: weld.Butt, Base: seam.Plane{N: r3.Vec{Z: math.NaN()}}}, "no normal"},
		{"flat upright round a corner", seam.Spec{Path: zigzag, Joint: weld.Tee, Base: up, Other: seam.Plane{N: yDir}}, "at 200.0 mm"},
		{"opens to the other side", seam.Spec{Path: hairpin, Joint: weld.Tee, Base: up, Other: seam.Plane{N: yDir}}, "other side from 100.5 mm"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s, err := seam.New(tt.spec)
			if err == nil || !strings.Contains(err.Error(), tt.word) {
				t.Errorf("seam %v error %v, want one that says %q", s, err, tt.word)
			}
		})
	}
}

func TestOffSquare(t *testing.T) {
	n := se3.RotY(5 * degree).Apply(zDir) // leans 5 deg along the travel
	s := mustSeam(t, seam.Spec{Path: straight(t, r3.Vec{}, r3.Vec{X: 0.2}), Joint: weld.Butt, Base: seam.Plane{N: n}})
	if got := s.OffSquare() / degree; math.Abs(got-5) > 1e-9 {
		t.Errorf("off square by %v deg, want 5", got)
	}
}

func TestHotPathAllocatesNothing(t *testing.T) {
	s := teeAlongX(t)
	var sink float64
	if n := testing.AllocsPerRun(100, func() {
		p := s.At(0.1).Encode(seam.Aim{Work: 0.7})
		_, r := s.Read(p)
		sink += r.Work
	}); n != 0 {
		t.Errorf("%v allocations, want 0", n)
	}
}

func BenchmarkEncodeDecode(b *testing.B) {
	s := teeAlongX(b)
	for b.Loop() {
		f := s.At(0.1)
		f.Decode(f.Encode(seam.Aim{Work: 0.7, Travel: 0.1}))
	}
}
