package drawings

import (
	"fmt"
	"math"
	"strings"
)

// point is a place on a sheet in pixels, x to the right and y down.
type point struct{ x, y float64 }

func (p point) plus(q point) point               { return point{p.x + q.x, p.y + q.y} }
func (p point) minus(q point) point              { return point{p.x - q.x, p.y - q.y} }
func (p point) times(s float64) point            { return point{s * p.x, s * p.y} }
func (p point) along(d point, s float64) point   { return p.plus(d.times(s)) }
func (p point) toward(q point, f float64) point  { return p.plus(q.minus(p).times(f)) }
func (p point) unit() point                      { return p.times(1 / math.Hypot(p.x, p.y)) }
func (p point) left() point                      { return point{p.y, -p.x} }
func (p point) String() string                   { return fmt.Sprintf("%.1f,%.1f", p.x+0, p.y+0) }
func (p point) offset(right, down float64) point { return point{p.x + right, p.y + down} }

// bearing returns the direction that lies deg degrees clockwise from up.
func bearing(deg float64) point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return point{sin, -cos}
}

// sheet collects the elements of one drawing, in the order they are drawn.
type sheet struct {
	width, height int
	title         string
	body          strings.Builder
}

// style holds the looks that elements name by class. The sheet has its own
// ground, so that it reads on a light and on a dark page.
const style = `
.ground{fill:#f5f2ea;stroke:#8c887d}
.edge{fill:none;stroke:#22262b;stroke-width:2.4;stroke-linejoin:round;stroke-linecap:round}
.part{fill:#e3ddcd;stroke:#22262b;stroke-width:2.4;stroke-linejoin:round}
.dark{fill:#c9c1ae;stroke:#22262b;stroke-width:2.4;stroke-linejoin:round}
.cut{fill:url(#hatch);stroke:#22262b;stroke-width:2.4;stroke-linejoin:round}
.cut2{fill:url(#hatch2);stroke:#22262b;stroke-width:2.4;stroke-linejoin:round}
.bead{fill:#b98a5a;stroke:#22262b;stroke-width:2.4;stroke-linejoin:round}
.thin{fill:none;stroke:#22262b;stroke-width:1.1}
.chain{fill:none;stroke:#22262b;stroke-width:1.1;stroke-dasharray:14 4 3 4}
.dash{fill:none;stroke:#22262b;stroke-width:1.1;stroke-dasharray:5 4}
.wire{fill:none;stroke:#7a3b12;stroke-width:3.2;stroke-linecap:round}
.angle{fill:none;stroke:#22262b;stroke-width:1.4}
.x{fill:none;stroke:#a23b22;stroke-width:3}
.y{fill:none;stroke:#2e6a3c;stroke-width:3}
.z{fill:none;stroke:#2a4f93;stroke-width:3}
.ring1{fill:#ece6d8;stroke:#22262b;stroke-width:1.1}
.ring2{fill:#ddd5c2;stroke:#22262b;stroke-width:1.1}
text{font-family:Helvetica,Arial,"DejaVu Sans",sans-serif;font-size:15px;fill:#22262b}
.big{font-size:17px;font-weight:bold}
.small{font-size:13px}
.halo{paint-order:stroke;stroke:#f5f2ea;stroke-width:5px;stroke-linejoin:round}
`

// heads gives the fill of the arrow head for each class of line.
var heads = map[string]string{"x": "#a23b22", "y": "#2e6a3c", "z": "#2a4f93"}

func (s *sheet) addf(format string, args ...any) { fmt.Fprintf(&s.body, format+"\n", args...) }

// line draws through the points; a closed class such as part is a polygon.
func (s *sheet) line(class string, points ...point) {
	s.addf(`<polyline class="%s" points="%s"/>`, class, join(points))
}

func (s *sheet) polygon(class string, points ...point) {
	s.addf(`<polygon class="%s" points="%s"/>`, class, join(points))
}

func join(points []point) string {
	parts := make([]string, len(points))
	for i, p := range points {
		parts[i] = p.String()
	}
	return strings.Join(parts, " ")
}

func (s *sheet) circle(class string, c point, r float64) {
	s.addf(`<circle class="%s" cx="%.1f" cy="%.1f" r="%.1f"/>`, class, c.x, c.y, r)
}

// dot marks a point.
func (s *sheet) dot(c point) { s.addf(`<circle cx="%.1f" cy="%.1f" r="4" fill="#22262b"/>`, c.x, c.y) }

// arrow draws from p to q with a head at q.
func (s *sheet) arrow(class string, p, q point) {
	s.line(class, p, q.along(q.minus(p).unit(), -6))
	s.head(class, q, q.minus(p).unit())
}

func (s *sheet) head(class string, tip, dir point) {
	fill, ok := heads[class]
	if !ok {
		fill = "#22262b"
	}
	back := tip.along(dir, -11)
	s.addf(`<polygon points="%s" fill="%s"/>`, join([]point{tip, back.along(dir.left(), 4.5), back.along(dir.left(), -4.5)}), fill)
}

// arc draws a part of a circle from one bearing to another, in degrees
// clockwise from up, with a head at the end.
func (s *sheet) arc(c point, r, from, to float64) {
	sweep := 1
	if to < from {
		sweep = 0
	}
	end := c.along(bearing(to), r)
	s.addf(`<path class="angle" d="M%s A%.1f,%.1f 0 0 %d %s"/>`, c.along(bearing(from), r), r, r, sweep, end)
	turn := bearing(to + 90)
	if sweep == 0 {
		turn = turn.times(-1)
	}
	s.head("angle", end, turn)
}

// dimension draws a length between p and q, moved aside by off, with its
// extension lines and its name.
func (s *sheet) dimension(p, q, off point, label string, at point, anchor string) {
	s.line("thin", p.along(off, 0.1), p.along(off, 1.08))
	s.line("thin", q.along(off, 0.1), q.along(off, 1.08))
	a, b := p.plus(off), q.plus(off)
	s.line("thin", a, b)
	s.head("thin", a, a.minus(b).unit())
	s.head("thin", b, b.minus(a).unit())
	s.text(at, anchor, "", label)
}

// text writes a line; anchor is start, middle or end.
func (s *sheet) text(p point, anchor, class, words string) {
	words = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(words)
	s.addf(`<text x="%.1f" y="%.1f" text-anchor="%s" class="%s">%s</text>`, p.x, p.y, anchor, strings.TrimSpace(class+" halo"), words)
}

// svg returns the whole file.
func (s *sheet) svg() string {
	hatch := func(id string, deg int) string {
		return fmt.Sprintf(`<pattern id="%s" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="rotate(%d)">`+
			`<rect width="8" height="8" fill="#e3ddcd"/><line x1="0" y1="0" x2="0" y2="8" stroke="#22262b" stroke-width="1.1"/></pattern>`, id, deg)
	}
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" role="img">
<title>%s</title>
<style>%s</style>
<defs>%s%s</defs>
<rect class="ground" x="0.5" y="0.5" width="%d" height="%d" rx="8"/>
%s</svg>
`, s.width, s.height, s.width, s.height, s.title, style, hatch("hatch", 45), hatch("hatch2", -45), s.width-1, s.height-1, s.body.String())
}
