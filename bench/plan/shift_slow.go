package plan

import (
	"context"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// Shifts of arms whose postures along a seam take long to find: those with free
// joints, and those without a closed form. From such a shift a seam counts as
// one that can be run where a single stand carries through it, spin and free
// joints still; the whole search finds that way too.

// slowSearch reports whether a seam takes more than some milliseconds.
func slowSearch(s *kinematics.Solver) bool {
	return len(s.Free()) > 0 || !s.Family().ClosedForm()
}

// shiftFew and shiftSlowFew are how many stands are tried from a shift, without
// those at rest.
const shiftFew, shiftSlowFew = 300, 12

// shiftStands lists the stands that are tried from a shift: those at rest first.
func (s *postureSearch) shiftStands() []stand {
	l := s.lattice(s.spins(), s.either(shiftFew, shiftSlowFew))
	list := standsAt(l.spins, s.rest)
	if len(s.axes) > 0 {
		list = append(list, l.stands()...)
	}
	return list
}

// shiftColumns is how many stands that hold at the probes of a seam are tried
// along the whole of it.
const shiftColumns = 8

// doesSlowly is does for a slow search. It writes to served which stand carries
// through each seam, as far as it got. The seam that failed last is asked first,
// which does not change the answer.
func (s *shiftSearch) doesSlowly(ctx context.Context, newFromOld se3.Pose, served []int) (bool, error) {
	start := int(s.hard.Load())
	for k := range s.still {
		i := (start + k) % len(s.still)
		search := *s.still[i]
		search.track = search.track.moved(newFromOld)
		n, held, err := search.carries(ctx, s.stands[i], served[i])
		if err != nil {
			return false, err
		}
		if n < 0 {
			s.hard.Store(int64(i))
			if held > 0 {
				s.whole.Add(1)
			}
			return false, nil
		}
		served[i] = n
	}
	return true, nil
}

// refineSlowly halves what is left between a shift that does and one that does
// not, counted in n parts of its way.
func (s *shiftSearch) refineSlowly(ctx context.Context, shift footShift, n int) (footShift, error) {
	no, yes := n/2, n
	for yes-no > 1 {
		mid := (no + yes) / 2
		ok, err := s.does(ctx, shift.shorter(mid, n), s.served)
		if err != nil {
			return shift, err
		}
		if ok {
			yes = mid
		} else {
			no = mid
		}
	}
	return shift.shorter(yes, max(n, 1)), nil
}

// carries returns the number of a stand that carries through the whole pass with
// tight margins, beginning with number first, or -1 for none, and how many of
// them hold at its probes.
func (s *postureSearch) carries(ctx context.Context, stands []stand, first int) (n, held int, err error) {
	a := s.tight()
	s.along, s.first, s.last = s.track.stations(stationStep)
	for k := 0; k < len(stands) && held < shiftColumns; k++ {
		n = (first + k) % len(stands)
		if !s.holds(&stands[n], a) {
			continue
		}
		held++
		a.spins = []float64{stands[n].spin}
		s.tried = a
		if err := s.solveAtRest(ctx, a, stands[n].held); err != nil {
			return -1, held, err
		}
		if s.best == nil {
			continue
		}
		m, err := s.motion()
		if err != nil {
			return -1, held, err
		}
		if len(s.gaps(m)) == 0 {
			return n, held, nil
		}
	}
	return -1, held, nil
}

// holds reports whether a stand has postures of one branch at every probe of the
// pass, the middle first, where most of them fail.
func (s *postureSearch) holds(at *stand, a attempt) bool {
	var found kinematics.Solutions
	probes := s.probes()
	branches := ^uint32(0)
	s.trails = s.trails[:0]
	for k := range probes {
		r := probes[(k+len(probes)/2)%len(probes)]
		s.solveAt(s.along[r], at, 0, &found)
		var here uint32
		for i := range found.N {
			if _, ok := s.nodeCost(&found.Q[i], at.spin, a); ok {
				here |= 1 << found.Branch[i]
			}
		}
		if branches &= here; branches == 0 {
			return false
		}
	}
	return true
}
