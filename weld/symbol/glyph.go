package symbol

import (
	"fmt"
	"strings"
)

// The elementary symbols are drawn in a box whose foot lies on the reference
// line: x to the right from the left edge, y away from the line, both in units
// of the drawing. A weld below the line is the mirror of one above it in the
// line, so the upright stroke of a fillet, bevel or J is at the left in both
// (AWS A2.4:2020 6.3, read in a secondary page; the shapes from memory).
const (
	glyphHeight = 20.0 // units of the drawing
	glyphWidth  = 20.0 // units of the drawing
)

// stroke is one SVG path segment: a command letter and its points, x then y.
type stroke struct {
	op string
	at []float64
}

// glyph returns the strokes of an elementary symbol.
func (k Kind) glyph() []stroke {
	const w, h, mid = glyphWidth, glyphHeight, glyphWidth / 2
	const stem = h * 0.35 // root face, and foot of a U
	move, line := func(x, y float64) stroke { return stroke{"M", []float64{x, y}} }, func(x, y float64) stroke { return stroke{"L", []float64{x, y}} }
	curve := func(at ...float64) stroke { return stroke{"C", at} }
	switch k {
	case Fillet:
		return []stroke{move(0, 0), line(0, h), line(w, 0), {op: "Z"}}
	case Square:
		return []stroke{move(mid-6, 0), line(mid-6, h), move(mid+6, 0), line(mid+6, h)}
	case V:
		return []stroke{move(0, h), line(mid, 0), line(w, h)}
	case Bevel:
		return []stroke{move(mid/2, h), line(mid/2, 0), line(w*0.9, h)}
	case VRootFace:
		return []stroke{move(0, h), line(mid, stem), line(w, h), move(mid, stem), line(mid, 0)}
	case BevelRootFace:
		return []stroke{move(mid/2, h), line(mid/2, 0), move(mid/2, stem), line(w*0.9, h)}
	case U:
		return []stroke{move(mid, 0), line(mid, stem), move(0, h), curve(0, stem+h*0.02, w*0.2, stem, mid, stem), curve(w*0.8, stem, w, stem+h*0.02, w, h)}
	case J:
		return []stroke{move(mid/2, h), line(mid/2, 0), move(mid/2, stem), curve(w*0.7, stem, w*0.9, h*0.6, w*0.9, h)}
	case FlareV:
		return []stroke{move(0, h), curve(mid*0.7, h, mid*0.8, h*0.4, mid*0.8, 0), move(w, h), curve(w-mid*0.7, h, w-mid*0.8, h*0.4, w-mid*0.8, 0)}
	case FlareBevel:
		return []stroke{move(mid/2, h), line(mid/2, 0), move(w, h), curve(w-mid*0.8, h, w*0.5, h*0.4, w*0.5, 0)}
	}
	return nil
}

// contourGlyph returns the strokes of a contour over a weld: along the slope of
// a fillet, level over a groove.
func (c Contour) glyph(k Kind) []stroke {
	const w, h = glyphWidth, glyphHeight
	// Ends of the contour and the direction away from the face.
	x1, y1, x2, y2, nx, ny := w*0.05, h+4, w*0.95, h+4, 0.0, 1.0
	if k == Fillet {
		const off = 4.2 // distance from the slope, units of the drawing
		nx, ny = 0.7071, 0.7071
		x1, y1, x2, y2 = w*0.22+off*nx, h*0.78+off*ny, w*0.78+off*nx, h*0.22+off*ny
	}
	mx, my := (x1+x2)/2, (y1+y2)/2
	const bulge = 7.0 // of the control point, units of the drawing: half of it is the arc's height
	start := stroke{"M", []float64{x1, y1}}
	switch c {
	case Flat:
		return []stroke{start, {"L", []float64{x2, y2}}}
	case Convex:
		return []stroke{start, {"Q", []float64{mx + bulge*nx, my + bulge*ny, x2, y2}}}
	case Concave:
		return []stroke{{"M", []float64{x1 + 3*nx, y1 + 3*ny}}, {"Q", []float64{mx - (bulge-3)*nx, my - (bulge-3)*ny, x2 + 3*nx, y2 + 3*ny}}}
	case ToesBlended: // two short hooks at the toes
		return []stroke{{"M", []float64{x1 - 3, y1 + 3}}, {"Q", []float64{x1, y1 - 1, x1 + 4, y1}}, {"M", []float64{x2 + 3, y2 + 3}}, {"Q", []float64{x2, y2 - 1, x2 - 4, y2}}}
	}
	return nil
}

// path turns strokes into the data of an SVG path whose box stands at x on a
// line at y, upward or hanging.
func path(strokes []stroke, x, y float64, hanging bool) string {
	away := -1.0
	if hanging {
		away = 1
	}
	var b strings.Builder
	for _, s := range strokes {
		b.WriteString(s.op)
		for i := 0; i+1 < len(s.at); i += 2 {
			fmt.Fprintf(&b, " %s %s", svgNumber(x+s.at[i]), svgNumber(y+away*s.at[i+1]))
		}
		b.WriteByte(' ')
	}
	return strings.TrimSpace(b.String())
}

// svgNumber prints a coordinate to a tenth of a unit of the drawing.
func svgNumber(v float64) string {
	text := fmt.Sprintf("%.1f", v)
	if text == "-0.0" {
		text = "0.0"
	}
	return strings.TrimSuffix(text, ".0")
}
