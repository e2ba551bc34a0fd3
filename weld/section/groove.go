package section

import (
	"fmt"
	"slices"
)

// frontRoot is the height above the back face at which the preparation of the
// front begins, m: the top of a square groove, the bottom of a flare.
func (g Groove) frontRoot() float64 {
	if g.Prep == Square {
		return g.Thickness
	}
	return g.Back + g.RootFace
}

// frontDepth is how deep the front is prepared, m.
func (g Groove) frontDepth() float64 { return g.Thickness - g.frontRoot() }

// walls returns the edges at negative and at positive X.
func (g Groove) walls() (left, right wall) {
	if g.Prep.oneEdge() {
		return wall{}, g.edge()
	}
	return g.edge(), g.edge()
}

// Area returns the area to fill up to the plates' faces, caps apart, m2.
//
//	square        b t
//	single V      b t + (t-c)^2 tan(alpha/2)
//	double V      b t + (d1^2 + d2^2) tan(alpha/2)
//	single bevel  b t + (t-c)^2 tan(beta)/2
//	double bevel  b t + (d1^2 + d2^2) tan(beta)/2
//	U             b t + 2 [r^2/2 (theta - sin theta cos theta) + r sin(theta) H + H^2 tan(beta)/2]
//	J             b t + half of the bracket's double
//	flare V       b h + 2 [R h - (h sqrt(R^2-h^2) + R^2 asin(h/R))/2], flush 2 R^2 (1 - pi/4)
//	flare bevel   b h + half of the bracket's double
//
// t thickness, b gap, c root face, d1 and d2 depths of the sides, theta = 90
// degrees - beta, H = d - r (1 - cos theta), h height of the fill. Derived.
func (g Groove) Area() float64 { return g.areaTo(g.Thickness) }

// areaTo returns the area from the back face up to the height y (m), m2.
func (g Groove) areaTo(y float64) float64 {
	left, right := g.walls()
	opened := func(h float64) float64 { return left.area(h) + right.area(h) }
	area := g.Gap * y
	if g.Back > 0 {
		area += opened(g.Back) - opened(max(0, g.Back-y))
	}
	if front := g.frontRoot(); y > front {
		area += opened(y - front)
	}
	return area
}

// AreaBetween returns the area between two heights above the back face (m), m2:
// that of a layer. It refuses heights outside the thickness or in the wrong
// order. Derived.
func (g Groove) AreaBetween(low, high float64) (float64, error) {
	if err := g.within(low, high); err != nil {
		return 0, err
	}
	return g.areaTo(high) - g.areaTo(low), nil
}

// Width returns the width of the groove at a height above the back face (m), m:
// gap and both edges. It refuses heights outside the thickness. Derived.
func (g Groove) Width(height float64) (float64, error) {
	if err := g.within(height, height); err != nil {
		return 0, err
	}
	left, right := g.sides(height)
	return left + right, nil
}

// Mouth returns the width of the groove at the front face, m; in a flare groove
// at the top of the fill.
func (g Groove) Mouth() float64 {
	left, right := g.sides(g.Thickness)
	return left + right
}

// BackMouth returns the width of the groove at the back face, m.
func (g Groove) BackMouth() float64 {
	left, right := g.sides(0)
	return left + right
}

// sides returns how far the two edges are from the middle of the gap at a height
// above the back face (m), m, both positive.
func (g Groove) sides(y float64) (left, right float64) {
	wl, wr := g.walls()
	half := g.Gap / 2
	h := 0.0
	switch front := g.frontRoot(); {
	case g.Prep == Square:
	case y > front:
		h = y - front
	case y < g.Back:
		h = g.Back - y
	}
	return half + wl.back(h), half + wr.back(h)
}

// within refuses heights (m) that are not in the groove or fall.
func (g Groove) within(low, high float64) error {
	if low >= 0 && low <= high && high <= g.Thickness*(1+1e-12) {
		return nil
	}
	return fmt.Errorf("%v groove: %w", g.Prep, InputError{ErrOutsideSection,
		fmt.Sprintf("heights %s to %s", millimetres(low), millimetres(high)),
		fmt.Sprintf("0 mm to the thickness, %s, rising", millimetres(g.Thickness)), "give heights above the back face"})
}

// Outline returns the area to fill up to the plates' faces: one polygon, or one
// for each side where the root faces touch. The outline follows root radii and
// flares within 1 um.
func (g Groove) Outline() []Polygon {
	left, right := g.edges()
	if g.Gap > 0 {
		return []Polygon{joined(left, right)}
	}
	var out []Polygon
	if g.Prep.Double() {
		out = append(out, g.half(g.Back, -1, g.Back))
	}
	return append(out, g.half(g.frontRoot(), 1, g.frontDepth()))
}

// half is one side of a closed groove: its root at the height y (m), up or down
// by depth (m). The corner at the root is told once.
func (g Groove) half(y, way, depth float64) Polygon {
	wl, wr := g.walls()
	var left, right []Point
	for _, p := range wr.points(depth)[1:] {
		right = append(right, Point{p.X, y + way*p.Y})
	}
	for _, p := range wl.points(depth)[1:] {
		left = append(left, Point{-p.X, y + way*p.Y})
	}
	out := joined(append([]Point{{0, y}}, left...), right)
	if way < 0 {
		slices.Reverse(out)
	}
	return out
}

// joined closes a left and a right edge, both told from the root out, into an
// outline.
func joined(left, right []Point) Polygon {
	out := slices.Clone(left)
	slices.Reverse(out)
	return append(out, right...)
}

// edges returns the edges of the plates from the back face to the front face, m.
func (g Groove) edges() (left, right []Point) {
	wl, wr := g.walls()
	half := g.Gap / 2
	front := g.frontRoot()
	for _, side := range []struct {
		w    wall
		sign float64
		out  *[]Point
	}{{wl, -1, &left}, {wr, 1, &right}} {
		add := func(back, y float64) {
			p := Point{side.sign * (half + back), y}
			if n := len(*side.out); n == 0 || (*side.out)[n-1] != p {
				*side.out = append(*side.out, p)
			}
		}
		if g.Back > 0 {
			down := side.w.points(g.Back)
			for i := len(down) - 1; i >= 0; i-- {
				add(down[i].X, g.Back-down[i].Y)
			}
		} else {
			add(0, 0)
		}
		if g.Prep == Square {
			add(0, g.Thickness)
			continue
		}
		for _, p := range side.w.points(g.frontDepth()) {
			add(p.X, front+p.Y)
		}
	}
	return left, right
}
