package drawings

import "seamwright/geom/r3"

// seam is a tee with the directions of a seam, its frame, and where a taught
// tip lies from it.
func seam() *sheet {
	s := &sheet{width: 880, height: 540, title: "The directions and the frame of a seam, and the place of a taught tip"}
	v := view{origin: point{180, 400}, scale: 0.78, azimuth: -115, elevate: 28}
	v.box(s, r3.Vec{Y: -330}, r3.Vec{X: 700, Y: 60, Z: 40})
	v.box(s, r3.Vec{Z: 40}, r3.Vec{X: 700, Y: 30, Z: 190})
	root := func(x float64) r3.Vec { return r3.Vec{X: x, Z: 40} }
	t, m, b := axisX, axisZ, axisY.Neg()
	n := m.Add(b).Unit()
	start, end := root(40), root(660)
	s.line("wire", v.at(start), v.at(end))
	s.dot(v.at(start))
	s.dot(v.at(end))
	s.text(v.at(start).offset(-14, 6), "end", "", "weld start")
	s.text(v.at(end).offset(8, 22), "start", "", "weld end")

	// The directions at one place.
	o := root(110)
	for _, d := range []struct {
		dir  r3.Vec
		name string
	}{{t, "t"}, {m, "m"}, {b, "b"}} {
		to := v.at(o.AddScaled(100, d.dir))
		s.arrow("thin", v.at(o), to)
		s.text(to.along(to.minus(v.at(o)).unit(), 13).offset(0, 5), "middle", "big", d.name)
	}

	// A taught tip beside the seam.
	foot := root(290)
	below := foot.AddScaled(150, b)
	taught := below.AddScaled(60, m)
	s.line("dash", v.at(foot), v.at(below), v.at(taught))
	s.circle("dark", v.at(taught), 6)
	s.text(v.at(taught).offset(12, 0), "start", "", "taught tip")
	s.text(v.at(foot.Lerp(below, 0.5)).offset(-8, 12), "end", "small", "across, along b")
	s.text(v.at(below.Lerp(taught, 0.4)).offset(10, 10), "start", "small", "across, along m")
	s.dot(v.at(foot))

	// The seam frame.
	v.triad(s, root(540), t, n.Cross(t), n, 105)
	s.text(v.at(root(540)).offset(24, 34), "start", "big", "seam frame")
	s.text(point{40, 40}, "start", "small", "t: travel; m: normal of the base plate; b: along the base plate to the open side")
	s.text(point{40, 62}, "start", "small", "seam frame: x along t, z halfway between the plates, y completes it")
	return s
}
