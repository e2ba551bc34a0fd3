package plan

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/weld/seam"
)

func (b *seamBuilder) plates(path curve.Curve) (base, other seam.Known, err error) {
	base, err = b.basePlate(path)
	if err != nil {
		return base, other, fmt.Errorf("base plate: %w", err)
	}
	other, err = b.otherPlate(path, base)
	if err != nil {
		return base, other, fmt.Errorf("upright: %w", err)
	}
	return base, other, nil
}

func (b *seamBuilder) basePlate(path curve.Curve) (seam.Known, error) {
	p := &b.seam.Base
	switch p.Kind {
	case job.PlateUp:
		return seam.Up(path, b.up)
	case job.PlateDown:
		return seam.Down(path, b.up)
	case job.PlateLevel:
		return seam.Level(path, b.up)
	}
	return b.measured(p)
}

// measured tells a plate from directions or touches, which serve for either
// plate.
func (b *seamBuilder) measured(p *job.Plate) (seam.Known, error) {
	torch := seam.TowardTorch(b.torchPoses()...)
	switch p.Kind {
	case job.PlateDirection:
		return seam.Direction(p.Direction, nil)
	case job.PlateTouched:
		return seam.Touched(b.points(p.Points), seam.HandTouch, torch)
	case job.PlateTouchedVertical:
		return seam.TouchedVertical(b.points(p.Points), b.up, seam.HandTouch, torch)
	}
	return seam.Known{}, fmt.Errorf("%q does not tell this plate", p.Kind)
}

func (b *seamBuilder) otherPlate(path curve.Curve, base seam.Known) (seam.Known, error) {
	p := &b.seam.Other
	switch p.Kind {
	case job.PlateUnstated:
		return seam.Known{}, nil
	case job.PlateLeft:
		return seam.Stands(base.Face, seam.Left, math.Pi/2)
	case job.PlateRight:
		return seam.Stands(base.Face, seam.Right, math.Pi/2)
	case job.PlateAngleLeft:
		return seam.Stands(base.Face, seam.Left, p.Angle)
	case job.PlateAngleRight:
		return seam.Stands(base.Face, seam.Right, p.Angle)
	case job.PlateTubeOutside, job.PlateTubeInside:
		return b.tube(path, base)
	}
	return b.measured(p)
}

func (b *seamBuilder) tube(path curve.Curve, base seam.Known) (seam.Known, error) {
	arc, ok := path.(curve.Arc)
	if !ok {
		return seam.Known{}, fmt.Errorf("a tube wall needs an arc or a circle, and this seam is a line")
	}
	wall := seam.Outside
	if b.seam.Other.Kind == job.PlateTubeInside {
		wall = seam.Inside
	}
	p, t := path.At(0)
	_, other, err := seam.TubeOnPlate(arc, wall, seam.TowardSide(base.Face.Normal(p, t), "the base plate's face"))
	return other, err
}
