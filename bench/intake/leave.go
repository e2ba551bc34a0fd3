package intake

import (
	"fmt"
	"math"
	"slices"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// leave is one approach or retreat: the way from it to the weld, and the turns
// at the weld.
type leave struct {
	toWeld r3.Vec // unit
	turns  []float64
}

// Bounds of the evidence from approaches. People back the torch off along its
// wire by eye, 10 to 20 deg off (common practice, no source).
const (
	leastLeave = 3    // approaches and retreats; one or two may lie anywhere
	backOff    = 25.0 // deg, angle between wire and way within which a reading fits
	clearlyOff = 15.0 // deg, by which every other reading must be worse
)

// leaves lists the approaches and retreats whose labels name them and whose
// welds have turns.
func (s *sheet) leaves() []leave {
	points := make([]Point, len(s.records))
	for i, r := range s.records {
		if c := slices.Index(r.roles, label); c >= 0 {
			points[i].Label = r.cell(c)
		}
	}
	names := Names(points)
	var out []leave
	for i, n := range names {
		weld := map[Part]Part{PartApproach: PartStart, PartRetreat: PartEnd}[n.Part]
		k := slices.IndexFunc(names, func(m Name) bool { return weld != PartOther && m.Key == n.Key && m.Part == weld })
		if k < 0 || !s.placed(i) || !s.placed(k) || !s.fills(s.records[k], role.isTurn) {
			continue
		}
		if way := s.position(k).Sub(s.position(i)); way.Norm() > 0 {
			out = append(out, leave{way.Unit(), s.numbers(s.records[k], columnsOf(s.records[k], role.isTurn))})
		}
	}
	return out
}

// placed reports whether a row has x, y and z.
func (s *sheet) placed(i int) bool {
	columns := columnsOf(s.records[i], role.isAxis)
	return len(columns) == 3 && !slices.ContainsFunc(columns, func(c int) bool { return s.records[i].cell(c) == "" })
}

// leavesSay returns how far the wire, read in a convention, is off the way from
// approach to weld in the middle of all, in words and in deg; NaN where too few
// tell.
func (s *sheet) leavesSay(c se3.Convention, all []leave) (text string, usual float64) {
	var off []float64
	for _, l := range all {
		r, err := c.Decode(l.turns)
		if err != nil {
			return "", math.NaN()
		}
		off = append(off, math.Acos(max(-1, min(1, r.Z().Dot(l.toWeld))))*180/math.Pi)
	}
	if len(all) < leastLeave {
		return "", math.NaN()
	}
	usual = median(off) // one misread row must not decide
	return fmt.Sprintf("; it would point %.0f deg off the way from approach to weld, the middle of %d", usual, len(all)), usual
}

// spokenFor returns the one choice that approaches fit far better than any
// other, -1 where they do not tell.
func spokenFor(off []float64) int {
	best := -1
	for i, x := range off {
		if math.IsNaN(x) {
			return -1
		}
		if best < 0 || x < off[best] {
			best = i
		}
	}
	if best < 0 || off[best] > backOff {
		return -1
	}
	for i, x := range off {
		if i != best && x < off[best]+clearlyOff {
			return -1
		}
	}
	return best
}
