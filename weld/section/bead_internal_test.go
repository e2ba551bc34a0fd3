package section

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestTurnFor undoes segmentShare, to both sides, from nothing to the half circle.
func TestTurnFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "turn")
		got, ok := turnFor(segmentShare(turn))
		if !ok || math.Abs(got-turn) > 1e-9 {
			t.Fatalf("turn %g comes back as %g, %v", turn, got, ok)
		}
	})
	for _, turn := range []float64{0, 1e-9, 9.9e-5, 1.1e-4, 1e-3, math.Pi} {
		if got, ok := turnFor(segmentShare(turn)); !ok || math.Abs(got-turn) > 1e-9 {
			t.Errorf("turn %g comes back as %g, %v", turn, got, ok)
		}
	}
	if got, ok := turnFor(0.5); ok || got != math.Pi {
		t.Errorf("beyond the half circle: %g, %v", got, ok)
	}
}

// TestSegmentShareIsTheOutline: the closed form is the shoelace sum of the face.
func TestSegmentShareIsTheOutline(t *testing.T) {
	for _, turn := range []float64{-3, -1, -1e-3, 1e-6, 1e-3, 0.5, 1.5, 3.1} {
		face := bulge(nil, Point{1, 2}, Point{-3, 5}, turn, faceSteps)
		if got, want := Polygon(face).Area(), segmentShare(turn)*25; math.Abs(got-want) > 1e-8*math.Abs(want)+1e-12 {
			t.Errorf("turn %g: outline %g, closed form %g", turn, got, want)
		}
	}
}

// TestUnder: the area between a surface and a straight line is the shoelace sum of
// both.
func TestUnder(t *testing.T) {
	s := newSurface([]Point{{10, 0}, {4, 0}, {3, -2}, {0, -1}, {-2, 3}, {-6, 3}})
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, s.length()).Draw(t, "a")
		b := rapid.Float64Range(a, s.length()).Draw(t, "b")
		from, to := s.spot(a), s.spot(b)
		way := append([]Point{from.Point}, s.corners(from, to)...)
		way = append(way, to.Point)
		slices.Reverse(way)
		if got, want := s.under(from, to), Polygon(way).Area(); math.Abs(got-want) > 1e-9 {
			t.Fatalf("from %g to %g: %g, want %g", a, b, got, want)
		}
	})
}

// TestFilmed: over a ridge the bead has its area and stays over the ridge; an
// overhang and an area too small for a film are no ground for it.
func TestFilmed(t *testing.T) {
	ridge := newSurface([]Point{{20e-3, 0}, {10e-3, 0}, {6e-3, 1e-3}, {2e-3, 0}, {-10e-3, 0}, {-20e-3, 0}})
	f := face{from: ridge.spot(10e-3), to: ridge.spot(ridge.length() - 10e-3)}
	for _, area := range []float64{8e-6, 10e-6, 14e-6} {
		got, ok := filmed(ridge, f, area)
		if !ok {
			t.Errorf("%g mm2 make no bead", area*1e6)
			continue
		}
		if outline := got.outline(ridge).Area(); math.Abs(outline-area) > 1e-9*area {
			t.Errorf("outline %g mm2, want %g", outline*1e6, area*1e6)
		}
		top := math.Inf(-1)
		for _, p := range got.shape {
			if math.Abs(p.X-6e-3) < 1e-9 {
				top = p.Y
			}
		}
		if top < 1e-3+film-1e-9 {
			t.Errorf("%g mm2: %g mm over the ridge of 1 mm", area*1e6, top*1e3)
		}
	}
	if _, ok := filmed(ridge, f, 0.1e-6); ok {
		t.Error("0.1 mm2 over 20 mm are said to make a bead")
	}
	overhang := newSurface([]Point{{20e-3, 0}, {5e-3, 0}, {6e-3, 2e-3}, {0, 3e-3}, {-20e-3, 0}})
	if _, ok := filmed(overhang, face{from: overhang.spot(5e-3), to: overhang.spot(overhang.length() - 5e-3)}, 40e-6); ok {
		t.Error("an overhang is said to be ground for a film")
	}
}

// TestLayersOf: right angles grow by one bead a layer; the root is a lone bead; all
// passes are there.
func TestLayersOf(t *testing.T) {
	square := Fillet{math.Pi / 2, 12e-3, 12e-3}
	for n, want := range map[int][]int{1: {1}, 3: {1, 2}, 4: {1, 1, 2}, 5: {1, 2, 2}, 6: {1, 2, 3}, 10: {1, 2, 3, 4}} {
		if got, ok := layersOf(square, n, 1, 12.7e-3); !ok || !slices.Equal(got, want) {
			t.Errorf("%d passes: %v, %v, want %v", n, got, ok, want)
		}
	}
	if got, ok := layersOf(square, 2, 1, 12.7e-3); ok {
		t.Errorf("a cover of 17 mm in one bead: %v", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		growth := rapid.Float64Range(0, 2).Draw(t, "growth")
		n := rapid.IntRange(1, mostPasses).Draw(t, "n")
		got, ok := layersOf(square, n, growth, 40e-3)
		sum := 0
		for _, c := range got {
			if c < 1 {
				t.Fatalf("%d passes: %v", n, got)
			}
			sum += c
		}
		if ok && (sum != n || got[0] != 1) {
			t.Fatalf("%d passes: %v", n, got)
		}
	})
}

// TestLevel undoes areaTo, and toes finds the level on the edges.
func TestLevel(t *testing.T) {
	for _, g := range []Groove{
		{Prep: SingleV, Thickness: 12e-3, Gap: 3e-3, RootFace: 2e-3, Angle: 1},
		{Prep: SingleV, Thickness: 12e-3, Angle: 1},
		{Prep: SingleU, Thickness: 25e-3, Gap: 2e-3, RootFace: 3e-3, Radius: 6e-3, Angle: 0.14},
		{Prep: FlareV, Thickness: 10e-3, Radius: 10e-3},
	} {
		g, err := NewGroove(g)
		if err != nil {
			t.Fatal(err)
		}
		h := g.halves(UsualReinforcement())[0]
		s := h.surface()
		for i := 1; i < 20; i++ {
			y := h.bottom() + (g.Thickness-h.bottom())*float64(i)/20
			if got := h.level(g.areaTo(y)); math.Abs(got-y) > 1e-11 {
				t.Errorf("%v: level %g mm, want %g", g.Prep, got*1e3, y*1e3)
			}
			head, tail := h.toes(s, y)
			left, right := g.sides(y)
			a, b := s.spot(head), s.spot(s.length()-tail)
			if math.Hypot(a.X-right, a.Y-y) > 5e-6 || math.Hypot(b.X+left, b.Y-y) > 5e-6 {
				t.Errorf("%v at %g mm: toes %v and %v, edges at %g and %g", g.Prep, y*1e3, a.Point, b.Point, right, -left)
			}
		}
	}
}
