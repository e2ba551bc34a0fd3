package cell

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Torch is a torch by the measurements that a shop can make with a ruler and a
// protractor. Lengths are metres, angles radians.
//
// The torch's body leaves the flange square to it; the neck bends in one plane
// and ends in the nozzle, whose axis is the wire's. With Turn zero the neck
// leans towards the flange's +x.
type Torch struct {
	// Body is the distance from the flange face to the middle of the bend,
	// along the flange's axis; Neck from there along the wire to the nozzle's
	// end.
	Body, Neck float64
	// NeckAngle is the bend: 0 for a straight torch, up to pi/2 and beyond for
	// a goose neck. Turn is the turn of the torch about the flange's axis.
	NeckAngle, Turn float64
	// Sideways is the offset (x, y) of the body's axis in the flange's face.
	Sideways [2]float64
	// TipRecess is how far the contact tip sits inside the nozzle, negative
	// where it sticks out; StickOut the length from the nozzle's end to the
	// wire's end. Together they are the contact-tip-to-work distance.
	TipRecess, StickOut float64
}

// FlangeFromTip returns the tip frame in the flange: origin at the wire's end,
// z along the wire out of the nozzle, x towards the side to which neck and
// body lean, seen from the wire's end.
func (t Torch) FlangeFromTip() (se3.Pose, error) {
	if err := t.check(); err != nil {
		return se3.Pose{}, err
	}
	bend := se3.Pose{
		R: se3.RotZ(t.Turn),
		P: r3.Vec{X: t.Sideways[0], Y: t.Sideways[1], Z: t.Body},
	}
	wire := se3.Pose{R: se3.RotY(t.NeckAngle)}
	wire.P = wire.R.Z().Scale(t.Neck + t.StickOut)
	return bend.Mul(wire), nil
}

// ContactTipDistance returns the contact-tip-to-work distance in metres that
// holds when the wire's end touches the work.
func (t Torch) ContactTipDistance() float64 { return t.TipRecess + t.StickOut }

func (t Torch) check() error {
	switch {
	case !(t.Body >= 0 && t.Body < 2):
		return fmt.Errorf("torch body %.1f mm: 0 to 2000 mm is allowed", t.Body*1e3)
	case !(t.Neck > 0 && t.Neck < 1):
		return fmt.Errorf("torch neck %.1f mm: more than 0 and less than 1000 mm is allowed", t.Neck*1e3)
	case !(math.Abs(t.NeckAngle) <= 0.75*math.Pi):
		return fmt.Errorf("neck angle %.1f deg: -135 to 135 deg is allowed", t.NeckAngle*180/math.Pi)
	case !(t.StickOut > 0 && t.StickOut < 0.1):
		return fmt.Errorf("stick-out %.1f mm: more than 0 and less than 100 mm is allowed", t.StickOut*1e3)
	case !(t.ContactTipDistance() > 0):
		return fmt.Errorf("tip recess %.1f mm and stick-out %.1f mm leave no distance from contact tip to work", t.TipRecess*1e3, t.StickOut*1e3)
	}
	return nil
}
