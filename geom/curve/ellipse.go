package curve

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// EllipseRequest says where a plane, through Point (m) square to Normal (any
// length), cuts a tube and which part of the cut is walked: from the angle
// Start by Sweep about the tube's axis, right-handed where positive. Start
// counts from the side of the tube that faces Zero, a direction of any length;
// the zero Zero is the plane's normal and, where the plane is square to the
// tube and that says nothing, the direction r3.Vec.Orthogonal of the axis.
type EllipseRequest struct {
	Tube          Tube
	Point, Normal r3.Vec
	Zero          r3.Vec
	Start, Sweep  float64 // rad; a full turn, either way, closes the curve
}

// ellipse is centre + a*cos(u) + b*sin(u), in metres.
type ellipse struct{ centre, a, b r3.Vec }

// NewEllipse returns the curve in which a plane cuts a tube, by arc length. It
// fails for numbers that are not finite, a tube of no radius, a plane within
// MinCross of the tube's axis, a Zero along the axis and a Sweep of nothing or
// more than a full turn.
// Formula: each line of the tube's wall is carried along the axis to the plane.
func NewEllipse(r EllipseRequest) (Smooth, error) {
	if err := r.Tube.check("the tube"); err != nil {
		return Smooth{}, err
	}
	n, d := r.Normal.Unit(), r.Tube.Axis.Unit()
	if !r.Point.IsFinite() || !r.Normal.IsFinite() || n == (r3.Vec{}) {
		return Smooth{}, fmt.Errorf("curve: plane through %v square to %v: a point and a direction in finite numbers are needed", r.Point, r.Normal)
	}
	if err := checkSweep(r.Start, r.Sweep, r.Tube.Radius); err != nil {
		return Smooth{}, err
	}
	across := n.Dot(d)
	if tilt := math.Asin(min(1, math.Abs(across))); tilt < MinCross {
		return Smooth{}, fmt.Errorf("curve: the plane lies %.2f deg from the axis of the tube: at least %.0f deg are needed for it to cut the tube in a closed curve", tilt*180/math.Pi, MinCross*180/math.Pi)
	}
	zero := r.Zero
	if zero == (r3.Vec{}) {
		if zero = n.Reject(d); zero.Norm() < straight {
			zero = d.Orthogonal()
		}
	}
	x := zero.Reject(d)
	if !zero.IsFinite() || x.Norm() < straight*zero.Norm() {
		return Smooth{}, fmt.Errorf("curve: the start is counted from the side facing %v, which runs along the axis of the tube: give a direction across it", r.Zero)
	}
	x = x.Unit()
	y := d.Cross(x)
	rad := r.Tube.Radius
	e := ellipse{
		centre: r.Tube.Point.AddScaled(r.Point.Sub(r.Tube.Point).Dot(n)/across, d),
		a:      x.AddScaled(-x.Dot(n)/across, d).Scale(rad),
		b:      y.AddScaled(-y.Dot(n)/across, d).Scale(rad),
	}
	from, to, back := around(r.Start, r.Sweep)
	table, err := newTable(&e, []float64{from, to})
	if err != nil {
		return Smooth{}, err
	}
	return newSmooth(&e, table, fullTurn(r.Sweep), back), nil
}

func (e *ellipse) at(u float64) (p, d r3.Vec) {
	sin, cos := math.Sincos(u)
	return e.centre.AddScaled(cos, e.a).AddScaled(sin, e.b), e.b.Scale(cos).AddScaled(-sin, e.a)
}

func (e *ellipse) bend(u float64) r3.Vec {
	sin, cos := math.Sincos(u)
	return e.a.Scale(-cos).AddScaled(-sin, e.b)
}

func (e *ellipse) moved(bFromA se3.Pose) shape {
	return &ellipse{centre: bFromA.Apply(e.centre), a: bFromA.Dir(e.a), b: bFromA.Dir(e.b)}
}

func (e *ellipse) mirrored(m Mirror) shape {
	return &ellipse{centre: m.Point(e.centre), a: m.Dir(e.a), b: m.Dir(e.b)}
}
