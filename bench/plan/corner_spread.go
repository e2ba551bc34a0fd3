package plan

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/weld/seam"
)

// spreading is a choice of shares for all sharp corners of a seam: share is that
// of the corner with the largest turn, the others are in proportion.
type spreading struct {
	share  seam.Share
	shares []seam.Share
	leg    float64 // m, about what comes of it at most; 0 for a bead of a given area
	fits   bool    // the leg does not seem too large
	lean   float64 // rad, furthest from the wanted travel angle
}

// spread looks for shares of the turns before and behind the corners that bring
// leg and travel angle inside, the least that do; where none does, the shares
// with the smallest leg whose angles are inside, and the feed that does the rest.
// What a first look at one spin finds is planned as a whole before it is said.
func (c *cornerCheck) spread(ctx context.Context) (string, error) {
	var next []spreading // what is left when nothing fits, the best first
	for _, s := range c.spreadings() {
		_, p, err := c.try(ctx, trial{shares: s.shares, held: true})
		if err != nil {
			return "", err
		}
		if p == nil || len(c.on(p).steep()) > 0 {
			continue
		}
		if len(c.on(p).fat()) == 0 {
			next = append([]spreading{s}, next...)
			break
		}
		next = append(next, s)
	}
	for _, s := range next {
		r, p, err := c.try(ctx, trial{shares: s.shares})
		if err != nil {
			return "", err
		}
		if p == nil || len(c.on(p).steep()) > 0 {
			continue
		}
		text := c.spreadText(s, p)
		if len(c.on(p).fat()) > 0 {
			if feed := c.turnFeed(r, p); feed != "" {
				text += "; " + feed
			}
		}
		return text, nil
	}
	return "", nil
}

// spreadText says what a share does, in the words of the document: "corners:
// {turn: {before: 25 deg over 15 mm, after: 20 deg over 15 mm}} gives a leg up to
// 7.8 mm and the torch from 4.3 deg drag to 20.4 deg push".
func (c *cornerCheck) spreadText(s spreading, p *Profile) string {
	part := func(what string, angle, reach float64) string {
		if angle == 0 {
			return what + ": 0 deg"
		}
		return fmt.Sprintf("%s: %.0f deg over %s", what, angle*deg, c.say(asReach, reach))
	}
	text := fmt.Sprintf("corners: {turn: {%s, %s}} gives ", part("before", s.share.Before, s.share.Ahead), part("after", s.share.After, s.share.Behind))
	if p.Leg > 0 {
		text += fmt.Sprintf("a leg up to %s and ", c.say(asSize, fattest(p)))
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, t := range p.Corners {
		low, high = min(low, t.TravelLeast), max(high, t.TravelMost)
	}
	return text + fmt.Sprintf("the torch from %s to %s", leaning(low), leaning(high))
}

// Shares that are tried: in steps of spreadStep (rad), as a person would set
// them, the best spreadTries of them with the arm.
const (
	spreadStep  = 5 * math.Pi / 180
	spreadTries = 4
)

// spreadings lists the shares whose angles are inside the limits, the least that
// seem to do first.
func (c *cornerCheck) spreadings() []spreading {
	w := c.seam.Way
	largest := 0
	for i := range w.Turns() {
		if t, l := w.Turn(i), w.Turn(largest); l.ArcOff || !t.ArcOff && t.Total > l.Total+1e-9 {
			largest = i
		}
	}
	total := w.Turn(largest).Total
	var list []spreading
	n := int(total/spreadStep + 1e-9)
	for b := range n + 1 {
		for a := range n + 1 - b {
			s := spreading{shares: c.share(float64(b)*spreadStep/total, float64(a)*spreadStep/total)}
			s.share = s.shares[largest]
			if low, high := c.pass.Steepest(); c.lean(&s, low, high) {
				s.leg, s.fits = c.about(s.share)
				list = append(list, s)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b spreading) int {
		if a.fits != b.fits {
			return cmp.Compare(map[bool]int{true: 0, false: 1}[a.fits], map[bool]int{true: 0, false: 1}[b.fits])
		}
		by := roughly(a.leg, b.leg)
		if a.fits {
			by = roughly(a.share.Before+a.share.After, b.share.Before+b.share.After)
		}
		return cmp.Or(by, roughly(a.lean, b.lean))
	})
	return list[:min(len(list), spreadTries)]
}

// share shares out every turn: the fractions before and after of it
// (dimensionless) on the seam, over the usual length or what there is between two
// corners, in the digits in which it is said.
func (c *cornerCheck) share(before, after float64) []seam.Share {
	w := c.seam.Way
	list := make([]seam.Share, w.Turns())
	for i := range list {
		t := w.Turn(i)
		if t.ArcOff { // with the arc out there is nothing to share
			list[i] = t.Share
			continue
		}
		ahead, behind := t.From, c.seam.Length-t.From
		if i > 0 {
			ahead = (t.From - w.Turn(i-1).From) / 2
		}
		if i+1 < len(list) {
			behind = (w.Turn(i+1).From - t.From) / 2
		}
		list[i] = seam.Share{
			Before: before * t.Total, After: after * t.Total,
			Ahead: c.down(asReach, min(ahead, seam.DefaultReach)), Behind: c.down(asReach, min(behind, seam.DefaultReach)),
		}
		if list[i].Ahead == 0 {
			list[i].Before = 0
		}
		if list[i].Behind == 0 {
			list[i].After = 0
		}
	}
	return list
}

// lean fills in how far the torch leans off the wanted travel angle at any
// corner, and reports whether it stays between two angles (rad). It leans most
// where the turn before a corner ends and where that behind it begins.
func (c *cornerCheck) lean(s *spreading, low, high float64) bool {
	w, err := seam.NewWay(c.seam.Geometry, s.shares...)
	if err != nil {
		return false
	}
	for i := range w.Turns() {
		t := w.Turn(i)
		for _, u := range []float64{t.Start - sideStep, t.End + sideStep} {
			travel := w.At(u).True(c.pass.Aim).Travel
			if travel < low || travel > high {
				return false
			}
			s.lean = max(s.lean, math.Abs(travel-c.pass.Aim.Travel))
		}
	}
	return true
}

// about is roughly the leg (m) that comes of a share at the fattest sharp corner,
// whose stand shortens by what is turned on the seam, and whether it is inside.
func (c *cornerCheck) about(s seam.Share) (leg float64, fits bool) {
	p := c.profile
	if p.Leg == 0 {
		return 0, true
	}
	var t *CornerTruth
	for i := range p.Corners {
		if k := &p.Corners[i]; k.Sharp >= 0 && (t == nil || k.InPlace > t.InPlace) {
			t = k
		}
	}
	left := c.seam.Way.Turn(t.Sharp).Total - s.Before - s.After
	hold := left/turnMost + turnMost/turnAccel
	if t.Hold > 0 {
		hold = t.Hold + (left-t.InPlace)/turnMost
	}
	// A lump is LumpLength legs long: the area grows by travel*hold/(length) of
	// the bead's.
	leg = p.Leg * math.Sqrt(1+c.pass.Size.Travel*max(hold, 0)/(seam.LumpLength*p.Leg))
	return leg, leg <= p.LegMost+legSlack
}
