package section

import (
	"math"
	"slices"
)

// half is one side of a groove by itself: a groove with one side, its place in the
// whole, and what is open to the arc before the first pass.
type half struct {
	g      Groove
	cap    Reinforcement
	margin float64 // m, plate beside the cap
	back   bool
	shift  float64 // m: height of its back face in the whole; of the front one for the back
}

// halves returns the front and, of a double preparation, the back. The front holds
// the gap between the root faces.
func (g Groove) halves(r Reinforcement) []half {
	if r.Height == 0 {
		r.Over = 0
	}
	margin := r.Over + 5e-3
	if !g.Prep.Double() {
		return []half{{g: g, cap: r, margin: margin}}
	}
	single := map[Prep]Prep{DoubleV: SingleV, DoubleBevel: SingleBevel, DoubleU: SingleU, DoubleJ: SingleJ}[g.Prep]
	front, back := g, g
	front.Prep, front.Thickness, front.Back = single, g.Thickness-g.Back, 0
	back.Prep, back.Thickness, back.Back, back.RootFace = single, g.Back, 0, 0
	return []half{{g: front, cap: r, margin: margin, shift: g.Back}, {g: back, cap: r, margin: margin, back: true, shift: g.Back}}
}

// bottom returns the height of the root, m: the back face, or the top of root
// faces that touch.
func (h half) bottom() float64 {
	if h.g.Gap == 0 {
		return h.g.frontRoot()
	}
	return 0
}

// surface returns the edges and the plates' faces beside them, from positive X to
// negative.
func (h half) surface() surface {
	left, right := h.g.edges()
	var at []Point
	top := right[len(right)-1]
	at = append(at, Point{top.X + h.margin, top.Y})
	slices.Reverse(right)
	for _, p := range append(right, left...) {
		if p.Y >= h.bottom() {
			at = appendApart(at, p)
		}
	}
	end := at[len(at)-1]
	return newSurface(append(at, Point{end.X - h.margin, end.Y}))
}

// level returns the height (m) up to which an area (m2) fills the groove, within
// 1e-12 of the thickness: Newton's method, the width being the slope of the area,
// held between the heights known to be too low and too high.
func (h half) level(area float64) float64 {
	low, high := h.bottom(), h.g.Thickness
	y := (low + high) / 2
	for range 100 {
		miss := h.g.areaTo(y) - area
		if miss > 0 {
			high = y
		} else {
			low = y
		}
		left, right := h.g.sides(y)
		next := y - miss/(left+right)
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-y) < 1e-12*h.g.Thickness {
			return next
		}
		y = next
	}
	return y
}

// toes returns where a layer that fills up to a height (m) begins on the surface
// and ends before its end, m along it.
func (h half) toes(s surface, y float64) (head, tail float64) {
	for i := 1; i < len(s.at); i++ {
		if a, b := s.at[i-1], s.at[i]; b.Y < y && a.Y >= y {
			head = s.run[i-1] + (s.run[i]-s.run[i-1])*(a.Y-y)/(a.Y-b.Y)
			break
		}
	}
	for i := len(s.at) - 1; i > 0; i-- {
		if a, b := s.at[i-1], s.at[i]; a.Y < y && b.Y >= y {
			tail = s.length() - s.run[i] + (s.run[i]-s.run[i-1])*(b.Y-y)/(b.Y-a.Y)
			break
		}
	}
	return head, tail
}

// lean returns the work angle that bisects the edges and half the angle between
// them, rad, both edges taken straight from the root to the mouth.
func (h half) lean() (bisector, half float64) {
	left, right := h.g.sides(h.g.Thickness)
	depth := h.g.Thickness - h.bottom()
	l, r := math.Atan((left-h.g.Gap/2)/depth), math.Atan((right-h.g.Gap/2)/depth)
	return (r - l) / 2, (r + l) / 2
}

// place maps a point of the side into the whole groove.
func (h half) place(p Point) Point {
	if h.back {
		return Point{p.X, h.shift - p.Y}
	}
	return Point{p.X, p.Y + h.shift}
}

// outline maps an outline of the side into the whole groove, counter-clockwise.
func (h half) outline(in []Point) []Point {
	out := make([]Point, len(in))
	for i, p := range in {
		out[i] = h.place(p)
	}
	if h.back {
		slices.Reverse(out)
	}
	return out
}
