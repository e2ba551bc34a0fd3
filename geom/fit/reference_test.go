package fit_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"seamwright/geom/fit"
	"seamwright/geom/r3"
)

// Two tips each 1.5 mm off give the direction within 0.5 deg over 250 mm, 1.2
// over 100 mm and 2.4 over 50 mm (computed in the project's trade reference).
func TestTwoTipsDirectionError(t *testing.T) {
	for _, tt := range []struct{ length, want float64 }{{0.250, 0.5}, {0.100, 1.2}, {0.050, 2.4}} {
		f, err := fit.Line([]r3.Vec{{X: 0.3, Y: 0.1}, {X: 0.3, Y: 0.1 + tt.length}}, 1.5e-3)
		if err != nil {
			t.Fatal(err)
		}
		if got := f.DirSigma * 180 / math.Pi; math.Abs(got-tt.want) > 0.05 {
			t.Errorf("%v m: %.3f deg, want %v", tt.length, got, tt.want)
		}
	}
}

// Line and plane against the eigenvectors of the covariance matrix, a second
// method out of another part of gonum (stat.CovarianceMatrix, mat.EigenSym).
func TestLineAndPlaneAgainstEigenvectors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 30).Draw(t, "n")
		x, y := genFrame().Draw(t, "frame").axes()
		points := make([]r3.Vec, n)
		for i := range points {
			points[i] = r3.Vec{X: 0.4, Y: -0.2, Z: 0.1}.
				AddScaled(float64(i)*0.05, x).
				AddScaled(rapid.Float64Range(-0.01, 0.01).Draw(t, "side"), y).
				Add(genVec(0.001).Draw(t, "noise"))
		}
		values, vectors := eigen(points)
		if values[1]-values[0] < 1e-7 { // the plane is not decided
			t.Skip("points near a line")
		}
		line, err := fit.Line(points, 0)
		if err != nil {
			t.Fatal(err)
		}
		if off := line.Dir.Cross(vectors[2]).Norm(); off > 1e-9 {
			t.Fatalf("line %v, eigenvector %v", line.Dir, vectors[2])
		}
		if want := math.Sqrt((values[0] + values[1]) * float64(n-1) / float64(n)); math.Abs(line.RMS-want) > 1e-10 {
			t.Fatalf("line rms %v, want %v", line.RMS, want)
		}
		plane, err := fit.Plane(points, 0)
		if err != nil {
			t.Skip(err) // nearly on one line
		}
		if off := plane.Normal.Cross(vectors[0]).Norm(); off > 1e-7 {
			t.Fatalf("plane %v, eigenvector %v", plane.Normal, vectors[0])
		}
	})
}

// eigen returns the covariance's eigenvalues (m2), rising, and vectors.
func eigen(points []r3.Vec) ([]float64, [3]r3.Vec) {
	data := mat.NewDense(len(points), 3, nil)
	for i, p := range points {
		data.SetRow(i, []float64{p.X, p.Y, p.Z})
	}
	var cov mat.SymDense
	stat.CovarianceMatrix(&cov, data, nil)
	var e mat.EigenSym
	e.Factorize(&cov, true)
	var v mat.Dense
	e.VectorsTo(&v)
	var vectors [3]r3.Vec
	for k := range vectors {
		vectors[k] = r3.Vec{X: v.At(0, k), Y: v.At(1, k), Z: v.At(2, k)}
	}
	return e.Values(nil), vectors
}

// The circle through exactly three points against the closed form: R = abc
// over four times the area, and the circumcentre's barycentric formula
// (elementary geometry).
func TestCircleThroughThreePoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := genVec(0.3).Draw(t, "a"), genVec(0.3).Draw(t, "b"), genVec(0.3).Draw(t, "c")
		la, lb, lc := b.Dist(c), a.Dist(c), a.Dist(b)
		area := b.Sub(a).Cross(c.Sub(a)).Norm() / 2
		if 2*area/max(la, lb, lc) < 0.005 {
			t.Skip("nearly on one line")
		}
		f, err := fit.Circle(fit.CircleRequest{Points: []r3.Vec{a, b, c}})
		if err != nil {
			t.Fatal(err)
		}
		want := la * lb * lc / (4 * area)
		wa := la * la * (lb*lb + lc*lc - la*la)
		wb := lb * lb * (la*la + lc*lc - lb*lb)
		wc := lc * lc * (la*la + lb*lb - lc*lc)
		centre := a.Scale(wa).Add(b.Scale(wb)).Add(c.Scale(wc)).Scale(1 / (wa + wb + wc))
		if tol := 1e-9 * (1 + want/0.1); math.Abs(f.Radius-want) > tol || f.Centre.Dist(centre) > tol {
			t.Fatalf("radius %v centre %v, want %v %v", f.Radius, f.Centre, want, centre)
		}
		if f.Max > 1e-9 || f.RMS > 1e-9 {
			t.Fatalf("residuals %+v of three points, want none", f.Residuals)
		}
		if f.Start.Dist(a) > 1e-8 || f.End.Dist(c) > 1e-8 || len(f.OutOfOrder) != 0 {
			t.Fatalf("from %v to %v, out of order %v; want %v to %v", f.Start, f.End, f.OutOfOrder, a, c)
		}
		if f.Sweep <= 0 || f.Sweep >= 2*math.Pi {
			t.Fatalf("sweep %v", f.Sweep)
		}
	})
}

// The scatter of the fits over many noisy sets of touches agrees with the
// standard deviations that they state: a second method, by simulation with a
// fixed seed. 400 sets give the scatter within about 10 % (three standard
// errors).
func TestStatedUncertaintyAgainstSimulation(t *testing.T) {
	const sets, sigma, radius = 400, 0.3e-3, 0.060
	gauss := newGauss(7)
	touch := func(p r3.Vec) r3.Vec {
		return p.Add(r3.Vec{X: gauss(), Y: gauss(), Z: gauss()}.Scale(sigma))
	}
	var sums struct{ line, plane, radius, centre, axis, known float64 }
	var stated struct{ line, plane, radius, centre, axis, known float64 }
	for range sets {
		var line, plate, arc []r3.Vec
		for i := range 5 {
			line = append(line, touch(r3.Vec{X: float64(i) * 0.04}))
		}
		for _, p := range []r3.Vec{{}, {X: 0.3}, {X: 0.3, Y: 0.1}, {Y: 0.1}} {
			plate = append(plate, touch(p))
		}
		for i := range 7 {
			s, c := math.Sincos(float64(i) / 6 * 2)
			arc = append(arc, touch(r3.Vec{X: radius * c, Y: radius * s}))
		}
		lf, err := fit.Line(line, sigma)
		pf, err2 := fit.Plane(plate, sigma)
		cf, err3 := fit.Circle(fit.CircleRequest{Points: arc, Sigma: sigma})
		kf, err4 := fit.Circle(fit.CircleRequest{Points: arc, Sigma: sigma, Radius: radius, Axis: r3.Vec{Z: 1}})
		if err != nil || err2 != nil || err3 != nil || err4 != nil {
			t.Fatal(err, err2, err3, err4)
		}
		pf, _ = pf.Facing(r3.Vec{Z: 1})
		sums.line += lf.Dir.Y * lf.Dir.Y
		sums.plane += pf.Normal.Y * pf.Normal.Y // about the long axis X
		sums.radius += (cf.Radius - radius) * (cf.Radius - radius)
		// The centre is least certain towards the middle of the arc, at 1 rad;
		// the axis about that arc's chord, which is square to it.
		mid := r3.Vec{X: math.Cos(1), Y: math.Sin(1)}
		sums.centre += math.Pow(cf.Centre.Dot(mid), 2)
		sums.axis += math.Pow(cf.Axis.Dot(mid), 2)
		sums.known += math.Pow(kf.Centre.Dot(r3.Vec{X: -mid.Y, Y: mid.X}), 2)
		// The caller's sigma, not what the residuals show, is compared.
		scale := sigma / lf.Sigma
		stated.line = lf.DirSigma * scale
		stated.plane = pf.TiltSigma * sigma / pf.Sigma
		stated.radius = cf.RadiusSigma * sigma / cf.Sigma
		stated.centre = cf.CentreSigma * sigma / cf.Sigma
		stated.axis = cf.AxisSigma * sigma / cf.Sigma
		stated.known = kf.CentreSigma * sigma / kf.Sigma
	}
	for _, row := range []struct {
		name        string
		sum, stated float64
	}{
		{"line direction", sums.line, stated.line}, {"plane tilt", sums.plane, stated.plane},
		{"radius", sums.radius, stated.radius}, {"centre", sums.centre, stated.centre},
		{"axis", sums.axis, stated.axis}, {"centre at known radius", sums.known, stated.known},
	} {
		got := math.Sqrt(row.sum / sets)
		if ratio := got / row.stated; ratio < 0.88 || ratio > 1.12 {
			t.Errorf("%s: scatter %.3g, stated %.3g", row.name, got, row.stated)
		}
	}
}
