package curve

import (
	"fmt"
	"math"
)

// Curvature returns the curvature of c at arc length s (m), in 1/m: 0 on a
// line, one over the radius on an arc. At the joints of a chain it is that of
// the later piece.
func Curvature(c Curve, s float64) float64 {
	switch c := c.(type) {
	case Arc:
		return 1 / c.radius
	case Chain:
		i, local := c.locate(s)
		return Curvature(c.pieces[i], local)
	}
	return 0
}

// Stations returns arc lengths (m) from 0 to Length, rising, at which to sample
// c: both ends, every joint of a chain, and between them even steps of at most
// maxStep (m) whose chords leave the curve by at most chordErr (m). It fails
// unless both are above 0, and where more than a million stations would come.
func Stations(c Curve, maxStep, chordErr float64) ([]float64, error) {
	if !(maxStep > 0 && chordErr > 0) {
		return nil, fmt.Errorf("curve: stations every %.3g m with a chord error of %.3g m: both must be above 0", maxStep, chordErr)
	}
	pieces := []Curve{c}
	if chain, ok := c.(Chain); ok {
		pieces = chain.pieces
	}
	const most = 1e6
	stations := []float64{0}
	var begin float64
	for _, piece := range pieces {
		length := piece.Length()
		step := min(maxStep, ChordStep(1/Curvature(piece, 0), chordErr))
		// A hair under: a whole number of steps must not become one more.
		n := max(1, math.Ceil(float64(length/step)-1e-9))
		if float64(len(stations))+n > most {
			return nil, fmt.Errorf("curve: stations every %.3g m on %.6g m are more than a million: ask for a wider step", step, length)
		}
		for i := 1.0; i <= n; i++ {
			stations = append(stations, begin+length*(i/n))
		}
		begin += length
	}
	stations[len(stations)-1] = c.Length() // not its rounded neighbour
	return stations, nil
}
