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

func genMirror() *rapid.Generator[curve.Mirror] {
	return rapid.Custom(func(t *rapid.T) curve.Mirror {
		m, err := curve.NewMirror(genDir().Draw(t, "through"), genDir().Draw(t, "normal"))
		if err != nil {
			t.Fatal(err)
		}
		return m
	})
}

func genAnySeam() *rapid.Generator[*seam.Seam] {
	return rapid.OneOf(genSeam(), genTyped(), genAngled())
}

func sameFrame(a, b seam.Frame) bool {
	return max(a.Origin.Dist(b.Origin), a.T.Dist(b.T), a.M.Dist(b.M), a.B.Dist(b.B), a.Bisector.Dist(b.Bisector), math.Abs(a.Included-b.Included)) < 1e-7
}

// The image of a seam holds the torch in the image of how it was held, and the
// image of the image is the seam.
func TestMirroredSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genAnySeam().Draw(t, "seam")
		m := genMirror().Draw(t, "mirror")
		a := genAim().Draw(t, "aim")
		arc := rapid.Float64Range(0.01, 0.99).Draw(t, "fraction") * s.Length()
		image := s.Mirrored(m)
		want := s.At(arc).Encode(a)
		got := image.At(arc).Encode(s.MirroredAim(a))
		if got.P.Dist(m.Point(want.P)) > 1e-7 || got.R.Z().Dist(m.Dir(want.R.Z())) > 1e-7 || got.R.X().Dist(m.Dir(want.R.X())) > 1e-7 {
			t.Fatalf("image %v, want that of %v", got, want)
		}
		if !sameFrame(image.Mirrored(m).At(arc), s.At(arc)) {
			t.Fatalf("twice mirrored %+v, want %+v", image.Mirrored(m).At(arc), s.At(arc))
		}
		if twice := s.MirroredAim(s.MirroredAim(a)); twice != a {
			t.Fatalf("aim twice mirrored %+v, want %+v", twice, a)
		}
		// The image is a seam that New takes, and the same one.
		again, err := seam.New(seam.Spec{Path: image.Path(), Joint: image.Joint(), Base: image.Base(), Other: image.Other()})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(again.OffSquare()-s.OffSquare()) > 1e-7 {
			t.Fatalf("off square by %v, want %v", again.OffSquare(), s.OffSquare())
		}
	})
}

// Travelled the other way the joint is the same: same work, travel and spin as
// if walked back.
func TestReversedSeam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genAnySeam().Draw(t, "seam")
		a := genAim().Draw(t, "aim")
		arc := rapid.Float64Range(0.01, 0.99).Draw(t, "fraction") * s.Length()
		back := s.Reversed()
		f, r := s.At(arc), back.At(back.Length()-arc)
		if math.Abs(f.Included-r.Included) > 1e-7 || f.T.Dist(r.T.Neg()) > 1e-7 || f.M.Dist(r.M) > 1e-7 || f.Origin.Dist(r.Origin) > 1e-9 {
			t.Fatalf("there %+v, back %+v", f, r)
		}
		got := r.Decode(f.Encode(a))
		work := a.Work
		if f.B.Dot(r.B) < 0 { // butt: positive work leans to the left of travel
			work = -work
		}
		if math.Abs(got.Travel+a.Travel) > 1e-7 || math.Abs(got.Work-work) > 1e-7 {
			t.Fatalf("read %+v, want work %v, travel %v", got.Aim, work, -a.Travel)
		}
		if !sameFrame(back.Reversed().At(arc), f) {
			t.Fatalf("twice reversed %+v, want %+v", back.Reversed().At(arc), f)
		}
	})
}

// A right-hand bracket's seam, upright on the left, mirrored in the YZ plane:
// the upright stands on the right and the torch comes from the other side.
func TestMirroredSideWord(t *testing.T) {
	base := seam.Plane{N: zDir}
	up, err := seam.Stands(base, seam.Left, math.Pi/2)
	if err != nil {
		t.Fatal(err)
	}
	s := mustSeam(t, seam.Spec{Path: straight(t, r3.Vec{X: 0.1}, r3.Vec{X: 0.1, Y: 0.2}), Joint: weld.Tee, Base: base, Other: up.Face})
	m, err := curve.NewMirror(r3.Vec{}, xDir)
	if err != nil {
		t.Fatal(err)
	}
	image := s.Mirrored(m)
	if got := image.Other().(seam.Upright).Side; got != seam.Right {
		t.Errorf("the image's upright stands on the %v", got)
	}
	if a, b := s.At(0).B, image.At(0).B; a.Dist(xDir) > 1e-15 || b.Dist(xDir.Neg()) > 1e-15 {
		t.Errorf("opens to %v, the image to %v; want X and -X", a, b)
	}
	if got := image.Reversed().At(0); got.T.Dist(yDir.Neg()) > 1e-15 || got.B.Dist(xDir.Neg()) > 1e-15 {
		t.Errorf("the image reversed: %+v", got)
	}
}

func TestRepeat(t *testing.T) {
	row, err := seam.RepeatAlong(r3.Vec{X: 0.1, Z: 0.02}, 4)
	if err != nil {
		t.Fatal(err)
	}
	if len(row) != 4 || row[0] != se3.Identity() || row[3].Apply(yDir).Dist(r3.Vec{X: 0.3, Y: 1, Z: 0.06}) > 1e-15 {
		t.Errorf("row %v", row)
	}
	ring, err := seam.RepeatAround(r3.Vec{X: 1}, r3.Vec{Z: -5}, 90*degree, 4)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []r3.Vec{{X: 2}, {X: 1, Y: -1}, {}, {X: 1, Y: 1}} {
		if got := ring[i].Apply(r3.Vec{X: 2}); got.Dist(want) > 1e-12 {
			t.Errorf("place %d: %v, want %v", i, got, want)
		}
	}
	for _, tt := range []struct {
		name string
		err  error
		word string
	}{
		{"no step", err2(seam.RepeatAlong(r3.Vec{}, 3)), "0.1 mm"},
		{"none", err2(seam.RepeatAlong(xDir, 0)), "to 0 places"},
		{"too many", err2(seam.RepeatAlong(xDir, 1001)), "to 1001 places"},
		{"no axis", err2(seam.RepeatAround(r3.Vec{}, r3.Vec{}, 1, 3)), "axis"},
		{"no turn", err2(seam.RepeatAround(r3.Vec{}, zDir, 0, 3)), "0.1 deg"},
	} {
		if tt.err == nil || !strings.Contains(tt.err.Error(), tt.word) {
			t.Errorf("%s: error %v, want one that says %q", tt.name, tt.err, tt.word)
		}
	}
}

func err2(_ []se3.Pose, err error) error { return err }
