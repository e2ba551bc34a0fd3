package seam

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Outward is evidence for which of its two sides a plate is welded on. The
// zero value is no evidence and decides nothing.
type Outward struct {
	toward []r3.Vec // unit, each out of the plate as far as it goes
	why    string
}

// MinLook is the least angle (rad) between a plate's surface and a direction
// that is to decide its outward side: 10 deg, what a hand-guided torch may err
// by (common practice, no source).
const MinLook = 10 * math.Pi / 180

// TowardTorch is the evidence of torch poses (frameFromTip) taught at the seam:
// the welded side is the one on which the torch body is.
func TowardTorch(frameFromTip ...se3.Pose) Outward {
	o := Outward{why: fmt.Sprintf("towards the torch as taught at %d points", len(frameFromTip))}
	for _, p := range frameFromTip {
		o.toward = append(o.toward, p.R.Z().Neg())
	}
	return o
}

// TowardSide is the evidence of a stated direction, of any length, with the
// words in which it was stated, such as "left of the travel".
func TowardSide(dir r3.Vec, words string) Outward {
	return Outward{toward: []r3.Vec{dir.Unit()}, why: words}
}

// decide returns n or -n, the one on the side of the evidence, and what decided.
// It fails without evidence, where all of it lies within MinLook of the plate,
// and where two pieces of it outside MinLook contradict each other.
func (o Outward) decide(n r3.Vec) (r3.Vec, string, error) {
	if len(o.toward) == 0 {
		return n, "", fmt.Errorf("seam: nothing says which side of the plate is welded; give the torch as taught, or a side")
	}
	var steepest float64 // rad, signed: above the surface on n's side
	var front, back bool
	for _, d := range o.toward {
		look := math.Atan2(d.Dot(n), d.Reject(n).Norm())
		front, back = front || look >= MinLook, back || look <= -MinLook
		if math.Abs(look) > math.Abs(steepest) {
			steepest = look
		}
	}
	switch {
	case front && back:
		return n, "", fmt.Errorf("seam: which side of the plate is welded is contradicted (%s): some of it lies on one side of the plate, some on the other", o.why)
	case !front && !back:
		return n, "", fmt.Errorf("seam: which side of the plate is welded stays open (%s): it lies only %.1f deg from the plate's surface, at least %.0f are needed; state the side",
			o.why, math.Abs(deg(steepest)), deg(MinLook))
	case back:
		n = n.Neg()
	}
	return n, fmt.Sprintf("%s, %.0f deg from the surface", o.why, math.Abs(deg(steepest))), nil
}

// StandsBehind tells on which side of the travel the other plate stands from
// torch poses (frameFromTip) taught along the path: across from the torch body.
// Each pose is looked at where its tip is nearest to the path. It returns the
// side and what decided, and fails as evidence for a plate's side does: without
// poses, where all torches lean less than MinLook, and where two contradict.
func StandsBehind(path curve.Curve, base Face, frameFromTip ...se3.Pose) (Side, string, error) {
	o := TowardTorch(frameFromTip...)
	for i, pose := range frameFromTip {
		p, t := path.At(path.Nearest(pose.P))
		m := base.Normal(p, t).Reject(t).Unit()
		e := o.toward[i]
		o.toward[i] = r3.Vec{X: e.Dot(m.Cross(t)), Y: e.Dot(t), Z: e.Dot(m)} // left, ahead, up
	}
	left := r3.Vec{X: 1}
	open, why, err := o.decide(left)
	if err != nil {
		return 0, "", fmt.Errorf("the side on which the upright stands: %w", err)
	}
	if open == left {
		return Right, "across from the torch: " + why, nil
	}
	return Left, "across from the torch: " + why, nil
}
