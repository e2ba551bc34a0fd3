package motion

import (
	"fmt"
	"math"
)

// Law is a time law: how far along a path the motion is at a time, from rest at
// 0 to rest at the path's end. Everything that needs timing takes a Law, so that
// the trapezoid and the law that also limits jerk stand in for one another.
type Law interface {
	// Duration returns the time from start to end, s.
	Duration() float64
	// At returns the distance s, the speed v and the acceleration a at time t (s)
	// after the start, in the path's unit (m or rad, or dimensionless), per s and
	// per s2. Before 0 and after Duration the motion rests.
	At(t float64) (s, v, a float64)
}

// LawLimits bounds a rest-to-rest motion, in the path's unit (m, rad or
// dimensionless).
type LawLimits struct {
	Speed float64 // m/s, rad/s or 1/s, more than 0
	Accel float64 // m/s2, rad/s2 or 1/s2, more than 0
	// Jerk bounds the rate of the acceleration, m/s3, rad/s3 or 1/s3; 0 and +Inf
	// mean unlimited.
	Jerk float64
}

// jerk returns the bound on the jerk, +Inf for none.
func (l LawLimits) jerk() float64 {
	if l.Jerk == 0 {
		return math.Inf(1)
	}
	return l.Jerk
}

// check says what is wrong with the limits of a law.
func (l LawLimits) check() error {
	switch {
	case !(l.Speed > 0) || !(l.Accel > 0) || math.IsInf(l.Accel, 1):
		return fmt.Errorf("top speed %g and acceleration %g: both must be more than 0, the acceleration finite", l.Speed, l.Accel)
	case !(l.Jerk >= 0):
		return fmt.Errorf("jerk %g: it must be more than 0; 0 means unlimited", l.Jerk)
	}
	return nil
}

// LawMaker returns the law that covers a distance (m, rad or dimensionless, 0 or
// more) as fast as the limits allow.
type LawMaker func(distance float64, limits LawLimits) (Law, error)

// TrapezoidLaw is the LawMaker of NewTrapezoid: distance in m, rad or
// dimensionless.
func TrapezoidLaw(distance float64, limits LawLimits) (Law, error) {
	return NewTrapezoid(distance, limits)
}

// Trapezoid is the law with constant acceleration, then constant speed, then
// constant deceleration of the same size; where the distance is too short to
// reach the speed, the middle is missing. It does not look at the limit of jerk. The
// zero value rests at 0 for no time.
//
// Formulas: textbook, for example Biagiotti and Melchiorri, Trajectory Planning
// for Automatic Machines and Robots (2008), section 3.2 (from memory): ramp
// v/a, duration d/v + v/a if d >= v^2/a, else 2 sqrt(d/a) with peak sqrt(d a).
type Trapezoid struct {
	distance, speed, accel float64
	ramp, cruise           float64 // s
}

// NewTrapezoid returns the fastest trapezoid over distance (m, rad or
// dimensionless) within the limits. A distance of 0 takes no time. A negative or
// infinite distance and limits of 0 or less are errors.
func NewTrapezoid(distance float64, limits LawLimits) (Trapezoid, error) {
	if !(distance >= 0) || math.IsInf(distance, 1) {
		return Trapezoid{}, fmt.Errorf("motion: time law: distance %g: it must be finite and 0 or more", distance)
	}
	if err := limits.check(); err != nil {
		return Trapezoid{}, fmt.Errorf("motion: time law: %w", err)
	}
	peak := min(limits.Speed, math.Sqrt(distance*limits.Accel))
	if peak == 0 {
		return Trapezoid{}, nil
	}
	ramp := peak / limits.Accel
	return Trapezoid{
		distance: distance, speed: peak, accel: limits.Accel,
		ramp: ramp, cruise: max(0, distance/peak-ramp),
	}, nil
}

// Duration returns the time from start to end, s.
func (l Trapezoid) Duration() float64 { return 2*l.ramp + l.cruise }

// Peak returns the highest speed, per s in the distance's unit (m or rad).
func (l Trapezoid) Peak() float64 { return l.speed }

// At returns distance, speed and acceleration (m or rad; per s; per s2) at time
// t in s, as Law says.
func (l Trapezoid) At(t float64) (s, v, a float64) {
	left := l.Duration() - t
	switch {
	case t <= 0:
		return 0, 0, 0
	case left <= 0:
		return l.distance, 0, 0
	case t < l.ramp:
		return l.accel * t * t / 2, l.accel * t, l.accel
	case left < l.ramp:
		return l.distance - l.accel*left*left/2, l.accel * left, -l.accel
	}
	return l.speed * (t - l.ramp/2), l.speed, 0
}
