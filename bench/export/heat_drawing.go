package export

import (
	"fmt"
	"io"
	"math"
	"path"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/r3"
	"seamwright/unit"
	"seamwright/weld/thermal"
)

// heatParts are the drawings of temperature of every seam whose heat is known.
func heatParts(j *job.Job, p *plan.Plan) []part {
	var parts []part
	used := map[string]bool{}
	for i := range p.Seams {
		s := &p.Seams[i]
		d, ok := newHeatDrawing(j, p, s)
		if !ok {
			continue
		}
		name := path.Join(HeatDir, fileName(s.Name, used)+".svg")
		parts = append(parts, part{name, func(w io.Writer) error {
			_, err := io.WriteString(w, d.svg())
			return err
		}})
	}
	return parts
}

// heatDrawing draws how a seam heats and cools.
type heatDrawing struct {
	job       *job.Job
	seam      *plan.Seam
	thickness float64 // m
	field     thermal.Field
	metal     thermal.Metal
	begins    []float64 // by pass: s after the first, when the arc passes the middle
	sheet     svgSheet
}

// newHeatDrawing returns the drawing of a seam, or false where its heat is not
// known.
func newHeatDrawing(j *job.Job, p *plan.Plan, s *plan.Seam) (heatDrawing, bool) {
	d := heatDrawing{job: j, seam: s, thickness: s.Thinner()}
	first := &s.Passes[0]
	if d.thickness == 0 || !first.Heat.Known {
		return d, false
	}
	var err error
	if d.metal, err = thermal.MetalOf(thermal.SteelGrong); err != nil {
		return d, false
	}
	d.field, err = thermal.NewField(thermal.FieldRequest{
		Power: first.Heat.Input * first.Size.Travel, Travel: first.Size.Travel, Preheat: first.Heat.Start,
		Plate: thermal.FinitePlate, Thickness: d.thickness, Metal: d.metal,
	})
	d.begins = d.middles(p)
	return d, err == nil && len(d.begins) > 0
}

// middles are the times at which the passes that are in the run weld the middle of
// the seam, s after the first does.
func (d *heatDrawing) middles(p *plan.Plan) []float64 {
	var list []float64
	half, pass := d.seam.Length/2, 0
	for i := range p.Trace {
		x := &p.Trace[i]
		if x.Seam == d.seam.Name && x.Arc && x.Pass > pass && x.Along >= half {
			pass = x.Pass
			list = append(list, x.T)
		}
	}
	for i := len(list) - 1; i >= 0; i-- {
		list[i] -= list[0]
	}
	return list
}

// Places of the drawing, pixels.
const (
	heatWide = 980
	heatHigh = 622
	heatFlat = 210 // height of the view of the plate
	heatTop  = 76
)

func (d *heatDrawing) svg() string {
	d.sheet = svgSheet{width: heatWide, height: heatHigh, title: d.seam.Name + ": temperatures"}
	d.sheet.text(profileLeft, 34, "start", "big", d.seam.Name+": temperatures about the arc, and at the middle of the seam")
	d.isotherms()
	d.cooling()
	d.sheet.text(profileLeft, heatHigh-30, "start", "small",
		fmt.Sprintf("By conduction in a wide plate of %s, %s, faces that lose a little; a small part keeps its heat.", d.length(d.thickness), d.metal.Name))
	d.sheet.text(profileLeft, heatHigh-12, "start", "small", "Hot plates burn. Measure before each pass; the procedure and the welding coordinator decide.")
	return d.sheet.svg()
}

func (d *heatDrawing) length(m float64) string {
	return unit.FormatIn(unit.Length, m, systemOf(d.job))
}

func (d *heatDrawing) temperature(c float64) float64 {
	u, _ := unit.Temperature.Preferred(systemOf(d.job))
	return u.Value(c)
}

func (d *heatDrawing) degrees() string {
	u, _ := unit.Temperature.Preferred(systemOf(d.job))
	return u.String()
}

// shades are the temperatures (degC) whose lines are drawn about the arc, hottest
// last, and their fills.
var shades = []struct {
	above float64
	fill  string
}{{100, "#f3e3c8"}, {200, "#ecc99a"}, {300, "#e2a868"}, {500, "#cf7c3d"}, {800, "#a23b22"}, {1400, "#fff3c4"}}

// isotherms draws the plate from above as it is while the first pass is welded: what
// lies inside each temperature.
func (d *heatDrawing) isotherms() {
	d.sheet.rect("panel", profileLeft, heatTop, profileRight-profileLeft, heatFlat)
	const columns, rows = 216, 52
	wide := d.reach()
	step := wide / columns
	ahead := 0.12 * wide
	net, err := d.field.Grid(thermal.GridRequest{
		Corner: r3.Vec{X: ahead, Y: float64(rows-1) * step / 2}, ColumnStep: r3.Vec{X: -step}, RowStep: r3.Vec{Y: -step}, Columns: columns, Rows: rows,
	})
	if err != nil {
		d.sheet.text(profileLeft+12, heatTop+40, "start", "", "cannot be told: "+err.Error())
		return
	}
	cell := (profileRight - profileLeft) / float64(columns)
	top := heatTop + (heatFlat-cell*rows)/2
	for r := range rows {
		d.stripes(&net, r, top+cell*float64(r), cell)
	}
	d.sheet.text(profileLeft, heatTop-8, "start", "", "the plate from above while pass 1 is welded, from right to left")
	d.bar((profileRight - profileLeft) / wide)
	d.legend()
}

// bar draws a scale of 20 mm or an inch; scale is pixels in a metre.
func (d *heatDrawing) bar(scale float64) {
	long, text := 20*unit.MM, "20 mm"
	if systemOf(d.job) == unit.InchPound {
		long, text = unit.Inch, "1 in"
	}
	x, y := float64(profileLeft+12), float64(heatTop+heatFlat-14)
	d.sheet.line("line", x, y, x+long*scale, y)
	d.sheet.text(x+long*scale+8, y+5, "start", "small", text)
}

// stripes draws a row of the net as stretches of one shade.
func (d *heatDrawing) stripes(net *thermal.Grid, row int, y, cell float64) {
	shade := func(column int) int {
		n := -1
		for i := range shades {
			if net.At(column, row) >= shades[i].above {
				n = i
			}
		}
		return n
	}
	from, at := 0, shade(0)
	for c := 1; c <= net.Columns; c++ {
		next := -2
		if c < net.Columns {
			next = shade(c)
		}
		if next == at {
			continue
		}
		if at >= 0 {
			d.sheet.addf(`<rect x="%s" y="%s" width="%s" height="%s" fill="%s"/>`, px(profileLeft+cell*float64(from)), px(y), px(cell*float64(c-from)+0.2), px(cell+0.2), shades[at].fill)
		}
		from, at = c, next
	}
}

// legend names the shades.
func (d *heatDrawing) legend() {
	x, y := float64(profileLeft), float64(heatTop+heatFlat+14)
	for _, s := range shades {
		d.sheet.addf(`<rect x="%s" y="%s" width="14" height="14" fill="%s" stroke="#8c887d"/>`, px(x), px(y), s.fill)
		d.sheet.text(x+20, y+12, "start", "small", fmt.Sprintf("over %.0f %s", d.temperature(s.above), d.degrees()))
		x += 130
	}
}

// reach is how much of the plate is shown, m: far enough behind the arc to fall under
// 200 K over the part, at most half a metre.
func (d *heatDrawing) reach() float64 {
	const least, most = 0.06, 0.5
	for x := least; x < most; x *= 1.2 {
		if d.field.Temperature(r3.Vec{X: -x}) < d.seam.Passes[0].Heat.Start+200 {
			return x * 1.15
		}
	}
	return most
}

// cooling draws the temperature on the weld at the middle of the seam over the time
// of all passes.
func (d *heatDrawing) cooling() {
	p := panel{top: 350, high: 180, low: 0, up: d.temperature(800)}
	last := d.begins[len(d.begins)-1]
	end := last + max(60, 0.25*last)
	d.sheet.rect("panel", profileLeft, p.top, profileRight-profileLeft, p.high)
	x := func(t float64) float64 { return profileLeft + (profileRight-profileLeft)*t/end }
	for _, v := range ticks(0, p.up, 5) {
		d.sheet.line("grid", profileLeft, p.y(v), profileRight, p.y(v))
		d.sheet.text(profileLeft-8, p.y(v)+5, "end", "", tickText(v))
	}
	d.sheet.text(profileLeft, p.top-8, "start", "", fmt.Sprintf("on the weld at the middle of the seam, %s", d.degrees()))
	if ceiling, ok := d.ceiling(); ok {
		y := p.y(d.temperature(ceiling))
		d.sheet.line("limit", profileLeft, y, profileRight, y)
		d.sheet.text(profileLeft+6, y+14, "start", "small green", fmt.Sprintf("most for the next pass, %.0f %s", d.temperature(ceiling), d.degrees()))
	}
	var points [][2]float64
	const steps = 1200
	for k := range steps + 1 {
		t := end * float64(k) / steps
		points = append(points, [2]float64{x(t), p.y(d.temperature(d.at(t)))})
	}
	d.sheet.polyline("line", points)
	for i, t := range d.begins {
		d.sheet.text(x(t)+4, p.top+16, "start", "small", fmt.Sprintf("pass %d", i+1))
	}
	for _, v := range ticks(0, end, 8) {
		d.sheet.line("grid", x(v), p.top+p.high, x(v), p.top+p.high+5)
		d.sheet.text(x(v), p.top+p.high+20, "middle", "", tickText(v))
	}
	d.sheet.text((profileLeft+profileRight)/2, p.top+p.high+38, "middle", "", "s after the first pass is there")
}

// ceiling is the temperature (degC) at which the next pass may begin, where a pass
// waits for one.
func (d *heatDrawing) ceiling() (float64, bool) {
	for i := range d.seam.Passes {
		if h := &d.seam.Passes[i].Heat; h.CoolKnown {
			return h.Ceiling, true
		}
	}
	return 0, false
}

// at is the temperature (degC) on the weld at the middle of the seam, s after the
// first pass is there: what every pass that has been there has left, by conduction.
func (d *heatDrawing) at(t float64) float64 {
	sum := d.seam.Passes[0].Heat.Start
	for i, begin := range d.begins {
		if t <= begin {
			break
		}
		rise, err := d.seam.Passes[i].Heat.RiseAfter(t - begin)
		if err != nil {
			return math.NaN()
		}
		sum += rise
	}
	return math.Min(sum, d.metal.Melting)
}
