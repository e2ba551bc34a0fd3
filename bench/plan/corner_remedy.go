package plan

import (
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

// on is the check of another profile of the same pass.
func (c *cornerCheck) on(p *Profile) *cornerCheck {
	copied := *c
	copied.profile = p
	return &copied
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
