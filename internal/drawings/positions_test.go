package drawings

import "fmt"

// positions is the dial of weld positions for a level weld axis, and the rule
// for an inclined one. The limits are those of package weld.
func positions() *sheet {
	s := &sheet{width: 880, height: 590, title: "Weld positions of a fillet by the tilt of its face"}
	c := point{250, 320}
	const inner, middle, outer = 70, 118, 166
	iso := []struct {
		from, to float64
		name     string
	}{{0, 30, "PA"}, {30, 55, "PB"}, {55, 100, "PC"}, {100, 145, "PD"}, {145, 180, "PE"}}
	aws := []struct {
		from, to float64
		name     string
	}{{0, 30, "1F"}, {30, 55, "2F"}, {55, 180, "4F"}}
	for _, r := range iso {
		s.sector("ring1", c, middle, outer, r.from, r.to)
		s.text(c.along(bearing((r.from+r.to)/2), (middle+outer)/2).offset(0, 6), "middle", "big", r.name)
		if r.to < 180 {
			s.text(c.along(bearing(r.to), outer+17).offset(0, 5), "middle", "small", fmt.Sprintf("%.0f°", r.to))
		}
	}
	for _, r := range aws {
		s.sector("ring2", c, inner, middle, r.from, r.to)
		s.text(c.along(bearing((r.from+r.to)/2), (inner+middle)/2).offset(0, 6), "middle", "", r.name)
	}
	for _, tilt := range []float64{0, 45, 90, 135, 180} {
		s.tee(c.along(bearing(tilt), outer+62), tilt)
	}
	s.arrow("thin", c, c.offset(0, -62))
	s.text(c.offset(-8, -44), "end", "", "up")
	s.arrow("thin", c, c.along(bearing(38), 62))
	s.arc(c, 38, 0, 38)
	s.text(c.offset(30, 6), "start", "", "tilt")
	s.text(c.offset(-20, 20), "end", "", "outer ring ISO 6947")
	s.text(c.offset(-20, 40), "end", "", "inner ring AWS A3.0")
	s.text(point{30, 34}, "start", "big", "Fillet, weld axis level (up to 15°)")

	inclined(s)
	return s
}

// inclined is the right half: the inclination of the weld axis.
func inclined(s *sheet) {
	s.text(point{560, 34}, "start", "big", "Weld axis inclined")
	o := point{580, 340}
	const r = 200
	for _, a := range []struct {
		from, to float64
		class    string
	}{{75, 90, "ring1"}, {10, 75, "ring2"}, {0, 10, "ring2"}} {
		s.sector(a.class, o, 0, r, a.from, a.to)
	}
	for _, deg := range []float64{15, 80} {
		s.text(o.along(bearing(90-deg), r+18).offset(0, 5), "middle", "small", fmt.Sprintf("%.0f°", deg))
	}
	s.text(o.along(bearing(82.5), 130).offset(0, 5), "middle", "small", "as on the left")
	s.text(o.along(bearing(45), 122), "middle", "", "uphill PF, 3F")
	s.text(o.along(bearing(45), 122).offset(0, 20), "middle", "", "downhill PG, 3F")
	for i, words := range []string{
		"Above 80°: at any tilt.",
		"15° to 80°: ISO at a tilt up to 100°, then PD, PE;",
		"AWS at a tilt up to 55°, then 4F.",
	} {
		s.text(o.offset(-20, 46+22*float64(i)), "start", "small", words)
	}
}

// sector draws a part of a ring between two bearings.
func (s *sheet) sector(class string, c point, inner, outer, from, to float64) {
	a, b := bearing(from), bearing(to)
	s.addf(`<path class="%s" d="M%s A%.1f,%.1f 0 0 1 %s L%s A%.1f,%.1f 0 0 0 %s Z"/>`, class,
		c.along(a, outer), outer, outer, c.along(b, outer), c.along(b, inner), inner, inner, c.along(a, inner))
}

// tee draws a small tee whose weld face looks along the bearing.
func (s *sheet) tee(root point, deg float64) {
	const long, thick = 40, 8
	base, up := bearing(deg+45), bearing(deg-45)
	s.polygon("part", root.along(up, 0).along(base, -12), root.along(base, long), root.along(base, long).along(up, -thick), root.along(base, -12).along(up, -thick))
	s.polygon("part", root, root.along(up, long), root.along(up, long).along(base, -thick), root.along(base, -thick))
	s.polygon("bead", root, root.along(base, 15), root.along(up, 15))
}
