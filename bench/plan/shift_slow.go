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

// doesSlowly is does for a slow search. The seam that failed last is asked first,
// and of each seam the stand that served last: neither changes the answer.
func (s *shiftSearch) doesSlowly(ctx context.Context, newFromOld se3.Pose) (bool, error) {
	start := int(s.hard.Load())
	for k := range s.still {
		i := (start + k) % len(s.still)
		search := *s.still[i]
		search.track = search.track.moved(newFromOld)
		served := int(s.served[i].Load())
		n, err := search.carries(ctx, s.stands[i], served)
		if err != nil {
			return false, err
		}
		if n < 0 {
			s.hard.Store(int64(i))
			return false, nil
		}
		s.served[i].Store(int64(n))
	}
	return true, nil
}

// refineSlowly halves what is left between a shift that does and one that does
// not, counted in n parts of its way.
func (s *shiftSearch) refineSlowly(ctx context.Context, shift footShift, n int) (footShift, error) {
	no, yes := n/2, n
	for yes-no > 1 {
		mid := (no + yes) / 2
		ok, err := s.does(ctx, shift.shorter(mid, n))
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
// tight margins, beginning with number first, or -1 for none.
func (s *postureSearch) carries(ctx context.Context, stands []stand, first int) (int, error) {
	a := s.tight()
	s.along, s.first, s.last = s.track.stations(stationStep)
	for k := range stands {
		n := (first + k) % len(stands)
		if !s.holds(&stands[n], a) {
			continue
		}
		a.spins = []float64{stands[n].spin}
		s.tried = a
		if err := s.solveAtRest(ctx, a, stands[n].held); err != nil {
			return -1, err
		}
		if s.best == nil {
			continue
		}
		m, err := s.motion()
		if err != nil {
			return -1, err
		}
		if len(s.gaps(m)) == 0 {
			return n, nil
		}
	}
	return -1, nil
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
