package picture

import (
	"math"

	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// The keel cradle's plates as its README gives them, in the part frame: corner
// of the sole plate's top face, x along its long edge. Millimetres.
var (
	plates = []struct{ from, to r3.Vec }{
		{r3.Vec{Z: -12}, r3.Vec{X: 640, Y: 420}},                            // sole
		{r3.Vec{X: 330, Y: 370}, r3.Vec{X: 600, Y: 378, Z: 160}},            // long wall
		{r3.Vec{X: 592, Y: 230}, r3.Vec{X: 600, Y: 370, Z: 160}},            // end wall
		{r3.Vec{X: 30, Y: 40}, r3.Vec{X: 280, Y: 120, Z: 8}},                // wear pad
		{r3.Vec{X: 345, Y: 45}, r3.Vec{X: 355, Y: 165, Z: 1}},               // packing under the ramp
		{r3.Vec{X: 540, Y: 45}, r3.Vec{X: 552, Y: 165, Z: 12.4}},            // packing
		{r3.Vec{X: -70, Y: -70, Z: -37}, r3.Vec{X: 700, Y: 470, Z: -12.01}}, // table
	}
	socket = struct {
		at                   r3.Vec
		radius, bore, height float64
	}{r3.Vec{X: 150, Y: 235}, 44.45, 39.45, 140}
)

const (
	table     = 6    // index of the table in plates
	rampClimb = 3.5  // deg
	ribHeight = 55.0 // mm
)

// part returns the plates in the arm's base frame.
func part(j *job.Job, eye r3.Vec) []face {
	baseFromPart := j.Cell.WorldFromBase.Inv().Mul(j.Cell.WorldFromPart)
	steel := paint{fill: "#d3d4cf", class: "edge"}
	var faces []face
	for i, plate := range plates {
		p := steel
		if i == table {
			p.fill = "#a8a294"
		}
		faces = append(faces, block(baseFromPart, plate.from, plate.to, p)...)
	}
	tube := round{
		pose:   baseFromPart.Mul(se3.Translation(socket.at.Add(r3.Vec{Z: socket.height / 2}).Scale(1e-3))),
		length: socket.height * 1e-3, low: socket.radius * 1e-3, top: socket.radius * 1e-3, bore: socket.bore * 1e-3, flats: 40,
	}
	faces = append(faces, tube.faces(eye, steel)...)
	ramp, rib := rampAndRib(baseFromPart)
	faces = append(faces, block(ramp, r3.Vec{Z: -10}, r3.Vec{X: 230, Y: 150}, steel)...)
	return append(faces, block(rib, r3.Vec{X: -6}, r3.Vec{X: 216, Y: 8, Z: ribHeight}, steel)...)
}

// rampAndRib returns the frames of the ramp's top face at its low corner, and
// of the rib's foot at the seam's start.
func rampAndRib(baseFromPart se3.Pose) (ramp, rib se3.Pose) {
	climb := rampClimb * math.Pi / 180
	ramp = baseFromPart.Mul(se3.Pose{R: se3.RotY(-climb), P: r3.Vec{X: 330, Y: 30, Z: 10 / math.Cos(climb)}.Scale(1e-3)})
	on := func(x, y float64) r3.Vec { // a place of the ramp by its plan in the part
		return ramp.Apply(r3.Vec{X: (x - 330) / math.Cos(climb), Y: y - 30}.Scale(1e-3))
	}
	start, end := on(352, 52), on(540, 146)
	t := end.Sub(start).Unit()
	n := ramp.R.Z()
	return ramp, se3.Pose{R: se3.RotColumns(t, n.Cross(t), n), P: start}
}

// block is a box between two corners (mm) of a frame.
func block(pose se3.Pose, from, to r3.Vec, p paint) []face {
	middle := pose.Mul(se3.Translation(from.Lerp(to, 0.5).Scale(1e-3)))
	return box(middle, to.Sub(from).Scale(1e-3), p)
}
