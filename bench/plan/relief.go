package plan

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/bench/finding"
	"seamwright/unit"
)

// searchOf returns a fresh search for a pass as it stands, with its whole
// approach and retreat.
func (m *maker) searchOf(at passAt) *postureSearch {
	shape := &m.shapes[at.seam]
	t := newTrack(m.plan.Seams[at.seam].Way, m.pass(at).Aim)
	t.in, t.out = m.leaves(shape, t)
	return m.searchFor(shape, t)
}

// spins returns the spins that the search may use.
func (s *postureSearch) spins() []float64 {
	if s.fixed {
		return []float64{s.wish}
	}
	return s.grid()
}

// reliefs are the changes of work and travel angle that are tried for a pass
// that cannot be run, as shares of the tolerance, the least first.
func reliefs() [][2]float64 {
	var list [][2]float64
	for _, w := range []float64{0, -0.5, 0.5, -1, 1} {
		for _, t := range []float64{0, -0.5, 0.5, -1, 1} {
			if w != 0 || t != 0 {
				list = append(list, [2]float64{w, t})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b [2]float64) int {
		return roughly(math.Hypot(a[0], a[1]), math.Hypot(b[0], b[1]))
	})
	return list
}

// roughly compares two weights; those that differ by rounding only are equal,
// so that the order of what weighs the same is the same on every machine.
func roughly(a, b float64) int {
	if math.Abs(a-b) <= 1e-12 {
		return 0
	}
	return cmp.Compare(a, b)
}

// relieve looks for the least change of work and travel angle within the
// seam's tolerance with which a blocked pass can be run; empty where none does.
func (m *maker) relieve(ctx context.Context, at passAt) (string, error) {
	s := m.shapes[at.seam].doc
	for _, share := range reliefs() {
		search := m.searchOf(at)
		search.brief, search.suspects = true, []float64{m.pass(at).Reach.suspect}
		search.track.aim.Work += share[0] * s.Aim.Tolerance
		search.track.aim.Travel += share[1] * s.Aim.Tolerance
		motion, err := search.run(ctx)
		if err != nil {
			return "", err
		}
		if motion != nil {
			return fmt.Sprintf("work %.1f deg with %s, inside the tolerance of %.0f deg, would carry through; ",
				search.track.way.At(0).Frame.WorkOf(search.track.aim)*deg, leaning(search.track.aim.Travel), s.Aim.Tolerance*deg), nil
		}
	}
	return "", nil
}

// help looks, for a job with passes that cannot be run, for what would help:
// torch angles within the tolerance and a second start for each, and a shift of
// the arm's foot for all.
func (m *maker) help(ctx context.Context) error {
	var blocked []passAt
	for _, at := range m.passes() {
		if m.pass(at).Motion == nil {
			blocked = append(blocked, at)
		}
	}
	if len(blocked) == 0 {
		return nil
	}
	err := sideBySide(ctx, len(blocked), func(ctx context.Context, k int) error {
		angles, err := m.relieve(ctx, blocked[k])
		if err != nil {
			return err
		}
		split, err := m.split(ctx, blocked[k])
		f := &m.placed[blocked[k].seam][blocked[k].pass][0]
		f.Remedy = angles + split + f.Remedy
		return err
	})
	if err != nil {
		return err
	}
	shift, ended, err := m.findShift(ctx)
	if err != nil {
		return err
	}
	m.shifted = append(m.shifted, m.shiftFinding(shift, ended))
	return nil
}

func (m *maker) shiftFinding(shift footShift, ended shiftFound) finding.Finding {
	what, mend, frame := "the arm's foot", "move the cart so, touch the points again and plan again", "the base frame's"
	if m.plan.Cell.Table != nil {
		what, mend, frame = "the part on its table", "clamp the part so, touch the points again and plan again", "the table top's"
	}
	if ended == gaveUp {
		f := finding.Newf(finding.CartShift, finding.Place{}, "no shift of %s was found that brings every seam into reach; the search was given up: from more than %d the arm can have every place that was asked first, but not the whole way", what, shiftWhole)
		return f.Mend("split what is stopped, or turn the part")
	}
	if ended == noShift {
		var level, height, yaw float64
		for _, s := range m.shiftGrid().list() {
			level, height, yaw = max(level, s.x), max(height, s.height), max(yaw, s.yaw)
		}
		text := fmt.Sprintf("no shift of %s brings every seam into reach: level up to %s each way", what, m.tape(level))
		if height > 0 {
			text += fmt.Sprintf(", %s up and down", m.tape(height))
		}
		f := finding.Newf(finding.CartShift, finding.Place{}, "%s and turns up to %.0f deg were tried", text, yaw*deg)
		return f.Mend("split the job over two places of the cart")
	}
	f := finding.Newf(finding.CartShift, finding.Place{}, "every seam of this job can be run if %s is moved %s", what, shift.say(m.words, frame))
	return f.Values(m.pair(unit.Length, math.Hypot(shift.x, shift.y), 0)).Mend("%s", mend)
}
