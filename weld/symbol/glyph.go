package symbol

import (
	"fmt"
	"strings"
)

// The elementary symbols are drawn in a box whose foot lies on the reference
// line: x to the right from the left edge, y away from the line, both in units
// of the drawing. A weld below the line is the mirror of one above it in the
// line, so the upright stroke of a fillet, bevel or J is at the left in both
// (AWS A2.4:2020 6.3, read in a secondary page), and the uprights of both sides
// stand over each other. The proportions are from memory: a fillet as high as
// wide, a V of 60 degrees, a bevel of 45, half circles in U and J.
const (
	glyphHeight = 20.0                // units of the drawing
	stem        = glyphHeight * 0.25  // of a U or J, units of the drawing
	rootFace    = glyphHeight * 0.4   // of the broad ones, units of the drawing
	bowl        = glyphHeight * 0.45  // radius of U and J, units of the drawing
	flareApart  = 5.0                 // between the round edges, units of the drawing
	flareOut    = glyphHeight * 0.55  // how far a round edge leans out, units of the drawing
	halfV       = 0.57735026918962576 // tan 30 degrees
	arcHandle   = 0.5522847498307936  // 4/3 tan(90/4 degrees): a Bezier curve as a quarter circle
	rootLow     = glyphHeight * 0.6   // where the figure of a root opening begins, units of the drawing
	within      = 2.0                 // of that figure from the strokes, units of the drawing
)

// stroke is one SVG path segment: a command letter and its points, x then y.
type stroke struct {
	op string
	at []float64
}

func moveTo(x, y float64) stroke   { return stroke{"M", []float64{x, y}} }
func lineTo(x, y float64) stroke   { return stroke{"L", []float64{x, y}} }
func curveTo(at ...float64) stroke { return stroke{"C", at} }

// width is how wide an elementary symbol is, units of the drawing.
func (k Kind) width() float64 {
	const h = glyphHeight
	switch k {
	case Square:
		return 12
	case V:
		return 2 * h * halfV
	case VRootFace:
		return 2 * (h - rootFace) * halfV * 1.25
	case BevelRootFace:
		return h - rootFace
	case U:
		return 2 * bowl
	case J:
		return bowl
	case FlareV:
		return flareApart + 2*flareOut
	case FlareBevel:
		return flareApart + flareOut
	}
	return h
}

// glyph returns the strokes of an elementary symbol.
func (k Kind) glyph() []stroke {
	const h = glyphHeight
	w := k.width()
	mid := w / 2
	switch k {
	case Fillet:
		return []stroke{moveTo(0, 0), lineTo(0, h), lineTo(w, 0), {op: "Z"}}
	case Square:
		return []stroke{moveTo(0, 0), lineTo(0, h), moveTo(w, 0), lineTo(w, h)}
	case V:
		return []stroke{moveTo(0, h), lineTo(mid, 0), lineTo(w, h)}
	case Bevel:
		return []stroke{moveTo(0, h), lineTo(0, 0), lineTo(w, h)}
	case VRootFace:
		return []stroke{moveTo(0, h), lineTo(mid, rootFace), lineTo(w, h), moveTo(mid, rootFace), lineTo(mid, 0)}
	case BevelRootFace:
		return []stroke{moveTo(0, h), lineTo(0, 0), moveTo(0, rootFace), lineTo(w, h)}
	case U:
		return []stroke{moveTo(mid, 0), lineTo(mid, stem), moveTo(0, h), lineTo(0, stem+bowl),
			curveTo(0, stem+bowl*(1-arcHandle), mid-bowl*arcHandle, stem, mid, stem), bowlUp(mid), lineTo(w, h)}
	case J:
		return []stroke{moveTo(0, h), lineTo(0, 0), moveTo(0, stem), bowlUp(0), lineTo(w, h)}
	case FlareV:
		return append(flare(flareOut, -1), flare(flareOut+flareApart, 1)...)
	case FlareBevel:
		return append([]stroke{moveTo(0, h), lineTo(0, 0)}, flare(flareApart, 1)...)
	}
	return nil
}

// bowlUp is the quarter circle from the foot of a bowl at x up to its right.
func bowlUp(x float64) stroke {
	return curveTo(x+bowl*arcHandle, stem, x+bowl, stem+bowl*(1-arcHandle), x+bowl, stem+bowl)
}

// flare is a round edge that stands upright on the line at x and leans out to the
// left (-1) or right (1).
func flare(x, way float64) []stroke {
	const h = glyphHeight
	return []stroke{moveTo(x, 0), curveTo(x, h*0.45, x+way*flareOut*0.3, h*0.8, x+way*flareOut, h)}
}

// inside is where the figure of the root opening stands: its middle, and the room
// that it has, in units of the drawing.
func (k Kind) inside() (middle, room float64) {
	w := k.width()
	switch k {
	case V:
		return w / 2, 2*rootLow*halfV - 2*within
	case VRootFace:
		return w / 2, w / 2
	case Bevel:
		return rootLow / 2, rootLow - 2*within
	case BevelRootFace:
		return w * 0.27, w * 0.4
	case FlareV:
		return w / 2, flareApart + flareOut/2
	case FlareBevel:
		return (flareApart + flareOut*0.25) / 2, flareApart + flareOut*0.25 - within/2
	}
	return w / 2, w - within
}

// contourGlyph returns the strokes of a contour over a weld whose symbol is so wide
// (units of the drawing): along the slope of a fillet, level over a groove.
func (c Contour) glyph(k Kind, w float64) []stroke {
	const h, least = glyphHeight, 14.0
	// Ends of the contour and the direction away from the face.
	half := max(w, least) * 0.45
	x1, y1, x2, y2, nx, ny := w/2-half, h+4, w/2+half, h+4, 0.0, 1.0
	if k == Fillet {
		const off = 4.2 // distance from the slope, units of the drawing
		nx, ny = 0.7071, 0.7071
		x1, y1, x2, y2 = w*0.22+off*nx, h*0.78+off*ny, w*0.78+off*nx, h*0.22+off*ny
	}
	mx, my := (x1+x2)/2, (y1+y2)/2
	const bulge = 7.0 // of the control point, units of the drawing: half of it is the arc's height
	start := moveTo(x1, y1)
	switch c {
	case Flat:
		return []stroke{start, lineTo(x2, y2)}
	case Convex:
		return []stroke{start, {"Q", []float64{mx + bulge*nx, my + bulge*ny, x2, y2}}}
	case Concave:
		return []stroke{moveTo(x1+3*nx, y1+3*ny), {"Q", []float64{mx - (bulge-3)*nx, my - (bulge-3)*ny, x2 + 3*nx, y2 + 3*ny}}}
	case ToesBlended: // two short hooks at the toes
		return []stroke{moveTo(x1-3, y1+3), {"Q", []float64{x1, y1 - 1, x1 + 4, y1}}, moveTo(x2+3, y2+3), {"Q", []float64{x2, y2 - 1, x2 - 4, y2}}}
	}
	return nil
}

// rootAt is how far from the line the figure of the root opening begins, units of the
// drawing.
func (k Kind) rootAt() float64 {
	if k == VRootFace || k == BevelRootFace {
		return rootLow + 3 // where they are wide enough
	}
	return rootLow
}

// wider stretches strokes along the line.
func wider(strokes []stroke, by float64) []stroke {
	for _, s := range strokes {
		for i := 0; i < len(s.at); i += 2 {
			s.at[i] *= by
		}
	}
	return strokes
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
