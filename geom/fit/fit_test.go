package fit_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// newGauss returns a source of standard normal numbers with a fixed seed.
func newGauss(seed uint64) func() float64 {
	rng := rand.New(rand.NewPCG(seed, 1))
	return rng.NormFloat64
}

func genVec(size float64) *rapid.Generator[r3.Vec] {
	return rapid.Custom(func(t *rapid.T) r3.Vec {
		c := rapid.Float64Range(-size, size)
		return r3.Vec{X: c.Draw(t, "x"), Y: c.Draw(t, "y"), Z: c.Draw(t, "z")}
	})
}

// frame is a drawn pose whose axes serve as directions.
type frame struct{ se3.Pose }

func (f frame) axes() (x, y r3.Vec) { return f.R.X(), f.R.Y() }

func genFrame() *rapid.Generator[frame] {
	return rapid.Custom(func(t *rapid.T) frame {
		axis := genVec(1).Filter(func(v r3.Vec) bool { return v.Norm() > 0.1 }).Draw(t, "axis").Unit()
		return frame{se3.Pose{R: se3.RotAxis(axis, rapid.Float64Range(-3, 3).Draw(t, "angle")), P: genVec(1).Draw(t, "p")}}
	})
}

// Exact points give the line back, with its sense and ends.
func TestExactLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := genFrame().Draw(t, "frame")
		n := rapid.IntRange(2, 10).Draw(t, "n")
		var points []r3.Vec
		var along float64
		for range n {
			points = append(points, f.P.AddScaled(along, f.R.X()))
			along += rapid.Float64Range(0.002, 0.3).Draw(t, "step")
		}
		got, err := fit.Line(points, 1e-3)
		if err != nil {
			t.Fatal(err)
		}
		if got.Dir.Dist(f.R.X()) > 1e-12 || got.From.Dist(points[0]) > 1e-12 || got.To.Dist(points[n-1]) > 1e-12 {
			t.Fatalf("%+v, want along %v", got, f.R.X())
		}
		if got.Max > 1e-12 || got.Sigma != 1e-3 || len(got.OutOfOrder) != 0 {
			t.Fatalf("%+v, want no residual and the given sigma", got)
		}
	})
}

// Exact points on an arc give it back, whatever is known beforehand.
func TestExactCircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := genFrame().Draw(t, "frame")
		radius := rapid.Float64Range(0.01, 1).Draw(t, "radius")
		n := rapid.IntRange(3, 12).Draw(t, "n")
		sweep := rapid.Float64Range(max(0.4, 2*math.Sqrt(0.008/radius)), 6).Draw(t, "sweep")
		var points []r3.Vec
		for i := range n {
			s, c := math.Sincos(sweep * float64(i) / float64(n-1))
			points = append(points, f.Apply(r3.Vec{X: radius * c, Y: radius * s}))
		}
		req := fit.CircleRequest{Points: points, Sigma: 1e-4}
		if rapid.Bool().Draw(t, "radius known") {
			req.Radius = radius
		}
		switch rapid.IntRange(0, 2).Draw(t, "plane known") {
		case 1:
			req.Axis = f.R.Z().Scale(-3) // either sign, any length
		case 2:
			req.Plane = &fit.KnownPlane{Point: f.Apply(r3.Vec{X: 5, Y: -7}), Normal: f.R.Z()}
		}
		got, err := fit.Circle(req)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.Radius-radius) > 1e-9 || got.Centre.Dist(f.P) > 1e-9 || got.Axis.Dist(f.R.Z()) > 1e-9 {
			t.Fatalf("%+v, want radius %v about %v through %v", got, radius, f.R.Z(), f.P)
		}
		if math.Abs(got.Sweep-sweep) > 1e-8 || got.Start.Dist(points[0]) > 1e-9 || got.End.Dist(points[n-1]) > 1e-9 {
			t.Fatalf("%+v, want sweep %v from %v to %v", got, sweep, points[0], points[n-1])
		}
		if got.Max > 1e-9 || len(got.OutOfOrder) != 0 {
			t.Fatalf("residual %v, out of order %v", got.Max, got.OutOfOrder)
		}
	})
}

// The circle found is a minimum: no small change of it has smaller radial
// distances.
func TestNoisyCircleIsMinimum(t *testing.T) {
	gauss := newGauss(3)
	rapid.Check(t, func(t *rapid.T) {
		known := rapid.SampledFrom([]float64{0, 0.048, 0.052, 0.03, 0.1}).Draw(t, "known radius")
		var points []r3.Vec
		for i := range 8 {
			s, c := math.Sincos(float64(i) / 7 * 2.5)
			points = append(points, r3.Vec{X: 0.05*c + 3e-4*gauss(), Y: 0.05*s + 3e-4*gauss(), Z: 0})
		}
		got, err := fit.Circle(fit.CircleRequest{Points: points, Sigma: 3e-4, Radius: known, Axis: r3.Vec{Z: 1}})
		if err != nil {
			t.Fatal(err)
		}
		cost := func(c r3.Vec, r float64) (sum float64) {
			for _, p := range points {
				sum += math.Pow(p.Dist(c)-r, 2)
			}
			return sum
		}
		best := cost(got.Centre, got.Radius)
		if want := math.Sqrt(best / 8); math.Abs(got.RMS-want) > 1e-12 {
			t.Fatalf("rms %v, want %v", got.RMS, want)
		}
		for _, h := range []float64{1e-5, -1e-5} {
			worse := []float64{cost(got.Centre.Add(r3.Vec{X: h}), got.Radius), cost(got.Centre.Add(r3.Vec{Y: h}), got.Radius)}
			if known == 0 {
				worse = append(worse, cost(got.Centre, got.Radius+h))
			}
			for k, w := range worse {
				if w <= best {
					t.Fatalf("change %d by %v lowers the cost from %v to %v", k, h, best, w)
				}
			}
		}
	})
}

func TestResidualsNameTheWorstPoint(t *testing.T) {
	points := []r3.Vec{{}, {X: 0.1}, {X: 0.2, Z: 0.002}, {X: 0.3}, {X: 0.4}}
	f, err := fit.Line(points, 0)
	if err != nil {
		t.Fatal(err)
	}
	// The middle point alone is off: the line rises by its mean, 0.4 mm.
	if f.Worst != 2 || math.Abs(f.Max-0.0016) > 1e-8 {
		t.Errorf("worst %d by %v, want 2 by 0.0016", f.Worst, f.Max)
	}
	// Where the residuals exceed the given sigma they speak: five points give
	// ten observations across, a line takes four.
	if want := math.Sqrt((4*0.4*0.4+1.6*1.6)/6) * 1e-3; math.Abs(f.Sigma-want) > 1e-7 {
		t.Errorf("sigma %v, want %v", f.Sigma, want)
	}
}

// Four points d in and out by turns leave 4*d^2; what is known beforehand
// leaves more observations over.
func TestCircleSigma(t *testing.T) {
	const r, d = 0.05, 0.4e-3
	points := []r3.Vec{{X: r + d}, {Y: r - d}, {X: -r - d}, {Y: -r + d}}
	tests := []struct {
		name string
		req  fit.CircleRequest
		over float64
	}{
		{"nothing known", fit.CircleRequest{Points: points}, 2},
		{"axis known", fit.CircleRequest{Points: points, Axis: r3.Vec{Z: 1}}, 4},
		{"plane known", fit.CircleRequest{Points: points, Plane: &fit.KnownPlane{Normal: r3.Vec{Z: 1}}}, 5},
		{"plane and radius known", fit.CircleRequest{Points: points, Plane: &fit.KnownPlane{Normal: r3.Vec{Z: 1}}, Radius: r}, 6},
	}
	for _, tt := range tests {
		f, err := fit.Circle(tt.req)
		if err != nil {
			t.Fatal(err)
		}
		if want := d * math.Sqrt(4/tt.over); math.Abs(f.Sigma-want) > 1e-8 {
			t.Errorf("%s: sigma %v, want %v", tt.name, f.Sigma, want)
		}
	}
}

func TestKnownPlaneHoldsTheCircle(t *testing.T) {
	points := []r3.Vec{{X: 0.1, Z: 0.002}, {Y: 0.1, Z: 0.002}, {X: -0.1, Z: 0.002}}
	f, err := fit.Circle(fit.CircleRequest{Points: points, Plane: &fit.KnownPlane{Point: r3.Vec{X: 9}, Normal: r3.Vec{Z: 2}}})
	if err != nil {
		t.Fatal(err)
	}
	if f.Centre.Norm() > 1e-12 || math.Abs(f.RMS-0.002) > 1e-12 || math.Abs(f.Start.Z) > 1e-12 {
		t.Errorf("%+v, want the circle in the known plane and 2 mm of residual", f)
	}
}

func TestLineFollowsTheOrder(t *testing.T) {
	// The first point lies beyond the middle of all, and yet before the last.
	f, err := fit.Line([]r3.Vec{{X: 0.1}, {}, {X: 0.02}, {X: 0.01}, {X: 0.2}}, 0)
	if err != nil {
		t.Fatal(err)
	}
	if f.Dir.X < 0.99 || !slices.Equal(f.OutOfOrder, []int{1, 2, 3}) {
		t.Errorf("along %v, out of order %v; want +X, [1 2 3]", f.Dir, f.OutOfOrder)
	}
}

func TestOutOfOrder(t *testing.T) {
	line := []r3.Vec{{}, {X: 0.1}, {X: 0.05}, {X: 0.2}, {X: 0.2}, {X: 0.3}}
	f, err := fit.Line(line, 0)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(f.OutOfOrder, []int{2, 4}) {
		t.Errorf("line: %v, want [2 4]", f.OutOfOrder)
	}
	at := func(turns ...float64) []r3.Vec {
		var points []r3.Vec
		for _, a := range turns {
			s, c := math.Sincos(a * math.Pi / 180)
			points = append(points, r3.Vec{X: 0.1 * c, Y: 0.1 * s})
		}
		return points
	}
	tests := []struct {
		name  string
		turns []float64
		axis  float64 // sign of Z
		sweep float64 // deg
		out   []int
	}{
		{"three forward", []float64{0, 100, 350}, 1, 350, nil},
		{"three backward", []float64{0, -100, -350}, -1, 350, nil},
		{"one swapped", []float64{0, 60, 40, 100, 140}, 1, 140, []int{2}},
		{"one repeated", []float64{0, 60, 60, 100}, 1, 100, []int{2}},
		{"as many back as forth", []float64{0, 50, -10, 0, -100}, -1, 100, []int{1, 3}},
		{"closed", []float64{0, 90, 180, 270, 360}, 1, 360, nil},
		{"closed backward with overlap", []float64{0, -90, -180, -270, -370}, -1, 370, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f, err := fit.Circle(fit.CircleRequest{Points: at(tt.turns...)})
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(f.OutOfOrder, tt.out) || f.Axis.Z*tt.axis < 0.99 || math.Abs(f.Sweep*180/math.Pi-tt.sweep) > 1e-6 {
				t.Errorf("out %v axis %v sweep %.6f, want %v %v %v", f.OutOfOrder, f.Axis, f.Sweep*180/math.Pi, tt.out, tt.axis, tt.sweep)
			}
		})
	}
}

func TestPlaneFacing(t *testing.T) {
	f, err := fit.Plane([]r3.Vec{{}, {X: 0.1}, {Y: 0.1}}, 1e-4)
	if err != nil {
		t.Fatal(err)
	}
	if down, ok := f.Facing(r3.Vec{X: 3, Z: -1}); !ok || down.Normal.Dist(r3.Vec{Z: -1}) > 1e-12 {
		t.Errorf("facing down: %v %v", down.Normal, ok)
	}
	if _, ok := f.Facing(r3.Vec{X: 1}); ok {
		t.Error("a direction in the plane decides no side")
	}
}

func TestRefusals(t *testing.T) {
	tests := []struct {
		name string
		err  error
		word string
		bad  bool // degenerate
	}{
		{"one point", second(fit.Line([]r3.Vec{{}}, 0)), "at least 2", true},
		{"two equal points", second(fit.Line([]r3.Vec{{X: 1}, {X: 1}}, 0)), "apart", true},
		{"there and back", second(fit.Line([]r3.Vec{{}, {X: 1}, {}}, 0)), "order gives no direction", true},
		{"not finite", second(fit.Line([]r3.Vec{{}, {X: math.Inf(1)}}, 0)), "point 2", false},
		{"negative sigma", second(fit.Line([]r3.Vec{{}, {X: 1}}, -1)), "touch error", false},
		{"plane of two", second(fit.Plane([]r3.Vec{{}, {X: 1}}, 0)), "at least 3", true},
		{"plane of a line", second(fit.Plane([]r3.Vec{{}, {X: 1}, {X: 2, Y: 5e-4}}, 0)), "one line", true},
		{"circle of two", circleError(fit.CircleRequest{Points: []r3.Vec{{}, {X: 1}}}), "at least 3", true},
		{"circle of a line", circleError(fit.CircleRequest{Points: []r3.Vec{{}, {X: 1}, {X: 2}}}), "straight line", true},
		{"circle of a line, all known", circleError(fit.CircleRequest{Points: []r3.Vec{{}, {X: 1}, {X: 2}}, Radius: 1, Axis: r3.Vec{Z: 1}}), "straight line", true},
		{"circle seen edge on", circleError(fit.CircleRequest{Points: []r3.Vec{{X: 1}, {Y: 1}, {X: -1}}, Axis: r3.Vec{Y: 1}}), "straight line", true},
		{"bend lost in the touch error", circleError(fit.CircleRequest{Points: []r3.Vec{{}, {X: 1, Y: 0.002}, {X: 2}}, Sigma: 0.0015}), "straight line", true},
		{"negative radius", circleError(fit.CircleRequest{Points: []r3.Vec{{}, {X: 1}, {Y: 2}}, Radius: -1}), "known radius", false},
		{"plane without normal", circleError(fit.CircleRequest{Points: []r3.Vec{{}, {X: 1}, {Y: 2}}, Plane: &fit.KnownPlane{}}), "names no plane", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if tt.err == nil || !strings.Contains(tt.err.Error(), tt.word) {
				t.Fatalf("error %v, want one that says %q", tt.err, tt.word)
			}
			if got := errors.Is(tt.err, fit.ErrDegenerate); got != tt.bad {
				t.Errorf("degenerate %v, want %v: %v", got, tt.bad, tt.err)
			}
		})
	}
}

func second[T any](_ T, err error) error { return err }

func circleError(r fit.CircleRequest) error { return second(fit.Circle(r)) }

func BenchmarkCircle(b *testing.B) {
	points := []r3.Vec{{X: 0.1}, {X: 0.07, Y: 0.071}, {Y: 0.1}, {X: -0.07, Y: 0.0705}}
	for b.Loop() {
		if _, err := fit.Circle(fit.CircleRequest{Points: points, Sigma: 1e-4}); err != nil {
			b.Fatal(err)
		}
	}
}
