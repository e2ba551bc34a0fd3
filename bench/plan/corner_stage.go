package plan

import "math"

// stage is a part of the weld between two stops of the tip: along the seam from
// one sharp corner to the next, or the turn in place in one.
type stage struct {
	from, to float64 // m of the way
	// turn is the sharp corner in which the torch turns in place, from 0; -1
	// where it travels.
	turn   int
	arcOff bool // the arc is out for the turn in place
}

// stages divides the weld at its sharp corners, in order. The tip stops at each,
// because its direction jumps; a turn that is all on the seam has no stage.
func (t *track) stages() []stage {
	var list []stage
	from := 0.0
	for i := range t.way.Turns() {
		turn := t.way.Turn(i)
		list = append(list, stage{from: from, to: turn.Start, turn: -1})
		if turn.End > turn.Start {
			list = append(list, stage{from: turn.Start, to: turn.End, turn: i, arcOff: turn.ArcOff})
		}
		from = turn.End
	}
	return append(list, stage{from: from, to: t.length, turn: -1})
}

// turnCap is the fastest travel (m/s) between two places of the way (m) at which
// the torch turns at turnMost at most; +Inf where it does not turn.
func (t *track) turnCap(from, to float64) float64 { return turnMost / t.turnRate(from, to) }

// turnRate is the most that the torch turns for a metre of way, rad/m, between
// two places on one side of a sharp corner (m).
func (t *track) turnRate(from, to float64) float64 {
	var rate float64
	for i := range t.stretches {
		s := &t.stretches[i]
		if s.bend != inPlace && s.to > from && s.from < to {
			rate = math.Max(rate, s.rateAt((max(from, s.from)+min(to, s.to))/2))
		}
	}
	return rate
}

// turnJumps reports whether the torch's rate of turning jumps beside a place of
// the way (m), as where a straight piece runs into a round one: no arm follows
// that to the letter, and how hard it tries depends on how far it may blend.
func (t *track) turnJumps(along float64) bool {
	for i := 1; i < len(t.stretches); i++ {
		a, b := &t.stretches[i-1], &t.stretches[i]
		if a.bend == inPlace || b.bend == inPlace || math.Abs(along-b.from) > 2*lawStep {
			continue
		}
		if before, after := a.rateAt(a.to), b.rateAt(b.from); math.Abs(after-before) > 0.1*max(before, after) {
			return true
		}
	}
	return false
}
