package fit

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// LineFit is the straight line nearest to touched points.
type LineFit struct {
	From, To r3.Vec // m, the first and the last point dropped square onto the line
	Dir      r3.Vec // unit, from the first point towards the last
	Residuals
	Sigma    float64 // m, standard deviation of one coordinate: the caller's, or what the residuals show if that is larger
	DirSigma float64 // rad, standard deviation of the direction in any one plane through the line

	// OutOfOrder lists, by index from 0, the points that do not lie further
	// along the line than every point before them: touched out of order, or
	// touched twice.
	OutOfOrder []int
}

// Line returns the least-squares line (orthogonal distances) through two or
// more points (m), sigma being the standard deviation (m) of one coordinate of
// a touch.
//
// With t the positions along the line and sigma the error of a touch, the
// direction's standard deviation in one plane is sigma / sqrt(sum (t-mean)^2);
// for two points L apart that is sqrt(2)*sigma/L. Textbook straight-line
// regression, from memory.
//
// It fails for fewer than two points, for points all within MinSpread, and
// where the first and the last point coincide along the line, so that the order
// gives no direction.
func Line(points []r3.Vec, sigma float64) (LineFit, error) {
	if err := checkInput("line", points, 2, sigma); err != nil {
		return LineFit{}, err
	}
	pr, err := principalOf(points)
	if err != nil {
		return LineFit{}, err
	}
	dir := pr.axes[0]
	along := positions(points, pr.centroid, dir)
	low, high := extent(along)
	if !(high-low >= MinSpread) {
		return LineFit{}, fmt.Errorf("fit: line through %d points that lie within %.3g m of each other: they must be at least %g m apart: %w", len(points), high-low, MinSpread, ErrDegenerate)
	}
	last := len(points) - 1
	advance := along[last] - along[0]
	if !(math.Abs(advance) >= MinSpread) {
		return LineFit{}, fmt.Errorf("fit: the first and the last of %d points on a line lie only %.3g m apart along it, so their order gives no direction: list the points from the start of the seam to its end: %w", len(points), math.Abs(advance), ErrDegenerate)
	}
	if advance < 0 {
		dir = dir.Neg()
		along = positions(points, pr.centroid, dir)
	}
	distances := make([]float64, len(points))
	var sum float64
	for i, p := range points {
		distances[i] = p.Sub(pr.centroid).Reject(dir).Norm()
		sum += distances[i] * distances[i]
	}
	// Two cross components are seen at each point; a line has four unknowns.
	s := scatter(sigma, sum, 2*len(points)-4)
	return LineFit{
		From: pr.centroid.AddScaled(along[0], dir), To: pr.centroid.AddScaled(along[last], dir),
		Dir: dir, Residuals: residualsOf(distances),
		Sigma: s, DirSigma: math.Atan(s / math.Sqrt(pr.sums[0])),
		OutOfOrder: outOfOrder(along),
	}, nil
}

// positions returns the points' coordinates (m) along dir from origin.
func positions(points []r3.Vec, origin, dir r3.Vec) []float64 {
	along := make([]float64, len(points))
	for i, p := range points {
		along[i] = p.Sub(origin).Dot(dir)
	}
	return along
}

// extent returns the least and the greatest of the values.
func extent(values []float64) (low, high float64) {
	low, high = values[0], values[0]
	for _, v := range values {
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// outOfOrder returns the indexes of values that do not exceed all before them.
func outOfOrder(values []float64) []int {
	var out []int
	furthest := values[0]
	for i := 1; i < len(values); i++ {
		if values[i] > furthest {
			furthest = values[i]
		} else {
			out = append(out, i)
		}
	}
	return out
}
