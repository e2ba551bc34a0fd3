package plan

import (
	"math"

	"seamwright/weld/seam"
)

// keyPoint is the end of one commanded move of a weld, or the via point of an
// arc move.
type keyPoint struct {
	along float64 // m of the way
	move  StepMove
	via   bool // the first half of an arc move
	on    *stretch
	ends  bool     // the stretch ends with it
	next  *stretch // the one behind it then; nil at the weld end
}

// arcSweep is the largest sweep of one commanded arc move, rad (90 deg): its via
// point lies 45 deg from both ends, which any controller reads.
const arcSweep = math.Pi / 2

// keyPoints lists the moves that command the weld, as few as follow it: one
// linear move for a straight stretch, pairs of arc moves (via point and end) for
// a round one, linear moves within chordMost for a smooth one and for turns at a
// corner, of which one does where the wire aims at the root. On straight and
// round stretches a move ends at every knot of the spin; the others follow the
// spin as they do the path.
func (m *Motion) keyPoints() []keyPoint {
	t := m.search.track
	var list []keyPoint
	for i := range t.stretches {
		s := &t.stretches[i]
		from := len(list)
		if s.bend == smooth || s.bend != round && s.corner >= 0 {
			for _, along := range m.chords(s) {
				list = append(list, keyPoint{along: along, move: MoveLinear})
			}
		} else {
			begin := s.from
			for _, end := range append(m.knotsInside(s), s.to) {
				list = append(list, m.moves(s, begin, end)...)
				begin = end
			}
		}
		for k := from; k < len(list); k++ {
			list[k].on = s
		}
		last := &list[len(list)-1]
		last.ends = true
		if i+1 < len(t.stretches) {
			last.next = &t.stretches[i+1]
		}
	}
	return list
}

// knotsInside returns the knots of the spin inside a stretch, m of the way.
func (m *Motion) knotsInside(s *stretch) []float64 {
	var list []float64
	for _, k := range m.Knots {
		if at := m.Stations[k].Along; at > s.from && at < s.to {
			list = append(list, at)
		}
	}
	return list
}

// moves commands a part of a straight or round stretch. Arc moves are made
// shorter, to an eighth at most, where the tip's path is no circle or the torch
// does not turn evenly: where it turns for a corner besides, where the plates do
// not turn with the path.
func (m *Motion) moves(s *stretch, from, to float64) []keyPoint {
	if s.bend != round {
		return []keyPoint{{along: to, move: MoveLinear}}
	}
	n := max(1, steps((to-from)*s.rate, arcSweep))
	for most := 8 * n; n < most && !m.arcsFollow(from, to, n); n *= 2 {
	}
	var list []keyPoint
	for i := range 2 * n {
		list = append(list, keyPoint{along: from + (to-from)*float64(i+1)/float64(2*n), move: MoveArc, via: i%2 == 0})
	}
	return list
}

// arcsFollow reports whether n arc moves follow a part of the way.
func (m *Motion) arcsFollow(from, to float64, n int) bool {
	for i := range n {
		begin, end := from+(to-from)*float64(i)/float64(n), from+(to-from)*float64(i+1)/float64(n)
		_, poses := m.sampled(begin, end, keyedStep)
		if off, turn := arcError(poses); off > chordMost || turn > knotTolerance {
			return false
		}
	}
	return true
}

// label says what is meant by a key point.
func (l *leg) label(k keyPoint) string {
	name := l.seam.PassName(l.pass)
	at := l.tape(l.motion.search.track.arc(k.along))
	switch {
	case k.ends && k.next == nil:
		return name + " weld end"
	case k.on.bend == inPlace && k.ends:
		return name + " turned in corner " + at
	case k.on.bend == inPlace:
		return name + " turns in corner " + at
	case k.ends && l.cornerAt(k.along):
		return name + " corner " + at
	case k.on.bend == round && !k.via:
		return name + " arc end " + at
	case k.ends && k.next.bend == round:
		return name + " arc begins " + at
	case k.ends && k.next.corner >= 0:
		return name + " turn begins " + at
	case k.ends && k.on.corner >= 0:
		return name + " turn ends " + at
	}
	return name + " via " + at
}

// cornerAt reports whether a place of the way (m) is a sharp corner.
func (l *leg) cornerAt(along float64) bool {
	w := l.seam.Way
	for i := range w.Turns() {
		if t := w.Turn(i); along == t.Start || along == t.End {
			return true
		}
	}
	return false
}

// weldSteps commands the weld: at the planned speed, slower where the torch would
// have to turn faster than it may. Where the arc is put out for a turn in place,
// it is lit again when the torch has turned.
func (l *leg) weldSteps() error {
	t := l.motion.search.track
	from := 0.0
	for _, k := range l.motion.keyPoints() {
		s := Step{Label: l.label(k), Seam: l.seam.Name, Pass: l.pass.Number, Move: k.move, Settings: l.pass.Size.Settings}
		s.Speed = min(l.pass.Size.Travel, t.turnCap(from, k.along))
		from = k.along
		switch {
		case k.ends && k.next == nil:
			s.Arc = "off"
		case k.ends && k.next.bend == inPlace && t.way.Turn(k.next.corner).ArcOff:
			s.Arc = "off"
		}
		if k.on.bend == inPlace {
			i := t.stageAt(k.along)
			s.Speed, s.Turn = 0, l.motion.laws.weld[i].Peak()/seam.LengthPerTurn
			if t.stages()[i].arcOff && k.ends {
				s.Arc = "on"
			}
		}
		var err error
		if s.Q, err = l.motion.postureAt(k.along); err != nil {
			return err
		}
		place := t.way.At(k.along)
		s.Work, s.Travel = place.Frame.WorkOf(l.pass.Aim), l.pass.Aim.Travel
		if place.Corner >= 0 {
			r := place.True(l.pass.Aim)
			s.Work, s.Travel = r.Work, r.Travel
		}
		l.step(s)
	}
	return nil
}

// stageAt is the stage in which a place of the way (m) lies, the earlier of two.
func (t *track) stageAt(along float64) int {
	list := t.stages()
	for i := range list {
		if along <= list[i].to {
			return i
		}
	}
	return len(list) - 1
}
