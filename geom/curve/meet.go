package curve

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Flat is a plane through Point (m) square to Normal, of any length.
type Flat struct{ Point, Normal r3.Vec }

// Meet returns the line in which two planes meet, from the foot of point from
// (m) to the foot of point to (m) on it. It fails for numbers that are not
// finite, planes within MinCross of each other and feet closer than MinLength.
// Formula: elementary geometry; the point of the line is the one nearest to the
// middle of the planes' points.
func Meet(a, b Flat, from, to r3.Vec) (Line, error) {
	point, dir, err := crossing(a, b)
	if err != nil {
		return Line{}, err
	}
	foot := func(p r3.Vec) r3.Vec { return point.AddScaled(p.Sub(point).Dot(dir), dir) }
	return NewLine(foot(from), foot(to))
}

// crossing returns a point (m) of the line in which two planes meet and its
// unit direction, a.Normal x b.Normal.
func crossing(a, b Flat) (point, dir r3.Vec, err error) {
	na, nb := a.Normal.Unit(), b.Normal.Unit()
	for _, f := range []Flat{a, b} {
		if !f.Point.IsFinite() || !f.Normal.IsFinite() || f.Normal.Unit() == (r3.Vec{}) {
			return point, dir, fmt.Errorf("curve: plane through %v square to %v: a point and a direction in finite numbers are needed", f.Point, f.Normal)
		}
	}
	cross := na.Cross(nb)
	sin := cross.Norm()
	if angle := math.Atan2(sin, math.Abs(na.Dot(nb))); angle < MinCross {
		return point, dir, fmt.Errorf("curve: the planes lie %.2f deg from each other: at least %.0f deg are needed for a line in which they meet", angle*180/math.Pi, MinCross*180/math.Pi)
	}
	middle := a.Point.Lerp(b.Point, 0.5)
	da, db := a.Point.Sub(middle).Dot(na), b.Point.Sub(middle).Dot(nb)
	cos := na.Dot(nb)
	x := (da - cos*db) / (sin * sin)
	y := (db - cos*da) / (sin * sin)
	return middle.AddScaled(x, na).AddScaled(y, nb), cross.Scale(1 / sin), nil
}
