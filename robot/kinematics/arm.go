package kinematics

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// arm is a member of a family in numbers. Frame A is fixed to the base: its
// origin on axis 1 at the foot of the common normal with axis 2, z along axis
// 1, x along axis 1 x axis 2 with every joint at zero. Frame 1 is what joint 1
// carries: origin on axis 2, x as A's turned by joint 1, z along axis 2. The
// planar part of the arm moves in frame 1's xy plane. Axes 2, 3 (and 4 of
// ThreeParallel) count along +z of frame 1; sign3 and sign4 record where the
// file has them the other way.
//
// The wrist is three turns with two bends between them: from the axes w (z
// along axis 4, x along axis 2 x axis 4) it leads to the flange by
//
//	Rz(q4+off4) Rx(alpha4) Rz(q5+off5) Rx(alpha5) Rz(q6)
type arm struct {
	aFromBase     se3.Pose
	flangeFromSix se3.Rot // z along axis 6, x along axis 5 x axis 6 at zero
	point         r3.Vec  // the wrist point in the flange's frame, m

	ca1, sa1 float64 // bend of axis 2 from axis 1
	a1       float64 // from A's origin to frame 1's, along x, m
	k        float64 // the wrist point along frame 1's z, whatever the joints do, m

	a2, a3       float64 // lengths of the planar part's links, m
	beta2, beta3 float64 // their directions in frame 1 at zero, rad
	sign3, sign4 float64

	gamma      float64 // direction of w's x axis in frame 1 at zero, rad
	ca3, sa3   float64 // bend of axis 4 from axis 2; 1, 0 for ThreeParallel
	cg, sg     float64 // cosine and sine of gamma - beta3
	ca4, sa4   float64 // bend of axis 5 from axis 4
	ca5, sa5   float64 // bend of axis 6 from axis 5
	off4, off5 float64 // rad
	per        inverses
	fx, fy     float64 // ThreeParallel: axis 4 to the wrist point, along w's x and y, m
}

// inverses are the divisions of Solve, done beforehand.
type inverses struct {
	sa1   float64 // 1 / sa1
	sa5   float64 // 1 / sa5
	bends float64 // 1 / (sa4 sa5)
	links float64 // 1 / (2 a2 a3), 1/m2
}

// newArm measures an arm whose conditions have been checked. point is the
// wrist point in the base frame with every joint at zero.
func newArm(c *Chain, point r3.Vec, family Family) arm {
	l := c.lines
	var a arm
	x := l[0].dir.Cross(l[1].dir).Unit()
	on1, on2 := nearest(l[0], l[1])
	baseFromA := se3.Pose{R: se3.RotColumns(x, l[0].dir.Cross(x), l[0].dir), P: on1}
	a.aFromBase = baseFromA.Inv()
	a.point = c.zero.Inv().Apply(point)
	a.ca1, a.sa1 = bend(l[0].dir, l[1].dir)
	a.a1 = on2.Sub(on1).Dot(x)

	one := se3.Pose{R: se3.RotColumns(x, l[1].dir.Cross(x), l[1].dir), P: on2}.Inv() // frame 1 from base
	elbow, tip := one.Apply(l[2].at), one.Apply(point)
	a.k = tip.Z
	a.sign3, a.sign4 = 1, 1
	if l[2].dir.Dot(l[1].dir) < 0 {
		a.sign3 = -1
	}
	axis4, wrist := l[3].dir, tip
	if family == ThreeParallel {
		wrist = one.Apply(l[3].at)
		if axis4 = l[1].dir; l[3].dir.Dot(axis4) < 0 {
			a.sign4 = -1
		}
	}
	a.a2, a.beta2 = math.Hypot(elbow.X, elbow.Y), math.Atan2(elbow.Y, elbow.X)
	dx, dy := wrist.X-elbow.X, wrist.Y-elbow.Y
	a.a3, a.beta3 = math.Hypot(dx, dy), math.Atan2(dy, dx)
	a.measureWrist(c, axis4, one)
	f := se3.RotZ(-a.gamma).Apply(tip.Sub(wrist))
	a.fx, a.fy = f.X, f.Y
	a.per = inverses{1 / a.sa1, 1 / a.sa5, 1 / (a.sa4 * a.sa5), 0.5 / (a.a2 * a.a3)}
	return a
}

// measureWrist fills in the numbers from axis 4 outwards.
func (a *arm) measureWrist(c *Chain, axis4 r3.Vec, one se3.Pose) {
	l := c.lines
	x4, x5 := axis4.Cross(l[4].dir).Unit(), l[4].dir.Cross(l[5].dir).Unit()
	// w's x axis: along axis 2 x axis 4, or free where these are parallel; then
	// along x4, so that off4 is zero.
	wx := x4
	a.ca3, a.sa3 = bend(l[1].dir, axis4)
	if a.sa3 > sameDirection {
		wx = l[1].dir.Cross(axis4).Reject(axis4).Unit()
	}
	w := one.Dir(wx)
	a.gamma = math.Atan2(w.Y, w.X)
	a.sg, a.cg = math.Sincos(a.gamma - a.beta3)
	a.ca4, a.sa4 = bend(axis4, l[4].dir)
	a.ca5, a.sa5 = bend(l[4].dir, l[5].dir)
	a.off4, a.off5 = turnAbout(axis4, wx, x4), turnAbout(l[4].dir, x4, x5)
	six := se3.RotColumns(x5, l[5].dir.Cross(x5), l[5].dir)
	a.flangeFromSix = c.zero.R.T().Mul(six)
}

// bend returns the cosine and sine of the angle between two directions, with
// right and zero angles made exact where they are so but for rounding.
func bend(from, to r3.Vec) (cos, sin float64) {
	cos, sin = from.Dot(to), from.Cross(to).Norm()
	switch {
	case math.Abs(cos) < sameDirection:
		return 0, 1
	case sin < sameDirection:
		return math.Copysign(1, cos), 0
	}
	return cos, sin
}

// turnAbout returns the angle (rad) about axis that carries from to to, all
// unit directions and both square to the axis.
func turnAbout(axis, from, to r3.Vec) float64 {
	return math.Atan2(axis.Dot(from.Cross(to)), from.Dot(to))
}
