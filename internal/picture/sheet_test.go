package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamwright/geom/r3"
)

// view projects the base frame onto the sheet without perspective.
type view struct {
	middle           r3.Vec // m, the place that comes to x, y
	x, y             float64
	scale            float64 // pixels per metre
	azimuth, elevate float64 // deg, of the eye
}

// eye is the direction to the eye.
func (v view) eye() r3.Vec {
	sa, ca := math.Sincos(v.azimuth * degree)
	se, ce := math.Sincos(v.elevate * degree)
	return r3.Vec{X: ce * ca, Y: ce * sa, Z: se}
}

func (v view) at(p r3.Vec) (x, y float64) {
	right := r3.Vec{Z: 1}.Cross(v.eye()).Unit()
	up := v.eye().Cross(right)
	d := p.Sub(v.middle)
	return v.x + v.scale*d.Dot(right), v.y - v.scale*d.Dot(up)
}

// shade lightens or darkens a colour by how a face is turned to the light,
// which comes from the upper left of the eye.
func (v view) shade(colour string, normal r3.Vec) string {
	light := r3.Vec{Z: 0.9}.Add(v.eye().Scale(0.45)).Add(r3.Vec{Z: 1}.Cross(v.eye()).Scale(-0.35)).Unit()
	f := 0.80 + 0.26*normal.Dot(light)
	var out strings.Builder
	out.WriteByte('#')
	for i := 1; i < 7; i += 2 {
		c, _ := strconv.ParseUint(colour[i:i+2], 16, 8)
		fmt.Fprintf(&out, "%02x", byte(math.Min(255, math.Round(float64(c)*f))))
	}
	return out.String()
}

// sheet collects the elements of the picture in the order they are drawn.
type sheet struct {
	width, height int
	title         string
	body          strings.Builder
	words         []words
}

// words is a text on the sheet with the box it takes, for the test that no two
// overlap.
type words struct {
	text           string
	x0, y0, x1, y1 float64
}

const style = `
.ground{fill:#f5f2ea;stroke:#8c887d}
.edge{stroke:#22262b;stroke-width:1;stroke-linecap:round}
.bead{stroke:#22262b;stroke-width:.7;stroke-linecap:round}
.needle{stroke:#16212a;stroke-width:.6}
.ghost{stroke:#8d8674;stroke-width:.8}
.hair{stroke:#a23b22;stroke-width:1.4}
.wire{stroke:#7a3b12;stroke-width:1.6}
.lead{fill:none;stroke:#22262b;stroke-width:1}
.frame{fill:#fbf9f3;stroke:#8c887d}
text{font-family:Helvetica,Arial,"DejaVu Sans",sans-serif;font-size:15px;fill:#22262b}
.big{font-size:20px;font-weight:bold}
.name{font-size:16px;font-weight:bold}
.small{font-size:14px}
.halo{paint-order:stroke;stroke:#f5f2ea;stroke-width:4px;stroke-linejoin:round}
`

func (s *sheet) addf(format string, args ...any) { fmt.Fprintf(&s.body, format+"\n", args...) }

// solids draws faces as the view sees them, the farthest first.
func (s *sheet) solids(v view, faces []face) {
	var seen []face
	for _, f := range faces {
		if len(f.points) == 2 || f.normal.Dot(v.eye()) > 1e-9 {
			seen = append(seen, f)
		}
	}
	grow(seen).walk(v.eye(), func(f *face) { s.face(v, f) })
}

func (s *sheet) face(v view, f *face) {
	corner := make([]string, len(f.points))
	for i, p := range f.points {
		x, y := v.at(p)
		corner[i] = short(x) + "," + short(y)
	}
	if len(f.points) > 2 {
		c := v.shade(f.paint.fill, f.normal)
		s.addf(`<path d="M%sZ" fill="%s" stroke="%s" stroke-width=".5"/>`, strings.Join(corner, " "), c, c)
	}
	var lines strings.Builder
	for i, drawn := range f.edge {
		if next := corner[(i+1)%len(corner)]; drawn && next != corner[i] {
			fmt.Fprintf(&lines, "M%s %s", corner[i], next)
		}
	}
	if lines.Len() > 0 && f.paint.class != "none" {
		s.addf(`<path class="%s" d="%s"/>`, f.paint.class, lines.String())
	}
}

// short prints a pixel coordinate.
func short(x float64) string {
	return strings.TrimSuffix(strconv.FormatFloat(math.Round(x*10)/10+0, 'f', 1, 64), ".0")
}

// text writes a line; anchor is start, middle or end.
func (s *sheet) text(x, y float64, anchor, class, text string) {
	size := map[string]float64{"big": 20, "name": 16, "small": 14}[class]
	if size == 0 {
		size = 15
	}
	wide := 0.5 * size * float64(len([]rune(text)))
	left := map[string]float64{"start": 0, "middle": wide / 2, "end": wide}[anchor]
	s.words = append(s.words, words{text, x - left, y - 0.78*size, x - left + wide, y + 0.22*size})
	text = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(text)
	s.addf(`<text x="%s" y="%s" text-anchor="%s" class="%s">%s</text>`, short(x), short(y), anchor, strings.TrimSpace(class+" halo"), text)
}

// svg returns the whole file.
func (s *sheet) svg() string {
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" width="%d" height="%d" role="img">
<title>%s</title>
<style>%s</style>
<rect class="ground" x="0.5" y="0.5" width="%d" height="%d" rx="8"/>
%s</svg>
`, s.width, s.height, s.width, s.height, s.title, style, s.width-1, s.height-1, s.body.String())
}
