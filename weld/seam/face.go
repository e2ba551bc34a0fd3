package seam

import (
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Face is the surface of a plate on the welded side. The family is closed:
// Plane, Cylinder, Towards and Upright are all there are.
type Face interface {
	// Normal returns the outward unit normal of the plate's surface, in the
	// seam's frame, at the point p (m) where travel is the unit direction
	// travel. It returns the zero vector where the face has no normal there.
	Normal(p, travel r3.Vec) r3.Vec

	moved(bFromA se3.Pose) Face
	mirrored(m curve.Mirror) Face
	reversed() Face // the same surface for travel the other way
}

// Plane is a flat plate whose outward unit normal N is known.
type Plane struct{ N r3.Vec }

// Cylinder is the wall of a tube: Point (m) and the unit direction Axis give
// its axis. The outward normal points away from the axis where Outward is set,
// the weld being outside the tube, and to the axis where not.
type Cylinder struct {
	Point, Axis r3.Vec
	Outward     bool
}

// Towards is a plate that is known only by the direction its welded side looks
// to, such as up. Its normal is that direction made square to the travel.
type Towards struct{ Dir r3.Vec }

// Upright is a plate known by where it stands on another: to one Side of the
// travel, seen along it with the other plate's outward normal up, and at an
// Included angle (rad) from that plate's surface on the open side.
//
// In an outside corner Side is where the body of the plate lies, seen from its
// welded face, and Included is measured through the metal.
type Upright struct {
	On       Face
	Side     Side
	Included float64 // rad, pi/2 for a plate that stands square
}

// Normal returns N everywhere.
func (f Plane) Normal(_, _ r3.Vec) r3.Vec { return f.N }

// Normal returns the direction square away from the axis at p (m), or towards
// it, unit.
func (f Cylinder) Normal(p, _ r3.Vec) r3.Vec {
	out := p.Sub(f.Point).Reject(f.Axis).Unit()
	if !f.Outward {
		return out.Neg()
	}
	return out
}

// Normal returns Dir made square to the travel, unit.
func (f Towards) Normal(_, travel r3.Vec) r3.Vec { return f.Dir.Reject(travel).Unit() }

// Normal returns the upright's outward unit normal at p (m).
//
// With m the other plate's normal, b the direction in it square to the travel
// and away from the upright, and psi the included angle, the upright's surface
// runs along b*cos(psi) + m*sin(psi), and its normal is b*sin(psi) - m*cos(psi).
func (f Upright) Normal(p, travel r3.Vec) r3.Vec {
	m := f.On.Normal(p, travel).Reject(travel).Unit()
	b := m.Cross(travel) // to the left
	if f.Side == Left {
		b = b.Neg()
	}
	sin, cos := math.Sincos(f.Included)
	return b.Scale(sin).AddScaled(-cos, m)
}
