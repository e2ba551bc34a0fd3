package export

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// drawingMark stands in every drawing, so that a folder of drawings is known for
// one of ours.
const drawingMark = "<!-- seamwright profile -->"

// drawingStyle holds the looks that elements name by class: those of the
// project's other drawings, with their own ground.
const drawingStyle = `
.ground{fill:#f5f2ea;stroke:#8c887d}
.panel{fill:#fbf9f3;stroke:#8c887d}
.grid{stroke:#ddd5c2;stroke-width:1}
.mark{stroke:#22262b;stroke-width:1;stroke-dasharray:12 4 2 4}
.bend{fill:#ece6d8}
.limit{stroke:#2e6a3c;stroke-width:1.6;stroke-dasharray:6 4;fill:none}
.bead{fill:#b98a5a}
.plate{fill:#cfd3d6;stroke:#22262b;stroke-width:1.5}
.run{fill:#b98a5a;stroke:#22262b;stroke-width:1.2}
.other{fill:#e6d6c3;stroke:#22262b;stroke-width:1.2}
.nozzle{fill:#d9b36c;fill-opacity:.25;stroke:#8a6d2f;stroke-width:1.3}
.wire{stroke:#a23b22;stroke-width:2;fill:none}
.line{stroke:#22262b;stroke-width:2;fill:none;stroke-linejoin:round}
.over{stroke:#a23b22;stroke-width:4;fill:none;stroke-linejoin:round;stroke-linecap:round}
text{font-family:Helvetica,Arial,"DejaVu Sans",sans-serif;font-size:14px;fill:#22262b}
.big{font-size:18px;font-weight:bold}
.small{font-size:12px}
.green{fill:#2e6a3c;paint-order:stroke;stroke:#fbf9f3;stroke-width:3px}
`

// svgSheet collects the elements of a drawing in the order they are drawn, in
// pixels, x to the right and y down.
type svgSheet struct {
	width, height float64
	title         string
	body          strings.Builder
	words         []svgWords
}

// svgWords is a text and the box it takes, roughly, pixels.
type svgWords struct {
	text           string
	x0, y0, x1, y1 float64
}

func (s *svgSheet) addf(format string, args ...any) { fmt.Fprintf(&s.body, format+"\n", args...) }

// px prints a pixel coordinate.
func px(x float64) string {
	return strings.TrimSuffix(strconv.FormatFloat(math.Round(x*10)/10+0, 'f', 1, 64), ".0")
}

func (s *svgSheet) rect(class string, x, y, wide, high float64) {
	s.addf(`<rect class="%s" x="%s" y="%s" width="%s" height="%s"/>`, class, px(x), px(y), px(wide), px(high))
}

func (s *svgSheet) line(class string, x0, y0, x1, y1 float64) {
	s.addf(`<line class="%s" x1="%s" y1="%s" x2="%s" y2="%s"/>`, class, px(x0), px(y0), px(x1), px(y1))
}

// polyline draws through points given as x, y pairs.
func (s *svgSheet) polyline(class string, points [][2]float64) {
	list := make([]string, len(points))
	for i, p := range points {
		list[i] = px(p[0]) + "," + px(p[1])
	}
	s.addf(`<polyline class="%s" points="%s"/>`, class, strings.Join(list, " "))
}

var escape = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

// clean takes from a text what XML cannot hold.
func clean(text string) string {
	return escape.Replace(strings.Map(func(r rune) rune {
		if r < ' ' || r == '\uFFFE' || r == '\uFFFF' || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "?")))
}

// text writes a line where there is room for it, and reports whether there was;
// anchor is start, middle or end.
func (s *svgSheet) text(x, y float64, anchor, class, text string) bool {
	size := map[string]float64{"big": 18, "small": 12}[strings.Fields(class + " -")[0]]
	if size == 0 {
		size = 14
	}
	wide := 0.55 * size * float64(len([]rune(text)))
	left := map[string]float64{"start": x, "middle": x - wide/2, "end": x - wide}[anchor]
	box := svgWords{text, left, y - 0.8*size, left + wide, y + 0.25*size}
	for _, w := range s.words {
		if box.x0 < w.x1+4 && w.x0 < box.x1+4 && box.y0 < w.y1 && w.y0 < box.y1 {
			return false
		}
	}
	if box.x0 < 4 || box.x1 > s.width-4 {
		return false
	}
	s.words = append(s.words, box)
	s.addf(`<text x="%s" y="%s" text-anchor="%s" class="%s">%s</text>`, px(x), px(y), anchor, class, clean(text))
	return true
}

func (s *svgSheet) svg() string {
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" width="%s" height="%s" role="img">
%s
<title>%s</title>
<style>%s</style>
<rect class="ground" x="0.5" y="0.5" width="%s" height="%s" rx="8"/>
%s</svg>
`, px(s.width), px(s.height), px(s.width), px(s.height), drawingMark, clean(s.title), drawingStyle, px(s.width-1), px(s.height-1), s.body.String())
}
