package curve_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
)

// genSpline draws a spline through 3 to 8 points that step on by 1 to 3 cm and
// turn by less than a right angle, or round a loop.
func genSpline() *rapid.Generator[curve.Curve] {
	return rapid.Custom(func(t *rapid.T) curve.Curve {
		n := rapid.IntRange(3, 8).Draw(t, "points")
		closed := rapid.Bool().Draw(t, "closed")
		pts := make([]r3.Vec, n)
		at := genVec(1).Draw(t, "from")
		for i := range pts {
			if closed {
				sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
				pts[i] = at.Add(r3.Vec{X: 0.1 * cos, Y: 0.1 * sin}).Add(genVec(0.015).Draw(t, "off"))
				continue
			}
			pts[i] = at
			at = at.Add(r3.Vec{X: 0.02}).Add(genVec(0.008).Draw(t, "step"))
		}
		s, err := curve.NewSpline(curve.SplineRequest{
			Points: pts, Closed: closed,
			Spacing: rapid.SampledFrom([]curve.Spacing{curve.ByChord, curve.Centripetal}).Draw(t, "spacing"),
		})
		if err != nil {
			t.Fatal(err)
		}
		return s
	})
}

func genSweep(t *rapid.T) float64 {
	sweep := rapid.SampledFrom([]float64{2 * math.Pi, -2 * math.Pi, 1.3, -4}).Draw(t, "sweep")
	return sweep
}

func genEllipse() *rapid.Generator[curve.Curve] {
	return rapid.Custom(func(t *rapid.T) curve.Curve {
		axis := genDir().Draw(t, "axis")
		tilt := rapid.Float64Range(0, 75).Draw(t, "tilt") * math.Pi / 180
		sin, cos := math.Sincos(tilt)
		e, err := curve.NewEllipse(curve.EllipseRequest{
			Tube:   curve.Tube{Point: genVec(1).Draw(t, "p"), Axis: axis, Radius: rapid.Float64Range(0.005, 0.3).Draw(t, "r")},
			Point:  genVec(1).Draw(t, "q"),
			Normal: axis.Scale(cos).AddScaled(sin, axis.Orthogonal()),
			Start:  rapid.Float64Range(-7, 7).Draw(t, "start"), Sweep: genSweep(t),
		})
		if err != nil {
			t.Fatal(err)
		}
		return e
	})
}

// genTubes draws two tubes that meet all round: any angle from 20 deg, radii and
// offset up to the branch touching the run's side.
func genTubes() *rapid.Generator[curve.SaddleRequest] {
	return rapid.Custom(func(t *rapid.T) curve.SaddleRequest {
		along := genDir().Draw(t, "along")
		side := along.Orthogonal()
		out := along.Cross(side)
		lean := rapid.Float64Range(20, 160).Draw(t, "angle") * math.Pi / 180
		sin, cos := math.Sincos(lean)
		run := rapid.Float64Range(0.01, 0.3).Draw(t, "run")
		branch := run * rapid.OneOf(rapid.Float64Range(0.1, 0.99), rapid.SampledFrom([]float64{1, 0.9999, 0.5})).Draw(t, "ratio")
		offset := (run - branch) * rapid.SampledFrom([]float64{0, 0.5, -0.7, 1, -1}).Draw(t, "offset")
		foot := genVec(1).Draw(t, "foot")
		d := along.Scale(cos).AddScaled(sin, out)
		return curve.SaddleRequest{
			Run:    curve.Tube{Point: foot.AddScaled(0.4, along), Axis: along.Scale(3), Radius: run},
			Branch: curve.Tube{Point: foot.AddScaled(offset, side).AddScaled(0.2, d), Axis: d.Scale(0.5), Radius: branch},
			Start:  rapid.Float64Range(-4, 4).Draw(t, "start"), Sweep: genSweep(t),
		}
	})
}

func genSaddle() *rapid.Generator[curve.Curve] {
	return rapid.Custom(func(t *rapid.T) curve.Curve {
		s, err := curve.NewSaddle(genTubes().Draw(t, "tubes"))
		if err != nil {
			t.Fatal(err)
		}
		return s
	})
}

func genSmooth() *rapid.Generator[curve.Curve] {
	return rapid.OneOf(genSpline(), genEllipse(), genSaddle())
}

// atCorner reports whether a joint of c lies within h (m) of arc length s.
func atCorner(c curve.Curve, s, h float64) bool {
	chain, ok := c.(curve.Chain)
	if !ok {
		return false
	}
	for _, end := range chain.Ends() {
		if math.Abs(s-end) < h {
			return true
		}
	}
	return false
}

// The tangent is unit and the derivative of the point, so s is arc length. The
// difference quotient errs by the square of the step over the radius.
func TestSmoothIsWalkedByArcLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genSmooth().Draw(t, "curve")
		s := rapid.Float64Range(0.02, 0.98).Draw(t, "fraction") * c.Length()
		h := min(1e-5, 1e-2/curve.Curvature(c, s))
		if atCorner(c, s, 2e-5) || curve.Curvature(c, s) > 1e3 {
			return // a corner, or within a millimetre of what is nearly one
		}
		before, t0 := c.At(s - h)
		after, t1 := c.At(s + h)
		_, tangent := c.At(s)
		if math.Abs(tangent.Norm()-1) > 1e-12 {
			t.Fatalf("tangent of length %v", tangent.Norm())
		}
		if got := after.Sub(before).Scale(1 / (2 * h)); got.Dist(tangent) > 1e-4 {
			t.Fatalf("tangent %v, difference quotient %v", tangent, got)
		}
		if math.Abs(after.Dist(before)-2*h) > 1e-4*2*h {
			t.Fatalf("%v walked from %v to %v", 2*h, before, after)
		}
		bent := curve.Curvature(c, s)
		if got := t0.Angle(t1) / (2 * h); math.Abs(got-bent) > 0.02*bent+0.05 {
			t.Fatalf("curvature %v, difference quotient %v", bent, got)
		}
	})
}

// A chord sum on a fine grid of arc length is the length, from below.
func TestSmoothLengthAgainstChords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genSmooth().Draw(t, "curve")
		from, to := rapid.Float64Range(0, 0.4).Draw(t, "from")*c.Length(), rapid.Float64Range(0.6, 1).Draw(t, "to")*c.Length()
		const n = 4000
		var sum float64
		last, _ := c.At(from)
		for i := 1; i <= n; i++ {
			p, _ := c.At(from + (to-from)*float64(i)/n)
			sum += p.Dist(last)
			last = p
		}
		if sum > (to-from)*(1+1e-9) || sum < (to-from)*(1-5e-4) {
			t.Fatalf("chords sum to %v over %v", sum, to-from)
		}
	})
}

func TestSmoothNearestAgainstSampling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genSmooth().Draw(t, "curve")
		q, _ := c.At(rapid.Float64Range(0, 1).Draw(t, "fraction") * c.Length())
		p := q.Add(genVec(0.4).Draw(t, "off"))
		s, dist := curve.Distance(c, p)
		if s < 0 || s > c.Length() {
			t.Fatalf("nearest at %v of 0..%v", s, c.Length())
		}
		for i := range 801 {
			q, _ := c.At(c.Length() * float64(i) / 800)
			if q.Dist(p) < dist-1e-9 {
				t.Fatalf("sample %d is %v away, nearest said %v", i, q.Dist(p), dist)
			}
		}
		if _, on := curve.Distance(c, q); on > 1e-9 {
			t.Fatalf("a point of the curve is said to be %v off it", on)
		}
	})
}

func TestSmoothTrimReversedMovedMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genSmooth().Draw(t, "curve")
		length := c.Length()
		from := rapid.Float64Range(0, 0.8).Draw(t, "from") * length
		to := from + rapid.Float64Range(0.01, 0.2).Draw(t, "part")*length
		s := from + rapid.Float64Range(0.01, 0.99).Draw(t, "inside")*(to-from)
		part, err := curve.Trim(curve.Reversed(c), length-to, length-from)
		if err != nil {
			t.Fatal(err)
		}
		pose := genPose().Draw(t, "move")
		m, err := curve.NewMirror(genVec(1).Draw(t, "point"), genDir().Draw(t, "normal"))
		if err != nil {
			t.Fatal(err)
		}
		p, tangent := c.At(s)
		check := func(what string, c curve.Curve, s float64, wantP, wantT r3.Vec) {
			gotP, gotT := c.At(s)
			if gotP.Dist(wantP) > 1e-9 || !atCorner(c, s, 1e-6) && gotT.Dist(wantT) > 1e-6 {
				t.Fatalf("%s at %v: %v along %v, want %v along %v", what, s, gotP, gotT, wantP, wantT)
			}
		}
		check("reversed part", part, to-s, p, tangent.Neg())
		check("reversed twice", curve.Reversed(curve.Reversed(c)), s, p, tangent)
		check("moved", curve.Moved(c, pose), s, pose.Apply(p), pose.Dir(tangent))
		check("mirrored", curve.Mirrored(c, m), s, m.Point(p), m.Dir(tangent))
		check("mirrored twice", curve.Mirrored(curve.Mirrored(c, m), m), s, p, tangent)
	})
}

// Mirroring lines and arcs as well: the image of every point, and back.
func TestMirrored(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCurve().Draw(t, "curve")
		m, err := curve.NewMirror(genVec(1).Draw(t, "point"), genDir().Draw(t, "normal"))
		if err != nil {
			t.Fatal(err)
		}
		s := rapid.Float64Range(0, 1).Draw(t, "fraction") * c.Length()
		p, tangent := c.At(s)
		q, image := curve.Mirrored(c, m).At(s)
		if q.Dist(m.Point(p)) > 1e-9 || image.Dist(m.Dir(tangent)) > 1e-9 {
			t.Fatalf("image %v along %v, want %v along %v", q, image, m.Point(p), m.Dir(tangent))
		}
		if back, _ := curve.Mirrored(curve.Mirrored(c, m), m).At(s); back.Dist(p) > 1e-9 {
			t.Fatalf("twice mirrored %v, want %v", back, p)
		}
	})
}

// wallError is how far (m) a saddle may lie off the walls: a nanometre, or the
// room at the run's side where that is taken for none.
func wallError(r curve.SaddleRequest) float64 {
	side := r.Branch.Axis.Cross(r.Run.Axis).Unit()
	offset := r.Branch.Point.Sub(r.Run.Point).Dot(side)
	off := 1e-9
	for _, room := range []float64{r.Run.Radius - r.Branch.Radius - offset, r.Run.Radius - r.Branch.Radius + offset} {
		if room <= curve.JoinTolerance+1e-12 {
			off = max(off, room+1e-9)
		}
	}
	return off
}

// Every point of a saddle lies on both walls, above the run's axis.
func TestSaddleLiesOnBothWalls(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := genTubes().Draw(t, "tubes")
		c, err := curve.NewSaddle(r)
		if err != nil {
			t.Fatal(err)
		}
		s := rapid.Float64Range(0, 1).Draw(t, "fraction") * c.Length()
		p, _ := c.At(s)
		for _, tube := range []curve.Tube{r.Run, r.Branch} {
			off := p.Sub(tube.Point).Reject(tube.Axis.Unit()).Norm() - tube.Radius
			if math.Abs(off) > wallError(r) {
				t.Fatalf("%v m off a wall at %v of %v", off, s, c.Length())
			}
		}
		out := r.Branch.Axis.Reject(r.Run.Axis.Unit())
		if p.Sub(r.Run.Point).Dot(out) < -1e-9 {
			t.Fatalf("%v lies on the far side of the run", p)
		}
		if math.Abs(r.Sweep) == 2*math.Pi {
			if end, _ := c.At(c.Length()); end.Dist(first(c)) > 1e-9 {
				t.Fatalf("the curve does not close")
			}
		}
	})
}

func first(c curve.Curve) r3.Vec {
	p, _ := c.At(0)
	return p
}

// The angle about the branch grows from Start the stated way.
func TestSaddleStartAndSense(t *testing.T) {
	r := curve.SaddleRequest{
		Run:    curve.Tube{Axis: r3.Vec{X: 1}, Radius: 0.06},
		Branch: curve.Tube{Axis: r3.Vec{Z: 1}, Radius: 0.03},
	}
	const deg = math.Pi / 180
	for _, tt := range []struct {
		name         string
		start, sweep float64
		from, then   r3.Vec
	}{
		{"crown, right-handed", 0, 360, r3.Vec{X: 0.03, Z: 0.06}, r3.Vec{Y: 1}},
		{"crown, left-handed", 0, -360, r3.Vec{X: 0.03, Z: 0.06}, r3.Vec{Y: -1}},
		{"saddle point", 90, 90, r3.Vec{Y: 0.03, Z: math.Sqrt(0.06*0.06 - 0.03*0.03)}, r3.Vec{X: -1}},
		{"other saddle point, left-handed", -90, -90, r3.Vec{Y: -0.03, Z: math.Sqrt(0.06*0.06 - 0.03*0.03)}, r3.Vec{X: -1}},
	} {
		r.Start, r.Sweep = tt.start*deg, tt.sweep*deg
		c, err := curve.NewSaddle(r)
		if err != nil {
			t.Fatal(err)
		}
		if p, tangent := c.At(0); p.Dist(tt.from) > 1e-12 || tangent.Dist(tt.then) > 1e-9 {
			t.Errorf("%s: from %v along %v, want %v along %v", tt.name, p, tangent, tt.from, tt.then)
		}
	}
}

// A closed curve goes round again, an open one straight ahead.
func TestSmoothRunsOn(t *testing.T) {
	round, err := curve.NewEllipse(curve.EllipseRequest{
		Tube: curve.Tube{Axis: r3.Vec{Z: 1}, Radius: 0.05}, Normal: r3.Vec{Y: 1, Z: 1}, Sweep: -2 * math.Pi,
	})
	if err != nil {
		t.Fatal(err)
	}
	if !round.Closed() {
		t.Error("a full turn is not closed")
	}
	for _, s := range []float64{-0.02, 0, 0.05} {
		a, ta := round.At(s)
		b, tb := round.At(s + round.Length())
		if a.Dist(b) > 1e-12 || ta.Dist(tb) > 1e-9 {
			t.Errorf("at %v: %v, a turn later %v", s, a, b)
		}
	}
	open, err := curve.NewSpline(curve.SplineRequest{Points: []r3.Vec{{}, {X: 0.05, Y: 0.01}, {X: 0.1, Y: -0.01}, {X: 0.2}}})
	if err != nil {
		t.Fatal(err)
	}
	if open.Closed() {
		t.Error("an open spline is closed")
	}
	end, tangent := open.At(open.Length())
	if p, dir := open.At(open.Length() + 0.03); p.Dist(end.AddScaled(0.03, tangent)) > 1e-12 || dir != tangent {
		t.Errorf("past the end %v along %v", p, dir)
	}
	if got := curve.Curvature(open, open.Length()+0.03); got != 0 {
		t.Errorf("curvature %v past the end, want 0", got)
	}
	start, tangent := open.At(0)
	if p, _ := open.At(-0.03); p.Dist(start.AddScaled(-0.03, tangent)) > 1e-12 {
		t.Errorf("before the start %v", p)
	}
}

// The direction and the curvature of a spline do not jump at its points.
func TestSplineIsTwiceSmooth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genSpline().Draw(t, "spline")
		const h = 1e-7
		for i := range 200 {
			s := 2*h + (c.Length()-4*h)*float64(i)/199
			_, before := c.At(s - h)
			_, after := c.At(s + h)
			if a := before.Angle(after); a > 2*h*curve.Curvature(c, s)*1.1+1e-7 {
				t.Fatalf("turns by %v rad at %v", a, s)
			}
		}
	})
}

func TestSplineRunsThroughItsPoints(t *testing.T) {
	pts := []r3.Vec{{}, {X: 0.05, Y: 0.01}, {X: 0.1, Y: -0.01, Z: 0.02}, {X: 0.2, Y: 0.05}}
	for _, closed := range []bool{false, true} {
		c, err := curve.NewSpline(curve.SplineRequest{Points: pts, Closed: closed})
		if err != nil {
			t.Fatal(err)
		}
		last := -1.0
		for i, p := range pts {
			s, dist := curve.Distance(c, p)
			if dist > 1e-9 || s <= last {
				t.Errorf("closed %v: point %d at %v, %v off", closed, i+1, s, dist)
			}
			last = s
		}
		again, err := curve.NewSpline(curve.SplineRequest{Points: append(pts[:4:4], pts[0]), Closed: true})
		if err != nil {
			t.Fatal(err)
		}
		if closed && again.Length() != c.Length() {
			t.Errorf("the repeated first point changes the length: %v and %v", again.Length(), c.Length())
		}
	}
}

func TestSmoothRefusals(t *testing.T) {
	spline := func(closed bool, pts ...r3.Vec) error {
		_, err := curve.NewSpline(curve.SplineRequest{Points: pts, Closed: closed})
		return err
	}
	tube := curve.Tube{Axis: r3.Vec{Z: 1}, Radius: 0.05}
	ellipse := func(change func(*curve.EllipseRequest)) error {
		r := curve.EllipseRequest{Tube: tube, Normal: r3.Vec{Y: 1, Z: 1}, Sweep: 1}
		change(&r)
		_, err := curve.NewEllipse(r)
		return err
	}
	saddle := func(change func(*curve.SaddleRequest)) error {
		r := curve.SaddleRequest{Run: curve.Tube{Axis: r3.Vec{X: 1}, Radius: 0.06}, Branch: tube, Sweep: 1}
		change(&r)
		_, err := curve.NewSaddle(r)
		return err
	}
	tests := []struct {
		name string
		err  error
		word string
	}{
		{"spline of two", spline(false, r3.Vec{}, r3.Vec{X: 1}), "at least three"},
		{"closed spline of two", spline(true, r3.Vec{}, r3.Vec{X: 1}, r3.Vec{}), "at least three"},
		{"spline that repeats", spline(false, r3.Vec{}, r3.Vec{X: 1}, r3.Vec{X: 1}), "points 2 and 3"},
		{"closed spline that nearly closes", spline(true, r3.Vec{}, r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{X: 5e-5}), "points 4 and 1"},
		{"spline to nowhere", spline(false, r3.Vec{}, r3.Vec{X: 1}, r3.Vec{X: math.NaN()}), "point 3"},
		{"spline straight back", spline(false, r3.Vec{}, r3.Vec{X: 1}, r3.Vec{X: 0}), "turns on the spot"},
		{"no such spacing", func() error {
			_, err := curve.NewSpline(curve.SplineRequest{Points: []r3.Vec{{}, {X: 1}, {Y: 1}}, Spacing: 7})
			return err
		}(), "spacing 7"},
		{"ellipse along the axis", ellipse(func(r *curve.EllipseRequest) { r.Normal = r3.Vec{Y: 1, Z: 0.05} }), "2.86 deg"},
		{"ellipse without plane", ellipse(func(r *curve.EllipseRequest) { r.Normal = r3.Vec{} }), "plane through"},
		{"ellipse without tube", ellipse(func(r *curve.EllipseRequest) { r.Tube.Radius = 0 }), "radius"},
		{"ellipse, tube without axis", ellipse(func(r *curve.EllipseRequest) { r.Tube.Axis = r3.Vec{} }), "direction"},
		{"ellipse of no sweep", ellipse(func(r *curve.EllipseRequest) { r.Sweep = 0 }), "full turn"},
		{"ellipse of two turns", ellipse(func(r *curve.EllipseRequest) { r.Sweep = 12 }), "full turn"},
		{"zero along the axis", ellipse(func(r *curve.EllipseRequest) { r.Zero = r3.Vec{Z: -2} }), "runs along"},
		{"saddle of parallel tubes", saddle(func(r *curve.SaddleRequest) { r.Branch.Axis = r3.Vec{X: 1, Z: 0.01} }), "from each other"},
		{"saddle over the side", saddle(func(r *curve.SaddleRequest) { r.Branch.Point = r3.Vec{Y: 0.02} }), "hangs over its side by 10 mm"},
		{"branch wider than the run", saddle(func(r *curve.SaddleRequest) { r.Branch.Radius = 0.07 }), "hangs over"},
		{"no run", saddle(func(r *curve.SaddleRequest) { r.Run.Radius = math.Inf(1) }), "the run has a radius"},
		{"no branch", saddle(func(r *curve.SaddleRequest) { r.Branch.Axis = r3.Vec{X: math.NaN()} }), "the branch through"},
		{"mirror without normal", func() error { _, err := curve.NewMirror(r3.Vec{}, r3.Vec{}); return err }(), "direction"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.err == nil || !strings.Contains(tt.err.Error(), tt.word) {
				t.Errorf("error %v, want one that says %q", tt.err, tt.word)
			}
		})
	}
}

func TestSmoothAllocatesNothing(t *testing.T) {
	c, err := curve.NewSaddle(curve.SaddleRequest{
		Run: curve.Tube{Axis: r3.Vec{X: 1}, Radius: 0.06}, Branch: curve.Tube{Axis: r3.Vec{X: 1, Z: 1}, Radius: 0.04}, Sweep: 2 * math.Pi,
	})
	if err != nil {
		t.Fatal(err)
	}
	var sink r3.Vec
	if n := testing.AllocsPerRun(100, func() { sink, _ = c.At(0.1); sink.X += c.Nearest(sink) }); n != 0 {
		t.Errorf("%v allocations, want 0", n)
	}
}

func BenchmarkSaddleAt(b *testing.B) {
	c, err := curve.NewSaddle(curve.SaddleRequest{
		Run: curve.Tube{Axis: r3.Vec{X: 1}, Radius: 0.06}, Branch: curve.Tube{Axis: r3.Vec{X: 1, Z: 1}, Radius: 0.04}, Sweep: 2 * math.Pi,
	})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		c.At(0.123)
	}
}
