package export

import (
	"fmt"
	"io"
	"math"
	"path"
	"slices"

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
	sectionWide  = 1050
	sectionHigh  = 584
	sectionLeft  = 20.0
	sectionTop   = 60.0
	sectionLow   = 500.0
	sectionPanel = 500.0 // width of the section itself
	sectionList  = 545.0
)

// sectionDrawing draws the section of one seam, looking along the travel.
type sectionDrawing struct {
	job    *job.Job
	doc    *job.Seam
	seam   *plan.Seam
	sheet  svgSheet
	canvas canvas
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
	d.beads()
	d.nozzles()
	d.wires()
	d.bar()
	d.list()
	d.sheet.text(sectionLeft, 34, "start", "big", title+", across the seam at its start")
	d.sheet.text(sectionLeft, sectionHigh-34, "start", "small", d.nozzleNote())
	d.sheet.text(sectionLeft, sectionHigh-14, "start", "small", "Planned from the metal that each pass lays. Not measured: look at a trial piece before the part, by the procedure.")
	return d.sheet.svg()
}

func (d *sectionDrawing) polygon(class string, outline []section.Point) {
	d.sheet.addf(`<polygon class="%s" points="%s"/>`, class, d.canvas.points(outline))
}

// beads draws the plates and every bead with its number.
func (d *sectionDrawing) beads() {
	shape, _ := newJointShape(d.doc, d.seam) // what is laid in passes has one
	const wires = 0.35                       // of the height, over the plates
	shape.high.Y += wires * (shape.high.Y - shape.low.Y)
	for _, i := range d.shown() {
		low, high := d.nozzle(i).Bounds()
		shape.low, shape.high = lower(shape.low, low), upper(shape.high, high)
	}
	d.canvas = newCanvas(shape.low, shape.high, frame{sectionLeft, sectionTop, sectionPanel, sectionLow - sectionTop})
	for _, p := range shape.plates {
		d.polygon("plate", p)
	}
	for _, g := range shape.gap {
		d.polygon("panel", g)
	}
	beads, backs := beadsOf(d.seam)
	for i, b := range beads {
		class := "run"
		if backs[i] {
			class = "other"
		}
		d.polygon(class, b)
	}
	beside := 0.0
	if d.doc.Weld.Kind == job.SizeGroove {
		beside = 14 // of the wire, which stands in the middle
	}
	for i, b := range beads {
		x, y := d.canvas.at(b.Centroid())
		d.sheet.text(x-beside, y+6, "middle", "big", fmt.Sprint(i+1))
	}
}

// wires draws the wire of every pass that the run welds.
func (d *sectionDrawing) wires() {
	const shown, longer = 0.18, 0.08 // of the panel's height; each of three in turn is longer, so that their numbers do not meet
	drawn := d.shown()
	for i := range d.seam.Section.Passes {
		q := &d.seam.Section.Passes[i]
		if q.Back {
			continue
		}
		work := q.Work
		if i < len(d.seam.Passes) {
			work = d.seam.Way.At(0).Frame.WorkOf(d.seam.Passes[i].Aim)
		}
		x, y := d.canvas.at(q.Aim)
		sin, cos := math.Sincos(work)
		long := (shown + longer*float64(i%3)) * (sectionLow - sectionTop)
		toX, toY := x+long*sin, y-long*cos
		if slices.Contains(drawn, i) {
			toX, toY = d.inNozzle(i)
		}
		d.sheet.line("wire", x, y, toX, toY)
		d.sheet.addf(`<circle class="run" cx="%s" cy="%s" r="3"/>`, px(x), px(y))
		d.sheet.text(toX+10, toY+4, "start", "", fmt.Sprint(i+1))
	}
}

// bar draws a scale of 10 mm or half an inch.
func (d *sectionDrawing) bar() {
	long, text := 10*unit.MM, "10 mm"
	if systemOf(d.job) == unit.InchPound {
		long, text = 0.5*unit.Inch, "1/2 in"
	}
	x, y := sectionLeft+10, sectionLow+18
	d.sheet.line("line", x, y, x+long*d.canvas.scale, y)
	d.sheet.text(x+long*d.canvas.scale+8, y+5, "start", "small", text)
}

// columns of the list, pixels from its left, and what they are.
var listColumns = []struct {
	x    float64
	name string
}{{0, "pass"}, {75, "work"}, {142, "set"}, {180, "metal"}, {258, "travel"}, {340, "heat input"}, {430, "nozzle"}}

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
		unit.FormatIn(unit.Area, p.Size.Area, system), unit.FormatIn(unit.Speed, p.Size.Travel, system), heatText(p.Size.HeatInput, system), roomText(p.Room, system)}
}

// heatText is a heat input (J/m), which may not be known.
func heatText(q float64, system unit.System) string {
	if math.IsNaN(q) {
		return "not known"
	}
	return unit.FormatIn(unit.EnergyPerLength, q, system)
}
