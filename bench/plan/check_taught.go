package plan

import (
	"math"

	"seamwright/bench/finding"
	"seamwright/unit"
)

// taught reports what hand guiding got wrong.
func (c *seamCheck) taught() {
	for i := range c.seam.Taught {
		t := &c.seam.Taught[i]
		if t.Role == RoleApproach || t.Role == RoleRetreat {
			c.offAxis(t)
			continue
		}
		if half := c.pass.Size.WireDiameter / 2; t.Across > half {
			f := c.atPoint(finding.PointOffSeam, t, "%s: the tip at %q is %s off the seam; half a wire is %s", c.doc.Name, t.Label, c.say(asSize, t.Across), c.digits(unit.Length, half, 2))
			c.add(f.Values(c.pair(unit.Length, t.Across, half)))
		}
		if !c.otherSide(t) {
			c.angles(t)
		}
	}
}

// atPoint returns a finding about a taught point.
func (c *seamCheck) atPoint(code finding.Code, t *Taught, format string, args ...any) finding.Finding {
	return finding.Newf(code, finding.AtPoint(c.doc.Name, t.Label), format, args...)
}

// otherSide reports a torch that was taught outside the open joint: on the far
// side of the upright, or from behind the base plate. Either the hand or the
// plate as described is wrong, and only a person knows which.
func (c *seamCheck) otherSide(t *Taught) bool {
	low, high := c.open()
	low, high = low-openSlack, high+openSlack
	if max(low-t.Work, t.Work-high) <= handMost {
		return false
	}
	f := c.atPoint(finding.TaughtOtherSide, t, "%s: %q is taught with work %.0f deg, outside the joint as described, which opens from %.0f to %.0f deg", c.doc.Name, t.Label, t.Work*deg, low*deg, high*deg)
	c.add(f.Values(c.pair(unit.Angle, t.Work, min(max(t.Work, low), high))))
	return true
}

// angles holds the taught angles against the wanted ones. A push taught as a
// drag is called by name, where both lean clearly.
func (c *seamCheck) angles(t *Taught) {
	const lean = 3 * math.Pi / 180
	tolerance := c.doc.Aim.Tolerance
	work, travel := math.Abs(t.Work-t.WantedWork), math.Abs(t.Travel-t.WantedTravel)
	swapped := t.Travel*t.WantedTravel < 0 && math.Abs(t.Travel) > lean && math.Abs(t.WantedTravel) > lean
	if !swapped && max(work, travel) <= tolerance+angleSlack {
		return
	}
	code, measured, limit := finding.TaughtAngleOff, max(work, travel), tolerance
	if swapped {
		code, measured, limit = finding.TaughtPush, t.Travel, t.WantedTravel
	}
	f := c.atPoint(code, t, "%s: %q is taught with work %s, %s; wanted are %s, %s", c.doc.Name, t.Label, degrees(t.Work), leaning(t.Travel), degrees(t.WantedWork), leaning(t.WantedTravel))
	c.add(f.Values(c.pair(unit.Angle, measured, limit)))
}

// offAxis reports an approach or retreat that comes in across the wire.
func (c *seamCheck) offAxis(t *Taught) {
	along := 0.0
	if t.Role == RoleRetreat {
		along = c.seam.Way.Length()
	}
	end := c.seam.Way.At(along).Frame.Encode(c.pass.Aim)
	out := t.BaseFromTip.P.Sub(end.P)
	if out.Norm() < onWeld {
		c.add(c.atPoint(finding.ApproachOffAxis, t, "%s: the %s %q stands on the weld", c.doc.Name, t.Role, t.Label))
		return
	}
	if off := out.Angle(end.R.Z().Neg()); off > axisMost {
		f := c.atPoint(finding.ApproachOffAxis, t, "%s: the %s %q lies %.0f deg off the line of the wire", c.doc.Name, t.Role, t.Label, off*deg)
		c.add(f.Values(c.pair(unit.Angle, off, axisMost)))
	}
}
