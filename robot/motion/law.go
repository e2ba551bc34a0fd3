package motion

import (
	"fmt"
	"math"
)

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
