package seam

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
)

// Plate is a flat rectangular plate typed from its sizes. Its front looks along
// Along x Across; the thickness lies behind it.
type Plate struct {
	Corner        r3.Vec  // m, the corner of the front from which both edges run
	Along, Across r3.Vec  // directions of the edges, of any length, square to each other within MaxSkew
	Length        float64 // m, along Along
	Width         float64 // m, along Across
	Thickness     float64 // m
}

// MaxSkew is the largest angle (rad) by which the typed edges of a rectangle may
// be out of square: 1 deg, a slip of rounding; the first edge is kept.
const MaxSkew = 1 * math.Pi / 180

// PlateSide names one of the six faces of a Plate. The zero value is "not
// stated".
type PlateSide uint8

// The faces: front and rear, and the four narrow ones that lie where Along is 0
// (start) or Length (end), where Across is 0 (near) or Width (far).
const (
	PlateFront PlateSide = iota + 1
	PlateRear
	PlateStart
	PlateEnd
	PlateNear
	PlateFar
)

// String returns "front", "rear", "start edge", "end edge", "near edge" or "far
// edge".
func (s PlateSide) String() string {
	names := [...]string{PlateFront: "front", PlateRear: "rear", PlateStart: "start edge", PlateEnd: "end edge", PlateNear: "near edge", PlateFar: "far edge"}
	if s < PlateFront || s > PlateFar {
		return fmt.Sprintf("plate side %d", uint8(s))
	}
	return names[s]
}

// Surface is a rectangle on a part: one face of a plate. Make one with
// Plate.Surface.
type Surface struct {
	corner r3.Vec // m
	u, v   r3.Vec // unit, square to each other, along its edges
	n      r3.Vec // unit, outward
	lu, lv float64
	name   string
}

// Surface returns a face of the plate. It fails for numbers that are not finite,
// sizes under 0.1 mm, edges of no direction or out of square and a face that is
// not stated.
func (p Plate) Surface(side PlateSide) (Surface, error) {
	u, v := p.Along.Unit(), p.Across.Unit()
	if !p.Corner.IsFinite() || !p.Along.IsFinite() || !p.Across.IsFinite() || u == (r3.Vec{}) || v == (r3.Vec{}) {
		return Surface{}, fmt.Errorf("seam: plate at %v with edges along %v and %v: a corner and two directions in finite numbers are needed", p.Corner, p.Along, p.Across)
	}
	if skew := math.Abs(math.Pi/2 - u.Angle(v)); skew > MaxSkew {
		return Surface{}, fmt.Errorf("seam: the edges of the plate, along and across, are %.1f deg out of square; %.0f deg at most is taken for rounding", deg(skew), deg(MaxSkew))
	}
	v = v.Reject(u).Unit()
	n := u.Cross(v)
	for _, size := range []struct {
		name string
		m    float64
	}{{"length", p.Length}, {"width", p.Width}, {"thickness", p.Thickness}} {
		if !(size.m >= 1e-4) || math.IsInf(size.m, 1) {
			return Surface{}, fmt.Errorf("seam: the plate's %s is %.3g mm: at least 0.1 mm is needed", size.name, size.m*1e3)
		}
	}
	at := func(a, b, c float64) r3.Vec { return p.Corner.AddScaled(a, u).AddScaled(b, v).AddScaled(-c, n) }
	l, w, t := p.Length, p.Width, p.Thickness
	s := Surface{name: side.String()}
	switch side {
	case PlateFront:
		s.corner, s.u, s.v, s.n, s.lu, s.lv = at(0, 0, 0), u, v, n, l, w
	case PlateRear:
		s.corner, s.u, s.v, s.n, s.lu, s.lv = at(0, 0, t), u, v, n.Neg(), l, w
	case PlateStart:
		s.corner, s.u, s.v, s.n, s.lu, s.lv = at(0, 0, 0), v, n.Neg(), u.Neg(), w, t
	case PlateEnd:
		s.corner, s.u, s.v, s.n, s.lu, s.lv = at(l, 0, 0), v, n.Neg(), u, w, t
	case PlateNear:
		s.corner, s.u, s.v, s.n, s.lu, s.lv = at(0, 0, 0), u, n.Neg(), v.Neg(), l, t
	case PlateFar:
		s.corner, s.u, s.v, s.n, s.lu, s.lv = at(0, w, 0), u, n.Neg(), v, l, t
	default:
		return Surface{}, fmt.Errorf("seam: which face of the plate is welded is not told; say front, rear, or the start, end, near or far edge")
	}
	return s, nil
}

// Known tells the surface as a face of a joint.
func (s Surface) Known() Known {
	return Known{Face: Plane{N: s.n}, Decided: fmt.Sprintf("from the sizes of the plate: its %s, normal %.4f %.4f %.4f", s.name, s.n.X, s.n.Y, s.n.Z)}
}

// Normal returns the outward unit normal.
func (s Surface) Normal() r3.Vec { return s.n }

// Flat returns the plane in which the surface lies.
func (s Surface) Flat() curve.Flat { return curve.Flat{Point: s.corner, Normal: s.n} }

// Edges returns the four edges in order, each beginning where the one before
// ends, from the surface's corner along its first edge; the seam of a butt joint
// is such an edge.
func (s Surface) Edges() [4]curve.Line {
	corners := [4]r3.Vec{
		s.corner, s.corner.AddScaled(s.lu, s.u),
		s.corner.AddScaled(s.lu, s.u).AddScaled(s.lv, s.v), s.corner.AddScaled(s.lv, s.v),
	}
	var edges [4]curve.Line
	for i := range edges {
		// Cannot fail: sizes were checked, and the zero Surface has no edges.
		edges[i], _ = curve.NewLine(corners[i], corners[(i+1)%4])
	}
	return edges
}

// within returns how far (m) the point p lies outside the rectangle in its
// plane; 0 inside.
func (s Surface) within(p r3.Vec) float64 {
	d := p.Sub(s.corner)
	x, y := d.Dot(s.u), d.Dot(s.v)
	return math.Hypot(max(0, -x, x-s.lu), max(0, -y, y-s.lv))
}
