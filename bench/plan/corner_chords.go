package plan

import (
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/se3"
)

// chordMost is the largest distance of a commanded move from the path that it
// stands for, m: 0.2 mm, the project's rule for paths (common practice, no
// source). On a circle of radius R it is a spacing of sqrt(8 R 0.2 mm).
const chordMost = 0.2e-3

// Spacing of the places at which moves are held against the way, m, to choose
// their ends and to prove them; chordPlaces is the least number of steps.
const (
	chordStep   = 0.1e-3
	keyedStep   = 1e-3
	chordPlaces = 16
)

// chords returns the ends of the fewest linear moves that follow a stretch with
// the tip within chordMost and the torch within knotTolerance of an even turn; of
// equally few those that are off by the least.
func (m *Motion) chords(s *stretch) []float64 {
	at, poses := m.sampled(s.from, s.to, chordStep)
	ends := chordEnds(poses, 1)
	low, high := 0.0, 1.0 // shares of the tolerances
	for range 12 {
		if len(ends) == 1 {
			break
		}
		mid := (low + high) / 2
		if closer := chordEnds(poses, mid); len(closer) == len(ends) {
			ends, high = closer, mid
		} else {
			low = mid
		}
	}
	list := make([]float64, len(ends))
	for i, k := range ends {
		list[i] = at[k]
	}
	return list
}

// sampled returns even places (m) of the way, at most step (m) apart, and the
// planned poses there.
func (m *Motion) sampled(from, to, step float64) (at []float64, poses []se3.Pose) {
	n := max(chordPlaces, steps(to-from, step))
	n += n % 2 // so that the middle is one of them
	for i := range n + 1 {
		along := from + (to-from)*float64(i)/float64(n)
		at, poses = append(at, along), append(poses, m.search.track.pose(along, m.spinAt(along)))
	}
	return at, poses
}

// chordEnds returns the numbers of the poses at which linear moves end, each as
// far on as a share of the tolerances allows: by steps that double, then halve. A
// part of a move that can be made can be made too.
func chordEnds(poses []se3.Pose, share float64) []int {
	var ends []int
	last := len(poses) - 1
	for from := 0; from < last; {
		good, step := from+1, 1
		for rising := true; step > 0; {
			to := min(good+step, last)
			off, turn := chordError(poses[from:to+1], (to-from)/chordPlaces+1)
			switch fits := off <= share*chordMost && turn <= share*knotTolerance; {
			case fits && to == last:
				good, step = last, 0
			case fits && rising:
				good, step = to, 2*step
			case fits:
				good, step = to, step/2
			default:
				rising, step = false, step/2
			}
		}
		ends = append(ends, good)
		from = good
	}
	return ends
}

// chordError is how far (m) evenly taken poses lie off the linear move from the
// first to the last of them and how far (rad) they are turned off one that turns
// evenly; only every so many poses are looked at.
func chordError(poses []se3.Pose, every int) (off, turn float64) {
	last := len(poses) - 1
	a, b := poses[0], poses[last]
	chord := b.P.Sub(a.P)
	length := chord.Norm()
	for i := 0; i <= last; i += every {
		p := poses[i]
		out, f := p.P.Sub(a.P), 0.0
		if length > 0 {
			f = math.Min(math.Max(out.Dot(chord)/(length*length), 0), 1)
		}
		off = max(off, out.AddScaled(-f, chord).Norm())
		turn = max(turn, a.R.Slerp(b.R, float64(i)/float64(last)).AngleTo(p.R))
	}
	return off, turn
}

// arcError is chordError for an arc move from the first pose by way of the middle
// one to the last.
func arcError(poses []se3.Pose) (off, turn float64) {
	last := len(poses) - 1
	via := last / 2
	arc, err := curve.ArcThrough(poses[0].P, poses[via].P, poses[last].P)
	if err != nil { // so flat that the line is as good
		return chordError(poses, 1)
	}
	for i, p := range poses {
		_, d := curve.Distance(arc, p.P)
		off = max(off, d)
		from, to, f := poses[0], poses[via], float64(i)/float64(via)
		if i > via {
			from, to, f = poses[via], poses[last], float64(i-via)/float64(last-via)
		}
		turn = max(turn, from.R.Slerp(to.R, f).AngleTo(p.R))
	}
	return off, turn
}

// Keyed is how a pass is commanded: in how many moves, and how true these are to
// the way of the torch.
type Keyed struct {
	Points int     // to key in, weld start and end included
	Off    float64 // m, largest distance of a move from the path of the tip
	Turn   float64 // rad, largest turn of the torch off the planned one
	Arc    float64 // m, arc length of the seam where the worst move ends
}

// keyed holds the moves that command the weld against its way.
func (m *Motion) keyed() Keyed {
	k := Keyed{Points: 1}
	from := 0.0
	for _, p := range m.keyPoints() {
		k.Points++
		if p.via {
			continue
		}
		_, poses := m.sampled(from, p.along, keyedStep)
		off, turn := chordError(poses, 1)
		if p.move == MoveArc {
			off, turn = arcError(poses)
		}
		if off > k.Off {
			k.Arc = m.search.track.arc(p.along)
		}
		k.Off, k.Turn = max(k.Off, off), max(k.Turn, turn)
		from = p.along
	}
	return k
}
