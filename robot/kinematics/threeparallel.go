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

// wristTurn is one way of joints 1, 5 and 6.
type wristTurn struct {
	c5, s5, c6, s6 float64 // cosines and sines of the latter two's angles
	q1, q5, q6     float64 // rad
	err            float64 // closing error, m or rad
	near           SingularSet
	held           uint8
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
	t5 := atan2(b.s, b.c)
	nx, ny := a.sa4*b.s, a.ca5*a.sa4*b.c+a.sa5*a.ca4 // axis 4 before joint 6 turns it back
	w := wristTurn{c5: b.c, s5: b.s, q1: se.first(s), q5: t5 - a.off5, near: s.near | b.near, held: s.held}
	w.err = math.Abs(s.c*s.c+s.s*s.s-1) + b.err
	if mm < undetermined*undetermined { // axes 4 and 6 in line: joint 6 is free
		w.held |= 1 << 5
		w.q6 = se.hold[5]
		w.s6, w.c6 = sincos(w.q6)
		se.planarPart(s, &w, branch)
		return
	}
	// Near the line the rounding of the pose moves joint 6, and with it the
	// point that joints 2 and 3 must reach.
	se.slack += poseRounding * (math.Abs(a.fx) + math.Abs(a.fy) + a.a2 + a.a3) / math.Sqrt(mm)
	inv := 1 / mm
	out6, lean6 := atan2(my, mx), lean(ny, nx)
	w.q6, w.c6, w.s6 = lean6-out6, (nx*mx+ny*my)*inv, (ny*mx-nx*my)*inv
	se.planarPart(s, &w, branch)
	if b.single {
		return
	}
	w.s5, w.q5 = -b.s, -t5-a.off5
	w.q6, w.c6, w.s6 = math.Pi-lean6-out6, (ny*my-nx*mx)*inv, (ny*mx+nx*my)*inv
	se.planarPart(s, &w, branch|WristFlip)
}

// planarPart adds the candidates for given joints 1, 5 and 6.
func (se *search) planarPart(s *shoulder, w *wristTurn, branch Branch) {
	a, n := se.arm, &se.n
	// The x axis that joint 4 turns, in frame six, then in A, then in frame 1.
	back, vz := -a.ca5*w.s5, a.sa5*w.s5
	vx, vy := w.c6*w.c5+w.s6*back, w.c6*back-w.s6*w.c5
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
	off := math.Abs(ct*ct + st*st - 1)
	for i := range k {
		e := &el[i]
		c := se.add(branch|Branch(i)*ElbowFlip, w.near|near, w.held|held, w.err+e.err+off)
		c.q[0], c.q[4], c.q[5] = w.q1, w.q5, w.q6
		c.q[1], c.q[2] = a.planarJoints(e)
		c.q[3] = a.sign4 * (turn - (e.t2 + e.psi - a.beta3))
	}
}
