package plan

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/fit"
	"seamwright/geom/r3"
	"seamwright/weld/seam"
)

// round fits an arc or a circle. Where its plane is known, or the base plate's
// normal is without the path, that is used: three hand-guided points on a small
// tube would tilt the circle by degrees.
func (b *seamBuilder) round(shape *seamShape, at []r3.Vec) (curve.Curve, error) {
	req := fit.CircleRequest{Points: at, Sigma: seam.HandTouch}
	if err := b.lies(&req); err != nil {
		return nil, err
	}
	free, err := fit.Circle(req)
	if err != nil {
		return nil, err
	}
	shape.radius = free.Radius
	circle := free
	if b.seam.Radius > 0 {
		req.Radius = b.seam.Radius
		if circle, err = fit.Circle(req); err != nil {
			return nil, err
		}
	}
	shape.residual, shape.worst = circle.Max, b.seam.Points[circle.Worst]
	for _, i := range circle.OutOfOrder {
		shape.order = append(shape.order, b.seam.Points[i])
	}
	if b.seam.Path == job.PathCircle {
		whole, err := curve.NewCircle(circle.Centre, circle.Axis, circle.Start, 0)
		if err != nil {
			return nil, err
		}
		start, err := b.start(whole)
		if err != nil {
			return nil, err
		}
		from, _ := whole.At(start)
		return curve.NewCircle(circle.Centre, circle.Axis, from, b.overlap())
	}
	return curve.NewArc(curve.ArcRequest{Centre: circle.Centre, Axis: circle.Axis, Start: circle.Start, Sweep: circle.Sweep})
}

// lies tells the fit what is known of the circle's plane.
func (b *seamBuilder) lies(req *fit.CircleRequest) error {
	switch p := b.seam.Plane; p.Kind {
	case job.FlatLevel:
		req.Axis = b.up
	case job.FlatDirection:
		req.Axis = p.Direction
	case job.FlatTouched:
		plane, err := fit.Plane(b.points(p.Points), seam.HandTouch)
		if err != nil {
			return fmt.Errorf("plane: %w", err)
		}
		req.Plane = &fit.KnownPlane{Point: plane.Point, Normal: plane.Normal}
	default:
		if axis, ok := b.knownAxis(); ok {
			req.Axis = axis
		}
	}
	return nil
}

// knownAxis returns the base plate's normal where the plate alone gives it.
func (b *seamBuilder) knownAxis() (r3.Vec, bool) {
	switch b.seam.Base.Kind {
	case job.PlateUp, job.PlateLevel:
		return b.up, true
	case job.PlateDown:
		return b.up.Neg(), true
	case job.PlateDirection:
		return b.seam.Base.Direction, true
	case job.PlateTouched:
		plane, err := fit.Plane(b.points(b.seam.Base.Points), seam.HandTouch)
		return plane.Normal, err == nil
	}
	return r3.Vec{}, false
}
