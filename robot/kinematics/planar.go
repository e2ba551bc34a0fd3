package kinematics

import "math"

// shoulder solves for joint 1: the wrist point, turned back by it, has the
// height k along axis 2. Both ways share y and have x of opposite sign.
type shoulder struct {
	c, s   float64 // cosine and sine of joint 1
	x      float64 // wrist point along frame A's x, joint 1 turned back, m
	x1, y1 float64 // wrist point in frame 1, m
	q1     float64 // joint 1, rad
	near   SingularSet
	held   uint8
}

// shoulders writes both ways for joint 1 and returns how many there are: 0
// where the point is too near axis 1, 1 where both are the same.
func (se *search) shoulders(out *[2]shoulder) int {
	a := se.arm
	y := (a.ca1*se.z - a.k) * a.per.sa1
	r := math.Sqrt(se.x*se.x + se.y*se.y)
	over := math.Abs(y) - r
	if over > reachSlack {
		se.outOfReach(TooNear, over)
		return 0
	}
	x := 0.0
	if over < 0 {
		x = math.Sqrt(-over * (math.Abs(y) + r))
	}
	y1 := a.ca1*y + a.sa1*se.z
	size := math.Abs(x) + math.Abs(y) + math.Abs(se.z)
	n, near, held := 2, SingularSet(0), uint8(0)
	if x <= NearSingular*size {
		near = AtShoulder
	}
	if x == 0 {
		n = 1
	}
	if r <= undetermined*size || r == 0 { // the point is on axis 1: joint 1 is free
		s, c := sincos(se.hold[0])
		out[0] = shoulder{c: c, s: s, x1: -a.a1, y1: y1, near: near, held: 1}
		return 1
	}
	rr := r * r
	cx, sx, cy, sy := se.x*x/rr, se.y*x/rr, se.y*y/rr, se.x*y/rr
	out[0] = shoulder{c: cy + cx, s: sx - sy, x: x, x1: x - a.a1, y1: y1, near: near, held: held}
	out[1] = shoulder{c: cy - cx, s: -sx - sy, x: -x, x1: -x - a.a1, y1: y1, near: near, held: held}
	return n
}

// elbow is one way of reaching a point of frame 1's plane with the two links.
type elbow struct {
	t2, psi  float64 // direction of link 2, and of link 3 from link 2, rad
	c23, s23 float64 // direction of link 3
	err      float64 // closing error, m
}

// elbows writes both ways of reaching (x, y) and returns how many there are, 0
// where it is out of reach, with what both have in common.
func (se *search) elbows(x, y float64, out *[2]elbow) (n int, near SingularSet, held uint8) {
	a := se.arm
	dd := x*x + y*y
	d := math.Sqrt(dd)
	reach, fold := a.a2+a.a3, math.Abs(a.a2-a.a3)
	switch {
	case d-reach > se.slack:
		se.outOfReach(TooFar, d-reach)
		return 0, 0, 0
	case fold-d > se.slack:
		se.outOfReach(TooNear, fold-d)
		return 0, 0, 0
	}
	far := max((reach-d)*(reach+d), 0) // 2 a2 a3 (1 - cos psi)
	close := max((d-fold)*(d+fold), 0) // 2 a2 a3 (1 + cos psi)
	p := a.per.links
	sin, cos := math.Sqrt(far*close)*p, (close-far)*(0.5*p)
	psi := atan2(sin, cos)
	if sin < NearSingular {
		near = AtElbow
	}
	kx, ky := a.a2+a.a3*cos, a.a3*sin // the point seen from link 2
	if d <= undetermined*reach {      // the point is on axis 2: joint 2 is free
		t2 := se.hold[1] + a.beta2
		s, c := sincos(t2)
		out[0] = elbow{t2: t2, psi: psi, c23: c*cos - s*sin, s23: s*cos + c*sin, err: d}
		return 1, near, 2
	}
	at, lift := atan2(y, x), atan2(ky, kx)
	inv := 1 / dd
	ax, ay, bx, by := x*kx*inv, y*ky*inv, y*kx*inv, x*ky*inv
	out[0].set(a, x, y, ax+ay, bx-by, cos, sin)
	out[0].t2, out[0].psi = at-lift, psi
	if sin == 0 {
		return 1, near, 0
	}
	out[1].set(a, x, y, ax-ay, bx+by, cos, -sin)
	out[1].t2, out[1].psi = at+lift, -psi
	return 2, near, 0
}

// set fills in what follows from the direction (c, s) of link 2.
func (e *elbow) set(a *arm, x, y, c, s, cos, sin float64) {
	e.c23, e.s23 = c*cos-s*sin, s*cos+c*sin
	e.err = math.Abs(a.a2*c+a.a3*e.c23-x) + math.Abs(a.a2*s+a.a3*e.s23-y)
}

// outOfReach keeps the smallest lack among the branches.
func (se *search) outOfReach(why Reach, by float64) {
	if se.reach != TooFar && se.reach != TooNear || by < se.missing {
		se.reach, se.missing = why, by
	}
}

// wrongAttitude keeps the smallest lack among the branches, unless one of them
// lacks reach only.
func (se *search) wrongAttitude(by float64) {
	if se.reach == Reachable || se.reach == WrongAttitude && by < se.attitude {
		se.reach, se.attitude = WrongAttitude, by
	}
}
