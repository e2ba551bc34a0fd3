package section_test

import (
	"math"

	"github.com/peterstace/simplefeatures/geom"

	"seamwright/weld/section"
)

// fataler is a test or a property test.
type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// grid is the grid on which outlines are handed to the library, mm: shared edges
// that agree only within rounding confuse it.
const grid = 1e-4

// region hands an outline, in mm, to a library of polygon clipping, which
// refuses it where it crosses itself.
func region(t fataler, p section.Polygon) geom.Geometry {
	t.Helper()
	return handed(t, p, func(x float64) float64 { return math.Round(x/grid) * grid })
}

// measured returns the area that the library finds in an outline, m2.
func measured(t fataler, p section.Polygon) float64 {
	t.Helper()
	return handed(t, p, func(x float64) float64 { return x }).Area() * mm2
}

func handed(t fataler, p section.Polygon, round func(mm float64) float64) geom.Geometry {
	t.Helper()
	var xy []float64
	add := func(q section.Point) { xy = append(xy, round(q.X/mm), round(q.Y/mm)) }
	for _, q := range p {
		add(q)
	}
	add(p[0])
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

// clipped returns the area that two regions share, mm2.
func clipped(t fataler, a, b geom.Geometry) float64 {
	t.Helper()
	low1, high1, _ := a.Envelope().MinMaxXYs()
	low2, high2, _ := b.Envelope().MinMaxXYs()
	if low1.X > high2.X || low2.X > high1.X || low1.Y > high2.Y || low2.Y > high1.Y {
		return 0
	}
	both, err := geom.Intersection(a, b)
	if err != nil {
		t.Fatal(err)
	}
	return both.Area()
}
