package section

import "math"

// Point is a place in the plane of a section, m. The origin of a fillet is the
// root of the joint, X along the base plate to the open side and Y out of the
// base plate. The origin of a groove is the middle of the gap on the back face,
// X across the joint and Y out of the plates, to the side that is welded first.
type Point struct{ X, Y float64 }

// sub returns p - q.
func (p Point) sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// along returns p + k q. Products are rounded by themselves in all of these, so that
// which passes are chosen does not hang on fused multiply-add.
func (p Point) along(k float64, q Point) Point {
	return Point{p.X + float64(k*q.X), p.Y + float64(k*q.Y)}
}

// dot returns the scalar product, m2.
func (p Point) dot(q Point) float64 { return float64(p.X*q.X) + float64(p.Y*q.Y) }

// cross returns the signed area of the parallelogram of p and q, m2, positive
// where q is to the left of p.
func (p Point) cross(q Point) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// turned returns the vector turned to the left by the angle of a sine and a cosine.
func (p Point) turned(sin, cos float64) Point {
	return Point{float64(p.X*cos) - float64(p.Y*sin), float64(p.X*sin) + float64(p.Y*cos)}
}

// norm returns the length, m.
func (p Point) norm() float64 { return math.Hypot(p.X, p.Y) }

// between returns the place at the share f (dimensionless) of the way to q.
func (p Point) between(q Point, f float64) Point { return p.along(f, q.sub(p)) }

// Polygon is the outline of an area in the plane of a section: its corners in
// m, counter-clockwise, the first not repeated at the end.
type Polygon []Point

// Area returns the enclosed area, m2; it is negative for corners told clockwise.
// Shoelace sum, taken from the first corner to keep digits. Derived.
func (p Polygon) Area() float64 {
	sum := 0.0
	for i := 2; i < len(p); i++ {
		sum += p[i-1].sub(p[0]).cross(p[i].sub(p[0]))
	}
	return sum / 2
}

// Centroid returns the centre of the area, m. Derived.
func (p Polygon) Centroid() Point {
	var c Point
	for i := 2; i < len(p); i++ {
		a, b := p[i-1].sub(p[0]), p[i].sub(p[0])
		c = c.along(a.cross(b), Point{a.X + b.X, a.Y + b.Y})
	}
	return p[0].along(1/(6*p.Area()), c)
}

// Bounds returns the corners of the smallest upright box, m.
func (p Polygon) Bounds() (low, high Point) {
	low, high = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, q := range p {
		low = Point{min(low.X, q.X), min(low.Y, q.Y)}
		high = Point{max(high.X, q.X), max(high.Y, q.Y)}
	}
	return low, high
}

// chordSlack is how far the outline of a curve may leave it, m: 1 um, a
// thousandth of what a fillet gauge reads.
const chordSlack = 1e-6

// arcSteps returns the number of straight steps for an arc of a radius (m) and
// an angle (rad) that leave it by chordSlack at most.
func arcSteps(radius, angle float64) int {
	// An arc this flat, or no arc at all, is a straight line.
	if !(radius*2*math.Pow(math.Sin(angle/4), 2) > chordSlack) {
		return 1
	}
	return int(math.Ceil(angle / (4 * math.Asin(math.Sqrt(min(1, chordSlack/(2*radius)))))))
}
