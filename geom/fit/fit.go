// Package fit finds the line, plane or circle that a few touched points lie on,
// and says how far to trust it.
//
// Points are metres in one frame, in the order in which they were touched: the
// order gives the direction of travel. Every fit takes sigma, the standard
// deviation (m) of one coordinate of a touch, and returns residuals and
// standard deviations of what it found. A small residual proves little when
// points are few: with two points on a line, three on a plane or three on a
// circle it is zero by construction, and only sigma speaks.
package fit

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"seamwright/geom/r3"
)

// MinSpread is the smallest size (m) of a set of points that is fitted at all:
// touches closer than a millimetre are the same touch, for a hand that errs by
// one (trade practice: 1-3 mm for hand guiding; common practice, no source).
const MinSpread = 1e-3

// ErrDegenerate is wrapped by every error that says the points do not fix the
// wanted shape: too few, too close, or on a line where they must not be.
var ErrDegenerate = errors.New("the points do not fix it")

// Residuals says how far the points lie from the fitted shape.
type Residuals struct {
	RMS   float64 // m, root of the mean square distance
	Max   float64 // m, largest distance
	Worst int     // index of the point with the largest distance, from 0
}

// residualsOf returns the residuals of distances in metres.
func residualsOf(distances []float64) Residuals {
	var r Residuals
	var sum float64
	for i, d := range distances {
		sum += d * d
		if math.Abs(d) > r.Max {
			r.Max, r.Worst = math.Abs(d), i
		}
	}
	r.RMS = math.Sqrt(sum / float64(len(distances)))
	return r
}

// scatter returns the standard deviation (m) that the residuals themselves
// show, freedom being the observations left over after the fit, or sigma where
// that is larger or nothing is left over.
func scatter(sigma, sumSquares float64, freedom int) float64 {
	if freedom <= 0 {
		return sigma
	}
	return max(sigma, math.Sqrt(sumSquares/float64(freedom)))
}

// checkInput refuses too few points, points and sigmas that are not finite, and
// a negative sigma.
func checkInput(what string, points []r3.Vec, least int, sigma float64) error {
	if len(points) < least {
		return fmt.Errorf("fit: %s through %d points: at least %d are needed: %w", what, len(points), least, ErrDegenerate)
	}
	for i, p := range points {
		if !p.IsFinite() {
			return fmt.Errorf("fit: %s: point %d is %v, which is not finite", what, i+1, p)
		}
	}
	if !(sigma >= 0) || math.IsInf(sigma, 1) {
		return fmt.Errorf("fit: %s with a touch error of %g m: 0 or more is needed", what, sigma)
	}
	return nil
}

// principal holds the centroid (m) of points and their principal axes: spread
// sums (m2) from the largest to the smallest, with unit axes.
type principal struct {
	centroid r3.Vec
	sums     [3]float64 // m2, sum of squared coordinates along each axis
	axes     [3]r3.Vec
}

// principalOf returns the principal axes of the points, by singular values of
// the centred coordinates, so that no digits are lost to squaring.
func principalOf(points []r3.Vec) (principal, error) {
	var pr principal
	for _, p := range points {
		pr.centroid = pr.centroid.Add(p)
	}
	pr.centroid = pr.centroid.Scale(1 / float64(len(points)))
	rows := max(len(points), 3) // rows of zeros change no axis and make all three axes come out
	a := mat.NewDense(rows, 3, nil)
	for i, p := range points {
		d := p.Sub(pr.centroid)
		a.SetRow(i, []float64{d.X, d.Y, d.Z})
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		return principal{}, fmt.Errorf("fit: the singular value decomposition of %d points did not converge", len(points))
	}
	var v mat.Dense
	svd.VTo(&v)
	for k, s := range svd.Values(nil) {
		pr.sums[k] = s * s
		pr.axes[k] = r3.Vec{X: v.At(0, k), Y: v.At(1, k), Z: v.At(2, k)}
	}
	return pr, nil
}
