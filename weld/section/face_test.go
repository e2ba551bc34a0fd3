package section_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/weld/section"
)

// TestFilletOutline: the outline with a cap has the area of triangle and
// circular segment, by the shoelace sum, by integration and by a clipping library.
func TestFilletOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFillet(t)
		most := 0.5 * f.FaceWidth()
		height := rapid.Float64Range(-0.5, 1).Draw(t, "cap share")
		if height < 0 {
			height *= min(most, f.TrueThroat())
		} else {
			height *= most
		}
		outline, err := f.Outline(height)
		if err != nil {
			t.Fatal(err)
		}
		segment, err := section.CapArea(f.FaceWidth(), math.Abs(height))
		if err != nil {
			t.Skip("a face that no cap is told for")
		}
		want := f.Area() + math.Copysign(segment, height)
		slack := 1e-6 * 2 * f.FaceWidth() // the outline leaves the face by 1 um at most
		if got := outline.Area(); math.Abs(got-want) > slack {
			t.Fatalf("cap %g mm: outline %g mm2, want %g", height/mm, got/mm2, want/mm2)
		}
		if got := scanned(outline); math.Abs(got-want) > slack+1e-2*want {
			t.Fatalf("cap %g mm: integrated %g mm2, want %g", height/mm, got/mm2, want/mm2)
		}
	})
}

// TestWithFactor: the outline has k times the flat area, and its cap makes that
// factor.
func TestWithFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFillet(t)
		k := rapid.Float64Range(1, 1.3).Draw(t, "k")
		outline, height, err := f.WithFactor(k)
		if err != nil {
			t.Fatal(err)
		}
		if got := measured(t, outline); math.Abs(got-k*f.Area()) > 1e-6*2*f.FaceWidth() {
			t.Fatalf("k %g: %g mm2, want %g", k, got/mm2, k*f.Area()/mm2)
		}
		if got, err := f.ConvexityFactor(height); err != nil || math.Abs(got-k) > 1e-9 {
			t.Fatalf("cap %g mm makes k %g, want %g, %v", height/mm, got, k, err)
		}
	})
}

// TestBothSizes: a concave face has less area than a flat one, down to nothing
// of the segment, and its throat is where the face is nearest to the root.
func TestBothSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(60, 120).Draw(t, "angle") * deg
		leg := rapid.Float64Range(3, 20).Draw(t, "leg") * mm
		share := rapid.Float64Range(0.7, 1).Draw(t, "share")
		throat := share * leg * math.Cos(angle/2)
		s, err := section.BothSizes(angle, leg, throat)
		if err != nil {
			t.Fatal(err)
		}
		area, err := s.Area()
		if err != nil {
			t.Fatal(err)
		}
		outline, err := s.Outline(-s.Concavity)
		if err != nil {
			t.Fatal(err)
		}
		if got := outline.Area(); math.Abs(got-area) > 1e-6*2*s.FaceWidth() || area > s.Fillet.Area() {
			t.Fatalf("outline %g mm2, formula %g, flat %g", got/mm2, area/mm2, s.Fillet.Area()/mm2)
		}
		nearest := math.Inf(1)
		for i := 1; i+1 < len(outline); i++ {
			a, b := outline[i], outline[i+1]
			for step := range 101 {
				u := float64(step) / 100
				nearest = min(nearest, math.Hypot(a.X+u*(b.X-a.X), a.Y+u*(b.Y-a.Y)))
			}
		}
		if math.Abs(nearest-throat) > 2e-6 {
			t.Fatalf("nearest point of the face %g mm, throat %g", nearest/mm, throat/mm)
		}
	})
	flat := must[section.Sized](t)(section.BothSizes(90*deg, 6*mm, 4.25*mm)) // a drawing that rounds
	if flat.Concavity != 0 || math.Abs(flat.Throat/mm-4.243) > 1e-3 {
		t.Errorf("rounded throat: %+v", flat)
	}
}

// TestPolygon: the centre of a triangle is the mean of its corners, and an
// outline told clockwise has a negative area.
func TestPolygon(t *testing.T) {
	p := section.Polygon{{X: 1, Y: 1}, {X: 4, Y: 1}, {X: 1, Y: 7}}
	if got := p.Centroid(); math.Hypot(got.X-2, got.Y-3) > 1e-12 || p.Area() != 9 {
		t.Errorf("centre %v, area %g", got, p.Area())
	}
	if got := (section.Polygon{p[2], p[1], p[0]}).Area(); got != -9 {
		t.Errorf("clockwise area %g", got)
	}
}

// TestPenetration: what is left between two sides, and nothing more than nothing.
func TestPenetration(t *testing.T) {
	g := must[section.Groove](t)(section.NewGroove(section.Groove{Prep: section.DoubleV, Thickness: 20 * mm, RootFace: 4 * mm, Angle: 60 * deg}))
	for _, row := range []struct {
		front, back, depth, unfused float64 // mm
		complete                    bool
	}{
		{0, 0, 16, 4, false}, {1.5, 1.5, 19, 1, false}, {2, 2, 20, 0, true}, {5, 5, 20, 0, true},
	} {
		p, err := g.Penetration(row.front*mm, row.back*mm)
		if err != nil || math.Abs(p.Depth/mm-row.depth) > 1e-9 || math.Abs(p.Unfused/mm-row.unfused) > 1e-9 || p.Complete != row.complete {
			t.Errorf("%+v: %+v, %v", row, p, err)
		}
	}
	square := must[section.Groove](t)(section.NewGroove(section.Groove{Prep: section.Square, Thickness: 4 * mm, Gap: 2 * mm}))
	if p, err := square.Penetration(3*mm, 0); err != nil || p.Depth != 3*mm || p.Complete {
		t.Errorf("square: %+v, %v", p, err)
	}
	f := must[section.Fillet](t)(section.FromThroat(90*deg, 5*mm))
	if s, err := f.DeepThroat(2 * mm); err != nil || math.Abs(s/mm-7) > 1e-9 {
		t.Errorf("deep throat %g mm, %v", s/mm, err)
	}
}

// TestFitUp: the tolerances to both sides, in words.
func TestFitUp(t *testing.T) {
	drawn := section.Groove{Prep: section.SingleV, Thickness: 10 * mm, Gap: 3 * mm, RootFace: 1.5 * mm, Angle: 60 * deg}
	measured := drawn
	measured.Gap, measured.RootFace, measured.Angle = 5*mm, 0, 70*deg
	got, source, err := section.FitUp(drawn, measured)
	if err != nil || len(got) != 0 || source.String() != "AWS D1.1 as quoted, workshop articles in a public repository (read)" {
		t.Errorf("at the limits: %v, %v, %v", got, source, err)
	}
	measured.Gap, measured.RootFace, measured.Angle = 5.1*mm, 3.6*mm, 54*deg
	got, _, err = section.FitUp(drawn, measured)
	want := []section.Difference{
		{What: "gap", Found: "5.1 mm", Allowed: "1 mm to 5 mm", Mend: "re-fit, or plan the section as measured"},
		{What: "root face", Found: "3.6 mm", Allowed: "0 mm to 3.5 mm", Mend: "grind the root face"},
		{What: "angle", Found: "54 deg", Allowed: "55 deg to 70 deg", Mend: "prepare the edges again"},
	}
	if err != nil || len(got) != len(want) {
		t.Fatalf("%v, %v", got, err)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%v, want %v", got[i], want[i])
		}
	}
}
