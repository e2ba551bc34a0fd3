package curve_test

import (
	"encoding/json"
	"math"
	"os"
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

// Scenario S3: a corner of radius 15 mm is 23.6 mm of path, and at 5.97 mm/s
// the torch turns 22.8 deg/s on it for 3.95 s (computed in the scenario page).
func TestTurningSpeedRoundTheBoxCorner(t *testing.T) {
	box, err := curve.Rounded(0.015, r3.Vec{X: 0.1, Y: 0.075}, r3.Vec{X: -0.1, Y: 0.075}, r3.Vec{X: -0.1, Y: -0.075},
		r3.Vec{X: 0.1, Y: -0.075}, r3.Vec{X: 0.1, Y: 0.075})
	if err != nil {
		t.Fatal(err)
	}
	bends := curve.Bends(box, 1e-6)
	if len(bends) != 4 {
		t.Fatalf("%d bends, want 4", len(bends))
	}
	const deg, speed = math.Pi / 180, 5.97e-3
	for _, b := range bends {
		if b.Sharp() || math.Abs(b.Radius-0.015) > 1e-12 || math.Abs(b.Turn-90*deg) > 1e-9 {
			t.Errorf("bend %+v, want 90 deg on 15 mm", b)
		}
		if got := (b.To - b.From) * 1e3; math.Abs(got-23.6) > 0.05 {
			t.Errorf("%.2f mm of path, want 23.6", got)
		}
		if got := b.Rate(speed) / deg; math.Abs(got-22.8) > 0.05 {
			t.Errorf("%.2f deg/s, want 22.8", got)
		}
		if got := (b.To - b.From) / speed; math.Abs(got-3.95) > 0.005 {
			t.Errorf("%.3f s, want 3.95", got)
		}
	}
}

// splineCase is a row of testdata/spline_scipy.json, in metres.
type splineCase struct {
	Name    string
	Closed  bool
	Spacing string
	Points  [][3]float64
	Length  float64
	Samples [][3]float64
}

// The splines of a reference library (scipy.interpolate.CubicSpline 1.10.1; see
// testdata/README.md): same length, and every sampled point on the curve. The
// samples stand between the points of the spline, where a wrong end condition
// or spacing would show by millimetres.
func TestSplineAgainstReferenceLibrary(t *testing.T) {
	data, err := os.ReadFile("testdata/spline_scipy.json")
	if err != nil {
		t.Fatal(err)
	}
	var cases []splineCase
	if err := json.Unmarshal(data, &cases); err != nil || len(cases) != 10 {
		t.Fatalf("%d cases, %v; want 10", len(cases), err)
	}
	for _, tt := range cases {
		t.Run(tt.Name+", "+tt.Spacing, func(t *testing.T) {
			req := curve.SplineRequest{Closed: tt.Closed}
			if tt.Spacing == "centripetal" {
				req.Spacing = curve.Centripetal
			}
			for _, p := range tt.Points {
				req.Points = append(req.Points, r3.Vec{X: p[0], Y: p[1], Z: p[2]})
			}
			c, err := curve.NewSpline(req)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(c.Length()-tt.Length) > 1e-9 {
				t.Errorf("length %.12f, want %.12f", c.Length(), tt.Length)
			}
			last := -1.0
			for _, p := range tt.Samples {
				s, dist := curve.Distance(c, r3.Vec{X: p[0], Y: p[1], Z: p[2]})
				if dist > 1e-10 || s <= last {
					t.Fatalf("sample %v is %v off at %v, after %v", p, dist, s, last)
				}
				last = s
			}
		})
	}
}

// Points of half a circle of radius R, h apart: the spline errs by the fourth
// power of h, also beside its ends. There it is no worse than the cubic through
// four points, which errs by max|t(t-1)(t-2)(t-3)|/24 * h^4/R^3 = h^4/(24 R^3)
// (remainder of interpolation, textbook, from memory); a natural end would err
// by the square of h.
func TestSplineFollowsACircle(t *testing.T) {
	const radius = 0.1
	for _, n := range []int{6, 12, 24} {
		var pts []r3.Vec
		step := math.Pi / float64(n)
		for i := range n + 1 {
			sin, cos := math.Sincos(step * float64(i))
			pts = append(pts, r3.Vec{X: radius * cos, Y: radius * sin})
		}
		c, err := curve.NewSpline(curve.SplineRequest{Points: pts})
		if err != nil {
			t.Fatal(err)
		}
		limit := radius * math.Pow(step, 4) / 24
		for i := range 201 {
			p, _ := c.At(c.Length() * float64(i) / 200)
			if off := math.Abs(p.Norm() - radius); off > limit {
				t.Errorf("%d points: %v m off the circle, %v is the limit", n+1, off, limit)
				break
			}
		}
	}
}

// The perimeter of an ellipse is 4*a*E(k), k^2 = 1 - b^2/a^2. E(k^2 = 1/2) =
// 1.350643881047675 and E(k^2 = 3/4) = 1.211056027568459 (Abramowitz and Stegun,
// table 17.1, K and E by m; from memory, checked by integrating here).
func TestEllipsePerimeter(t *testing.T) {
	const r = 0.05
	for _, tt := range []struct{ tilt, want float64 }{
		{0, 2 * math.Pi * r},
		{45, 4 * r * math.Sqrt2 * 1.350643881047675},
		{60, 4 * r * 2 * 1.211056027568459},
	} {
		sin, cos := math.Sincos(tt.tilt * math.Pi / 180)
		e, err := curve.NewEllipse(curve.EllipseRequest{
			Tube:   curve.Tube{Point: r3.Vec{X: 0.3, Y: -0.2}, Axis: r3.Vec{Z: 2}, Radius: r},
			Normal: r3.Vec{X: sin, Z: cos}, Start: 0.4, Sweep: -2 * math.Pi,
		})
		if err != nil {
			t.Fatal(err)
		}
		if got := e.Length(); math.Abs(got-tt.want) > 1e-10 {
			t.Errorf("tilt %v: perimeter %.12f, want %.12f", tt.tilt, got, tt.want)
		}
	}
}

// The ends of both axes of the ellipse in which a plane at 45 deg cuts a tube
// (elementary geometry): the long half-axis is r*sqrt(2) in the plane.
func TestEllipseAxes(t *testing.T) {
	e, err := curve.NewEllipse(curve.EllipseRequest{
		Tube:  curve.Tube{Axis: r3.Vec{Z: 1}, Radius: 0.04},
		Point: r3.Vec{Z: 0.1}, Normal: r3.Vec{X: 1, Z: 1}, Sweep: 2 * math.Pi,
	})
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []r3.Vec{{X: 0.04, Z: 0.06}, {Y: 0.04, Z: 0.1}, {X: -0.04, Z: 0.14}, {Y: -0.04, Z: 0.1}} {
		if p, _ := e.At(e.Length() * float64(i) / 4); p.Dist(want) > 1e-10 {
			t.Errorf("quarter %d at %v, want %v", i, p, want)
		}
	}
	if got, want := curve.Curvature(e, 0), 0.04*math.Sqrt2/(0.04*0.04); math.Abs(got-want) > 1e-6 {
		t.Errorf("curvature at the long end %v, want a/b^2 = %v", got, want)
	}
}

// Closed forms of the saddle, tubes along X and in the XZ plane at angle A, by
// the angle u about the branch (development of a branch pipe, textbook of
// sheet-metal layout, from memory; derived again): a line of the branch's wall
// at y = r*sin(u) meets the run at z = sqrt(R^2 - y^2), and there x solves the
// line's equation x*sin(A) - z*cos(A) = r*cos(u). Its angle tells u.
func TestSaddleClosedForm(t *testing.T) {
	const deg = math.Pi / 180
	for _, tt := range []struct {
		name          string
		run, r, angle float64
	}{
		{"equal, 90 deg", 0.05, 0.05, 90},
		{"unequal, 90 deg", 0.05, 0.03, 90},
		{"equal, 45 deg", 0.05, 0.05, 45},
		{"unequal, 45 deg", 0.05, 0.03, 45},
		{"nearly equal, 90 deg", 0.05, 0.04995, 90},
	} {
		t.Run(tt.name, func(t *testing.T) {
			sinA, cosA := math.Sincos(tt.angle * deg)
			d := r3.Vec{X: cosA, Z: sinA}
			c, err := curve.NewSaddle(curve.SaddleRequest{
				Run:    curve.Tube{Axis: r3.Vec{X: 1}, Radius: tt.run},
				Branch: curve.Tube{Axis: d, Radius: tt.r}, Sweep: 2 * math.Pi,
			})
			if err != nil {
				t.Fatal(err)
			}
			point := func(u float64) r3.Vec {
				sin, cos := math.Sincos(u)
				y := tt.r * sin
				z := math.Sqrt(max(0, (tt.run-y)*(tt.run+y)))
				return r3.Vec{X: (tt.r*cos + z*cosA) / sinA, Y: y, Z: z}
			}
			// A length by chords of 2^18 even angles errs by 1e-10 of itself.
			const n = 1 << 18
			var sum float64
			last := point(0)
			for i := 1; i <= n; i++ {
				p := point(2 * math.Pi * float64(i) / n)
				if sum += p.Dist(last); i%(n/64) == 0 {
					got, _ := c.At(sum)
					if got.Dist(p) > 1e-8 {
						t.Fatalf("at %v m %v, want %v", sum, got, p)
					}
				}
				last = p
			}
			if math.Abs(c.Length()-sum) > 1e-8 {
				t.Errorf("length %.10f, want %.10f", c.Length(), sum)
			}
		})
	}
}

// Two equal tubes meet in halves of two ellipses that cross at the run's sides:
// at 90 deg with half-axes R and R*sqrt(2), so the curve is as long as one such
// ellipse, 4*R*sqrt(2)*E(1/2), and turns through 90 deg in two sharp corners
// (E: Abramowitz and Stegun, table 17.1, from memory).
func TestEqualTubesMeetInTwoEllipses(t *testing.T) {
	const r = 0.057
	c, err := curve.NewSaddle(curve.SaddleRequest{
		Run: curve.Tube{Axis: r3.Vec{X: 1}, Radius: r}, Branch: curve.Tube{Axis: r3.Vec{Z: 1}, Radius: r}, Sweep: 2 * math.Pi,
	})
	if err != nil {
		t.Fatal(err)
	}
	want := 4 * r * math.Sqrt2 * 1.350643881047675
	if math.Abs(c.Length()-want) > 1e-10 {
		t.Errorf("length %.12f, want %.12f", c.Length(), want)
	}
	corners := c.Corners(1e-6)
	if len(corners) != 2 {
		t.Fatalf("corners %v, want two", corners)
	}
	for i, k := range corners {
		if at := want * (0.25 + 0.5*float64(i)); math.Abs(k.S-at) > 1e-10 || math.Abs(k.Turn-math.Pi/2) > 1e-9 {
			t.Errorf("corner %+v, want 90 deg at %v", k, at)
		}
	}
	for i := range 100 { // in the planes x = z and x = -z
		if p, _ := c.At(want * float64(i) / 100); math.Abs(math.Abs(p.X)-p.Z) > 1e-12 {
			t.Errorf("%v lies in neither ellipse's plane", p)
		}
	}
}

// The line in which two planes meet, against the solution of the three equations
// by hand: x + y = 1 and z = 2 hold on (1-y, y, 2).
func TestPlanesMeet(t *testing.T) {
	l, err := curve.Meet(
		curve.Flat{Point: r3.Vec{X: 1, Z: 7}, Normal: r3.Vec{X: 1, Y: 1}},
		curve.Flat{Point: r3.Vec{X: 5, Y: 5, Z: 2}, Normal: r3.Vec{Z: -3}},
		r3.Vec{X: 1.3, Y: 0.3, Z: 9}, r3.Vec{X: 0.1, Y: 1.1},
	)
	if err != nil {
		t.Fatal(err)
	}
	if l.Start().Dist(r3.Vec{X: 1, Z: 2}) > 1e-15 || l.End().Dist(r3.Vec{Y: 1, Z: 2}) > 1e-15 {
		t.Errorf("from %v to %v, want (1,0,2) to (0,1,2)", l.Start(), l.End())
	}
	if _, err := curve.Meet(curve.Flat{Normal: r3.Vec{Z: 1}}, curve.Flat{Normal: r3.Vec{X: 0.05, Z: 1}}, r3.Vec{}, r3.Vec{X: 1}); err == nil {
		t.Error("nearly parallel planes are taken to meet")
	}
}
