package curve

import (
	"fmt"
	"math"
	"sort"
)

// Curvature returns the curvature of c at arc length s (m), in 1/m: 0 on a
// line, one over the radius on an arc, changing on a smooth curve. At the joints of a chain it is that of
// the later piece.
func Curvature(c Curve, s float64) float64 {
	switch c := c.(type) {
	case Arc:
		return 1 / c.radius
	case Smooth:
		return c.curvature(s)
	case Chain:
		i, local := c.locate(s)
		return Curvature(c.pieces[i], local)
	}
	return 0
}

// Stations returns arc lengths (m) from 0 to Length, rising, at which to sample
// c: both ends, every joint of a chain, and between them steps of at most
// maxStep (m) whose chords leave the curve by at most chordErr (m). The steps of
// a line and an arc are even; those of a smooth curve follow its curvature, on
// which chordErr is met to first order. It fails unless both are above 0, and
// where more than a million stations would come.
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
		spread := evenSteps(piece, maxStep, chordErr)
		// A hair under: a whole number of steps must not become one more.
		n := max(1, math.Ceil(spread.total()-1e-9))
		if float64(len(stations))+n > most {
			return nil, fmt.Errorf("curve: stations every %.3g m on %.6g m are more than a million: ask for a wider step", length/n, length)
		}
		for i := 1.0; i <= n; i++ {
			stations = append(stations, begin+spread.at(i/n))
		}
		begin += length
	}
	stations[len(stations)-1] = c.Length() // not its rounded neighbour
	return stations, nil
}

// steps counts the steps that stretches of a piece need: at the arc length s[i]
// (m, from 0) count[i] steps (dimensionless, from 0) have been made.
type steps struct{ s, count []float64 }

func (w steps) total() float64 { return w.count[len(w.count)-1] }

// at returns the arc length (m) at which the fraction f of all steps is made.
func (w steps) at(f float64) float64 {
	want := float64(f * w.total())
	i := max(1, sort.SearchFloat64s(w.count, want))
	if i >= len(w.s) || f == 1 {
		return w.s[len(w.s)-1]
	}
	return w.s[i-1] + (w.s[i]-w.s[i-1])*(want-w.count[i-1])/(w.count[i]-w.count[i-1])
}

// evenSteps returns the steps that a piece needs: one stretch for a line or an
// arc, one for each row of the table of a smooth curve.
func evenSteps(piece Curve, maxStep, chordErr float64) steps {
	need := func(length, curvature float64) float64 {
		return float64(length / min(maxStep, ChordStep(1/curvature, chordErr)))
	}
	smooth, ok := piece.(Smooth)
	if !ok {
		length := piece.Length()
		return steps{s: []float64{0, length}, count: []float64{0, need(length, Curvature(piece, 0))}}
	}
	w := steps{s: []float64{0}, count: []float64{0}}
	for _, s := range smooth.rows() {
		last := w.s[len(w.s)-1]
		bent := max(smooth.curvature(last), smooth.curvature((last+s)/2), smooth.curvature(s))
		w.s, w.count = append(w.s, s), append(w.count, w.total()+need(s-last, bent))
	}
	return w
}
