package kinematics

import "math"

// Narrowed returns the chain with joint i kept between lower and upper (rad or
// m) as well as between the limits that it has; a continuous joint becomes a
// revolute one. ok is false where nothing is left between them. It panics
// unless 0 <= i < N.
func (c *Chain) Narrowed(i int, lower, upper float64) (narrow *Chain, ok bool) {
	out := *c
	j := &out.joints[:c.n][i]
	if lower > j.Lower {
		j.Lower, j.LowerNarrowed = lower, true
	}
	if upper < j.Upper {
		j.Upper, j.UpperNarrowed = upper, true
	}
	if j.Kind == Continuous && !math.IsInf(j.Upper-j.Lower, 1) {
		j.Kind = Revolute
	}
	return &out, j.Lower <= j.Upper
}

// Turns returns the whole turns k for which q[j] + 2*pi*k is inside joint j's
// limits, from lo to hi; lo > hi says that there are none. A prismatic joint
// has the turn 0 or none. For a continuous joint, which has no limits, the
// answer is the largest range of int32. q[j] is in rad or m.
func (c *Chain) Turns(q *Q, j int) (lo, hi int) {
	jt := &c.joints[:c.n][j]
	switch {
	case jt.Kind == Continuous:
		return math.MinInt32, math.MaxInt32
	case jt.Kind == Prismatic && q[j] >= jt.Lower && q[j] <= jt.Upper:
		return 0, 0
	case jt.Kind == Prismatic:
		return 1, 0
	}
	const turn = 2 * math.Pi
	lo = int(math.Ceil((jt.Lower - q[j]) / turn))
	hi = int(math.Floor((jt.Upper - q[j]) / turn))
	// The division rounds: a value on a limit belongs to the range.
	if q[j]+float64(turn*float64(lo-1)) >= jt.Lower {
		lo--
	}
	if q[j]+float64(turn*float64(hi+1)) <= jt.Upper {
		hi++
	}
	return lo, hi
}
