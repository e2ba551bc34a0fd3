package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// sphericalWrist finds every posture of that family: joint 1 from the wrist
// point's height along axis 2, joints 2 and 3 in the plane, the wrist from
// what is left of the orientation. All directions come first; their angles
// follow together.
func (se *search) sphericalWrist() {
	var (
		d    directions
		sh   [2]shoulder
		f    fold
		e    elbow
		list [4]posture
		n    int
	)
	for i := range se.shoulders(&d, &sh) {
		s := &sh[i]
		// Both ways are as far away where axes 1 and 2 have no offset.
		if dd := s.x1*s.x1 + s.y1*s.y1; i == 0 || dd != f.dd {
			se.span(&f, &d, dd)
		}
		if f.n == 0 {
			continue
		}
		se.aimLinks(&e, &d, &f, s.x1, s.y1)
		var six se3.Rot
		se.seenFrom(s, &six)
		off := math.Abs(s.c*s.c + s.s*s.s - 1)
		for k := range f.n {
			p := &list[n&3]
			p.joint1, p.links, p.point = s.at, f.at, e.at
			p.branch = Branch(i)*ShoulderFlip | Branch(k)*ElbowFlip
			p.near, p.held = s.near|f.near, s.held|f.held
			w := &e.way[k&1]
			p.err[0] = w.err + off
			if se.aimWrist(p, &d, w, &six) {
				n++
			}
		}
	}
	d.angles()
	for i := range list[:n] {
		se.turnWrist(&list[i], &d)
	}
}

// aimWrist notes the wrist's directions: joint 5's, then axis 6's before joint
// 4, axis 4's behind joint 6 and, for skew wrists, how far these lean. six
// holds the axes of frame six in frame 1. It reports whether the wrist can do
// it.
func (se *search) aimWrist(p *posture, d *directions, w *elbowWay, six *se3.Rot) bool {
	a := se.arm
	// The wrist's first axes in frame 1: Rz(turn) Rx(alpha3), z along axis 4.
	ct, st := w.c*a.cg-w.s*a.sg, w.s*a.cg+w.c*a.sg
	zx, zy := st*a.sa3, -ct*a.sa3
	// g is axis 6 in those axes, m is axis 4 in the axes of frame six.
	gx := ct*six[2] + st*six[5]
	gy := a.ca3*(ct*six[5]-st*six[2]) + a.sa3*six[8]
	gz := zx*six[2] + zy*six[5] + a.ca3*six[8]
	mx := zx*six[0] + zy*six[3] + a.ca3*six[6]
	my := zx*six[1] + zy*six[4] + a.ca3*six[7]
	gg := gx*gx + gy*gy
	b, ok := se.middle(gz, gg)
	if !ok {
		return false
	}
	p.ways = b.ways
	p.near |= b.near
	p.err[0] += b.err
	p.wrist = d.add(b.s, b.c)
	if gg < undetermined*undetermined { // axes 4 and 6 in line: joint 4 is free
		p.held |= 1 << 3
		return true
	}
	d.add(gy*b.inv, gx*b.inv)
	d.add(my*b.inv, mx*b.inv)
	if a.skew() {
		d.add(b.ny*b.inv, a.sa5*b.s*b.inv)
		d.add(a.behind(b.c)*b.inv, a.sa4*b.s*b.inv)
	}
	return true
}

// turnWrist adds the one or two candidates of a posture of the arm.
func (se *search) turnWrist(p *posture, d *directions) {
	a, hold := se.arm, se.hold
	q1 := se.first(p, d)
	t2, psi := se.links(p, d, p.branch)
	q2, q3 := se.planarJoints(t2, psi)
	t5 := d.angle(p.wrist)
	c := se.add(p.branch, p.near, p.held, p.err[0])
	c.q[0], c.q[1], c.q[2], c.q[4] = q1, q2, q3, nextTo(t5-a.off5, hold[4])
	if p.held&(1<<3) != 0 {
		c.q[3] = hold[3]
		c.q[5] = nextTo(se.lastTurn(q1, t2+psi+a.gamma-a.beta3, hold[3]+a.off4, t5), hold[5])
		return
	}
	out4, out6, lean4, lean6 := d.angle(p.wrist+1), d.angle(p.wrist+2), 0.0, 0.0
	if a.skew() {
		lean4, lean6 = d.angle(p.wrist+3), d.angle(p.wrist+4)
	}
	c.q[3], c.q[5] = nextTo(out4-lean4-a.off4, hold[3]), nextTo(lean6-out6, hold[5])
	if p.ways == 1 {
		return
	}
	c = se.add(p.branch|WristFlip, p.near, p.held, p.err[0])
	c.q[0], c.q[1], c.q[2], c.q[4] = q1, q2, q3, nextTo(-t5-a.off5, hold[4])
	c.q[3], c.q[5] = nextTo(out4+lean4-math.Pi-a.off4, hold[3]), nextTo(math.Pi-lean6-out6, hold[5])
}

// lastTurn returns joint 6's angle (rad) where joint 4 is free, from the angles
// of joint 1, of the wrist's first axes in frame 1, and of joints 4 and 5 (rad).
func (se *search) lastTurn(t1, turn, t4, t5 float64) float64 {
	a := se.arm
	before := se3.RotZ(t1).Mul(rotX(a.ca1, a.sa1)).Mul(se3.RotZ(turn)).Mul(rotX(a.ca3, a.sa3)).
		Mul(se3.RotZ(t4)).Mul(rotX(a.ca4, a.sa4)).Mul(se3.RotZ(t5)).Mul(rotX(a.ca5, a.sa5))
	r := before.T().Mul(se.n)
	return math.Atan2(r[3]-r[1], r[0]+r[4])
}

// rotX returns the turn about x with the given cosine and sine.
func rotX(c, s float64) se3.Rot { return se3.Rot{1, 0, 0, 0, c, -s, 0, s, c} }

// add opens a candidate under its branch; the caller writes its joints in
// place, since copying what has just been written stalls the processor.
func (se *search) add(b Branch, near SingularSet, held uint8, err float64) *candidate {
	se.have |= 1 << b
	c := &se.cand[b%closedMost]
	c.branch, c.near, c.held, c.err = b, near, held, err
	return c
}
