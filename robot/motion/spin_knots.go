package motion

import (
	"fmt"
	"math"
)

// SpinKnot is a via point: a station, by its number from 0, and the spin there,
// rad, unwrapped.
type SpinKnot struct {
	Station int
	Spin    float64
}

// SpinKnots returns the fewest stations, the first and the last among them, such
// that spin run straight from one to the next stays within tolerance (rad, 0 or
// more) of the given spins (rad) at all stations at (m, rising). Of equally few
// it takes those with the smallest sum of squared deviations.
//
// Method: fewest-segment polygonal approximation as a shortest path, H. Imai and
// M. Iri, Polygonal Approximations of a Curve (1988), with the allowed slopes
// from a station narrowed one station at a time (from memory). It is exact;
// splitting at the largest deviation would give more knots than needed.
func SpinKnots(at, spin []float64, tolerance float64) ([]SpinKnot, error) {
	u, err := unwrapSpin(at, spin)
	if err != nil {
		return nil, err
	}
	if !(tolerance >= 0) {
		return nil, fmt.Errorf("motion: spin: tolerance %g rad: it must be 0 or more", tolerance)
	}
	n := len(u)
	before := make([]int, n)
	best := make([]segments, n)
	for i := 1; i < n; i++ {
		best[i].count = math.MaxInt
	}
	for i := range n - 1 {
		low, high := math.Inf(-1), math.Inf(1)
		for k := i + 1; k < n && low <= high; k++ {
			run := at[k] - at[i]
			if slope := (u[k] - u[i]) / run; slope >= low && slope <= high {
				next := segments{best[i].count + 1, best[i].squares + deviation(at, u, i, k)}
				if next.less(best[k]) {
					best[k], before[k] = next, i
				}
			}
			low = max(low, (u[k]-tolerance-knotSlack-u[i])/run)
			high = min(high, (u[k]+tolerance+knotSlack-u[i])/run)
		}
	}
	knots := make([]SpinKnot, best[n-1].count+1)
	for i, k := n-1, len(knots)-1; k >= 0; i, k = before[i], k-1 {
		knots[k] = SpinKnot{Station: i, Spin: u[i]}
	}
	return knots, nil
}

// knotSlack lets stations on a straight line count as such after rounding, rad.
const knotSlack = 1e-12

// segments ranks the ways to reach a station.
type segments struct {
	count   int
	squares float64 // rad2
}

func (s segments) less(o segments) bool {
	return s.count < o.count || (s.count == o.count && s.squares < o.squares)
}

// deviation sums the squared deviations (rad2) of the stations between i and k
// from the straight line between the two.
func deviation(at, u []float64, i, k int) float64 {
	sum, slope := 0.0, (u[k]-u[i])/(at[k]-at[i])
	for m := i + 1; m < k; m++ {
		d := u[m] - u[i] - slope*(at[m]-at[i])
		sum += d * d
	}
	return sum
}
