package section

import "math"

// wall is the prepared edge of one plate: how far it stands back from the edge
// at the root (m) by the height above the root face (m).
type wall struct {
	shape  wallShape
	tan    float64 // slope above the arc: m back for each m up, dimensionless
	radius float64 // m
	turn   float64 // rad, turned by the root arc: 90 degrees less the bevel angle
}

type wallShape uint8

const (
	straight wallShape = iota // a bevel; upright where tan is 0
	tangent                   // an arc from the root, then the bevel it is tangent to
	round                     // the quarter of a circle: a flare
)

// edge is the prepared edge of the groove.
func (g Groove) edge() wall {
	switch {
	case g.Prep == SingleV || g.Prep == DoubleV:
		return wall{tan: math.Tan(g.Angle / 2)}
	case g.Prep == SingleBevel || g.Prep == DoubleBevel:
		return wall{tan: math.Tan(g.Angle)}
	case g.Prep.curved():
		return wall{shape: tangent, tan: math.Tan(g.Angle), radius: g.Radius, turn: math.Pi/2 - g.Angle}
	case g.Prep.Flare():
		return wall{shape: round, radius: g.Radius}
	}
	return wall{}
}

// arcHeight is the height of the root arc, m: r (1 - cos(turn)).
func (w wall) arcHeight() float64 {
	if w.shape != tangent {
		return 0
	}
	return w.radius * 2 * math.Pow(math.Sin(w.turn/2), 2)
}

// back returns how far the wall stands back at a height h (m), m.
func (w wall) back(h float64) float64 {
	switch w.shape {
	case tangent:
		top := w.arcHeight()
		if h < top {
			return math.Sqrt(h * (2*w.radius - h))
		}
		return w.radius*math.Sin(w.turn) + (h-top)*w.tan
	case round:
		// R - sqrt(R^2 - h^2) without loss of digits.
		return h * h / (w.radius + math.Sqrt(max(0, w.radius*w.radius-h*h)))
	}
	return h * w.tan
}

// area returns the integral of back from the root to a height h (m), m2.
//
// Arc: circular segment, r^2/2 (phi - sin(phi) cos(phi)), phi the angle turned.
// Above it a trapezium. Flare: R h - (h sqrt(R^2 - h^2) + R^2 asin(h/R))/2.
func (w wall) area(h float64) float64 {
	switch w.shape {
	case tangent:
		top := w.arcHeight()
		segment := func(phi float64) float64 { return w.radius * w.radius / 2 * (phi - math.Sin(phi)*math.Cos(phi)) }
		if h < top {
			return segment(2 * math.Asin(math.Sqrt(h/(2*w.radius))))
		}
		H := h - top
		return segment(w.turn) + w.radius*math.Sin(w.turn)*H + H*H*w.tan/2
	case round:
		R := w.radius
		return R*h - (h*math.Sqrt(max(0, R*R-h*h))+R*R*math.Asin(min(1, h/R)))/2
	}
	return h * h * w.tan / 2
}

// points returns the wall's outline from the root up to a height h (m): X is how
// far it stands back, Y the height above the root, m.
func (w wall) points(h float64) []Point {
	out := []Point{{}}
	switch w.shape {
	case tangent:
		top := min(h, w.arcHeight())
		turned := 2 * math.Asin(math.Sqrt(top/(2*w.radius)))
		out = append(out, arcPoints(w.radius, turned)...)
		if h-top <= apart {
			return out
		}
	case round:
		// The same arc, told from the side of its height.
		turned := math.Asin(min(1, h/w.radius))
		n := arcSteps(w.radius, turned)
		for i := 1; i <= n; i++ {
			a := turned * float64(i) / float64(n)
			out = append(out, Point{2 * w.radius * math.Pow(math.Sin(a/2), 2), w.radius * math.Sin(a)})
		}
		return out
	}
	return append(out, Point{w.back(h), h})
}

// arcPoints returns an arc of a radius (m) that leaves the origin along X and
// turns up by an angle (rad), without its first point.
func arcPoints(radius, angle float64) []Point {
	n := arcSteps(radius, angle)
	out := make([]Point, n)
	for i := range out {
		a := angle * float64(i+1) / float64(n)
		out[i] = Point{radius * math.Sin(a), 2 * radius * math.Pow(math.Sin(a/2), 2)}
	}
	return out
}
