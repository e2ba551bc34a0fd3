package kinematics

import "math/bits"

// reversed returns the chain seen from its flange: joint i becomes joint
// N-1-i with the same values and limits, and its pose is the inverse.
func (c *Chain) reversed() *Chain {
	r := &Chain{n: c.n, zero: c.zero.Inv()}
	for i := range c.n {
		l := c.lines[c.n-1-i]
		r.lines[i] = line{dir: r.zero.Dir(l.dir).Neg(), at: r.zero.Apply(l.at)}
		r.joints[i] = c.joints[c.n-1-i]
	}
	r.form = compile(r.lines[:r.n], r.joints[:r.n], r.zero)
	return r
}

// backwards returns six joint values in the opposite order.
func backwards(q [6]float64) [6]float64 {
	return [6]float64{q[5], q[4], q[3], q[2], q[1], q[0]}
}

// unmirror turns candidates of the arm seen from its flange into its own. The
// wrist there is the shoulder here.
func (se *search) unmirror() {
	list, have := se.cand, se.have
	se.have = 0
	for ; have != 0; have &= have - 1 {
		c := &list[bits.TrailingZeros16(have)%closedMost]
		b := c.branch&ElbowFlip | c.branch&WristFlip*(ShoulderFlip/WristFlip) | c.branch&ShoulderFlip/(ShoulderFlip/WristFlip)
		near := c.near&AtElbow | c.near&AtWrist*(AtShoulder/AtWrist) | c.near&AtShoulder/(AtShoulder/AtWrist)
		to := se.add(b, near, bits.Reverse8(c.held)>>2, c.err)
		to.q = backwards(c.q)
	}
}
