package curve

import (
	"fmt"

	"seamwright/geom/r3"
)

// Mirror is a plane in which things are mirrored. Make one with NewMirror; the
// zero value mirrors nothing.
type Mirror struct{ point, normal r3.Vec }

// NewMirror returns the mirror through point (m) square to normal, of any
// length. It fails for numbers that are not finite and a normal of no length.
func NewMirror(point, normal r3.Vec) (Mirror, error) {
	n := normal.Unit()
	if !point.IsFinite() || !normal.IsFinite() || n == (r3.Vec{}) {
		return Mirror{}, fmt.Errorf("curve: mirror through %v square to %v: a point and a direction in finite numbers are needed", point, normal)
	}
	return Mirror{point: point, normal: n}, nil
}

// Point returns the mirror image of a point (m).
func (m Mirror) Point(p r3.Vec) r3.Vec { return p.AddScaled(-2*p.Sub(m.point).Dot(m.normal), m.normal) }

// Dir returns the mirror image of a direction.
func (m Mirror) Dir(d r3.Vec) r3.Vec { return d.AddScaled(-2*d.Dot(m.normal), m.normal) }

// Mirrored returns the mirror image of c, walked in the image of its order.
func Mirrored(c Curve, m Mirror) Curve { return c.mirrored(m) }

func (l Line) mirrored(m Mirror) Curve {
	return Line{from: m.Point(l.from), dir: m.Dir(l.dir), length: l.length}
}

// The image of a right-handed turn is left-handed, so the axis is turned over.
func (a Arc) mirrored(m Mirror) Curve {
	b := a
	b.centre, b.axis = m.Point(a.centre), m.Dir(a.axis).Neg()
	b.x, b.y = m.Dir(a.x), m.Dir(a.y)
	return b
}

func (c Chain) mirrored(m Mirror) Curve {
	image := Chain{pieces: make([]Curve, len(c.pieces)), ends: c.ends}
	for i, piece := range c.pieces {
		image.pieces[i] = piece.mirrored(m)
	}
	return image
}
