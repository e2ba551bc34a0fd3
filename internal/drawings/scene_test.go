package drawings

import (
	"math"

	"seamwright/geom/r3"
)

// view projects a scene onto the sheet without perspective: millimetres in,
// pixels out, z up.
type view struct {
	origin           point
	scale            float64 // pixels per millimetre
	azimuth, elevate float64 // deg, of the eye
}

func (v view) at(p r3.Vec) point {
	sa, ca := math.Sincos(v.azimuth * math.Pi / 180)
	se, ce := math.Sincos(v.elevate * math.Pi / 180)
	right := r3.Vec{X: -sa, Y: ca}
	up := r3.Vec{X: -se * ca, Y: -se * sa, Z: ce}
	return v.origin.offset(v.scale*p.Dot(right), -v.scale*p.Dot(up))
}

// box draws the three faces of an upright box that this eye sees: the top and
// the two sides of least x and least y.
func (v view) box(s *sheet, lo, hi r3.Vec) {
	corner := func(x, y, z float64) point { return v.at(r3.Vec{X: x, Y: y, Z: z}) }
	s.polygon("part", corner(lo.X, lo.Y, hi.Z), corner(hi.X, lo.Y, hi.Z), corner(hi.X, hi.Y, hi.Z), corner(lo.X, hi.Y, hi.Z))
	s.polygon("part", corner(lo.X, lo.Y, lo.Z), corner(hi.X, lo.Y, lo.Z), corner(hi.X, lo.Y, hi.Z), corner(lo.X, lo.Y, hi.Z))
	s.polygon("dark", corner(lo.X, lo.Y, lo.Z), corner(lo.X, hi.Y, lo.Z), corner(lo.X, hi.Y, hi.Z), corner(lo.X, lo.Y, hi.Z))
}

// triad draws three axes of a frame with their letters.
func (v view) triad(s *sheet, o, x, y, z r3.Vec, length float64) {
	for _, a := range []struct {
		name string
		dir  r3.Vec
	}{{"x", x}, {"y", y}, {"z", z}} {
		from, to := v.at(o), v.at(o.AddScaled(length, a.dir))
		s.arrow(a.name, from, to)
		s.text(to.along(to.minus(from).unit(), 12).offset(0, 5), "middle", "", a.name)
	}
	s.dot(v.at(o))
}

// axes of a frame that stands straight.
var (
	axisX = r3.Vec{X: 1}
	axisY = r3.Vec{Y: 1}
	axisZ = r3.Vec{Z: 1}
)

// frames is the cell: world, base, flange, tip, part and seam.
func frames() *sheet {
	s := &sheet{width: 880, height: 500, title: "The frames of a cell"}
	v := view{origin: point{330, 410}, scale: 0.4, azimuth: -120, elevate: 24}
	world := r3.Vec{X: -350, Y: 300, Z: -150}
	v.triad(s, world, axisX, axisY, axisZ, 170)
	v.name(s, world, 0, 28, "world")

	part := r3.Vec{X: 560, Y: -330, Z: -120}
	v.box(s, part, part.Add(r3.Vec{X: 600, Y: 460, Z: 30}))
	v.box(s, part.Add(r3.Vec{Y: 330, Z: 30}), part.Add(r3.Vec{X: 600, Y: 360, Z: 230}))
	root := part.Add(r3.Vec{Y: 330, Z: 30})
	start, end := root.Add(r3.Vec{X: 60}), root.Add(r3.Vec{X: 540})
	s.line("wire", v.at(start), v.at(end))

	tipAt := start.Lerp(end, 0.5)
	e := r3.Vec{Y: -1, Z: 1}.Unit() // from the arc to the torch: 45 deg of work
	bend := tipAt.AddScaled(190, e)
	flange := bend.Add(r3.Vec{Z: 190})
	v.box(s, r3.Vec{X: -230, Y: -230, Z: -30}, r3.Vec{X: 230, Y: 230})
	v.limbs(s, []r3.Vec{{}, {Z: 330}, {X: 300, Y: -60, Z: 840}, flange.Add(r3.Vec{Z: 130}), flange.Add(r3.Vec{Z: 12})})
	s.addf(`<polyline points="%s" fill="none" stroke="#22262b" stroke-width="9" stroke-linejoin="round"/>`,
		join([]point{v.at(flange), v.at(bend), v.at(tipAt.AddScaled(55, e))}))
	s.line("wire", v.at(tipAt.AddScaled(55, e)), v.at(tipAt))

	v.triad(s, r3.Vec{}, axisX, axisY, axisZ, 150)
	v.name(s, r3.Vec{}, 0, 32, "base")
	v.triad(s, flange, axisY, axisX, axisZ.Neg(), 110)
	v.name(s, flange, 84, 18, "flange")
	v.triad(s, tipAt, axisX.Cross(e).Neg(), axisX, e.Neg(), 110)
	v.name(s, tipAt, 30, 30, "tip")
	v.triad(s, part.Add(r3.Vec{Z: 30}), axisX, axisY, axisZ, 110)
	v.name(s, part, 4, 24, "part")
	v.triad(s, end, axisX, e.Cross(axisX), e, 110)
	v.name(s, end, 6, 34, "seam")
	return s
}

// limbs draws the arm as rods with a disc at each joint.
func (v view) limbs(s *sheet, arm []r3.Vec) {
	limb := make([]point, len(arm))
	for i, p := range arm {
		limb[i] = v.at(p)
	}
	for _, rod := range []string{`stroke="#22262b" stroke-width="26"`, `stroke="#e3ddcd" stroke-width="21"`} {
		s.addf(`<polyline points="%s" fill="none" %s stroke-linejoin="round" stroke-linecap="round"/>`, join(limb), rod)
	}
	for _, p := range limb[1 : len(limb)-1] {
		s.circle("dark", p, 15)
	}
}

// name writes a bold name beside a place.
func (v view) name(s *sheet, at r3.Vec, right, down float64, words string) {
	s.text(v.at(at).offset(right, down), "middle", "big", words)
}
