package seam

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
)

// TieIn is how a stopped weld is taken up again. Zero fields mean the usual values.
type TieIn struct {
	// Ahead is how far in front of the crater the arc is struck, m; 0 means 12 mm
	// (read in workshop articles; 10 to 15 is usual). The strike is welded over.
	Ahead float64
	// Overlap is how far the arc goes back over the weld from where it stopped
	// before it turns, m; 0 means 10 mm (common practice, no source: 10 to 15 at
	// tie-ins).
	Overlap float64
}

// The usual tie-in, m.
const (
	usualAhead   = 12e-3
	usualOverlap = 10e-3
)

// tieSense is the range of both measures of a tie-in. Common practice, no source.
var tieSense = weld.Sense{What: "tie-in", Low: 0, High: 50e-3, Unit: unit.Millimetres}

// Restart is the way of the arc when a weld that stopped is taken up again: struck
// at Strike, back over the crater to Turn, then on to the end of the stretch. Arc
// lengths in m. Going back, the arc goes against the travel.
type Restart struct {
	Strike, Turn, End float64 // m
}

// Back returns the length welded against the travel, m.
func (r Restart) Back() float64 { return r.Strike - r.Turn }

// RestartIn returns how the stitch is taken up in which the arc stopped at an arc
// length (m), and the stretches that are left to weld behind it. The turn is at the
// stop less the overlap, not before the start of the stretch; the strike is ahead of
// the stop, not behind the end of the stretch. Where the stop lies between stretches,
// or exactly at the start of one, nothing is half done: the restart is nil and all
// stretches from there on are left.
//
// It refuses a tie-in outside 0 to 50 mm, no stretches, stretches that do not follow
// each other, and a stop that is before all of them or behind.
func RestartIn(stretches []Stretch, stop float64, t TieIn) (*Restart, []Stretch, error) {
	if t.Ahead == 0 {
		t.Ahead = usualAhead
	}
	if t.Overlap == 0 {
		t.Overlap = usualOverlap
	}
	if err := weld.CheckAll(tieSense.Of(t.Ahead), tieSense.Of(t.Overlap)); err != nil {
		return nil, nil, fmt.Errorf("restart: %w: %w", section.ErrOutOfRange, err)
	}
	if err := following(stretches); err != nil {
		return nil, nil, fmt.Errorf("restart: %w", err)
	}
	first, last := stretches[0].From, stretches[len(stretches)-1].To
	if !(stop >= first && stop <= last) {
		return nil, nil, fmt.Errorf("restart: %w", refusal(section.ErrOutOfRange, "a stop at "+millimetres(stop),
			millimetres(first)+" to "+millimetres(last)+", where the arc is on", "give the arc length along this seam"))
	}
	for i, s := range stretches {
		switch {
		case stop <= s.From:
			return nil, stretches[i:], nil
		case stop < s.To:
			return &Restart{Strike: min(stop+t.Ahead, s.To), Turn: max(stop-t.Overlap, s.From), End: s.To}, stretches[i+1:], nil
		}
	}
	return nil, nil, nil // stopped at the very end
}

// following refuses stretches that are empty or out of order.
func following(stretches []Stretch) error {
	if len(stretches) == 0 {
		return refusal(ErrStitch, "no stretches", "one or more", "give the stretches of the seam")
	}
	for i, s := range stretches {
		if !(s.To > s.From) || i > 0 && s.From < stretches[i-1].To {
			return refusal(section.ErrOutOfRange, fmt.Sprintf("stretch %d from %s to %s", i+1, millimetres(s.From), millimetres(s.To)), "stretches that rise and follow each other", "order them along the seam")
		}
	}
	return nil
}
