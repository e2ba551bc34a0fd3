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
	if seam.BaseThickness > 0 && seam.OtherThickness > 0 {
		plates = "plates " + size(seam.BaseThickness) + " and " + size(seam.OtherThickness)
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

// jointSVG draws plates and passes, those from the back too, which this run does not
// weld; "" for a bead of which only the metal is known.
func jointSVG(doc *job.Seam, seam *plan.Seam) string {
	shape, ok := newJointShape(doc, seam)
	if !ok {
		return ""
	}
	c := newCanvas(shape.low, shape.high, frame{jointEdge, jointEdge, jointWide - 2*jointEdge, jointHigh - 2*jointEdge})
	var body strings.Builder
	polygon := func(class string, outline []section.Point) {
		fmt.Fprintf(&body, `<polygon class="%s" points="%s"/>`, class, c.points(outline))
	}
	for _, p := range shape.plates {
		polygon("plate", p)
	}
	for _, g := range shape.gap {
		polygon("gap", g)
	}
	beads, backs := beadsOf(seam)
	for i, b := range beads {
		class := "bead"
		if backs[i] {
			class = "back"
		}
		polygon(class, b)
	}
	const room = 9 // pixels that a figure takes
	for i, b := range beads {
		if c.scale*math.Sqrt(b.Area()) > room {
			x, y := c.at(b.Centroid())
			fmt.Fprintf(&body, `<text x="%s" y="%s" text-anchor="middle" dominant-baseline="central">%d</text>`, px(x), px(y), i+1)
		}
	}
	return fmt.Sprintf(`<svg viewBox="0 0 %s %s" role="img">%s</svg>`, px(jointWide), px(jointHigh), body.String())
}

// beadsOf are the beads of a seam in the order of welding, and whether each is laid
// from the back.
func beadsOf(seam *plan.Seam) (beads []section.Polygon, backs []bool) {
	if seam.Section != nil {
		for i := range seam.Section.Passes {
			beads, backs = append(beads, seam.Section.Passes[i].Bead), append(backs, seam.Section.Passes[i].Back)
		}
		return beads, backs
	}
	size := &seam.Passes[0].Size
	if f, err := section.New(size.Included, size.DrawnLegBase, size.DrawnLegOther); err == nil {
		if outline, _, err := f.WithFactor(math.Max(1, math.Min(size.Convexity, 2))); err == nil {
			return []section.Polygon{outline}, []bool{false}
		}
	}
	return nil, nil
}
