package seam

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/weld/weave"
)

// WeaveAcross returns the unit direction to the left edge of a weave for a torch
// aimed by a at the frame: square to the travel and to the torch as seen along the
// seam, turned by the weave's Plane.
func (f Frame) WeaveAcross(w weave.Weave, a Aim) r3.Vec {
	sin, cos := math.Sincos(a.Work)
	out := f.M.Scale(cos).AddScaled(sin, f.B)
	left := out.Cross(f.T)
	sin, cos = math.Sincos(w.Plane)
	return left.Scale(cos).AddScaled(sin, out)
}

// Woven returns the frame with its origin where the weave has the wire at a time (s)
// after the start of the pass, for a torch aimed by a: encode the aim in it.
func (f Frame) Woven(w weave.Weave, a Aim, time float64) Frame {
	f.Origin = f.Origin.AddScaled(w.Offset(time), f.WeaveAcross(w, a))
	return f
}
