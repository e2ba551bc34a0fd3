package plan

import (
	"math"
	"slices"

	"seamwright/geom/curve"
	"seamwright/weld/seam"
)

// bend says how a stretch of a way runs.
type bend uint8

const (
	straight bend = iota
	round         // about one axis at one radius
	smooth        // a curvature that changes
	inPlace       // no travel: the torch turns in a sharp corner
)

// stretch is a part of the way along a seam over which the torch is carried in
// one manner: a piece of the path, cut where turning at a corner begins or ends,
// or a turn in place.
type stretch struct {
	from, to float64 // m of the way
	bend     bend
	// rate is how far the torch turns for each metre, rad/m: on a smooth piece
	// the most of it, held against table.
	rate float64
	// corner is the sharp corner, from 0, in or beside which the torch turns
	// besides what the path makes it turn; -1 elsewhere.
	corner int
	table  turnTable // of a smooth piece
}

// turnTable is how far the torch has turned, rad, from the start of a stretch at
// places, m of the way.
type turnTable struct{ at, turned []float64 }

// turn is how far the torch turns over the stretch, rad.
func (s *stretch) turn() float64 {
	if n := len(s.table.turned); n > 0 {
		return s.table.turned[n-1]
	}
	return s.rate * (s.to - s.from)
}

// smoothStep is the spacing at which the turning along a smooth piece is
// measured, m: a tenth of a station.
const smoothStep = stationStep / 10

// stretchesOf cuts a way into its stretches, in order and without gaps.
func stretchesOf(w seam.Way) []stretch {
	pieces, ends := piecesOf(w.Seam().Path())
	var list []stretch
	begin := 0.0
	next := 0 // the first sharp corner that has not been passed
	for i, piece := range pieces {
		from := begin
		for _, to := range append(cuts(w, begin, ends[i]), ends[i]) {
			offset := 0.0 // of the way from the arc length
			if next > 0 {
				t := w.Turn(next - 1)
				offset = t.End - t.From
			}
			list = append(list, travelling(w, piece, from+offset, to+offset))
			from = to
		}
		if next < w.Turns() && w.Turn(next).From <= ends[i] {
			if t := w.Turn(next); t.End > t.Start {
				list = append(list, stretch{from: t.Start, to: t.End, bend: inPlace, rate: 1 / seam.LengthPerTurn, corner: next})
			}
			next++
		}
		begin = ends[i]
	}
	list[len(list)-1].to = w.Length() // not its rounded neighbour
	return list
}

// piecesOf takes a path apart and returns the arc length (m) at the end of each
// piece.
func piecesOf(path curve.Curve) (pieces []curve.Curve, ends []float64) {
	if chain, ok := path.(curve.Chain); ok {
		return chain.Pieces(), chain.Ends()
	}
	return []curve.Curve{path}, []float64{path.Length()}
}

// cuts returns the arc lengths (m) inside from and to at which turning before a
// sharp corner begins or turning behind one ends.
func cuts(w seam.Way, from, to float64) []float64 {
	var list []float64
	for i := range w.Turns() {
		t := w.Turn(i)
		for _, arc := range []float64{t.From - t.Ahead, t.From + t.Behind} {
			if arc-from > curve.MinLength && to-arc > curve.MinLength {
				list = append(list, arc)
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// travelling describes the stretch of a piece between two places of a way.
func travelling(w seam.Way, piece curve.Curve, from, to float64) stretch {
	s := stretch{from: from, to: to, corner: w.At((from + to) / 2).Corner}
	switch p := piece.(type) {
	case curve.Arc:
		s.bend, s.rate = round, 1/p.Radius()
	case curve.Smooth:
		s.bend = smooth
		s.measure(w)
		return s
	}
	if s.corner < 0 {
		return s
	}
	if t := w.Turn(s.corner); to <= t.Start {
		s.rate += t.Before / t.Ahead
	} else {
		s.rate += t.After / t.Behind
	}
	return s
}

// measure fills in how the torch turns along a smooth piece, with what it turns
// for a corner beside it: the turning of the frame that carries it.
func (s *stretch) measure(w seam.Way) {
	n := max(4, steps(s.to-s.from, smoothStep))
	last := w.At(s.from).Frame.Encode(seam.Aim{}).R
	s.table = turnTable{at: []float64{s.from}, turned: []float64{0}}
	for i := 1; i <= n; i++ {
		at := s.from + (s.to-s.from)*float64(i)/float64(n)
		r := w.At(at).Frame.Encode(seam.Aim{}).R
		turn := last.AngleTo(r)
		s.rate = max(s.rate, turn*float64(n)/(s.to-s.from))
		s.table.at = append(s.table.at, at)
		s.table.turned = append(s.table.turned, s.table.turned[i-1]+turn)
		last = r
	}
}

// rateAt is how fast the torch turns at a place of the stretch (m of the way),
// rad/m.
func (s *stretch) rateAt(along float64) float64 {
	if len(s.table.at) == 0 {
		return s.rate
	}
	t := &s.table
	i := min(max(1, steps(along-s.from, t.at[1]-t.at[0])), len(t.at)-1)
	return (t.turned[i] - t.turned[i-1]) / (t.at[i] - t.at[i-1])
}

// count is the number of steps that the stretch takes: of step (m) at most,
// between which the torch turns by turn (rad) at most.
func (s *stretch) count(step, turn float64) int {
	need := max((s.to-s.from)/step, s.turn()/turn)
	if len(s.table.at) > 0 {
		needs := s.needs(step, turn)
		need = needs[len(needs)-1]
	}
	return max(1, int(math.Ceil(need-1e-9)))
}

// places divides the stretch into n steps and returns their ends without the
// first: even ones, on a smooth piece the closer the more the torch turns. Step
// and turn are those from which n was found.
func (s *stretch) places(n int, step, turn float64) []float64 {
	list := make([]float64, n)
	for i := range list {
		list[i] = s.from + (s.to-s.from)*float64(i+1)/float64(n)
	}
	if len(s.table.at) == 0 {
		return list
	}
	needs, k := s.needs(step, turn), 1
	for i := range n - 1 {
		want := needs[len(needs)-1] * float64(i+1) / float64(n)
		for needs[k] < want {
			k++
		}
		f := (want - needs[k-1]) / (needs[k] - needs[k-1])
		list[i] = s.table.at[k-1] + f*(s.table.at[k]-s.table.at[k-1])
	}
	return list
}

// needs is how many steps a smooth piece takes up to each row of its table.
func (s *stretch) needs(step, turn float64) []float64 {
	t := &s.table
	needs := make([]float64, len(t.at))
	for i := 1; i < len(needs); i++ {
		needs[i] = needs[i-1] + max((t.at[i]-t.at[i-1])/step, (t.turned[i]-t.turned[i-1])/turn)
	}
	return needs
}
