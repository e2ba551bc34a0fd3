package seam

import (
	"fmt"

	"seamwright/geom/curve"
	"seamwright/geom/se3"
)

// Moved returns the seam, given in frame a, as seen from frame b: after the
// part or the cart has moved, path and faces move together.
func (s *Seam) Moved(bFromA se3.Pose) *Seam {
	return s.mapped(curve.Moved(s.spec.Path, bFromA), func(f Face) Face { return f.moved(bFromA) })
}

func (f Plane) moved(bFromA se3.Pose) Face { return Plane{N: bFromA.Dir(f.N)} }

func (f Cylinder) moved(bFromA se3.Pose) Face {
	return Cylinder{Point: bFromA.Apply(f.Point), Axis: bFromA.Dir(f.Axis), Outward: f.Outward}
}

func (f Towards) moved(bFromA se3.Pose) Face { return Towards{Dir: bFromA.Dir(f.Dir)} }

func (f Upright) moved(bFromA se3.Pose) Face {
	f.On = f.On.moved(bFromA)
	return f
}

// Trimmed returns the part of the seam from one arc length to another, m: a weld
// that is begun anew part of the way. It fails where curve.Trim does.
func (s *Seam) Trimmed(from, to float64) (*Seam, error) {
	path, err := curve.Trim(s.spec.Path, from, to)
	if err != nil {
		return nil, fmt.Errorf("seam: %w", err)
	}
	return s.mapped(path, func(f Face) Face { return f }), nil
}
