package drawings

// work is the section through a tee: work angle, aim offset, leg and throat.
func work() *sheet {
	s := &sheet{width: 800, height: 410, title: "Work angle, aim offset, leg and throat in a tee, seen along the travel"}
	const workAngle = 45
	root := point{190, 290}
	e := bearing(workAngle)
	s.polygon("cut2", point{50, 290}, point{430, 290}, point{430, 325}, point{50, 325})
	s.polygon("cut", point{150, 170}, point{190, 170}, root, point{150, 290})
	s.polygon("bead", root, root.offset(46, 0), root.offset(0, -46))
	s.line("chain", root, root.offset(0, -240))
	torch(s, root, e, 46)
	s.line("chain", root, root.along(e, 275))
	s.arc(root, 215, 0, workAngle)
	s.text(root.along(bearing(22.5), 232).offset(0, 0), "middle", "big", "W")
	s.text(point{178, 44}, "end", "", "normal of the")
	s.text(point{178, 62}, "end", "", "base plate (m)")
	s.text(point{140, 235}, "end", "", "upright")
	s.text(point{60, 280}, "start", "", "base plate")
	s.text(point{393, 82}, "start", "", "torch")

	aim := root.offset(72, 0)
	s.line("dash", aim, aim.along(e, 200))
	s.line("thin", root.offset(0, 42), root.offset(0, 66))
	s.line("thin", aim.offset(0, 4), aim.offset(0, 66))
	s.arrow("thin", root.offset(0, 58), aim.offset(0, 58))
	s.text(aim.offset(10, 62), "start", "", "aim offset, positive along b")
	s.arrow("x", root.offset(150, -14), root.offset(230, -14))
	s.text(root.offset(236, -9), "start", "big", "b")
	s.text(point{50, 392}, "start", "small", "Seen along the travel, which runs into the page.")

	legAndThroat(s)
	return s
}

// legAndThroat is the right half of work: an enlarged section of the weld.
func legAndThroat(s *sheet) {
	root := point{560, 270}
	const leg = 130
	s.polygon("cut2", root.offset(-50, 0), root.offset(200, 0), root.offset(200, 45), root.offset(-50, 45))
	s.polygon("cut", root.offset(-50, -190), root.offset(0, -190), root, root.offset(-50, 0))
	toeBase, toeUp := root.offset(leg, 0), root.offset(0, -leg)
	s.polygon("bead", root, toeBase, toeUp)
	face := toeBase.toward(toeUp, 0.5)
	s.line("thin", root, face)
	s.head("thin", face, face.minus(root).unit())
	s.head("thin", root, root.minus(face).unit())
	s.text(root.toward(face, 0.5).offset(-3, -12), "end", "big", "a")
	s.dimension(root, toeBase, point{0, 66}, "z", point{root.x + leg/2, root.y + 86}, "middle")
	s.text(face.offset(14, -8), "start", "", "weld face")
	s.text(toeBase.offset(6, -8), "start", "small", "toe")
	s.text(toeUp.offset(8, -2), "start", "small", "toe")
	s.text(point{475, 392}, "start", "small", "Leg z along a plate, throat a from root to face.")
}

// torch draws a nozzle whose wire ends at tip and whose body lies along e.
func torch(s *sheet, tip, e point, stickOut float64) {
	n := e.left()
	near, far := tip.along(e, stickOut), tip.along(e, stickOut+95)
	s.line("wire", tip, near)
	s.polygon("part", near.along(n, 17), near.along(n, -17), far.along(n, -22), far.along(n, 22))
}

// travel is the side view of a seam: drag, square and push.
func travel() *sheet {
	s := &sheet{width: 800, height: 350, title: "Travel angle: drag, square and push"}
	const level = 275
	s.polygon("part", point{40, level}, point{760, level}, point{760, level + 28}, point{40, level + 28})
	for _, t := range []struct {
		x, travel float64
		name      string
		note      string
	}{
		{160, -20, "drag, T < 0", "wire points back at the weld"},
		{400, 0, "square, T = 0", ""},
		{640, 20, "push, T > 0", "wire points the way it goes"},
	} {
		tip := point{t.x, level}
		s.polygon("bead", tip.offset(-84, 0), tip.offset(-84, -12), tip.offset(-12, -12), tip)
		e := bearing(-t.travel)
		torch(s, tip, e, 34)
		s.line("chain", tip, tip.offset(0, -192))
		if t.travel != 0 {
			s.line("chain", tip, tip.along(e, 192))
			s.arc(tip, 168, 0, -t.travel)
			s.text(tip.along(bearing(-t.travel/2), 178), "middle", "big", "T")
		}
		s.text(point{t.x, 28}, "middle", "big", t.name)
		s.text(point{t.x, 48}, "middle", "small", t.note)
	}
	s.arrow("x", point{300, 326}, point{480, 326})
	s.text(point{290, 331}, "end", "", "travel t")
	return s
}

// spin is the view down the wire.
func spin() *sheet {
	s := &sheet{width: 640, height: 330, title: "Spin: the turn of the torch about its wire, seen down the wire"}
	const angle = 40
	c := point{190, 160}
	x := bearing(90 + angle)
	body := c.along(x, 150)
	n := x.left()
	s.polygon("part", c.along(n, 24), body.along(n, 24), body.along(n, -24), c.along(n, -24))
	s.circle("part", c, 34)
	s.circle("thin", c, 9)
	s.line("thin", c.offset(-6.4, -6.4), c.offset(6.4, 6.4))
	s.line("thin", c.offset(-6.4, 6.4), c.offset(6.4, -6.4))
	s.arrow("chain", c.offset(9, 0), c.offset(190, 0))
	s.text(c.offset(198, -2), "start", "", "spin 0: the travel,")
	s.text(c.offset(198, 17), "start", "", "made square to the wire")
	s.arrow("x", c.along(x, 9), c.along(x, 195))
	s.text(c.along(x, 212).offset(0, 10), "start", "big", "x: neck and body lean this way")
	y := bearing(180 + angle)
	s.arrow("y", c.along(y, 9), c.along(y, 105))
	s.text(c.along(y, 122).offset(0, 5), "middle", "big", "y")
	s.arc(c, 120, 90, 90+angle)
	s.text(c.along(bearing(90+angle/2), 138).offset(0, 5), "start", "big", "spin")
	s.text(c.offset(-44, -40), "middle", "big", "z")
	s.text(point{30, 32}, "start", "small", "Seen down the wire: z runs into the page, so a positive spin turns clockwise.")
	return s
}
