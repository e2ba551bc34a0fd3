package plan

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// lawStep is the distance between the postures that a time law is computed
// from, m.
const lawStep = 2e-3

// passLaws are the time laws of one pass; in and out are nil where it has no
// approach or retreat.
type passLaws struct{ in, weld, out *motion.PathLaw }

// lawLimits are the joints' speeds and accelerations.
func lawLimits(j *job.Job, c *kinematics.Chain) []motion.LawLimits {
	limits := make([]motion.LawLimits, c.N())
	for i := range limits {
		accel := j.Arm.Acceleration[0]
		if len(j.Arm.Acceleration) > 1 {
			accel = j.Arm.Acceleration[i]
		}
		limits[i] = motion.LawLimits{Speed: c.Joint(i).Velocity, Accel: accel}
	}
	return limits
}

// timing times approach, weld and retreat of a pass.
func (m *maker) timing(pass *Pass, length float64) error {
	mo, air := pass.Motion, m.job.Air
	first, last := mo.Stations[0].Along, mo.Stations[len(mo.Stations)-1].Along
	var err error
	law := func(from, to, speed float64) *motion.PathLaw {
		if err != nil || to <= from {
			return nil
		}
		var l *motion.PathLaw
		l, err = m.law(mo, from, to, speed)
		return l
	}
	mo.laws = passLaws{in: law(first, 0, air.TipSpeed), weld: law(0, length, pass.Size.Travel), out: law(length, last, air.TipSpeed)}
	return err
}

// law times the way from one place to another at a wanted speed.
func (m *maker) law(mo *Motion, from, to, speed float64) (*motion.PathLaw, error) {
	n := max(4, steps(to-from, lawStep))
	req := motion.PathRequest{Limits: m.limits, Wanted: speed, Accel: m.job.Air.TipAcceleration}
	for i := range n + 1 {
		along := from + (to-from)*float64(i)/float64(n)
		q, err := mo.postureAt(along)
		if err != nil {
			return nil, err
		}
		req.At = append(req.At, along)
		req.Q = append(req.Q, q)
	}
	return motion.NewPathLaw(req)
}

// postureAt is the posture at a place of the pass, m, continuing its stations.
// The search has looked between the stations, so a way that is lost here is a
// mistake of the program.
func (m *Motion) postureAt(along float64) (kinematics.Q, error) {
	guess := m.guess(along)
	q, off := m.search.posture(along, m.spinAt(along), &guess)
	if off > jointStep {
		return q, fmt.Errorf("no posture joins the stations at %.1f mm", along*1e3)
	}
	return q, nil
}
