package kinematics_test

import (
	"math"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// drawUnit draws a direction.
func drawUnit(t *rapid.T, label string) r3.Vec {
	z := rapid.Float64Range(-1, 1).Draw(t, label+" z")
	a := drawAngle(t, label+" turn")
	r := math.Sqrt(1 - z*z)
	return r3.Vec{X: r * math.Cos(a), Y: r * math.Sin(a), Z: z}
}

func drawAngle(t *rapid.T, label string) float64 {
	return rapid.Float64Range(-math.Pi, math.Pi).Draw(t, label)
}

func drawLength(t *rapid.T, label string) float64 {
	return rapid.Float64Range(-0.8, 0.8).Draw(t, label)
}

func drawPose(t *rapid.T, label string) se3.Pose {
	return se3.Pose{
		R: se3.Exp(drawUnit(t, label).Scale(drawAngle(t, label+" angle"))),
		P: r3.Vec{X: drawLength(t, label+" x"), Y: drawLength(t, label+" y"), Z: drawLength(t, label+" z")},
	}
}

// drawQ draws n joint values within +-pi.
func drawQ(t *rapid.T, n int) (q kinematics.Q) {
	for i := range n {
		q[i] = drawAngle(t, "q")
	}
	return q
}

// drawChain draws a robot of 1 to 9 joints of any kind with any origins, some
// of them with axes along a coordinate or parallel to the one before, and
// fixed joints between. Its links are l0 to the returned flange.
func drawChain(t *rapid.T) (*urdf.Robot, string) {
	r := &urdf.Robot{Name: "drawn", Links: []urdf.Link{{Name: "l0"}}}
	return r, drawBranch(t, r, "l0", rapid.IntRange(1, kinematics.MaxJoints).Draw(t, "joints"))
}

// drawBranch appends n moving joints, one behind the other, to link from of r
// and returns the last link.
func drawBranch(t *rapid.T, r *urdf.Robot, from string, n int) string {
	add := func(j urdf.Joint) {
		k := string(rune('0' + len(r.Links)%10))
		j.Name, j.Parent, j.Child = "j"+k+"-"+string(rune('a'+len(r.Links))), from, "l"+string(rune('a'+len(r.Links)))
		r.Links = append(r.Links, urdf.Link{Name: j.Child})
		r.Joints = append(r.Joints, j)
		from = j.Child
	}
	for range n {
		j := urdf.Joint{Kind: urdf.Continuous, Axis: r3.Vec{Z: 1}, Origin: drawPose(t, "origin")}
		if rapid.Bool().Draw(t, "parallel") {
			j.Origin.R = se3.RotZ(drawAngle(t, "about z"))
		}
		switch rapid.IntRange(0, 4).Draw(t, "axis") {
		case 0:
			j.Axis = drawUnit(t, "axis")
		case 1:
			j.Axis = r3.Vec{Y: -1}
		}
		if rapid.IntRange(0, 4).Draw(t, "kind") == 0 {
			j.Kind, j.Limit = urdf.Prismatic, urdf.Limit{Lower: -9, Upper: 9}
		}
		add(j)
		if rapid.IntRange(0, 3).Draw(t, "fixed too") == 0 {
			add(urdf.Joint{Kind: urdf.Fixed, Origin: drawPose(t, "fixed")})
		}
	}
	if rapid.Bool().Draw(t, "tool") {
		add(urdf.Joint{Kind: urdf.Fixed, Origin: drawPose(t, "tool")})
	}
	return from
}

// screwArm builds an arm from axis lines in the base frame with every joint at
// zero. Each joint's frame has its own arbitrary orientation, its origin
// somewhere on the axis, and its zero turned by zeros, so that the file looks
// nothing like the lines.
func screwArm(dirs, points [6]r3.Vec, frames [6]se3.Rot, flange se3.Pose) *urdf.Robot {
	r := &urdf.Robot{Name: "screws", Links: []urdf.Link{{Name: "l0"}}}
	at := se3.Identity()
	for i := range 7 {
		next := flange
		j := urdf.Joint{Name: "j" + string(rune('1'+i)), Kind: urdf.Fixed, Parent: "l" + string(rune('0'+i)), Child: "l" + string(rune('1'+i))}
		if i < 6 {
			next = se3.Pose{R: frames[i], P: points[i]}
			j.Kind, j.Axis = urdf.Continuous, frames[i].T().Apply(dirs[i]).Unit()
		}
		j.Origin = at.Inv().Mul(next)
		at = next
		r.Links = append(r.Links, urdf.Link{Name: j.Child})
		r.Joints = append(r.Joints, j)
	}
	return r
}

// drawMember draws a member of a family: any bends, any offsets that the
// family allows, axes pointing either way, and any frames.
func drawMember(t *rapid.T, family kinematics.Family) *urdf.Robot {
	// Build along a chain of local frames in the family's own terms, then
	// place it anywhere.
	square := rapid.Bool().Draw(t, "square")
	drawBend := func(label string) se3.Rot {
		if square {
			return se3.RotX(math.Copysign(math.Pi/2, drawAngle(t, label)))
		}
		return se3.RotX(math.Copysign(rapid.Float64Range(0.35, math.Pi-0.35).Draw(t, label), drawAngle(t, label+" sign")))
	}
	link := func(label string) r3.Vec {
		a, l := drawAngle(t, label), rapid.Float64Range(0.1, 0.8).Draw(t, label+" length")
		return r3.Vec{X: l * math.Cos(a), Y: l * math.Sin(a), Z: drawLength(t, label+" z")}
	}
	at := drawPose(t, "place")
	var dirs, points [6]r3.Vec
	set := func(i int) { dirs[i], points[i] = at.R.Z(), at.P }
	step := func(r se3.Rot, p r3.Vec) { at = at.Mul(se3.Pose{R: r, P: p}) }
	set(0)
	step(se3.RotZ(drawAngle(t, "z1")).Mul(drawBend("bend 1")), drawPose(t, "shoulder").P)
	set(1)
	step(se3.RotIdentity(), link("link 2"))
	set(2)
	if family == kinematics.SphericalWrist {
		step(se3.RotZ(drawAngle(t, "z3")).Mul(se3.RotX(drawAngle(t, "bend 3"))), link("link 3"))
		set(3)
		step(se3.RotZ(drawAngle(t, "z4")).Mul(drawBend("bend 4")), r3.Vec{})
		set(4)
		step(se3.RotZ(drawAngle(t, "z5")).Mul(drawBend("bend 5")), r3.Vec{})
	} else {
		step(se3.RotIdentity(), link("link 3"))
		set(3)
		step(se3.RotZ(drawAngle(t, "z4")).Mul(drawBend("bend 4")), link("offset"))
		set(4)
		step(se3.RotZ(drawAngle(t, "z5")).Mul(drawBend("bend 5")), r3.Vec{})
	}
	set(5)
	var frames [6]se3.Rot
	for i := range frames {
		frames[i] = drawPose(t, "frame").R
		points[i] = points[i].AddScaled(drawLength(t, "slide"), dirs[i])
		if rapid.Bool().Draw(t, "reversed") {
			dirs[i] = dirs[i].Neg()
		}
	}
	return screwArm(dirs, points, frames, at.Mul(drawPose(t, "flange")))
}
