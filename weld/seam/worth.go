package seam

import "math"

// HandTouch is the error (m) across the seam of a tip placed by hand guiding:
// 1.5 mm, the middle of 1-3 mm (common practice, no source).
const HandTouch = 1.5e-3

// WeakDirection is the error (rad) above which a direction taken from two tips
// is no longer worth more than a torch angle taught by hand, which errs by 3 to
// 10 deg: that of two tips 60 mm apart, each 1.5 mm off, 2.03 deg (common
// practice, no source).
const WeakDirection = 1.5e-3 * math.Sqrt2 / 60e-3

// Worth says how far a direction taken from two tips is to be trusted.
type Worth struct {
	Sigma    float64 // rad, standard deviation of the direction in one plane
	Weak     bool    // above WeakDirection: touch further apart or tell the direction another way
	Shortest float64 // m, the distance of tips below which the direction is weak
}

// DirectionWorth returns how far the direction between two tips length (m)
// apart is to be trusted, each placed with the error sigma (m) across:
// atan(sqrt(2) * sigma / length). Textbook propagation of errors, from memory.
func DirectionWorth(length, sigma float64) Worth {
	w := Worth{
		Sigma:    math.Atan2(math.Sqrt2*sigma, length),
		Shortest: math.Sqrt2 * sigma / WeakDirection,
	}
	w.Weak = length < w.Shortest
	return w
}
