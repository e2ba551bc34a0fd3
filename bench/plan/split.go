package plan

import (
	"context"
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/unit"
	"seamwright/weld/seam"
)

// splitTries is how many places are tried, from the middle of those where both
// parts seem to reach outwards.
const splitTries = 9

// splitting is where a pass may be begun anew: the arm comes from the weld start
// as far as to, m of the seam, and gets to the weld end from from.
type splitting struct{ from, to float64 }

// splittable is the splitting of a pass that was stopped.
func (s *postureSearch) splittable() splitting {
	if s.stop.furthest < s.first || s.stop.fromEnd > s.last {
		return splitting{0, -1}
	}
	return splitting{s.weldAlong(s.stop.fromEnd), s.weldAlong(s.stop.furthest)}
}

// split looks for a place at which a blocked pass can be begun anew so that each
// part can be run in a posture of its own, with its approach and retreat, and
// says it in the document's words. It is empty where there is none, and for a
// seam that is split already.
func (m *maker) split(ctx context.Context, at passAt) (string, error) {
	i := at.seam
	shape, window := &m.shapes[i], m.pass(at).Reach.splitting
	tie := m.asPrinted(job.DefaultTieIn)
	low, high := window.from+tie, window.to
	if len(shape.doc.Split.At) > 0 || shape.doc.Stitches.Asked() || shape.again || window.to < window.from-2*stationStep {
		return "", nil
	}
	if low > high { // both ways come to the place that stops them: begun elsewhere, either may pass it
		low, high = tie, m.plan.Seams[i].Length
	}
	for k := range splitTries {
		// 0, 1, -1, 2, -2 ... shares of half the window from its middle
		share := float64((k+1)/2) / float64(splitTries/2) * math.Copysign(1, float64(k%2)-0.5)
		cut := m.asPrinted((low+high)/2 + share*(high-low)/2)
		ok, err := m.runsInParts(ctx, i, cut, tie)
		if err != nil {
			return "", err
		}
		if ok {
			length := m.plan.Seams[i].Length
			return fmt.Sprintf("two starts do it: split: {at: %s, tie_in: %s}, so %s and then %s; ",
				m.tape(cut), m.tape(tie), m.stretch(0, cut), m.stretch(cut-tie, length)), nil
		}
	}
	return "", nil
}

// asPrinted rounds a length (m) to what its text will say.
func (w words) asPrinted(m float64) float64 {
	step := 1 * unit.MM
	if w.system == unit.InchPound {
		step = 0.1 * unit.Inch
	}
	return math.Round(m/step) * step
}

// runsInParts reports whether both parts of seam i can be run, the second begun
// tie (m) before the end of the first at at, m of the seam.
func (m *maker) runsInParts(ctx context.Context, i int, at, tie float64) (bool, error) {
	length := m.plan.Seams[i].Length
	first, err := m.runsPart(ctx, i, 0, at)
	if err != nil || !first {
		return false, err
	}
	return m.runsPart(ctx, i, at-tie, length)
}

// runsPart reports whether every pass of the part of seam i from one arc length to
// another (m) can be run as the plan would run it.
func (m *maker) runsPart(ctx context.Context, i int, from, to float64) (bool, error) {
	if to-from < seamLeast {
		return false, nil
	}
	whole := &m.shapes[i]
	part, err := whole.part(cut{Stretch: seam.Stretch{From: from, To: to}, begins: from == 0, ends: to == whole.geometry.Length()}, m.job.Air.Out)
	if err != nil {
		return false, nil // no seam of its own, or it would end in the turn at a corner
	}
	way, err := seam.NewWay(part.geometry, part.shares...)
	if err != nil {
		return false, err // it was made once already
	}
	for k := range m.plan.Seams[i].Passes {
		t := newTrack(way, m.plan.Seams[i].Passes[k].Aim)
		in, back := m.leaves(&part, t)
		search := m.searchFor(&part, t)
		search.brief = true
		var pass Pass
		if err = search.withLeaves(ctx, &pass, in, back); err != nil || pass.Motion == nil {
			return false, err
		}
	}
	return true, nil
}

// part is one cut of the shape, with an approach or a retreat straight along the
// wire, out long (m), where the seam's own is not there. It fails where the part is no seam of its own, or would begin or
// end in the turn at a corner.
func (s *seamShape) part(c cut, out float64) (seamShape, error) {
	part, doc := *s, *s.doc
	part.doc = &doc
	if c.begins && c.ends && c.From == 0 && c.To == s.geometry.Length() {
		return part, nil
	}
	var err error
	if part.geometry, err = s.geometry.Trimmed(c.From, c.To); err != nil {
		return part, err
	}
	part.shares = sharesWithin(s.geometry, s.shares, c.From, c.To)
	if _, err := seam.NewWay(part.geometry, part.shares...); err != nil {
		return part, err
	}
	if !c.begins {
		doc.Approach, doc.Through = job.Leave{Out: out}, nil
		part.order, part.residual, part.copied = nil, 0, true
	}
	if !c.ends {
		doc.Retreat = job.Leave{Out: out}
	}
	return part, nil
}

// sharesWithin are the shares of the sharp corners that lie inside a part.
func sharesWithin(whole *seam.Seam, shares []seam.Share, from, to float64) []seam.Share {
	var list []seam.Share
	k := 0
	for _, c := range whole.Corners() {
		if !c.Sharp() {
			continue
		}
		if c.From > from && c.From < to && k < len(shares) {
			list = append(list, shares[k])
		}
		k++
	}
	return list
}
