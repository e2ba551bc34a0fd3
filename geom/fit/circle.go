package fit

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"seamwright/geom/r3"
)

// KnownPlane is a plane that is known beforehand: Point (m) lies in it, Normal is
// any vector square to it.
type KnownPlane struct{ Point, Normal r3.Vec }

// CircleRequest says what a circle is fitted to. What the drawing gives is used
// rather than fitted: it makes a short arc certain.
type CircleRequest struct {
	Points []r3.Vec    // m, three or more, in the order of travel
	Sigma  float64     // m, standard deviation of one coordinate of a touch
	Radius float64     // m, known radius; 0 fits it
	Axis   r3.Vec      // known direction of the circle's axis, any length and sign; zero fits it
	Plane  *KnownPlane // known plane of the circle, which also gives the axis; nil fits it
}

// CircleFit is the circle nearest to touched points.
type CircleFit struct {
	Centre     r3.Vec  // m
	Axis       r3.Vec  // unit; the order of the points runs right-handed about it
	Radius     float64 // m
	Start, End r3.Vec  // m, the first and the last point brought onto the circle
	Sweep      float64 // rad, from the first point to the last; above 2 pi where the points overlap
	Residuals          // straight distances to the circle, in and out of its plane
	Sigma      float64 // m, standard deviation of one coordinate: the caller's, or what the residuals show if that is larger

	CentreSigma float64 // m, standard deviation of the centre along its least certain direction in the plane
	RadiusSigma float64 // m, standard deviation of the radius; 0 where it was known
	AxisSigma   float64 // rad, standard deviation of the axis about its least certain direction; 0 where it was known

	// OutOfOrder lists, by index from 0, the points that lie back round the
	// circle from the point before them, against the run of the others.
	OutOfOrder []int
}

// MinSagitta is the least height (m) to which points must stand off their
// straight line before a circle is fitted: 0.5 mm. A flatter set is a line for
// every purpose of a seam that is held to half a wire diameter.
const MinSagitta = 0.5e-3

// Circle returns the least-squares circle in space through three or more
// points. The plane comes first, from orthogonal distances; in it the circle's
// centre and radius minimise the sum of squared radial distances (Gauss-Newton
// from the linear fit of I. Kasa, IEEE Trans. Instrum. Meas. 25, 1976; from
// memory). Minimising over plane and circle at once would change the result
// only by the square of the residuals over the radius.
//
// It fails for fewer than three points, for points on one line (nearer to it
// than MinSagitta, or than twice the touch error), and where the search does
// not settle. A known radius that does not suit the points shows in the
// residuals.
func Circle(r CircleRequest) (CircleFit, error) {
	if err := checkInput("circle", r.Points, 3, r.Sigma); err != nil {
		return CircleFit{}, err
	}
	if !(r.Radius >= 0) || math.IsInf(r.Radius, 1) {
		return CircleFit{}, fmt.Errorf("fit: circle with a known radius of %g m: above 0 is needed, or 0 to fit it", r.Radius)
	}
	flat, err := planeOfCircle(r)
	if err != nil {
		return CircleFit{}, err
	}
	if err := checkBent(r, flat.normal); err != nil {
		return CircleFit{}, err
	}
	u := flat.normal.Orthogonal()
	d := disc{u: u, v: flat.normal.Cross(u), origin: flat.point, points: r.Points, radius: r.Radius}
	sol, err := d.solve()
	if err != nil {
		return CircleFit{}, err
	}
	return assemble(r, flat, d, sol), nil
}

// circlePlane is the plane of a circle, fitted or known.
type circlePlane struct {
	point, normal r3.Vec
	freedom       int     // unknowns spent on the plane
	spread        float64 // m2, that holds its loosest tilt; +Inf where it is known
}

func planeOfCircle(r CircleRequest) (circlePlane, error) {
	pr, err := principalOf(r.Points)
	if err != nil {
		return circlePlane{}, err
	}
	known := r.Axis
	point := pr.centroid
	freedom := 1
	if r.Plane != nil {
		known, point, freedom = r.Plane.Normal, r.Plane.Point, 0
	}
	if r.Plane == nil && known == (r3.Vec{}) {
		low, high := extent(positions(r.Points, pr.centroid, pr.axes[1]))
		if !(high-low >= MinSagitta) {
			return circlePlane{}, straightError(len(r.Points), high-low, MinSagitta)
		}
		return circlePlane{point: point, normal: steady(pr.axes[2]), freedom: 3, spread: pr.sums[1]}, nil
	}
	normal := known.Unit()
	if !known.IsFinite() || !point.IsFinite() || normal == (r3.Vec{}) {
		return circlePlane{}, fmt.Errorf("fit: circle with a known axis along %v through %v: that names no plane", known, point)
	}
	// The centroid, dropped into the plane, keeps the numbers small.
	point = pr.centroid.AddScaled(-pr.centroid.Sub(point).Dot(normal), normal)
	return circlePlane{point: point, normal: normal, freedom: freedom, spread: math.Inf(1)}, nil
}

func straightError(n int, height, least float64) error {
	return fmt.Errorf("fit: circle through %d points that lie within %.3g m of one straight line: at least %.3g m is needed to see the bend: touch points further round, or use a line: %w", n, height, least, ErrDegenerate)
}

// checkBent refuses points that, seen along the axis, lie on a straight line.
func checkBent(r CircleRequest, normal r3.Vec) error {
	plan := make([]r3.Vec, len(r.Points))
	for i, p := range r.Points {
		plan[i] = p.Reject(normal)
	}
	pr, err := principalOf(plan)
	if err != nil {
		return err
	}
	low, high := extent(positions(plan, pr.centroid, pr.axes[1]))
	least := max(MinSagitta, 2*r.Sigma)
	if !(high-low >= least) {
		return straightError(len(plan), high-low, least)
	}
	return nil
}

// disc is the plane problem: points in the axes u and v from origin. radius is
// the known radius (m), 0 where it is fitted.
type disc struct {
	u, v, origin r3.Vec
	points       []r3.Vec
	radius       float64
}

// solution is a circle in the disc's plane with the inverse of its normal
// matrix, which times sigma squared is the covariance of centre and radius.
type solution struct {
	x, y, radius float64 // m
	inverse      *mat.Dense
}

func (d disc) at(i int) (x, y float64) {
	p := d.points[i].Sub(d.origin)
	return p.Dot(d.u), p.Dot(d.v)
}

// start returns the linear fit of x^2 + y^2 = 2*cx*x + 2*cy*y + c; a known
// radius then takes the place of the fitted one.
func (d disc) start() (solution, error) {
	n := len(d.points)
	a, b := mat.NewDense(n, 3, nil), mat.NewDense(n, 1, nil)
	for i := range n {
		x, y := d.at(i)
		a.SetRow(i, []float64{2 * x, 2 * y, 1})
		b.Set(i, 0, x*x+y*y)
	}
	var c mat.Dense
	if err := c.Solve(a, b); err != nil {
		return solution{}, fmt.Errorf("fit: circle through %d points: %v: %w", n, err, ErrDegenerate)
	}
	s := solution{x: c.At(0, 0), y: c.At(1, 0)}
	s.radius = math.Sqrt(max(0, c.At(2, 0)+s.x*s.x+s.y*s.y))
	if d.radius > 0 {
		s.radius = d.radius
	}
	return s, nil
}

// solve runs Gauss-Newton on the radial distances from the linear fit.
func (d disc) solve() (solution, error) {
	s, err := d.start()
	if err != nil {
		return s, err
	}
	n, unknowns := len(d.points), 3
	if d.radius > 0 {
		unknowns = 2
	}
	jac, res := mat.NewDense(n, unknowns, nil), mat.NewDense(n, 1, nil)
	const settled = 1e-12 // of the radius: a thousand roundings
	for range 100 {
		for i := range n {
			x, y := d.at(i)
			dx, dy := x-s.x, y-s.y
			rho := math.Hypot(dx, dy)
			if rho == 0 {
				return s, fmt.Errorf("fit: point %d of the circle lies at its centre: %w", i+1, ErrDegenerate)
			}
			jac.Set(i, 0, dx/rho)
			jac.Set(i, 1, dy/rho)
			if unknowns == 3 {
				jac.Set(i, 2, 1)
			}
			res.Set(i, 0, rho-s.radius)
		}
		var step mat.Dense
		if err := step.Solve(jac, res); err != nil {
			return s, fmt.Errorf("fit: circle through %d points: %v: %w", n, err, ErrDegenerate)
		}
		s.x += step.At(0, 0)
		s.y += step.At(1, 0)
		if unknowns == 3 {
			s.radius += step.At(2, 0)
		}
		if mat.Norm(&step, 2) <= settled*s.radius {
			var normal mat.Dense
			normal.Mul(jac.T(), jac)
			s.inverse = new(mat.Dense)
			if err := s.inverse.Inverse(&normal); err != nil {
				return s, fmt.Errorf("fit: circle through %d points: %v: %w", n, err, ErrDegenerate)
			}
			return s, nil
		}
	}
	return s, fmt.Errorf("fit: circle through %d points did not settle in 100 steps; best so far: radius %.6g m: the points hardly bend, or the known radius does not suit them: %w", n, s.radius, ErrDegenerate)
}

// assemble turns the plane solution into the result in space.
func assemble(r CircleRequest, flat circlePlane, d disc, s solution) CircleFit {
	f := CircleFit{
		Centre: d.origin.AddScaled(s.x, d.u).AddScaled(s.y, d.v),
		Axis:   flat.normal, Radius: s.radius,
	}
	distances := make([]float64, len(r.Points))
	var sum float64
	for i, p := range r.Points {
		out := p.Sub(f.Centre)
		distances[i] = math.Hypot(out.Reject(f.Axis).Norm()-f.Radius, out.Dot(f.Axis))
		sum += distances[i] * distances[i]
	}
	f.Residuals = residualsOf(distances)
	_, unknowns := s.inverse.Dims()
	f.Sigma = scatter(r.Sigma, sum, 2*len(r.Points)-unknowns-flat.freedom)
	f.AxisSigma = math.Atan(f.Sigma / math.Sqrt(flat.spread))
	a, b, c := s.inverse.At(0, 0), s.inverse.At(0, 1), s.inverse.At(1, 1)
	f.CentreSigma = f.Sigma * math.Sqrt((a+c)/2+math.Hypot((a-c)/2, b)) // larger eigenvalue
	if unknowns == 3 {
		f.RadiusSigma = f.Sigma * math.Sqrt(s.inverse.At(2, 2))
	}
	f.order(r.Points)
	return f
}
