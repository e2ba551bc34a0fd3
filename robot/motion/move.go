package motion

import (
	"fmt"
	"math"

	"seamwright/robot/kinematics"
)

// MoveRequest describes a move of all joints at once.
type MoveRequest struct {
	From, To kinematics.Q // rad (m for a sliding joint)
	// Limits holds the full speed (rad/s), acceleration (rad/s2) and jerk (rad/s3; 0
	// for unlimited) of each joint, m in place of rad for a sliding one; its length is
	// the number of joints.
	Limits []LawLimits
	// SpeedPercent and AccelPercent scale the limits of all joints, more than 0 to
	// 100, dimensionless; 0 means 100. Jerk is not scaled.
	SpeedPercent, AccelPercent float64
}

// JointMove moves all joints together: they start together, stop together and
// keep their proportions on the way, so the path is a straight line in joint
// space and does not depend on the speed. The joint that needs longest at its
// limits sets the pace.
type JointMove struct {
	from, delta kinematics.Q
	law         SevenPhase
}

// NewJointMove returns the fastest such move. Start equal to goal takes no time.
func NewJointMove(req MoveRequest) (JointMove, error) {
	if n := len(req.Limits); n < 1 || n > kinematics.MaxJoints {
		return JointMove{}, fmt.Errorf("motion: joint move: limits of %d joints: 1 to %d are allowed", n, kinematics.MaxJoints)
	}
	speed, err := percent("speed", req.SpeedPercent)
	if err != nil {
		return JointMove{}, err
	}
	accel, err := percent("acceleration", req.AccelPercent)
	if err != nil {
		return JointMove{}, err
	}
	m := JointMove{from: req.From}
	moving := false
	pace := LawLimits{Speed: math.Inf(1), Accel: math.Inf(1), Jerk: math.Inf(1)} // of the fraction from 0 to 1
	for j, limits := range req.Limits {
		d := req.To[j] - req.From[j]
		if math.IsNaN(d) || math.IsInf(d, 0) {
			return JointMove{}, fmt.Errorf("motion: joint move: joint %d goes from %g to %g: both must be finite", j+1, req.From[j], req.To[j])
		}
		if err := limits.check(); err != nil {
			return JointMove{}, fmt.Errorf("motion: joint move: joint %d: %w", j+1, err)
		}
		if d == 0 {
			continue
		}
		moving, m.delta[j] = true, d
		pace.Speed = min(pace.Speed, speed*limits.Speed/math.Abs(d))
		pace.Accel = min(pace.Accel, accel*limits.Accel/math.Abs(d))
		pace.Jerk = min(pace.Jerk, limits.jerk()/math.Abs(d))
	}
	if !moving {
		return m, nil
	}
	m.law, err = NewSevenPhase(1, pace)
	return m, err
}

// percent returns p as a fraction, 1 for 0.
func percent(what string, p float64) (float64, error) {
	if p == 0 {
		return 1, nil
	}
	if !(p > 0 && p <= 100) {
		return 0, fmt.Errorf("motion: joint move: %s %g %%: more than 0 to 100 is allowed", what, p)
	}
	return p / 100, nil
}

// Duration returns the time of the move, s.
func (m JointMove) Duration() float64 { return m.law.Duration() }

// At returns joint values (rad, m), speeds (rad/s, m/s) and accelerations
// (rad/s2, m/s2) at time t (s) after the start; before and after, the arm rests.
func (m JointMove) At(t float64) (q, speed, accel kinematics.Q) {
	s, v, a := m.law.At(t)
	for j, d := range m.delta {
		q[j] = m.from[j] + float64(d*s)
		speed[j], accel[j] = d*v, d*a
	}
	return q, speed, accel
}

// Times returns evenly spaced times (s) from 0 to duration (s), both included,
// at most step (s, more than 0) apart; a single 0 for no duration.
func Times(duration, step float64) []float64 {
	n := int(math.Ceil(duration/step - timeSlack))
	times := make([]float64, 0, n+1)
	for i := range n {
		times = append(times, duration*float64(i)/float64(n))
	}
	return append(times, duration)
}

// timeSlack keeps rounding from adding one more step, dimensionless.
const timeSlack = 1e-9
