package fit

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// PlaneFit is the plane nearest to touched points.
type PlaneFit struct {
	Point  r3.Vec // m, the points' centroid
	Normal r3.Vec // unit; which of the two sides it names means nothing, see Facing
	Residuals
	Sigma     float64 // m, standard deviation of one coordinate: the caller's, or what the residuals show if that is larger
	TiltSigma float64 // rad, standard deviation of the normal about its least certain axis
	LooseAxis r3.Vec  // unit, in the plane: the axis about which the plane is least certain
}

// Plane returns the least-squares plane (orthogonal distances) through three or
// more points (m), sigma being the standard deviation (m) of one coordinate of
// a touch.
//
// The tilt about the longest axis of the points is the loose one: its standard
// deviation is sigma over the root of the sum of squared distances from that
// axis. Textbook regression, from memory.
//
// It fails for fewer than three points and for points that reach less than
// MinSpread to the sides of one line.
func Plane(points []r3.Vec, sigma float64) (PlaneFit, error) {
	if err := checkInput("plane", points, 3, sigma); err != nil {
		return PlaneFit{}, err
	}
	pr, err := principalOf(points)
	if err != nil {
		return PlaneFit{}, err
	}
	low, high := extent(positions(points, pr.centroid, pr.axes[1]))
	if !(high-low >= MinSpread) {
		return PlaneFit{}, fmt.Errorf("fit: plane through %d points that all lie within %.3g m of one line: touch one point at least %g m to the side, better as far as the plate allows: %w", len(points), high-low, MinSpread, ErrDegenerate)
	}
	normal := steady(pr.axes[2])
	distances := positions(points, pr.centroid, normal)
	var sum float64
	for _, d := range distances {
		sum += d * d
	}
	s := scatter(sigma, sum, len(points)-3)
	return PlaneFit{
		Point: pr.centroid, Normal: normal, Residuals: residualsOf(distances),
		Sigma: s, TiltSigma: math.Atan(s / math.Sqrt(pr.sums[1])), LooseAxis: steady(pr.axes[0]),
	}, nil
}

// Facing returns the fit with its normal on the side of the vector toward. It
// reports false where toward lies in the plane, within 1e-9 of its length, and
// so names no side.
func (f PlaneFit) Facing(toward r3.Vec) (PlaneFit, bool) {
	d := toward.Dot(f.Normal)
	if !(math.Abs(d) > 1e-9*toward.Norm()) {
		return f, false
	}
	if d < 0 {
		f.Normal = f.Normal.Neg()
	}
	return f, true
}

// steady returns v or -v: the one whose largest component is positive, so that
// the same points give the same signs on every machine.
func steady(v r3.Vec) r3.Vec {
	largest := v.X
	if math.Abs(v.Y) > math.Abs(largest) {
		largest = v.Y
	}
	if math.Abs(v.Z) > math.Abs(largest) {
		largest = v.Z
	}
	if largest < 0 {
		return v.Neg()
	}
	return v
}
