package seam

import (
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Frame is the joint at one place of a seam. T, M, B and Bisector are unit
// directions in the seam's frame; T, M and B are square to each other.
//
// B lies in the base surface and points from the root to the open side of the
// joint, away from the other plate's body; positive work leans the torch that
// way. A butt or an edge joint opens to both sides: there B points to the left
// of travel, seen along it with M up (B = M x T), so positive work leans the
// torch body to the left.
type Frame struct {
	Origin   r3.Vec  // m, the point of the path
	T        r3.Vec  // direction of travel
	M        r3.Vec  // outward normal of the base plate, square to T
	B        r3.Vec  // in the base surface, from the root to the open side
	Bisector r3.Vec  // halfway between the outward normals of the two plates
	Included float64 // rad, between the plates: 90 deg for a square tee, 180 for a butt; through the metal for an outside corner
}

// At returns the joint at arc length arc (m) of the path. Outside 0..Length the
// path runs on as curve.Curve says, and so does the joint; nothing was checked
// there. Where the path has a sharp corner the joint is that of the later piece.
func (s *Seam) At(arc float64) Frame { return s.frame(s.spec.Path.At(arc)) }

// Arriving returns the joint at arc length arc (m) as At does, but in a sharp
// corner of the path it is that of the earlier piece.
func (s *Seam) Arriving(arc float64) Frame { return s.frame(curve.Arriving(s.spec.Path, arc)) }

// frame returns the joint at the point p (m) of the path with the unit
// direction of travel t.
func (s *Seam) frame(p, t r3.Vec) Frame {
	m := s.spec.Base.Normal(p, t)
	o := m
	if s.spec.Other != nil {
		o = s.spec.Other.Normal(p, t)
	}
	if s.spec.Keep == KeepTravel {
		m, o = m.Reject(t).Unit(), o.Reject(t).Unit()
	}
	turn := m.Angle(o) // from the base normal to the other plate's
	toLeft := o.Dot(m.Cross(t)) >= 0
	bisector := m.Add(o).Unit()
	t = t.Reject(bisector).Unit() // changes nothing where both are square to it
	side := bisector.Cross(t)     // to the left
	if !toLeft {
		side = side.Neg()
	}
	sin, cos := math.Sincos(turn / 2)
	f := Frame{
		Origin: p, T: t, Bisector: bisector, Included: math.Pi - turn,
		M: bisector.Scale(cos).AddScaled(-sin, side),
		B: bisector.Scale(sin).AddScaled(cos, side),
	}
	if flat(s.spec.Joint) && !toLeft {
		f.B = f.B.Neg()
	}
	return f
}

// BisectingWork returns the work angle (rad) of a torch that halves the angle
// between the plates: 90 deg less half the included angle. In a butt joint of
// plates that are not in line it carries the sign of the side it leans to.
// Derived from AWS A3.0's definition of the work angle (READ, secondary: a
// textbook and a public glossary): the base surface lies half the included
// angle from the bisector.
func (f Frame) BisectingWork() float64 { return math.Atan2(f.Bisector.Dot(f.B), f.Bisector.Dot(f.M)) }

// Pose returns frameFromSeam: the frame at this place with x along the travel,
// z out of the joint along the bisector and y completing it, origin on the path
// (m), in the seam's frame.
func (f Frame) Pose() se3.Pose {
	return se3.Pose{R: se3.RotColumns(f.T, f.Bisector.Cross(f.T), f.Bisector), P: f.Origin}
}
