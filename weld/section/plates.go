package section

import "slices"

// Plates returns the two plates beside the groove as convex outlines, those at
// negative X first, each out to reach from the middle of the gap (m) and as high
// as the plates are thick; reach is to be beyond the mouth. A round edge is cut
// into as many outlines as its hollow has straight steps.
func (g Groove) Plates(reach float64) []Polygon {
	if g.Prep.Flare() {
		g.Thickness = g.Radius // the round part goes on above the fill
	}
	left, right := g.edges()
	var out []Polygon
	for _, p := range pieces(mirroredAll(left), reach) {
		out = append(out, mirroredAll(p))
	}
	return append(out, pieces(upward(right), reach)...)
}

// upward turns an edge round that is told from the front face to the back.
func upward(edge []Point) []Point {
	if n := len(edge); n > 1 && edge[0].Y > edge[n-1].Y {
		edge = slices.Clone(edge)
		slices.Reverse(edge)
	}
	return edge
}

// pieces cuts the metal between an edge at positive X, told upward, and reach (m)
// into convex outlines.
func pieces(edge []Point, reach float64) []Polygon {
	edge = upward(edge)
	var out []Polygon
	for from := 0; from < len(edge)-1; {
		to := from + 1
		for to+1 < len(edge) && edge[to].sub(edge[to-1]).cross(edge[to+1].sub(edge[to])) <= 0 {
			to++
		}
		if high, low := edge[to].Y, edge[from].Y; high-low > apart {
			p := Polygon{{reach, low}, {reach, high}}
			for i := to; i >= from; i-- {
				p = append(p, edge[i])
			}
			out = append(out, p)
		}
		from = to
	}
	return out
}

// Hull returns the smallest convex outline that holds the points, counter-clockwise;
// nil for points on one line. Monotone chain (Andrew, 1979; from memory).
func Hull(points []Point) Polygon {
	at := slices.Clone(points)
	slices.SortFunc(at, func(a, b Point) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	at = slices.Compact(at)
	var out Polygon
	half := func() {
		floor := len(out)
		for _, p := range at {
			for n := len(out); n >= floor+2 && out[n-1].sub(out[n-2]).cross(p.sub(out[n-1])) <= 0; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
	}
	if len(at) < 3 {
		return nil
	}
	half()
	slices.Reverse(at)
	half()
	if len(out) < 3 {
		return nil
	}
	return out
}
