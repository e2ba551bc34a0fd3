package section_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/unit"
	"seamwright/weld/section"
)

// The plates and the groove between them make up the whole slab, and no outline is
// hollow.
func TestPlatesFillTheRest(t *testing.T) {
	const reach = 0.2
	for _, g := range []section.Groove{
		{Prep: section.Square, Thickness: 4e-3, Gap: 2e-3},
		{Prep: section.SingleV, Thickness: 10e-3, Gap: 3e-3, RootFace: 1.5e-3, Angle: 60 * unit.Deg},
		{Prep: section.DoubleV, Thickness: 30e-3, Gap: 2e-3, RootFace: 2e-3, Angle: 60 * unit.Deg, Back: 9e-3},
		{Prep: section.SingleBevel, Thickness: 12e-3, Gap: 2e-3, Angle: 45 * unit.Deg},
		{Prep: section.SingleU, Thickness: 25e-3, RootFace: 2e-3, Angle: 12 * unit.Deg, Radius: 6e-3},
		{Prep: section.DoubleJ, Thickness: 40e-3, Gap: 1e-3, RootFace: 2e-3, Angle: 15 * unit.Deg, Radius: 8e-3},
		{Prep: section.FlareV, Thickness: 12e-3, Gap: 1e-3, Radius: 12e-3},
	} {
		made, err := section.NewGroove(g)
		if err != nil {
			t.Fatal(err)
		}
		sum := made.Area()
		for _, p := range made.Plates(reach) {
			sum += p.Area()
			for i := range p {
				a, b, c := p[i], p[(i+1)%len(p)], p[(i+2)%len(p)]
				if (b.X-a.X)*(c.Y-b.Y)-(b.Y-a.Y)*(c.X-b.X) < -1e-15 {
					t.Errorf("%v: an outline is hollow at %v", g.Prep, b)
				}
			}
		}
		if want := 2 * reach * g.Thickness; math.Abs(sum-want) > 0.1e-6 { // rounds are told within 1 um
			t.Errorf("%v: plates and groove are %.4f mm2, the slab is %.4f", g.Prep, sum*1e6, want*1e6)
		}
	}
}

func TestHull(t *testing.T) {
	square := []section.Point{{X: 1}, {}, {X: 1, Y: 1}, {X: 0.5, Y: 0.2}, {Y: 1}, {X: 0.5}}
	if got := section.Hull(square); len(got) != 4 || math.Abs(got.Area()-1) > 1e-15 {
		t.Errorf("got %v, want the unit square", got)
	}
	if got := section.Hull([]section.Point{{}, {X: 1, Y: 1}, {X: 2, Y: 2}}); got != nil {
		t.Errorf("points on a line have the hull %v", got)
	}
	point := rapid.Custom(func(t *rapid.T) section.Point {
		return section.Point{X: rapid.Float64Range(-1, 1).Draw(t, "x"), Y: rapid.Float64Range(-1, 1).Draw(t, "y")}
	})
	rapid.Check(t, func(t *rapid.T) {
		all := rapid.SliceOfN(point, 3, 20).Draw(t, "points")
		hull := section.Hull(all)
		for i := range hull {
			a, b := hull[i], hull[(i+1)%len(hull)]
			for _, p := range all {
				if (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) < -1e-12 {
					t.Fatalf("%v lies outside the hull %v", p, hull)
				}
			}
		}
	})
}
