package mesh

import (
	"cmp"
	"fmt"
	"slices"

	"seamwright/geom/r3"
)

// CheckOptions bounds a check. The zero value means the defaults.
type CheckOptions struct {
	// Pairs bounds the pairs of triangles that are looked at in search of some
	// that cut each other: 0 means 20 million, a negative number none at all.
	Pairs int
	// Holes bounds the holes that are listed, longest first: 0 means 20. All
	// are counted.
	Holes int
}

// Report says what a mesh is and what is wrong with it. Vertices at equal
// positions count as one, and triangles counted as collapsed or doubled are set
// aside before shells, holes and winding are looked at. Lengths are in m, areas
// in m2, volumes in m3.
type Report struct {
	Triangles int // all of them
	Vertices  int // distinct positions that triangles use
	Repeated  int // vertices at the position of another
	Unused    int // vertices that no triangle uses

	Shells    int // sets of triangles joined across edges
	Open      int // of these, shells with a border
	Twisted   int // shells that no winding suits, as a Moebius band
	InsideOut int // closed shells that face inwards all over
	Cavities  int // closed shells that face inwards inside another, as they should
	Undecided int // shells facing inwards of which it was not found out whether they are cavities
	Flipped   int // triangles that face the wrong way, those of inside-out shells included

	Holes      []Hole // the longest borders, longest first
	HoleCount  int    // all borders
	HoleLength float64

	Collapsed  int // triangles with two corners at one position
	ZeroArea   int // others less than 1e-9 m high
	Slivers    int // others less than a thousandth as high as long
	Doubled    int // triangles that stand there already
	BackToBack int // pairs of triangles that differ in winding only: faces in which bodies touch
	ManyEdges  int // edges of three or more triangles of which nobody can say how they belong together (non-manifold)
	Touching   int // edges of four or more triangles where bodies touch

	Crossings Crossings // triangles that cut each other

	Box    Box
	Area   float64
	Volume float64 // as drawn; of use only if Sound, and overlaps of shells count twice
	// Centroid is the centre of volume where CentroidOfVolume says so, else
	// that of the area.
	Centroid         r3.Vec
	CentroidOfVolume bool

	// UnitsSuspect says in words why the size of the box is odd; else it is
	// empty. It is a hint: the unit is what was declared.
	UnitsSuspect string
}

// Hole is a chain of edges that only one triangle has.
type Hole struct {
	Edges  int
	Length float64 // m, along the edges
	Centre r3.Vec  // m, the middle of the edges
	Loop   bool    // it comes back to its start; else it ends where more than two triangles meet
}

// Closed reports whether the mesh has triangles and all its shells are closed.
func (r Report) Closed() bool { return r.Shells > 0 && r.Open == 0 }

// Sound reports whether the mesh bounds solid bodies: closed, wound outwards,
// nothing degenerate, doubled or non-manifold, and a complete search that found
// no triangles cutting each other. Bodies may touch.
func (r Report) Sound() bool {
	return r.Closed() && r.Twisted+r.Flipped+r.Undecided+r.Collapsed+r.ZeroArea+r.Doubled+r.ManyEdges == 0 &&
		r.Crossings.Pairs == 0 && !r.Crossings.Bounded
}

const (
	// largest and smallest are the sizes of a box, in m, beyond which the unit
	// is doubted. Common practice, no source.
	largest  = 100.0
	smallest = 1e-3

	defaultHoles = 20
)

// Check looks a mesh over and changes nothing. The error is that of Validate.
func Check(m Mesh, o CheckOptions) (Report, error) {
	if err := m.Validate(); err != nil {
		return Report{}, err
	}
	r := Report{Triangles: len(m.Triangles)}
	r.Box, r.Area, r.Volume = m.Box(), m.Area(), m.Volume()
	r.Centroid, r.CentroidOfVolume = m.Centroid()
	r.UnitsSuspect = oddSize(r.Box)

	kept, unused := used(m)
	distinct, to := weldEqual(kept.Vertices)
	r.Vertices, r.Unused, r.Repeated = len(distinct), unused, len(kept.Vertices)-len(distinct)
	clean := reindexed(distinct, kept.Triangles, to)
	clean, r.Collapsed = withoutCollapsed(clean)
	var d doubled
	clean, d = withoutDoubles(clean)
	r.Doubled, r.BackToBack = d.dropped, d.backToBack
	for i := range clean.Triangles {
		a, b, c := clean.Corners(i)
		switch h := height(a, b, c); {
		case h <= degenerateHeight:
			r.ZeroArea++
		case h < sliverShare*max(a.Dist(b), b.Dist(c), c.Dist(a)):
			r.Slivers++
		}
	}
	r.topology(clean, o)
	switch {
	case o.Pairs == 0:
		r.Crossings = findCrossings(clean, maxPairs)
	case o.Pairs > 0:
		r.Crossings = findCrossings(clean, o.Pairs)
	default:
		r.Crossings.Bounded = true
	}
	return r, nil
}

// topology fills in shells, winding, edges and holes of a mesh without
// collapsed and doubled triangles.
func (r *Report) topology(m Mesh, o CheckOptions) {
	a := m.Adjacency()
	shells, against := findShells(m, a)
	w := orient(m, shells, against)
	r.Shells, r.Twisted, r.InsideOut, r.Cavities = len(shells), w.twisted, w.insideOut, w.cavities
	r.Undecided, r.Flipped = w.undecided, w.turned
	for _, s := range shells {
		if !s.closed {
			r.Open++
		}
	}
	for e := range a.Edges {
		switch sides := a.Sides(int32(e)); {
		case len(sides) <= 2:
		case a.Across(sides[0]) < 0:
			r.ManyEdges++
		default:
			r.Touching++
		}
	}
	for _, b := range borders(m, a) {
		length, middle := b.length(m)
		h := Hole{Edges: len(b.vertices), Length: length, Centre: middle, Loop: b.closed}
		if !b.closed {
			h.Edges--
		}
		r.Holes = append(r.Holes, h)
		r.HoleLength += length
	}
	r.HoleCount = len(r.Holes)
	slices.SortStableFunc(r.Holes, func(p, q Hole) int { return cmp.Compare(q.Length, p.Length) })
	keep := cmp.Or(max(o.Holes, 0), defaultHoles)
	r.Holes = slices.Clip(r.Holes[:min(keep, len(r.Holes))])
}

// oddSize says what is odd about the size of a box, if anything.
func oddSize(b Box) string {
	s := b.Size()
	switch size := max(s.X, s.Y, s.Z); {
	case b.IsEmpty():
		return ""
	case size > largest:
		return fmt.Sprintf("units suspect: the longest side of the box is %.4g m, over %g m; if the file is in mm, declare mm", size, largest)
	case size < smallest:
		return fmt.Sprintf("units suspect: the longest side of the box is %.4g mm, under %g mm; if the file is in m or in, declare that", size*1000, smallest*1000)
	}
	return ""
}

// Lines returns the report in plain words, one fact a line. Faults that were
// not found are left out.
func (r Report) Lines() []string {
	size := r.Box.Size()
	out := []string{
		fmt.Sprintf("%d triangles, %d vertices, %d shells", r.Triangles, r.Vertices, r.Shells),
		fmt.Sprintf("box %.4g x %.4g x %.4g mm", size.X*1e3, size.Y*1e3, size.Z*1e3),
	}
	if r.Sound() {
		out = append(out, fmt.Sprintf("closed; volume %.6g cm3, area %.6g cm2", r.Volume*1e6, r.Area*1e4))
	} else {
		out = append(out, fmt.Sprintf("not a sound solid; area %.6g cm2, no volume given", r.Area*1e4))
	}
	if r.UnitsSuspect != "" {
		out = append(out, r.UnitsSuspect)
	}
	for _, f := range []struct {
		n    int
		text string
	}{
		{r.HoleCount, fmt.Sprintf("holes or open borders, %.4g mm long together", r.HoleLength*1e3)},
		{r.Open, "shells are open"},
		{r.Flipped, "triangles face the wrong way"},
		{r.InsideOut, "shells are inside out"},
		{r.Twisted, "shells cannot be wound one way round"},
		{r.Cavities, "shells are cavities inside others"},
		{r.Undecided, "shells face inwards; whether they are cavities was not found out"},
		{r.Collapsed, "triangles have two corners at one place"},
		{r.ZeroArea, "triangles have no area"},
		{r.Slivers, "triangles are slivers"},
		{r.Doubled, "triangles stand there twice"},
		{r.BackToBack, "pairs of triangles lie back to back"},
		{r.ManyEdges, "edges are shared by more than two triangles that do not fit together"},
		{r.Touching, "edges are where bodies touch"},
		{r.Crossings.Pairs, "pairs of triangles cut each other"},
	} {
		if f.n > 0 {
			out = append(out, fmt.Sprintf("%d %s", f.n, f.text))
		}
	}
	if r.Crossings.Bounded {
		out = append(out, fmt.Sprintf("the search for triangles that cut each other stopped after %d pairs: there may be more", r.Crossings.Tested))
	}
	return out
}
