package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// Limits of a seam as taught.
const (
	fitMost     = 0.5e-3             // largest residual of a fit, m; common practice, no source
	seamLeast   = 2e-3               // shortest seam that is meant, m; common practice, no source
	radiusMost  = 1e-3               // radius against the drawing's, m; common practice, no source
	axisMost    = 30 * math.Pi / 180 // approach off the wire, rad; common practice, no source
	steepTravel = 20 * math.Pi / 180 // workshop article (READ, secondary)
	inPlateMost = 2 * math.Pi / 180  // seam against plate, rad: beyond hand-guided tips over 150 mm
	doubtful    = weld.PositionDoubt // rad
	angleSlack  = 1e-9               // rad, rounding
	openSlack   = 5 * math.Pi / 180  // a torch lies in the open joint with this to spare, rad
	handMost    = 10 * math.Pi / 180 // the most that hand guiding errs by, rad; common practice, no source
)

// checkSeam holds a seam's points, plates and wanted torch against sense.
func checkSeam(j *job.Job, s *job.Seam, shape *seamShape, p *Seam) []finding.Finding {
	where := finding.AtSeam(s.Name)
	var found []finding.Finding
	if shape.residual > fitMost {
		f := finding.Newf(finding.SeamFitResidual, finding.AtPoint(s.Name, shape.worst), "%s: point %q lies %.1f mm off the %s through all its points", s.Name, shape.worst, shape.residual*1e3, s.Path)
		found = append(found, f.Values(shape.residual*1e3, fitMost*1e3, "mm"))
	}
	if len(shape.order) > 0 {
		found = append(found, finding.Newf(finding.SeamPointsOrder, where, "%s: point %s does not lie beyond the points before it", s.Name, quoted(shape.order)))
	}
	if p.Length < seamLeast {
		found = append(found, finding.Newf(finding.SeamTooShort, where, "%s is %.1f mm long", s.Name, p.Length*1e3).Values(p.Length*1e3, seamLeast*1e3, "mm"))
	}
	if s.Radius > 0 && math.Abs(shape.radius-s.Radius) > radiusMost {
		f := finding.Newf(finding.RadiusDiffers, where, "%s: the points make a radius of %.1f mm, the drawing says %.1f mm", s.Name, shape.radius*1e3, s.Radius*1e3)
		found = append(found, f.Values(shape.radius*1e3, s.Radius*1e3, "mm"))
	}
	found = append(found, checkDirection(s, p)...)
	found = append(found, checkAim(s, p)...)
	return append(found, checkPosition(j, s, p)...)
}

func checkDirection(s *job.Seam, p *Seam) []finding.Finding {
	where := finding.AtSeam(s.Name)
	var found []finding.Finding
	if s.Path == job.PathLine && p.Length >= seamLeast {
		if worth := seam.DirectionWorth(p.Length, seam.HandTouch); worth.Weak {
			f := finding.Newf(finding.SeamDirectionWeak, where, "%s is %.0f mm long: two hand-guided tips tell its direction to %.1f deg only", s.Name, p.Length*1e3, worth.Sigma*deg)
			found = append(found, f.Values(worth.Sigma*deg, seam.WeakDirection*deg, "deg").Mend("give the plates by directions, or points at least %.0f mm apart", worth.Shortest*1e3))
		}
	}
	if off := p.Geometry.OffSquare(); off > inPlateMost {
		f := finding.Newf(finding.SeamNotInPlate, where, "%s runs %.1f deg out of its base plate as described", s.Name, off*deg)
		found = append(found, f.Values(off*deg, inPlateMost*deg, "deg"))
	}
	return found
}

func checkAim(s *job.Seam, p *Seam) []finding.Finding {
	where := finding.AtSeam(s.Name)
	aim := p.Passes[0].Aim
	var found []finding.Finding
	if low, high := openAngles(s, p); aim.Work < low-angleSlack || aim.Work > high+angleSlack {
		limit := high
		if aim.Work < low {
			limit = low
		}
		f := finding.Newf(finding.WorkAngleOutOfSense, where, "%s: at a work angle of %.1f deg the torch lies in a plate or close to it; %.0f to %.0f deg is the open joint", s.Name, aim.Work*deg, low*deg, high*deg)
		if weldKind(s.Joint) == weld.Groove && math.Abs(aim.Work-math.Pi/2) < openSlack {
			f = f.Mend("90 deg from the plate is 0 deg from its normal: work angles here are measured from the normal")
		}
		found = append(found, f.Values(aim.Work*deg, limit*deg, "deg"))
	}
	if math.Abs(aim.Travel) > steepTravel+angleSlack {
		f := finding.Newf(finding.TravelAngleSteep, where, "%s: %s; more than %.0f deg draws air into the gas", s.Name, leaning(aim.Travel), steepTravel*deg)
		found = append(found, f.Values(math.Abs(aim.Travel)*deg, steepTravel*deg, "deg"))
	}
	return found
}

// openAngles are the work angles between the faces of the joint, rad.
func openAngles(s *job.Seam, p *Seam) (low, high float64) {
	if weldKind(s.Joint) == weld.Groove {
		return -math.Pi/2 + openSlack, math.Pi/2 - openSlack
	}
	if s.Joint == weld.OutsideCorner {
		return -math.Pi/2 + openSlack, math.Pi / 2
	}
	// The base plate's own face lies at 90 deg, the upright's at 90 deg less
	// the included angle.
	included := p.Geometry.At(0).Included
	return math.Pi/2 - included + openSlack, math.Pi/2 - openSlack
}

func checkPosition(j *job.Job, s *job.Seam, p *Seam) []finding.Finding {
	limit := p.Position.Limit(j.Code)
	if limit.Distance >= doubtful || limit.Beyond == 0 {
		return nil
	}
	f := finding.Newf(finding.PositionNearLimit, finding.AtSeam(s.Name), "%s is welded in %v, %.1f deg from %v", s.Name, p.Position.Name(j.Code), limit.Distance*deg, limit.Beyond)
	return []finding.Finding{f.Values(limit.Distance*deg, doubtful*deg, "deg")}
}

// checkTaught reports what hand guiding got wrong.
func checkTaught(s *job.Seam, p *Seam, wire float64) []finding.Finding {
	var found []finding.Finding
	for i := range p.Taught {
		t := &p.Taught[i]
		where := finding.AtPoint(s.Name, t.Label)
		if t.Role == RoleApproach || t.Role == RoleRetreat {
			if f, bad := offAxis(s, p, t, where); bad {
				found = append(found, f)
			}
			continue
		}
		if t.Across > wire/2 {
			f := finding.Newf(finding.PointOffSeam, where, "%s: the tip at %q is %.1f mm off the seam; half a wire is %.2g mm", s.Name, t.Label, t.Across*1e3, wire*1e3/2)
			found = append(found, f.Values(t.Across*1e3, wire*1e3/2, "mm"))
		}
		if f, bad := otherSide(s, p, t, where); bad {
			found = append(found, f)
			continue
		}
		found = append(found, checkAngles(s, t, where)...)
	}
	return found
}

// otherSide reports a torch that was taught outside the open joint: on the far
// side of the upright, or from behind the base plate. Either the hand or the
// plate as described is wrong, and only a person knows which.
func otherSide(s *job.Seam, p *Seam, t *Taught, where finding.Place) (finding.Finding, bool) {
	low, high := openAngles(s, p)
	out := max(low-openSlack-t.Work, t.Work-high-openSlack)
	if out <= handMost {
		return finding.Finding{}, false
	}
	f := finding.Newf(finding.TaughtOtherSide, where, "%s: %q is taught with work %.0f deg, outside the joint as described, which opens from %.0f to %.0f deg", s.Name, t.Label, t.Work*deg, (low-openSlack)*deg, (high+openSlack)*deg)
	limit := high + openSlack
	if t.Work < low {
		limit = low - openSlack
	}
	return f.Values(t.Work*deg, limit*deg, "deg"), true
}

// checkAngles holds the taught angles against the wanted ones. A push taught
// as a drag is called by name, where both lean clearly.
func checkAngles(s *job.Seam, t *Taught, where finding.Place) []finding.Finding {
	const lean = 3 * math.Pi / 180
	if t.Travel*t.WantedTravel < 0 && math.Abs(t.Travel) > lean && math.Abs(t.WantedTravel) > lean {
		f := finding.Newf(finding.TaughtPush, where, "%s: %q is taught with work %s, %s; wanted are %s, %s", s.Name, t.Label, degrees(t.Work), leaning(t.Travel), degrees(t.WantedWork), leaning(t.WantedTravel))
		return []finding.Finding{f.Values(t.Travel*deg, t.WantedTravel*deg, "deg")}
	}
	work, travel := math.Abs(t.Work-t.WantedWork), math.Abs(t.Travel-t.WantedTravel)
	if work <= s.Aim.Tolerance+angleSlack && travel <= s.Aim.Tolerance+angleSlack {
		return nil
	}
	f := finding.Newf(finding.TaughtAngleOff, where, "%s: %q is taught with work %s, %s; wanted are %s, %s", s.Name, t.Label, degrees(t.Work), leaning(t.Travel), degrees(t.WantedWork), leaning(t.WantedTravel))
	return []finding.Finding{f.Values(max(work, travel)*deg, s.Aim.Tolerance*deg, "deg")}
}

// degrees prints an angle to a tenth of a degree, without a minus before zero.
func degrees(x float64) string { return degreesText(x) + " deg" }

// offAxis reports an approach or retreat that comes in across the wire.
func offAxis(s *job.Seam, p *Seam, t *Taught, where finding.Place) (finding.Finding, bool) {
	end := p.Geometry.At(0).Encode(p.Passes[0].Aim)
	if t.Role == RoleRetreat {
		end = p.Geometry.At(p.Length).Encode(p.Passes[0].Aim)
	}
	out := t.BaseFromTip.P.Sub(end.P)
	if out.Norm() < 1e-3 {
		return finding.Newf(finding.ApproachOffAxis, where, "%s: the %s %q stands on the weld", s.Name, t.Role, t.Label), true
	}
	off := out.Angle(end.R.Z().Neg())
	if off <= axisMost {
		return finding.Finding{}, false
	}
	f := finding.Newf(finding.ApproachOffAxis, where, "%s: the %s %q lies %.0f deg off the line of the wire", s.Name, t.Role, t.Label, off*deg)
	return f.Values(off*deg, axisMost*deg, "deg"), true
}

// leaning says a travel angle in words: "10.0 deg push".
func leaning(travel float64) string {
	switch {
	case math.Abs(travel) < 0.05/deg:
		return "no push or drag"
	case travel > 0:
		return fmt.Sprintf("%.1f deg push", travel*deg)
	}
	return fmt.Sprintf("%.1f deg drag", -travel*deg)
}

func quoted(labels []string) string {
	q := make([]string, len(labels))
	for i, l := range labels {
		q[i] = fmt.Sprintf("%q", l)
	}
	return strings.Join(q, ", ")
}
