package motion

import (
	"fmt"
	"math"
)

// SevenPhase is the fastest law from rest to rest whose jerk is bounded too: jerk
// up, constant acceleration, jerk down, constant speed, and the same backwards.
// Phases that a short distance or wide limits leave no room for take no time; with
// unlimited jerk it is the trapezoid: constant acceleration, constant speed and the
// first backwards. The zero value rests at 0 for no time.
//
// Formulas: textbook "double S" law, for example Biagiotti and Melchiorri,
// Trajectory Planning for Automatic Machines and Robots (2008), section 3.4 (from
// memory), held against the seven durations in testdata/rest_to_rest.json.
type SevenPhase struct {
	distance, jerk float64
	bend           float64 // s of each of the four phases of jerk
	hold           float64 // s of constant acceleration, twice
	cruise         float64 // s of constant speed
	accel, speed   float64 // the highest of each
}

// NewSevenPhase returns the fastest law over distance (m, rad or dimensionless)
// within the limits. A distance of 0 takes no time. A negative or infinite distance,
// limits that LawLimits does not allow and such as lie too far apart to be computed
// with are errors.
func NewSevenPhase(distance float64, limits LawLimits) (SevenPhase, error) {
	if !(distance >= 0) || math.IsInf(distance, 1) {
		return SevenPhase{}, fmt.Errorf("motion: time law: distance %g: it must be finite and 0 or more", distance)
	}
	if err := limits.check(); err != nil {
		return SevenPhase{}, fmt.Errorf("motion: time law: %w", err)
	}
	if distance == 0 {
		return SevenPhase{}, nil
	}
	l := SevenPhase{distance: distance}
	j, a := limits.jerk(), limits.Accel
	lag := a / j // the time in which the acceleration is reached, s: 0 for unlimited jerk
	switch {
	case distance < 2*a*lag*lag && distance <= 2*limits.Speed*math.Sqrt(limits.Speed/j):
		// neither acceleration nor speed is reached: four equal phases
		l.bend = math.Cbrt(distance / (2 * j))
		l.accel, l.speed = j*l.bend, j*l.bend*l.bend
	case limits.Speed < a*lag: // the speed is reached before the acceleration is
		l.bend = math.Sqrt(limits.Speed / j)
		l.accel, l.speed = j*l.bend, limits.Speed
	default: // the speed v over v (v/a + lag), if that is not more than the distance
		l.accel, l.bend = a, lag
		l.speed = min(limits.Speed, 2*distance/(lag+math.Sqrt(lag*lag+4*distance/a)))
		l.hold = max(0, l.speed/a-lag)
	}
	l.jerk = j
	l.cruise = max(0, distance/l.speed-2*l.bend-l.hold)
	if total := l.Duration(); !(total <= math.MaxFloat64) {
		return SevenPhase{}, fmt.Errorf("motion: time law: %g at speed %g, acceleration %g and jerk %g takes %g s: the limits lie too far apart to be computed with", distance, limits.Speed, a, j, total)
	}
	return l, nil
}

// Duration returns the time from start to end, s.
func (l SevenPhase) Duration() float64 { return 4*l.bend + 2*l.hold + l.cruise }

// Peak returns the highest speed, per s in the distance's unit (m or rad).
func (l SevenPhase) Peak() float64 { return l.speed }

// Ends returns when the seven phases end, in s after the start, in order; phases that
// are left out end with the one before.
func (l SevenPhase) Ends() [7]float64 {
	var ends [7]float64
	now := 0.0
	for i, d := range [7]float64{l.bend, l.hold, l.bend, l.cruise, l.bend, l.hold, l.bend} {
		now += d
		ends[i] = now
	}
	return ends
}

// At returns distance, speed and acceleration (m or rad; per s; per s2) at time t
// in s after the start. Before 0 and after Duration the motion rests.
func (l SevenPhase) At(t float64) (s, v, a float64) {
	left := l.Duration() - t
	ramp := 2*l.bend + l.hold
	switch {
	case t <= 0:
		return 0, 0, 0
	case left <= 0:
		return l.distance, 0, 0
	case t < ramp:
		s, v, a, _ = l.gather(t)
		return s, v, a
	case left < ramp:
		s, v, a, _ = l.gather(left)
		return l.distance - s, v, -a
	}
	return l.speed * (t - ramp/2), l.speed, 0
}

// JerkAt returns the rate of the acceleration at time t (s), per s3 in the
// distance's unit (m or rad); where it jumps, the later value. It is 0 throughout
// where jerk is unlimited.
func (l SevenPhase) JerkAt(t float64) float64 {
	left := l.Duration() - t
	ramp := 2*l.bend + l.hold
	switch {
	case math.IsInf(l.jerk, 1) || t < 0 || left <= 0:
		return 0
	case t < ramp:
		_, _, _, j := l.gather(t)
		return j
	case left <= ramp:
		_, _, _, j := l.gather(left * (1 - timeSlack)) // the phase behind
		return j
	}
	return 0
}

// gather is the first ramp at time t (s) of it: where, how fast, with which
// acceleration and jerk.
func (l SevenPhase) gather(t float64) (s, v, a, j float64) {
	half := l.bend + l.hold
	switch {
	case t < l.bend:
		return l.jerk * t * t * t / 6, l.jerk * t * t / 2, l.jerk * t, l.jerk
	case t < half:
		b, on := l.bend, t-l.bend
		v = l.accel * (b/2 + on)
		return l.accel * (b*b/6 + on*(b+on)/2), v, l.accel, 0
	}
	ramp := half + l.bend
	left := ramp - t // the bend into the speed, looked at from its end
	return l.speed*(ramp/2-left) + l.jerk*left*left*left/6, l.speed - l.jerk*left*left/2, l.jerk * left, -l.jerk
}
