package kinematics

import "fmt"

// NewSolver recognises what kind of arm c is from its axes alone. Axes may
// point either way, joints may have their zero anywhere, and the angles between
// axes that are not parallel are free. Chains of fewer than six joints, and
// those whose joints cannot move the flange every way in any posture, are an
// error in words.
//
// A file that rounds its numbers (a right angle written 1.5708) is still
// recognised as its closed form, up to 1e-5 rad and 1e-5 m; see Exact. One that
// is further off (1.5707) is General.
//
// For General NewSolver takes some 50 ms, since it learns the arm's postures,
// and Solve some 1 ms a pose instead of microseconds. A list that may lack a
// posture is marked, see Solutions.Uncertain. Measured, on 1000 random poses of
// each of five random arms: none of the 19864 postures that Newton's method
// found from 300 random starts a pose was missing and no pose was uncertain; 99
// of 100 poses took less than 2.1 ms of one core, the longest 3.7 ms
// (TestGeneralIsComplete, -full-general).
//
// Of a chain of seven to nine joints one to three are taken as free: those
// whose choice leaves six joints of the fastest family, at the ends of the
// chain where possible (a lift, a track, a turntable under an arm); see Free.
func NewSolver(c *Chain) (*Solver, error) { return NewTableSolver(c, 0) }

// NewTableSolver is NewSolver for a chain whose first joints, so many, are those
// of a turning table that carries the part: how it stands is chosen, not solved
// for, so these are taken as free before any other. table is 0 to N.
func NewTableSolver(c *Chain, table int) (*Solver, error) {
	switch {
	case c.n < 6:
		return nil, fmt.Errorf("solver: found %d moving joints; allowed: 6 to %d, since fewer cannot put a flange in every pose; choose base and flange links with six joints or more between them", c.n, MaxJoints)
	case c.n > 6:
		return newRedundant(c, table)
	}
	s, ok := newSix(c)
	if !ok {
		return nil, fmt.Errorf("solver: found six joints that leave the flange a motion that none of them makes, whatever the posture; allowed: joints that can move the flange every way; check the joint origins and axes in the file, or choose other links")
	}
	return s, nil
}

// newSix returns the solver of a chain of six joints. ok is false where these
// lose a direction of motion in every posture.
func newSix(c *Chain) (s *Solver, ok bool) {
	back := c.reversed()
	h := shape{family: General, fit: exactly}
	if !c.slidesAnywhere() {
		h = recognise(c, back)
	}
	return newShaped(c, back, h)
}

// newShaped returns the solver of a chain of six joints whose family is known.
func newShaped(c, back *Chain, h shape) (s *Solver, ok bool) {
	s = &Solver{chain: c, family: h.family, exact: h.fit == exactly}
	s.setLimits()
	from := c
	base, mirrored := h.family.mirrored()
	if mirrored {
		s.back, from = back, back
	}
	ok = true
	switch base {
	case SphericalWrist, ThreeParallel:
		s.arm = newArm(from, h.center, base)
	case General:
		s.general, ok = newContinuation(c)
	default:
		d := newDecoupled(from, base, h.joint, h.center)
		s.decoupled = &d
	}
	return s, ok
}

// slidesAnywhere reports whether a joint is prismatic.
func (c *Chain) slidesAnywhere() bool {
	for _, j := range c.joints[:c.n] {
		if j.Kind == Prismatic {
			return true
		}
	}
	return false
}

// setLimits copies the joints' limits to where Solve wants them.
func (s *Solver) setLimits() {
	for j := range 6 {
		jt := &s.chain.joints[j]
		s.lower[j], s.upper[j] = jt.Lower, jt.Upper
		if jt.Kind != Continuous {
			s.middle[j] = jt.Lower + (jt.Upper-jt.Lower)/2
		}
		if jt.Kind == Prismatic {
			s.slides |= 1 << j
		}
	}
}
