package plan

import (
	"context"
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/robot/motion"
	"seamwright/unit"
)

// keyedTurn is how far a commanded move may turn the torch off the planned one,
// rad (2 deg): twice what the moves are made for, so that spin and path together
// may use it.
const keyedTurn = 2 * knotTolerance

// cornerCheck holds the profile of one pass against the limits of corners.
type cornerCheck struct {
	words
	maker   *maker
	index   passAt
	seam    *Seam
	pass    *Pass
	name    string // of the pass
	profile *Profile
	found   []finding.Finding
}

// corners makes the profile of a pass and holds it against the limits of corners.
func (m *maker) corners(ctx context.Context, at passAt) error {
	c := cornerCheck{words: m.words, maker: m, index: at, seam: &m.plan.Seams[at.seam], pass: m.pass(at)}
	c.name = c.seam.PassName(c.pass)
	r, err := m.profiler(at.seam, c.pass)
	if err != nil {
		return err
	}
	if c.profile, err = r.profile(); err != nil {
		f := finding.Newf(finding.CornerLeg, finding.AtSeam(c.seam.Name), "%s: what comes out along the seam cannot be told: %v", c.name, err)
		m.bent[at.seam][at.pass] = []finding.Finding{f.As(finding.Stop)}
		return nil
	}
	c.pass.Profile = c.profile
	c.untold()
	fat, thin, steep := c.fat(), c.thin(), c.steep()
	c.tooFast()
	c.offPath()
	if len(fat)+len(thin)+len(steep) > 0 {
		help, err := c.help(ctx)
		if err != nil {
			return err
		}
		c.legs(fat, thin, help)
		c.angles(steep, help)
	}
	m.bent[at.seam][at.pass] = c.found
	return nil
}

// untold reports the corners whose leg cannot be told.
func (c *cornerCheck) untold() {
	for i := range c.profile.Corners {
		if t := &c.profile.Corners[i]; math.IsNaN(t.LegMost) {
			f := c.newf(finding.CornerLeg, t.LegMostAt, "%s at %s: the leg cannot be told: so much metal, or plates at such an angle, make no fillet", c.name, c.tape(t.LegMostAt))
			c.found = append(c.found, f.As(finding.Stop))
		}
	}
}

// fat returns the corners whose leg is over the limit, thin those whose leg is
// under what is wanted, steep those at which the torch stands too steep.
func (c *cornerCheck) fat() []*CornerTruth {
	return c.where(func(t *CornerTruth) bool { return c.profile.Leg > 0 && t.LegMost > c.profile.LegMost+legSlack })
}

func (c *cornerCheck) thin() []*CornerTruth {
	return c.where(func(t *CornerTruth) bool { return t.LegLeast < c.profile.Leg-legSlack })
}

func (c *cornerCheck) steep() []*CornerTruth {
	low, high := c.pass.Steepest()
	return c.where(func(t *CornerTruth) bool {
		return t.TravelLeast < low-cornerAngleSlack || t.TravelMost > high+cornerAngleSlack
	})
}

// cornerAngleSlack is half the last digit in which angles are said, rad.
const cornerAngleSlack = 0.05 * math.Pi / 180

// Steepest returns the limits of the travel angle at a corner, rad: an angle that
// is asked for on the straight is no fault of the corner.
func (p *Pass) Steepest() (low, high float64) {
	return min(cornerDrag, p.Aim.Travel), max(cornerPush, p.Aim.Travel)
}

func (c *cornerCheck) where(is func(*CornerTruth) bool) []*CornerTruth {
	var list []*CornerTruth
	for i := range c.profile.Corners {
		if t := &c.profile.Corners[i]; is(t) {
			list = append(list, t)
		}
	}
	return list
}

// worst returns the corner with the highest rank, the first of equals.
func worst(list []*CornerTruth, rank func(*CornerTruth) float64) *CornerTruth {
	best := list[0]
	for _, t := range list[1:] {
		if rank(t) > rank(best)+1e-9 {
			best = t
		}
	}
	return best
}

// others says at which other corners the same was found: "; so at 250 and 400
// mm".
func (c *cornerCheck) others(list []*CornerTruth, not *CornerTruth) string {
	var at []string
	for _, t := range list {
		if t != not {
			at = append(at, c.tape(t.Bend.From))
		}
	}
	if len(at) == 0 {
		return ""
	}
	unit := at[0][strings.LastIndex(at[0], " "):]
	for i := range at[:len(at)-1] {
		at[i] = strings.TrimSuffix(at[i], unit)
	}
	return "; so at " + strings.Join(at, ", ")
}

// legs reports the corners that are too fat and those that are too thin.
func (c *cornerCheck) legs(fat, thin []*CornerTruth, help remedies) {
	name, p := c.name, c.profile
	if len(fat) > 0 {
		t := worst(fat, func(t *CornerTruth) float64 { return t.LegMost })
		f := c.newf(finding.CornerLeg, t.place(t.LegMostAt), "%s at %s: the leg comes to %s %s, %s is wanted and %s the most%s",
			name, c.tape(t.place(t.LegMostAt)), c.say(asSize, t.LegMost), c.why(t), c.say(asSize, p.Leg), c.say(asSize, p.LegMost), c.others(fat, t))
		c.found = append(c.found, help.fat(f.Values(c.pair(unit.Length, t.LegMost, p.LegMost))))
	}
	if len(thin) > 0 {
		t := worst(thin, func(t *CornerTruth) float64 { return -t.LegLeast })
		f := c.newf(finding.CornerLeg, t.LegLeastAt, "%s at %s: the leg comes to %s only, %s is wanted: the same metal between plates that stand at another angle%s",
			name, c.tape(t.LegLeastAt), c.say(asSize, t.LegLeast), c.say(asSize, p.Leg), c.others(thin, t))
		c.found = append(c.found, help.thin(f.Values(c.pair(unit.Length, t.LegLeast, p.Leg))))
	}
}

// place is where a corner is said to be, m: a sharp one where it is, a round one
// where its worst is.
func (t *CornerTruth) place(worst float64) float64 {
	if t.Sharp >= 0 {
		return t.Bend.From
	}
	return worst
}

// why says what makes a corner fat.
func (c *cornerCheck) why(t *CornerTruth) string {
	switch {
	case t.Hold > 0:
		return fmt.Sprintf("where the arc stands for %.1f s while the torch turns by %.0f deg", t.Hold, t.InPlace*deg)
	case t.SpeedLeast > 0 && t.SpeedLeast < c.pass.Size.Travel*(1-thinSpeed):
		return fmt.Sprintf("in the bend, where %s of %s are held", c.say(asSpeed, t.SpeedLeast), c.say(asSpeed, c.pass.Size.Travel))
	}
	return "where the plates stand at another angle"
}

// angles reports the corners at which the torch stands too steep.
func (c *cornerCheck) angles(steep []*CornerTruth, help remedies) {
	if len(steep) == 0 {
		return
	}
	low, high := c.pass.Steepest()
	over := func(t *CornerTruth) float64 { return max(low-t.TravelLeast, t.TravelMost-high) }
	t := worst(steep, over)
	measured, limit := t.TravelMost, high
	if low-t.TravelLeast > t.TravelMost-high {
		measured, limit = t.TravelLeast, low
	}
	f := c.newf(finding.CornerTravel, t.Bend.From, "%s at %s: the torch comes to stand at %s to the joint while it turns, %s is the most%s",
		c.name, c.tape(t.Bend.From), leaning(measured), leaning(limit), c.others(steep, t))
	c.found = append(c.found, help.steep(f.Values(c.pair(unit.Angle, measured, limit))))
}

// newf returns a finding at a place of the seam (m).
func (c *cornerCheck) newf(code finding.Code, at float64, format string, args ...any) finding.Finding {
	return finding.Newf(code, c.at(c.seam.Name, c.pass.Number, at), format, args...)
}

// tooFast reports the places at which the torch would have to turn faster than
// it may.
func (c *cornerCheck) tooFast() {
	t := c.pass.Motion.search.track
	for _, law := range c.pass.Motion.laws.weld {
		for _, slow := range law.Slow() {
			if slow.Cause != motion.SlowCap {
				continue
			}
			where, speed := t.arc(slow.Where), c.pass.Size.Travel
			rate := turnMost * slow.Demand / slow.Limit
			f := c.newf(finding.CornerTurn, where, "%s at %s: at %s the torch would have to turn at %.0f deg/s in the bend, %.0f is the most; it is held to %s there",
				c.name, c.tape(where), c.say(asSpeed, speed), rate*deg, turnMost*deg, c.say(asSpeed, slow.Limit))
			c.found = append(c.found, f.Values(c.pair(unit.AngularSpeed, rate, turnMost)))
		}
	}
}

// offPath reports a commanded move that leaves the way of the torch.
func (c *cornerCheck) offPath() {
	k := c.profile.Keyed
	if k.Off > 1.05*chordMost {
		f := c.newf(finding.MoveOffPath, k.Arc, "%s at %s: the move that ends there runs up to %s off the path", c.name, c.tape(k.Arc), c.digits(unit.Length, k.Off, 2))
		c.found = append(c.found, f.Values(c.pair(unit.Length, k.Off, chordMost)))
	}
	if k.Turn > keyedTurn {
		f := c.newf(finding.MoveOffPath, k.Arc, "%s: the moves turn the torch up to %.1f deg off the planned one", c.name, k.Turn*deg)
		c.found = append(c.found, f.Values(c.pair(unit.Angle, k.Turn, keyedTurn)))
	}
}
