package picture

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// arm returns the shapes of the arm's description at joint values q, and the
// torch at its flange.
func arm(j *job.Job, c *cell.Cell, q *kinematics.Q, eye r3.Vec) []face {
	var faces []face
	for _, link := range c.Chain.Links(q, nil) {
		for _, v := range j.Arm.Robot.Link(link.Link).Visuals {
			p := paint{fill: materialOf(j.Arm.Robot, v.Material), class: "edge"}
			faces = append(faces, shape(link.BaseFromLink.Mul(v.Origin), v.Geometry, eye, p)...)
		}
	}
	return append(faces, torch(j.Torch, c.BaseFromTip(q), eye)...)
}

func shape(pose se3.Pose, g urdf.Geometry, eye r3.Vec, p paint) []face {
	switch g.Kind {
	case urdf.Box:
		return box(pose, g.Size, p)
	case urdf.Cylinder:
		return round{pose: pose, length: g.Length, low: g.Radius, top: g.Radius, flats: rounds}.faces(eye, p)
	case urdf.Sphere:
		return ball(pose, g.Radius, eye, p)
	}
	return nil // the example arms have no meshes; TestArmShapesAreDrawn holds them to that
}

// ball is a sphere of six rings.
func ball(pose se3.Pose, radius float64, eye r3.Vec, p paint) []face {
	const rings = 6
	p.class = "none"
	var faces []face
	for i := range rings {
		a, b := math.Pi*float64(i)/rings, math.Pi*float64(i+1)/rings
		low, top := -radius*math.Cos(a), -radius*math.Cos(b)
		ring := round{pose: pose, length: top - low, low: radius * math.Sin(a), top: radius * math.Sin(b), flats: rounds}
		ring.pose.P = pose.P.AddScaled((low+top)/2, pose.R.Z())
		faces = append(faces, ring.wall(ring.low, ring.top, 1, eye, p)...)
	}
	return faces
}

func materialOf(r *urdf.Robot, name string) string {
	for _, m := range r.Materials {
		if m.Name == name && m.HasColor {
			return fmt.Sprintf("#%02x%02x%02x", byte(m.RGBA[0]*255), byte(m.RGBA[1]*255), byte(m.RGBA[2]*255))
		}
	}
	return "#d8d3c6"
}

// torch is body, neck, nozzle and wire by the job's measurements.
func torch(t job.Torch, baseFromTip se3.Pose, eye r3.Vec) []face {
	tip, back := baseFromTip.P, baseFromTip.R.Z().Neg()
	nozzle := tip.AddScaled(t.StickOut, back)
	bend := nozzle.AddScaled(t.Neck, back)
	// The body leaves the bend at the neck's angle, towards the tip's x.
	sin, cos := math.Sincos(t.NeckAngle)
	flange := bend.AddScaled(t.Body*cos, back).AddScaled(t.Body*sin, baseFromTip.R.X())
	dark, brass := paint{fill: "#4a4f52", class: "edge"}, paint{fill: "#b9925a", class: "edge"}
	var faces []face
	faces = append(faces, along(flange, bend, 0.021, 0.021, 16).faces(eye, dark)...)
	faces = append(faces, along(bend, nozzle.AddScaled(0.055, back), 0.012, 0.012, 12).faces(eye, dark)...)
	faces = append(faces, along(nozzle.AddScaled(0.058, back), nozzle, t.NozzleDiameter/2, t.NozzleDiameter/2-0.002, 14).faces(eye, brass)...)
	return append(faces, stroke("wire", nozzle, tip))
}
