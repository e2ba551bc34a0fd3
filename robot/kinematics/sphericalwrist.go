package kinematics

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// sphericalWrist finds every posture of that family: joint 1 from the wrist
// point's height along axis 2, joints 2 and 3 in the plane, the wrist from
// what is left of the orientation.
func (se *search) sphericalWrist() {
	var sh [2]shoulder
	var el [2]elbow
	for i := range se.shoulders(&sh) {
		s := &sh[i]
		n, near, held := se.elbows(s.x1, s.y1, &el)
		if n == 0 {
			continue
		}
		s.q1 = se.first(s)
		s.near |= near
		s.held |= held
		for k := range n {
			se.turnWrist(s, &el[k], Branch(i)*ShoulderFlip|Branch(k)*ElbowFlip)
		}
	}
}

// first returns joint 1's value (rad).
func (se *search) first(s *shoulder) float64 {
	if s.held != 0 {
		return se.hold[0]
	}
	return atan2(s.s, s.c)
}

// planarJoints returns joints 2 and 3 (rad).
func (a *arm) planarJoints(e *elbow) (q2, q3 float64) {
	return e.t2 - a.beta2, a.sign3 * (e.psi + a.beta2 - a.beta3)
}

// turnWrist adds the one or two candidates of an arm posture.
func (se *search) turnWrist(s *shoulder, e *elbow, branch Branch) {
	a, n := se.arm, &se.n
	// The wrist's first axes in A: w = Rz(q1) Rx(alpha1) Rz(turn) Rx(alpha3).
	ct, st := e.c23*a.cg-e.s23*a.sg, e.s23*a.cg+e.c23*a.sg
	wx := lift(a, s, ct, st, 0)
	wy := lift(a, s, -st*a.ca3, ct*a.ca3, a.sa3)
	wz := lift(a, s, st*a.sa3, -ct*a.sa3, a.ca3)
	// g is axis 6 in those axes, m is axis 4 in the axes of frame six.
	gx := wx.X*n[2] + wx.Y*n[5] + wx.Z*n[8]
	gy := wy.X*n[2] + wy.Y*n[5] + wy.Z*n[8]
	gz := wz.X*n[2] + wz.Y*n[5] + wz.Z*n[8]
	mx := wz.X*n[0] + wz.Y*n[3] + wz.Z*n[6]
	my := wz.X*n[1] + wz.Y*n[4] + wz.Z*n[7]
	b, ok := se.middle(gz, gx*gx+gy*gy)
	if !ok {
		return
	}
	near := s.near | b.near
	err := e.err + b.err + math.Abs(s.c*s.c+s.s*s.s-1)
	q2, q3 := a.planarJoints(e)
	t5 := atan2(b.s, b.c)
	if gx*gx+gy*gy < undetermined*undetermined { // axes 4 and 6 in line: joint 4 is free
		q6 := se.lastTurn(se3.RotColumns(wx, wy, wz), se.hold[3]+a.off4, t5)
		c := se.add(branch, near, s.held|1<<3, err)
		c.q = [6]float64{s.q1, q2, q3, se.hold[3], t5 - a.off5, q6}
		return
	}
	out4 := atan2(gy, gx)
	out6 := atan2(my, mx)
	lean4 := lean(b.ny, a.sa5*b.s)
	lean6 := lean(a.ca5*a.sa4*b.c+a.sa5*a.ca4, a.sa4*b.s)
	c := se.add(branch, near, s.held, err)
	c.q[0], c.q[1], c.q[2] = s.q1, q2, q3
	c.q[3], c.q[4], c.q[5] = out4-lean4-a.off4, t5-a.off5, lean6-out6
	if b.single {
		return
	}
	c = se.add(branch|WristFlip, near, s.held, err)
	c.q[0], c.q[1], c.q[2] = s.q1, q2, q3
	c.q[3], c.q[4], c.q[5] = out4+lean4-math.Pi-a.off4, -t5-a.off5, math.Pi-lean6-out6
}

// lift takes a direction of frame 1 to A.
func lift(a *arm, s *shoulder, x, y, z float64) r3.Vec {
	up := a.ca1*y - a.sa1*z
	return r3.Vec{X: s.c*x - s.s*up, Y: s.s*x + s.c*up, Z: a.sa1*y + a.ca1*z}
}

// add opens a candidate under its branch; the caller writes its joints in
// place, since copying what has just been written stalls the processor.
func (se *search) add(b Branch, near SingularSet, held uint8, err float64) *candidate {
	se.have |= 1 << b
	c := &se.cand[b&(MaxSolutions-1)]
	c.near, c.held, c.err = near, held, err
	return c
}
