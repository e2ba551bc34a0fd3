package curve

import (
	"fmt"
	"math"
	"slices"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Spacing says how the parameter of a spline is laid over its points.
type Spacing uint8

// The two spacings.
const (
	// ByChord grows by the distance from point to point.
	ByChord Spacing = iota
	// Centripetal grows by the square root of it: calmer where short and long
	// steps follow each other.
	Centripetal
)

// SplineRequest says through which points (m) a spline runs, in order. Closed
// joins the last to the first; a last point equal to the first (within
// JoinTolerance) is then left out.
type SplineRequest struct {
	Points  []r3.Vec
	Closed  bool
	Spacing Spacing
}

// spline holds, for each span between two points, the coefficients (m, m per
// unit, ...) of a cubic in the parameter counted from the span's start.
type spline struct {
	starts []float64 // rising, one more than spans
	coeffs [][4]r3.Vec
}

// NewSpline returns the cubic through the points whose direction and curvature
// are continuous, by arc length. At the ends of an open one the third
// derivative runs on over the point beside the end ("not a knot"), so that
// points of a circle or a parabola are followed to the end; through three
// points it is the parabola. It smooths nothing: an error of a point is an
// error of the curve.
//
// It fails for fewer than three points, points that are not finite or closer
// than 0.1 mm in a row, and where the curve turns on the spot.
// Formula: de Boor, A Practical Guide to Splines (1978), chapter IV; from
// memory, tested against a reference library.
func NewSpline(r SplineRequest) (Smooth, error) {
	pts := r.Points
	if n := len(pts); r.Closed && n > 1 && pts[0].Dist(pts[n-1]) <= JoinTolerance {
		pts = pts[:n-1]
	}
	if len(pts) < 3 {
		return Smooth{}, fmt.Errorf("curve: spline through %d points: at least three are needed; through two runs a line", len(pts))
	}
	if r.Spacing > Centripetal {
		return Smooth{}, fmt.Errorf("curve: spline spacing %d: by chord (%d) or centripetal (%d)", r.Spacing, ByChord, Centripetal)
	}
	if r.Closed {
		pts = append(slices.Clone(pts), pts[0])
	}
	const least = 1e-4 // m: positions are typed to 0.1 mm
	starts := make([]float64, len(pts))
	for i, p := range pts {
		if !p.IsFinite() {
			return Smooth{}, fmt.Errorf("curve: point %d of the spline is %v, which is not finite", i+1, p)
		}
		if i == 0 {
			continue
		}
		step := p.Dist(pts[i-1])
		if step < least {
			return Smooth{}, fmt.Errorf("curve: points %d and %d of the spline are %.3g m apart: at least %g m is needed; leave one out", i, next(i, len(pts), r.Closed), step, least)
		}
		if r.Spacing == Centripetal {
			step = math.Sqrt(step)
		}
		starts[i] = starts[i-1] + step
	}
	slopes, err := splineSlopes(starts, pts, r.Closed)
	if err != nil {
		return Smooth{}, err
	}
	sp := newSpline(starts, pts, slopes)
	table, err := newTable(sp, starts)
	if err != nil {
		return Smooth{}, err
	}
	return newSmooth(sp, table, r.Closed, false), nil
}

// next returns the number, from 1, of the point after point i of n, the last of
// which repeats the first where closed.
func next(i, n int, closed bool) int {
	if closed && i == n-1 {
		return 1
	}
	return i + 1
}

// newSpline returns the cubics with the given points (m) and slopes (m per unit)
// at the starts.
func newSpline(starts []float64, pts, slopes []r3.Vec) *spline {
	sp := &spline{starts: starts, coeffs: make([][4]r3.Vec, len(pts)-1)}
	for i := range sp.coeffs {
		h := starts[i+1] - starts[i]
		mean := pts[i+1].Sub(pts[i]).Scale(1 / h)
		sum := slopes[i].Add(slopes[i+1])
		sp.coeffs[i] = [4]r3.Vec{
			pts[i], slopes[i],
			mean.Scale(3).Sub(slopes[i]).Sub(sum).Scale(1 / h),
			sum.AddScaled(-2, mean).Scale(1 / (h * h)),
		}
	}
	return sp
}

// span returns the coefficients of the span that u falls on and u counted from
// its start.
func (sp *spline) span(u float64) (*[4]r3.Vec, float64) {
	i, found := slices.BinarySearch(sp.starts, u)
	if !found {
		i--
	}
	i = min(max(i, 0), len(sp.coeffs)-1)
	return &sp.coeffs[i], u - sp.starts[i]
}

func (sp *spline) at(u float64) (p, d r3.Vec) {
	c, t := sp.span(u)
	p = c[0].AddScaled(t, c[1].AddScaled(t, c[2].AddScaled(t, c[3])))
	d = c[1].AddScaled(t, c[2].Scale(2).AddScaled(3*t, c[3]))
	return p, d
}

func (sp *spline) bend(u float64) r3.Vec {
	c, t := sp.span(u)
	return c[2].Scale(2).AddScaled(6*t, c[3])
}

func (sp *spline) moved(bFromA se3.Pose) shape { return sp.mapped(bFromA.Apply, bFromA.Dir) }

func (sp *spline) mirrored(m Mirror) shape { return sp.mapped(m.Point, m.Dir) }

func (sp *spline) mapped(point, dir func(r3.Vec) r3.Vec) shape {
	image := &spline{starts: sp.starts, coeffs: make([][4]r3.Vec, len(sp.coeffs))}
	for i, c := range sp.coeffs {
		image.coeffs[i] = [4]r3.Vec{point(c[0]), dir(c[1]), dir(c[2]), dir(c[3])}
	}
	return image
}
