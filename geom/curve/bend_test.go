package curve_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
)

// A path with a sharp and a round corner, an ellipse and a circle.
func TestBends(t *testing.T) {
	c, err := curve.RoundedEach([]float64{0, 0, 0.01, 0}, r3.Vec{}, r3.Vec{X: 0.1}, r3.Vec{X: 0.1, Y: 0.1}, r3.Vec{X: 0.2, Y: 0.1})
	if err != nil {
		t.Fatal(err)
	}
	want := []curve.Bend{
		{From: 0.1, To: 0.1, Turn: math.Pi / 2},
		{From: 0.19, To: 0.19 + 0.005*math.Pi, Turn: math.Pi / 2, Radius: 0.01},
	}
	bends := curve.Bends(c, 1e-6)
	if len(bends) != len(want) {
		t.Fatalf("bends %+v, want %+v", bends, want)
	}
	for i, b := range bends {
		w := want[i]
		if max(math.Abs(b.From-w.From), math.Abs(b.To-w.To), math.Abs(b.Turn-w.Turn), math.Abs(b.Radius-w.Radius)) > 1e-9 {
			t.Errorf("bend %+v, want %+v", b, w)
		}
	}
	if !bends[0].Sharp() || !math.IsInf(bends[0].Rate(0.006), 1) {
		t.Errorf("corner %+v is sharp and cannot be followed without stopping", bends[0])
	}
	_, in := curve.Arriving(c, 0.1)
	_, out := c.At(0.1)
	if in.Dist(r3.Vec{X: 1}) > 1e-12 || out.Dist(r3.Vec{Y: 1}) > 1e-12 {
		t.Errorf("arriving along %v, leaving along %v", in, out)
	}
	e, err := curve.NewEllipse(curve.EllipseRequest{Tube: curve.Tube{Axis: r3.Vec{Z: 1}, Radius: 0.03}, Normal: r3.Vec{X: 1, Z: 1}, Sweep: 2 * math.Pi})
	if err != nil {
		t.Fatal(err)
	}
	round := curve.Bends(e, 1e-6)
	if len(round) != 1 || math.Abs(round[0].Turn-2*math.Pi) > 1e-3 || math.Abs(round[0].Radius-0.03/math.Sqrt2) > 1e-4 {
		t.Errorf("ellipse %+v, want a full turn, b^2/a = %v at the tightest", round, 0.03/math.Sqrt2)
	}
	line, _ := curve.NewLine(r3.Vec{}, r3.Vec{X: 1})
	if got := curve.Bends(line, 0); len(got) != 0 {
		t.Errorf("a line bends: %v", got)
	}
}

// Begun elsewhere, a closed path is the same path, and its overlap ties in at
// the new start.
func TestStartingAt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		box, err := curve.Polyline(r3.Vec{}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.1}, r3.Vec{Y: 0.1}, r3.Vec{})
		if err != nil {
			t.Fatal(err)
		}
		round, err := curve.NewCircle(r3.Vec{}, r3.Vec{Z: 1}, r3.Vec{X: 0.06}, 0)
		if err != nil {
			t.Fatal(err)
		}
		saddle, err := curve.NewSaddle(curve.SaddleRequest{
			Run: curve.Tube{Axis: r3.Vec{X: 1}, Radius: 0.06}, Branch: curve.Tube{Axis: r3.Vec{Z: 1}, Radius: 0.04}, Sweep: -2 * math.Pi,
		})
		if err != nil {
			t.Fatal(err)
		}
		c := rapid.SampledFrom([]curve.Curve{box, round, saddle}).Draw(t, "path")
		from := rapid.Float64Range(0, 1).Draw(t, "start") * c.Length()
		moved, err := curve.StartingAt(c, from)
		if err != nil {
			t.Fatal(err)
		}
		over, err := curve.WithOverlap(moved, 0.015)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(over.Length()-c.Length()-0.015) > 1e-9 {
			t.Fatalf("length %v, want %v and 0.015", over.Length(), c.Length())
		}
		s := rapid.Float64Range(0, 1).Draw(t, "at") * over.Length()
		got, _ := over.At(s)
		if from < curve.MinLength || c.Length()-from < curve.MinLength {
			from = 0
		}
		want, _ := c.At(math.Mod(from+s, c.Length()))
		if got.Dist(want) > 1e-8 {
			t.Fatalf("at %v %v, want %v", s, got, want)
		}
	})
}

// Begun on a side, the box passes all four corners.
func TestStartingAtKeepsTheFirstCorner(t *testing.T) {
	box, err := curve.Polyline(r3.Vec{}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.1}, r3.Vec{Y: 0.1}, r3.Vec{})
	if err != nil {
		t.Fatal(err)
	}
	side, err := curve.StartingAt(box, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	if got := len(curve.Bends(side, 1e-6)); got != 4 {
		t.Errorf("%d corners, want 4", got)
	}
	line, _ := curve.NewLine(r3.Vec{}, r3.Vec{X: 1})
	for _, tt := range []struct {
		err  error
		word string
	}{
		{func() error { _, err := curve.StartingAt(line, 0.5); return err }(), "open path"},
		{func() error { _, err := curve.StartingAt(box, 0.7); return err }(), "from 0 to 600 mm"},
		{func() error {
			_, err := curve.RoundedEach([]float64{0, 1}, r3.Vec{}, r3.Vec{X: 1}, r3.Vec{Y: 1})
			return err
		}(), "2 corner radii for 3"},
		{func() error {
			_, err := curve.RoundedEach([]float64{0, -1, 0}, r3.Vec{}, r3.Vec{X: 1}, r3.Vec{Y: 1})
			return err
		}(), "at point 2"},
		{func() error {
			_, err := curve.RoundedEach([]float64{0, 0.06, 0.07, 0}, r3.Vec{}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.1}, r3.Vec{Y: 0.1})
			return err
		}(), "radius 60 mm and 70 mm"},
	} {
		if tt.err == nil || !strings.Contains(tt.err.Error(), tt.word) {
			t.Errorf("error %v, want one that says %q", tt.err, tt.word)
		}
	}
}

// Stations on smooth curves: ends, rising, no step above the largest, and every
// chord within a tenth more than the stated error.
func TestStationsOnSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genSmooth().Draw(t, "curve")
		const step, chordErr = 0.02, 1e-4
		at, err := curve.Stations(c, step, chordErr)
		if err != nil {
			t.Fatal(err)
		}
		if at[0] != 0 || at[len(at)-1] != c.Length() {
			t.Fatalf("from %v to %v of %v", at[0], at[len(at)-1], c.Length())
		}
		for i := 1; i < len(at); i++ {
			if !(at[i] > at[i-1]) || at[i]-at[i-1] > step*(1+1e-9) {
				t.Fatalf("step from %v to %v", at[i-1], at[i])
			}
			a, _ := c.At(at[i-1])
			b, _ := c.At(at[i])
			chord, err := curve.NewLine(a, b)
			if err != nil {
				t.Fatal(err)
			}
			for k := 1; k < 8; k++ {
				p, _ := c.At(at[i-1] + (at[i]-at[i-1])*float64(k)/8)
				if _, off := curve.Distance(chord, p); off > 1.1*chordErr {
					t.Fatalf("the chord from %v to %v leaves the curve by %v", at[i-1], at[i], off)
				}
			}
		}
	})
}
