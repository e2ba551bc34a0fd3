package kinematics

import "math"

func sincos(x float64) (s, c float64) { return math.Sincos(x) }
