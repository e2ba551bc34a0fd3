package drawings

// tip is the torch in the plane of its bend, with the tip and flange frames.
func tip() *sheet {
	s := &sheet{width: 800, height: 600, title: "The tip frame and the measurements of a torch"}
	const neckAngle = 40
	const stickOut, recess, nozzle, neck, body = 62, 12, 100, 190, 150
	end := point{330, 522}
	up := point{0, -1}
	bend := end.along(up, stickOut+neck)
	along := bearing(neckAngle)
	flange := bend.along(along, body)
	across := along.left().times(-1) // the flange's x, to the side of the lean

	s.polygon("part", bend.along(along.left(), 19), flange.along(along.left(), 19), flange.along(across, 19), bend.along(across, 19))
	s.polygon("part", bend.offset(-15, 0), bend.offset(15, 0), end.offset(15, -stickOut-nozzle), end.offset(-15, -stickOut-nozzle))
	s.circle("part", bend, 21)
	s.polygon("part", end.offset(-24, -stickOut), end.offset(-24, -stickOut-nozzle), end.offset(24, -stickOut-nozzle), end.offset(24, -stickOut))
	s.polygon("dark", flange.along(across, 44), flange.along(across, -44),
		flange.along(across, -44).along(along, 12), flange.along(across, 44).along(along, 12))
	s.polygon("dark", end.offset(-7, -stickOut-recess), end.offset(7, -stickOut-recess),
		end.offset(7, -stickOut-nozzle+12), end.offset(-7, -stickOut-nozzle+12))
	s.line("wire", end.offset(0, -stickOut-recess), end)
	s.line("chain", bend, bend.offset(0, -138))
	s.line("chain", bend, flange)
	s.arc(bend, 120, 0, neckAngle)
	s.text(bend.offset(-8, -88), "end", "", "neck angle")

	s.arrow("z", end, end.offset(0, 52))
	s.text(end.offset(10, 56), "start", "big", "z, along the wire, out of the nozzle")
	s.arrow("x", end, end.offset(90, 0))
	s.text(end.offset(98, 6), "start", "big", "x, to the side where neck and body lean")
	s.circle("y", end, 9)
	s.dot(end)
	s.text(end.offset(14, -14), "start", "big", "y")

	s.arrow("z", flange, flange.along(along, -60))
	s.text(flange.along(along, -62).along(across, 34).offset(0, 8), "start", "big", "z")
	s.arrow("x", flange, flange.along(across, 90))
	s.text(flange.along(across, 96).offset(4, 6), "start", "big", "x")
	s.text(flange.along(along, 20).along(across, 40).offset(4, 0), "start", "", "flange and its frame")

	for _, note := range []struct {
		height, reach float64
		words         string
	}{{125, 24, "nozzle"}, {95, 7, "contact tip"}, {205, 15, "neck"}} {
		at := end.offset(note.reach, -note.height)
		s.line("thin", at, end.offset(62, -note.height))
		s.text(end.offset(68, 5-note.height), "start", "", note.words)
	}

	left := point{-1, 0}
	s.dimension(end.offset(-24, 0), end.offset(-24, -stickOut), left.times(24), "stick-out", end.offset(-58, -stickOut/2+5), "end")
	s.dimension(end.offset(-7, 0), end.offset(-7, -stickOut-recess), left.times(134), "contact-tip distance", end.offset(-152, -stickOut/2), "end")
	s.dimension(end.offset(-24, -stickOut), bend.offset(-24, 0), left.times(24), "neck length", end.offset(-58, -stickOut-neck/2+5), "end")
	s.dimension(bend.along(along.left(), 19), flange.along(along.left(), 19), along.left().times(140), "body length",
		bend.toward(flange, 0.5).along(along.left(), 172), "end")
	return s
}
