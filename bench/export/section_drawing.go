package export

import (
	"fmt"
	"io"
	"math"
	"path"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld/section"
)

// sectionParts are the drawings of every seam that is laid in passes.
func sectionParts(j *job.Job, p *plan.Plan) []part {
	var parts []part
	used := map[string]bool{}
	for i := range p.Seams {
		if s := &p.Seams[i]; s.Section != nil {
			name := path.Join(SectionDir, fileName(s.Name, used)+".svg")
			parts = append(parts, part{name, func(w io.Writer) error { return Section(w, j, s) }})
		}
	}
	return parts
}

// Places of a section's drawing, pixels.
const (
	sectionWide  = 980
	sectionHigh  = 560
	sectionLeft  = 20.0
	sectionRight = 520.0
	sectionTop   = 60.0
	sectionLow   = 500.0
	sectionList  = 545.0
)

// sectionDrawing draws the section of one seam, looking along the travel.
type sectionDrawing struct {
	job   *job.Job
	doc   *job.Seam
	seam  *plan.Seam
	sheet svgSheet
	scale float64 // pixels in a metre
	at    section.Point
	left  float64 // pixel of at
	base  float64
}

// Section draws a weld that is laid in passes as an SVG: the plates, every bead in
// its place with its number, the wire of every pass where it is aimed and as it
// leans, and what each is laid with.
func Section(w io.Writer, j *job.Job, s *plan.Seam) error {
	d := sectionDrawing{job: j, doc: &j.Seams[s.Index], seam: s}
	_, err := io.WriteString(w, d.svg())
	return err
}

func (d *sectionDrawing) svg() string {
	title := d.seam.Name + ": passes"
	d.sheet = svgSheet{width: sectionWide, height: sectionHigh, title: title}
	d.fit()
	d.plates()
	d.beads()
	d.wires()
	d.bar()
	d.list()
	d.sheet.text(sectionLeft, 34, "start", "big", title+", across the seam at its start")
	d.sheet.text(sectionLeft, sectionHigh-14, "start", "small", "Planned from the metal that each pass lays. Not measured: look at a trial piece before the part, by the procedure.")
	return d.sheet.svg()
}

// fit chooses the scale so that beads and plates fill the panel.
func (d *sectionDrawing) fit() {
	low, high := section.Point{X: math.Inf(1), Y: math.Inf(1)}, section.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, f := range d.seam.Section.Filled {
		a, b := f.Bounds()
		low = section.Point{X: min(low.X, a.X), Y: min(low.Y, a.Y)}
		high = section.Point{X: max(high.X, b.X), Y: max(high.Y, b.Y)}
	}
	wide, tall := high.X-low.X, high.Y-low.Y
	room := 0.55 * max(wide, tall)
	d.at = section.Point{X: low.X - room, Y: low.Y - room}
	d.scale = min((sectionRight-sectionLeft)/(wide+2*room), (sectionLow-sectionTop)/(tall+2*room))
	d.left, d.base = sectionLeft, sectionLow
}

func (d *sectionDrawing) px(p section.Point) [2]float64 {
	return [2]float64{d.left + (p.X-d.at.X)*d.scale, d.base - (p.Y-d.at.Y)*d.scale}
}

// polygon draws an outline (m), cut off at the edges of the panel.
func (d *sectionDrawing) polygon(class string, outline section.Polygon) {
	list := ""
	for _, p := range outline {
		q := d.px(p)
		x, y := min(max(q[0], sectionLeft), sectionRight), min(max(q[1], sectionTop), sectionLow)
		list += px(x) + "," + px(y) + " "
	}
	if list != "" {
		d.sheet.addf(`<polygon class="%s" points="%s"/>`, class, list[:len(list)-1])
	}
}

// plates draws the plates as far as the panel shows them.
func (d *sectionDrawing) plates() {
	const far = 1.0 // m: beyond the panel, where it is cut off
	if d.doc.Weld.Kind == job.SizeGroove {
		g := d.doc.Weld.Groove.Section
		d.polygon("plate", section.Polygon{{X: -far, Y: 0}, {X: far, Y: 0}, {X: far, Y: g.Thickness}, {X: -far, Y: g.Thickness}})
		for _, f := range d.seam.Section.Filled {
			d.polygon("panel", f)
		}
		return
	}
	base, other := thicknessOr(d.seam.BaseThickness), thicknessOr(d.seam.OtherThickness)
	d.polygon("plate", section.Polygon{{X: -far, Y: -base}, {X: far, Y: -base}, {X: far, Y: 0}, {X: -far, Y: 0}})
	sin, cos := math.Sincos(d.seam.Geometry.At(0).Included)
	along := section.Point{X: cos, Y: sin}
	behind := section.Point{X: -sin * other, Y: cos * other}
	d.polygon("plate", section.Polygon{{}, {X: along.X * far, Y: along.Y * far}, {X: along.X*far + behind.X, Y: along.Y*far + behind.Y}, {X: behind.X / max(sin, 0.1), Y: 0}})
}

// thicknessOr is the thickness to draw, m; a plate of unknown thickness is drawn
// as 10 mm.
func thicknessOr(t float64) float64 {
	if t > 0 {
		return t
	}
	return 10 * unit.MM
}

// beads draws every bead with its number.
func (d *sectionDrawing) beads() {
	for i := range d.seam.Section.Passes {
		q := &d.seam.Section.Passes[i]
		class := "run"
		if q.Back {
			class = "other"
		}
		d.polygon(class, q.Bead)
	}
	for i := range d.seam.Section.Passes {
		c := d.px(d.seam.Section.Passes[i].Bead.Centroid())
		d.sheet.text(c[0]-14, c[1]+6, "middle", "big", fmt.Sprint(i+1)) // beside a wire that stands in the middle
	}
}

// wires draws the wire of every pass that the run welds.
func (d *sectionDrawing) wires() {
	const shown = 0.30 // of the panel's height
	for i := range d.seam.Section.Passes {
		q := &d.seam.Section.Passes[i]
		if q.Back {
			continue
		}
		work := q.Work
		if i < len(d.seam.Passes) {
			work = d.seam.Way.At(0).Frame.WorkOf(d.seam.Passes[i].Aim)
		}
		tip := d.px(q.Aim)
		sin, cos := math.Sincos(work)
		long := shown * (sectionLow - sectionTop)
		end := [2]float64{tip[0] + long*sin, tip[1] - long*cos}
		d.sheet.line("wire", tip[0], tip[1], end[0], end[1])
		d.sheet.addf(`<circle class="run" cx="%s" cy="%s" r="3"/>`, px(tip[0]), px(tip[1]))
		d.sheet.text(end[0]+10, end[1]+4, "start", "", fmt.Sprint(i+1))
	}
}

// bar draws a scale of 10 mm or half an inch.
func (d *sectionDrawing) bar() {
	long, text := 10*unit.MM, "10 mm"
	if systemOf(d.job) == unit.InchPound {
		long, text = 0.5*unit.Inch, "1/2 in"
	}
	x, y := sectionLeft+10, sectionLow+18
	d.sheet.line("line", x, y, x+long*d.scale, y)
	d.sheet.text(x+long*d.scale+8, y+5, "start", "small", text)
}

// columns of the list, pixels from its left, and what they are.
var listColumns = []struct {
	x    float64
	name string
}{{0, "pass"}, {75, "work"}, {142, "set"}, {180, "metal"}, {258, "travel"}, {340, "heat input"}}

// list writes what every pass is laid with.
func (d *sectionDrawing) list() {
	y := 74.0
	for _, c := range listColumns {
		d.sheet.text(sectionList+c.x, y, "start", "small", c.name)
	}
	y += 6
	for i := range d.seam.Section.Passes {
		if y += 21; y > sectionLow {
			d.sheet.text(sectionList, y, "start", "", fmt.Sprintf("and %d more, in plan.json", len(d.seam.Section.Passes)-i))
			return
		}
		for k, text := range d.row(i) {
			d.sheet.text(sectionList+listColumns[k].x, y, "start", "", text)
		}
	}
}

// row is the line of pass i, from 0.
func (d *sectionDrawing) row(i int) []string {
	system, q := systemOf(d.job), &d.seam.Section.Passes[i]
	title := fmt.Sprintf("%d %v", i+1, q.Role)
	if q.Back || i >= len(d.seam.Passes) {
		return []string{title, "from the back, not in this run"}
	}
	p := &d.seam.Passes[i]
	return []string{title, fmt.Sprintf("%.0f deg", d.seam.Way.At(0).Frame.WorkOf(p.Aim)*deg), p.Size.Settings,
		unit.FormatIn(unit.Area, p.Size.Area, system), unit.FormatIn(unit.Speed, p.Size.Travel, system), heatText(p.Size.HeatInput, system)}
}

// heatText is a heat input (J/m), which may not be known.
func heatText(q float64, system unit.System) string {
	if math.IsNaN(q) {
		return "not known"
	}
	return unit.FormatIn(unit.EnergyPerLength, q, system)
}
