package kinematics_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// Arms of every family, made up at random from fixed seeds.

// sign draws +1 or -1.
func sign(rng *rand.Rand) float64 { return math.Copysign(1, rng.Float64()-0.5) }

// within draws a number in -a..a.
func within(rng *rand.Rand, a float64) float64 { return (2*rng.Float64() - 1) * a }

func randomVec(rng *rand.Rand, a float64) r3.Vec {
	return r3.Vec{X: within(rng, a), Y: within(rng, a), Z: within(rng, a)}
}

func randomRot(rng *rand.Rand) se3.Rot {
	return se3.Exp(randomVec(rng, 1).Unit().Scale(within(rng, math.Pi)))
}

// bent draws a direction at 0.4 to 2.7 rad from d.
func bent(rng *rand.Rand, d r3.Vec) r3.Vec {
	side := randomVec(rng, 1).Cross(d).Unit()
	return se3.RotAxis(side, 0.4+2.3*rng.Float64()).Apply(d)
}

// apartFrom draws a shift of 0.15 to 0.6 m square to d, and any along it.
func apartFrom(rng *rand.Rand, d r3.Vec) r3.Vec {
	side := randomVec(rng, 1).Cross(d).Unit()
	return side.Scale(0.15+0.45*rng.Float64()).AddScaled(within(rng, 0.3), d)
}

// axesOf draws six axes of a family that is no mirror image.
func axesOf(rng *rand.Rand, family kinematics.Family) (dirs, points [6]r3.Vec) {
	dirs[0], points[0] = randomVec(rng, 1).Unit(), randomVec(rng, 0.5)
	for i := 1; i < 6; i++ {
		dirs[i] = bent(rng, dirs[i-1])
		points[i] = points[i-1].Add(apartFrom(rng, dirs[i]))
	}
	wrist := func() { points[4], points[5] = points[3], points[3] }
	switch family {
	case kinematics.SphericalWrist:
		dirs[2] = dirs[1]
		points[2] = points[1].Add(apartFrom(rng, dirs[1]))
		points[3] = points[2].Add(apartFrom(rng, dirs[2]))
		wrist()
	case kinematics.ThreeParallel:
		dirs[2], dirs[3] = dirs[1], dirs[1]
		points[2] = points[1].Add(apartFrom(rng, dirs[1]))
		points[3] = points[2].Add(apartFrom(rng, dirs[1]))
		dirs[4] = bent(rng, dirs[3])
		points[4] = points[3].Add(apartFrom(rng, dirs[4]))
		dirs[5], points[5] = bent(rng, dirs[4]), points[4]
	case kinematics.WristMeet12:
		points[1] = points[0]
		points[2] = points[1].Add(apartFrom(rng, dirs[2]))
		points[3] = points[2].Add(apartFrom(rng, dirs[2]))
		wrist()
	case kinematics.WristMeet23:
		points[2] = points[1]
		points[3] = points[2].Add(apartFrom(rng, dirs[2]))
		wrist()
	case kinematics.WristParallel12:
		dirs[1] = dirs[0]
		points[1] = points[0].Add(apartFrom(rng, dirs[0]))
		dirs[2] = bent(rng, dirs[1])
		points[2] = points[1].Add(apartFrom(rng, dirs[1]))
		points[3] = points[2].Add(apartFrom(rng, dirs[2]))
		wrist()
	}
	return dirs, points
}

// armOfFamily draws an arm: its axes slid along themselves and pointing either
// way, its joint frames anyhow. Mirror images have the axes in the opposite
// order.
func armOfFamily(seed uint64, family kinematics.Family) *urdf.Robot {
	rng := rand.New(rand.NewPCG(seed, uint64(family)))
	base, mirrored := family, family >= kinematics.SphericalShoulder && family < kinematics.General
	if mirrored {
		base = family - kinematics.SphericalShoulder + kinematics.SphericalWrist
	}
	dirs, points := axesOf(rng, base)
	if mirrored {
		for i := range 3 {
			dirs[i], dirs[5-i] = dirs[5-i], dirs[i]
			points[i], points[5-i] = points[5-i], points[i]
		}
	}
	var frames [6]se3.Rot
	for i := range frames {
		frames[i] = randomRot(rng)
		points[i] = points[i].AddScaled(within(rng, 0.4), dirs[i])
		dirs[i] = dirs[i].Scale(sign(rng))
	}
	return screwArm(dirs, points, frames, se3.Pose{R: randomRot(rng), P: points[5].Add(randomVec(rng, 0.2))})
}

// closedForms lists the families with a closed form.
func closedForms() (list []kinematics.Family) {
	for f := kinematics.SphericalWrist; f.ClosedForm(); f++ {
		list = append(list, f)
	}
	return list
}

// longArm puts joints before, after and between those of an arm. Each of extra
// names what it is and where: "lift 0" slides along z before joint 0.
type extraJoint struct {
	at    int // index in the longer chain
	joint urdf.Joint
}

// withExtra returns the arm r (a line of links l0, l1, ...) with further joints.
func withExtra(r *urdf.Robot, extra ...extraJoint) *urdf.Robot {
	var joints []urdf.Joint
	old := append([]urdf.Joint(nil), r.Joints...)
	for len(old) > 0 || len(extra) > 0 {
		if len(extra) > 0 && extra[0].at == len(joints) {
			joints, extra = append(joints, extra[0].joint), extra[1:]
			continue
		}
		joints, old = append(joints, old[0]), old[1:]
	}
	out := &urdf.Robot{Name: r.Name + " extended", Links: []urdf.Link{{Name: "l0"}}}
	for i := range joints {
		joints[i].Name = fmt.Sprint("j", i+1)
		joints[i].Parent, joints[i].Child = fmt.Sprint("l", i), fmt.Sprint("l", i+1)
		out.Links = append(out.Links, urdf.Link{Name: joints[i].Child})
	}
	out.Joints = joints
	return out
}

// lift returns a joint that slides along z over 0.8 m.
func lift(at int) extraJoint {
	return extraJoint{at, urdf.Joint{Kind: urdf.Prismatic, Axis: r3.Vec{Z: 1}, Origin: se3.Translation(r3.Vec{X: 0.1, Z: 0.2}),
		Limit: urdf.Limit{Lower: 0, Upper: 0.8}}}
}

// track returns a joint that slides along x over 3 m.
func track(at int) extraJoint {
	return extraJoint{at, urdf.Joint{Kind: urdf.Prismatic, Axis: r3.Vec{X: 1}, Origin: se3.Identity(),
		Limit: urdf.Limit{Lower: -1.5, Upper: 1.5}}}
}

// turntable returns a joint that turns about z beside the arm.
func turntable(at int) extraJoint {
	return extraJoint{at, urdf.Joint{Kind: urdf.Continuous, Axis: r3.Vec{Z: 1}, Origin: se3.Translation(r3.Vec{Z: 0.1})}}
}

// shoulderElbowWrist returns an arm of seven joints with a spherical shoulder,
// an elbow whose axis is offset (m) from the line to the shoulder, and a
// spherical wrist. Invented.
func shoulderElbowWrist(offset float64) *urdf.Robot {
	z, y := r3.Vec{Z: 1}, r3.Vec{Y: 1}
	dirs := []r3.Vec{z, y, z, y.Neg(), z, y, z}
	points := []r3.Vec{{Z: 0.34}, {}, {}, {X: offset, Z: 0.4}, {X: -offset, Z: 0.39}, {}, {}, {Z: 0.13}}
	return armOf(dirs, points)
}
