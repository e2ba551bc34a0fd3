package seam

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Mirrored returns the mirror image of the seam, travelled in the image of its
// order: the seam of a left-hand part from that of the right-hand one. An upright
// that stood on the left of the travel stands on its right.
//
// Angles keep their meaning: the same work, travel, offset and distance hold the
// torch in the image of how it was held; see MirroredAim.
func (s *Seam) Mirrored(m curve.Mirror) *Seam {
	return s.mapped(curve.Mirrored(s.spec.Path, m), func(f Face) Face { return f.mirrored(m) })
}

// Reversed returns the same joint travelled the other way. The same aim then
// pushes or drags as before, towards the other end.
func (s *Seam) Reversed() *Seam {
	return s.mapped(curve.Reversed(s.spec.Path), Face.reversed)
}

// mapped returns the seam with another path and its faces changed by change,
// neither of which alters an angle between them.
func (s *Seam) mapped(path curve.Curve, change func(Face) Face) *Seam {
	m := *s
	m.spec.Path = path
	m.spec.Base = change(s.spec.Base)
	if s.spec.Other != nil {
		m.spec.Other = change(s.spec.Other)
	}
	return &m
}

// MirroredAim returns the aim at the mirror image of the seam
// that makes the image of the wire of a: the spin changes its sign, the rest stays.
// In a butt or an edge joint, where positive work leans to the left of travel,
// work and offset change their sign too.
func (s *Seam) MirroredAim(a Aim) Aim {
	a.Spin = -a.Spin
	if flat(s.spec.Joint) {
		a.Work, a.Offset = -a.Work, -a.Offset
	}
	return a
}

func (f Plane) mirrored(m curve.Mirror) Face { return Plane{N: m.Dir(f.N)} }

func (f Cylinder) mirrored(m curve.Mirror) Face {
	return Cylinder{Point: m.Point(f.Point), Axis: m.Dir(f.Axis), Outward: f.Outward}
}

func (f Towards) mirrored(m curve.Mirror) Face { return Towards{Dir: m.Dir(f.Dir)} }

func (f Upright) mirrored(m curve.Mirror) Face {
	return Upright{On: f.On.mirrored(m), Side: f.Side.opposite(), Included: f.Included}
}

func (f Plane) reversed() Face    { return f }
func (f Cylinder) reversed() Face { return f }
func (f Towards) reversed() Face  { return f }

func (f Upright) reversed() Face {
	return Upright{On: f.On.reversed(), Side: f.Side.opposite(), Included: f.Included}
}

// opposite returns the other side.
func (s Side) opposite() Side {
	if s == Left {
		return Right
	}
	return Left
}

// maxRepeats bounds a pattern: more is a slip of the keyboard.
const maxRepeats = 1000

// RepeatAlong returns the poses bFromA that carry a seam (by Seam.Moved) to n
// places in a row, each step (m) further; the first leaves it where it is. It
// fails for a step that is not finite or under 0.1 mm and for an n outside 1 to
// 1000.
func RepeatAlong(step r3.Vec, n int) ([]se3.Pose, error) {
	if !step.IsFinite() || !(step.Norm() >= 1e-4) {
		return nil, fmt.Errorf("seam: a row of seams %.6g m apart: at least 0.1 mm in finite numbers is needed", step.Norm())
	}
	return repeat(n, func(i float64) se3.Pose { return se3.Translation(step.Scale(i)) })
}

// RepeatAround returns the poses bFromA that carry a seam (by Seam.Moved) to n
// places round the axis through point (m), each turned by step (rad, right-
// handed about axis) further; the first leaves it where it is. It fails for an
// axis of no length, numbers that are not finite, a step under 0.1 deg and for
// an n outside 1 to 1000.
func RepeatAround(point, axis r3.Vec, step float64, n int) ([]se3.Pose, error) {
	u := axis.Unit()
	if !point.IsFinite() || !axis.IsFinite() || u == (r3.Vec{}) {
		return nil, fmt.Errorf("seam: seams repeated round an axis through %v along %v: a point and a direction in finite numbers are needed", point, axis)
	}
	if !(math.Abs(step) >= 0.1*math.Pi/180) || math.IsInf(step, 0) {
		return nil, fmt.Errorf("seam: seams repeated every %.3g deg round an axis: at least 0.1 deg is needed", deg(step))
	}
	return repeat(n, func(i float64) se3.Pose {
		r := se3.RotAxis(u, step*i)
		return se3.Pose{R: r, P: point.Sub(r.Apply(point))}
	})
}

// repeat returns the poses of the numbers 0 to n-1.
func repeat(n int, pose func(i float64) se3.Pose) ([]se3.Pose, error) {
	if n < 1 || n > maxRepeats {
		return nil, fmt.Errorf("seam: a seam repeated to %d places: 1 to %d are possible, itself counted", n, maxRepeats)
	}
	poses := make([]se3.Pose, n)
	for i := range poses {
		poses[i] = pose(float64(i))
	}
	return poses, nil
}
