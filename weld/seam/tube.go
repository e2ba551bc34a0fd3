package seam

import (
	"fmt"

	"seamwright/geom/curve"
)

// Wall says which wall of a tube is welded. The zero value is "not stated".
type Wall uint8

// The two walls.
const (
	Outside Wall = iota + 1
	Inside
)

// String returns "outside" or "inside".
func (w Wall) String() string {
	switch w {
	case Outside:
		return "outside"
	case Inside:
		return "inside"
	}
	return fmt.Sprintf("wall %d", uint8(w))
}

// TubeOnPlate tells both faces of a tube that stands square on a plate and is
// welded along path, an arc or a full circle: the plate's normal lies along the
// circle's axis, on the side that outward decides, and the tube's wall is the
// cylinder through the circle. It fails for a wall that is not stated and where
// outward does not decide.
func TubeOnPlate(path curve.Arc, wall Wall, outward Outward) (base, other Known, err error) {
	if wall != Outside && wall != Inside {
		return Known{}, Known{}, fmt.Errorf("seam: which wall of the tube is welded is not told; say outside or inside")
	}
	n, why, err := outward.decide(path.Axis())
	if err != nil {
		return Known{}, Known{}, err
	}
	base = Known{Face: Plane{N: n}, Decided: "from the circle: the plate is square to its axis; outward side: " + why}
	other = Known{
		Face:    Cylinder{Point: path.Centre(), Axis: path.Axis(), Outward: wall == Outside},
		Decided: fmt.Sprintf("from the circle: the tube's wall, welded %v", wall),
	}
	return base, other, nil
}
