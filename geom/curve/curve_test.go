package curve_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// genVec draws a point (m) in a box of +-size.
func genVec(size float64) *rapid.Generator[r3.Vec] {
	return rapid.Custom(func(t *rapid.T) r3.Vec {
		c := rapid.Float64Range(-size, size)
		return r3.Vec{X: c.Draw(t, "x"), Y: c.Draw(t, "y"), Z: c.Draw(t, "z")}
	})
}

func genDir() *rapid.Generator[r3.Vec] {
	return rapid.Custom(func(t *rapid.T) r3.Vec {
		return genVec(1).Filter(func(v r3.Vec) bool { return v.Norm() > 0.1 }).Draw(t, "dir").Unit()
	})
}

func genPose() *rapid.Generator[se3.Pose] {
	return rapid.Custom(func(t *rapid.T) se3.Pose {
		return se3.Pose{R: se3.RotAxis(genDir().Draw(t, "axis"), rapid.Float64Range(-3, 3).Draw(t, "angle")), P: genVec(1).Draw(t, "p")}
	})
}

// genPiece draws a line or an arc of 1 mm or more that begins at from.
func genPiece(from r3.Vec) *rapid.Generator[curve.Curve] {
	return rapid.Custom(func(t *rapid.T) curve.Curve {
		dir := genDir().Draw(t, "towards")
		size := rapid.Float64Range(0.002, 1).Draw(t, "size")
		if rapid.Bool().Draw(t, "straight") {
			l, err := curve.NewLine(from, from.AddScaled(size, dir))
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
		sweep := rapid.Float64Range(0.5, 8).Draw(t, "sweep")
		if rapid.Bool().Draw(t, "left-handed") {
			sweep = -sweep
		}
		a, err := curve.NewArc(curve.ArcRequest{Centre: from.AddScaled(size, dir), Axis: dir.Orthogonal(), Start: from, Sweep: sweep})
		if err != nil {
			t.Fatal(err)
		}
		return a
	})
}

func genCurve() *rapid.Generator[curve.Curve] {
	return rapid.Custom(func(t *rapid.T) curve.Curve {
		at := genVec(1).Draw(t, "start")
		n := rapid.IntRange(1, 5).Draw(t, "pieces")
		var pieces []curve.Curve
		for range n {
			p := genPiece(at).Draw(t, "piece")
			pieces = append(pieces, p)
			at, _ = p.At(p.Length())
		}
		if n == 1 {
			return pieces[0]
		}
		c, err := curve.NewChain(pieces...)
		if err != nil {
			t.Fatal(err)
		}
		return c
	})
}

// The tangent is the derivative of the point, and unit, so s is arc length.
func TestTangentIsDerivative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genPiece(genVec(1).Draw(t, "from")).Draw(t, "curve")
		s := rapid.Float64Range(-0.1, 1.1).Draw(t, "fraction") * c.Length()
		const h = 1e-6
		before, _ := c.At(s - h)
		after, _ := c.At(s + h)
		_, tangent := c.At(s)
		if math.Abs(tangent.Norm()-1) > 1e-12 {
			t.Fatalf("tangent of length %v", tangent.Norm())
		}
		if got := after.Sub(before).Scale(1 / (2 * h)); got.Dist(tangent) > 1e-7 {
			t.Fatalf("tangent %v, difference quotient %v", tangent, got)
		}
	})
}

// Nothing sampled on the curve is nearer than Nearest says.
func TestNearestAgainstSampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCurve().Draw(t, "curve")
		p := genVec(2).Draw(t, "p")
		s, dist := curve.Distance(c, p)
		if s < 0 || s > c.Length() {
			t.Fatalf("nearest at %v of 0..%v", s, c.Length())
		}
		for i := range 401 {
			q, _ := c.At(c.Length() * float64(i) / 400)
			if q.Dist(p) < dist-1e-9 {
				t.Fatalf("sample %d is %v away, nearest said %v", i, q.Dist(p), dist)
			}
		}
	})
}

func TestTrimReversedMoved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCurve().Draw(t, "curve")
		length := c.Length()
		from := rapid.Float64Range(0, 0.8).Draw(t, "from") * length
		to := from + rapid.Float64Range(0.01, 0.2).Draw(t, "part")*length
		part, err := curve.Trim(c, from, to)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(part.Length()-(to-from)) > curve.MinLength {
			t.Fatalf("part of %v is %v long", to-from, part.Length())
		}
		back := curve.Reversed(c)
		pose := genPose().Draw(t, "move")
		moved := curve.Moved(c, pose)
		for _, f := range []float64{0.03, 0.5, 0.97} {
			want, wantDir := c.At(from + f*(to-from))
			_, isChain := c.(curve.Chain) // at its corners rounding decides the direction
			got, gotDir := part.At(f * (to - from))
			if got.Dist(want) > 2e-6 || !isChain && gotDir.Dist(wantDir) > 1e-9 {
				t.Fatalf("part at %v: %v along %v, want %v along %v", f, got, gotDir, want, wantDir)
			}
			got, gotDir = back.At(length - (from + f*(to-from)))
			if got.Dist(want) > 1e-9 {
				t.Fatalf("reversed at %v: %v, want %v", f, got, want)
			}
			if !isChain && gotDir.Add(wantDir).Norm() > 1e-9 {
				t.Fatalf("reversed at %v: direction %v, want %v", f, gotDir, wantDir.Neg())
			}
			got, gotDir = moved.At(from + f*(to-from))
			if got.Dist(pose.Apply(want)) > 1e-9 || gotDir.Dist(pose.Dir(wantDir)) > 1e-9 {
				t.Fatalf("moved at %v: %v along %v", f, got, gotDir)
			}
		}
	})
}

// Chords between stations leave an arc by no more than asked, and stations
// rise from 0 to the length.
func TestStations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCurve().Draw(t, "curve")
		step := rapid.Float64Range(0.001, 0.5).Draw(t, "step")
		chord := rapid.Float64Range(1e-5, 1e-2).Draw(t, "chord error")
		stations, err := curve.Stations(c, step, chord)
		if err != nil {
			t.Fatal(err)
		}
		if stations[0] != 0 || stations[len(stations)-1] != c.Length() {
			t.Fatalf("stations run from %v to %v of %v", stations[0], stations[len(stations)-1], c.Length())
		}
		for i := 1; i < len(stations); i++ {
			a, b := stations[i-1], stations[i]
			if !(b > a) || b-a > step*(1+1e-6) {
				t.Fatalf("step from %v to %v, at most %v", a, b, step)
			}
			p, _ := c.At(a)
			q, _ := c.At(b)
			mid, _ := c.At((a + b) / 2)
			if q.Dist(p) == 0 {
				t.Fatalf("stations %v and %v are one point", a, b)
			}
			if off := mid.Sub(p).Reject(q.Sub(p).Unit()).Norm(); off > chord*(1+1e-6) {
				t.Fatalf("chord from %v to %v leaves the curve by %v, at most %v", a, b, off, chord)
			}
		}
	})
}

func TestFullCircleWithOverlap(t *testing.T) {
	c, err := curve.NewCircle(r3.Vec{}, r3.Vec{Z: 2}, r3.Vec{X: 0.05}, 0.010)
	if err != nil {
		t.Fatal(err)
	}
	if want := 2*math.Pi*0.05 + 0.010; math.Abs(c.Length()-want) > 1e-15 {
		t.Errorf("length %v, want %v", c.Length(), want)
	}
	if p, tan := c.At(2 * math.Pi * 0.05); p.Dist(r3.Vec{X: 0.05}) > 1e-15 || tan.Dist(r3.Vec{Y: 1}) > 1e-14 {
		t.Errorf("after one turn at %v along %v", p, tan)
	}
	if s := c.Nearest(r3.Vec{Y: 1}); math.Abs(s-math.Pi/2*0.05) > 1e-15 {
		t.Errorf("nearest %v, want a quarter turn", s)
	}
	if s := c.Nearest(r3.Vec{Z: 1}); s != 0 {
		t.Errorf("nearest to a point on the axis %v, want 0", s)
	}
}

// A closed path may begin in the middle of a side; no arc comes there.
func TestRoundedBeginsMidSide(t *testing.T) {
	c, err := curve.Rounded(0.02, r3.Vec{X: 0.1}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.1}, r3.Vec{Y: 0.1}, r3.Vec{}, r3.Vec{X: 0.1})
	if err != nil {
		t.Fatal(err)
	}
	if p, tan := c.At(0); p != (r3.Vec{X: 0.1}) || tan != (r3.Vec{X: 1}) {
		t.Errorf("begins at %v along %v", p, tan)
	}
	if want := 2*(0.16+0.06) + 2*math.Pi*0.02; math.Abs(c.Length()-want) > 1e-12 {
		t.Errorf("length %v, want %v", c.Length(), want)
	}
	if got, err := curve.WithOverlap(c, 0); err != nil || got.Length() != c.Length() {
		t.Errorf("no overlap: %v, %v", got, err)
	}
}

func TestLeftHandedArc(t *testing.T) {
	a, err := curve.NewArc(curve.ArcRequest{Axis: r3.Vec{Z: 1}, Start: r3.Vec{X: 0.1}, Sweep: -math.Pi / 2})
	if err != nil {
		t.Fatal(err)
	}
	if p, tan := a.At(a.Length()); p.Dist(r3.Vec{Y: -0.1}) > 1e-15 || tan.Dist(r3.Vec{X: -1}) > 1e-15 {
		t.Errorf("ends at %v along %v, want -Y along -X", p, tan)
	}
	if a.Axis() != (r3.Vec{Z: -1}) || a.Sweep() != math.Pi/2 {
		t.Errorf("axis %v sweep %v, want travel right-handed about -Z", a.Axis(), a.Sweep())
	}
}

func TestNearestEndOfArc(t *testing.T) {
	a, err := curve.NewArc(curve.ArcRequest{Axis: r3.Vec{Z: 1}, Start: r3.Vec{X: 0.1}, Sweep: math.Pi / 2})
	if err != nil {
		t.Fatal(err)
	}
	if s := a.Nearest(r3.Vec{X: -1, Y: 0.5}); s != a.Length() {
		t.Errorf("past the end: %v, want the end %v", s, a.Length())
	}
	if s := a.Nearest(r3.Vec{X: 0.5, Y: -1}); s != 0 {
		t.Errorf("before the start: %v, want 0", s)
	}
}

func TestCorners(t *testing.T) {
	c, err := curve.Polyline(r3.Vec{}, r3.Vec{X: 0.1}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.1})
	if err != nil {
		t.Fatal(err)
	}
	corners := c.Corners(1e-6)
	if len(corners) != 1 || math.Abs(corners[0].S-0.2) > 1e-15 || math.Abs(corners[0].Turn-math.Pi/2) > 1e-15 {
		t.Errorf("corners %v, want one of 90 deg at 0.2 m", corners)
	}
	if _, tan := c.At(0.2); tan.Dist(r3.Vec{Y: 1}) > 1e-15 {
		t.Errorf("direction at the corner %v, want the later line's", tan)
	}
}

func TestRefusals(t *testing.T) {
	p := func(x, y float64) r3.Vec { return r3.Vec{X: x, Y: y} }
	tests := []struct {
		name string
		make func() error
		word string
	}{
		{"line of no length", func() error { _, err := curve.NewLine(p(1, 1), p(1, 1)); return err }, "apart"},
		{"line to nowhere", func() error { _, err := curve.NewLine(p(1, 1), p(math.NaN(), 1)); return err }, "finite"},
		{"arc without axis", func() error { _, err := curve.NewArc(curve.ArcRequest{Start: p(1, 0), Sweep: 1}); return err }, "axis"},
		{"arc off its plane", func() error {
			_, err := curve.NewArc(curve.ArcRequest{Axis: r3.Vec{Z: 1}, Start: r3.Vec{X: 1, Z: 0.1}, Sweep: 1})
			return err
		}, "plane"},
		{"arc of no radius", func() error { _, err := curve.NewArc(curve.ArcRequest{Axis: r3.Vec{Z: 1}, Sweep: 1}); return err }, "radius"},
		{"arc of no sweep", func() error {
			_, err := curve.NewArc(curve.ArcRequest{Axis: r3.Vec{Z: 1}, Start: p(1, 0)})
			return err
		}, "sweeps"},
		{"negative overlap", func() error { _, err := curve.NewCircle(p(0, 0), r3.Vec{Z: 1}, p(1, 0), -1); return err }, "overlap"},
		{"arc through a line", func() error { _, err := curve.ArcThrough(p(0, 0), p(1, 0), p(2, 0)); return err }, "one line"},
		{"arc through one point", func() error { _, err := curve.ArcThrough(p(1, 1), p(1, 1), p(1, 1)); return err }, "one line"},
		{"arc back to its start", func() error { _, err := curve.ArcThrough(p(0, 0), p(1, 0), p(0, 0)); return err }, "one line"},
		{"empty chain", func() error { _, err := curve.NewChain(); return err }, "no pieces"},
		{"chain with a gap", func() error {
			a, _ := curve.NewLine(p(0, 0), p(1, 0))
			b, _ := curve.NewLine(p(1.001, 0), p(2, 0))
			_, err := curve.NewChain(a, b)
			return err
		}, "piece 2 begins"},
		{"polyline of one point", func() error { _, err := curve.Polyline(p(0, 0)); return err }, "two"},
		{"polyline that repeats", func() error { _, err := curve.Polyline(p(0, 0), p(1, 0), p(1, 0)); return err }, "points 2 and 3"},
		{"radius too large", func() error { _, err := curve.Rounded(2, p(0, 0), p(1, 0), p(1, 1)); return err }, "largest radius that fits is 1000 mm"},
		{"straight back", func() error { _, err := curve.Rounded(0.1, p(0, 0), p(1, 0), p(0, 0)); return err }, "back"},
		{"trim outside", func() error {
			a, _ := curve.NewLine(p(0, 0), p(1, 0))
			_, err := curve.Trim(a, 0.5, 1.5)
			return err
		}, "runs from 0 to 1"},
		{"trim to nothing", func() error {
			a, _ := curve.NewLine(p(0, 0), p(1, 0))
			_, err := curve.Trim(a, 0.5, 0.5)
			return err
		}, "no length"},
		{"overlap on an open path", func() error {
			a, _ := curve.NewLine(p(0, 0), p(1, 0))
			_, err := curve.WithOverlap(a, 0.01)
			return err
		}, "open path"},
		{"overlap longer than the path", func() error {
			a, _ := curve.NewCircle(p(0, 0), r3.Vec{Z: 1}, p(1, 0), 0)
			_, err := curve.WithOverlap(a, 7)
			return err
		}, "up to the path's length"},
		{"no step", func() error {
			a, _ := curve.NewLine(p(0, 0), p(1, 0))
			_, err := curve.Stations(a, 0, 1)
			return err
		}, "above 0"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if err := tt.make(); err == nil || !strings.Contains(err.Error(), tt.word) {
				t.Errorf("error %v, want one that says %q", err, tt.word)
			}
		})
	}
}

func TestAtAllocatesNothing(t *testing.T) {
	c, _ := curve.Rounded(0.01, r3.Vec{}, r3.Vec{X: 0.1}, r3.Vec{X: 0.1, Y: 0.1})
	var sink r3.Vec
	if n := testing.AllocsPerRun(100, func() { sink, _ = c.At(0.1); sink.X += c.Nearest(sink) }); n != 0 {
		t.Errorf("%v allocations, want 0", n)
	}
}

func BenchmarkChainAt(b *testing.B) {
	c, _ := curve.Rounded(0.01, r3.Vec{}, r3.Vec{X: 0.1}, r3.Vec{X: 0.1, Y: 0.1}, r3.Vec{Y: 0.1})
	for b.Loop() {
		c.At(0.15)
	}
}
