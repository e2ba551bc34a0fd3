package seam

import (
	"math"

	"seamwright/geom/se3"
)

// Aim says how the torch is held to a seam, in the trade's terms.
type Aim struct {
	// Work is the work angle (rad) from the base plate's normal, positive when
	// the torch leans to the open side of the joint (Frame.B).
	Work float64
	// FromBisector counts Work (rad) from the bisector of the plates instead,
	// wherever the torch is: 0 halves the joint also where it opens or closes
	// along the seam, as round a branch on a run. Decode never sets it.
	FromBisector bool
	// Travel is the travel angle (rad) from the plane square to the seam:
	// positive is push, the wire points the way the weld goes; negative is drag.
	Travel float64
	// Spin is the turn (rad) of the torch about its wire, right-handed about
	// the direction in which the wire leaves; 0 puts the tip's x axis along the
	// travel, made square to the wire.
	Spin float64
	// Offset is the shift (m) of the aim from the root across the base plate,
	// positive to the open side (Frame.B).
	Offset float64
	// Distance is the change (m) of the contact-tip distance from nominal,
	// positive when the torch is backed off along its wire.
	Distance float64
	// Ahead is how far (m) along the travel the whole is put from the place that is
	// asked for: what a torch that leans loses along the seam when it is backed off.
	// Decode never sets it.
	Ahead float64
}

// Encode returns frameFromTip, the pose of the wire tip at nominal stick-out in
// the seam's frame, z along the wire and into the joint.
//
//	e_p = m*cos(W) + b*sin(W)      square to the travel, towards the torch
//	e   = e_p*cos(T) - t*sin(T)    from the arc to the torch body
//	w   = -e                       the wire
//	x   = t*cos(T) + e_p*sin(T)    t made square to the wire: spin 0
//
// Angles: AWS A3.0, by way of a textbook (Modern Welding, 2013, 3.7) and a
// public glossary (READ, secondary); the formulas follow from the definitions.
func (f Frame) Encode(a Aim) (frameFromTip se3.Pose) {
	sinW, cosW := math.Sincos(f.WorkOf(a))
	sinT, cosT := math.Sincos(a.Travel)
	out := f.M.Scale(cosW).AddScaled(sinW, f.B)
	e := out.Scale(cosT).AddScaled(-sinT, f.T)
	w := e.Neg()
	x0 := f.T.Scale(cosT).AddScaled(sinT, out)
	y0 := w.Cross(x0)
	sinS, cosS := math.Sincos(a.Spin)
	x := x0.Scale(cosS).AddScaled(sinS, y0)
	y := y0.Scale(cosS).AddScaled(-sinS, x0)
	return se3.Pose{
		R: se3.RotColumns(x, y, w),
		P: f.Origin.AddScaled(a.Ahead, f.T).AddScaled(a.Offset, f.B).AddScaled(a.Distance, e),
	}
}

// WorkOf returns the work angle (rad) of an aim at this place, from the base
// plate's normal.
func (f Frame) WorkOf(a Aim) float64 {
	if a.FromBisector {
		return f.BisectingWork() + a.Work
	}
	return a.Work
}

// Reading is what a torch pose means at one place of a seam.
type Reading struct {
	Aim

	// The wire tip's place from Frame.Origin, in metres: Along the travel, and
	// across it by its components along the base plate to the open side
	// (AcrossB) and out of the base plate (AcrossM).
	Along, AcrossB, AcrossM float64 // m

	// AlongWire is set where the wire lies within Degenerate of the line of
	// travel. Work and spin are then not told apart: work is reported as 0.
	AlongWire bool
	// Grazing is set where the wire lies within Degenerate of the base plate's
	// surface. Offset and distance are then not told apart: Distance is
	// reported as 0 and Offset is AcrossB.
	Grazing bool
}

// Degenerate is the angle (rad) within which two directions are taken as one
// when a pose is decoded: half a degree. Poses are read off a screen to 0.1 deg.
const Degenerate = 0.5 * math.Pi / 180

// Across returns the wire tip's distance from the line of travel, in metres.
func (r Reading) Across() float64 { return math.Hypot(r.AcrossB, r.AcrossM) }

// Decode returns what the pose frameFromTip means at this place. It undoes
// Encode exactly for |Work| and |Travel| below 90 deg less Degenerate:
//
//	T = asin(w.t)    W = atan2(e.b, e.m)
//
// Work comes signed, from -180 to 180 deg. Offset and Distance say where the
// wire, drawn on, meets the surface of the base plate: Offset across from the
// root, Distance what is left along the wire; Along then still holds the tip's
// own place. Source as for Encode.
func (f Frame) Decode(frameFromTip se3.Pose) Reading {
	d := frameFromTip.P.Sub(f.Origin)
	w := frameFromTip.R.Z()
	var r Reading
	r.Along, r.AcrossB, r.AcrossM = d.Dot(f.T), d.Dot(f.B), d.Dot(f.M)

	em, eb, et := -w.Dot(f.M), -w.Dot(f.B), -w.Dot(f.T)
	square := math.Hypot(em, eb)       // cos of the travel angle
	r.Travel = math.Atan2(-et, square) // keeps its digits near 90 deg, as asin does not
	r.AlongWire = square < math.Sin(Degenerate)
	out := f.M
	if !r.AlongWire {
		r.Work = math.Atan2(eb, em)
		out = f.M.Scale(em/square).AddScaled(eb/square, f.B)
	}
	x0 := f.T.Scale(square).AddScaled(-et, out)
	x := frameFromTip.R.X()
	r.Spin = math.Atan2(x.Dot(w.Cross(x0)), x.Dot(x0))

	r.Grazing = math.Abs(em) < math.Sin(Degenerate)
	r.Offset = r.AcrossB
	if !r.Grazing {
		r.Distance = r.AcrossM / em
		r.Offset -= r.Distance * eb
	}
	return r
}

// Read decodes a pose at the place of the seam nearest to its wire tip, and
// returns the arc length (m) of that place.
func (s *Seam) Read(frameFromTip se3.Pose) (arc float64, r Reading) {
	arc = s.spec.Path.Nearest(frameFromTip.P)
	return arc, s.At(arc).Decode(frameFromTip)
}
