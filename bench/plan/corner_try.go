package plan

import (
	"context"

	"seamwright/weld/seam"
)

// trial is a change to a pass that is tried. Zero fields leave it as it is.
type trial struct {
	shares []seam.Share
	travel float64 // m/s
	feed   float64 // over the set's, dimensionless
	// held keeps the spin of the pass, where it has one: a first look, at a
	// thirtieth of the time of the whole search.
	held bool
}

// try plans the pass with a change: posture, times and profile, as for the plan.
// It returns no profile where the arm or the metal does not allow it.
func (c *cornerCheck) try(ctx context.Context, t trial) (*profiler, *Profile, error) {
	m, shape, pass := c.maker, &c.maker.shapes[c.index.seam], *c.pass
	motion := *pass.Motion
	pass.Motion = &motion
	if t.travel > 0 {
		pass.Size.Travel = t.travel
	}
	if t.shares != nil {
		w, err := seam.NewWay(c.seam.Geometry, t.shares...)
		if err != nil {
			return nil, nil, nil // no room on the seam
		}
		track := newTrack(w, pass.Aim)
		in, out := m.leaves(shape, track)
		search := m.searchFor(shape, track)
		if t.held && !motion.SpinVaries() {
			search.wish, search.fixed = motion.Stations[motion.First].Spin, true
		}
		if err := search.withLeaves(ctx, &pass, in, out); err != nil || pass.Motion == nil {
			return nil, nil, err
		}
	}
	if err := m.timing(&pass); err != nil {
		return nil, nil, err
	}
	r, err := m.profiler(c.index.seam, &pass)
	if err != nil {
		return nil, nil, err
	}
	if t.feed > 0 {
		r.melt.Feed *= t.feed
	}
	p, err := r.profile()
	if err != nil {
		return nil, nil, nil // the metal leaves the range of sense
	}
	return r, p, nil
}
