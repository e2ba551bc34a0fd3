package plan

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"seamwright/bench/finding"
	"seamwright/unit"
	"seamwright/weld/seam"
)

// How a wire feed is said that is to be set, and a length of seam over which the
// torch turns.
var (
	asFeed  = manner{unit.WireFeed, [...]int{unit.Metric: 1, unit.InchPound: 0}}
	asReach = manner{unit.Length, [...]int{unit.Metric: 0, unit.InchPound: 1}}
)

// remedies are what would mend the corners of a pass, in words, each computed
// and held against the limits like the plan itself; empty where nothing tried
// does.
type remedies struct{ fatText, thinText, steepText string }

func mend(f finding.Finding, text string) finding.Finding {
	if text == "" {
		return f
	}
	return f.Mend("%s", text)
}

func (r remedies) fat(f finding.Finding) finding.Finding   { return mend(f, r.fatText) }
func (r remedies) thin(f finding.Finding) finding.Finding  { return mend(f, r.thinText) }
func (r remedies) steep(f finding.Finding) finding.Finding { return mend(f, r.steepText) }

// help looks for what would mend the corners that are fat, thin or steep.
func (c *cornerCheck) help(ctx context.Context) (remedies, error) {
	var r remedies
	var fat []string
	sharp := func(t *CornerTruth) bool { return t.Sharp >= 0 }
	if slices.ContainsFunc(c.fat(), sharp) || slices.ContainsFunc(c.steep(), sharp) {
		text, err := c.spread(ctx)
		if err != nil {
			return r, err
		}
		r.steepText = text
		if text != "" {
			fat = append(fat, text)
		}
	}
	if slices.ContainsFunc(c.fat(), sharp) {
		text, err := c.arcOut(ctx)
		if err != nil {
			return r, err
		}
		if text != "" {
			fat = append(fat, text)
		}
	} else if len(c.fat()) > 0 {
		text, err := c.slower(ctx)
		if err != nil {
			return r, err
		}
		fat = append(fat, text)
	}
	r.fatText = strings.Join(fat, "; or ")
	var err error
	if len(c.thin()) > 0 {
		r.thinText, err = c.fuller(ctx)
	}
	return r, err
}

// spread looks for shares of the turns before and behind the corners that bring
// leg and travel angle inside, the least that do; where none does, the shares
// with the smallest leg whose angles are inside, and the feed that does the rest.
func (c *cornerCheck) spread(ctx context.Context) (string, error) {
	var r *profiler
	var p *Profile
	var best spreading
	for _, s := range c.spreadings() {
		tried, profile, err := c.try(ctx, trial{shares: s.shares})
		if err != nil {
			return "", err
		}
		if profile == nil || len(c.on(profile).steep()) > 0 {
			continue
		}
		if len(c.on(profile).fat()) == 0 {
			return c.spreadText(s, profile), nil
		}
		if p == nil {
			best, r, p = s, tried, profile
		}
	}
	if p == nil {
		return "", nil
	}
	text := c.spreadText(best, p)
	if feed := c.turnFeed(r, p); feed != "" {
		text += "; " + feed
	}
	return text, nil
}

// on is the check of another profile of the same pass.
func (c *cornerCheck) on(p *Profile) *cornerCheck {
	copied := *c
	copied.profile = p
	return &copied
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

// fattest is the largest leg at any corner, m.
func fattest(p *Profile) float64 {
	var leg float64
	for _, t := range p.Corners {
		leg = max(leg, t.LegMost)
	}
	return leg
}

// leastTurnFeed is the least wire feed while the torch turns, over that of the
// seam, dimensionless: the least at which craters are filled. Common practice, no
// source.
const leastTurnFeed = 0.6

// turnFeed says the feed while the torch turns that brings the fattest corner to
// its limit, and the leg that it gives; empty where it would be too little for
// the arc. The metal of a stand goes with its feed.
func (c *cornerCheck) turnFeed(r *profiler, p *Profile) string {
	at := func(feed float64) (*Profile, bool) {
		less := *r
		less.turnFeed = feed
		profile, err := less.profile()
		return profile, err == nil
	}
	none, ok := at(1e-6)
	if !ok || fattest(none) >= p.LegMost {
		return ""
	}
	// The area, which is linear in the feed, goes with the square of the leg.
	square := func(leg float64) float64 { return leg * leg }
	share := (square(p.LegMost) - square(fattest(none))) / (square(fattest(p)) - square(fattest(none)))
	full := c.pass.Size.Feed
	feed := c.down(asFeed, share*full)
	if feed < leastTurnFeed*full {
		return ""
	}
	profile, ok := at(feed / full)
	if !ok || len(c.on(profile).fat()) > 0 {
		return ""
	}
	return fmt.Sprintf("with %s of wire while it turns a leg up to %s", c.say(asFeed, feed), c.say(asSize, fattest(profile)))
}

// down is a quantity (SI) rounded down to the digits with which it is said.
func (w words) down(m manner, si float64) float64 {
	u, scale := w.unit(m.kind), math.Pow(10, float64(m.decimals[w.system]))
	return math.Floor(u.Value(si)*scale+1e-6) / scale / u.Value(1)
}

// arcOut says what comes of putting the arc out for the turn, which is what two
// seams that meet in the corner do.
func (c *cornerCheck) arcOut(ctx context.Context) (string, error) {
	shares := c.shares()
	for i := range shares {
		shares[i] = seam.Share{ArcOff: true}
	}
	_, p, err := c.try(ctx, trial{shares: shares})
	if err != nil || p == nil || len(c.on(p).fat()) > 0 {
		return "", err
	}
	return fmt.Sprintf("corners: {arc: off}, or two seams that meet there, gives a leg up to %s", c.say(asSize, fattest(p))), nil
}

// slower says the speed that the arm holds in a bend, with the feed that gives
// the leg at it, for the whole seam.
func (c *cornerCheck) slower(ctx context.Context) (string, error) {
	t := worst(c.fat(), func(t *CornerTruth) float64 { return t.LegMost })
	size := &c.pass.Size
	if !(t.SpeedLeast < size.Travel*(1-thinSpeed)) {
		return "", nil
	}
	travel := c.down(asSpeed, t.SpeedLeast)
	if travel <= 0 {
		return "", nil
	}
	feed := size.Feed * travel / size.Travel
	_, p, err := c.try(ctx, trial{travel: travel, feed: feed / size.Feed})
	if err != nil || p == nil || len(c.on(p).fat()) > 0 {
		return "", err
	}
	return fmt.Sprintf("weld the seam at %s with %s of wire: a leg up to %s", c.say(asSpeed, travel), c.say(asFeed, feed), c.say(asSize, fattest(p))), nil
}

// fuller says the speed that gives the leg everywhere.
func (c *cornerCheck) fuller(ctx context.Context) (string, error) {
	t := worst(c.thin(), func(t *CornerTruth) float64 { return -t.LegLeast })
	share := t.LegLeast / c.profile.Leg
	travel := share * share * c.pass.Size.Travel
	_, p, err := c.try(ctx, trial{travel: travel})
	if err != nil || p == nil || len(c.on(p).thin()) > 0 {
		return "", err
	}
	return fmt.Sprintf("speed: %s gives a leg up to %s, nowhere under %s", c.say(asTyped, travel), c.say(asSize, fattest(p)), c.say(asSize, p.Leg)), nil
}

// shares are those of the pass as it is, one for each sharp corner.
func (c *cornerCheck) shares() []seam.Share {
	list := make([]seam.Share, c.seam.Way.Turns())
	for i := range list {
		list[i] = c.seam.Way.Turn(i).Share
	}
	return list
}

// spreading is a choice of shares for all sharp corners of a seam: share is that
// of the corner with the largest turn, the others are in proportion.
type spreading struct {
	share  seam.Share
	shares []seam.Share
	leg    float64 // m, about what comes of it at most; 0 for a bead of a given area
	fits   bool    // the leg does not seem too large
	lean   float64 // rad, furthest from the wanted travel angle
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
