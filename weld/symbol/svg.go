package symbol

import (
	"encoding/xml"
	"fmt"
	"math"
	"strings"
	"unicode"

	"seamwright/unit"
)

// Sizes of the drawing, in its own units.
const (
	textSize   = 14.0
	smallText  = 10.0
	offLine    = 4.5  // of a text from the reference line: brackets reach below their foot
	zWidth     = 20.0 // of the sign for staggered stitches
	charWidth  = 0.58 // width of a figure or small letter over its size, dimensionless
	capital    = 0.78 // the same of a capital letter, dimensionless
	columnGap  = 5.0
	lineGap    = 6.0  // between the solid and the dashed line of system A
	aboveRoom  = 66.0 // over the reference line, for the tallest weld
	belowRoom  = 84.0 // under it, for the arrow
	arrowReach = 46.0
)

// wideCharacter is the width of an M or W over its size, dimensionless.
const wideCharacter = 0.96

// SVG draws the symbol as its system has it, as one SVG document. Figures are
// in mm for the metric system of units and in inches, without the unit, for the
// inch one, which only AWS A2.4 may have. The symbol must be valid and state
// its system.
func (s Symbol) SVG(u unit.System) (string, error) {
	if s.System == 0 {
		return "", &Error{Name: NoSystem, Found: "a symbol to draw without its system", Allowed: names(systemWords), Mend: "name the system of the drawing"}
	}
	if err := s.Validate(); err != nil {
		return "", err
	}
	if u != unit.Metric && s.System != AWSA24 {
		return "", mixed("inches in a symbol of "+s.System.String(), "mm", "draw it in metric units")
	}
	d := drawing{sym: s, inches: u != unit.Metric}
	d.layout()
	d.referenceLine()
	d.junction()
	for _, side := range []Side{ArrowSide, OtherSide} {
		d.weld(side)
	}
	d.tail()
	return d.document(), nil
}

// drawing places the parts of one symbol. The junction of arrow and reference
// line is at (x0, y0).
type drawing struct {
	sym    Symbol
	inches bool
	body   strings.Builder

	x0, y0       float64
	xSize, xWeld float64 // left edges of the size column and of the elementary symbols
	symbolWidth  float64 // of the wider elementary symbol
	xRun, xEnd   float64 // left edge of the lengths, end of the reference line
	shift        float64 // of the other side's symbol, where AWS A2.4 staggers
	xStagger     float64 // middle of the sign for staggered stitches of ISO 2553; 0 for none
	width        float64
}

// layout finds the columns: size, symbol, length.
func (d *drawing) layout() {
	s := d.sym
	d.x0, d.y0 = 70, aboveRoom
	var size, run, gap float64
	for _, w := range s.Welds() {
		d.symbolWidth = max(d.symbolWidth, w.Kind.width()*d.spread(w))
		size = max(size, textWidth(d.size(w), textSize))
		length, spacing := d.run(w.Run)
		run, gap = max(run, textWidth(length, textSize)), max(gap, textWidth(spacing, textSize))
	}
	d.xSize = d.x0 + 14
	d.xWeld = d.xSize + size + columnGap
	if size == 0 {
		d.xWeld = d.xSize
	}
	d.xRun = d.xWeld + d.symbolWidth + columnGap
	if s.Arrow.Finish != 0 || s.Other.Finish != 0 {
		d.xRun += columnGap
	}
	if s.Pattern == Staggered && s.System == AWSA24 {
		d.shift = d.symbolWidth
		d.xRun += d.shift
	}
	d.xEnd = d.xRun + run
	if gap > 0 {
		d.xEnd += columnGap + gap
		if s.Pattern == Staggered {
			d.xStagger = d.xRun + run + columnGap + zWidth/2
			d.xEnd += zWidth + columnGap
		}
	}
	d.xEnd = max(d.xEnd+10, d.x0+90)
	d.width = d.xEnd + 10
	if t := s.Tail.drawn(s.System); t != "" {
		d.width = d.xEnd + 24 + textWidth(t, textSize)
	}
}

// spread is how much wider than usual the symbol of a weld has to be, so that its
// root opening stands inside.
func (d *drawing) spread(w Weld) float64 {
	if !w.Root.Stated {
		return 1
	}
	_, room := w.Kind.inside()
	return max(1, textWidth(d.length(w.Root.Width), smallText)/room)
}

// textWidth estimates how wide a text is, in units of the drawing: figures and small
// letters are alike, capitals wider.
func textWidth(text string, size float64) float64 {
	width := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("MW", r):
			width += wideCharacter
		case unicode.IsUpper(r):
			width += capital
		default:
			width += charWidth
		}
	}
	return width * size
}

// stroke draws a path.
func (d *drawing) stroke(data, more string) {
	fmt.Fprintf(&d.body, "<path d=\"%s\"%s/>\n", data, more)
}

// text writes at a point, the baseline's left end, or its middle.
func (d *drawing) text(x, y, size float64, middle bool, text string) {
	if text == "" {
		return
	}
	anchor := ""
	if middle {
		anchor = ` text-anchor="middle"`
	}
	fmt.Fprintf(&d.body, "<text x=\"%s\" y=\"%s\" font-size=\"%s\"%s>%s</text>\n", svgNumber(x), svgNumber(y), svgNumber(size), anchor, escape(text))
}

// escape makes a text safe inside XML.
func escape(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a Builder does not fail
	return b.String()
}

// referenceLine draws the solid line and, in system A, the dashed one.
func (d *drawing) referenceLine() {
	d.stroke(fmt.Sprintf("M %s %s L %s %s", svgNumber(d.x0), svgNumber(d.y0), svgNumber(d.xEnd), svgNumber(d.y0)), "")
	if d.dashed() {
		y := svgNumber(d.y0 + lineGap)
		d.stroke(fmt.Sprintf("M %s %s L %s %s", svgNumber(d.x0+8), y, svgNumber(d.xEnd), y), ` stroke-dasharray="7 4"`)
	}
}

// dashed reports whether the symbol has a dashed line: system A, unless both
// sides are the same (ISO 2553, read in a trade article).
func (d *drawing) dashed() bool { return d.sym.System == ISO2553A && !d.sym.Symmetric() }

// junction draws the arrow, its break, the circle for all round and the flag
// for a field weld.
func (d *drawing) junction() {
	x, y := d.x0, d.y0
	tipX, tipY := x-arrowReach, y+arrowReach*1.3
	fromX, fromY := x, y
	if d.sym.BrokenArrow {
		fromX, fromY = x-14, y+38
		d.stroke(fmt.Sprintf("M %s %s L %s %s L %s %s", svgNumber(x), svgNumber(y), svgNumber(x-28), svgNumber(y+26), svgNumber(fromX), svgNumber(fromY)), "")
	}
	d.stroke(fmt.Sprintf("M %s %s L %s %s", svgNumber(fromX), svgNumber(fromY), svgNumber(tipX), svgNumber(tipY)), "")
	ux, uy := fromX-tipX, fromY-tipY
	n := math.Hypot(ux, uy)
	ux, uy = ux/n, uy/n
	const long, half = 11.0, 3.2
	d.stroke(fmt.Sprintf("M %s %s L %s %s L %s %s Z", svgNumber(tipX), svgNumber(tipY),
		svgNumber(tipX+long*ux-half*uy), svgNumber(tipY+long*uy+half*ux), svgNumber(tipX+long*ux+half*uy), svgNumber(tipY+long*uy-half*ux)), ` fill="black"`)
	if d.sym.AllRound {
		fmt.Fprintf(&d.body, "<circle cx=\"%s\" cy=\"%s\" r=\"5\"/>\n", svgNumber(x), svgNumber(y))
	}
	if d.sym.Field {
		d.stroke(fmt.Sprintf("M %s %s L %s %s L %s %s L %s %s", svgNumber(x), svgNumber(y), svgNumber(x), svgNumber(y-32),
			svgNumber(x+13), svgNumber(y-26), svgNumber(x), svgNumber(y-20)), ` fill="black"`)
	}
}

// hanging reports whether the weld of a side hangs below the reference line:
// the other side in system A, where the dashed line is the lower one; the arrow
// side elsewhere.
func (d *drawing) hanging(side Side) bool {
	return (side == OtherSide) == (d.sym.System == ISO2553A)
}

// weld draws the elementary symbol of one side with its figures.
func (d *drawing) weld(side Side) {
	w := d.sym.Arrow
	if side == OtherSide {
		w = d.sym.Other
	}
	if w.Kind == 0 {
		return
	}
	hanging := d.hanging(side)
	y := d.y0
	if hanging && d.dashed() {
		y += lineGap
	}
	x := d.xWeld
	if side == OtherSide {
		x += d.shift
	}
	spread := d.spread(w)
	width := w.Kind.width() * spread
	d.stroke(path(wider(w.Kind.glyph(), spread), x, y, hanging), "")
	if w.Contour != 0 {
		d.stroke(path(w.Contour.glyph(w.Kind, width), x, y, hanging), "")
	}
	base := func(distance, size float64) float64 { // baseline of a text that far from the line
		if hanging {
			return y + distance + size*0.75
		}
		return y - distance
	}
	d.text(d.xSize, base(offLine, textSize), textSize, false, d.size(w))
	length, spacing := d.run(w.Run)
	d.text(d.xRun, base(offLine, textSize), textSize, false, length)
	if spacing != "" {
		at := d.xRun + textWidth(length, textSize) + columnGap
		if d.xStagger != 0 {
			at = d.xStagger + zWidth/2 + columnGap
		}
		d.text(at, base(offLine, textSize), textSize, false, spacing)
	}
	d.groove(w, x, spread, base)
	if d.xStagger != 0 && side == ArrowSide {
		const half, rise = zWidth / 2, 11.0
		d.stroke(fmt.Sprintf("M %s %s L %s %s L %s %s L %s %s", svgNumber(d.xStagger-half), svgNumber(d.y0-rise), svgNumber(d.xStagger+half), svgNumber(d.y0-rise),
			svgNumber(d.xStagger-half), svgNumber(d.y0+rise), svgNumber(d.xStagger+half), svgNumber(d.y0+rise)), "")
	}
	if w.Finish != 0 {
		along, out := width/2, glyphHeight+8.0
		if w.Kind == Fillet { // beyond the contour on the slope
			along, out = width*0.95, glyphHeight*0.8
		}
		d.text(x+along, base(out, smallText), smallText, true, w.Finish.String())
	}
}

// groove writes the root opening inside the symbol, whose left edge is at x and which
// is drawn wider than usual by a factor, and the angle beyond it.
func (d *drawing) groove(w Weld, x, spread float64, base func(distance, size float64) float64) {
	if w.Root.Stated {
		inside, _ := w.Kind.inside()
		d.text(x+inside*spread, base(w.Kind.rootAt(), smallText), smallText, true, d.length(w.Root.Width))
	}
	if w.Angle != 0 {
		out := max(glyphHeight, w.Kind.rootAt()+smallText) + 4
		if w.Contour != 0 {
			out += 8
		}
		if w.Finish != 0 {
			out += smallText
		}
		d.text(x+w.Kind.width()*spread/2, base(out, smallText), smallText, true, degrees(w.Angle)+"°")
	}
}

// tail draws the fork and its text.
func (d *drawing) tail() {
	text := d.sym.Tail.drawn(d.sym.System)
	if text == "" {
		return
	}
	x, y := d.xEnd, d.y0
	d.stroke(fmt.Sprintf("M %s %s L %s %s L %s %s", svgNumber(x+12), svgNumber(y-12), svgNumber(x), svgNumber(y), svgNumber(x+12), svgNumber(y+12)), "")
	d.text(x+16, y+textSize*0.35, textSize, false, text)
}

// size writes the figure left of the symbol: with its letter in ISO 2553, a
// bare leg, or depth and weld size (E), in AWS A2.4.
func (d *drawing) size(w Weld) string {
	z := w.Size
	if d.sym.System != AWSA24 {
		return z.String()
	}
	out := ""
	if w.Depth != 0 {
		out = d.length(w.Depth)
	}
	switch {
	case z.Is == Penetration:
		out += "(" + d.length(z.Value) + ")"
	case z.Is == Leg:
		out = d.length(z.Value)
		if z.Second != 0 {
			out += " x " + d.length(z.Second)
		}
	}
	return out
}

// run writes the figures right of the symbol: "3 x 50" and "(100)" in ISO 2553,
// "50-100" in AWS A2.4.
func (d *drawing) run(r Run) (length, spacing string) {
	switch {
	case r.Length == 0:
		return "", ""
	case r.SpacingIs == Pitch:
		return d.length(r.Length) + "-" + d.length(r.Spacing), ""
	case r.SpacingIs == ClearGap:
		if length = mm(r.Length); r.Elements != 0 {
			length = fmt.Sprintf("%d × %s", r.Elements, length)
		}
		return length, "(" + mm(r.Spacing) + ")"
	}
	return d.length(r.Length), ""
}

// document wraps the parts.
func (d *drawing) document() string {
	return fmt.Sprintf("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %[1]s %[2]s\" width=\"%[1]s\" height=\"%[2]s\" font-family=\"sans-serif\">\n"+
		"<title>%[3]s</title>\n<rect width=\"%[1]s\" height=\"%[2]s\" fill=\"white\"/>\n<g fill=\"none\" stroke=\"black\" stroke-width=\"1.4\" stroke-linejoin=\"round\" stroke-linecap=\"round\">\n%[4]s</g>\n</svg>\n",
		svgNumber(math.Ceil(d.width)), svgNumber(aboveRoom+belowRoom), escape(d.sym.String()), strings.ReplaceAll(d.body.String(), "<text ", "<text fill=\"black\" stroke=\"none\" "))
}

// length writes a length of the drawing, in mm or as an inch fraction.
func (d *drawing) length(x float64) string {
	if !d.inches {
		return mm(x)
	}
	inch := x / unit.Inch
	for _, den := range []float64{1, 2, 4, 8, 16, 32, 64} {
		num := math.Round(inch * den)
		if math.Abs(inch*den-num) > 1e-6 {
			continue
		}
		whole, part := math.Floor(num/den), math.Mod(num, den)
		switch {
		case part == 0:
			return digits(whole)
		case whole == 0:
			return fmt.Sprintf("%g/%g", part, den)
		}
		return fmt.Sprintf("%g-%g/%g", whole, part, den)
	}
	return digits(math.Round(inch*1000) / 1000)
}
