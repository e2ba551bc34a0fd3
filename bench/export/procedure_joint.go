package export

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
)

// jointFigure is the joint of one or more seams across the seam.
type jointFigure struct {
	Seams, Caption string
	SVG            template.HTML // ours alone: no text of the user is in it
}

// joints are the joints of the seams that go by the procedure, those alike once.
func (s *sheetMaker) joints() []jointFigure {
	var out []jointFigure
	for i := range s.plan.Seams {
		seam := &s.plan.Seams[i]
		doc := &s.job.Seams[seam.Index]
		if s.job.ProcedureOf(doc) != s.wps {
			continue
		}
		f := jointFigure{Seams: seam.Name, Caption: s.caption(doc, seam), SVG: template.HTML(jointSVG(doc, seam))}
		k := slices.IndexFunc(out, func(x jointFigure) bool { return x.Caption == f.Caption && x.SVG == f.SVG })
		if k < 0 {
			out = append(out, f)
		} else {
			out[k].Seams += ", " + seam.Name
		}
	}
	return out
}

// caption tells the joint in words.
func (s *sheetMaker) caption(doc *job.Seam, seam *plan.Seam) string {
	size := func(m float64) string { return weld.Show(m, unit.Length, s.system) }
	parts := []string{doc.Joint.String()}
	first := &seam.Passes[0].Size
	switch g := doc.Weld.Groove.Section; {
	case doc.Weld.Kind == job.SizeGroove:
		parts = append(parts, g.Prep.String(), "gap "+size(g.Gap))
		if g.RootFace > 0 {
			parts = append(parts, "root face "+size(g.RootFace))
		}
		if g.Angle > 0 {
			parts = append(parts, weld.Show(g.Angle, unit.Angle, s.system))
		}
	case first.DrawnLegBase > 0 && first.DrawnLegBase == first.DrawnLegOther:
		parts = append(parts, "leg "+size(first.DrawnLegBase))
	case first.DrawnLegBase > 0:
		parts = append(parts, "legs "+size(first.DrawnLegBase)+" on the base plate, "+size(first.DrawnLegOther)+" on the other")
	default:
		parts = append(parts, "bead of "+weld.Show(first.Area, unit.Area, s.system))
	}
	plates := "thickness of the plates not stated"
	if doc.BaseThickness > 0 && doc.OtherThickness > 0 {
		plates = "plates " + size(doc.BaseThickness) + " and " + size(doc.OtherThickness)
	}
	passes := "1 pass"
	if n := len(seam.Passes); n > 1 {
		passes = strconv.Itoa(n) + " passes"
	}
	return listed(append(parts, plates, "position "+seam.Position.Name(s.job.Code).String(), passes))
}

// Size of a joint's drawing, pixels.
const (
	jointWide = 260.0
	jointHigh = 190.0
	jointEdge = 8.0
)

// canvas maps a section (m, x along the base plate to the open side, y out of it)
// to pixels.
type canvas struct {
	low, high section.Point // what is shown
	scale     float64       // pixels in a metre
	body      strings.Builder
}

func newCanvas(low, high section.Point) *canvas {
	wide, tall := high.X-low.X, high.Y-low.Y
	return &canvas{low: low, high: high, scale: math.Min((jointWide-2*jointEdge)/wide, (jointHigh-2*jointEdge)/tall)}
}

func (c *canvas) at(p section.Point) (x, y float64) {
	return jointWide/2 + (p.X-(c.low.X+c.high.X)/2)*c.scale, jointHigh/2 - (p.Y-(c.low.Y+c.high.Y)/2)*c.scale
}

func (c *canvas) polygon(class string, outline []section.Point) {
	points := make([]string, len(outline))
	for i, p := range outline {
		x, y := c.at(p)
		points[i] = px(x) + "," + px(y)
	}
	fmt.Fprintf(&c.body, `<polygon class="%s" points="%s"/>`, class, strings.Join(points, " "))
}

func (c *canvas) number(p section.Point, n int) {
	x, y := c.at(p)
	fmt.Fprintf(&c.body, `<text x="%s" y="%s" text-anchor="middle" dominant-baseline="central">%d</text>`, px(x), px(y), n)
}

func (c *canvas) svg() string {
	return fmt.Sprintf(`<svg viewBox="0 0 %s %s" role="img">%s</svg>`, px(jointWide), px(jointHigh), c.body.String())
}

// jointSVG draws plates and passes; "" for a bead of which only the metal is known.
func jointSVG(doc *job.Seam, seam *plan.Seam) string {
	if doc.Weld.Kind == job.SizeGroove && seam.Section != nil {
		return grooveSVG(doc, seam)
	}
	if seam.Passes[0].Size.DrawnLegBase == 0 || doc.Joint == weld.Butt || doc.Joint == weld.Edge {
		return ""
	}
	return filletSVG(doc, seam)
}

// grooveSVG draws two plates, the groove between them and its beads.
func grooveSVG(doc *job.Seam, seam *plan.Seam) string {
	thick := doc.Weld.Groove.Section.Thickness
	low, high := section.Point{}, section.Point{Y: thick}
	for _, f := range seam.Section.Filled {
		a, b := f.Bounds()
		low, high = lower(low, a), upper(high, b)
	}
	room := math.Max(0.6*thick, 0.25*(high.X-low.X))
	low.X, high.X = low.X-room, high.X+room
	c := newCanvas(low, high)
	c.polygon("plate", box(low.X, 0, high.X, thick))
	for _, f := range seam.Section.Filled {
		c.polygon("gap", f)
	}
	c.beads(seam.Section)
	return c.svg()
}

// filletSVG draws the base plate, the plate on it and the fillet's beads.
func filletSVG(doc *job.Seam, seam *plan.Seam) string {
	size := &seam.Passes[0].Size
	leg1, leg2 := size.DrawnLegBase, size.DrawnLegOther
	thick := func(t float64) float64 {
		most := 4 * math.Max(leg1, leg2) // a thick plate leaves the weld its room
		if t == 0 {
			return most / 5
		}
		return math.Min(t, most)
	}
	base, other := thick(doc.BaseThickness), thick(doc.OtherThickness)
	sin, cos := math.Sincos(size.Included)
	reach := 1.6*leg2 + 0.5*other
	upright := []section.Point{{}, {X: reach * cos, Y: reach * sin}, {X: reach*cos - other*sin, Y: reach*sin + other*cos}, {X: -other * sin, Y: other * cos}}
	left := -other - 0.8*leg1
	switch doc.Joint {
	case weld.Lap:
		left = -other - 1.6*leg1
		upright = box(left, 0, 0, math.Max(other, leg2))
	case weld.InsideCorner:
		left = -other
	case weld.OutsideCorner:
		left = 0
	}
	plate := box(left, -base, 1.9*leg1, 0)
	low, high := section.Polygon(plate).Bounds()
	a, b := section.Polygon(upright).Bounds()
	c := newCanvas(lower(low, a), upper(high, b))
	c.polygon("plate", plate)
	c.polygon("plate", upright)
	if seam.Section != nil {
		c.beads(seam.Section)
	} else if f, err := section.New(size.Included, leg1, leg2); err == nil {
		if outline, _, err := f.WithFactor(math.Max(1, math.Min(size.Convexity, 2))); err == nil {
			c.polygon("bead", outline)
			c.number(outline.Centroid(), 1)
		}
	}
	return c.svg()
}

// beads draws the passes in the order of welding, those from the back too, which
// this run does not weld.
func (c *canvas) beads(p *section.Plan) {
	for i := range p.Passes {
		class := "bead"
		if p.Passes[i].Back {
			class = "back"
		}
		c.polygon(class, p.Passes[i].Bead)
	}
	const room = 9 // pixels that a figure takes
	for i := range p.Passes {
		if c.scale*math.Sqrt(p.Passes[i].Area) > room {
			c.number(p.Passes[i].Bead.Centroid(), i+1)
		}
	}
}

func box(x0, y0, x1, y1 float64) []section.Point {
	return []section.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

func lower(p, q section.Point) section.Point {
	return section.Point{X: math.Min(p.X, q.X), Y: math.Min(p.Y, q.Y)}
}

func upper(p, q section.Point) section.Point {
	return section.Point{X: math.Max(p.X, q.X), Y: math.Max(p.Y, q.Y)}
}
