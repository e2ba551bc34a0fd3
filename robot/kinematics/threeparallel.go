package kinematics

import "math"

// threeParallel finds every posture of that family: joint 1 from the wrist
// point's height along axis 2, joints 5 and 6 from the angle that the flange's
// axis makes with axis 2, which joints 2, 3 and 4 leave alone, then these in
// the plane.
func (se *search) threeParallel() {
	var sh [2]shoulder
	for i := range se.shoulders(&sh) {
		se.offsetWrist(&sh[i], Branch(i)*ShoulderFlip)
	}
}

// offsetWrist goes through both ways of the wrist for one way of joint 1.
func (se *search) offsetWrist(s *shoulder, branch Branch) {
	a, n := se.arm, &se.n
	se.slack = reachSlack
	h := lift(a, s, 0, 0, 1) // axis 4 in A; m is the same in the axes of frame six
	mx := h.X*n[0] + h.Y*n[3] + h.Z*n[6]
	my := h.X*n[1] + h.Y*n[4] + h.Z*n[7]
	mz := h.X*n[2] + h.Y*n[5] + h.Z*n[8]
	mm := mx*mx + my*my
	b, ok := se.middle(mz, mm)
	if !ok {
		return
	}
	var c candidate
	c.q[0] = se.first(s)
	c.near, c.held = s.near|b.near, s.held
	c.err = math.Abs(s.c*s.c+s.s*s.s-1) + b.err
	t5 := atan2(b.s, b.c)
	nx, ny := a.sa4*b.s, a.ca5*a.sa4*b.c+a.sa5*a.ca4 // axis 4 before joint 6 turns it back
	if mm < undetermined*undetermined {              // axes 4 and 6 in line: joint 6 is free
		c.held |= 1 << 5
		c.q[4], c.q[5] = t5-a.off5, se.hold[5]
		s6, c6 := sincos(c.q[5])
		se.planarPart(s, b.c, b.s, c6, s6, &c, branch)
		return
	}
	// Near the line the rounding of the pose moves joint 6, and with it the
	// point that joints 2 and 3 must reach.
	se.slack += poseRounding * (math.Abs(a.fx) + math.Abs(a.fy) + a.a2 + a.a3) / math.Sqrt(mm)
	inv := 1 / mm
	out6, lean6 := atan2(my, mx), lean(ny, nx)
	c.q[4], c.q[5] = t5-a.off5, lean6-out6
	se.planarPart(s, b.c, b.s, (nx*mx+ny*my)*inv, (ny*mx-nx*my)*inv, &c, branch)
	if b.single {
		return
	}
	c.q[4], c.q[5] = -t5-a.off5, math.Pi-lean6-out6
	se.planarPart(s, b.c, -b.s, (ny*my-nx*mx)*inv, (ny*mx+nx*my)*inv, &c, branch|WristFlip)
}

// planarPart adds the candidates for given joints 1, 5 and 6, the latter two
// as cosine and sine of their angles.
func (se *search) planarPart(s *shoulder, c5, s5, c6, s6 float64, c *candidate, branch Branch) {
	a, n := se.arm, &se.n
	// The x axis that joint 4 turns, in frame six, then in A, then in frame 1.
	vy, vz := -a.ca5*s5, a.sa5*s5
	vx, vy := c6*c5+s6*vy, c6*vy-s6*c5
	ax := n[0]*vx + n[1]*vy + n[2]*vz
	ay := n[3]*vx + n[4]*vy + n[5]*vz
	az := n[6]*vx + n[7]*vy + n[8]*vz
	ct := s.c*ax + s.s*ay
	st := a.ca1*(s.c*ay-s.s*ax) + a.sa1*az
	x := s.x1 - (ct*a.fx - st*a.fy)
	y := s.y1 - (st*a.fx + ct*a.fy)
	var el [2]elbow
	k, near, held := se.elbows(x, y, &el)
	if k == 0 {
		return
	}
	turn := atan2(st, ct) - a.gamma
	for i := range k {
		d := *c
		d.near |= near
		d.held |= held
		d.err += el[i].err + math.Abs(ct*ct+st*st-1)
		a.planarJoints(&el[i], &d.q)
		d.q[3] = a.sign4 * (turn - (el[i].t2 + el[i].psi - a.beta3))
		se.add(branch|Branch(i)*ElbowFlip, &d)
	}
}
