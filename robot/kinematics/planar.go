package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// shoulder is one way of joint 1: the wrist point, turned back by it, has the
// height k along axis 2.
type shoulder struct {
	c, s   float64 // cosine and sine of joint 1
	x1, y1 float64 // wrist point in frame 1, m
	at     uint8   // place of joint 1's direction
	near   SingularSet
	held   uint8
}

// shoulders writes both ways for joint 1, which share the point's y in A and
// have its x with opposite sign, and returns how many there are: 0 where the
// point is too near axis 1, 1 where both are the same.
func (se *search) shoulders(d *directions, out *[2]shoulder) int {
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
	near := SingularSet(0)
	if x <= NearSingular*size {
		near = AtShoulder
	}
	if r <= undetermined*size || r == 0 { // the point is on axis 1: joint 1 is free
		s, c := sincos(se.hold[0])
		out[0] = shoulder{c: c, s: s, x1: -a.a1, y1: y1, near: near, held: 1}
		return 1
	}
	inv := 1 / (r * r)
	px, py := se.x*inv, se.y*inv
	cx, sx, cy, sy := px*x, py*x, py*y, px*y
	out[0].set(d, cy+cx, sx-sy, x-a.a1, y1, near)
	if x == 0 {
		return 1
	}
	out[1].set(d, cy-cx, -sx-sy, -x-a.a1, y1, near)
	return 2
}

func (s *shoulder) set(d *directions, cos, sin, x1, y1 float64, near SingularSet) {
	s.c, s.s, s.x1, s.y1, s.near = cos, sin, x1, y1, near
	s.at = d.add(sin, cos)
}

// seenFrom writes the axes of frame six in frame 1, for one way of joint 1.
func (se *search) seenFrom(s *shoulder, f *se3.Rot) {
	a, n := se.arm, &se.n
	for i := range 3 {
		x, y, z := n[i], n[3+i], n[6+i]
		y, f[i] = s.c*y-s.s*x, s.c*x+s.s*y
		f[3+i], f[6+i] = a.ca1*y+a.sa1*z, a.ca1*z-a.sa1*y
	}
}

// fold is how the two links span a distance.
type fold struct {
	dd       float64 // square of the distance, m2
	n        int     // ways of spanning it; 0: none, 1: both are the same
	inv      float64 // 1 / distance, 1/m
	cos, sin float64 // direction of link 3, seen from link 2
	kc, ks   float64 // direction of the far end, seen from link 2
	at       uint8   // places of these two directions: this and the next
	near     SingularSet
	held     uint8
}

// span fills f for a distance with the square dd (m2).
func (se *search) span(f *fold, d *directions, dd float64) {
	a := se.arm
	dist := math.Sqrt(dd)
	reach, least := a.a2+a.a3, math.Abs(a.a2-a.a3)
	f.dd, f.n, f.near, f.held = dd, 0, 0, 0
	switch {
	case dist-reach > se.slack:
		se.outOfReach(TooFar, dist-reach)
		return
	case least-dist > se.slack:
		se.outOfReach(TooNear, least-dist)
		return
	}
	far := (reach - dist) * (reach + dist)   // 2 a2 a3 (1 - cos)
	close := (dist - least) * (dist + least) // 2 a2 a3 (1 + cos)
	if far < 0 {
		far = 0
	}
	if close < 0 {
		close = 0
	}
	p := a.per.links
	cos, sin := (close-far)*(0.5*p), math.Sqrt(far*close)*p
	f.n = 2
	if sin < NearSingular {
		f.near = AtElbow
	}
	if sin == 0 {
		f.n = 1
	}
	f.cos, f.sin, f.at = cos, sin, d.add(sin, cos)
	if dist <= undetermined*reach { // the point is on axis 2: joint 2 is free
		f.n, f.held = 1, 2
		return
	}
	f.inv = 1 / dist
	f.kc, f.ks = (a.a2+a.a3*cos)*f.inv, a.a3*sin*f.inv
	d.add(f.ks, f.kc)
}

// elbow is both ways of reaching a point of frame 1's plane with the two links.
type elbow struct {
	at  uint8 // place of the point's direction
	way [2]elbowWay
}

type elbowWay struct {
	c, s float64 // direction of link 3
	err  float64 // closing error, m
}

// aimLinks fills e for the point (x, y), whose distance f spans.
func (se *search) aimLinks(e *elbow, d *directions, f *fold, x, y float64) {
	a := se.arm
	if f.held != 0 {
		s, c := sincos(se.hold[1] + a.beta2)
		e.way[0] = elbowWay{c: c*f.cos - s*f.sin, s: s*f.cos + c*f.sin, err: math.Sqrt(f.dd)}
		return
	}
	ux, uy := x*f.inv, y*f.inv
	e.at = d.add(uy, ux)
	ax, ay, bx, by := ux*f.kc, uy*f.ks, uy*f.kc, ux*f.ks
	e.way[0].set(a, x, y, ax+ay, bx-by, f.cos, f.sin)
	e.way[1].set(a, x, y, ax-ay, bx+by, f.cos, -f.sin)
}

// set fills in what follows from the directions (c, s) of link 2 and (cos, sin)
// of link 3 from it.
func (w *elbowWay) set(a *arm, x, y, c, s, cos, sin float64) {
	c3, s3 := c*cos-s*sin, s*cos+c*sin
	w.c, w.s = c3, s3
	dx, dy := a.a2*c+a.a3*c3-x, a.a2*s+a.a3*s3-y
	w.err = math.Sqrt(dx*dx + dy*dy)
}

// posture is what is left of a branch, or of two that differ in a flip, once
// its directions are noted: where to find their angles.
type posture struct {
	joint1, links, point uint8 // as in shoulder, fold and elbow
	wrist                uint8 // joint 5's; those of the rest of the wrist follow
	turn                 uint8 // of joints 2, 3 and 4 together (ThreeParallel)
	branch               Branch
	near                 SingularSet
	held                 uint8
	ways                 uint8      // of the flip
	err                  [2]float64 // closing error of each way, m or rad
}

// first returns joint 1's value (rad).
func (se *search) first(p *posture, d *directions) float64 {
	if p.held&1 != 0 {
		return se.hold[0]
	}
	return nextTo(d.angle(p.joint1), se.hold[0])
}

// links returns the directions of link 2 in frame 1 and of link 3 from link 2
// (rad) for an elbow branch.
func (se *search) links(p *posture, d *directions, elbow Branch) (t2, psi float64) {
	psi = d.angle(p.links)
	if p.held&2 != 0 {
		return se.hold[1] + se.arm.beta2, psi
	}
	at, lift := d.angle(p.point), d.angle(p.links+1)
	if elbow&ElbowFlip == 0 {
		return at - lift, psi
	}
	return at + lift, -psi
}

// planarJoints returns joints 2 and 3 (rad).
func (se *search) planarJoints(t2, psi float64) (q2, q3 float64) {
	a := se.arm
	return nextTo(t2-a.beta2, se.hold[1]), nextTo(a.sign3*(psi+a.beta2-a.beta3), se.hold[2])
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
