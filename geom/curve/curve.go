// Package curve holds curves in space that are walked by arc length: straight
// lines, circular arcs of any sweep, splines, the ellipse in which a plane cuts
// a tube, the saddle in which two tubes meet, and chains of them.
//
// Positions are metres in whatever one frame the curve's points were given in;
// tangents are unit directions of travel. A curve is a value that never changes
// once made: the constructors check their input and refuse bad input in words.
//
//	side, err := curve.NewLine(from, to)
//	p, tangent := side.At(side.Length() / 2)
package curve

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// MinLength is the shortest curve that is accepted, in metres. A shorter one
// has no direction that anybody could have meant: arms repeat to some 0.05 mm
// (ISO 9283 data sheets, from memory), fifty times this.
const MinLength = 1e-6

// JoinTolerance is the largest gap between two pieces of a chain, in metres:
// rounding in the last printed micrometre, never a real gap.
const JoinTolerance = 2e-6

// mm is the number of millimetres in a metre, for lengths in messages.
const mm = 1e3

// Curve is a curve walked by arc length. The family is closed: Line, Arc,
// Smooth and Chain are all there are.
type Curve interface {
	// Length returns the length, in metres, never under MinLength.
	Length() float64
	// At returns the point (m) and the unit direction of travel at arc length
	// s (m). Outside 0..Length the end piece runs on: a line straight ahead,
	// an arc round its circle, a smooth curve as Smooth says.
	At(s float64) (p, tangent r3.Vec)
	// Nearest returns the arc length (m, 0..Length) of the point of the curve
	// nearest to p (m). Among equals the smallest arc length wins.
	Nearest(p r3.Vec) float64

	trim(from, to float64) Curve
	reversed() Curve
	moved(bFromA se3.Pose) Curve
	mirrored(m Mirror) Curve
}

// Distance returns the arc length (m) of the point of c nearest to p and the
// distance (m) from it to p.
func Distance(c Curve, p r3.Vec) (s, dist float64) {
	s = c.Nearest(p)
	q, _ := c.At(s)
	return s, q.Dist(p)
}

// Trim returns the part of c from one arc length to another, both in metres.
// It fails unless 0 <= from, from + MinLength <= to and to <= Length; an end
// within JoinTolerance outside is taken as the end.
func Trim(c Curve, from, to float64) (Curve, error) {
	length := c.Length()
	if !(from >= -JoinTolerance && to <= length+JoinTolerance) {
		return nil, fmt.Errorf("curve: part from %.6g mm to %.6g mm asked of a curve that runs from 0 to %.6g mm", from*mm, to*mm, length*mm)
	}
	from, to = max(from, 0), min(to, length)
	if !(to-from >= MinLength) {
		return nil, fmt.Errorf("curve: part from %.6g mm to %.6g mm has no length; the end must lie at least %g mm past the start", from*mm, to*mm, MinLength*mm)
	}
	return c.trim(from, to), nil
}

// WithOverlap returns the closed curve c with overlap (m) of its own start
// walked again at the end, as a weld all round is tied in. It fails where c does
// not end where it begins (within JoinTolerance) and for an overlap below 0 or
// longer than c; an overlap under MinLength leaves c as it is.
func WithOverlap(c Curve, overlap float64) (Curve, error) {
	if gap := openBy(c); gap > JoinTolerance {
		return nil, fmt.Errorf("curve: overlap asked of an open path: it ends %.3g mm from its start; close it, or leave the overlap out", gap*mm)
	}
	if !(overlap >= 0 && overlap <= c.Length()) {
		return nil, fmt.Errorf("curve: overlap of %.6g mm on a path of %.6g mm: 0 up to the path's length is possible", overlap*mm, c.Length()*mm)
	}
	if overlap < MinLength {
		return c, nil
	}
	return NewChain(c, c.trim(0, overlap))
}

// openBy returns the distance (m) from the end of c to its start.
func openBy(c Curve) float64 {
	start, _ := c.At(0)
	end, _ := c.At(c.Length())
	return start.Dist(end)
}

// StartingAt returns the closed curve c begun at arc length s (m) instead, as a
// weld all round is begun on a long side and not in a corner. A corner where c
// itself began becomes an inner one. It fails where c does not end where it
// begins (within JoinTolerance) and for an s outside 0..Length; an s within
// MinLength of either end leaves c as it is.
func StartingAt(c Curve, s float64) (Curve, error) {
	if gap := openBy(c); gap > JoinTolerance {
		return nil, fmt.Errorf("curve: another start asked of an open path: it ends %.3g mm from its start, so it begins where it begins", gap*mm)
	}
	length := c.Length()
	if !(s >= 0 && s <= length) {
		return nil, fmt.Errorf("curve: start at %.6g mm asked of a path that runs from 0 to %.6g mm", s*mm, length*mm)
	}
	if s < MinLength || length-s < MinLength {
		return c, nil
	}
	return NewChain(c.trim(s, length), c.trim(0, s))
}

// Reversed returns c walked the other way.
func Reversed(c Curve) Curve { return c.reversed() }

// Moved returns c, given in frame a, as seen from frame b.
func Moved(c Curve, bFromA se3.Pose) Curve { return c.moved(bFromA) }

// ChordStep returns the spacing (m) at which points on a circle of the given
// radius (m) are joined by chords that leave the circle by at most err (m):
//
//	sqrt(8 * radius * err)
//
// The exact sagitta of an arc of length l is R*(1-cos(l/2R)) <= l^2/(8R), so as
// a spacing along the arc the step is always on the safe side. It never passes
// half the circumference. A radius of +Inf, a straight line, gives +Inf.
func ChordStep(radius, err float64) float64 {
	if math.IsInf(radius, 1) {
		return radius
	}
	return min(math.Sqrt(8*radius*err), math.Pi*radius)
}
