package seam

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld/section"
)

// Nozzle is the round end of a torch about its wire: a cylinder, or a cone that goes
// over into one, whose axis is the wire's. How the torch is turned about its wire does
// not matter to it.
type Nozzle struct {
	Radius float64 // outside, at its face, m
	Top    float64 // outside, at its upper end, m; 0: as at its face
	Length float64 // from its face to its upper end, m
	Over   float64 // length over which it widens from its face on, m; 0: all of it
	// StickOut is how far its face lies behind the wire's end, m: the contact-tip
	// distance less the recess of the contact tip.
	StickOut float64
}

// check refuses sizes with which nothing can be computed.
func (n Nozzle) check() error {
	for _, size := range []struct {
		what      string
		m         float64
		low, high float64 // m
	}{
		{"radius of the nozzle", n.Radius, 1e-3, 0.1}, {"upper radius of the nozzle", n.top(), 1e-3, 0.1},
		{"length of the nozzle", n.Length, 1e-3, 1}, {"taper of the nozzle", n.Over, 0, n.Length}, {"stick-out", n.StickOut, 0, 0.1},
	} {
		if !(size.m >= size.low && size.m <= size.high) {
			return fmt.Errorf("seam: the %s is %.3g mm: %.0f to %.0f mm is allowed; check its unit", size.what, size.m*1e3, size.low*1e3, size.high*1e3)
		}
	}
	return nil
}

func (n Nozzle) top() float64 {
	if n.Top == 0 {
		return n.Radius
	}
	return n.Top
}

// span is how far any of it is from the wire's end, m.
func (n Nozzle) span() float64 {
	return math.Hypot(n.StickOut+n.Length, max(n.Radius, n.top()))
}

// Bar is a convex piece of metal of the joint, or of what was welded before, with
// one section all along the seam.
type Bar struct {
	Name string
	// Outline goes round it counter-clockwise, m across the seam: X along
	// Frame.B from the line of the seam, Y along Frame.M.
	Outline section.Polygon
}

// Gap is how near the nozzle comes to metal.
type Gap struct {
	// Clearance is the distance between them, m. Where they overlap it is how far
	// the nozzle must at least be moved to be free of that metal alone, negative.
	Clearance float64
	Metal     string // the name of the nearest
	// Nozzle and On are the places that are so near, in the seam's frame, m.
	Nozzle, On r3.Vec
}

// cast is a nozzle as it is seen along a seam: the least convex body round circles
// about its axis, which in the plane across the seam are ellipses.
type cast struct {
	face      section.Point // the middle of its face, m
	faceAlong float64       // and along the travel, m
	axis      section.Point // the part of the unit axis (from the wire's end up) in the plane
	axisAlong float64       // and along the travel
	rings     [3]ring
}

// ring is a circle round the nozzle: how far from its face it is, and its radius, m.
type ring struct{ up, radius float64 }

// of returns how the nozzle lies to the joint at f with a tip's pose, both in the
// seam's frame.
func (n Nozzle) of(f *Frame, frameFromTip *se3.Pose) cast {
	e := frameFromTip.R.Z().Neg()
	c := frameFromTip.P.AddScaled(n.StickOut, e).Sub(f.Origin)
	over := n.Over
	if over == 0 {
		over = n.Length
	}
	return cast{
		face: section.Point{X: c.Dot(f.B), Y: c.Dot(f.M)}, faceAlong: c.Dot(f.T),
		axis: section.Point{X: e.Dot(f.B), Y: e.Dot(f.M)}, axisAlong: e.Dot(f.T),
		rings: [3]ring{{0, n.Radius}, {over, n.top()}, {n.Length, n.top()}},
	}
}

// lowest returns the least component of the nozzle along a unit direction n of the
// plane, m, and which ring has it: c.n - r sqrt(1 - (e.n)^2) of a circle of radius r
// about c, e its axis. Derived.
func (k *cast) lowest(n section.Point) (m float64, at int) {
	s := k.slant(n)
	up := k.axis.X*n.X + k.axis.Y*n.Y
	m = -k.rings[0].radius * s
	for i := 1; i < len(k.rings); i++ {
		if got := k.rings[i].up*up - k.rings[i].radius*s; got < m {
			m, at = got, i
		}
	}
	return m + k.face.X*n.X + k.face.Y*n.Y, at
}

// Outline returns what is seen of the nozzle along the travel of f, from its face up to
// high (m) of it, as Bar has it; frameFromTip is the wire tip's pose.
func (n Nozzle) Outline(f Frame, frameFromTip se3.Pose, high float64) section.Polygon {
	k := n.of(&f, &frameFromTip)
	var at []section.Point
	for i, r := range k.rings {
		if r.up > high { // cut off between this ring and the one below
			below := k.rings[i-1]
			part := (high - below.up) / (r.up - below.up)
			r = ring{high, below.radius + part*(r.radius-below.radius)}
		}
		at = append(at, k.circle(r)...)
		if r.up == high {
			break
		}
	}
	return section.Hull(at)
}

// circle returns a ring as it is seen along the seam, m.
func (k *cast) circle(r ring) []section.Point {
	const steps = 96
	along, axis := k.axisAlong, k.axis
	// Two directions square to the axis and to each other: one across the seam, in the
	// plane, and one in which the rest of the turn is seen.
	flat := math.Hypot(axis.X, axis.Y)
	across, up := section.Point{X: 1}, section.Point{}
	if flat > 1e-9 {
		across = section.Point{X: axis.Y / flat, Y: -axis.X / flat}
		up = section.Point{X: axis.X / flat * along, Y: axis.Y / flat * along}
	}
	at := make([]section.Point, steps)
	for i := range at {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / steps)
		at[i] = section.Point{
			X: k.face.X + r.up*axis.X + r.radius*(cos*across.X+sin*up.X),
			Y: k.face.Y + r.up*axis.Y + r.radius*(cos*across.Y+sin*up.Y),
		}
	}
	return at
}

// slant is the sine of the angle between the nozzle's axis and a unit direction of the
// plane, dimensionless: 0 where a face of the nozzle lies square to it.
func (k *cast) slant(n section.Point) float64 {
	c := k.axis.X*n.Y - k.axis.Y*n.X
	return math.Sqrt(k.axisAlong*k.axisAlong + c*c)
}

// place returns the place of the nozzle that is lowest along n, m across and along
// the seam. Where a whole face is, it is the middle of the face.
func (k *cast) place(n section.Point) (at section.Point, along float64) {
	_, i := k.lowest(n)
	r, up := k.rings[i].radius, k.rings[i].up
	at = section.Point{X: k.face.X + up*k.axis.X, Y: k.face.Y + up*k.axis.Y}
	along = k.faceAlong + up*k.axisAlong
	d := k.axis.X*n.X + k.axis.Y*n.Y
	if s := k.slant(n); s > 1e-9 {
		at = section.Point{X: at.X - r/s*(n.X-d*k.axis.X), Y: at.Y - r/s*(n.Y-d*k.axis.Y)}
		along += r / s * d * k.axisAlong
	}
	return at, along
}

// slab is metal made ready: its outward normals and how far it reaches along them.
type slab struct {
	Bar
	normals []section.Point // of the side behind each corner
	reach   []float64       // m
	middle  section.Point
	radius  float64 // m, of a circle about the middle that holds it
}

func newSlab(m Bar) slab {
	s := slab{Bar: m}
	low, high := m.Outline.Bounds()
	s.middle = section.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
	for i, a := range m.Outline {
		b := m.Outline[(i+1)%len(m.Outline)]
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		n := section.Point{X: (b.Y - a.Y) / long, Y: (a.X - b.X) / long}
		s.normals = append(s.normals, n)
		s.reach = append(s.reach, n.X*a.X+n.Y*a.Y)
		s.radius = max(s.radius, math.Hypot(a.X-s.middle.X, a.Y-s.middle.Y))
	}
	return s
}

// beyond reports whether the nozzle is certainly further than m from the metal, by
// the plane square to its axis that holds its lower face.
func (s *slab) beyond(k *cast, m float64) bool {
	long := math.Hypot(k.axis.X, k.axis.Y)
	if long < 1e-9 {
		return false
	}
	n := section.Point{X: k.axis.X / long, Y: k.axis.Y / long}
	low, _ := k.lowest(n)
	return low-(n.X*s.middle.X+n.Y*s.middle.Y)-s.radius > m
}

// gap returns the clearance (m) of the nozzle from the metal and the unit direction
// in which it is: the largest separation along any direction, which is the distance
// where it is above 0 and the least way to be free where it is below. Where it is at
// least limit (m), some separation of at least that is returned.
//
// The separation along a side's normal has a closed form. Between the normals of two
// sides their corner is the metal's extreme point, and the direction is searched, where
// it can be better: the separation is there the least of two smooth functions.
func (s *slab) gap(k *cast, limit float64) (m float64, n section.Point) {
	m = math.Inf(-1)
	for i, d := range s.normals {
		low, _ := k.lowest(d)
		if low -= s.reach[i]; low > m {
			m, n = low, d
		}
	}
	for i := range s.normals {
		if m >= limit {
			break
		}
		if !s.better(k, i, m) {
			continue
		}
		if got, d := s.corner(k, i); got > m {
			m, n = got, d
		}
	}
	return m, n
}

// better reports whether the separation at corner i+1 can be more than m (m).
//
// Along all directions between the sides' normals it is at most that of the one place
// of the nozzle that is nearest to either side: a cosine, m cos x + t sin x, m the
// separation along that side's normal, t how far the place lies past the corner and x
// the angle from the normal.
func (s *slab) better(k *cast, i int, m float64) bool {
	next := (i + 1) % len(s.normals)
	a, b, tip := s.normals[i], s.normals[next], s.Outline[next]
	turn := math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)
	for _, side := range [2]struct {
		n   section.Point
		way float64 // in which the angle grows to the other side's normal
	}{{a, 1}, {b, -1}} {
		at, _ := k.place(side.n)
		x, y := at.X-tip.X, at.Y-tip.Y
		off := side.n.X*x + side.n.Y*y
		past := side.way * (side.n.X*y - side.n.Y*x)
		most := max(off, off*math.Cos(turn)+past*math.Sin(turn))
		if at := math.Atan2(past, off); at > 0 && at < turn {
			most = math.Hypot(off, past)
		}
		if most <= m {
			return false
		}
	}
	return true
}

// cornerParts is into how many parts the directions at a corner are cut to find where
// the separation is largest. It has one top where it is above 0; where solids overlap
// there may be more, and each is looked for.
const cornerParts = 16

// corner returns the largest separation (m) along the directions between the sides
// before and behind corner i+1, and the direction.
func (s *slab) corner(k *cast, i int) (float64, section.Point) {
	next := (i + 1) % len(s.normals)
	a, b := s.normals[i], s.normals[next]
	tip := s.Outline[next]
	turn := math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)
	if !(turn > 1e-12) {
		return math.Inf(-1), a
	}
	toward := func(f float64) section.Point {
		sin, cos := math.Sincos(f * turn)
		return section.Point{X: a.X*cos - a.Y*sin, Y: a.X*sin + a.Y*cos}
	}
	apart := func(f float64) float64 {
		d := toward(f)
		low, _ := k.lowest(d)
		return low - d.X*tip.X - d.Y*tip.Y
	}
	var at [cornerParts + 1]float64
	for p := range at {
		at[p] = apart(float64(p) / cornerParts)
	}
	f, high := 0.0, at[0]
	for p := range at {
		low, up := max(p-1, 0), min(p+1, cornerParts)
		if at[p] < at[low] || at[p] < at[up] || at[p] < high && at[p] > 0 {
			continue
		}
		x := highest(apart, float64(low)/cornerParts, float64(up)/cornerParts)
		if got := apart(x); got > high {
			f, high = x, got
		}
	}
	// A nozzle square to the seam turns a flat face to the corner: a top with an edge.
	if x := math.Atan2(a.X*k.axis.Y-a.Y*k.axis.X, a.X*k.axis.X+a.Y*k.axis.Y) / turn; x > 0 && x < 1 {
		if got := apart(x); got > high {
			f, high = x, got
		}
	}
	return high, toward(f)
}

// highest returns where a function with one top between low and high has it, within
// a millionth of a unit: golden section. What it is there is then far nearer.
func highest(f func(float64) float64, low, high float64) float64 {
	const golden = 0.6180339887498949
	a, b := high-golden*(high-low), low+golden*(high-low)
	fa, fb := f(a), f(b)
	for high-low > 1e-6 {
		if fa >= fb {
			high, b, fb = b, a, fa
			a = high - golden*(high-low)
			fa = f(a)
		} else {
			low, a, fa = a, b, fb
			b = low + golden*(high-low)
			fb = f(b)
		}
	}
	return (low + high) / 2
}
