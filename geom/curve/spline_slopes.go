package curve

import (
	"fmt"

	"gonum.org/v1/gonum/mat"

	"seamwright/geom/r3"
)

// splineSlopes returns the slopes (m per unit) at the starts that make the
// second derivative of the cubics continuous: one row for each inner point
//
//	h1*s0 + 2*(h0+h1)*s1 + h0*s2 = 3*(h1*m0 + h0*m1)
//
// with h the lengths of the spans and m their mean slopes, closed by the rows
// of the ends.
func splineSlopes(starts []float64, pts []r3.Vec, closed bool) ([]r3.Vec, error) {
	n := len(pts)
	h, m := make([]float64, n-1), make([]r3.Vec, n-1)
	for i := range h {
		h[i] = starts[i+1] - starts[i]
		m[i] = pts[i+1].Sub(pts[i]).Scale(1 / h[i])
	}
	if closed {
		return closedSlopes(h, m)
	}
	t := newTridiagonal(n)
	for i := 1; i < n-1; i++ {
		t.row(i, h[i], 2*(h[i-1]+h[i]), h[i-1], m[i-1].Scale(3*h[i]).AddScaled(3*h[i-1], m[i]))
	}
	if n == 3 { // a parabola: its mean slope is the mean of the slopes
		t.row(0, 0, 1, 1, m[0].Scale(2))
		t.row(2, 1, 1, 0, m[1].Scale(2))
		return t.solve()
	}
	// Not a knot: the third derivative is the same on both sides of the point
	// beside the end; the third slope is eliminated by that point's row.
	end := func(h0, h1 float64, m0, m1 r3.Vec) r3.Vec {
		return m0.Scale((h0+2*(h0+h1))*h1).AddScaled(h0*h0, m1).Scale(1 / (h0 + h1))
	}
	t.row(0, 0, h[1], h[0]+h[1], end(h[0], h[1], m[0], m[1]))
	t.row(n-1, h[n-2]+h[n-3], h[n-3], 0, end(h[n-2], h[n-3], m[n-2], m[n-3]))
	return t.solve()
}

// closedSlopes solves the rows of a closed spline, whose first and last row
// reach round to each other, as a tridiagonal system with a correction of rank
// one (Sherman and Morrison; textbook, from memory).
func closedSlopes(h []float64, m []r3.Vec) ([]r3.Vec, error) {
	n := len(h)
	t, corner := newTridiagonal(n), newTridiagonal(n)
	before := func(i int) int { return (i + n - 1) % n }
	for i := range n {
		j := before(i)
		low, diag, high := h[i], 2*(h[j]+h[i]), h[j]
		// With gamma = -diag of row 0, the corners a = h[0] (row 0) and
		// b = h[n-2] (row n-1) become gamma*(1, .., b/gamma)*(1, .., a/gamma).
		switch i {
		case 0:
			diag *= 2
		case n - 1:
			diag += h[0] * h[n-2] / (2 * (h[n-1] + h[0]))
		}
		t.row(i, low, diag, high, m[j].Scale(3*h[i]).AddScaled(3*h[j], m[i]))
		corner.row(i, low, diag, high, r3.Vec{})
	}
	gamma := -2 * (h[n-1] + h[0])
	corner.right[0], corner.right[n-1] = r3.Vec{X: gamma}, r3.Vec{X: h[n-2]}
	y, err := t.solve()
	if err != nil {
		return nil, err
	}
	z, err := corner.solve()
	if err != nil {
		return nil, err
	}
	ratio := h[0] / gamma
	bottom := 1 + z[0].X + ratio*z[n-1].X
	scale := y[0].AddScaled(ratio, y[n-1]).Scale(-1 / bottom)
	for i := range y {
		y[i] = y[i].AddScaled(z[i].X, scale)
	}
	return append(y, y[0]), nil
}

// tridiagonal is a system of equations in which each unknown, a vector, meets
// its neighbours only.
type tridiagonal struct {
	low, diag, high []float64
	right           []r3.Vec
}

func newTridiagonal(n int) tridiagonal {
	return tridiagonal{low: make([]float64, n-1), diag: make([]float64, n), high: make([]float64, n-1), right: make([]r3.Vec, n)}
}

// row sets equation i: low*x[i-1] + diag*x[i] + high*x[i+1] = right.
func (t *tridiagonal) row(i int, low, diag, high float64, right r3.Vec) {
	if i > 0 {
		t.low[i-1] = low
	}
	if i < len(t.high) {
		t.high[i] = high
	}
	t.diag[i], t.right[i] = diag, right
}

func (t *tridiagonal) solve() ([]r3.Vec, error) {
	n := len(t.diag)
	right := mat.NewDense(n, 3, nil)
	for i, v := range t.right {
		right.SetRow(i, []float64{v.X, v.Y, v.Z})
	}
	var x mat.Dense
	if err := mat.NewTridiag(n, t.low, t.diag, t.high).SolveTo(&x, false, right); err != nil {
		return nil, fmt.Errorf("curve: the slopes of the spline through %d points could not be solved: %w", n, err)
	}
	slopes := make([]r3.Vec, n)
	for i := range slopes {
		slopes[i] = r3.Vec{X: x.At(i, 0), Y: x.At(i, 1), Z: x.At(i, 2)}
	}
	return slopes, nil
}
