package export

import (
	"math"
	"strings"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/weld"
	"seamwright/weld/section"
)

// jointShape is a joint across the seam at its start, m, as drawings show it: plates,
// cut off where the weld is clear, and the gap that is filled between them.
type jointShape struct {
	plates, gap [][]section.Point
	low, high   section.Point // what is shown
}

// newJointShape is the joint of a seam; false for a bead of which only the metal is
// known.
func newJointShape(doc *job.Seam, seam *plan.Seam) (jointShape, bool) {
	if doc.Weld.Kind == job.SizeGroove && seam.Section != nil {
		return grooveShape(doc, seam), true
	}
	if seam.Passes[0].Size.DrawnLegBase == 0 || doc.Joint == weld.Butt || doc.Joint == weld.Edge {
		return jointShape{}, false
	}
	return filletShape(doc, seam), true
}

// grooveShape is two plates and the groove between them.
func grooveShape(doc *job.Seam, seam *plan.Seam) jointShape {
	thick := doc.Weld.Groove.Section.Thickness
	s := jointShape{high: section.Point{Y: thick}}
	for _, f := range seam.Section.Filled {
		a, b := f.Bounds()
		s.low, s.high = lower(s.low, a), upper(s.high, b)
		s.gap = append(s.gap, f)
	}
	room := math.Max(0.6*thick, 0.25*(s.high.X-s.low.X))
	s.low.X, s.high.X = s.low.X-room, s.high.X+room
	s.plates = [][]section.Point{box(s.low.X, 0, s.high.X, thick)}
	return s
}

// filletShape is the base plate and the plate on it.
func filletShape(doc *job.Seam, seam *plan.Seam) jointShape {
	size := &seam.Passes[0].Size
	leg1, leg2 := size.DrawnLegBase, size.DrawnLegOther
	thick := func(t float64) float64 {
		most := 4 * math.Max(leg1, leg2) // a thick plate leaves the weld its room
		if t == 0 {
			return most / 5
		}
		return math.Min(t, most)
	}
	base, other := thick(seam.BaseThickness), thick(seam.OtherThickness)
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
	s := jointShape{plates: [][]section.Point{box(left, -base, 1.9*leg1, 0), upright}}
	for i, p := range s.plates {
		a, b := section.Polygon(p).Bounds()
		if i == 0 {
			s.low, s.high = a, b
		}
		s.low, s.high = lower(s.low, a), upper(s.high, b)
	}
	return s
}

// frame is where on a drawing something is shown, pixels.
type frame struct{ left, top, wide, high float64 }

// canvas maps a section (m, x along the base plate to the open side, y out of it)
// to pixels.
type canvas struct {
	middle section.Point // m, of what is shown
	x, y   float64       // pixel of the middle
	scale  float64       // pixels in a metre
}

// newCanvas shows all between two corners (m) in a frame.
func newCanvas(low, high section.Point, f frame) canvas {
	return canvas{
		middle: section.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2},
		x:      f.left + f.wide/2, y: f.top + f.high/2,
		scale: math.Min(f.wide/(high.X-low.X), f.high/(high.Y-low.Y)),
	}
}

func (c canvas) at(p section.Point) (x, y float64) {
	return c.x + (p.X-c.middle.X)*c.scale, c.y - (p.Y-c.middle.Y)*c.scale
}

// points lists an outline as SVG does.
func (c canvas) points(outline []section.Point) string {
	list := make([]string, len(outline))
	for i, p := range outline {
		x, y := c.at(p)
		list[i] = px(x) + "," + px(y)
	}
	return strings.Join(list, " ")
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
