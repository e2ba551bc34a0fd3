package plan

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
	"seamwright/weld/seam"
)

// lawStep is the distance between the postures that a time law is computed
// from, m.
const lawStep = 2e-3

// passLaws are the time laws of one pass; in and out are nil where it has no
// approach or retreat, weld has one for each stage.
type passLaws struct {
	in, out *motion.PathLaw
	weld    []*motion.PathLaw
}

// Limits of the torch's turning. Arms can turn it faster in the air.
const (
	// turnMost is the fastest turn of the torch while the arc burns, rad/s: 60
	// deg/s, common practice, no source. Beyond it the pool is stirred and the
	// cable lags behind.
	turnMost = 60 * math.Pi / 180
	// turnAccel is how fast the torch gathers that speed, rad/s2: in 0.1 s.
	// Common practice, no source; the joints' own limits may ask for longer.
	turnAccel = turnMost / 0.1
	// turnJerk is how fast it gathers that acceleration, rad/s3: as a joint does where
	// nothing is said.
	turnJerk = turnAccel / job.DefaultJerkTime
)

// lawLimits are the joints' speeds, accelerations and jerks.
func lawLimits(j *job.Job, c *kinematics.Chain) []motion.LawLimits {
	limits := make([]motion.LawLimits, c.N())
	for i := range limits {
		limits[i] = motion.LawLimits{Speed: c.Joint(i).Velocity, Accel: j.Arm.JointAcceleration(i), Jerk: j.Arm.JointJerk(i)}
	}
	return limits
}

// timing times approach, weld and retreat of a pass.
func (m *maker) timing(pass *Pass) error {
	mo, air := pass.Motion, m.job.Air
	t := mo.search.track
	first, last := mo.Stations[0].Along, mo.Stations[len(mo.Stations)-1].Along
	var err error
	law := func(r lawRequest) *motion.PathLaw {
		if err != nil || r.to <= r.from {
			return nil
		}
		var l *motion.PathLaw
		l, err = m.law(mo, r)
		return l
	}
	mo.laws = passLaws{}
	mo.laws.in = law(lawRequest{from: first, to: 0, speed: air.TipSpeed, accel: air.TipAcceleration, jerk: air.TipJerk()})
	for _, s := range t.stages() {
		r := lawRequest{from: s.from, to: s.to, speed: pass.Size.Travel, accel: air.TipAcceleration, jerk: air.TipJerk(), cap: t.turnCap}
		if s.turn >= 0 {
			r = lawRequest{from: s.from, to: s.to, speed: turnMost * seam.LengthPerTurn, accel: turnAccel * seam.LengthPerTurn, jerk: turnJerk * seam.LengthPerTurn}
		}
		mo.laws.weld = append(mo.laws.weld, law(r))
	}
	mo.laws.out = law(lawRequest{from: t.length, to: last, speed: air.TipSpeed, accel: air.TipAcceleration, jerk: air.TipJerk()})
	return err
}

// lawRequest asks for the way between two places of a track (m) to be timed.
type lawRequest struct {
	from, to float64
	speed    float64 // m/s, wanted
	accel    float64 // m/s2
	jerk     float64 // m/s3
	// cap gives a lower speed (m/s) for the way between two places, m; nil for
	// none.
	cap func(from, to float64) float64
}

// law times the way from one place to another at a wanted speed. The joints are
// smoothed over lawStep on either side of a place where the torch's rate of
// turning jumps, as from a straight piece into a round one: that much is left to
// the arm's own blending.
func (m *maker) law(mo *Motion, r lawRequest) (*motion.PathLaw, error) {
	n := max(4, steps(r.to-r.from, lawStep))
	req := motion.PathRequest{Limits: m.limits, Wanted: r.speed, Accel: r.accel, Jerk: r.jerk}
	capped := false
	for i := range n + 1 {
		along := r.from + (r.to-r.from)*float64(i)/float64(n)
		q, err := mo.postureAt(along)
		if err != nil {
			return nil, err
		}
		req.At = append(req.At, along)
		req.Q = append(req.Q, q)
		if r.cap != nil {
			half := (r.to - r.from) / float64(2*n)
			c := r.cap(max(r.from, along-half), min(r.to, along+half))
			req.Caps = append(req.Caps, c)
			capped = capped || c < r.speed
		}
	}
	if !capped {
		req.Caps = nil
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
		return q, fmt.Errorf("no posture joins the stations at %.1f mm", m.search.track.arc(along)*1e3)
	}
	return q, nil
}
