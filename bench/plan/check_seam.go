package plan

import (
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
	"seamwright/weld/seam"
)

// Limits of a seam as taught.
const (
	fitMost     = 0.5e-3             // largest residual of a fit, m; common practice, no source
	seamLeast   = 2e-3               // shortest seam that is meant, m; common practice, no source
	radiusMost  = 1e-3               // radius against the drawing's, m; common practice, no source
	onWeld      = 1e-3               // approach nearer than this to its weld end, m; common practice, no source
	axisMost    = 30 * math.Pi / 180 // approach off the wire, rad; common practice, no source
	steepTravel = 20 * math.Pi / 180 // workshop article (READ, secondary)
	inPlateMost = 2 * math.Pi / 180  // seam against plate, rad: beyond hand-guided tips over 150 mm
	doubtful    = weld.PositionDoubt // rad
	angleSlack  = 1e-9               // rad, rounding
	openSlack   = 5 * math.Pi / 180  // a torch lies in the open joint with this to spare, rad
	handMost    = 10 * math.Pi / 180 // the most that hand guiding errs by, rad; common practice, no source
)

// seamCheck holds one seam and its passes, one after the other, against the
// drawing, the rules of size, the procedure and sense, and gathers what it finds.
type seamCheck struct {
	words
	job     *job.Job
	doc     *job.Seam
	shape   *seamShape
	seam    *Seam
	pass    *Pass
	name    string         // of the pass
	wps     *procedure.WPS // of the seam; nil for none
	set     procedure.Settings
	ceiling Ceiling // of the joint between passes
	found   []finding.Finding

	checkers   checkers
	saidOfSeam map[procedure.Item]bool // what was said for the seam as a whole
}

// take turns to a pass of the seam.
func (c *seamCheck) take(p *Pass) {
	c.pass, c.name, c.set = p, c.seam.PassName(p), settingsOf(c.job, p.Size.Settings)
}

func (c *seamCheck) add(f finding.Finding) { c.found = append(c.found, f) }

// newf returns a finding about the whole seam.
func (c *seamCheck) newf(code finding.Code, format string, args ...any) finding.Finding {
	return finding.Newf(code, finding.AtSeam(c.doc.Name), format, args...)
}

// geometry holds a seam's points, plates and wanted torch against sense.
func (c *seamCheck) geometry() {
	s, shape := c.doc, c.shape
	if shape.residual > fitMost {
		f := finding.Newf(finding.SeamFitResidual, finding.AtPoint(s.Name, shape.worst), "%s: point %q lies %s off the %s through all its points", s.Name, shape.worst, c.say(asSize, shape.residual), s.Path)
		c.add(f.Values(c.pair(unit.Length, shape.residual, fitMost)))
	}
	if len(shape.order) > 0 {
		who, lies := "point", "does not lie beyond the points before it"
		if len(shape.order) > 1 {
			who, lies = "points", "do not lie beyond those before them"
		}
		c.add(c.newf(finding.SeamPointsOrder, "%s: %s %s %s", s.Name, who, quoted(shape.order), lies))
	}
	if length := c.seam.Length; length < seamLeast {
		c.add(c.newf(finding.SeamTooShort, "%s is %s long", s.Name, c.say(asPlace, length)).Values(c.pair(unit.Length, length, seamLeast)))
	}
	if s.Radius > 0 && math.Abs(shape.radius-s.Radius) > radiusMost {
		f := c.newf(finding.RadiusDiffers, "%s: the points make a radius of %s, the drawing says %s", s.Name, c.say(asSize, shape.radius), c.say(asSize, s.Radius))
		c.add(f.Values(c.pair(unit.Length, shape.radius, s.Radius)))
	}
	c.direction()
	c.aim()
	c.position()
	c.along()
}

// direction asks whether the seam is long enough to have one, and whether it
// lies in its plate.
func (c *seamCheck) direction() {
	if c.shape.copied {
		return
	}
	// The document's seam, of which this may be a part.
	s, length := &c.job.Seams[c.shape.index], c.shape.whole
	if s.Path == job.PathLine && length >= seamLeast {
		if worth := seam.DirectionWorth(length, seam.HandTouch); worth.Weak {
			f := finding.Newf(finding.SeamDirectionWeak, finding.AtSeam(s.Name), "%s is %s long: two hand-guided tips tell its direction to %.1f deg only", s.Name, c.tape(length), worth.Sigma*deg)
			c.add(f.Values(c.pair(unit.Angle, worth.Sigma, seam.WeakDirection)).Mend("give the plates by directions, or points at least %s apart", c.tape(worth.Shortest)))
		}
	}
	if off := c.seam.Geometry.OffSquare(); off > inPlateMost {
		f := finding.Newf(finding.SeamNotInPlate, finding.AtSeam(s.Name), "%s runs %.1f deg out of its base plate as described", s.Name, off*deg)
		c.add(f.Values(c.pair(unit.Angle, off, inPlateMost)))
	}
}

// aim holds the wanted torch against the open joint and the gas.
func (c *seamCheck) aim() {
	s, aim := c.doc, c.pass.Aim
	if low, high := c.open(); !aim.FromBisector && (aim.Work < low-angleSlack || aim.Work > high+angleSlack) {
		f := c.newf(finding.WorkAngleOutOfSense, "%s: at a work angle of %.1f deg the torch lies in a plate or close to it; %.0f to %.0f deg is the open joint", s.Name, aim.Work*deg, low*deg, high*deg)
		if weldKind(s.Joint) == weld.Groove && math.Abs(aim.Work-math.Pi/2) < openSlack {
			f = f.Mend("90 deg from the plate is 0 deg from its normal: work angles here are measured from the normal")
		}
		c.add(f.Values(c.pair(unit.Angle, aim.Work, min(max(aim.Work, low), high))))
	}
	if math.Abs(aim.Travel) > steepTravel+angleSlack {
		f := c.newf(finding.TravelAngleSteep, "%s: %s; more than %.0f deg draws air into the gas", s.Name, leaning(aim.Travel), steepTravel*deg)
		c.add(f.Values(c.pair(unit.Angle, math.Abs(aim.Travel), steepTravel)))
	}
}

// open are the work angles between the faces of the joint, rad.
func (c *seamCheck) open() (low, high float64) {
	if weldKind(c.doc.Joint) == weld.Groove {
		return -math.Pi/2 + openSlack, math.Pi/2 - openSlack
	}
	if c.doc.Joint == weld.OutsideCorner {
		return -math.Pi/2 + openSlack, math.Pi / 2
	}
	// The base plate's own face lies at 90 deg, the upright's at 90 deg less
	// the included angle.
	included := c.seam.Geometry.At(0).Included
	return math.Pi/2 - included + openSlack, math.Pi/2 - openSlack
}

func (c *seamCheck) position() {
	if len(c.seam.Lies) > 1 {
		return // it leaves its position, which is said
	}
	position := c.seam.Position
	limit := position.Limit(c.job.Code)
	if limit.Distance >= doubtful || limit.Beyond == 0 {
		return
	}
	f := c.newf(finding.PositionNearLimit, "%s is welded in %v, %.1f deg from %v", c.doc.Name, position.Name(c.job.Code), limit.Distance*deg, limit.Beyond)
	c.add(f.Values(c.pair(unit.Angle, limit.Distance, doubtful)))
}
