package kinematics

import (
	"fmt"
	"math"

	"seamwright/geom/se3"
)

// WithZeros returns the same arm whose joint values are those that a controller
// shows:
//
//	shown = sign * value + offset
//
// with one offset (rad, m for a sliding joint) and one sign (+1 or -1) for each
// joint of c, base first. Limits are carried over; velocities and efforts stay.
// It fails where a count is wrong, an offset is not finite or a sign is not one.
func (c *Chain) WithZeros(offsets []float64, signs []int) (*Chain, error) {
	if len(offsets) != c.n || len(signs) != c.n {
		return nil, fmt.Errorf("joint zeros: found %d offsets and %d signs; allowed: %d of each, one for each moving joint; complete the lists", len(offsets), len(signs), c.n)
	}
	for i := range c.n {
		if v := offsets[i]; math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("joint zeros: found offset %v for joint %d (%q); allowed: a finite number of rad or m; correct it", v, i+1, c.joints[i].Name)
		}
		if signs[i] != 1 && signs[i] != -1 {
			return nil, fmt.Errorf("joint zeros: found sign %d for joint %d (%q); allowed: 1 or -1; correct it", signs[i], i+1, c.joints[i].Name)
		}
	}
	out := &Chain{n: c.n}
	at := se3.Identity()
	for i := range c.n {
		sign := float64(signs[i])
		out.lines[i] = line{dir: at.Dir(c.lines[i].dir).Scale(sign), at: at.Apply(c.lines[i].at)}
		out.joints[i] = c.joints[i].shown(offsets[i], sign)
		at = at.Mul(c.motionOf(i, -sign*offsets[i])) // this joint where the controller shows zero
	}
	out.zero = at.Mul(c.zero)
	out.form = compile(out.lines[:out.n], out.joints[:out.n], out.zero)
	out.links = append([]linkStep(nil), c.links...)
	for i := range out.links {
		s := &out.links[i]
		if s.joint < 0 {
			continue
		}
		sign := float64(signs[s.joint])
		if v := -sign * offsets[s.joint]; s.sliding {
			s.origin.P = s.origin.P.AddScaled(v, s.origin.Dir(s.axis))
		} else {
			s.origin.R = s.origin.R.Mul(se3.RotAxis(s.axis, v))
		}
		s.axis = s.axis.Scale(sign)
	}
	return out, nil
}

// shown returns the joint with the limits of sign * value + offset.
func (j Joint) shown(offset, sign float64) Joint {
	j.Lower, j.Upper = sign*j.Lower+offset, sign*j.Upper+offset
	if sign < 0 {
		j.Lower, j.Upper = j.Upper, j.Lower
	}
	return j
}
