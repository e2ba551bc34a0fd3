package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// wristTurn is what one way of joints 5 and 6 leaves to joints 2, 3 and 4: the
// direction in frame 1 of the x axis that joint 4 turns.
type wristTurn struct {
	ct, st float64
	at     uint8 // its place
}

// threeParallel finds every posture of that family: joint 1 from the wrist
// point's height along axis 2, joints 5 and 6 from the angle that the flange's
// axis makes with axis 2, which joints 2, 3 and 4 leave alone, then these in
// the plane. All directions come first; their angles follow together.
func (se *search) threeParallel() {
	var (
		d    directions
		sh   [2]shoulder
		list [4]posture
		n    int
	)
	for i := range se.shoulders(&d, &sh) {
		s := &sh[i]
		var six se3.Rot
		se.seenFrom(s, &six)
		var way [2]wristTurn
		p := posture{joint1: s.at, near: s.near, held: s.held}
		for k := range se.aimOffset(&p, &d, s, &six, &way) {
			l := &list[n&3]
			l.joint1, l.wrist, l.near, l.held, l.err = p.joint1, p.wrist, p.near, p.held, p.err
			l.branch = Branch(i)*ShoulderFlip | Branch(k)*WristFlip
			if se.aimPlanar(l, &d, s, &way[k&1]) {
				n++
			}
		}
	}
	d.angles()
	for i := range list[:n] {
		se.turnPlanar(&list[i], &d)
	}
}

// aimOffset notes the directions of joint 5, of axis 4 behind joint 6 and, for
// skew wrists, how far the latter leans. It writes the ways of joints 5 and 6
// and returns how many there are.
func (se *search) aimOffset(p *posture, d *directions, s *shoulder, six *se3.Rot, out *[2]wristTurn) int {
	a := se.arm
	se.slack = reachSlack
	mx, my := six[6], six[7] // axis 4 in the axes of frame six
	mm := mx*mx + my*my
	b, ok := se.middle(six[8], mm)
	if !ok {
		return 0
	}
	p.near |= b.near
	p.err[0] = math.Abs(s.c*s.c+s.s*s.s-1) + b.err
	p.err[1] = p.err[0]
	p.wrist = d.add(b.s, b.c)
	if mm < undetermined*undetermined { // axes 4 and 6 in line: joint 6 is free
		p.held |= 1 << 5
		s6, c6 := sincos(se.hold[5])
		out[0].set(d, a, six, b.c, b.s, c6, s6)
		return 1
	}
	mx, my = mx*b.inv, my*b.inv
	d.add(my, mx)
	nx, ny := a.sa4*b.s*b.inv, a.behind(b.c)*b.inv // axis 4 before joint 6 turns it back
	// Near a singularity of the wrist the rounding of the pose moves joints 5
	// and 6, and with them the point that joints 2 and 3 must reach.
	const least = 1e-9 // sine; nearer, the rounding's square root is all there is
	se.slack += poseRounding * (math.Abs(a.fx) + math.Abs(a.fy) + a.a2 + a.a3) / max(b.s, least)
	if a.skew() {
		d.add(ny, nx)
		out[1].set(d, a, six, b.c, -b.s, ny*my-nx*mx, ny*mx+nx*my)
	}
	out[0].set(d, a, six, b.c, b.s, nx*mx+ny*my, ny*mx-nx*my)
	if !a.skew() { // half a turn of joints 4 and 6
		out[1] = wristTurn{-out[0].ct, -out[0].st, out[0].at}
	}
	return int(b.ways)
}

// set finds the direction for the cosines and sines of joints 5 and 6.
func (w *wristTurn) set(d *directions, a *arm, six *se3.Rot, c5, s5, c6, s6 float64) {
	back, z := -a.ca5*s5, a.sa5*s5
	x, y := c6*c5+s6*back, c6*back-s6*c5 // in frame six
	w.ct = six[0]*x + six[1]*y + six[2]*z
	w.st = six[3]*x + six[4]*y + six[5]*z
	w.at = d.add(w.st, w.ct)
}

// aimPlanar notes the directions of the links for one way of joints 1, 5 and 6. It reports whether the links
// reach.
func (se *search) aimPlanar(p *posture, d *directions, s *shoulder, w *wristTurn) bool {
	a := se.arm
	ct, st := w.ct, w.st
	x := s.x1 - (ct*a.fx - st*a.fy)
	y := s.y1 - (st*a.fx + ct*a.fy)
	var f fold
	se.span(&f, d, x*x+y*y)
	if f.n == 0 {
		return false
	}
	var e elbow
	se.aimLinks(&e, d, &f, x, y)
	p.links, p.point, p.turn = f.at, e.at, w.at
	p.near |= f.near
	p.held |= f.held
	p.ways = uint8(f.n)
	off := math.Abs(ct*ct + st*st - 1)
	p.err[0] += e.way[0].err + off
	p.err[1] += e.way[1].err + off
	return true
}

// turnPlanar adds the candidates for one way of joints 1, 5 and 6.
func (se *search) turnPlanar(p *posture, d *directions) {
	a, hold := se.arm, se.hold
	q1, q5, q6 := se.first(p, d), d.angle(p.wrist), hold[5]
	turn, lean6 := d.angle(p.turn)-a.gamma, 0.0
	if a.skew() {
		lean6 = d.angle(p.wrist + 2)
	}
	if p.branch&WristFlip != 0 {
		q5, lean6 = -q5, math.Pi-lean6
		if !a.skew() {
			turn += math.Pi
		}
	}
	if p.held&(1<<5) == 0 {
		q6 = nextTo(lean6-d.angle(p.wrist+1), q6)
	}
	q5 = nextTo(q5-a.off5, hold[4])
	for i := range p.ways {
		branch := p.branch | Branch(i)*ElbowFlip
		t2, psi := se.links(p, d, branch)
		c := se.add(branch, p.near, p.held, p.err[i&1])
		c.q[0], c.q[4], c.q[5] = q1, q5, q6
		c.q[1], c.q[2] = se.planarJoints(t2, psi)
		c.q[3] = nextTo(a.sign4*(turn-(t2+psi-a.beta3)), hold[3])
	}
}
