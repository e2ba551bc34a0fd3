package kinematics

import (
	"seamwright/geom/se3"
)

// SolveNear takes q (rad or m), whose flange is near baseFromFlange, to the
// posture there that continues it, by Newton's method; the free joints of a
// chain of more than six stay. It reports whether it arrived, within 1e-9 m and
// 1e-9 rad and inside the joints' limits; otherwise q is left as it was. It
// costs a microsecond or two with every family, finds one posture only, and
// cannot tell it from another that is as near: keep the steps small.
func (s *Solver) SolveNear(baseFromFlange *se3.Pose, q *Q) bool {
	n := s.chain.n
	if !properPose(baseFromFlange) || !finite(q, n) {
		return false
	}
	solved := allSix()
	if s.redundant != nil {
		solved = s.redundant.solved
	}
	near := *q
	lin, ang := s.chain.newton(baseFromFlange, &near, &solved)
	if !(lin <= positionWithin && ang <= orientationWithin) {
		return false
	}
	for j := range n {
		if jt := &s.chain.joints[j]; !(near[j] >= jt.Lower && near[j] <= jt.Upper) {
			return false
		}
	}
	*q = near
	return true
}
