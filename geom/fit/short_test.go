package fit_test

import (
	"math"
	"testing"

	"seamwright/geom/fit"
	"seamwright/geom/r3"
)

// A short, noisy arc leaves the radius open, but with the radius from the
// drawing the centre is found where it is. 300 sets with a fixed seed; the
// error of the centre stays within five stated standard deviations.
func TestKnownRadiusOnShortArc(t *testing.T) {
	const radius, sigma = 0.5, 0.3e-3
	gauss := newGauss(11)
	var found, worst float64
	for range 300 {
		var points []r3.Vec
		for i := range 5 {
			s, c := math.Sincos(0.2 * (float64(i)/4 - 0.5)) // 100 mm of arc, 2.5 mm of bend
			points = append(points, r3.Vec{X: radius*c + sigma*gauss(), Y: radius*s + sigma*gauss()})
		}
		f, err := fit.Circle(fit.CircleRequest{Points: points, Sigma: sigma, Radius: radius, Axis: r3.Vec{Z: 1}})
		if err != nil {
			t.Log(err)
			continue
		}
		found++
		worst = max(worst, f.Centre.Norm()/f.CentreSigma)
	}
	if found != 300 || worst > 5 {
		t.Errorf("%v of 300 found, worst error %.1f standard deviations; want all, 5", found, worst)
	}
	t.Logf("worst error %.2f standard deviations", worst)
}
