package plan

import (
	"math"
	"slices"
	"sort"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// stoppedInAir reports whether the last search was stopped on the approach
// (early) or on the retreat (late) while the weld itself can be done.
func (s *postureSearch) stoppedInAir() (early, late bool) {
	w := s.stop.longest
	if w.From > s.first || w.To < s.last {
		return false, false
	}
	return w.From > 0, w.To < len(s.along)-1
}

// motion makes the ladder's path into a motion: the spin smoothed, the
// postures solved again at the smoothed spin, margins measured.
func (s *postureSearch) motion() (*Motion, error) {
	m := &Motion{First: s.first, Last: s.last, search: s, turns: slices.Clone(s.best.Turns)}
	for i, along := range s.along {
		node := s.branches[s.branch].Rung(i)[s.best.Path[i]]
		m.Stations = append(m.Stations, Station{Along: along, Arc: s.track.arc(along), Spin: node.Spin, Q: s.best.Q[i]})
	}
	if err := s.smooth(m); err != nil {
		return nil, err
	}
	for i := range m.Stations {
		m.Stations[i].BaseFromTip = s.cell.BaseFromTip(&m.Stations[i].Q)
	}
	s.margins(m)
	return m, nil
}

// smooth lays a smooth spin and smooth courses of the free joints through the
// chosen ones and solves each station again at them. Where a station cannot have
// the smoothed ones on the same posture, they go through the ladder's own choice
// everywhere.
func (s *postureSearch) smooth(m *Motion) error {
	along := make([]float64, len(m.Stations))
	for i := range m.Stations {
		along[i] = m.Stations[i].Along
	}
	for _, within := range s.smoothings() {
		if err := s.lay(m, along, within); err != nil {
			return err
		}
		if within == 0 || s.follow(m) {
			break
		}
	}
	return m.setKnots(along, s.knotTolerances())
}

// smoothings are how far smooth courses may be off the ladder's choice, as shares
// of a step of the grid, the smoothest first.
func (s *postureSearch) smoothings() []float64 {
	if len(s.axes) == 0 {
		return []float64{1, 0}
	}
	return []float64{1, 0.5, 0.25, 0}
}

// lay gives the motion its spin and its courses: through the fewest stations
// from which the others are off by at most a step of the grid times within, or
// for 0 through all.
func (s *postureSearch) lay(m *Motion, along []float64, within float64) (err error) {
	if m.spin, err = profile(along, m.spins(), within*spinGrid); err != nil {
		return err
	}
	m.courses = m.courses[:0]
	for _, f := range s.axes {
		p, err := profile(along, m.values(f.Joint), within*f.Step)
		if err != nil {
			return err
		}
		m.courses = append(m.courses, course{f.Joint, p})
	}
	return nil
}

// profile lays a smooth course through values at places (m): those of the fewest
// knots within a tolerance, or of all for 0.
func profile(along, values []float64, tolerance float64) (motion.SpinProfile, error) {
	if tolerance == 0 {
		return motion.NewSpinProfile(along, values)
	}
	knots, err := motion.SpinKnots(along, values, tolerance)
	if err != nil {
		return motion.SpinProfile{}, err
	}
	at, through := make([]float64, len(knots)), make([]float64, len(knots))
	for i, k := range knots {
		at[i], through[i] = along[k.Station], k.Spin
	}
	return motion.NewSpinProfile(at, through)
}

// knotTolerances are how far each free joint may be off an even motion between
// the poses that are keyed in, rad or m.
func (s *postureSearch) knotTolerances() map[int]float64 {
	off := map[int]float64{}
	for _, f := range s.axes {
		off[f.Joint] = knotTolerance
		if s.cell.Chain.Joint(f.Joint).Kind == kinematics.Prismatic {
			off[f.Joint] = knotTolerance * slideRadian
		}
	}
	return off
}

// spinGrid is the step of the spins that are tried, rad.
const spinGrid = 2 * math.Pi / spinSteps

// knotTolerance is how far the spin may be off an even turn between the poses
// that are keyed in, rad (1 deg): a fifth of what a torch angle may be off.
const knotTolerance = 1 * math.Pi / 180

// margins measures how near the motion comes to limits and singularities.
func (s *postureSearch) margins(m *Motion) {
	m.LimitMargin, m.WristMargin = math.Inf(1), math.Inf(1)
	for i := range m.Stations {
		st := &m.Stations[i]
		at := s.track.seamPlace(st.Along)
		if room, joint := limitMargin(s.cell.Chain, &st.Q); room < m.LimitMargin {
			m.LimitMargin, m.LimitJoint, m.MarginAlong = room, joint, at
		}
		if away := s.cell.Solver.Singularity(&st.Q).Wrist; away < m.WristMargin {
			m.WristMargin, m.WristAlong = away, at
		}
	}
}

// limitMargin is the smallest distance of a turning joint from its limits,
// rad, and which joint it is.
func limitMargin(c *kinematics.Chain, q *kinematics.Q) (room float64, joint int) {
	room = math.Inf(1)
	for i := range c.N() {
		j := c.Joint(i)
		if j.Kind == kinematics.Prismatic {
			continue
		}
		if r := min(q[i]-j.Lower, j.Upper-q[i]); r < room {
			room, joint = r, i
		}
	}
	return room, joint
}

// SpinVaries reports whether the torch turns about its wire along the weld.
func (m *Motion) SpinVaries() bool { return !m.spin.Constant() }

// spinAt returns the spin at a place of the pass (m), rad.
func (m *Motion) spinAt(along float64) float64 {
	spin, _ := m.spin.At(along)
	return spin
}

// guess interpolates the joint values of the stations at a place, as the start
// of a solution there, with the free joints where their courses have them.
func (m *Motion) guess(along float64) kinematics.Q {
	st := m.Stations
	k := sort.Search(len(st), func(i int) bool { return st[i].Along >= along })
	switch {
	case k == 0:
		return st[0].Q
	case k == len(st):
		return st[len(st)-1].Q
	}
	f := (along - st[k-1].Along) / (st[k].Along - st[k-1].Along)
	q := st[k-1].Q
	for j := range q {
		q[j] += f * (st[k].Q[j] - q[j])
	}
	m.hold(&q, along)
	return q
}

// posture solves for the posture at a place of the track and a spin that
// continues the one guessed, the free joints held where they are guessed, and
// returns how far (rad) its worst joint is from the guess; +Inf where there is
// none.
func (s *postureSearch) posture(along, spin float64, guess *kinematics.Q) (kinematics.Q, float64) {
	pose, n := s.track.pose(along, spin), s.cell.Chain.N()
	if n > 6 || !s.cell.Solver.Family().ClosedForm() { // one is cheaper than all
		q := *guess
		if s.cell.SolveNear(pose, &q) && farthest(&q, guess, n) <= followMost {
			return q, farthest(&q, guess, n)
		}
	}
	var found kinematics.Solutions
	s.cell.Solve(pose, guess, &found)
	return nearestPosture(&found, n, guess)
}

// follow moves every station to the smooth spin and courses and reports whether
// all can follow on their posture and with the margins that they had.
func (s *postureSearch) follow(m *Motion) bool {
	if m.spin.Constant() && m.atRest() {
		return true
	}
	moved := make([]kinematics.Q, len(m.Stations))
	for i := range m.Stations {
		st := &m.Stations[i]
		spin, guess := m.spinAt(st.Along), st.Q
		m.hold(&guess, st.Along)
		q, off := s.posture(st.Along, spin, &guess)
		if _, ok := s.nodeCost(&q, spin, s.tried); off > jointStep || !ok {
			return false
		}
		moved[i] = q
	}
	for i := range moved {
		m.Stations[i].Q = moved[i]
	}
	return true
}

// gaps looks between the stations, every lawStep, for places to which the arm
// cannot follow the motion, and returns the stations before which they lie.
func (s *postureSearch) gaps(m *Motion) (stations []int) {
	for i := 1; i < len(m.Stations); i++ {
		if !s.follows(m, i) {
			stations = append(stations, i)
		}
	}
	return stations
}

// follows reports whether the arm can follow the motion to station i from the
// one before it: to postures that are near the straight line between the two, or
// near the one before them.
func (s *postureSearch) follows(m *Motion, i int) bool {
	n := s.cell.Chain.N()
	a, b, last, off := m.Stations[i-1].Along, m.Stations[i].Along, m.Stations[i-1].Q, 0.0
	for k := range steps(b-a, lawStep) {
		var q kinematics.Q
		along := a + float64(k)*lawStep
		guess := m.guess(along)
		if q, off = s.posture(along, m.spinAt(along), &guess); off > followMost && farthest(&q, &last, n) > followMost {
			return false
		}
		last = q
	}
	return off <= followMost || farthest(&m.Stations[i].Q, &last, n) <= followMost
}

// followMost is how far a posture between stations may be from the straight
// line through its neighbours, or else from the one lawStep before it, rad (5
// deg): further off it is another posture.
const followMost = 5 * math.Pi / 180

// SpinText is how the spin of a pass is shown: "30.0" or "-20.0 to 40.0", deg.
func (p *Pass) SpinText() string {
	if p.Motion == nil {
		return degreesText(p.Aim.Spin)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, st := range p.Motion.Stations[p.Motion.First : p.Motion.Last+1] {
		low, high = min(low, st.Spin), max(high, st.Spin)
	}
	if high-low < angleSlack {
		return degreesText(low)
	}
	return degreesText(low) + " to " + degreesText(high)
}
