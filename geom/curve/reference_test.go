package curve_test

import (
	"math"
	"testing"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
)

// Row V110 of the project's table of check values: a radius of 100 mm and a
// chord error of 0.2 mm give a spacing of 12.65 mm (elementary geometry:
// sqrt(8*R*eps)).
func TestChordStepCheckValue(t *testing.T) {
	if got := curve.ChordStep(0.100, 0.2e-3) * 1e3; math.Abs(got-12.65) > 0.01 {
		t.Errorf("step %.4f mm, want 12.65", got)
	}
}

// The box of scenario S3: a hollow section 200 x 150 with an outer radius of
// 15, perimeter 2*170 + 2*120 + 94.2 = 674.2 mm, 23.6 mm of it in each corner,
// and 689 mm with an overlap of 15 (computed in the scenario page).
func TestBoxAllRound(t *testing.T) {
	box, err := curve.Rounded(0.015,
		r3.Vec{X: 0.1, Y: 0.075}, r3.Vec{X: -0.1, Y: 0.075}, r3.Vec{X: -0.1, Y: -0.075},
		r3.Vec{X: 0.1, Y: -0.075}, r3.Vec{X: 0.1, Y: 0.075})
	if err != nil {
		t.Fatal(err)
	}
	if got := box.Length() * 1e3; math.Abs(got-674.2) > 0.05 {
		t.Errorf("perimeter %.3f mm, want 674.2", got)
	}
	var arcs, lines []float64
	for _, p := range box.Pieces() {
		if _, ok := p.(curve.Arc); ok {
			arcs = append(arcs, p.Length()*1e3)
		} else {
			lines = append(lines, p.Length()*1e3)
		}
	}
	for _, a := range arcs {
		if math.Abs(a-23.6) > 0.05 {
			t.Errorf("corner %.3f mm, want 23.6", a)
		}
	}
	want := []float64{170, 120, 170, 120}
	if len(arcs) != 4 || len(lines) != 4 {
		t.Fatalf("%d corners and %d sides, want 4 and 4", len(arcs), len(lines))
	}
	for i := range want {
		if math.Abs(lines[i]-want[i]) > 1e-9 {
			t.Errorf("side %d: %.6f mm, want %v", i+1, lines[i], want[i])
		}
	}
	if c := box.Corners(1e-6); len(c) != 0 {
		t.Errorf("corners left: %v", c)
	}
	first, _ := box.At(0)
	last, _ := box.At(box.Length())
	if first.Dist(last) > 1e-12 {
		t.Errorf("the path does not close: %v to %v", first, last)
	}
	whole, err := curve.WithOverlap(box, 0.015)
	if err != nil {
		t.Fatal(err)
	}
	if got := whole.Length() * 1e3; math.Abs(got-689.2) > 0.05 {
		t.Errorf("with overlap %.3f mm, want 689.2", got)
	}
}

// The circle through three points against the closed form R = abc/(4*area)
// and the barycentric formula of the circumcentre (elementary geometry).
func TestArcThroughClosedForm(t *testing.T) {
	tests := []struct {
		name    string
		a, b, c r3.Vec
	}{
		{"quarter", r3.Vec{X: 0.1}, r3.Vec{X: 0.0707, Y: 0.0708}, r3.Vec{Y: 0.1}},
		{"in space", r3.Vec{X: 0.31, Y: -0.02, Z: 0.4}, r3.Vec{X: 0.35, Y: 0.07, Z: 0.42}, r3.Vec{X: 0.2, Y: 0.1, Z: 0.5}},
		{"more than half", r3.Vec{X: 0.1}, r3.Vec{X: -0.1, Y: 0.001}, r3.Vec{X: 0.099, Y: -0.01}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			arc, err := curve.ArcThrough(tt.a, tt.b, tt.c)
			if err != nil {
				t.Fatal(err)
			}
			la, lb, lc := tt.b.Dist(tt.c), tt.a.Dist(tt.c), tt.a.Dist(tt.b)
			area := tt.b.Sub(tt.a).Cross(tt.c.Sub(tt.a)).Norm() / 2
			if want := la * lb * lc / (4 * area); math.Abs(arc.Radius()-want) > 1e-12*want {
				t.Errorf("radius %.15g, want %.15g", arc.Radius(), want)
			}
			wa := la * la * (lb*lb + lc*lc - la*la)
			wb := lb * lb * (la*la + lc*lc - lb*lb)
			wc := lc * lc * (la*la + lb*lb - lc*lc)
			centre := tt.a.Scale(wa).Add(tt.b.Scale(wb)).Add(tt.c.Scale(wc)).Scale(1 / (wa + wb + wc))
			if arc.Centre().Dist(centre) > 1e-12 {
				t.Errorf("centre %v, want %v", arc.Centre(), centre)
			}
			for _, p := range []struct {
				s    float64
				want r3.Vec
			}{{0, tt.a}, {arc.Nearest(tt.b), tt.b}, {arc.Length(), tt.c}} {
				if got, _ := arc.At(p.s); got.Dist(p.want) > 1e-12 {
					t.Errorf("at %v: %v, want %v", p.s, got, p.want)
				}
			}
		})
	}
}
