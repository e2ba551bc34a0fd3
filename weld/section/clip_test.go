package section_test

import (
	"github.com/peterstace/simplefeatures/geom"

	"seamwright/weld/section"
)

// fataler is a test or a property test.
type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// region hands an outline, in mm, to a library of polygon clipping, which
// refuses it where it crosses itself.
func region(t fataler, p section.Polygon) geom.Geometry {
	t.Helper()
	var xy []float64
	for _, q := range p {
		xy = append(xy, q.X/mm, q.Y/mm)
	}
	xy = append(xy, p[0].X/mm, p[0].Y/mm)
	out := geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))})
	if err := out.Validate(); err != nil {
		t.Fatalf("outline: %v", err)
	}
	return out.AsGeometry()
}

// scanned integrates the widths of outlines over their height, m2: a method
// that shares nothing with the closed forms.
func scanned(outlines ...section.Polygon) float64 {
	const steps = 1000
	total := 0.0
	for _, p := range outlines {
		low, high := p.Bounds()
		sum := 0.0
		for i := range steps {
			y := low.Y + (high.Y-low.Y)*(float64(i)+0.5)/steps
			for j, a := range p {
				b := p[(j+1)%len(p)]
				if (a.Y <= y) == (b.Y <= y) {
					continue
				}
				x := a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
				if b.Y > a.Y { // counter-clockwise: up on the right
					sum += x
				} else {
					sum -= x
				}
			}
		}
		total += sum * (high.Y - low.Y) / steps
	}
	return total
}
